"""The data that an offer is composed from: who is on the board, and what may be had."""

from collections.abc import Sequence
from datetime import date

from swapboard.facets.script_data import script_call
from swapboard.views.types import CardTile

VERSION = 1


def composer_index(
    makers: Sequence[tuple[str, str]],
    cards: Sequence[tuple[CardTile, str]],
    calls: Sequence[tuple[str, str, int, date | None, date | None]],
) -> str:
    """JavaScript that hands makers, available cards and open calls to the composer.

    `makers` are (name, public name), `cards` (tile, its maker's name), `calls`
    (name, title, cards to send, the day that sign-up opens or None where it has, its
    last day or None); all are listed in the order given. Names are file stems. A
    card's maker is the maker's number in the list; cards of nobody on the list are
    left out, since nobody could be asked for them.
    """
    numbers = {name: number for number, (name, _) in enumerate(makers)}
    rows = [
        [tile.name, tile.title, numbers[maker], _picture(tile)]
        for tile, maker in cards
        if maker in numbers
    ]
    data = {
        "version": VERSION,
        "makers": [list(maker) for maker in makers],
        "cards": rows,
        "calls": [[*call, _day(opens), _day(last)] for *call, opens, last in calls],
    }
    return script_call("swapboardComposer", data)


def _picture(tile: CardTile) -> list[object] | None:
    """[AVIF of the least width, JPEG, width, height, words], or None."""
    picture = tile.picture
    if picture is None:
        return None
    smallest = picture.avif[0][0] if picture.avif else ""
    return [smallest, *picture.jpeg, picture.alt]


def _day(day: date | None) -> str:
    return day.isoformat() if day else ""
