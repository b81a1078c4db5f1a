"""Ways of cutting one bar, and the cheapest mix of them.

Lengths are whole kerf-enlarged hundredths, as in `task`: sticks fit a bar where their sum is no more than its
length. A pattern is so many of each length on one sort of bar. Where all patterns that cannot take one stick
more can be listed, the cheapest mix of them is the cheapest plan; otherwise patterns are found one by one as
the values of sticks ask for them [1]_.

References ---------- .. [1] P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock
problem", Operations Research 9
   (1961), 849-859.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd
from operator import mul
from typing import Any

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.linear import Growing, Programme

__all__ = [
    "MOST_PATTERNS",
    "BarKind",
    "Mix",
    "Pattern",
    "Values",
    "all_patterns",
    "best_mix",
    "dearest_filling",
    "fewest_missing",
    "grow",
    "table_cells",
]

Cuts = tuple[int, ...]
"""How many of each length are cut."""

Pattern = tuple[int, Cuts]
"""The number of the sort of bar, and what is cut from one."""

CELL = 5e-9
"""Counted seconds for each cell of a table of fillings. [s]"""

MOST_PATTERNS = 4_000
"""Listing stops beyond so many patterns in all."""

MOST_CELLS = 30_000_000
"""The most work, in table cells, that finding the dearest filling of a bar may take; some 30 ms."""

GROW_CELLS = 800_000_000
"""The most work, in table cells, that asking for new patterns may take in all; about a second."""

MOST_NODES = 20
"""Branches that the choice of whole numbers may take."""

SLACK = 1e-6
"""By how much, relatively, the solver's numbers are taken to be off."""

MOST_ROUNDS = 150
"""How often new patterns are asked for."""

GAIN = 1 + 1e-6
"""A new pattern must beat the price of its bar by this factor."""

FINENESS, LARGEST_VALUE = 10**6, 10**12
"""Values of sticks are whole parts of a price step, so fine or, for large prices, coarser; the bound stays true."""


@dataclass(frozen=True, slots=True)
class BarKind:
    """A sort of bar: kerf-enlarged length, price in whole units, how many (None: no end)."""

    length: int
    price: int
    quantity: int | None


@dataclass(frozen=True, slots=True)
class Mix:
    """So many of each pattern, and the least that any mix of the patterns can cost."""

    used: tuple[tuple[Pattern, int], ...]
    bound: float


