"""What is better than what: levels, one after the other, each a sum over exchanges.

1. most cards that reach somebody who wants them
2. fewest cards in rings of three or more
3. stronger likings: a wish filled counts 3 if dearly, 2, or 1 if need be
4. fewest parcels: two for each pair of makers, three or four for each ring of makers
5. fairness: most makers who get at least one card, then two, and so on

Lexicographic optimisation: each level is solved with the ones before held at their
best (Isermann 1982, "Linear lexicographic optimization").
"""

from dataclasses import dataclass

import numpy as np

from swapboard.matching.arcs import Arcs
from swapboard.matching.exchanges import lengths
from swapboard.matching.program import Program
from swapboard.matching.rows import Rows
from swapboard.matching.types import Market

MOVED, RINGS, LIKING, PARCELS = "cards that move", "cards in rings", "liking", "parcels"
FEWEST = {RINGS, PARCELS}


def fairness(count: int) -> str:
    """The name of the level that counts makers who get at least so many cards."""
    return f"makers who get {count} or more"


@dataclass(frozen=True, slots=True)
class Table:
    """Columns with all that the levels ask of them: `length`, `ringed` (its cards if it
    is no pair) and `liking` run along the columns; `group` numbers the makers that a
    column goes round, `group_size` counts them; `takers` are makers, -1 for none,
    shape (columns, 4)."""

    columns: np.ndarray
    cards: np.ndarray
    takers: np.ndarray
    length: np.ndarray
    ringed: np.ndarray
    liking: np.ndarray
    group: np.ndarray
    group_size: np.ndarray


def table_of(market: Market, arcs: Arcs, columns: np.ndarray) -> Table:
    """The table of some columns."""
    length = lengths(columns)
    takers = np.append(arcs.maker, -1)[columns]
    group, first = _groups(takers, length, len(market.makers))
    return Table(
        columns,
        cards=np.append(arcs.card, -1)[columns],
        takers=takers,
        length=length,
        ringed=np.where(length > 2, length, 0),
        liking=np.append(arcs.weight, 0)[columns].sum(axis=1),
        group=group,
        group_size=length[first],
    )


def part_of(table: Table, keep: np.ndarray) -> Table:
    """Some of a table's columns, by truth values or numbers."""
    group, first, back = np.unique(table.group[keep], return_index=True, return_inverse=True)
    return Table(
        table.columns[keep], table.cards[keep], table.takers[keep], table.length[keep],
        table.ringed[keep], table.liking[keep], back, table.length[keep][first],
    )


def measure(table: Table, taken: np.ndarray) -> dict[str, int]:
    """The value of each level where these columns are taken, in the order of the levels."""
    groups = np.unique(table.group[taken])
    got = np.bincount(table.takers[taken][table.takers[taken] >= 0])
    values = {
        MOVED: int(table.length[taken].sum()),
        RINGS: int(table.ringed[taken].sum()),
        LIKING: int(table.liking[taken].sum()),
        PARCELS: int(table.group_size[groups].sum()),
    }
    for count in range(1, int(got.max(initial=0)) + 1):
        values[fairness(count)] = int((got >= count).sum())
    return values


