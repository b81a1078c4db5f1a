"""The last step between a plan and its bound: is there a plan as cheap as the bound, or is the bound to rise?

Values of sticks say of every pattern by how much it falls short of what its bar must hold, and of a plan that costs
no more than the bound, by how much all its patterns may fall short together [1]_. The patterns that fall short by no
more than that alone are often few. They are listed, and mixed in whole numbers.

References
----------
.. [1] G. L. Nemhauser, L. A. Wolsey, "Integer and Combinatorial Optimization" (1988), section II.3.5: variables fixed
   by their reduced cost.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import mul

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.bars.dive import BarDive
from rodbook.boards.bars.patterns import BarKind, Mix, Pattern, Values, best_mix

__all__ = ["close_gap"]

MOST_LISTED = 30_000
"""Patterns of one sort of bar that are listed."""

MOST_STEPS, STEP = 60_000_000, 4e-9
"""Steps of a listing, and the counted seconds of one. Measured. [s]"""

MOST_MIXED = 12_000
"""Patterns in all that are mixed in whole numbers."""

MOST_NODES = 50_000
"""Branches that the choice of whole numbers may take."""


def close_gap(dive: BarDive, values: Sequence[Values], known: Sequence[Pattern], bound: int, cost: int) -> Mix | None:
    """Look for a plan as cheap as the bound; the mix's own bound says what no plan costs less than.

    Parameters
    ----------
    dive : BarDive
        With all that is wanted open.
    values : sequence of Values
        From any mixes in parts; the better, the fewer patterns are left.
    known : sequence of Pattern
        Of a plan for all that is wanted.
    bound, cost : int
        No plan costs less than the bound; the known plan's cost.

    Returns
    -------
    Mix or None
        None where patterns are too many, or time ran out.
    """
    patterns = _listed(dive, values, bound)
    if patterns is None:
        return None
    mixed = list(dict.fromkeys([*patterns, *known]))
    mix = best_mix(dive.bars, mixed, dive.wanted, known=cost, clock=dive.clock, nodes=MOST_NODES, enough=bound)
    # a plan of less than one step above the bound would be made of listed patterns alone
    return mix and Mix(mix.used, min(mix.bound, bound + 1.0))


def _listed(dive: BarDive, values: Sequence[Values], cost: int) -> list[Pattern] | None:
    """List the patterns that a plan of no more than a cost can use, by all values; None where they are too many."""
    from rodbook.boards.kernels.knapsack import dear_enough

    results: list[Pattern] = []
    for b, bar in enumerate(dive.bars):
        if bar.quantity == 0:
            continue
        least = [_least(dive.bars, by, dive.wanted, cost - bar.price) for by in values]
        rows: NDArray[np.int64] | None = None
        for by, worth in zip(values, least, strict=True):
            sizes, worths = np.array(dive.lengths, dtype=np.int64), np.array(by.sticks, dtype=np.int64)
            order = np.argsort(-worths / sizes, kind="stable")
            most = np.array(dive.wanted, dtype=np.int64)[order]
            listed, steps = dear_enough(bar.length, sizes[order], worths[order], most, worth, MOST_LISTED, MOST_STEPS)
            dive.clock.spend(STEP * steps)
            if listed.size and listed[0, 0] < 0:
                continue
            rows = np.zeros_like(listed)
            rows[:, order] = listed
            break
        if rows is None:
            return None
        for by, worth in zip(values, least, strict=True):
            rows = rows[rows @ np.array(by.sticks, dtype=np.int64) >= worth]
        results += [(b, tuple(row)) for row in rows.tolist()]
        if len(results) > MOST_MIXED:
            return None
    return results


def _least(bars: Sequence[BarKind], by: Values, wanted: Sequence[int], rest: int) -> int:
    """Say what a bar must hold at the least, by values, if the others of a plan cost no more than the rest.

    No bar holds more for its price than the one that holds most.
    """
    worth, price = max(((w, bar.price) for w, bar in zip(by.bars, bars, strict=True)), key=lambda x: x[0] / x[1])
    need = sum(map(mul, by.sticks, wanted))
    return int(need - worth * rest // price)
