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
from typing import TYPE_CHECKING

import numpy as np

from rodbook.errors import Infeasible
from rodbook.late import late_library
from rodbook.sizes.candidates import Candidate

if TYPE_CHECKING:
    import highspy
    from highspy._core import _Highs
else:
    highspy = late_library("highspy")

__all__ = ["LeastPacking", "least_number"]

_SAME = 1e-5
"""Packings closer than this are the same; the programmes are solved to about 1e-7. [mm]"""


def _solver() -> _Highs:
    solver = highspy._core._Highs()  # the public subclass prints a banner before it can be told not to
    for option, value in (
        ("output_flag", False),
        ("threads", 1),
        ("parallel", "off"),
        ("random_seed", 0),
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 1e-4),
    ):
        solver.setOptionValue(option, value)
    return solver


def _run(solver: _Highs) -> list[float]:
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise Infeasible("sizes.fewest_not_found")
    return list(solver.getSolution().col_value)


def _add_unknowns(solver: _Highs, costs: Sequence[float], *, whole: int) -> None:
    """Unknowns between zero and one; the first `whole` of them are one or the other."""
    n = len(costs)
    empty = np.array([], dtype=np.int32)
    solver.addCols(n, np.array(costs, dtype=float), np.zeros(n), np.ones(n), 0, empty, empty, np.array([], dtype=float))
    index = np.arange(whole, dtype=np.int32)
    kind = np.full(whole, int(highspy.HighsVarType.kInteger), dtype=np.uint8)
    solver.changeColsIntegrality(whole, index, kind)


