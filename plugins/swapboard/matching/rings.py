"""Rings of three or four makers, each mailing to the next: cycles of blocks.

A ring is found from its lowest seat, so that each is found once (the idea of
Tiernan 1970, "An efficient search algorithm to find the elementary circuits of a
graph", for circuits this short that nothing cleverer is needed).
"""

from collections.abc import Iterator

import numpy as np

from swapboard.matching.arcs import Arcs
from swapboard.matching.types import Market

_AT_ONCE = 2_000_000  # rows of a table that is built in one go: about 100 MB


class Rings:
    """The rings of a market; each answer is an array of blocks in mailing order."""

    def __init__(self, market: Market, arcs: Arcs) -> None:
        seats = len(market.seats)
        self._maker = np.array([seat.maker for seat in market.seats], dtype=np.int64)
        self._target = arcs.block_target
        self._source = arcs.block_source
        numbers = np.arange(seats + 1)
        self._out = np.searchsorted(arcs.block_source, numbers)
        self._by_target = np.argsort(arcs.block_target, kind="stable")
        self._in = np.searchsorted(arcs.block_target[self._by_target], numbers)
        self._back = np.full(seats, -1)
        self.seats = seats

    def of_three(self, work: int | None = None) -> Iterator[np.ndarray]:
        """Rings of three, lowest seat by lowest seat, shape (rings, 3) each time.

        Costs one step for each way of two blocks; ends early after `work` steps,
        with an empty array of shape (0, 0) as a sign that rings may be missing.
        """
        for seat in range(self.seats):
            first = self._leaving(seat)
            if not self._closing(seat) or not len(first):
                continue
            for part in self._parts(first[:, None]):
                ways = self._longer(part, seat)
                work = None if work is None else work - len(ways)
                yield self._closed(ways)
            if work is not None and work < 0:
                yield np.zeros((0, 0), dtype=np.int64)
                return

    def of_four(self, work: int | None = None) -> Iterator[np.ndarray]:
        """Rings of four different makers, as `of_three`; a step for each way of three."""
        for seat in range(self.seats):
            first = self._leaving(seat)
            if not self._closing(seat) or not len(first):
                continue
            for part in self._parts(first[:, None]):
                for ways in self._parts(self._longer(part, seat)):
                    longer = self._longer(ways, seat)
                    work = None if work is None else work - len(longer)
                    yield self._closed(longer)
            if work is not None and work < 0:
                yield np.zeros((0, 0), dtype=np.int64)
                return

    def _leaving(self, seat: int) -> np.ndarray:
        blocks = np.arange(self._out[seat], self._out[seat + 1])
        return blocks[self._target[blocks] > seat]

    def _closing(self, seat: int) -> bool:
        """Note which seats have a block back to this one; whether any above it has."""
        into = self._by_target[self._in[seat] : self._in[seat + 1]]
        into = into[self._source[into] > seat]
        self._back[:] = -1
        self._back[self._source[into]] = into
        return len(into) > 0

    def _parts(self, ways: np.ndarray) -> Iterator[np.ndarray]:
        """Ways in parts, none of which grows to more than about `_AT_ONCE` rows."""
        ends = self._target[ways[:, -1]]
        grown = np.cumsum(self._out[ends + 1] - self._out[ends])
        at = 0
        while at < len(ways):
            before = grown[at - 1] if at else 0
            end = max(at + 1, int(np.searchsorted(grown, before + _AT_ONCE, side="right")))
            yield ways[at:end]
            at = end

    def _longer(self, ways: np.ndarray, seat: int) -> np.ndarray:
        """Each way with each block that goes on from its end, to a maker not yet on it."""
        ends = self._target[ways[:, -1]]
        counts = self._out[ends + 1] - self._out[ends]
        row = np.repeat(np.arange(len(ways)), counts)
        before = np.repeat(np.cumsum(counts) - counts, counts)
        block = np.arange(len(row)) - before + np.repeat(self._out[ends], counts)
        reached = self._target[block]
        fine = reached > seat
        for step in range(ways.shape[1]):
            source = self._source[ways[:, step]]
            fine &= self._maker[reached] != self._maker[source][row]
        return np.column_stack((ways[row[fine]], block[fine]))

    def _closed(self, ways: np.ndarray) -> np.ndarray:
        closing = self._back[self._target[ways[:, -1]]]
        return np.column_stack((ways, closing))[closing >= 0]
