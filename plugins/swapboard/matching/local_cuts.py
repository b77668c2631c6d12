"""Bounds below that of the linear programme, from makers near each other.

Where the prices let shares of columns move more than whole ones can, some makers near
each other show it. What whole columns can be worth there at the most, each less what it
needs of other makers at their prices, is an inequality that every choice obeys and that
the shares break: a local cut (Applegate, Bixby, Chvatal & Cook 2001, "TSP cuts which do
not conform to the template paradigm"), lifted by the prices.
"""

import itertools
from collections.abc import Iterator

import numpy as np

from swapboard.matching.columns import Columns, Losses, spans
from swapboard.matching.effort import Effort
from swapboard.matching.objective import Table
from swapboard.matching.prices import Priced, program_of
from swapboard.matching.program import Growing, Program, solve
from swapboard.matching.rows import Rows

_STEPS = 150_000  # of the simplex method for one solve, in a minute
_NODES = 50
_SOME = 1e-6
_SAFE = 1e-4
_BROKEN = 0.01
_EXACTLY = 0.02
_MIDST = 0.7  # of a cut: so much of it among some makers holds there as a row does


class Bounded:
    """What all columns of a table can move at the most, brought down cut by cut.

    No choice passes `bound`, if it moves as much as was known when columns were last ruled
    out; `prices` are the newest, a column ruled out having a gain of -inf. Any prices give
    a bound, by weak duality, however roughly the linear programme was solved.
    """

    def __init__(self, table: Table, rows: Rows, owner: np.ndarray, effort: Effort) -> None:
        """`owner` has the maker of each row."""
        self.table, self.rows = table, rows
        self.columns = Columns(table, rows)
        self.bound = np.inf
        self._owner = owner
        self._open = np.ones(len(table.columns), dtype=bool)
        self._cuts = _Cuts(len(table.columns))
        program, self._binding = program_of(rows, table.columns)
        self._programme = Growing(program, effort.steps(_STEPS))

    def solve(self, effort: Effort) -> bool:
        """Price all rows and cuts anew; False where steps or time do not suffice."""
        found = self._programme.solve(effort)
        if found is None:
            return False
        share, of_all = found
        price = np.zeros(self.rows.count())
        price[self._binding] = of_all[: len(self._binding)]
        self._cuts.price = of_all[len(self._binding) :]
        gain = self.table.length - self._spent(price) - self._cuts.paid()
        held = price @ self.rows.most + self._cuts.price @ np.array(self._cuts.most)
        gain[~self._open] = -np.inf
        bound = float(held + np.maximum(gain, 0.0).sum())
        self.bound = min(self.bound, bound)
        self.prices = Priced(bound, share, gain, price)
        return True

    def rule_out(self, moved: int) -> None:
        """Let go of the columns that no choice of `moved` cards or more has. Cuts found
        from now on hold only for such choices."""
        gone = self._open & (self.prices.gain < moved - self.prices.bound - _SAFE)
        self._open &= ~gone
        self.prices.gain[gone] = -np.inf
        self._programme.forbid(np.flatnonzero(gone))

    def parted(self) -> np.ndarray:
        """The columns of which a share is taken, in an order without a pattern."""
        share = self.prices.share
        found = np.flatnonzero((share > _SOME) & (share < 1 - _SOME))
        return np.random.default_rng(0).permutation(found)

    def losses(self, taken: np.ndarray) -> Losses:
        """All that a choice falls short of the newest bound by."""
        at, much = self.columns.losses(self.prices, taken)
        more = self._cuts.losses(taken, self.prices.share)
        return np.concatenate((at, more[0])), np.concatenate((much, more[1]))

    def cut(self, seeds: np.ndarray, near: int, effort: Effort, looks: int) -> int:
        """Look for cuts that the shares break, among `near` makers around each of some
        columns, so often at the most; how many were found."""
        before = len(self._cuts.most)
        around = _around(self.columns, self.prices.share, seeds, near)
        for makers in itertools.islice(around, looks):
            if effort.over():
                break
            self._look(makers, effort)
        return len(self._cuts.most) - before

    def _spent(self, price: np.ndarray) -> np.ndarray:
        """What each column pays for its rows."""
        columns = self.columns
        return np.add.reduceat(price[columns.rows], columns.start[:-1])

    def _look(self, makers: np.ndarray, effort: Effort) -> None:
        """Add the inequality of these makers, where the shares break it.

        Their own rows hold, and cuts that lie in their midst; all else is for sale."""
        columns, price, share = self.columns, self.prices.price, self.prices.share
        inside = np.zeros(int(self._owner.max(initial=0)) + 2, dtype=bool)
        inside[makers] = True
        found = np.unique(
            columns.by_maker[spans(columns.maker_start[makers], columns.maker_start[makers + 1])]
        )
        found = found[self._open[found]]
        held = self._cuts.within(found)
        first, last = columns.start[found], columns.start[found + 1]
        row, at = columns.rows[spans(first, last)], np.repeat(np.arange(len(found)), last - first)
        mine = inside[self._owner[row]]
        worth = self.table.length[found] - self._cuts.paid(held)[found]
        worth -= np.bincount(at, np.where(mine, 0.0, price[row]), len(found))
        keep = worth > _SOME
        among = keep[at] & mine
        row, at = row[among], (np.cumsum(keep) - 1)[at[among]]
        found, worth = found[keep], worth[keep]
        order = np.argsort(row, kind="stable")
        used, begins = np.unique(row[order], return_index=True)
        parts = [(at[order], np.ones(len(order)), np.diff(np.append(begins, len(order))))]
        parts += [self._cuts.among(number, found) for number in held]
        index, value, sizes = (np.concatenate(part) for part in zip(*parts, strict=True))
        most = np.append(self.rows.most[used], [self._cuts.most[number] for number in held])
        answer = solve(
            Program(
                worth, np.ones(len(found)), np.concatenate(([0], np.cumsum(sizes))), index,
                value, np.full(len(most), -np.inf), most,
            ),
            effort, None, _NODES, _EXACTLY,
        )
        if worth @ share[found] > answer.bound + _BROKEN:
            self._cuts.add(found, worth, answer.bound + _SOME)
            self._programme.add(found, worth, answer.bound + _SOME)