def _add_row(solver: _Highs, lower: float, upper: float, columns: Sequence[int], values: Sequence[float]) -> None:
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
        self._alike = np.array(list(alike.values()), dtype=float)
        self._drops = np.full((len(alike), len(cluster)), math.inf)
        for row, serving in zip(self._drops, alike, strict=True):
            sums = np.array([self._sums[k] for k in serving])
            row[list(serving)] = sums.max() - sums
        self._before: frozenset[int] | None = None
        costs, rows = [0.0] * len(cluster), list[tuple[list[int], list[float], float]]()
        none_taken: dict[frozenset[int], int] = {}
        for serving, count in alike.items():
            self._steps_down(serving, count, costs, rows, none_taken)
        self._solver = _solver()
        self._solver.setOptionValue("presolve", "off")  # each programme goes on from the last one's basis
        _add_unknowns(self._solver, costs, whole=0)
        for columns, values, lower in rows:
            _add_row(self._solver, lower, highspy.kHighsInf, columns, values)
        self._number_row = len(rows)
        _add_row(self._solver, 1.0, 1.0, range(len(cluster)), [1.0] * len(cluster))
        self._ruled: dict[int, int] = {}

    def _steps_down(
        self,
        serving: tuple[int, ...],
        count: int,
        costs: list[float],
        rows: list[tuple[list[int], list[float], float]],
        none_taken: dict[frozenset[int], int],
    ) -> None:
        """Unknowns and rows for openings that the same sizes serve: the last step down is not allowed.

        An unknown says that none of the sizes above a step is taken; whatever openings have the same sizes above share it.
        """
        steps: dict[float, list[int]] = defaultdict(list)
        for k in serving:
            steps[self._sums[k]].append(k)
        levels = sorted(steps.items(), reverse=True)
        above, over = None, frozenset[int]()
        for place, (level, here) in enumerate(levels):
            columns, values, lower = list(here), [1.0] * len(here), 1.0
            if above is not None:
                columns.append(above)
                values.append(-1.0)
                lower = 0.0
            over = over.union(here)
            if place + 1 == len(levels):
                rows.append((columns, values, lower))
                return
            known = none_taken.get(over)
            above = none_taken[over] = len(costs) if known is None else known
            if known is None:
                costs.append(0.0)
                rows.append(([*columns, above], [*values, 1.0], lower))
            costs[above] += count * (level - levels[place + 1][0])

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
        taken, least = self._begun(number)
        waiting: list[dict[int, int]] = [{}]
        while waiting:
            ruled = waiting.pop()
            relaxed = self._relaxed(ruled, least - self._step + _SAME)
            if relaxed is None:
                continue
            packing, shares, dearer = relaxed
            better = self._improved(frozenset(sorted(range(len(shares)), key=lambda k: (-shares[k], k))[:number]))
            if self._packing(better) < least - _SAME:
                taken, least = better, self._packing(better)
            if packing > least - self._step + _SAME:
                continue
            room = least - self._step + 2 * _SAME - packing
            ruled |= {k: int(more < 0) for k, more in enumerate(dearer) if abs(more) > room}
            undecided = min(range(len(shares)), key=lambda k: (abs(shares[k] - 0.5), k))
            waiting += [{**ruled, undecided: 0}, {**ruled, undecided: 1}]
        if taken is None:
            raise Infeasible("sizes.too_few", number=number)
        self._before = taken
        served: dict[int, list[int]] = defaultdict(list)
        for i in self._openings:
            served[max((k for k in self._serving[i] if k in taken), key=lambda k: (self._sums[k], -k))].append(i)
        return [(self._cluster[k], members) for k, members in sorted(served.items())]

    def _begun(self, number: int) -> tuple[frozenset[int] | None, float]:
        """Something to begin with: the last choice with one size more, where it was of one size fewer."""
        if self._before is None or len(self._before) != number - 1:
            return None, math.inf
        reached = self._drops[:, sorted(self._before)].min(axis=1)
        more = self._alike @ np.minimum(reached[:, None], self._drops)
        more[sorted(self._before)] = math.inf
        taken = self._improved(self._before | {int(more.argmin())})
        return taken, self._packing(taken)

    def _improved(self, taken: frozenset[int]) -> frozenset[int]:
        """The same with sizes changed for others, one for one, as long as that packs less."""
        packing = self._packing(taken)
        while True:
            best = (packing - _SAME, -1, -1)
            for old in sorted(taken):
                others = sorted(taken - {old})
                reached = self._drops[:, others].min(axis=1, initial=math.inf)
                changed = self._alike @ np.minimum(reached[:, None], self._drops)
                changed[others] = math.inf
                new = int(changed.argmin())
                best = min(best, (float(changed[new]), old, new))
            if best[1] < 0:
                return taken
            packing, taken = best[0], taken - {best[1]} | {best[2]}

    def _relaxed(self, ruled: dict[int, int], most: float) -> tuple[float, list[float], list[float]] | None:
        """Least packing with sizes taken in shares, the shares, and how much dearer each becomes by being taken.

        None where these rules leave an opening unserved, or pack more than `most`. [mm]
        """
        for k in self._ruled.keys() - ruled.keys():
            self._solver.changeColBounds(k, 0.0, 1.0)
        for k in ruled.keys() - {k for k, value in self._ruled.items() if ruled.get(k) == value}:
            self._solver.changeColBounds(k, ruled[k], ruled[k])
        self._ruled = ruled
        self._solver.setOptionValue("objective_bound", most)
        self._solver.run()
        status = self._solver.getModelStatus()
        if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kObjectiveBound):
            return None
        if status != highspy.HighsModelStatus.kOptimal:
            raise Infeasible("sizes.least_packing_not_found")
        packing = float(self._solver.getInfo().objective_function_value)
        if packing > most:
            return None
        solution, sizes = self._solver.getSolution(), len(self._cluster)
        return packing, list(solution.col_value)[:sizes], list(solution.col_dual)[:sizes]

    def _packing(self, taken: frozenset[int]) -> float:
        """Steps that all openings together go down with these sizes; endless where one is not served. [mm]"""
        return float(self._alike @ self._drops[:, sorted(taken)].min(axis=1))
