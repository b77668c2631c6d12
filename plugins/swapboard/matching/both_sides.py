"""An answer and its bound brought towards each other in turns.

The prices say where an answer falls short of the bound. There the gap is either filled
better, or a cut shows that nobody could; where neither is found, more makers are looked at.
"""

import math

import numpy as np

from swapboard.matching.effort import Effort
from swapboard.matching.local_cuts import Bounded
from swapboard.matching.neighbourhood import improved, rounded

_COLUMNS = 1_540  # so many have the makers of one look, at first
_NEAR, _FARTHER = 20, 1.5  # makers at the least; more of them where nothing was found
_LOOKS = 60  # of a round
_LOOKING = 0.3  # of the time that is left
_ROUNDS = 30  # in a minute
_GAPS = 8  # of a round at the most, and three for each loss
_WHOLE = 1e-6


def from_both_sides(bounded: Bounded, effort: Effort) -> np.ndarray:
    """The best choice found of the columns of `bounded`, which has been solved once; its
    bound is lowered on the way. Ends where they meet, or with the effort."""
    table, rows = bounded.table, bounded.rows
    taken = rounded(table, rows, bounded.prices.share, effort)
    seeds, columns = bounded.parted(), bounded.columns
    near = max(_NEAR, _COLUMNS * columns.busy() // len(table.columns))
    for number in range(effort.steps(_ROUNDS)):
        moved = int(table.length[taken].sum())
        if moved >= math.floor(bounded.bound + _WHOLE) or effort.over():
            break
        bounded.rule_out(moved)
        found = bounded.cut(seeds, near, effort.part(_LOOKING), _LOOKS)
        if found and not bounded.solve(effort):
            break
        bound = math.floor(bounded.bound + _WHOLE)
        gaps = min(_GAPS, 3 * len(bounded.losses(taken)[0]))
        taken = improved(
            table, rows, columns, bounded.losses, taken, bound, effort, gaps, number
        )
        at, much = bounded.losses(taken)
        seeds = at[np.argsort(-much, kind="stable")]
        if not found and table.length[taken].sum() == moved:
            near = int(_FARTHER * near)
    return taken
