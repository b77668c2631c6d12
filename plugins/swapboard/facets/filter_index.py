"""The data that the filter works on, as a classic script: it loads from file:// too."""

from collections.abc import Sequence

from swapboard.facets.script_data import script_call
from swapboard.views.types import CardTile, Link, Picture

VERSION = 1


def filter_index(rows: Sequence[tuple[CardTile, Sequence[Link], Sequence[Link]]]) -> str:
    """JavaScript that hands all cards to the filter.

    `rows` are (tile, themes, media), newest first. Names that recur are listed
    once and pointed to by number.
    """
    themes, media, makers = _Numbered(), _Numbered(), _Numbered()
    cards = [
        {
            "path": tile.path,
            "title": tile.title,
            "maker": makers.number(tile.maker),
            "themes": [themes.number(link) for link in of_themes],
            "media": [media.number(link) for link in of_media],
            "state": tile.state,
            "edition": list(tile.edition),
            "copies_left": tile.copies_left,
            "panels": tile.panels,
            **_picture(tile.picture),
        }
        for tile, of_themes, of_media in rows
    ]
    data = {
        "version": VERSION,
        "themes": themes.rows,
        "media": media.rows,
        "makers": makers.rows,
        "cards": cards,
    }
    return script_call("swapboardCards", data)


def _picture(picture: Picture | None) -> dict[str, object]:
    if picture is None:
        return {"pictures": None, "alt": "", "edge": "square"}
    pictures = {"avif": [list(size) for size in picture.avif], "jpeg": list(picture.jpeg)}
    return {"pictures": pictures, "alt": picture.alt, "edge": picture.edge}


class _Numbered:
    """Links in the order first seen, each with its number."""

    def __init__(self) -> None:
        self.rows: list[dict[str, str]] = []
        self._numbers: dict[Link, int] = {}

    def number(self, link: Link) -> int:
        if link not in self._numbers:
            self._numbers[link] = len(self.rows)
            self.rows.append({"name": link.text, "path": link.path})
        return self._numbers[link]
