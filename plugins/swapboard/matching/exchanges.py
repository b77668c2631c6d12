"""Pairs and rings as columns of one table: a card for a card, or three or four in a ring.

A column is a row of four arcs (numbers into `Arcs`), -1 behind the last of them.
Swaps of n for n are n columns between the same makers.
"""

from collections.abc import Iterator

import numpy as np

from swapboard.matching.arcs import Arcs
from swapboard.matching.pairs import pairs
from swapboard.matching.rings import Rings
from swapboard.matching.types import Market

_KEPT = 3_000_000  # cycles of blocks that are kept rather than found anew: 100 MB at most
_WORK = 400_000_000  # steps for one look at all rings
_AT_ONCE = 1_000_000
EVERY = np.inf


class Exchanges:
    """Every exchange of a market, found when asked for.

    `complete` is False where there are so many rings of four that only a part of
    them is ever looked at.
    """

    def __init__(self, market: Market, arcs: Arcs, rings: int) -> None:
        self.arcs = arcs
        self.rings = rings
        self._rings = Rings(market, arcs)
        self._sizes = np.diff(arcs.start)
        self._pairs = pairs(arcs)
        self._kept: list[np.ndarray] | None = []
        self.complete = True
        kept = 0
        for cycles in self._found():
            kept += len(cycles)
            if kept > _KEPT:
                self._kept = None
                break
            self._kept.append(cycles)

    def _found(self) -> Iterator[np.ndarray]:
        """Cycles of blocks, in arrays of one length each."""
        yield self._pairs
        for rings, most in ((self._rings.of_three, 3), (self._rings.of_four, 4)):
            if self.rings < most:
                return
            for cycles in rings(_WORK):
                if cycles.shape[1] == 0:
                    self.complete = False
                elif len(cycles):
                    yield cycles

    def cycles(self) -> Iterator[np.ndarray]:
        """Cycles of blocks: kept from the first look, or found anew."""
        if self._kept is None:
            yield from self._found()
            return
        for length in (2, 3, 4):
            same = [cycles for cycles in self._kept if cycles.shape[1] == length]
            if same:
                yield np.concatenate(same)

    def within(self, worth: np.ndarray, slack: float, most: int) -> np.ndarray | None:
        """Every column whose arcs are worth at least -`slack` together; None where
        there are more than `most`."""
        best = self.best(worth)
        found: list[np.ndarray] = [np.zeros((0, 4), dtype=np.int64)]
        count = 0
        for cycles in self.cycles():
            good = cycles[best[cycles].sum(axis=1) >= -slack]
            for columns in self._spelt_out(good):
                if slack < EVERY:
                    columns = columns[worth_of(columns, worth) >= -slack]
                count += len(columns)
                if count > most:
                    return None
                found.append(columns)
        return np.concatenate(found)

    def best(self, worth: np.ndarray) -> np.ndarray:
        """What the worthiest arc of each block is worth."""
        if not self.arcs.count:
            return np.zeros(0)
        return np.maximum.reduceat(worth, self.arcs.start[:-1])

    def some(self, most: int, seed: int = 0) -> np.ndarray:
        """At most `most` columns out of all, drawn from `seed`, pairs and rings alike:
        cycles of blocks at even distances, with arcs drawn for each."""
        chance = np.random.default_rng(seed)
        found: list[np.ndarray] = []
        total = sum(len(cycles) for cycles in self.cycles())
        every = max(1, -(-total // most))
        for cycles in self.cycles():
            part = cycles[int(chance.integers(min(every, len(cycles)))) :: every]
            columns = np.full((len(part), 4), -1, dtype=np.int64)
            drawn = (chance.random(part.shape) * self._sizes[part]).astype(np.int64)
            columns[:, : part.shape[1]] = self.arcs.start[part] + drawn
            found.append(columns)
        return np.concatenate(found)[:most]

    def _spelt_out(self, cycles: np.ndarray) -> Iterator[np.ndarray]:
        """Cycles of blocks as columns, every choice of arcs, some at a time."""
        counts = np.cumsum(self._sizes[cycles].prod(axis=1)) if len(cycles) else np.zeros(0)
        at = 0
        while at < len(cycles):
            before = counts[at - 1] if at else 0
            end = max(at + 1, int(np.searchsorted(counts, before + _AT_ONCE, side="right")))
            part, at = cycles[at:end], end
            sizes = self._sizes[part]
            count = sizes.prod(axis=1)
            row = np.repeat(np.arange(len(part)), count)
            rest = np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
            columns = np.full((len(row), 4), -1, dtype=np.int64)
            for step in range(part.shape[1]):
                columns[:, step] = self.arcs.start[part[row, step]] + rest % sizes[row, step]
                rest = rest // sizes[row, step]
            yield columns


def worth_of(columns: np.ndarray, worth: np.ndarray) -> np.ndarray:
    """What the arcs of each column are worth together; `worth` runs along the arcs."""
    return np.append(worth, 0.0)[columns].sum(axis=1)


def lengths(columns: np.ndarray) -> np.ndarray:
    """How many makers, and cards, each column has."""
    return (columns >= 0).sum(axis=1)
