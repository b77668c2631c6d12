"""The integer programme of a repair: what is put where, in the cells that are open.

HiGHS (Huangfu & Hall, 2018), one thread, one seed. Few of the cells of a large swap are
of any use to a mend, so it begins with those and is given more as they turn out to be.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from swapboard.dealing.repair_task import SHORT, TOUCHED, Aims, Cell, Task
from swapboard.dealing.rules import Maker

SECONDS = 60.0


class Unsolved(Exception):
    """A programme for which not even a poor choice was found in `SECONDS`."""


@dataclass(frozen=True, slots=True)
class Solved:
    """What HiGHS found: `values` of all columns, what they come to, the prices of
    givers' cards and the weights of settled aims (of a linear programme alone), and
    whether it says that nothing less is possible."""

    values: list[float]
    total: float
    prices: dict[Maker, float]
    weights: dict[str, float]
    optimal: bool


class Programme:
    """Columns are whole numbers from 0; a row holds a weighted sum of them in bounds."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.open: set[Cell] = set()
        self.settled: dict[str, int] = {}
        self._last: list[int] = []
        self._most: list[int] = []
        self._aims: list[Aims] = []
        self._parts: dict[Cell, list[int]] = {}
        self._links: list[tuple[dict[int, int], float, float]] = []
        self._of_giver: dict[Maker, dict[int, int]] = {giver: {} for giver in task.givers}
        lacking = {taker: self._column(task.due[taker], {SHORT}) for taker in task.takers}
        self._of_taker = {taker: {column: 1} for taker, column in lacking.items()}
        self._touched = {t: self._column(1, {TOUCHED}) for t in task.takers if t in task.quiet}

    def open_cells(self, cells: Iterable[Cell]) -> None:
        """Let cards go into these cells as well, in the order given."""
        for cell in cells:
            if cell not in self.open:
                self.open.add(cell)
                self._open(cell)

    def _column(self, most: int, aims: Iterable[str]) -> int:
        self._most.append(most)
        self._aims.append(frozenset(aims))
        return len(self._most) - 1

    def _open(self, cell: Cell) -> None:
        giver, taker = cell
        self._parts[cell] = [self._column(most, aims) for most, aims in self.task.cells[cell]]
        touched = self._touched.get(taker)
        for column in self._parts[cell]:
            self._of_giver[giver][column] = self._of_taker[taker][column] = 1
            if touched is None:
                continue
            most = self._most[column]
            if self._aims[column]:
                self._links.append(({column: 1, touched: -most}, float("-inf"), 0))
            else:
                self._links.append(({column: 1, touched: most}, most, float("inf")))

    def settle(self, aim: str, most: int) -> None:
        """Let an aim come to `most` from here on, and no more."""
        self.settled[aim] = most

    def columns_for(self, aim: str) -> dict[int, int]:
        """The columns that count for an aim, once each."""
        return {column: 1 for column, aims in enumerate(self._aims) if aim in aims}

    def does_without(self, aim: str) -> bool:
        """Whether what was found last, in whole numbers, has nothing that counts for an aim."""
        return bool(self._last) and not any(
            value for value, aims in zip(self._last, self._aims, strict=False) if aim in aims
        )

    def columns_in(self, weights: Mapping[Cell, int], aim: str) -> dict[int, int]:
        """The columns of cells that count for an aim, by the weight of their cell."""
        return {
            column: weight for cell, weight in weights.items()
            for column in self._parts.get(cell, ()) if aim in self._aims[column]
        }  # fmt: skip

    def table(self, solved: Solved) -> dict[Cell, int]:
        """How many cards go into each cell that holds some."""
        counts = {
            cell: round(sum(solved.values[column] for column in columns))
            for cell, columns in self._parts.items()
        }
        return {cell: count for cell, count in counts.items() if count}

    def solve(self, costs: Mapping[int, int], whole: bool) -> Solved:
        """Make a weighted sum as small as can be; without `whole`, in fractions too."""
        import highspy

        rows = self._rows()
        highs = _quiet(highspy)
        for option, value in (
            ("output_flag", False), ("threads", 1), ("random_seed", 0), ("mip_rel_gap", 0.0),
            ("mip_abs_gap", 0.5), ("time_limit", SECONDS),
        ):
            highs.setOptionValue(option, value)
        highs.passModel(self._model(costs, rows, whole, highspy))
        highs.run()
        solution = highs.getSolution()
        optimal = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        found = list(solution.col_value)
        if whole:
            found = [round(value) for value in found]
            # What HiGHS reports is believed only where its own choice bears it out.
            if len(found) != len(self._most) or not _fits(found, rows, self._most):
                raise Unsolved("no repair was found in the time allowed")
            self._last = found
        total = sum(weight * found[column] for column, weight in costs.items()) if found else 0.0
        prices, weights = self._told(list(solution.row_dual)) if not whole else ({}, {})
        return Solved(found, total, prices, weights, optimal)

    def _rows(self) -> list[tuple[dict[int, int], float, float]]:
        """Givers first, then settled aims, takers, and what ties cards to envelopes."""
        task, less = self.task, float("-inf")
        return [
            *((self._of_giver[g], less, len(task.piles[g])) for g in task.givers),
            *((self.columns_for(aim), less, most) for aim, most in self.settled.items()),
            *((self._of_taker[t], task.due[t], task.due[t]) for t in task.takers),
            *self._links,
        ]

    def _told(self, duals: list[float]) -> tuple[dict[Maker, float], dict[str, float]]:
        givers = len(self.task.givers)
        prices = {g: -dual for g, dual in zip(self.task.givers, duals, strict=False)}
        return prices, {a: -d for a, d in zip(self.settled, duals[givers:], strict=False)}

    def _model(self, costs: Mapping[int, int], rows: list, whole: bool, highspy):
        size = len(self._most)
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = size, len(rows)
        model.col_cost_ = [float(costs.get(at, 0)) for at in range(size)]
        model.col_lower_, model.col_upper_ = [0.0] * size, [float(most) for most in self._most]
        model.row_lower_ = [float(least) for _, least, _ in rows]
        model.row_upper_ = [float(most) for _, _, most in rows]
        starts, index, value = [0], [], []
        for row, _, _ in rows:
            index += list(row)
            value += [float(weight) for weight in row.values()]
            starts.append(len(index))
        model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        model.a_matrix_.start_, model.a_matrix_.index_ = starts, index
        model.a_matrix_.value_ = value
        if whole:
            model.integrality_ = [highspy.HighsVarType.kInteger] * size
        return model


def _fits(found: list[int], rows: list, most: list[int]) -> bool:
    return all(0 <= value <= top for value, top in zip(found, most, strict=True)) and all(
        least <= sum(weight * found[at] for at, weight in row.items()) <= top
        for row, least, top in rows
    )


def _quiet(highspy):
    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:
            # Without callbacks: turning them on prints a line before anything can be set.
            self.setOptionValue("output_flag", False)

    return Quiet()
