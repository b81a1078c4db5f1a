"""The two integer programmes of the choice of sizes, for one cluster of openings that hang together; solved to the end.

*Least number* is a set cover. *Least packing* for a given number of sizes leaves out what is the same for every choice: the
packing of an opening is its width and height less those of its size, so the sum of the sizes' widths and heights counts alone.
For each opening the sizes that serve it are put in order of that sum, and one unknown for each step down says that no size above
the step was taken; so an opening costs the steps that it has to go down. This needs far fewer unknowns than one for each pair of
opening and size (the idea is that of the radius formulation of the p-median problem), and openings that the same sizes serve are
counted together. Relaxed, it is solved in milliseconds and mostly comes out whole; where it does not, sizes are ruled in and out
one by one (branch and bound) with each relaxed programme going on from the one before. Every packing is a multiple of the step,
so a branch is given up as soon as it can't be a whole step better.

References
----------
S. García, M. Labbé, A. Marín, "Solving large p-median problems with a radius formulation", INFORMS Journal on Computing
23 (2011); from memory.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

import highspy
import numpy as np

from rodbook.errors import Infeasible
from rodbook.sizes.candidates import Candidate

__all__ = ["LeastPacking", "least_number"]

_SAME = 1e-5
"""Packings closer than this are the same; the programmes are solved to about 1e-7. [mm]"""


def _solver() -> highspy.Highs:
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    for option, value in (
        ("output_flag", False), ("threads", 1), ("parallel", "off"), ("random_seed", 0),
        ("mip_rel_gap", 0.0), ("mip_abs_gap", 1e-4),
    ):  # fmt: skip
        solver.setOptionValue(option, value)
    return solver


def _run(solver: highspy.Highs) -> list[float]:
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise Infeasible("The search for the fewest sizes did not come to an end; try a wider step.")
    return list(solver.getSolution().col_value)


def _add_unknowns(solver: highspy.Highs, costs: Sequence[float], *, whole: int) -> None:
    """Unknowns between nought and one; the first `whole` of them are one or the other."""
    n = len(costs)
    empty = np.array([], dtype=np.int32)
    solver.addCols(n, np.array(costs, dtype=float), np.zeros(n), np.ones(n), 0, empty, empty, np.array([], dtype=float))
    index = np.arange(whole, dtype=np.int32)
    kind = np.full(whole, int(highspy.HighsVarType.kInteger), dtype=np.uint8)
    solver.changeColsIntegrality(whole, index, kind)


def _add_row(
    solver: highspy.Highs, lower: float, upper: float, columns: Sequence[int], values: Sequence[float]
) -> None:
    solver.addRow(lower, upper, len(columns), np.array(columns, dtype=np.int32), np.array(values, dtype=float))


def least_number(openings: Sequence[int], cluster: Sequence[Candidate]) -> int:
    """How many sizes it takes at least to serve these openings.

    Parameters
    ----------
    openings : sequence of int
        Numbers of the openings.
    cluster : sequence of Candidate
        Sizes to choose from; each opening is served by one at least.
    """
    if any(len(c.served.intersection(openings)) == len(openings) for c in cluster):
        return 1
    solver = _solver()
    _add_unknowns(solver, [1.0] * len(cluster), whole=len(cluster))
    for columns in {tuple(k for k, c in enumerate(cluster) if i in c.served) for i in openings}:
        _add_row(solver, 1.0, highspy.kHighsInf, columns, [1.0] * len(columns))
    return sum(round(value) for value in _run(solver))


class LeastPacking:
    """The choice of so many sizes with the least packing; built once and solved for as many numbers as are asked.

    Parameters
    ----------
    openings : sequence of int
        Numbers of the openings.
    cluster : sequence of Candidate
        Sizes to choose from.
    step : float
        Sizes are multiples of this. [mm]
    """

    def __init__(self, openings: Sequence[int], cluster: Sequence[Candidate], *, step: float) -> None:
        """Set up unknowns and rows."""
        self._openings, self._cluster, self._step = openings, cluster, step
        self._sums = [candidate.width + candidate.height for candidate in cluster]
        self._serving = {i: tuple(k for k, c in enumerate(cluster) if i in c.served) for i in openings}
        alike: dict[tuple[int, ...], int] = defaultdict(int)
        for serving in self._serving.values():
            alike[serving] += 1
        costs, rows = [0.0] * len(cluster), list[tuple[list[int], list[float], float]]()
        for serving, count in alike.items():
            self._steps_down(serving, count, costs, rows)
        self._solver = _solver()
        self._solver.setOptionValue("presolve", "off")  # each programme goes on from the last one's basis
        _add_unknowns(self._solver, costs, whole=0)
        for columns, values, lower in rows:
            _add_row(self._solver, lower, highspy.kHighsInf, columns, values)
        self._number_row = len(rows)
        _add_row(self._solver, 1.0, 1.0, range(len(cluster)), [1.0] * len(cluster))
        self._ruled: dict[int, int] = {}

    def _steps_down(
        self, serving: tuple[int, ...], count: int, costs: list[float], rows: list[tuple[list[int], list[float], float]]
    ) -> None:
        """Unknowns and rows for openings that the same sizes serve: the last step down is not allowed."""
        steps: dict[float, list[int]] = defaultdict(list)
        for k in serving:
            steps[self._sums[k]].append(k)
        levels = sorted(steps, reverse=True)
        above: int | None = None
        for place, level in enumerate(levels):
            columns, lower = list(steps[level]), 1.0
            values = [1.0] * len(columns)
            if above is not None:
                columns.append(above)
                values.append(-1.0)
                lower = 0.0
            if place + 1 < len(levels):
                above = len(costs)
                costs.append(count * (level - levels[place + 1]))
                columns.append(above)
                values.append(1.0)
            rows.append((columns, values, lower))

    def sizes(self, number: int) -> list[tuple[Candidate, list[int]]]:
        """Chosen sizes with the openings that each serves.

        Parameters
        ----------
        number : int
            How many, not fewer than it takes.

        Raises
        ------
        Infeasible
            If so few do not serve every opening.
        """
        self._solver.changeRowBounds(self._number_row, number, number)
        taken: frozenset[int] | None = None
        least = math.inf
        waiting: list[dict[int, int]] = [{}]
        while waiting:
            ruled = waiting.pop()
            relaxed = self._relaxed(ruled)
            if relaxed is None or relaxed[0] > least - self._step + _SAME:
                continue
            shares = relaxed[1]
            rounded = frozenset(sorted(range(len(shares)), key=lambda k: (-shares[k], k))[:number])
            packing = self._packing(rounded)
            if packing < least - _SAME:
                taken, least = rounded, packing
            if relaxed[0] <= least - self._step + _SAME:
                undecided = min(range(len(shares)), key=lambda k: (abs(shares[k] - 0.5), k))
                waiting += [{**ruled, undecided: 0}, {**ruled, undecided: 1}]
        if taken is None:
            raise Infeasible(f"{number} sizes can't serve every opening.")
        served: dict[int, list[int]] = defaultdict(list)
        for i in self._openings:
            served[max((k for k in self._serving[i] if k in taken), key=lambda k: (self._sums[k], -k))].append(i)
        return [(self._cluster[k], members) for k, members in sorted(served.items())]

    def _relaxed(self, ruled: dict[int, int]) -> tuple[float, list[float]] | None:
        """Least packing with sizes taken in shares, and the shares; None where these rules leave an opening unserved."""
        for k in self._ruled.keys() - ruled.keys():
            self._solver.changeColBounds(k, 0.0, 1.0)
        for k in ruled.keys() - {k for k, value in self._ruled.items() if ruled.get(k) == value}:
            self._solver.changeColBounds(k, ruled[k], ruled[k])
        self._ruled = ruled
        self._solver.run()
        status = self._solver.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return None
        if status != highspy.HighsModelStatus.kOptimal:
            raise Infeasible("The search for the least packing did not come to an end; try a wider step.")
        shares = list(self._solver.getSolution().col_value)[: len(self._cluster)]
        return float(self._solver.getInfo().objective_function_value), shares

    def _packing(self, taken: frozenset[int]) -> float:
        """Steps that all openings together go down with these sizes; endless where one is not served. [mm]"""
        total = 0.0
        for serving in self._serving.values():
            best = max((self._sums[k] for k in serving if k in taken), default=-math.inf)
            total += max(self._sums[k] for k in serving) - best
        return total
