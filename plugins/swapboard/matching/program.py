"""Linear and integer programmes through HiGHS (Huangfu & Hall 2018, "Parallelizing the
dual revised simplex method"), one thread and one seed, so that a run repeats."""

from dataclasses import dataclass

import numpy as np

from swapboard.matching.effort import Effort


@dataclass(frozen=True, slots=True)
class Program:
    """Maximise `gain` · x over 0 ≤ x ≤ `upper`, `least` ≤ A x ≤ `most`.

    A by rows: row r has the columns `index[start[r]:start[r + 1]]`, `value` beside."""

    gain: np.ndarray
    upper: np.ndarray
    start: np.ndarray
    index: np.ndarray
    value: np.ndarray
    least: np.ndarray
    most: np.ndarray


@dataclass(frozen=True, slots=True)
class Answer:
    """`choice` is the best x found, None for none; nothing is better than `bound`.
    `easy` says that hardly any branches had to be looked at."""

    choice: np.ndarray | None
    value: float
    bound: float
    proven: bool
    easy: bool = True


def solver(seconds: float):
    """A quiet HiGHS with one thread, a fixed seed, no gap allowed, and a time limit."""
    import highspy

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:
            # Without callbacks: turning them on prints a line before anything can be set.
            self.setOptionValue("output_flag", False)

    highs = Quiet()
    for option, value in (
        ("output_flag", False), ("threads", 1), ("random_seed", 0), ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 0.5), ("time_limit", min(1e9, max(0.1, float(seconds)))),
    ):
        highs.setOptionValue(option, value)
    return highs


def solve(
    program: Program, effort: Effort, known: np.ndarray | None = None, nodes: int = 1_000_000,
    gap: float = 0.5,
) -> Answer:
    """The best whole numbers; where all gains are whole, a gap under 1 is a proof.

    `known` is an x that fits, to start from. After so many `nodes` of the search, or
    where time runs out, the best found is given, which is `known` at the least. What
    HiGHS reports is believed only where the x that it gives is worth as much.
    """
    import highspy

    highs = solver(effort.left())
    highs.setOptionValue("mip_max_nodes", nodes)
    highs.setOptionValue("mip_abs_gap", gap)
    if highs.passModel(_model(program, highspy)) == highspy.HighsStatus.kError:
        raise AssertionError("the programme is malformed")
    if known is not None:
        start = highspy.HighsSolution()
        start.col_value = known.astype(float).tolist()
        highs.setSolution(start)
    highs.run()
    if highs.getModelStatus() == highspy.HighsModelStatus.kTimeLimit:
        effort.note()
    if highs.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return Answer(None, -np.inf, -np.inf, True)
    info = highs.getInfo()
    choice, value = known, -np.inf if known is None else float(program.gain @ known)
    if info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible:
        found = np.rint(np.array(highs.getSolution().col_value))
        worth = float(program.gain @ found)
        if known is not None and worth < info.objective_function_value - 0.5:
            # HiGHS 1.16 can better a start while it simplifies the programme, report
            # the better value, and give the start back.
            return _better(solve(program, effort, None, nodes, gap), known, value)
        if choice is None or worth > value:
            choice, value = found, worth
    bound = min(float(info.mip_dual_bound), _most_of_all(program))
    easy = info.mip_node_count <= 1
    return Answer(choice, value, bound, value > bound - 1 + 1e-6, easy)


def _better(answer: Answer, known: np.ndarray, value: float) -> Answer:
    if answer.choice is not None and answer.value >= value:
        return answer
    bound = answer.bound if np.isfinite(answer.bound) else np.inf
    return Answer(known, value, bound, value > bound - 1 + 1e-6)


class Growing:
    """A linear programme to which rows are added, each solve going on from the last."""

    def __init__(self, program: Program, steps: int) -> None:
        import highspy

        self._highs = solver(np.inf)
        self._highs.setOptionValue("simplex_iteration_limit", steps)
        model = _model(program, highspy)
        model.integrality_ = []
        self._highs.passModel(model)

    def add(self, index: np.ndarray, value: np.ndarray, most: float) -> None:
        """A row that may not pass `most`."""
        self._highs.addRow(-np.inf, most, len(index), index.astype(np.int32), value)

    def forbid(self, columns: np.ndarray) -> None:
        """Columns that are taken no longer."""
        none = np.zeros(len(columns))
        self._highs.changeColsBounds(len(columns), columns.astype(np.int32), none, none)

    def solve(self, effort: Effort) -> tuple[np.ndarray, np.ndarray] | None:
        """The best shares between 0 and `upper`, and the price of each row, none below zero;
        None where the steps of the simplex method, or the time, do not suffice."""
        import highspy

        # The clock of one HiGHS runs on from solve to solve.
        self._highs.setOptionValue("time_limit", self._highs.getRunTime() + effort.left())
        self._highs.run()
        if self._highs.getModelStatus() == highspy.HighsModelStatus.kTimeLimit:
            effort.note()
        if self._highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        solution = self._highs.getSolution()
        return np.array(solution.col_value), np.maximum(0.0, np.array(solution.row_dual))


def _most_of_all(program: Program) -> float:
    return float(np.maximum(program.gain, 0) @ program.upper)


def _model(program: Program, highspy):
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(program.gain), len(program.most)
    model.sense_ = highspy.ObjSense.kMaximize
    model.col_cost_ = program.gain.astype(float)
    model.col_lower_ = np.zeros(len(program.gain))
    model.col_upper_ = program.upper.astype(float)
    model.row_lower_ = program.least.astype(float)
    model.row_upper_ = program.most.astype(float)
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = program.start.astype(np.int32)
    model.a_matrix_.index_ = program.index.astype(np.int32)
    model.a_matrix_.value_ = program.value.astype(float)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(program.gain)
    return model
