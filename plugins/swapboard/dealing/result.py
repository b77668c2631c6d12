"""What comes out of a deal."""

from dataclasses import dataclass

from swapboard.dealing.obstacles import Obstacle
from swapboard.dealing.rules import APART, DOUBLE, MET, Maker

_RELAXED_WORDS = {
    MET: ("1 card comes from a maker met before", "{} cards come from makers met before"),
    DOUBLE: (
        "1 card is one more from a maker of whom the taker has one",
        "{} cards are one more from a maker of whom the taker has one",
    ),
    APART: ("1 card crosses a pair kept apart", "{} cards cross pairs kept apart"),
}


@dataclass(frozen=True, slots=True, order=True)
class DealtCard:
    """Card `number` of `giver`'s pile, counted from 1 without the host's, goes to `taker`."""

    giver: Maker
    number: int
    taker: Maker


@dataclass(frozen=True, slots=True)
class Relaxed:
    """A rule that could not be kept whole, and for how many cards: as few as can be."""

    rule: str
    cards: int

    @property
    def words(self) -> str:
        """The same as a sentence, which names nobody."""
        one, more = _RELAXED_WORDS[self.rule]
        return f"{one if self.cards == 1 else more.format(self.cards)}: fewer is not possible."


@dataclass(frozen=True, slots=True)
class Deal:
    """Who gets how many of whose cards, and what that is worth.

    `table` has the cells (giver, taker) that hold cards, sorted; `cards` the same
    card by card, sorted. `method` and `guarantee` say how it was drawn, `exact`
    whether every valid deal was exactly equally likely, and `ways` how many tables
    there are, or None where they were not counted. `obstacles` say why rules had
    to be relaxed, `relaxed` by how much. Where not even that helps, `possible` is
    False and there are no cards. `prices` of givers and takers (in the order of
    `makers`) certify that no table relaxes less.
    """

    makers: tuple[Maker, ...]
    possible: bool
    table: dict[tuple[Maker, Maker], int]
    cards: tuple[DealtCard, ...]
    method: str
    guarantee: str
    exact: bool
    ways: int | None
    relaxed: tuple[Relaxed, ...]
    obstacles: tuple[Obstacle, ...]
    prices: tuple[tuple[int, ...], tuple[int, ...]]
