"""The first answer that comes to hand: shortest exchanges first, each taken if it still fits."""

import numpy as np

from swapboard.matching.exchanges import lengths
from swapboard.matching.rows import Rows


def greedy(
    columns: np.ndarray, rows: Rows, first: np.ndarray | None = None, by_length: bool = True
) -> np.ndarray:
    """Which columns to take, as truth values: those in `first` (which fit together),
    then pairs, then rings, each in the order given, where every row has room left.
    With `by_length` false, the order given is kept throughout."""
    index, start = rows.of_columns(columns)
    left = rows.most.tolist()
    used, bounds = index.tolist(), start.tolist()
    taken = np.zeros(len(columns), dtype=bool)
    order = np.arange(len(columns))
    if by_length:
        order = np.argsort(lengths(columns), kind="stable")
    if first is not None:
        order = np.concatenate((np.flatnonzero(first), order[~first[order]]))
    for column in order.tolist():
        mine = used[bounds[column] : bounds[column + 1]]
        if all(left[row] > 0 for row in mine):
            taken[column] = True
            for row in mine:
                left[row] -= 1
    return taken
