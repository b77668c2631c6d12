"""Columns by the rows that they are in and by their makers: who is near whom."""

import random

import numpy as np

from swapboard.matching.objective import Table
from swapboard.matching.prices import Priced
from swapboard.matching.rows import Rows

_ELSEWHERE = 0.02
_WORTH_IT = 1e-6

# Columns where something is lost, and how many cards there.
Losses = tuple[np.ndarray, np.ndarray]


class Columns:
    """Columns by the rows that they are in and by their makers."""

    def __init__(self, table: Table, rows: Rows) -> None:
        self.rows, self.start = rows.of_columns(table.columns)
        self._most = rows.most
        column = np.repeat(np.arange(len(table.columns)), np.diff(self.start))
        order = np.argsort(self.rows, kind="stable")
        self._in_row = column[order]
        self._row_start = np.searchsorted(self.rows[order], np.arange(rows.count() + 1))
        self.takers = table.takers
        at, step = np.nonzero(table.takers >= 0)
        maker = table.takers[at, step]
        order = np.argsort(maker, kind="stable")
        self.by_maker = at[order]
        self.makers = int(maker.max(initial=-1)) + 1
        self.maker_start = np.searchsorted(maker[order], np.arange(self.makers + 1))
        self._busy = np.flatnonzero(np.diff(self.maker_start))

    def busy(self) -> int:
        """How many makers are in a column."""
        return len(self._busy)

    def load(self, columns: np.ndarray) -> np.ndarray:
        """How much of each row some columns use."""
        at = spans(self.start[columns], self.start[columns + 1])
        return np.bincount(self.rows[at], minlength=len(self._most))

    def left(self, taken: np.ndarray) -> np.ndarray:
        """What is left of each row."""
        return self._most - self.load(np.flatnonzero(taken))

    def losses(self, prices: Priced, taken: np.ndarray) -> Losses:
        """All that a choice falls short of the bound of some prices by: in a row that is
        worth a price and not used up, and in columns taken or not against their gain."""
        gain, loss = prices.gain, prices.price * self.left(taken)
        rows = np.flatnonzero((loss > _WORTH_IT) & (np.diff(self._row_start) > 0))
        against = np.flatnonzero(np.where(taken, gain < -_WORTH_IT, gain > _WORTH_IT))
        most = [
            mine[np.argmax(prices.share[mine])]
            for mine in (self._in_row[self._row_start[r] : self._row_start[r + 1]] for r in rows)
        ]
        at = np.concatenate((np.array(most, dtype=np.int64), against))
        return at, np.concatenate((loss[rows], np.abs(gain[against])))

    def drawn(self, chance: random.Random, losses: Losses) -> list[int]:
        """The makers of a column, drawn the more often the more is lost there."""
        at, much = losses
        if not len(at):
            return [self._somebody(chance)]
        total = np.cumsum(much)
        column = at[min(np.searchsorted(total, chance.random() * total[-1]), len(at) - 1)]
        return [maker for maker in self.takers[column].tolist() if maker >= 0]

    def near(self, chance: random.Random, count: int, start: list[int]) -> np.ndarray:
        """All columns of `count` makers, each reached by a column from one before."""
        chosen = list(start)
        known = set(chosen)
        for _ in range(20 * count):
            if len(chosen) >= count:
                break
            one = chance.choice(chosen)
            first, last = self.maker_start[one], self.maker_start[one + 1]
            ring = self.takers[self.by_maker[chance.randrange(first, last)]].tolist()
            if chance.random() < _ELSEWHERE:
                ring.append(self._somebody(chance))
            fresh = [maker for maker in ring if maker >= 0 and maker not in known]
            chosen += fresh
            known.update(fresh)
        makers = np.array(chosen)
        at = spans(self.maker_start[makers], self.maker_start[makers + 1])
        return np.unique(self.by_maker[at])

    def fitting(
        self, given_up: np.ndarray, near: np.ndarray, free: np.ndarray, taken: np.ndarray
    ) -> np.ndarray:
        """The columns that fit where some are given up, themselves among them: those of
        the makers near, and those elsewhere that share a row with what is given up."""
        rows = np.flatnonzero(self.load(given_up))
        at = spans(self._row_start[rows], self._row_start[rows + 1])
        found = np.unique(np.concatenate((self._in_row[at], near)))
        kept = taken[found]
        kept[np.searchsorted(found, given_up)] = False
        return self.those_that_fit(found[~kept], free)

    def those_that_fit(self, found: np.ndarray, free: np.ndarray) -> np.ndarray:
        """Those of some columns for which every row has room."""
        if not len(found):
            return found
        first, last = self.start[found], self.start[found + 1]
        room = free[self.rows[spans(first, last)]]
        begins = np.cumsum(last - first) - (last - first)
        return found[np.minimum.reduceat(room, begins) > 0]

    def _somebody(self, chance: random.Random) -> int:
        return int(self._busy[chance.randrange(len(self._busy))])


def spans(first: np.ndarray, last: np.ndarray) -> np.ndarray:
    """The numbers from each first to before each last, in one line."""
    sizes = last - first
    begins = np.cumsum(sizes) - sizes
    return np.repeat(first - begins, sizes) + np.arange(int(sizes.sum()))
