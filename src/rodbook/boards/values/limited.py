"""The filling of one board worth most where each kind of piece is there only so often.

Loops that know no such limits are fast and exact; loops that keep to them, keeping one filling for every size of board,
may miss the best. Both are asked in turn: what a filling holds too often is made dearer, what it holds too seldom cheaper
again, in the manner of Lagrange [1]_. Each answer of the first is a bound on the worth, each of either a filling, once
what is too much has been left out.

References
----------
.. [1] M. L. Fisher, "The Lagrangian relaxation method for solving integer programming problems", Management Science 27
   (1981), 1-18.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

import numpy as np

from rodbook.boards.filling.shapes import Shape, counts_of, without
from rodbook.boards.values.dearest import Dearest

__all__ = ["Limited", "most_worth"]

FINE = 2**10
"""Dearness is reckoned in such parts of a value."""

ROUNDS = 10
"""How often values are changed. Measured: forty reach little more than ten. See the table of fillings in `docs/boards.md`."""

NOISE = 0.075
"""By how much values are changed at random, each way, besides. House assumption."""

PATIENCE, SHORTER = 10, 0.7
"""After so many rounds steps become shorter, by this factor. House assumption."""


@dataclass(frozen=True, slots=True)
class Limited:
    """A filling, its worth, and what no filling is worth more than; the filling is None where nothing is laid."""

    shape: Shape
    worth: int
    bound: int


def most_worth(
    dearest: Dearest, values: Sequence[int], few: Sequence[int], *, rounds: int = ROUNDS, seed: int = 0
) -> Limited:
    """Fill the one sort of board that a search for fillings knows, with no more of a kind than there are.

    Parameters
    ----------
    dearest : Dearest
        Of one sort of sheet. Where cutting directions are limited, only its loops without limits on pieces are asked.
    values : sequence of int
        What one piece of each kind is worth, 0 or more.
    few : sequence of int
        How many of each kind there are.
    rounds : int
        At the most; fewer where the filling is proven.
    seed : int
        Of the changes at random.

    Returns
    -------
    Limited
        The bound is proven whatever the rounds.
    """
    draw = np.random.default_rng(seed)
    values = [v if n else 0 for v, n in zip(values, few, strict=True)]
    dear = [0] * len(values)
    best = Limited(None, 0, sum(map(mul, values, few)))

    def take(best: Limited, shape: Shape) -> Limited:
        """Keep a filling, what is too much left out, where it is worth more."""
        counts = counts_of(shape, len(values))
        worth = sum(v * min(c, n) for v, c, n in zip(values, counts, few, strict=True))
        if worth <= best.worth:
            return best
        return Limited(without(shape, [max(0, c - n) for c, n in zip(counts, few, strict=True)]), worth, best.bound)

    length = 1.0
    for round_ in range(rounds):
        changed = [max(0, FINE * v - d) for v, d in zip(values, dear, strict=True)]
        ((worth, shape),) = dearest.fillings(changed)
        above = worth if dearest.exact else dearest.worths(changed)[0]
        bound = (above + sum(map(mul, dear, few))) // FINE
        best = Limited(best.shape, best.worth, min(best.bound, bound))
        best = take(best, shape)
        if not dearest.limited:
            noise = (1 + NOISE * (2 * draw.random(len(values)) - 1)).tolist()
            tried = [values] if not round_ else []
            tried += [changed, [int(FINE * v * factor) for v, factor in zip(values, noise, strict=True)]]
            for asked in tried:
                ((_, shape_held),) = dearest.held(asked, few)
                best = take(best, shape_held)
        if best.worth >= best.bound:
            break
        over = [c - n if c > n or d else 0 for c, n, d in zip(counts_of(shape, len(values)), few, dear, strict=True)]
        square = sum(map(mul, over, over))
        if not square:
            break
        if round_ % PATIENCE == PATIENCE - 1:
            length *= SHORTER
        step = length * (FINE * bound - FINE * best.worth) / square
        dear = [max(0, round(d + step * o)) for d, o in zip(dear, over, strict=True)]
    return best
