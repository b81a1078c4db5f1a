"""The one door to the linear and integer programme solver; rows are given sparsely and the answer is plain lists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf
from typing import TYPE_CHECKING, Any

import numpy as np

from rodbook.boards.tools.clock import Clock
from rodbook.late import late_library

if TYPE_CHECKING:
    import highspy
    from highspy._core import _Highs
else:
    highspy = late_library("highspy")

__all__ = ["Growing", "Programme", "Solved", "WorkCounter"]

SOLVE, ENTRY = 2e-4, 1e-7
"""Counted seconds for a linear programme solved once more, and for each entry that it could have. Measured. [s]"""

LOOK, FIRST_LOOKS = 1.1e-6, 15
"""Counted seconds for each variable between two looks at the clock, and how much more before branching. Measured. [s]"""

FEASIBLE_POINT = 2
"""What the solver's information says of a point that satisfies every row."""


@dataclass(frozen=True, slots=True)
class Solved:
    """Values and row duals of a programme.

    `optimal` says whether it was solved to the end, `timed_out` whether the clock stopped it, `bound` what is proven.
    """

    values: list[float]
    duals: list[float]
    objective: float
    bound: float
    optimal: bool
    timed_out: bool = False


@dataclass(slots=True)
class Programme:
    """Minimise cost·x over rows of ``lower <= row·x <= upper`` and ``0 <= x <= limit``."""

    cost: list[float] = field(default_factory=list)
    limit: list[float] = field(default_factory=list)
    entries: list[tuple[int, int, float]] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)

    def column(self, cost: float, limit: float | None = None) -> int:
        """Add a variable between 0 and `limit`; its number comes back."""
        self.cost.append(cost)
        self.limit.append(inf if limit is None else limit)
        return len(self.cost) - 1

    def row(self, terms: Sequence[tuple[int, float]], lower: float = -inf, upper: float = inf) -> int:
        """Add a row of (variable, factor) terms; its number comes back."""
        self.lower.append(lower)
        self.upper.append(upper)
        number = len(self.lower) - 1
        self.entries.extend((number, column, factor) for column, factor in terms if factor)
        return number

    def solve(
        self,
        *,
        whole: bool = False,
        seconds: float = inf,
        nodes: int | None = None,
        enough: float | None = None,
        clock: Clock | None = None,
    ) -> Solved | None:
        """Solve on one thread; None where no solution exists or none was found within the limits.

        Whole numbers are looked for until they are best, or cost no more than is `enough`. Where a `clock` counts
        work, `seconds` are counted.
        """
        solver = _quiet_solver()
        counted = clock is not None and clock.counts
        limit = clock.by_clock() if clock is not None and counted else seconds
        solver.setOptionValue("time_limit", max(limit, 0.01))
        if whole:
            solver.setOptionValue("mip_rel_gap", 0.0)
            solver.setOptionValue("mip_abs_gap", 1e-6)
        if nodes is not None:
            solver.setOptionValue("mip_max_nodes", nodes)
        if enough is not None:
            solver.setOptionValue("objective_target", enough)
        solver.passModel(self.model(whole=whole))
        if clock is None or not counted:
            return _solved(solver, whole=whole)
        counter = WorkCounter(len(self.cost), seconds)
        counter.watch(solver)
        solved = _solved(solver, whole=whole)
        clock.spend(SOLVE + counter.spent)
        return solved

    def model(self, *, whole: bool = False) -> highspy.HighsLp:
        """Hand the programme over row by row."""
        model = highspy.HighsLp()
        columns, rows = len(self.cost), len(self.lower)
        model.num_col_, model.num_row_ = columns, rows
        model.col_cost_ = np.array(self.cost, dtype=float)
        model.col_lower_ = np.zeros(columns)
        model.col_upper_ = np.array(self.limit, dtype=float)
        model.row_lower_ = np.array(self.lower, dtype=float)
        model.row_upper_ = np.array(self.upper, dtype=float)
        ordered = sorted(self.entries)
        starts = np.searchsorted([entry[0] for entry in ordered], np.arange(rows + 1))
        matrix = model.a_matrix_
        matrix.format_ = highspy.MatrixFormat.kRowwise
        matrix.start_ = starts.astype(np.int32)
        matrix.index_ = np.array([entry[1] for entry in ordered], dtype=np.int32)
        matrix.value_ = np.array([entry[2] for entry in ordered], dtype=float)
        if whole:
            model.integrality_ = [highspy.HighsVarType.kInteger] * columns
        return model