class _Cuts:
    """The inequalities found so far: columns, what each counts, and the most; the price
    of each that was there when prices were last found."""

    def __init__(self, count: int) -> None:
        self._count = count
        self.columns: list[np.ndarray] = []
        self.worth: list[np.ndarray] = []
        self.most: list[float] = []
        self.price = np.zeros(0)

    def add(self, columns: np.ndarray, worth: np.ndarray, most: float) -> None:
        """One more."""
        self.columns.append(columns)
        self.worth.append(worth)
        self.most.append(most)

    def paid(self, but: tuple[int, ...] = ()) -> np.ndarray:
        """What each of all columns pays for them, some left out."""
        total = np.zeros(self._count)
        for number, price in enumerate(self.price.tolist()):
            if number not in but:
                total[self.columns[number]] += price * self.worth[number]
        return total

    def within(self, columns: np.ndarray) -> tuple[int, ...]:
        """Those that lie for the most part in some columns."""
        inside = np.zeros(self._count, dtype=bool)
        inside[columns] = True
        return tuple(
            number
            for number, (mine, worth) in enumerate(zip(self.columns, self.worth, strict=True))
            if worth[inside[mine]].sum() > _MIDST * worth.sum()
        )

    def among(
        self, number: int, columns: np.ndarray
    ) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """One as a row of a programme of some columns, which are sorted: where it has
        some of them, what they count, and in an array of one how many those are."""
        _, at, mine = np.intersect1d(
            columns, self.columns[number], assume_unique=True, return_indices=True
        )
        return at, self.worth[number][mine], np.array([len(at)])

    def losses(self, taken: np.ndarray, share: np.ndarray) -> Losses:
        """What each that has a price is not used up by, at the column where the choice
        is farthest from the shares."""
        at, much = [], []
        for number, price in enumerate(self.price.tolist()):
            mine, worth = self.columns[number], self.worth[number]
            loss = price * (self.most[number] - worth @ taken[mine])
            if loss > _SAFE:
                at.append(mine[np.argmax(worth * np.abs(share[mine] - taken[mine]))])
                much.append(loss)
        return np.array(at, dtype=np.int64), np.array(much)


def _around(
    columns: Columns, share: np.ndarray, seeds: np.ndarray, near: int
) -> Iterator[np.ndarray]:
    """Makers near each other, group after group, until each of some columns has been in
    the midst of one."""
    done = np.zeros(columns.makers, dtype=bool)
    for column in seeds.tolist():
        start = [maker for maker in columns.takers[column].tolist() if maker >= 0]
        if done[start].any():
            continue
        chosen, known, at = list(start), set(start), 0
        while at < len(chosen) and len(chosen) < near:
            first, last = columns.maker_start[chosen[at]], columns.maker_start[chosen[at] + 1]
            mine = columns.by_maker[first:last]
            for other in np.unique(columns.takers[mine[share[mine] > _SOME]]).tolist():
                if other >= 0 and other not in known:
                    known.add(other)
                    chosen.append(other)
            at += 1
        done[chosen[: max(1, 2 * len(chosen) // 3)]] = True
        yield np.array(chosen)
