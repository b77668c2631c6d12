"""The linear programme over all exchanges, columns added while they pay.

Column generation (Gilmore & Gomory 1961, "A linear programming approach to the
cutting-stock problem"; for rings of makers Abraham, Blum & Sandholm 2007, "Clearing
algorithms for barter exchange markets"). Its value bounds every choice of
exchanges, and by its prices most of them can be ruled out for good.
"""

import time
from dataclasses import dataclass

import numpy as np

from swapboard.matching.exchanges import Exchanges, lengths
from swapboard.matching.program import solver
from swapboard.matching.rows import Rows

_TINY = 1e-6
_AT_ONCE = 15_000
_PER_BLOCK = 4


@dataclass(frozen=True, slots=True)
class Priced:
    """`bound`: no exchanges move more cards. `worth` is what an arc moves less the
    prices of its rows: `bound` less a column's shortfall bounds every choice with it.
    `columns` are those that paid at some time."""

    bound: float
    worth: np.ndarray
    columns: np.ndarray


def priced(exchanges: Exchanges, rows: Rows, columns: np.ndarray, until: float) -> Priced:
    """Solve from some first `columns`; `until` is a reading of time.monotonic().

    Any prices give a bound, by weak duality with each row's price scaled so that no
    column pays (Farley 1990, "A note on bounding a class of linear programming
    problems"), so running out of time costs strength and never truth.
    """
    highs = solver(until - time.monotonic())
    _add_rows(highs, rows)
    _add(highs, rows, columns)
    best = Priced(np.inf, np.ones(exchanges.arcs.count), columns)
    while True:
        highs.setOptionValue("time_limit", highs.getRunTime() + max(0.1, until - time.monotonic()))
        highs.run()
        price = np.maximum(0.0, np.array(highs.getSolution().row_dual))
        if len(price) != rows.count():
            break
        new, scale = paying(exchanges, _worth(rows, price))
        bound = scale * float(price @ rows.most)
        if bound < best.bound:
            best = Priced(bound, _worth(rows, price * scale), columns)
        if not len(new) or time.monotonic() > until:
            break
        _add(highs, rows, new)
        columns = np.concatenate((columns, new))
    return Priced(best.bound, best.worth, columns)


def _worth(rows: Rows, price: np.ndarray) -> np.ndarray:
    return 1.0 - np.append(price, 0.0)[rows.of_arc].sum(axis=1)


def paying(exchanges: Exchanges, worth: np.ndarray) -> tuple[np.ndarray, float]:
    """Columns that pay, the best for their blocks, and by what to scale the prices so
    that none would; `worth` as in `Priced`."""
    best, arc = exchanges.best(worth), exchanges.best_arcs(worth)
    found, gains, scale = [np.zeros((0, 4), dtype=np.int64)], [np.zeros(0)], 1.0
    for cycles in exchanges.cycles():
        gain = best[cycles].sum(axis=1)
        length = cycles.shape[1]
        good = np.flatnonzero(gain > _TINY)
        if not len(good):
            continue
        scale = max(scale, length / max(_TINY, length - float(gain[good].max())))
        good = good[np.argsort(-gain[good], kind="stable")][: 4 * _AT_ONCE]
        columns = np.full((len(good), 4), -1, dtype=np.int64)
        columns[:, :length] = arc[cycles[good]]
        found.append(columns)
        gains.append(gain[good])
    columns = np.concatenate(found)
    order = np.argsort(-np.concatenate(gains), kind="stable")
    columns = columns[order]
    return columns[_rank(columns[:, 0]) < _PER_BLOCK][:_AT_ONCE], scale * (1 + _TINY)


def _rank(keys: np.ndarray) -> np.ndarray:
    """How many equal keys stand before each."""
    order = np.argsort(keys, kind="stable")
    same = keys[order]
    first = np.searchsorted(same, same)
    rank = np.empty(len(keys), dtype=np.int64)
    rank[order] = np.arange(len(keys)) - first
    return rank


def _add_rows(highs, rows: Rows) -> None:
    import highspy

    model = highspy.HighsLp()
    model.num_row_ = rows.count()
    model.sense_ = highspy.ObjSense.kMaximize
    model.row_lower_ = np.full(rows.count(), -np.inf)
    model.row_upper_ = rows.most.astype(float)
    highs.passModel(model)


def _add(highs, rows: Rows, columns: np.ndarray) -> None:
    index, start = rows.of_columns(columns)
    count = len(columns)
    highs.addCols(
        count, lengths(columns).astype(float), np.zeros(count), np.full(count, np.inf),
        len(index), start[:-1].astype(np.int32), index.astype(np.int32), np.ones(len(index)),
    )
