"""What is to be mended, as numbers: who may get how many of whose cards, and what counts."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from swapboard.dealing.rules import APART, DOUBLE, MET, Maker

Cell = tuple[Maker, Maker]
Card = tuple[Maker, int, Maker]
Aims = frozenset[str]

SHORT, TOUCHED, MOVED = "short", "touched", "moved"
_NONE: Aims = frozenset()


@dataclass(frozen=True)
class Task:
    """`kept` lie in closed envelopes, `loose` in open ones; `piles` are all of a giver's
    cards by number that are not closed in; `quiet` are the takers to whom nothing happened.

    `met` and `apart` hold cells, apart both ways; `relax` names the rules that may give
    way, the first of them first.
    """

    takers: tuple[Maker, ...]
    due: Mapping[Maker, int]
    piles: Mapping[Maker, frozenset[int]]
    kept: tuple[Card, ...]
    loose: tuple[Card, ...]
    quiet: frozenset[Maker]
    met: frozenset[Cell]
    apart: frozenset[Cell]
    relax: tuple[str, ...]

    @cached_property
    def givers(self) -> tuple[Maker, ...]:
        """Everybody with loose cards, in order."""
        return tuple(sorted(giver for giver, pile in self.piles.items() if pile))

    @cached_property
    def now(self) -> Mapping[Cell, int]:
        """How many cards lie in open envelopes, by (giver, taker)."""
        return Counter((giver, taker) for giver, _, taker in self.loose)

    @cached_property
    def aims(self) -> tuple[str, ...]:
        """What is to be as little as can be, the weightiest first."""
        return (SHORT, *reversed(self.relax), TOUCHED, MOVED)

    @cached_property
    def cells(self) -> dict[Cell, tuple[tuple[int, Aims], ...]]:
        """For each cell that can hold cards: how many count for which aims, the first of
        them first. Those that lie there count for none; the others have been moved."""
        found = {}
        for taker in self.takers:
            for giver in self.givers:
                if most := self._most((giver, taker)):
                    found[giver, taker] = self._parts((giver, taker), most)
        return found

    def _most(self, cell: Cell) -> int:
        (giver, taker), had = cell, self.now.get(cell, 0)
        if giver == taker:
            return 0
        shut = cell in self.apart and APART not in self.relax
        if shut or cell in self.met and MET not in self.relax:
            return had
        most = min(len(self.piles[giver]), max(self.due[taker], had))
        return most if DOUBLE in self.relax else min(most, max(1, had))

    def _parts(self, cell: Cell, most: int) -> tuple[tuple[int, Aims], ...]:
        had = min(self.now.get(cell, 0), most)
        moved = {MOVED}
        moved |= {MET} if cell in self.met else set()
        moved |= {APART} if cell in self.apart else set()
        first = min(most, max(1, had)) - had
        parts = ((had, _NONE), (first, frozenset(moved)),
                 (most - had - first, frozenset(moved | {DOUBLE})))  # fmt: skip
        return tuple(part for part in parts if part[0])

    def count(self, table: Mapping[Cell, int], aim: str) -> int:
        """How many cards of a table count for an aim that cards count for."""
        total = 0
        for cell, cards in table.items():
            for most, aims in self.cells[cell]:
                total += min(cards, most) * (aim in aims)
                cards -= min(cards, most)
        return total
