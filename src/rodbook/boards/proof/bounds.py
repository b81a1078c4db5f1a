"""What a job must cost at the least, proven.

A linear programme spreads the pieces over the sorts of sheet and finds how much each measure of `weights`
matters on each sort. Its answer is only a suggestion: from it, a worth of each sheet and a value of each piece
are worked out in exact fractions, such that no sheet can hold pieces of more value than it is worth. Together,
then, the sheets bought must be worth at least the value of all pieces, and `cover` finds the cheapest purchase
of which that is true.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.asked.task import Task
from rodbook.boards.proof.cover import Condition, Offer, cheapest_cover
from rodbook.boards.proof.weights import Measure, best_measures
from rodbook.boards.tools.linear import Programme

__all__ = ["least_cost"]

MEASURES_EACH = 8
"""Measures used on each sort of sheet."""

FINENESS = 10**9
"""What the solver gives is taken in parts of this; only the strength of the bound hangs on it, not its truth."""


def least_cost(task: Task, quantities: Sequence[int]) -> int | None:
    """Give a cost, in whole price units, below which so many of each kind cannot be had.

    Each kind asked for must fit some sheet. None means that the sheets there are cannot be enough.
    """
    if not any(quantities):
        return 0
    sorts = range(len(task.stocks))
    measures = [best_measures(task, s, MEASURES_EACH) for s in sorts]
    offers = [Offer(stock.price, stock.quantity) for stock in task.stocks]
    conditions = [_by_area(task, quantities)]
    factors = _factors(task, quantities, measures)
    if factors is not None:
        conditions.append(_by_factors(task, quantities, measures, factors))
    if len(task.stocks) == 1:
        conditions += [Condition((m.capacity,), _load(quantities, m)) for m in measures[0]]
    return cheapest_cover(offers, conditions, PriceScale.common_step([stock.price for stock in task.stocks]))


def _load(quantities: Sequence[int], measure: Measure) -> int:
    """Weigh the whole job."""
    return sum(q * w for q, w in zip(quantities, measure.weight, strict=True))


def _by_area(task: Task, quantities: Sequence[int]) -> Condition:
    """Say that the sheets have at least the area of the pieces."""
    worth = tuple(
        stock.length * stock.width if any(lies) else 0 for stock, lies in zip(task.stocks, task.lies, strict=True)
    )
    area = sum(q * kind.length * kind.width for q, kind in zip(quantities, task.kinds, strict=True))
    return Condition(worth, area)


def _factors(
    task: Task, quantities: Sequence[int], measures: Sequence[Sequence[Measure]]
) -> list[list[Fraction]] | None:
    """Ask the solver how much each measure matters; None where it finds no answer, as where stock is short."""
    programme = Programme()
    bought = [programme.column(float(stock.price), stock.quantity) for stock in task.stocks]
    placed: list[dict[int, int]] = [
        {k: programme.column(0.0) for k, q in enumerate(quantities) if q and task.lies[s][k]}
        for s in range(len(task.stocks))
    ]
    for k, quantity in enumerate(quantities):
        if quantity:
            programme.row([(columns[k], 1.0) for columns in placed if k in columns], lower=float(quantity))
    rows = [
        [
            programme.row(
                [(bought[s], 1.0), *((column, -m.weight[k] / m.capacity) for k, column in placed[s].items())],
                lower=0.0,
            )
            for m in measures[s]
        ]
        for s in range(len(task.stocks))
    ]
    solved = programme.solve()
    if solved is None:
        return None
    return [
        [Fraction(max(0, round(solved.duals[row] * FINENESS)), FINENESS) for row in rows_of_sort]
        for rows_of_sort in rows
    ]


def _by_factors(
    task: Task,
    quantities: Sequence[int],
    measures: Sequence[Sequence[Measure]],
    factors: Sequence[Sequence[Fraction]],
) -> Condition:
    """Make a condition out of how much each measure matters on each sort of sheet.

    A sheet is worth the sum of its factors, a piece on that sheet its share in the capacities times the factors, and
    everywhere the least of that over the sheets that it fits. This holds for any factors. It says most where a
    sheet is worth its price, so the factors are brought to it where the sheet has no end or they fall short.
    """
    worth: list[Fraction] = []
    values: list[Fraction | None] = [None] * len(quantities)
    for stock, lies, of_sort, given in zip(task.stocks, task.lies, measures, factors, strict=True):
        total = sum(given, Fraction(0))
        unlimited_or_short = stock.quantity is None or total < stock.price
        stretch = Fraction(stock.price) / total if total and unlimited_or_short else Fraction(1)
        worth.append(total * stretch)
        used = [(m, f * stretch / m.capacity) for m, f in zip(of_sort, given, strict=True) if f]
        for k in range(len(quantities)):
            if lies[k]:
                value = sum((m.weight[k] * f for m, f in used), Fraction(0))
                known = values[k]
                values[k] = value if known is None else min(known, value)
    demand = sum((q * value for q, value in zip(quantities, values, strict=True) if q and value), Fraction(0))
    return _as_condition(worth, demand)


def _as_condition(worth: Sequence[Fraction], demand: Fraction) -> Condition:
    """Bring fractions to whole numbers without changing what the condition says."""
    whole = lcm(demand.denominator, *(w.denominator for w in worth))
    return Condition(tuple(int(w * whole) for w in worth), int(demand * whole))
