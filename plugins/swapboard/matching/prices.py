"""Prices for cards, wants and room: a bound on every choice, and what to look at first.

The linear programme over all columns, solved exactly where they are few enough, and
else by the primal-dual hybrid gradient method (Chambolle & Pock 2011, "A first-order
primal-dual algorithm for convex problems"), with their diagonal steps (Pock & Chambolle
2011) and restarts from the average (Applegate et al. 2021, "Practical large-scale linear
programming using primal-dual hybrid gradient"). Any prices give a bound, by weak
duality, so stopping early costs strength and never truth.
"""

import time
from dataclasses import dataclass

import numpy as np

from swapboard.matching.exchanges import lengths
from swapboard.matching.program import Program, relaxed
from swapboard.matching.rows import Rows

_EXACT = 120_000  # columns of a programme that the simplex method is given
_RESTART = 200
_NEAR = 2e-4
_DEARER = (1.005, 1.01, 1.02, 1.03)


@dataclass(frozen=True, slots=True)
class Priced:
    """Nothing moves more cards than `bound`. Along the columns: `share`, how much of
    each the programme takes, and `gain`, what it moves less its prices: a choice with a
    column of gain below zero moves at most `bound` plus that gain."""

    bound: float
    share: np.ndarray
    gain: np.ndarray


def priced(rows: Rows, columns: np.ndarray, until: float) -> Priced:
    """Prices for all `columns`, by `until`, a reading of time.monotonic()."""
    matrix = Matrix(rows, columns)
    if len(columns) <= _EXACT:
        now = time.monotonic()
        found = relaxed(_program(rows, columns), 0.8 * (until - now))
        if found is not None:
            share, price = found
            return _priced(matrix, share, np.maximum(0.0, price))
    return _by_gradient(matrix, until)


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


def _priced(matrix: Matrix, share: np.ndarray, price: np.ndarray) -> Priced:
    gain = matrix.gain(price)
    return Priced(float(price @ matrix.most + np.maximum(gain, 0.0).sum()), share, gain)


def _by_gradient(matrix: Matrix, until: float) -> Priced:
    ones = matrix.load(np.ones(len(matrix.length)))
    binding = ones > matrix.most
    step, row_step = 1.0 / np.maximum(1.0, matrix.weights()), 1.0 / np.maximum(1.0, ones)
    share, price = np.zeros(len(matrix.length)), np.zeros(len(matrix.most))
    sums, count = [np.zeros_like(share), np.zeros_like(price)], 0
    best = _priced(matrix, share, price)
    while time.monotonic() < until:
        new = np.clip(share + step * matrix.gain(price), 0.0, 1.0)
        price = np.maximum(0.0, price + row_step * (matrix.load(2 * new - share) - matrix.most))
        price[~binding] = 0.0
        share = new
        sums[0] += share
        sums[1] += price
        count += 1
        if count % (_RESTART // 4) == 0:
            tried = [_priced(matrix, share, price)]
            tried.append(_priced(matrix, sums[0] / count, sums[1] / count))
            # Prices a little too low let thousands of columns pay a little: dearer all
            # round can bound better.
            tried += [_priced(matrix, share, price * dearer) for dearer in _DEARER]
            best = min((best, *tried), key=lambda found: found.bound)
            if _settled(matrix, tried[1].share, best.bound):
                break
        if count == _RESTART:
            share, price = sums[0] / count, sums[1] / count
            sums, count = [np.zeros_like(share), np.zeros_like(price)], 0
    return best


def _settled(matrix: Matrix, share: np.ndarray, bound: float) -> bool:
    """Whether shares that all but fit are worth all but the bound."""
    fits = (matrix.load(share) <= matrix.most * (1 + _NEAR) + _NEAR).all()
    return bool(fits) and bound - float(share @ matrix.length) < _NEAR * bound


def _program(rows: Rows, columns: np.ndarray) -> Program:
    index, start = rows.of_columns(columns)
    column = np.repeat(np.arange(len(columns)), np.diff(start))
    order = np.argsort(index, kind="stable")
    begins = np.searchsorted(index[order], np.arange(rows.count() + 1))
    return Program(
        lengths(columns), np.ones(len(columns)), begins, column[order], np.ones(len(index)),
        np.full(rows.count(), -np.inf), rows.most,
    )
