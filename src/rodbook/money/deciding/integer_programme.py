"""Programmes in which some unknowns are decisions (yes or no) and others are amounts."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from rodbook.boards.tools.linear import FEASIBLE_POINT, Programme, WorkCounter
from rodbook.late import late_library

if TYPE_CHECKING:
    import highspy
else:
    highspy = late_library("highspy")

__all__ = ["MixedProgramme", "MixedSolved"]


@dataclass(frozen=True, slots=True)
class MixedSolved:
    """Values, row duals where nothing had to be whole, cost, what is proven, and whether it is proven within the gap."""

    values: list[float]
    duals: list[float]
    cost: float
    bound: float
    proven: bool


@dataclass(slots=True)
class MixedProgramme(Programme):
    """A programme that knows which of its unknowns are yes or no, or otherwise whole."""

    decisions: list[int] = field(default_factory=list)

    def decision(self, cost: float) -> int:
        """Add an unknown that is 0 or 1; its number comes back."""
        self.decisions.append(self.column(cost, 1.0))
        return self.decisions[-1]

    def counted(self, cost: float, most: float) -> int:
        """Add an unknown that is a whole number from 0 to `most`; its number comes back."""
        self.decisions.append(self.column(cost, most))
        return self.decisions[-1]

    def best(self, *, effort: float, gap: float = 1e-6) -> MixedSolved | None:
        """Solve with decisions whole, proven within `gap` of the best cost if the work allows; None without a solution.

        The search ends by the work that it counts and never by the clock, so the same question has the same answer. [s counted]

        Always from the beginning: begun with a solution that was known, the solver has claimed costs that no values have
        (highspy 1.16.0).
        """
        model = self.model()
        kinds = [highspy.HighsVarType.kContinuous] * len(self.cost)
        for column in self.decisions:
            kinds[column] = highspy.HighsVarType.kInteger
        model.integrality_ = kinds
        return _run(model, effort=effort, gap=gap)

    def relaxed(self, fixed: dict[int, float] | None = None) -> MixedSolved | None:
        """Solve with decisions in shares, or fixed to these values; for the duals of the rows."""
        model = self.model()
        if fixed:
            lower, upper = np.zeros(len(self.cost)), np.array(self.limit, dtype=float)
            for column, value in fixed.items():
                lower[column] = upper[column] = value
            model.col_lower_, model.col_upper_ = lower, upper
        return _run(model, effort=None, gap=0.0)


def _run(model: highspy.HighsLp, *, effort: float | None, gap: float) -> MixedSolved | None:
    solver = highspy._core._Highs()  # the public subclass prints a banner before it can be told not to
    options: dict[str, bool | int | float | str] = {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "mip_rel_gap": gap,
        "mip_abs_gap": 1e-6,
    }
    for option, value in options.items():
        solver.setOptionValue(option, value)
    solver.passModel(model)
    if effort is not None:
        counter = WorkCounter(model.num_col_, effort)
        counter.watch(solver)
    solver.run()
    info, whole = solver.getInfo(), bool(len(model.integrality_))
    optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    if not optimal and not (whole and info.primal_solution_status == FEASIBLE_POINT):
        return None
    solution = solver.getSolution()
    cost = info.objective_function_value
    return MixedSolved(
        list(solution.col_value), list(solution.row_dual), cost, info.mip_dual_bound if whole else cost, optimal
    )