class Levels:
    """The integer programmes of a table: the rows that all share, and each level's gain.

    Unknowns are the columns; then one for each group of makers with several columns
    (whether a parcel goes there); then, for the k-th fairness level asked for, one for
    each maker and j ≤ k (whether they get at least j).
    """

    def __init__(self, table: Table, rows: Rows) -> None:
        self.table = table
        index, start = rows.of_columns(table.columns)
        self._count = len(table.columns)
        column = np.repeat(np.arange(self._count), np.diff(start))
        order = np.argsort(index, kind="stable")
        used, first = np.unique(index[order], return_index=True)
        self._index = column[order]
        self._start = np.append(first, len(order))
        self._most = rows.most[used]
        sizes = np.bincount(table.group, minlength=len(table.group_size))
        self._several = np.flatnonzero(sizes > 1)

    def program(self, level: str, held: dict[str, int]) -> Program:
        """Maximise one level with the ones before at least as good as `held`."""
        shared = _Growing(self._count)
        shared.extend(self._index, self._start, self._most)
        kinds = [*held, level]
        parcels = self._count if PARCELS in kinds else None
        if parcels is not None:
            self._add_parcels(shared)
        fair = [name for name in kinds if name not in (MOVED, RINGS, LIKING, PARCELS)]
        makers, begins = self._add_fairness(shared, len(fair))
        for name, value in held.items():
            gain = self.gain(name, shared.width, fair, makers, begins)
            shared.add(np.flatnonzero(gain), gain[gain != 0], value, np.inf)
        return shared.program(self.gain(level, shared.width, fair, makers, begins))

    def known(self, taken: np.ndarray, level: str, held: dict[str, int]) -> np.ndarray:
        """A choice of columns as an x of the level's programme."""
        parts = [taken.astype(float)]
        kinds = [*held, level]
        if PARCELS in kinds:
            used = np.zeros(len(self.table.group_size))
            used[self.table.group[taken]] = 1
            parts.append(used[self._several])
        fair = [name for name in kinds if name not in (MOVED, RINGS, LIKING, PARCELS)]
        if fair:
            makers = self._makers()
            takers = self.table.takers[taken]
            got = np.bincount(takers[takers >= 0], minlength=int(makers.max(initial=0)) + 1)
            parts += [(got[makers] >= k).astype(float) for k in range(1, len(fair) + 1)]
        return np.concatenate(parts)

    def gain(
        self, level: str, width: int, fair: list[str], makers: int, begins: int
    ) -> np.ndarray:
        """What each unknown adds to a level; what is to be few is counted below zero."""
        gain = np.zeros(width, dtype=np.int64)
        table = self.table
        if level == MOVED:
            gain[: self._count] = table.length
        elif level == RINGS:
            gain[: self._count] = -table.ringed
        elif level == LIKING:
            gain[: self._count] = table.liking
        elif level == PARCELS:
            alone = np.ones(len(table.group_size), dtype=bool)
            alone[self._several] = False
            gain[: self._count] = np.where(alone[table.group], -table.length, 0)
            several = np.arange(self._count, self._count + len(self._several))
            gain[several] = -table.group_size[self._several]
        else:
            at = begins + fair.index(level) * makers
            gain[at : at + makers] = 1
        return gain

    def _makers(self) -> np.ndarray:
        return np.unique(self.table.takers[self.table.takers >= 0])

    def _add_parcels(self, rows: "_Growing") -> None:
        """A card goes to one group only where its parcel goes: one row for each two."""
        table = self.table
        number = np.full(len(table.group_size), -1)
        number[self._several] = rows.width + np.arange(len(self._several))
        rows.width += len(self._several)
        columns = np.flatnonzero(number[table.group] >= 0)
        row, step = np.nonzero(table.cards[columns] >= 0)
        keys = np.stack((table.group[columns][row], table.cards[columns][row, step]), axis=1)
        order = np.lexsort((columns[row], keys[:, 1], keys[:, 0]))
        keys, mine = keys[order], columns[row][order]
        cuts = np.flatnonzero((np.diff(keys, axis=0) != 0).any(axis=1)) + 1
        for group, part in zip(keys[np.append(0, cuts)] if len(keys) else (),
                               np.split(mine, cuts), strict=False):
            unknowns = np.append(part, number[group[0]])
            rows.add(unknowns, np.append(np.ones(len(part)), -1.0), -np.inf, 0)

    def _add_fairness(self, rows: "_Growing", levels: int) -> tuple[int, int]:
        """Rows that let "gets at least j" be true only of those who do; the makers' number."""
        begins = rows.width
        makers = self._makers()
        if not levels:
            return len(makers), begins
        rows.width += levels * len(makers)
        row, step = np.nonzero(self.table.takers >= 0)
        taker = self.table.takers[row, step]
        order = np.argsort(taker, kind="stable")
        parts = np.split(row[order], np.searchsorted(taker[order], makers)[1:])
        for number, columns in enumerate(parts):
            mine = begins + number + len(makers) * np.arange(levels)
            value = np.append(np.ones(len(columns)), -np.ones(levels))
            rows.add(np.append(columns, mine), value, 0, np.inf)
            for more, less in zip(mine[1:], mine[:-1], strict=True):
                rows.add(np.array([less, more]), np.array([1.0, -1.0]), 0, np.inf)
        return len(makers), begins


class _Growing:
    """Rows of a programme, added one by one."""

    def __init__(self, width: int) -> None:
        self.width = width
        self._index: list[np.ndarray] = []
        self._value: list[np.ndarray] = []
        self._sizes: list[np.ndarray] = []
        self._least: list[np.ndarray] = []
        self._most: list[np.ndarray] = []

    def extend(self, index: np.ndarray, start: np.ndarray, most: np.ndarray) -> None:
        """Rows of ones, none of which passes its `most`."""
        self._index.append(index)
        self._value.append(np.ones(len(index)))
        self._sizes.append(np.diff(start))
        self._least.append(np.full(len(most), -np.inf))
        self._most.append(most)

    def add(self, index: np.ndarray, value: np.ndarray, least: float, most: float) -> None:
        """One row."""
        self._index.append(index)
        self._value.append(value)
        self._sizes.append(np.array([len(index)]))
        self._least.append(np.array([least]))
        self._most.append(np.array([most]))

    def program(self, gain: np.ndarray) -> Program:
        """All of it, every unknown 0 or 1."""
        sizes = np.concatenate(self._sizes)
        return Program(
            gain, np.ones(self.width), np.concatenate(([0], np.cumsum(sizes))),
            np.concatenate(self._index), np.concatenate(self._value),
            np.concatenate(self._least), np.concatenate(self._most),
        )


def _groups(
    takers: np.ndarray, length: np.ndarray, makers: int
) -> tuple[np.ndarray, np.ndarray]:
    """A number for the ring of makers that each column goes round, whoever is named
    first, and a column of each."""
    ring = takers.copy()
    for size in (2, 3, 4):
        mine = np.flatnonzero(length == size)
        if len(mine):
            turn = (ring[mine, :size].argmin(axis=1)[:, None] + np.arange(size)) % size
            ring[mine, :size] = np.take_along_axis(ring[mine, :size], turn, axis=1)
    _, first, group = np.unique(ring, axis=0, return_index=True, return_inverse=True)
    return group.reshape(-1), first
