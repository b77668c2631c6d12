"""Whole numbers that are best by one aim after the other: HiGHS, one thread, one seed."""

from collections.abc import Mapping

SECONDS = 60.0


class Unsolved(Exception):
    """A programme for which not even a poor choice was found in `SECONDS`."""


class Levels:
    """An integer programme that grows: columns from 0 to their most, rows, and aims.

    `lower` makes a sum as small as can be and keeps it there for the aims that follow.
    `proven` is False once an aim could not be proven best in `SECONDS`.
    """

    def __init__(self) -> None:
        self._upper: list[float] = []
        self._rows: list[tuple[dict[int, int], float, float]] = []
        self._values: list[int] | None = None
        self.proven = True

    def column(self, most: int) -> int:
        """A new whole number from 0 to `most`; its place."""
        self._upper.append(most)
        if self._values is not None:
            self._values.append(0)
        return len(self._upper) - 1

    def row(
        self, parts: Mapping[int, int], least: float = float("-inf"), most: float = float("inf")
    ) -> None:
        """`least` ≤ the weighted sum of some columns ≤ `most`."""
        self._rows.append((dict(parts), least, most))

    def lower(self, parts: Mapping[int, int]) -> None:
        """Make a weighted sum as small as can be, without undoing earlier aims."""
        if not parts and self._values is not None:
            return
        self._values = self._solved(parts)
        self.row(parts, most=sum(weight * self._values[at] for at, weight in parts.items()))

    def values(self) -> list[int]:
        """The value of every column, by its place."""
        return self._values or [0] * len(self._upper)

    def _solved(self, parts: Mapping[int, int]) -> list[int]:
        import highspy

        highs = _quiet(highspy)
        for option, value in (
            ("output_flag", False), ("threads", 1), ("random_seed", 0), ("mip_rel_gap", 0.0),
            ("mip_abs_gap", 0.5), ("time_limit", SECONDS),
        ):
            highs.setOptionValue(option, value)
        highs.passModel(self._model(parts, highspy))
        highs.run()
        found = [round(value) for value in highs.getSolution().col_value]
        # What HiGHS reports is believed only where its own choice bears it out.
        fits = len(found) == len(self._upper) and all(
            least <= sum(weight * found[at] for at, weight in row.items()) <= most
            for row, least, most in self._rows
        )
        if not fits:
            raise Unsolved("no repair was found in the time allowed")
        best = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        self.proven = self.proven and best
        return found

    def _model(self, parts: Mapping[int, int], highspy):
        size, rows = len(self._upper), [row for row in self._rows if row[0]]
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = size, len(rows)
        model.col_cost_ = [float(parts.get(at, 0)) for at in range(size)]
        model.col_lower_, model.col_upper_ = [0.0] * size, [float(most) for most in self._upper]
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
        model.integrality_ = [highspy.HighsVarType.kInteger] * size
        return model


def _quiet(highspy):
    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:
            # Without callbacks: turning them on prints a line before anything can be set.
            self.setOptionValue("output_flag", False)

    return Quiet()
