"""Every level for one table of columns, cut into parts that do not touch each other."""

import math
from dataclasses import dataclass, field

import numpy as np

from swapboard.matching.effort import Effort
from swapboard.matching.objective import (
    FEWEST,
    LIKING,
    MOVED,
    PARCELS,
    RINGS,
    Levels,
    Table,
    measure,
    part_of,
)
from swapboard.matching.program import solve
from swapboard.matching.rows import Rows

_WORK = 2e7  # columns times nodes of one programme, in a minute
_FEWEST = 5  # nodes


@dataclass(slots=True)
class Part:
    """Columns that share makers with no others, and the best choice so far.

    `held` has the levels done, each as gained (what is to be few below zero);
    `proven` says that every level so far was."""

    levels: Levels
    taken: np.ndarray
    numbers: np.ndarray
    held: dict[str, int] = field(default_factory=dict)
    proven: bool = True

    def value(self, level: str) -> int:
        """What the choice is worth on a level; more is better."""
        found = measure(self.levels.table, self.taken).get(level, 0)
        return -found if level in FEWEST else found


@dataclass(frozen=True, slots=True)
class Reached:
    """A level over all parts: as counted on the page, never below zero."""

    value: int
    bound: int
    proven: bool


def parts_of(table: Table, rows: Rows, taken: np.ndarray) -> list[Part]:
    """The table in parts, the largest first; makers tie columns together.

    All levels are sums over exchanges and makers, so the best of the whole is the
    best of each part. Each is solved by itself, so that a new card changes nothing
    among makers who have nothing to do with it.
    """
    pieces = pieces_of(table)
    return [
        Part(Levels(part_of(table, numbers), rows), taken[numbers], numbers) for numbers in pieces
    ]


def pieces_of(table: Table) -> list[np.ndarray]:
    """The numbers of the columns of each part, the largest part first."""
    label = _labels(table)
    order = np.argsort(label, kind="stable")
    pieces = np.split(order, np.flatnonzero(np.diff(label[order])) + 1) if len(order) else []
    return sorted(pieces, key=lambda piece: (-len(piece), piece[0]))


def reach(parts: list[Part], level: str, effort: Effort) -> Reached:
    """Solve one level in every part, and hold it.

    The clock's time is shared by the number of columns still to come.
    """
    left = sum(len(part.taken) for part in parts)
    value = bound = 0
    proven = True
    for part in parts:
        mine = effort.part(len(part.taken) / max(1, left))
        left -= len(part.taken)
        part_bound, part_proven = _reach_part(part, level, mine)
        part.proven = part.proven and part_proven
        proven = proven and part.proven
        part.held[level] = part.value(level)
        value += part.held[level]
        bound += part_bound
    if level in FEWEST:
        return Reached(-value, -bound, proven)
    return Reached(value, bound, proven)


def _reach_part(part: Part, level: str, effort: Effort) -> tuple[int, int]:
    known = part.value(level)
    easy = _easy_bound(part, level)
    if known >= easy:
        return easy, True
    if effort.over():
        return easy, False
    program = part.levels.program(level, part.held)
    nodes = effort.steps(_WORK / max(1, len(part.taken)), _FEWEST)
    answer = solve(program, effort, part.levels.known(part.taken, level, part.held), nodes)
    part.taken = answer.choice[: len(part.taken)] > 0.5
    bound = easy if math.isinf(answer.bound) else min(easy, math.floor(answer.bound + 1e-6))
    return bound, answer.proven or part.value(level) >= bound


def _easy_bound(part: Part, level: str) -> int:
    """What a level cannot pass, seen without solving."""
    table, held = part.levels.table, part.held
    if level == RINGS:
        return 0
    if level == MOVED:
        return int(table.length.sum())
    if level == LIKING:
        return min(3 * held[MOVED], int(table.liking.sum()))
    if level == PARCELS:
        return -2 if held[MOVED] else 0
    # Makers who get k or more: no more than who get k - 1, nor than cards are left to get.
    before = [value for name, value in held.items() if name not in (MOVED, RINGS, LIKING, PARCELS)]
    if not before:
        return min(held[MOVED], len(np.unique(table.takers[table.takers >= 0])))
    return min(before[-1], held[MOVED] - sum(before))


def _labels(table: Table) -> np.ndarray:
    """The part of each column, by the lowest maker in it (union-find, Tarjan 1975)."""
    parent = list(range(int(table.takers.max(initial=0)) + 1))

    def root(maker: int) -> int:
        while parent[maker] != maker:
            parent[maker] = parent[parent[maker]]
            maker = parent[maker]
        return maker

    # One look at each group of makers is enough: its columns all go round the same ones.
    _, first = np.unique(table.group, return_index=True)
    for ring in table.takers[first].tolist():
        for maker in ring[1:]:
            if maker >= 0:
                low, high = sorted((root(ring[0]), root(maker)))
                parent[high] = low
    return np.array([root(maker) for maker in table.takers[:, 0].tolist()], dtype=np.int64)
