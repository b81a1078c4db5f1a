"""What jobs buy: new sheets and lengths as laid out for site, and what their workshops charge for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from decimal import Decimal

from rodbook.job.models import Making
from rodbook.money import BasketKey, BasketKind, bought_costs
from rodbook.money.index.firm_basket import CREW_HOUR
from rodbook.plan.model import Plan
from rodbook.plan.stages.materials import usage_of

__all__ = ["bought_by", "bought_together"]

CHARGED = {
    "set up": "set_up",
    "handle parts": "part",
    "board": "board_m2",
    "section": "section_m",
    "edges": "edge_m",
    "borings": "boring",
    "coats": "coat_m2",
}
"""Charges of the book's rates by the lines of what a workshop asks."""


def bought_by(plan: Plan, *, hours: bool = False) -> dict[BasketKey, Decimal]:
    """What a job buys.

    Parameters
    ----------
    plan : Plan
        With its layouts and costs. Offcuts that lie in the shop are not bought.
    hours : bool
        Whether the crew's own hours are counted too.

    Returns
    -------
    dict of BasketKey to Decimal
        Empty where its costs are not worked out. What tops an order up to its least charge is not in it: it has no price by the
        piece. Delivery is counted once for a job that buys parts in.
    """
    results: dict[BasketKey, Decimal] = defaultdict(Decimal)
    if plan.money is None:
        return {}
    for usage in usage_of([m for m in plan.materials if m.maker is Making.SITE], plan.book):
        kind = BasketKind.LENGTHS if usage.sectional else BasketKind.SHEETS
        for stock in usage.taken:
            if stock.price:
                results[BasketKey(kind, usage.stock, stock.name)] += stock.count
    job = plan.job.job
    workshop, lines = plan.book.workshop(job.workshop), plan.lines_made(Making.BOUGHT)
    if workshop is not None and lines:
        costs, _ = bought_costs(lines, workshop, job.date, currency=plan.book.currency)
        for line in (line for cost in costs.values() for line in cost.lines):
            results[BasketKey(BasketKind.CHARGES, workshop.name, CHARGED[line.name], line.stock)] += line.quantity
        results[BasketKey(BasketKind.CHARGES, workshop.name, "delivery")] += 1
    if hours:
        own = plan.money.totals.crew_hours + sum((e.hours for e in plan.job.price.extras if not e.option), Decimal(0))
        results[BasketKey(BasketKind.HOURS, "", CREW_HOUR)] += own
    return {key: quantity for key, quantity in results.items() if quantity}


def bought_together(plans: Iterable[Plan], *, hours: bool = False) -> Mapping[BasketKey, Decimal]:
    """What several jobs buy together, in the order of the book's sorts of things."""
    results: dict[BasketKey, Decimal] = defaultdict(Decimal)
    for plan in plans:
        for key, quantity in bought_by(plan, hours=hours).items():
            results[key] += quantity
    order = list(BasketKind)
    return dict(sorted(results.items(), key=lambda entry: (order.index(entry[0].kind), entry[0].owner, entry[0].what)))