@dataclass(slots=True)
class WorkCounter:
    """Counts the looks that the solver takes at whether to go on, which it takes at the same points each time."""

    columns: int
    seconds: float
    spent: float = 0.0

    def watch(self, solver: _Highs) -> None:
        """Have a solver ended once so much is counted, whatever the clock says."""
        solver.setCallback(self.look, None)
        solver.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)

    def look(
        self,
        _kind: highspy.cb.HighsCallbackType,
        _said: str,
        out: highspy.cb.HighsCallbackOutput,
        answer: highspy.cb.HighsCallbackInput,
        _: Any,
    ) -> None:
        """Count one more, and say whether that was the last."""
        self.spent += LOOK * self.columns * (FIRST_LOOKS if out.mip_node_count <= 1 else 1)
        answer.user_interrupt = self.spent > self.seconds


class Growing:
    """A programme that is solved again and again while variables are added; each solution starts from the last."""

    def __init__(self, programme: Programme) -> None:
        """Hand the programme to a solver of its own."""
        self._solver = _quiet_solver()
        self._solver.passModel(programme.model())

    def column(self, cost: float, terms: Sequence[tuple[int, float]]) -> None:
        """Add a variable of 0 or more, with its (row, factor) terms."""
        rows = np.array([row for row, _ in terms], dtype=np.int32)
        self._solver.addCol(cost, 0.0, inf, len(terms), rows, np.array([factor for _, factor in terms]))

    def bound_row(self, row: int, lower: float, upper: float) -> None:
        """Change the limits of a row."""
        self._solver.changeRowBounds(row, lower, upper)

    def limit_column(self, column: int, upper: float) -> None:
        """Change the most that a variable may be."""
        self._solver.changeColBounds(column, 0.0, upper)

    def solve(self, clock: Clock | None = None) -> Solved | None:
        """Solve; None where no solution exists."""
        if clock is not None:
            clock.spend(SOLVE + ENTRY * self._solver.getNumRow() * self._solver.getNumCol())
        return _solved(self._solver, whole=False)

    def solve_inside(self, clock: Clock | None = None) -> Solved | None:
        """Solve by going through the middle: of all duals that are best, those far from the rims; None if there are none."""
        self._solver.setOptionValue("solver", "ipm")
        self._solver.setOptionValue("run_crossover", "off")
        solved = self.solve(clock)
        self._solver.setOptionValue("solver", "choose")
        self._solver.setOptionValue("run_crossover", "on")
        return solved


def _quiet_solver() -> _Highs:
    """Make a solver that prints nothing, uses one thread and leaves nothing to chance."""
    solver = highspy._core._Highs()  # the public subclass prints a banner before it can be told not to
    solver.setOptionValue("output_flag", False)  # noqa: FBT003
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver


def _solved(solver: _Highs, *, whole: bool) -> Solved | None:
    """Run a solver and take down what it found."""
    solver.run()
    optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    info = solver.getInfo()
    if not optimal and not (whole and info.primal_solution_status == FEASIBLE_POINT):
        return None
    solution = solver.getSolution()
    return Solved(
        values=list(solution.col_value),
        duals=list(solution.row_dual),
        objective=info.objective_function_value,
        bound=info.mip_dual_bound if whole else info.objective_function_value,
        optimal=optimal,
        timed_out=solver.getModelStatus() == highspy.HighsModelStatus.kTimeLimit,
    )
