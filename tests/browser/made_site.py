"""A site of 120 hand-made cards, drawn by the theme alone: its counts are known by heart."""

import json
from dataclasses import replace
from pathlib import Path

from PIL import Image, ImageDraw

from swapboard.facets.composer_index import composer_index
from swapboard.facets.filter_index import filter_index
from swapboard.site.theme_files import theme_files
from swapboard.views.pages import CardList, OfferList
from swapboard.views.types import CardTile, Facet, Link, Picture
from theme import examples
from theme.rendering import THEME, page

CARDS = 120
SHEET = 45
THEMES = (("birds", 2), ("night", 3), ("small rooms", 5), ("vögel & meer", 7))
MEDIA = ("linocut", "watercolour", "collage")
MAKERS = (examples.INES, examples.TAM, examples.GUEST)
MAKER_NAMES = ("ines-okafor", "tam-brackwater", "guest")
STATES = ("available", "available", "available", "spoken for", "traded", "keeping")
LONG = "Dampfschifffahrtsgesellschaftskapitänsmützenabzeichen" * 3
NOT_WORDS = {"path", "avif", "jpeg", "edge", "state", "phase", "what", "edition", "chosen_by",
             "index", "newer", "older", "script", "proof"}  # fmt: skip
SHARP = "<img src=x onerror=document.title='run'>"


def themes_of(number: int) -> list[str]:
    """A card has every theme whose step divides its number."""
    return [name for name, step in THEMES if number % step == 0]


def medium_of(number: int) -> str:
    """Media take turns."""
    return MEDIA[number % len(MEDIA)]


def state_of(number: int) -> str:
    """States take turns, half of the cards being available."""
    return STATES[number % len(STATES)]


def tile(number: int) -> CardTile:
    """Card `number`: every ninth lies on its side, every eleventh has no picture."""
    landscape = number % 9 == 0
    name = "landscape" if landscape else "portrait"
    picture = examples.picture(name, landscape, alt=f"Strokes on card {number}")
    edge = ("square", "rounded", "torn")[number % 3]
    picture = replace(picture, avif=_with_a_comma(picture), edge=edge)
    return CardTile(
        name=f"card-{number}",
        path=f"cards/card-{number}.html",
        title=SHARP if number == 119 else f"Card {number}",
        maker=MAKERS[number % 3],
        picture=None if number % 11 == 0 else picture,
        state=state_of(number),
        edition=("print", number, CARDS) if number % 4 == 1 else ("original", None, None),
        copies_left=2 if number % 4 == 1 else 1,
    )


def write(folder: Path, direction: str = "ltr") -> Path:
    """Write the whole site into an empty `folder`."""
    _put_theme(folder)
    (folder / "pictures").mkdir()
    for name in ("portrait", "landscape", "heron", "heron-back", "tram", "fern", "moon", "moth",
                 "kettle"):  # fmt: skip
        picture = examples.picture(name, name in ("landscape", "tram"))
        _draw(folder / "pictures", picture)
        _draw(folder / "pictures", replace(picture, avif=_with_a_comma(picture)))
    _put_proof(folder)
    board = examples.board(direction)
    for path, (template, view) in _pages().items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(page(template, view, board, path), "utf-8")
    (folder / "data").mkdir()
    rows = [
        (
            tile(n),
            [Link(name, f"themes/{_stem(name)}.html") for name in themes_of(n)],
            [Link(medium_of(n), f"media/{medium_of(n)}.html")],
        )
        for n in range(CARDS)
    ]
    (folder / "data" / "cards.js").write_text(filter_index(rows), "utf-8")
    (folder / "data" / "compose.js").write_text(_composer_index(), "utf-8")
    return folder


def _composer_index() -> str:
    """What the composer knows: the site's makers and available cards, and one call."""
    makers = [(name, name.replace("-", " ").title()) for name in MAKER_NAMES]
    cards = [(tile(n), MAKER_NAMES[n % 3]) for n in range(CARDS) if state_of(n) == "available"]
    return composer_index(makers, cards, [("small-lights", "Small lights", 4, None, None)])


def write_with_long_words(folder: Path) -> Path:
    """One page of each kind in which every word that people wrote is far too long."""
    _put_theme(folder)
    _put_proof(folder)
    board = replace(examples.board(), name=LONG, about=LONG)
    for path, (template, view) in examples.pages().items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(page(template, _lengthened(view), board, path), "utf-8")
    return folder


