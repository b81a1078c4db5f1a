"""Which readings, misread, would explain why the others don't agree: single ones and pairs, held against each other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from rodbook.errors import Infeasible
from rodbook.survey.adjusting import Adjusted
from rodbook.survey.layout import Layout

__all__ = ["ANOTHER_SLIP", "OF_TWO", "TELLS_APART", "Explanation", "explanations"]

TELLS_APART = 6.0
"""Two explanations by one slip each can be told apart when the one leaves so much less misfit than the other: the better one is
then e^(6/2), 20 times, as likely (house assumption)."""

OF_TWO = 11.0
"""The same where one of them is by two slips: there are many pairs, so that one of them fits well by chance sooner (house
assumption; by the benchmark of slips)."""

ANOTHER_SLIP = 16.0
"""What an explanation by two slips must leave less than one by a single slip to be as likely: twice the logarithm of the chance
that a reading is misread (one in fifty) and then by just so much, of up to 200 mm either way, with a standard error of 2.5 mm:
-2 ln(0.02 x 2.5 sqrt(2 pi) / 400) = 16 (house assumption)."""

SCREENED = 8.0
"""An explanation whose score, by a model taken as straight, is above the best one's by more than this besides `OF_TWO` is
not tried (house assumption)."""

MOST_TRIED = 30
"""So many pairs are adjusted for (house assumption): more are near each other only where nothing can be told anyway."""


@dataclass(frozen=True, eq=False)
class Explanation:
    """Readings that were misread, by their rows, and what is left without them.

    Parameters
    ----------
    rows : tuple of int
        One or two.
    adjusted : Adjusted
        By the others.
    """

    rows: tuple[int, ...]
    adjusted: Adjusted

    @property
    def score(self) -> float:
        """The less, the likelier: twice the logarithm of how unlikely it is."""
        return self.adjusted.misfit + ANOTHER_SLIP * len(self.rows)


def explanations(
    layout: Layout, first: Explanation, *, fit: Callable[[tuple[int, ...]], Adjusted | None]
) -> list[Explanation]:
    """Every explanation that is nearly as likely as the best one, the likeliest first.

    Parameters
    ----------
    layout : Layout
        Of all readings.
    first : Explanation
        One that was found already: the model is taken as straight around it, to see which others are worth an adjustment.
    fit : callable
        Adjusts the readings of these rows alone.
    """
    count = len(layout.readings)
    tried = {first.rows: first}
    best = first.score
    for rows, score in _screened(layout, first):
        if rows in tried:
            continue
        if score > best + OF_TWO + SCREENED or len(tried) > MOST_TRIED:
            break
        kept = tuple(row for row in range(count) if row not in rows)
        adjusted = fit(kept)
        if adjusted is not None:
            tried[rows] = Explanation(rows, adjusted)
            best = min(best, tried[rows].score)
    likeliest = min(tried.values(), key=lambda one: one.score)
    near = [one for one in tried.values() if one.score < best + _margin(likeliest, one)]
    # What says the same with one slip more says nothing else: it is not needed.
    needed = [one for one in near if not any(set(other.rows) < set(one.rows) for other in near)]
    return sorted(needed, key=lambda one: one.score)


def _margin(best: Explanation, other: Explanation) -> float:
    return OF_TWO if max(len(best.rows), len(other.rows)) > 1 else TELLS_APART


def _screened(layout: Layout, first: Explanation) -> Sequence[tuple[tuple[int, ...], float]]:
    """Single readings and pairs with the score that each would have if the model were straight, the least first."""
    try:
        answer, slopes = layout.observed(layout.readings, first.adjusted.unknowns)
    except Infeasible:
        return ()
    values = np.array([reading.value_mm for reading in layout.readings])
    weighed = slopes / layout.errors[:, None]
    free = np.eye(len(values)) - weighed @ np.linalg.pinv(weighed)
    out = free @ ((values - answer) / layout.errors)
    whole = float(out @ out)
    results: list[tuple[tuple[int, ...], float]] = []
    for size in (1, 2):
        for rows in combinations(range(len(values)), size):
            block = free[np.ix_(rows, rows)]
            if np.linalg.eigvalsh(block)[0] < _LEAST_FREE:
                continue
            gained = float(out[list(rows)] @ np.linalg.solve(block, out[list(rows)]))
            results.append((rows, whole - gained + ANOTHER_SLIP * size))
    return sorted(results, key=lambda entry: entry[1])


_LEAST_FREE = 1e-4
"""Readings that the others check by less than this share explain nothing, as nothing can be said of them."""
