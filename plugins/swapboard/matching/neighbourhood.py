"""Very many columns: give up what some makers near each other hold, fill the gap as well
as can be, again.

Large neighbourhood search (Shaw 1998, "Using constraint programming and local search
methods to solve vehicle routing problems"); each gap is a small integer programme. Makers
near each other are given up together, since their cards can go for each other, and those
first where something falls short of what the prices promise.
"""

import random

import numpy as np

from swapboard.matching.effort import Effort
from swapboard.matching.greedy import greedy
from swapboard.matching.objective import MOVED, Levels, Table, part_of
from swapboard.matching.prices import Priced
from swapboard.matching.program import solve
from swapboard.matching.rows import Rows

_GAPS = 100  # in a minute
_MOST = 2_500  # columns of one gap's programme that are worth their time
_NODES = 20  # of one gap's programme
_FEWEST = 3  # makers
_ELSEWHERE = 0.02
_WORTH_IT = 1e-6
_ROUNDED = 10_000  # columns that are looked at beside what is whole


def improved(
    table: Table, rows: Rows, prices: Priced, taken: np.ndarray, bound: int, effort: Effort,
    seed: int = 0,
) -> np.ndarray:
    """A choice of columns that moves as many cards as `taken` or more, with all the gaps
    that the effort allows or as soon as `bound` is reached.

    Who gives up what they hold is drawn from `seed`: makers around a loss against the
    `prices` of these columns, more of them where gaps are filled easily, fewer where not.
    """
    columns = _Columns(table, rows)
    chance = random.Random(seed)
    taken, makers = taken.copy(), 12.0
    left = columns.left(taken)
    moved = int(table.length[taken].sum())
    for _ in range(effort.steps(_GAPS)):
        if moved >= bound or effort.over():
            break
        start = columns.short(chance, prices, left, taken)
        near = columns.near(chance, max(_FEWEST, int(makers)), start)
        given_up = near[taken[near]]
        free = left + columns.load(given_up)
        gap = columns.fitting(given_up, near, free, taken)
        if not len(gap) or len(gap) > 2 * _MOST:
            makers = makers * 0.8 if len(gap) else makers * 1.2
            continue
        before = taken[gap]
        after, easy = _filled(part_of(table, gap), Rows(rows.of_arc, free), before, effort)
        makers *= 1.15 if easy and len(gap) < _MOST else 0.9
        makers = min(makers, float(columns.makers))
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

    def short(
        self, chance: random.Random, prices: Priced, left: np.ndarray, taken: np.ndarray
    ) -> list[int]:
        """Makers of a column drawn from those that lose something: in a row that is worth
        a price and not used up, or taken though its gain is below zero."""
        lost = np.cumsum(np.where(prices.price > _WORTH_IT, prices.price * left, 0.0))
        below = np.flatnonzero(taken & (prices.gain < -_WORTH_IT))
        taken_lost = np.cumsum(-prices.gain[below])
        by_row = float(lost[-1]) if len(lost) else 0.0
        drawn = chance.random() * (by_row + (float(taken_lost[-1]) if len(below) else 0.0))
        if drawn < by_row:
            row = int(np.searchsorted(lost, drawn, side="right"))
            first, last = int(self._row_start[row]), int(self._row_start[row + 1])
            if first == last:
                return [self._somebody(chance)]
            column = int(self._in_row[chance.randrange(first, last)])
        elif len(below):
            column = int(below[min(np.searchsorted(taken_lost, drawn - by_row), len(below) - 1)])
        else:
            return [self._somebody(chance)]
        return [maker for maker in self._takers[column].tolist() if maker >= 0]

    def near(self, chance: random.Random, count: int, start: list[int]) -> np.ndarray:
        """All columns of `count` makers, each reached by a column from one before."""
        chosen = list(start)
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
        return self.those_that_fit(found[~kept], free)

    def those_that_fit(self, found: np.ndarray, free: np.ndarray) -> np.ndarray:
        """Those of some columns for which every row has room."""
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


def _filled(
    table: Table, rows: Rows, taken: np.ndarray, effort: Effort, nodes: int = _NODES
) -> tuple[np.ndarray, bool]:
    levels = Levels(table, rows)
    known = greedy(table.columns, rows, taken)
    answer = solve(levels.program(MOVED, {}), effort, known.astype(float), nodes)
    return answer.choice[: len(taken)] > 0.5, answer.easy


def rounded(table: Table, rows: Rows, share: np.ndarray, effort: Effort) -> np.ndarray:
    """What prices take whole is taken, and what still fits beside it as well as can be
    (relaxation enforced neighbourhood search, Berthold 2014, with whole shares fixed).

    Shares may fit only nearly, so what is whole is taken in order of its gain.
    """
    columns = _Columns(table, rows)
    whole = share >= 1 - _WORTH_IT
    taken = np.zeros(len(share), dtype=bool)
    taken[whole] = greedy(table.columns[whole], rows, by_length=False)
    free = columns.left(taken)
    gap = columns.those_that_fit(np.flatnonzero(~taken), free)
    if len(gap) > _ROUNDED:
        gap = gap[np.argsort(-share[gap], kind="stable")[:_ROUNDED]]
        gap.sort()
    if len(gap):
        part, rest = part_of(table, gap), Rows(rows.of_arc, free)
        taken[gap] = _filled(part, rest, np.zeros(len(gap), dtype=bool), effort)[0]
    return taken