def _put_theme(folder: Path) -> None:
    for path, data in theme_files(THEME / "static"):
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(data)


def _put_proof(folder: Path) -> None:
    """What the example's page is to verify; it does not hold, and the page says so."""
    proof = json.dumps({"format": "swapboard deal", "version": 1, "list": "swapboard list 1\n"})
    (folder / "verify").mkdir()
    (folder / "verify" / "small-lights.json").write_text(proof, "utf-8")
    script = f"globalThis.swapboardProof = {proof};\n"
    (folder / "verify" / "small-lights.js").write_text(script, "utf-8")


def _lengthened(value):
    if isinstance(value, str):
        return value if value in ("all", "theme", "medium", "post") else LONG
    if isinstance(value, tuple):
        return tuple(map(_lengthened, value))
    if hasattr(value, "__dataclass_fields__"):
        names = [name for name in value.__dataclass_fields__ if name not in NOT_WORDS]
        return replace(value, **{name: _lengthened(getattr(value, name)) for name in names})
    return value


def _stem(theme: str) -> str:
    return theme.replace(" & ", "-").replace(" ", "-").replace("ö", "o")


def _pages() -> dict[str, tuple[str, object]]:
    pages = examples.pages()
    themes = tuple(
        Facet(name, f"themes/{_stem(name)}.html", sum(n % step == 0 for n in range(CARDS)))
        for name, step in THEMES
    )
    media = tuple(Facet(name, f"media/{name}.html", CARDS // 3) for name in MEDIA)
    newest = CardList(
        about="all", name="", cards=tuple(map(tile, range(SHEET))), count=CARDS, number=3, pages=3,
        newer="", older="cards.page-2.html", themes=themes, media=media, index="data/cards.js",
    )  # fmt: skip
    pages["cards.html"] = ("cards.html", newest)
    for name, step in THEMES:
        cards = tuple(tile(n) for n in range(CARDS) if n % step == 0)
        view = replace(newest, about="theme", name=name, cards=cards, count=len(cards), older="")
        pages[f"themes/{_stem(name)}.html"] = ("cards.html", view)
    pages["offers.html"] = ("offers.html", _offers())
    for n in (0, 1):
        pages[f"cards/card-{n}.html"] = ("card.html", replace(examples.card_page(), tile=tile(n)))
    return pages


def _offers() -> OfferList:
    """Six offers: by turns of birds, of night and of both; the last two have ended."""
    birds, night = examples.BIRDS, examples.NIGHT
    themes = ((birds,), (night,), (birds, night)) * 2
    states = ("proposed", "agreed", "agreed", "complete", "lost", "declined")
    made = [
        replace(examples.offer(f"offer-{n}", states[n]), themes=themes[n],
                media=(examples.LINOCUT,) if n < 4 else ())
        for n in range(6)
    ]  # fmt: skip
    groups = (("open", made[:1]), ("agreed", made[1:3]), ("complete", made[3:4]),
              ("ended", made[4:]))  # fmt: skip
    offers = tuple((group, tuple(tiles)) for group, tiles in groups)
    return OfferList(offers, examples.facets()[:2], examples.media())


def write_of_size(folder: Path, count: int) -> Path:
    """A cards page of `count` cards with the filter's data, and nothing else."""
    _put_theme(folder)
    shown = tuple(map(tile, range(min(count, SHEET))))
    view = CardList(
        about="all", name="", cards=shown, count=count, number=1, pages=1, newer="", older="",
        themes=(), media=(), index="data/cards.js",
    )  # fmt: skip
    html = page("cards.html", view, examples.board(), "cards.html")
    (folder / "cards.html").write_text(html, "utf-8")
    (folder / "data").mkdir()
    rows = [(tile(n), (), ()) for n in range(count)]
    (folder / "data" / "cards.js").write_text(filter_index(rows), "utf-8")
    return folder


def _with_a_comma(picture: Picture) -> tuple[tuple[str, int, int], ...]:
    # A comma ends an address in srcset, so it has to be written as %2C there.
    return tuple((path.replace("-", ", "), wide, high) for path, wide, high in picture.avif)


def _draw(folder: Path, picture: Picture) -> None:
    for path, wide, high in (*picture.avif, picture.jpeg):
        file = folder / Path(path).name
        if not file.exists():
            image = Image.new("RGB", (wide, high), "#2d4a53")
            ImageDraw.Draw(image).ellipse((wide // 4, high // 4, wide, high), fill="#c9a66b")
            image.save(file, quality=40)
