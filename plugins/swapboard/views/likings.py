"""What somebody would like, with names as a page shows them."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from swapboard.matching.types import Move
from swapboard.records.types import Board, Part, Want
from swapboard.views.types import CardTile, LikedCard

SAID_IN_ORDER = ("anything", "card", "theme", "medium", "maker")
"""What a want may ask for: "birds in linocut by Tom Varga"."""


def likings(board: Board, wants: Iterable[Want]) -> tuple[Want, ...]:
    """Wants as pages show them."""
    return tuple(liking(board, want) for want in wants)


def liking(board: Board, want: Want) -> Want:
    """A want with titles in place of makers' and cards' names, its parts in the order of speech.

    One that names a card which is not shown here stays as it is written.
    """
    cards = (part.names for part in want.all_of + want.none_of if part.kind == "card")
    if not all(name in board.cards for names in cards for name in names):
        return replace(want, understood=False)
    return replace(want, all_of=_said(board, want.all_of), none_of=_said(board, want.none_of))


def liked(
    board: Board, tile: Callable[[str], CardTile], moves: Iterable[Move]
) -> tuple[LikedCard, ...]:
    """Cards that would move, each with the want that it suits."""
    return tuple(LikedCard(tile(move.card), liking(board, move.want)) for move in moves)


def _said(board: Board, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    titled = {"maker": board.makers, "card": board.cards}
    said = []
    for part in parts:
        known = titled.get(part.kind, {})
        names = tuple(known[name].title if name in known else name for name in part.names)
        said.append(replace(part, names=names))
    return tuple(sorted(said, key=lambda part: SAID_IN_ORDER.index(part.kind)))
