"""Bounds below that of the linear programme, from makers near each other.

Where the prices let shares of columns move more than whole ones can, some makers near
each other show it. What whole columns can be worth there at the most, each less what it
needs of other makers at their prices, is an inequality that every choice obeys and that
the shares break: a local cut (Applegate, Bixby, Chvatal & Cook 2001, "TSP cuts which do
not conform to the template paradigm"), lifted by the prices.
"""

from collections.abc import Iterator

import numpy as np

from swapboard.matching.columns import Columns, spans
from swapboard.matching.effort import Effort
from swapboard.matching.objective import Table
from swapboard.matching.prices import program_of
from swapboard.matching.program import Growing, Program, solve
from swapboard.matching.rows import Rows

_NEAR = 250  # makers
_ROUNDS = 6  # in a minute
_STEPS = 200_000  # of the simplex method, in a minute
_NODES = 50
_SOME = 1e-6
_BROKEN = 0.01
_EXACTLY = 0.02


def tightened(
    table: Table, rows: Rows, owner: np.ndarray, bound: float, effort: Effort, enough: int
) -> float:
    """A bound on what all columns of the table can move, `bound` at the most.

    `owner` has the maker of each row. Ends when the bound falls to less than `enough` + 1,
    when nothing more is found to be broken, or with the effort. Any prices give a bound,
    by weak duality, however roughly the linear programme was solved.
    """
    programme = Growing(program_of(rows, table.columns), effort.steps(_STEPS))
    columns = Columns(table, rows)
    cuts = _Cuts(table, rows)
    for number in range(effort.steps(_ROUNDS)):
        found = programme.solve(effort)
        if found is None:
            break
        share, price = found
        bound = min(bound, cuts.bound(price))
        if bound < enough + 1 - _SOME or effort.over():
            break
        before = len(cuts.most)
        for makers in _around(columns, share, number):
            if effort.over():
                break
            _look(columns, cuts, owner, makers, share, price, programme, effort)
        if len(cuts.most) == before:
            break
    return bound


class _Cuts:
    """The inequalities found so far: columns, what each counts, and the most."""

    def __init__(self, table: Table, rows: Rows) -> None:
        self.length = table.length.astype(float)
        self.rows = rows
        self.index, start = rows.of_columns(table.columns)
        self.column = np.repeat(np.arange(len(table.columns)), np.diff(start))
        self.columns: list[np.ndarray] = []
        self.worth: list[np.ndarray] = []
        self.most: list[float] = []

    def paid(self, price: np.ndarray) -> np.ndarray:
        """What each column pays for the inequalities, `price` being that of all rows."""
        total = np.zeros(len(self.length))
        own = price[self.rows.count():]
        for columns, worth, each in zip(self.columns, self.worth, own.tolist(), strict=False):
            total[columns] += each * worth
        return total

    def bound(self, price: np.ndarray) -> float:
        """The bound that prices of the rows and of the inequalities give."""
        count = self.rows.count()
        spent = np.bincount(self.column, price[:count][self.index], len(self.length))
        gain = self.length - spent - self.paid(price)
        held = price[:count] @ self.rows.most + price[count:] @ np.array(self.most)
        return float(held + np.maximum(gain, 0.0).sum())


def _around(columns: Columns, share: np.ndarray, seed: int) -> Iterator[np.ndarray]:
    """Makers near each other, group after group, until every column of which a share is
    taken has been in the midst of one."""
    parted = np.flatnonzero((share > _SOME) & (share < 1 - _SOME))
    done = np.zeros(columns.makers, dtype=bool)
    for column in np.random.default_rng(seed).permutation(parted).tolist():
        start = [maker for maker in columns.takers[column].tolist() if maker >= 0]
        if done[start].any():
            continue
        chosen, known, at = list(start), set(start), 0
        while at < len(chosen) and len(chosen) < _NEAR:
            first, last = columns.maker_start[chosen[at]], columns.maker_start[chosen[at] + 1]
            mine = columns.by_maker[first:last]
            for other in np.unique(columns.takers[mine[share[mine] > _SOME]]).tolist():
                if other >= 0 and other not in known:
                    known.add(other)
                    chosen.append(other)
            at += 1
        done[chosen[: max(1, 2 * len(chosen) // 3)]] = True
        yield np.array(chosen)


def _look(
    columns: Columns, cuts: _Cuts, owner: np.ndarray, makers: np.ndarray, share: np.ndarray,
    price: np.ndarray, programme: Growing, effort: Effort,
) -> None:
    """Add the inequality of these makers, where the shares break it."""
    inside = np.zeros(int(owner.max(initial=0)) + 2, dtype=bool)
    inside[makers] = True
    found = np.unique(
        columns.by_maker[spans(columns.maker_start[makers], columns.maker_start[makers + 1])]
    )
    first, last = columns.start[found], columns.start[found + 1]
    row, at = columns.rows[spans(first, last)], np.repeat(np.arange(len(found)), last - first)
    mine = inside[owner[row]]
    worth = cuts.length[found] - np.bincount(at, np.where(mine, 0.0, price[row]), len(found))
    worth = np.maximum(0.0, worth - cuts.paid(price)[found])
    keep = worth > _SOME
    among = keep[at] & mine
    row, at = row[among], (np.cumsum(keep) - 1)[at[among]]
    found, worth = found[keep], worth[keep]
    order = np.argsort(row, kind="stable")
    used, begins = np.unique(row[order], return_index=True)
    answer = solve(
        Program(
            worth, np.ones(len(found)), np.append(begins, len(order)), at[order],
            np.ones(len(order)), np.full(len(used), -np.inf), cuts.rows.most[used],
        ),
        effort, None, _NODES, _EXACTLY,
    )
    if worth @ share[found] > answer.bound + _BROKEN:
        cuts.columns.append(found)
        cuts.worth.append(worth)
        cuts.most.append(answer.bound + _SOME)
        programme.add(found, worth, answer.bound + _SOME)
