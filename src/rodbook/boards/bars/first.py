"""Plans for bars made in one go: each stick to the bar where it fits best, or bar after bar filled as full as can be.

Lengths are whole kerf-enlarged hundredths, longest first; prices whole steps.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import exp
from operator import mul

import numpy as np

from rodbook.boards.bars.patterns import BarKind, Cuts, Pattern, dearest_filling, table_cells

__all__ = ["BarCutting", "BarsCut", "assembled", "first_plans"]

MOST_ONE_BY_ONE = 3_000
"""Sticks placed one by one; where there are more, whole bars are repeated instead."""

PLANS_LEAST, PLANS_MOST, PLAN_WORK = 3, 24, 4_000
"""Plans made: this work over the number of sticks, within limits. House assumption: a fraction of a second."""

FILL_CELLS = 600_000_000
"""The most work, in table cells, that filling bars as full as can be may take in all; about a second."""


@dataclass(frozen=True, slots=True)
class BarCutting:
    """So many bars of one sort cut alike: `cuts` of each length."""

    bar: int
    cuts: Cuts
    count: int


@dataclass(frozen=True, slots=True)
class BarsCut:
    """A plan for the whole job; `missing` counts sticks of each length for which bars ran out."""

    cuttings: tuple[BarCutting, ...]
    missing: tuple[int, ...]
    cost: int
    rest: int

    @property
    def score(self) -> tuple[int, int, int]:
        """What is better is less: sticks missing, cost, then the longest remainder."""
        return sum(self.missing), self.cost, -self.rest


def assembled(
    bars: Sequence[BarKind], lengths: Sequence[int], used: Sequence[tuple[Pattern, int]], missing: Sequence[int]
) -> BarsCut:
    """Put bars on the cheapest sort that takes what is cut from them, gather those cut alike and add up."""
    left = [bar.quantity for bar in bars]
    for (b, _), count in used:
        stock = left[b]
        if stock is not None:
            left[b] = stock - count
    results: Counter[Pattern] = Counter()
    for (b, cuts), count in sorted(used, key=lambda item: (-bars[item[0][0]].price, item)):
        need, number = _sum(lengths, cuts), count
        for cheaper in sorted(range(len(bars)), key=lambda n: (bars[n].price, bars[n].length, n)):
            if bars[cheaper].price >= bars[b].price or not number:
                break
            if bars[cheaper].length >= need:
                stock = left[cheaper]
                moved = number if stock is None else min(number, stock)
                if stock is not None:
                    left[cheaper] = stock - moved
                old = left[b]
                if old is not None:
                    left[b] = old + moved
                number -= moved
                results[cheaper, cuts] += moved
        results[b, cuts] += number
    cuttings = tuple(BarCutting(b, cuts, count) for (b, cuts), count in sorted(results.items()) if count and any(cuts))
    return BarsCut(
        cuttings,
        tuple(missing),
        sum(bars[c.bar].price * c.count for c in cuttings),
        max((bars[c.bar].length - _sum(lengths, c.cuts) for c in cuttings), default=0),
    )


def _sum(lengths: Sequence[int], cuts: Cuts) -> int:
    """Give what so many of each length take up."""
    return sum(map(mul, lengths, cuts))


def first_plans(
    bars: Sequence[BarKind],
    lengths: Sequence[int],
    wanted: Sequence[int],
    *,
    seed: int,
    out_of_time: Callable[[], bool],
) -> list[BarsCut]:
    """Make a few plans, at least one: plain ones first, then some whose order and choice of bar vary with the seed."""
    rng = np.random.default_rng(seed)
    total = sum(wanted)
    number = max(PLANS_LEAST, min(PLANS_MOST, PLAN_WORK // total))
    longest = max(bar.length for bar in bars)
    cells = table_cells(bars, lengths, wanted) * (1 + sum(map(mul, lengths, wanted)) // longest)
    plans: list[BarsCut] = []
    for n in range(number):
        size = 0.0 if n < 2 else 0.15
        tastes = [exp(size * (2 * r - 1)) for r in rng.random(len(bars)).tolist()]
        haste = [exp(size * (2 * r - 1)) for r in rng.random(len(lengths)).tolist()]
        if n % 2 and total <= MOST_ONE_BY_ONE:
            plans.append(_one_by_one(bars, lengths, wanted, tastes, haste))
        else:
            plans.append(_bar_by_bar(bars, lengths, wanted, tastes, haste, exact=cells * (n // 2 + 1) <= FILL_CELLS))
        if out_of_time():
            break
    return plans


def _one_by_one(
    bars: Sequence[BarKind],
    lengths: Sequence[int],
    wanted: Sequence[int],
    tastes: Sequence[float],
    haste: Sequence[float],
) -> BarsCut:
    """Put each stick, long ones first, on the begun bar with least room to spare, or begin the bar of best rate."""
    left = [bar.quantity for bar in bars]
    holding = [b for b, bar in enumerate(bars) if bar.length > 0]  # of some nothing is left once their ends are square
    ranked = sorted(holding, key=lambda b: (bars[b].price * tastes[b] / bars[b].length, bars[b].length, b))
    missing = [0] * len(lengths)
    begun: list[tuple[int, list[int]]] = []
    rooms: list[int] = []
    for k in sorted(range(len(lengths)), key=lambda k: (-lengths[k] * haste[k], k)):
        size = lengths[k]
        for _ in range(wanted[k]):
            spot = min((n for n, room in enumerate(rooms) if room >= size), key=lambda n: (rooms[n], n), default=None)
            if spot is None:
                bar = next((b for b in ranked if left[b] != 0 and bars[b].length >= size), None)
                if bar is None:
                    missing[k] += 1
                    continue
                stock = left[bar]
                if stock is not None:
                    left[bar] = stock - 1
                spot = len(begun)
                begun.append((bar, [0] * len(lengths)))
                rooms.append(bars[bar].length)
            begun[spot][1][k] += 1
            rooms[spot] -= size
    used = Counter((bar, tuple(cuts)) for bar, cuts in begun)
    return assembled(bars, lengths, list(used.items()), missing)


def _bar_by_bar(
    bars: Sequence[BarKind],
    lengths: Sequence[int],
    wanted: Sequence[int],
    tastes: Sequence[float],
    haste: Sequence[float],
    *,
    exact: bool,
) -> BarsCut:
    """Fill bar after bar, each the one that holds most for its price, and cut as many alike as can be."""
    stocks, left = [bar.quantity for bar in bars], list(wanted)
    order = sorted(range(len(lengths)), key=lambda k: (-lengths[k] * haste[k], k))
    used: list[tuple[Pattern, int]] = []
    while any(left):
        best: tuple[tuple[float, float], Pattern] | None = None
        for b, bar in enumerate(bars):
            if stocks[b] == 0:
                continue
            for cuts in _fillings(bar, lengths, left, haste, [k for k in order if left[k]], exact=exact):
                held = _sum(lengths, cuts)
                if held:
                    rank = (bar.price * tastes[b] / held, -held / bar.length)
                    if best is None or rank < best[0]:
                        best = (rank, (b, cuts))
        if best is None:
            break
        b, cuts = best[1]
        count = min(left[k] // number for k, number in enumerate(cuts) if number)
        stock = stocks[b]
        if stock is not None:
            count = min(count, stock)
            stocks[b] = stock - count
        for k, number in enumerate(cuts):
            left[k] -= number * count
        used.append(((b, cuts), count))
    return assembled(bars, lengths, used, left)


def _fillings(
    bar: BarKind,
    lengths: Sequence[int],
    left: Sequence[int],
    haste: Sequence[float],
    order: Sequence[int],
    *,
    exact: bool,
) -> Iterator[Cuts]:
    """Fill a bar with the first in order that fit; if `exact`, also as full as can be, with a liking for the hasty."""
    room, cuts = bar.length, [0] * len(lengths)
    for k in order:
        cuts[k] = min(left[k], room // lengths[k])
        room -= cuts[k] * lengths[k]
    yield tuple(cuts)
    if not exact:
        return
    values = [max(1, int(length * factor)) for length, factor in zip(lengths, haste, strict=True)]
    fullest = dearest_filling(bar.length, lengths, left, values)
    if fullest is not None:
        yield fullest[1]
