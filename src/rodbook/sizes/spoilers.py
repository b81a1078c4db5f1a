"""Openings that spoil it: without which of them would fewer sizes do?

Taking one opening away never makes more sizes necessary, and at most one fewer. Each opening in turn is left out and the
set cover solved again for its own cluster alone, so the answer is exact. Where no single opening does it, pairs
are not looked at: two would have to be built another way to save one size.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.sizes.candidates import Offer, PackerRange, clusters_of, tight_candidates
from rodbook.sizes.programmes import least_number
from rodbook.sizes.standard import fewest_sizes

__all__ = ["Spoiler", "spoilers"]


@dataclass(frozen=True)
class Spoiler:
    """An opening without which so many sizes would do."""

    opening: str
    number: int


def spoilers(offers: Sequence[Offer], packers: PackerRange, *, step: float = 1.0) -> tuple[Spoiler, ...]:
    """Name every opening that a size is needed for on its account alone.

    Parameters
    ----------
    offers : sequence of Offer
        What the openings offer; names are distinct.
    packers : PackerRange
    step : float
        Sizes are multiples of this. [mm]

    Returns
    -------
    tuple of Spoiler
        In the order of the openings; each without which fewer sizes serve all the others. None where there is one opening.

    Raises
    ------
    InputError, Infeasible
        As in `fewest_sizes`.

    Examples
    --------
    >>> offers = [Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("pantry", 524, 2031)]
    >>> spoilers(offers, PackerRange(4, 16, 4, 20))
    (Spoiler(opening='pantry', number=1),)
    """
    if len(offers) < 2:
        return ()
    total = len(fewest_sizes(offers, packers, step=step).sizes)
    groups: dict[tuple[str | int | float, ...], list[Offer]] = defaultdict(list)
    for offer in offers:
        groups[offer.group].append(offer)
    results: set[str] = set()
    for members in groups.values():
        for cluster in clusters_of(tight_candidates(members, packers, step)):
            inside = sorted(frozenset[int]().union(*(c.served for c in cluster)))
            least = least_number(inside, cluster)
            serving = {i: frozenset(k for k, c in enumerate(cluster) if i in c.served) for i in inside}
            for left_out in inside:
                if any(serving[i] <= serving[left_out] for i in inside if i != left_out):
                    continue  # whatever serves that other opening serves this one as well
                rest = [i for i in inside if i != left_out]
                if not rest or least_number(rest, cluster) < least:
                    results.add(members[left_out].name)
    return tuple(Spoiler(offer.name, total - 1) for offer in offers if offer.name in results)
