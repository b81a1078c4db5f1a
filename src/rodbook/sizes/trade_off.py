"""How many sizes against how thick the packers get: for each number of sizes, the least packing that it can do with.

Fewer sizes mean fewer set-ups, more sizes mean thinner packers. For each number the programme of `standing` is solved with
the count fixed, cluster by cluster; the clusters' answers are then put together for each total, which is exact as well.
Beyond the number at which every opening has the largest size that it can take, another size would gain nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from rodbook.errors import InputError
from rodbook.sizes.candidates import Candidate, Offer, PackerRange, clusters_of, refuse_unserved, tight_candidates
from rodbook.sizes.programmes import LeastPacking, least_number
from rodbook.sizes.standard import SizeChoice, StandardSize, fewest_sizes, standard_size

__all__ = ["Trade", "sizes_in_number", "trade_off"]


@dataclass(frozen=True)
class Trade:
    """One number of sizes, and what it costs in packing.

    Parameters
    ----------
    number : int
        How many sizes.
    choice : SizeChoice
        The sizes with the least packing in all that so many can do with.
    side_mm, head_mm : float
        Thickest packing at a side and over a head in that choice, where the opening is tightest. [mm]
    """

    number: int
    choice: SizeChoice
    side_mm: float
    head_mm: float


def trade_off(
    offers: Sequence[Offer], packers: PackerRange, *, step: float = 1.0, more: int | None = None
) -> tuple[Trade, ...]:
    """Weigh the number of sizes against the packing, for every number that makes a difference.

    Parameters
    ----------
    offers : sequence of Offer
        What the openings offer; names are distinct.
    packers : PackerRange
        Thinnest and thickest packing allowed.
    step : float
        Sizes are multiples of this. [mm]
    more : int, optional
        Stop so many above the fewest; go on to the end where it is left out.

    Returns
    -------
    tuple of Trade
        From the fewest sizes upwards; each next one packs less in all.

    Raises
    ------
    InputError
        If names are not distinct, or `step` or `more` make no sense.
    Infeasible
        If the range is so narrow that no multiple of `step` serves an opening.

    Examples
    --------
    >>> trades = trade_off(
    ...     [Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("C3", 524, 2031)], PackerRange(4, 16, 4, 20))
    >>> [(trade.number, trade.choice.packing_mm, trade.side_mm, trade.head_mm) for trade in trades]
    [(2, 43.0, 5.5, 8.0), (3, 36.0, 4.0, 4.0)]
    """
    if len({o.name for o in offers}) != len(offers):
        raise InputError.at("openings", "sizes.two_of_one_name")
    if not step > 0:
        raise InputError.at("step", "sizes.step_not_above_zero", step_mm=step)
    if more is not None and more < 0:
        raise InputError.at("more", "sizes.fewer_than_fewest")
    groups: dict[tuple[str | int | float, ...], list[Offer]] = defaultdict(list)
    for offer in offers:
        groups[offer.group].append(offer)
    best: dict[int, tuple[float, tuple[StandardSize, ...]]] = {0: (0.0, ())}
    work = []
    for group, members in groups.items():
        candidates = tight_candidates(members, packers, step)
        refuse_unserved(members, candidates)
        work += [(members, cluster, group, packers, step, more) for cluster in clusters_of(candidates)]
    with ThreadPoolExecutor() as side_by_side:  # the programmes are solved outside Python
        for result in side_by_side.map(lambda cluster: _of_cluster(*cluster), work):
            best = _together(best, result)
    fewest = min(best)
    by_name = {offer.name: offer for offer in offers}
    last = max(best) if more is None else fewest + more
    return tuple(
        _trade(number, fewest, sizes, by_name) for number, (_, sizes) in sorted(best.items()) if 0 < number <= last
    )


def sizes_in_number(offers: Sequence[Offer], packers: PackerRange, number: int, *, step: float = 1.0) -> SizeChoice:
    """Choose so many sizes, with the least packing that so many can do with.

    Parameters
    ----------
    offers : sequence of Offer
        What the openings offer; names are distinct.
    packers : PackerRange
    number : int
        How many sizes are wanted, one at the least.
    step : float
        Sizes are multiples of this. [mm]

    Returns
    -------
    SizeChoice
        In the number that is wanted where that can be: never fewer than serve every opening, never more than pack thinner.

    Raises
    ------
    InputError
        If the number is not positive, or as in `trade_off`.
    Infeasible
        As in `trade_off`.

    Examples
    --------
    >>> offers = [Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("C3", 524, 2031)]
    >>> [len(sizes_in_number(offers, PackerRange(4, 16, 4, 20), n).sizes) for n in (1, 2, 3, 4)]
    [2, 2, 3, 3]
    """
    if number < 1:
        raise InputError.at("sizes", "sizes.none_serve", number=number)
    fewest = len(fewest_sizes(offers, packers, step=step).sizes)
    return trade_off(offers, packers, step=step, more=max(0, number - fewest))[-1].choice


def _of_cluster(
    members: Sequence[Offer],
    cluster: Sequence[Candidate],
    group: tuple[str | int | float, ...],
    packers: PackerRange,
    step: float,
    more: int | None,
) -> dict[int, tuple[float, tuple[StandardSize, ...]]]:
    """Least packing and the sizes, for each number of sizes in one cluster."""
    openings = sorted(frozenset[int]().union(*(c.served for c in cluster)))
    fewest, programme = least_number(openings, cluster), LeastPacking(openings, cluster, step=step)
    own = len({max(((c.width, c.height) for c in cluster if i in c.served), key=sum) for i in openings})
    last = own if more is None else min(own, fewest + more)
    results: dict[int, tuple[float, tuple[StandardSize, ...]]] = {}
    for number in range(fewest, last + 1):
        chosen = programme.sizes(number)
        sizes = tuple(standard_size(members, candidate, served, group, packers, step) for candidate, served in chosen)
        results[number] = (_packing(sizes, {offer.name: offer for offer in members}), sizes)
    return results


def _together(
    a: Mapping[int, tuple[float, tuple[StandardSize, ...]]], b: Mapping[int, tuple[float, tuple[StandardSize, ...]]]
) -> dict[int, tuple[float, tuple[StandardSize, ...]]]:
    """Least packing of two clusters for each number of sizes in both."""
    best: dict[int, tuple[float, tuple[StandardSize, ...]]] = {}
    for n, (packed, sizes) in a.items():
        for m, (also, others) in b.items():
            total = packed + also
            if n + m not in best or total < best[n + m][0] - 1e-9:
                best[n + m] = (total, (*sizes, *others))
    return best


def _largest_first(sizes: Sequence[StandardSize]) -> tuple[StandardSize, ...]:
    """In the order of `fewest_sizes`: the groups as they are met, in each the size that serves most openings first."""
    groups = list(dict.fromkeys(size.group for size in sizes))
    order = sorted(sizes, key=lambda s: (groups.index(s.group), -len(s.openings), -s.width, -s.height))
    return tuple(order)


def _packing(sizes: Sequence[StandardSize], by_name: Mapping[str, Offer]) -> float:
    return sum(by_name[n].width - s.width + by_name[n].height - s.height for s in sizes for n in s.openings)


def _trade(number: int, fewest: int, sizes: tuple[StandardSize, ...], by_name: Mapping[str, Offer]) -> Trade:
    served = [(by_name[name], size) for size in sizes for name in size.openings]
    return Trade(
        number,
        SizeChoice(_largest_first(sizes), _packing(sizes, by_name), fewest),
        max((offer.width - size.width) / 2 for offer, size in served),
        max(offer.height - size.height for offer, size in served),
    )
