"""Very many columns: give up what some makers near each other hold, fill the gap as well
as can be, again.

Large neighbourhood search (Shaw 1998, "Using constraint programming and local search
methods to solve vehicle routing problems"); each gap is a small integer programme. Makers
near each other are given up together, since their cards can go for each other, and those
first where something falls short of what the prices promise.
"""

import random
from collections.abc import Callable

import numpy as np

from swapboard.matching.columns import Columns, Losses
from swapboard.matching.effort import Effort
from swapboard.matching.greedy import greedy
from swapboard.matching.objective import MOVED, Levels, Table, part_of
from swapboard.matching.program import solve
from swapboard.matching.rows import Rows

_MOST = 2_500  # columns of one gap's programme that are worth their time
_NODES = 20  # of one gap's programme
_FEWEST = 3  # makers
_TRIES = 4  # for each gap: it may be too big or have nothing in it
_WORTH_IT = 1e-6
_ROUNDED = 10_000  # columns that are looked at beside what is whole


def improved(
    table: Table, rows: Rows, columns: Columns, losses: Callable[[np.ndarray], Losses],
    taken: np.ndarray, bound: int, effort: Effort, gaps: int, seed: int = 0,
) -> np.ndarray:
    """A choice of columns that moves as many cards as `taken` or more, after so many
    gaps or as soon as `bound` is reached.

    Who gives up what they hold is drawn from `seed`: makers around one of the `losses` of a
    choice, more of them where gaps are filled easily, fewer where not.
    """
    chance = random.Random(seed)
    taken = taken.copy()
    makers = max(12.0, _MOST * columns.makers / max(1, len(taken)))
    left = columns.left(taken)
    moved = int(table.length[taken].sum())
    filled = 0
    for _ in range(_TRIES * gaps):
        if filled == gaps or moved >= bound or effort.over():
            break
        start = columns.drawn(chance, losses(taken))
        near = columns.near(chance, max(_FEWEST, int(makers)), start)
        given_up = near[taken[near]]
        free = left + columns.load(given_up)
        gap = columns.fitting(given_up, near, free, taken)
        if not len(gap) or len(gap) > 2 * _MOST:
            makers = makers * 0.8 if len(gap) else makers * 1.2
            continue
        filled += 1
        before = taken[gap]
        after, easy = _filled(part_of(table, gap), Rows(rows.of_arc, free), before, effort)
        makers *= 1.15 if easy and len(gap) < _MOST else 0.9
        makers = min(makers, float(columns.makers))
        taken[gap] = after
        left = free - columns.load(gap[after])
        moved += int(table.length[gap[after]].sum() - table.length[gap[before]].sum())
    return taken


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
    columns = Columns(table, rows)
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
