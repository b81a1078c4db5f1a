"""What a change of a job comes to: two plans of it by the same book and day, held against each other in parts and in money."""

from __future__ import annotations

from collections.abc import Collection
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.job import Job
from rodbook.money import ChangeOrder, CostItem, change_order, price_rules, site_rates
from rodbook.money.rounding import rounded
from rodbook.plan.model import Plan
from rodbook.plan.pricing import job_rules
from rodbook.setout import PartKind

__all__ = ["at_day_of", "change_of"]


def at_day_of(before: Job, after: Job) -> Job:
    """The job before a change, at the prices of the day after it: what moved by itself is no matter of the change."""
    return before.model_copy(update={"job": before.job.model_copy(update={"date": after.job.date})})


def change_of(before: Plan, after: Plan, *, what: str, made: Collection[PartKind] = ()) -> ChangeOrder:
    """Work out what a change costs, and what the client pays for it.

    Parameters
    ----------
    before, after : Plan
        With their costs, by the same book and on the same day.
    what : str
        What the client wants, in a line.
    made : collection of PartKind
        Kinds that are made or ordered already.

    Raises
    ------
    InputError
        If costs are not worked out, the two are of different days, or nothing has changed.
    """
    if before.money is None or after.money is None:
        raise InputError.at("change", "there is nothing to be priced until layouts and costs of both are worked out")
    day, book, terms = after.job.job.date, after.book, after.job.price
    if before.job.job.date != day:
        raise InputError.at(
            "change", "both have to be planned for one day, or prices that moved would count as the change"
        )
    return change_order(
        what, (before.schedule, before.money), (after.schedule, after.money),
        job_rules(terms, price_rules(book, day, terms.taxes)), day=day, made=made, workshop=book.workshop(after.job.job.workshop),
        extra=_extras(before, after),
    )  # fmt: skip


def _extras(before: Plan, after: Plan) -> list[CostItem]:
    """What the client pays for besides the parts, as far as it is more or less than before."""
    hour = site_rates(after.book, after.job.job.date).crew_hour.value
    known = {e.name: e for e in before.job.price.extras if not e.option}
    new = {e.name: e for e in after.job.price.extras if not e.option}
    items: list[CostItem] = []
    for name in dict.fromkeys([*known, *new]):
        old, now = known.get(name), new.get(name)
        hours = (now.hours if now else Decimal(0)) - (old.hours if old else Decimal(0))
        cost = (now.cost if now else Decimal(0)) - (old.cost if old else Decimal(0))
        amount = rounded(cost + hours * hour, after.book.currency)
        if amount:
            group = now.group if now else old.group if old else ""
            items.append(CostItem(name, amount, max(hours, Decimal(0)), group))
    return items
