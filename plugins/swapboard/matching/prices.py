"""Prices for cards, wants and room: a bound on every choice, and what to look at first.

The linear programme over all columns, solved exactly where they are few enough, and
else step by step (`gradient`). Any prices give a bound, by weak duality, so stopping
early costs strength and never truth.
"""

from dataclasses import dataclass

import numpy as np

from swapboard.matching.exchanges import lengths
from swapboard.matching.program import Program
from swapboard.matching.rows import Rows


@dataclass(frozen=True, slots=True)
class Priced:
    """Nothing moves more cards than `bound`. Along the columns: `share`, how much of
    each the programme takes, and `gain`, what it moves less its prices: a choice with a
    column of gain below zero moves at most `bound` plus that gain. `price` is each row's."""

    bound: float
    share: np.ndarray
    gain: np.ndarray
    price: np.ndarray


class Matrix:
    """Columns times prices and rows times columns, by way of the arcs that they share."""

    def __init__(self, rows: Rows, columns: np.ndarray) -> None:
        size = lengths(columns)
        self.length = size.astype(float)
        self.most = rows.most.astype(float)
        used = np.unique(columns[columns >= 0])
        self._rows = [np.ascontiguousarray(rows.of_arc[used, at]) for at in range(4)]
        self._arcs = len(used)
        self._same = [(np.flatnonzero(size == n), n) for n in (2, 3, 4) if (size == n).any()]
        self._at = [np.searchsorted(used, columns[mine, :n]) for mine, n in self._same]

    def gain(self, price: np.ndarray) -> np.ndarray:
        """What each column moves, less the prices of its rows."""
        padded = np.append(price, 0.0)
        worth = 1.0 - sum(padded[rows] for rows in self._rows)
        gain = np.empty(len(self.length))
        for (mine, n), at in zip(self._same, self._at, strict=True):
            gain[mine] = sum(worth[at[:, step]] for step in range(n))
        return gain

    def load(self, share: np.ndarray) -> np.ndarray:
        """How much of each row is used."""
        on_arc = np.zeros(self._arcs)
        for (mine, n), at in zip(self._same, self._at, strict=True):
            for step in range(n):
                on_arc += np.bincount(at[:, step], share[mine], self._arcs)
        count = len(self.most) + 1
        return sum(np.bincount(rows, on_arc, count) for rows in self._rows)[:-1]

    def weights(self) -> np.ndarray:
        """How many rows each column is in."""
        none = len(self.most)
        on_arc = sum((rows < none).astype(float) for rows in self._rows)
        total = np.empty(len(self.length))
        for (mine, n), at in zip(self._same, self._at, strict=True):
            total[mine] = sum(on_arc[at[:, step]] for step in range(n))
        return total


def worth_at(matrix: Matrix, share: np.ndarray, price: np.ndarray) -> Priced:
    """The bound that any prices give, none of them below zero."""
    gain = matrix.gain(price)
    return Priced(float(price @ matrix.most + np.maximum(gain, 0.0).sum()), share, gain, price)


def program_of(rows: Rows, columns: np.ndarray) -> tuple[Program, np.ndarray]:
    """The programme of all columns: the most cards that move; and the numbers of its
    rows, those that have more columns than may be taken."""
    index, start = rows.of_columns(columns)
    often = np.bincount(index, minlength=rows.count())
    binding = np.flatnonzero(often > rows.most)
    column = np.repeat(np.arange(len(columns)), np.diff(start))
    order = np.argsort(index, kind="stable")
    order = order[(often > rows.most)[index[order]]]
    return Program(
        lengths(columns), np.ones(len(columns)),
        np.concatenate(([0], np.cumsum(often[binding]))), column[order],
        np.ones(len(order)), np.full(len(binding), -np.inf), rows.most[binding],
    ), binding
