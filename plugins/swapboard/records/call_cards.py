"""Cards that were sent in for a call: hidden until it is opened, its gallery after that."""

from dataclasses import replace

from swapboard.records.call_phase import opened_on
from swapboard.records.types import Board, Call, Card


def is_hidden(board: Board, card: Card) -> bool:
    """Whether a card's call is not opened yet, so that nobody may see the card."""
    if not card.call:
        return False
    call = board.calls.get(card.call)
    return call is None or opened_on(call) is None


def without_hidden(board: Board) -> Board:
    """The board as everybody may see it."""
    shown = {name: card for name, card in board.cards.items() if not is_hidden(board, card)}
    return board if len(shown) == len(board.cards) else replace(board, cards=shown)


def cards_of(board: Board, call: Call) -> tuple[Card, ...]:
    """The cards sent in for a call, by name."""
    return tuple(card for _, card in sorted(board.cards.items()) if card.call == call.name)


def piles(board: Board, call: Call) -> dict[tuple[str, int], str]:
    """The names of cards by (maker, number in the maker's pile).

    A pile is numbered in the order of its cards' names, and only where every card of
    it that arrived has a post: with one missing nobody could tell the numbers.
    """
    arrived = {person.maker: person.cards for person in call.people}
    by_maker: dict[str, list[str]] = {}
    for card in cards_of(board, call):
        by_maker.setdefault(card.maker, []).append(card.name)
    return {
        (maker, number): name
        for maker, names in by_maker.items()
        if len(names) == arrived.get(maker)
        for number, name in enumerate(names, 1)
    }