def all_patterns(bar: BarKind, lengths: Sequence[int], quantities: Sequence[int], most: int) -> list[Cuts] | None:
    """List the patterns of a bar that cannot take one wanted stick more; None where there are more than `most`."""
    order = sorted(range(len(lengths)), key=lambda k: -lengths[k])
    results: list[Cuts] = []
    chosen = [0] * len(lengths)
    rooms, depth = [bar.length], 0
    untried = [min(quantities[order[0]], bar.length // lengths[order[0]])] if order else []
    while depth >= 0:
        if depth == len(order):
            if not any(lengths[k] <= rooms[-1] and chosen[k] < quantities[k] for k in order) and any(chosen):
                results.append(tuple(chosen))
            if len(results) > most:
                return None
            depth -= 1
            rooms.pop()
            continue
        k, number = order[depth], untried[depth]
        chosen[k] = max(0, number)
        if number < 0:
            depth -= 1
            untried.pop()
            rooms.pop()
            continue
        untried[depth] = number - 1
        rooms.append(rooms[-1] - number * lengths[k])
        depth += 1
        if depth < len(order):
            untried.append(min(quantities[order[depth]], rooms[-1] // lengths[order[depth]]))
    return results


def _programme(
    bars: Sequence[BarKind], patterns: Sequence[Pattern], quantities: Sequence[int], *, missing: bool = False
) -> Programme:
    """Write down: every length often enough, no more bars than there are, least cost; or else fewest sticks missing.

    The columns are the patterns and then, if sticks may be missing, the lengths; the rows the lengths and then the
    bars of which there is an end.
    """
    programme = Programme()
    columns = [programme.column(0.0 if missing else float(bars[b].price)) for b, _ in patterns]
    for k, quantity in enumerate(quantities):
        terms = [(c, float(cuts[k])) for c, (_, cuts) in zip(columns, patterns, strict=True)]
        if missing:
            terms.append((programme.column(1.0, quantity), 1.0))
        programme.row(terms, lower=float(quantity))
    for b, bar in enumerate(bars):
        if bar.quantity is not None:
            used = [(c, 1.0) for c, (of, _) in zip(columns, patterns, strict=True) if of == b]
            programme.row(used, upper=float(bar.quantity))
    return programme


def best_mix(
    bars: Sequence[BarKind],
    patterns: Sequence[Pattern],
    quantities: Sequence[int],
    *,
    known: int,
    clock: Clock,
    nodes: int = MOST_NODES,
    enough: int | None = None,
) -> Mix | None:
    """Mix whole numbers of patterns to a cost of no more than is `known`; None where that was not found.

    A pattern that costs so much more than its sticks are worth that no mix with it can keep within the known cost is
    left out beforehand. The bound therefore holds for mixes no dearer than that. A mix that costs no more than is `enough`
    ends the search.
    """
    parts = _programme(bars, patterns, quantities).solve()
    if parts is None:
        return None
    limited = [b for b, bar in enumerate(bars) if bar.quantity is not None]
    scarcity = {b: -dual for b, dual in zip(limited, parts.duals[len(quantities) :], strict=True)}
    slack = known - parts.objective + SLACK * max(1.0, abs(known))
    kept = [
        (b, cuts)
        for b, cuts in patterns
        if bars[b].price + scarcity.get(b, 0.0) - sum(map(mul, cuts, parts.duals)) <= slack
    ]
    target = None if enough is None else enough + SLACK * max(1.0, enough)
    programme = _programme(bars, kept, quantities)
    solved = programme.solve(whole=True, seconds=clock.left(), nodes=nodes, enough=target, clock=clock)
    if solved is None:
        return None
    return Mix(tuple((p, round(n)) for p, n in zip(kept, solved.values, strict=True) if round(n)), solved.bound)


def fewest_missing(
    bars: Sequence[BarKind], patterns: Sequence[Pattern], quantities: Sequence[int], *, clock: Clock
) -> list[int] | None:
    """Give how many of each length must be missing at the least with these patterns; None where that was not found."""
    programme = _programme(bars, patterns, quantities, missing=True)
    solved = programme.solve(whole=True, seconds=clock.left(), nodes=MOST_NODES, clock=clock)
    return None if solved is None else [round(value) for value in solved.values[len(patterns) :]]


def dearest_filling(
    room: int, lengths: Sequence[int], quantities: Sequence[int], values: Sequence[int]
) -> tuple[int, Cuts] | None:
    """Find the sticks of most value, in whole numbers, that fit a bar, no more of each than wanted; exact.

    None where the table would be too large.
    """
    step = gcd(*lengths)
    cells = room // step
    bundles = _bundles(cells, [length // step for length in lengths], quantities, values)
    if (cells + 1) * len(bundles) > MOST_CELLS:
        return None
    # no filling is worth more than the whole bar full of what is worth most for its size
    most = max((-(-cells * values[k] * number // size) for k, number, size in bundles), default=0)
    best: NDArray[Any] = np.zeros(cells + 1, dtype=np.int32 if most < 2**31 else np.int64)
    taken: list[NDArray[np.bool]] = []
    for k, number, size in bundles:
        offer = best[: cells + 1 - size] + number * values[k]
        taken.append(offer > best[size:])
        np.maximum(best[size:], offer, out=best[size:])
    left, cuts = cells, [0] * len(lengths)
    for (k, number, size), better in zip(reversed(bundles), reversed(taken), strict=True):
        if left >= size and better[left - size]:
            cuts[k] += number
            left -= size
    return int(best[cells]), tuple(cuts)


def _bundles(
    cells: int, steps: Sequence[int], quantities: Sequence[int], values: Sequence[int]
) -> list[tuple[int, int, int]]:
    """Bundle sticks of a length by ones, twos, fours and the rest: any number up to all is some of the bundles."""
    bundles = []
    for k, (size, quantity, value) in enumerate(zip(steps, quantities, values, strict=True)):
        left, number = min(quantity, cells // size) if value > 0 else 0, 1
        while left:
            number = min(number, left)
            bundles.append((k, number, number * size))
            left -= number
            number *= 2
    return bundles


def table_cells(bars: Sequence[BarKind], lengths: Sequence[int], quantities: Sequence[int]) -> int:
    """Say how much work it is to find the dearest filling of each bar once, in table cells."""
    step = gcd(*lengths)
    sizes, ones = [length // step for length in lengths], [1] * len(lengths)
    return sum((bar.length // step + 1) * len(_bundles(bar.length // step, sizes, quantities, ones)) for bar in bars)


@dataclass(frozen=True, slots=True)
class Values:
    """What sticks of each length are worth, and what a filling of each bar is worth at the most; exact whole numbers.

    Bars that hold all the sticks are together worth at least what the sticks are: a condition as `cover` takes it.
    """

    sticks: tuple[int, ...]
    bars: tuple[int, ...]


def grow(
    bars: Sequence[BarKind],
    patterns: list[Pattern],
    lengths: Sequence[int],
    quantities: Sequence[int],
    clock: Clock,
) -> Values | None:
    """Add the patterns that the values of sticks ask for, until none is worth adding; give the last values.

    None where they cannot be found: `patterns` allow no mix, or the tables are too large.
    """
    unit = max(1, min(FINENESS, LARGEST_VALUE // max(1, *(bar.price for bar in bars))))
    most_sticks = max(bar.length for bar in bars) // min(lengths) + 1
    limited = [b for b, bar in enumerate(bars) if bar.quantity is not None]
    values = None
    cells = table_cells(bars, lengths, quantities)
    rounds = min(MOST_ROUNDS, GROW_CELLS // max(1, cells))
    programme = Growing(_programme(bars, patterns, quantities))
    known = set(patterns)
    for _ in range(rounds):
        solved = programme.solve(clock)
        clock.spend(CELL * cells)
        if solved is None:
            return values
        sticks = tuple(min(max(0, int(dual * unit)), 2**62 // most_sticks) for dual in solved.duals[: len(lengths)])
        fillings = [dearest_filling(bar.length, lengths, quantities, sticks) for bar in bars]
        results = [filling for filling in fillings if filling is not None]
        if len(results) < len(fillings):
            return values
        values = Values(sticks, tuple(worth for worth, _ in results))
        scarcity = {b: -dual for b, dual in zip(limited, solved.duals[len(lengths) :], strict=True)}
        fresh = [
            (b, cuts)
            for b, (worth, cuts) in enumerate(results)
            if worth > (bars[b].price + scarcity.get(b, 0.0)) * unit * GAIN and any(cuts)
        ]
        fresh = [pattern for pattern in fresh if pattern not in known]
        if not fresh or clock.out_of_time():
            return values
        for b, cuts in fresh:
            terms = [(k, float(number)) for k, number in enumerate(cuts) if number]
            if b in limited:
                terms.append((len(lengths) + limited.index(b), 1.0))
            programme.column(float(bars[b].price), terms)
        patterns += fresh
        known.update(fresh)
    return values
