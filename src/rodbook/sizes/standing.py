"""The fewest standard sizes that serve all openings which stand already, found exactly.

An opening of width w and height h is served by a lining of outer size (W, H) where the packing at each side,
(w - W)/2, and over the head, h - H, lies within the range of the packers. Only *tight* sizes need to be looked at:
those as large as the narrowest and the lowest opening that they serve allow; any other size can grow to a tight one
without losing an opening, and packs less. Least number first, then least packing in all: two small integer programmes
for each cluster of openings that can share sizes at all.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from rodbook.errors import Infeasible, InputError

__all__ = ["Offer", "PackerRange", "SizeChoice", "StandardSize", "fewest_sizes"]

_SLACK_MM = 1e-6
"""Far below what a tape can read; keeps float error from turning an opening away at the edge of the range."""


@dataclass(frozen=True)
class PackerRange:
    """Thinnest and thickest packing allowed at each side and over the head. [mm]"""

    side_least: float
    side_most: float
    head_least: float
    head_most: float

    def __post_init__(self) -> None:
        """Refuse a range that is upside down."""
        if not (0 <= self.side_least <= self.side_most and 0 <= self.head_least <= self.head_most):
            raise InputError.at("packers", "the least packing must be nought or more, and not above the most")

    def serves(self, offer: Offer, width: float, height: float) -> bool:
        """Whether a lining of this outer size can be packed into that opening. [mm]"""
        across, over = offer.width - width, offer.height - height
        return (
            2 * self.side_least - _SLACK_MM <= across <= 2 * self.side_most + _SLACK_MM
            and self.head_least - _SLACK_MM <= over <= self.head_most + _SLACK_MM
        )


@dataclass(frozen=True)
class Offer:
    """The upright rectangle that an opening offers; only openings of one `group` may share a size. [mm]"""

    name: str
    width: float
    height: float
    group: tuple[str | int | float, ...] = ()


@dataclass(frozen=True)
class StandardSize:
    """An outer lining size and the openings that it serves.

    Parameters
    ----------
    width, height : float
        Outer size of the lining. [mm]
    openings : tuple of str
        Names of the openings.
    narrowest, lowest : str
        The openings that set the width and the height.
    """

    width: float
    height: float
    group: tuple[str | int | float, ...]
    openings: tuple[str, ...]
    narrowest: str
    lowest: str


@dataclass(frozen=True)
class SizeChoice:
    """The sizes, how many they are, and that fewer are impossible.

    Parameters
    ----------
    sizes : tuple of StandardSize
        Largest group of openings first within each group.
    packing_mm : float
        Sum over all openings of the packing at both sides and over the head. [mm]
    fewest : int
        How many sizes it takes at least: fewer are proven impossible, as the programmes are solved to the end or an error
        is raised.
    """

    sizes: tuple[StandardSize, ...]
    packing_mm: float
    fewest: int

    @property
    def proven(self) -> bool:
        """Whether fewer sizes than these are proven impossible; not so where somebody asked for more than the fewest."""
        return len(self.sizes) == self.fewest

    def size_of(self, opening: str) -> StandardSize:
        """The size that serves an opening."""
        return next(size for size in self.sizes if opening in size.openings)


@dataclass(frozen=True)
class _Candidate:
    width: float
    height: float
    served: frozenset[int]


def fewest_sizes(offers: Sequence[Offer], packers: PackerRange, *, step: float = 1.0) -> SizeChoice:
    """Choose the fewest standard sizes that serve every opening and, at that number, the least packing.

    Parameters
    ----------
    offers : sequence of Offer
        What the openings offer; names are distinct.
    packers : PackerRange
        Thinnest and thickest packing allowed.
    step : float
        Sizes are multiples of this. [mm]

    Returns
    -------
    SizeChoice

    Raises
    ------
    InputError
        If names are not distinct, or `step` is not positive.
    Infeasible
        If the range is so narrow that no multiple of `step` serves an opening.

    Examples
    --------
    >>> choice = fewest_sizes(
    ...     [Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("C3", 524, 2031)], PackerRange(4, 16, 4, 20))
    >>> [(size.width, size.height, size.openings) for size in choice.sizes]
    [(834.0, 2026.0, ('C1', 'C2')), (516.0, 2027.0, ('C3',))]
    """
    if len({o.name for o in offers}) != len(offers):
        raise InputError.at("openings", "two openings have the same name; each needs its own")
    if not (math.isfinite(step) and step > 0):
        raise InputError.at("step", f"sizes can't go in steps of {step} mm; write a step above nought")
    groups: dict[tuple[str | int | float, ...], list[Offer]] = defaultdict(list)
    for offer in offers:
        groups[offer.group].append(offer)
    sizes: list[StandardSize] = []
    for group, members in groups.items():
        candidates = _tight_candidates(members, packers, step)
        _refuse_unserved(members, candidates)
        chosen = [c for cluster in _clusters(candidates) for c in _solve(members, cluster)]
        found = [_standard(members, candidate, served, group, packers, step) for candidate, served in chosen]
        sizes += sorted(found, key=lambda s: (-len(s.openings), -s.width, -s.height))
    by_name = {o.name: o for o in offers}
    packing = sum(by_name[n].width - s.width + by_name[n].height - s.height for s in sizes for n in s.openings)
    return SizeChoice(tuple(sizes), packing, len(sizes))


def _down(value: float, step: float) -> float:
    return math.floor(value / step + _SLACK_MM) * step


def _tight_candidates(offers: Sequence[Offer], packers: PackerRange, step: float) -> list[_Candidate]:
    widths = np.array([_down(o.width - 2 * packers.side_least, step) for o in offers])
    heights = np.array([_down(o.height - packers.head_least, step) for o in offers])
    across, over = np.array([o.width for o in offers]), np.array([o.height for o in offers])

    def fits(offered: np.ndarray, size: float, least: float, most: float) -> np.ndarray:
        return (offered - size >= least - _SLACK_MM) & (offered - size <= most + _SLACK_MM)

    rows = {w: fits(across, w, 2 * packers.side_least, 2 * packers.side_most) for w in sorted(set(widths))}
    columns = {h: fits(over, h, packers.head_least, packers.head_most) for h in sorted(set(heights))}
    found: list[_Candidate] = []
    for w, in_width in rows.items():
        for h, in_height in columns.items():
            served = np.flatnonzero(in_width & in_height)
            if len(served) and widths[served].min() == w and heights[served].min() == h:
                found.append(_Candidate(float(w), float(h), frozenset(served.tolist())))
    return found


def _refuse_unserved(offers: Sequence[Offer], candidates: Sequence[_Candidate]) -> None:
    served = frozenset[int]().union(*(c.served for c in candidates))
    missing = [o.name for i, o in enumerate(offers) if i not in served]
    if missing:
        raise Infeasible(
            f"No size in whole steps can be packed into {', '.join(missing)}: the packer range is narrower than the "
            "step; widen the range or make the step finer.",
            missing,
        )


def _clusters(candidates: Sequence[_Candidate]) -> list[list[_Candidate]]:
    """Candidates whose openings hang together; each cluster can be solved by itself."""
    clusters: list[tuple[set[int], list[_Candidate]]] = []
    for candidate in candidates:
        touching = [c for c in clusters if c[0] & candidate.served]
        openings = set(candidate.served).union(*(c[0] for c in touching))
        members = [m for c in touching for m in c[1]] + [candidate]
        clusters = [c for c in clusters if c not in touching] + [(openings, members)]
    return [members for _, members in clusters]


def _packing(offer: Offer, candidate: _Candidate) -> float:
    return offer.width - candidate.width + offer.height - candidate.height


def _solve(offers: Sequence[Offer], cluster: Sequence[_Candidate]) -> list[tuple[_Candidate, list[int]]]:
    """Chosen candidates of one cluster with the openings that each serves."""
    openings = sorted(frozenset[int]().union(*(c.served for c in cluster)))
    whole = [c for c in cluster if len(c.served) == len(openings)]
    if whole:
        best = min(whole, key=lambda c: (-c.width - c.height, c.width))
        return [(best, openings)]
    fewest = round(_least_number(openings, cluster))
    return _least_packing(offers, openings, cluster, fewest)


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


def _add_binaries(solver: highspy.Highs, costs: Sequence[float]) -> None:
    n = len(costs)
    empty = np.array([], dtype=np.int32)
    solver.addCols(n, np.array(costs, dtype=float), np.zeros(n), np.ones(n), 0, empty, empty, np.array([], dtype=float))
    index = np.arange(n, dtype=np.int32)
    solver.changeColsIntegrality(n, index, np.full(n, int(highspy.HighsVarType.kInteger), dtype=np.uint8))


def _add_row(
    solver: highspy.Highs, lower: float, upper: float, columns: Sequence[int], values: Sequence[float]
) -> None:
    solver.addRow(lower, upper, len(columns), np.array(columns, dtype=np.int32), np.array(values, dtype=float))


def _least_number(openings: Sequence[int], cluster: Sequence[_Candidate]) -> float:
    solver = _solver()
    _add_binaries(solver, [1.0] * len(cluster))
    for i in openings:
        columns = [k for k, c in enumerate(cluster) if i in c.served]
        _add_row(solver, 1.0, highspy.kHighsInf, columns, [1.0] * len(columns))
    return sum(round(value) for value in _run(solver))


def _least_packing(
    offers: Sequence[Offer], openings: Sequence[int], cluster: Sequence[_Candidate], number: int
) -> list[tuple[_Candidate, list[int]]]:
    pairs = [(i, k) for k, c in enumerate(cluster) for i in sorted(c.served)]
    first = len(cluster)
    solver = _solver()
    _add_binaries(solver, [0.0] * first + [_packing(offers[i], cluster[k]) for i, k in pairs])
    of_opening: dict[int, list[int]] = defaultdict(list)
    for column, (i, k) in enumerate(pairs, first):
        of_opening[i].append(column)
        _add_row(solver, -highspy.kHighsInf, 0.0, [column, k], [1.0, -1.0])
    for i in openings:
        _add_row(solver, 1.0, 1.0, of_opening[i], [1.0] * len(of_opening[i]))
    _add_row(solver, number, number, list(range(first)), [1.0] * first)
    values = _run(solver)
    chosen: dict[int, list[int]] = defaultdict(list)
    for column, (i, k) in enumerate(pairs, first):
        if round(values[column]):
            chosen[k].append(i)
    return [(cluster[k], served) for k, served in sorted(chosen.items())]


def _standard(
    offers: Sequence[Offer], candidate: _Candidate, served: Sequence[int], group: tuple[str | int | float, ...],
    packers: PackerRange, step: float,
) -> StandardSize:  # fmt: skip
    members = [offers[i] for i in served]
    narrowest, lowest = min(members, key=lambda o: o.width), min(members, key=lambda o: o.height)
    width = _down(narrowest.width - 2 * packers.side_least, step)
    height = _down(lowest.height - packers.head_least, step)
    return StandardSize(
        max(width, candidate.width), max(height, candidate.height), group,
        tuple(o.name for o in members), narrowest.name, lowest.name,
    )  # fmt: skip
