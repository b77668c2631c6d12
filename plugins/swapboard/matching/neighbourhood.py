"""Very many columns: give up what some makers near each other hold, fill the gap as well
as can be, again.

Large neighbourhood search (Shaw 1998, "Using constraint programming and local search
methods to solve vehicle routing problems"); each gap is a small integer programme. Makers
near each other are given up together, since their cards can go for each other.
"""

import random
import time

import numpy as np

from swapboard.matching.greedy import greedy
from swapboard.matching.objective import MOVED, Levels, Table, part_of
from swapboard.matching.program import solve
from swapboard.matching.rows import Rows

_MOST = 1_200  # columns of one gap's programme that are worth their time
_ONE_GAP = 0.5  # seconds
_FEWEST = 3  # makers
_ELSEWHERE = 0.02


def improved(
    table: Table, rows: Rows, taken: np.ndarray, bound: int, until: float, seed: int = 0
) -> np.ndarray:
    """A choice of columns that moves as many cards as `taken` or more, by `until`
    (a reading of time.monotonic()) or as soon as `bound` is reached.

    Who gives up what they hold is drawn from `seed`; more makers do where gaps have few
    columns, fewer where they have many.
    """
    columns = _Columns(table, rows)
    chance = random.Random(seed)
    taken, makers = taken.copy(), 12.0
    left = columns.left(taken)
    moved = int(table.length[taken].sum())
    while moved < bound and time.monotonic() < until:
        near = columns.near(chance, max(_FEWEST, int(makers)))
        given_up = near[taken[near]]
        free = left + columns.load(given_up)
        gap = columns.fitting(given_up, near, free, taken)
        makers = max(_FEWEST, makers * 0.93) if len(gap) > _MOST else makers * 1.05 + 0.05
        makers = min(makers, float(columns.makers))
        if not len(gap) or len(gap) > 2 * _MOST:
            continue
        before = taken[gap]
        seconds = min(_ONE_GAP, until - time.monotonic())
        after = _filled(part_of(table, gap), Rows(rows.of_arc, free), before, seconds)
        taken[gap] = after
        left = free - columns.load(gap[after])
        moved += int(table.length[gap[after]].sum() - table.length[gap[before]].sum())
    return taken


class _Columns:
    """Columns by the rows that they are in and by their makers."""

    def __init__(self, table: Table, rows: Rows) -> None:
        self._rows, self._start = rows.of_columns(table.columns)
        self._most = rows.most
        column = np.repeat(np.arange(len(table.columns)), np.diff(self._start))
        order = np.argsort(self._rows, kind="stable")
        self._in_row = column[order]
        self._row_start = np.searchsorted(self._rows[order], np.arange(rows.count() + 1))
        self._takers = table.takers
        at, step = np.nonzero(table.takers >= 0)
        maker = table.takers[at, step]
        order = np.argsort(maker, kind="stable")
        self._by_maker = at[order]
        self.makers = int(maker.max(initial=-1)) + 1
        self._maker_start = np.searchsorted(maker[order], np.arange(self.makers + 1))
        self._busy = np.flatnonzero(np.diff(self._maker_start))

    def load(self, columns: np.ndarray) -> np.ndarray:
        """How much of each row some columns use."""
        at = _spans(self._start[columns], self._start[columns + 1])
        return np.bincount(self._rows[at], minlength=len(self._most))

    def left(self, taken: np.ndarray) -> np.ndarray:
        """What is left of each row."""
        return self._most - self.load(np.flatnonzero(taken))

    def near(self, chance: random.Random, count: int) -> np.ndarray:
        """All columns of `count` makers, each reached by a column from one before."""
        chosen = [self._somebody(chance)]
        known = set(chosen)
        for _ in range(20 * count):
            if len(chosen) >= count:
                break
            one = chance.choice(chosen)
            first, last = self._maker_start[one], self._maker_start[one + 1]
            ring = self._takers[self._by_maker[chance.randrange(first, last)]].tolist()
            if chance.random() < _ELSEWHERE:
                ring.append(self._somebody(chance))
            fresh = [maker for maker in ring if maker >= 0 and maker not in known]
            chosen += fresh
            known.update(fresh)
        makers = np.array(chosen)
        at = _spans(self._maker_start[makers], self._maker_start[makers + 1])
        return np.unique(self._by_maker[at])

    def fitting(
        self, given_up: np.ndarray, near: np.ndarray, free: np.ndarray, taken: np.ndarray
    ) -> np.ndarray:
        """The columns that fit where some are given up, themselves among them: those of
        the makers near, and those elsewhere that share a row with what is given up."""
        rows = np.flatnonzero(self.load(given_up))
        at = _spans(self._row_start[rows], self._row_start[rows + 1])
        found = np.unique(np.concatenate((self._in_row[at], near)))
        kept = taken[found]
        kept[np.searchsorted(found, given_up)] = False
        found = found[~kept]
        if not len(found):
            return found
        first, last = self._start[found], self._start[found + 1]
        room = free[self._rows[_spans(first, last)]]
        begins = np.cumsum(last - first) - (last - first)
        return found[np.minimum.reduceat(room, begins) > 0]

    def _somebody(self, chance: random.Random) -> int:
        return int(self._busy[chance.randrange(len(self._busy))])


def _spans(first: np.ndarray, last: np.ndarray) -> np.ndarray:
    """The numbers from each first to before each last, in one line."""
    sizes = last - first
    begins = np.cumsum(sizes) - sizes
    return np.repeat(first - begins, sizes) + np.arange(int(sizes.sum()))


def _filled(table: Table, rows: Rows, taken: np.ndarray, seconds: float) -> np.ndarray:
    levels = Levels(table, rows)
    known = greedy(table.columns, rows, taken)
    answer = solve(levels.program(MOVED, {}), seconds, known.astype(float))
    return answer.choice[: len(taken)] > 0.5
