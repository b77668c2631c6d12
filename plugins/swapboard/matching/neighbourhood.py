"""Very many columns: give up a part of what is taken, fill the gap as well as can be, again.

Large neighbourhood search (Shaw 1998, "Using constraint programming and local search
methods to solve vehicle routing problems"); each gap is a small integer programme.
"""

import random
import time

import numpy as np

from swapboard.matching.greedy import greedy
from swapboard.matching.objective import MOVED, Levels, Table, part_of
from swapboard.matching.program import solve
from swapboard.matching.rows import Rows

_LEAST, _MOST = 500, 1_500  # columns of one gap's programme that are worth their time
_ONE_GAP = 1.0  # seconds


def improved(
    table: Table, rows: Rows, taken: np.ndarray, bound: int, until: float, seed: int = 0
) -> np.ndarray:
    """A choice of columns that moves as many cards as `taken` or more, by `until`
    (a reading of time.monotonic()) or as soon as `bound` is reached.

    What is given up is drawn from `seed`; the share grows where gaps have few columns
    and shrinks where they have many.
    """
    chance = random.Random(seed)
    index, start = rows.of_columns(table.columns)
    column = np.repeat(np.arange(len(table.columns)), np.diff(start))
    taken, share = taken.copy(), 0.15
    moved = int(table.length[taken].sum())
    while moved < bound and time.monotonic() < until:
        held = np.flatnonzero(taken)
        given_up = chance.sample(held.tolist(), max(1, int(share * len(held))))
        kept = taken.copy()
        kept[given_up] = False
        left = rows.most - np.bincount(index[kept[column]], minlength=rows.count())
        free = np.minimum.reduceat(left[index], start[:-1]) > 0
        free &= ~kept
        gap = np.flatnonzero(free)
        if len(gap) > 2 * _MOST:
            share *= 0.8
            continue
        if len(gap) < _LEAST:
            share = min(1.0, share * 1.1)
        elif len(gap) > _MOST:
            share *= 0.9
        seconds = min(_ONE_GAP, until - time.monotonic())
        kept[gap] = _filled(part_of(table, gap), Rows(rows.of_arc, left), taken[gap], seconds)
        taken = kept
        moved = int(table.length[taken].sum())
    return taken


def _filled(table: Table, rows: Rows, taken: np.ndarray, seconds: float) -> np.ndarray:
    levels = Levels(table, rows)
    known = greedy(table.columns, rows, taken)
    answer = solve(levels.program(MOVED, {}), seconds, known.astype(float))
    return answer.choice[: len(taken)] > 0.5
