"""The fewest standard sizes that serve all openings which stand already, found exactly.

An opening of width w and height h is served by a lining of outer size (W, H) where the packing at each side,
(w - W)/2, and over the head, h - H, lies within the range of the packers. Least number first, then least packing in all: two
small integer programmes for each cluster of openings that can share sizes at all.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.errors import InputError
from rodbook.sizes.candidates import (
    Candidate,
    Offer,
    PackerRange,
    clusters_of,
    down_to_step,
    refuse_unserved,
    tight_candidates,
)
from rodbook.sizes.programmes import LeastPacking, least_number

__all__ = ["SizeChoice", "StandardSize", "fewest_sizes", "standard_size"]


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
        raise InputError.at("openings", "sizes.two_of_one_name")
    if not (math.isfinite(step) and step > 0):
        raise InputError.at("step", "sizes.step_not_above_zero", step_mm=step)
    groups: dict[tuple[str | int | float, ...], list[Offer]] = defaultdict(list)
    for offer in offers:
        groups[offer.group].append(offer)
    sizes: list[StandardSize] = []
    for group, members in groups.items():
        candidates = tight_candidates(members, packers, step)
        refuse_unserved(members, candidates)
        chosen = [c for cluster in clusters_of(candidates) for c in _solve(cluster, step)]
        results = [standard_size(members, candidate, served, group, packers, step) for candidate, served in chosen]
        sizes += sorted(results, key=lambda s: (-len(s.openings), -s.width, -s.height))
    by_name = {o.name: o for o in offers}
    packing = sum(by_name[n].width - s.width + by_name[n].height - s.height for s in sizes for n in s.openings)
    return SizeChoice(tuple(sizes), packing, len(sizes))


def _solve(cluster: Sequence[Candidate], step: float) -> list[tuple[Candidate, list[int]]]:
    """Chosen candidates of one cluster with the openings that each serves."""
    openings = sorted(frozenset[int]().union(*(c.served for c in cluster)))
    whole = [c for c in cluster if len(c.served) == len(openings)]
    if whole:
        best = min(whole, key=lambda c: (-c.width - c.height, c.width))
        return [(best, openings)]
    return LeastPacking(openings, cluster, step=step).sizes(least_number(openings, cluster))


def standard_size(
    offers: Sequence[Offer],
    candidate: Candidate,
    served: Sequence[int],
    group: tuple[str | int | float, ...],
    packers: PackerRange,
    step: float,
) -> StandardSize:
    """A chosen size as it is told: which openings it serves, and which of them set it."""
    members = [offers[i] for i in served]
    narrowest, lowest = min(members, key=lambda o: o.width), min(members, key=lambda o: o.height)
    width = down_to_step(narrowest.width - 2 * packers.side_least, step)
    height = down_to_step(lowest.height - packers.head_least, step)
    return StandardSize(
        max(width, candidate.width),
        max(height, candidate.height),
        group,
        tuple(o.name for o in members),
        narrowest.name,
        lowest.name,
    )
