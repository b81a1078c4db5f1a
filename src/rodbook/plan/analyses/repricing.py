"""A job as it was priced against the book of another day, and the index of what it takes through the days between."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.job.models import Making
from rodbook.money import BasketItem, IndexDay, Repriced, basket_of, index_through, reprice
from rodbook.money.rates.names import RateName
from rodbook.plan.analyses.pricing import price_job
from rodbook.plan.model import Plan
from rodbook.plan.stages.materials import usage_of

__all__ = ["JobRepriced", "basket_of_job", "reprice_job"]

CREW_HOUR = RateName.CREW_HOUR.value


@dataclass(frozen=True)
class JobRepriced:
    """A job on another day.

    Parameters
    ----------
    repriced : Repriced
    given : bool
        Whether the price is the one that was given to the client; else the one that the plan comes to.
    basket : tuple of BasketItem
        What the job takes of sheets, lengths and crew hours.
    index : tuple of IndexDay
        Its index on every day on which a price of it changed, from the first on which all are known; empty where the job takes
        none of them or only one day is known.
    """

    repriced: Repriced
    given: bool
    basket: tuple[BasketItem, ...]
    index: tuple[IndexDay, ...]


def basket_of_job(plan: Plan) -> tuple[BasketItem, ...]:
    """What a job takes, with the prices that the book holds: new sheets and lengths as laid out for site, and crew hours.

    Parameters
    ----------
    plan : Plan
        With its costs. Offcuts that lie in the shop are not in it.
    """
    taken: dict[str, Decimal] = defaultdict(Decimal)
    for usage in usage_of([m for m in plan.materials if m.maker is Making.SITE], plan.book):
        for stock in usage.taken:
            if stock.price:
                taken[stock.name] += stock.count
    hours = plan.money.totals.crew_hours if plan.money else Decimal(0)
    hours += sum((extra.hours for extra in plan.job.price.extras if not extra.option), Decimal(0))
    if hours:
        taken[CREW_HOUR] = hours
    return basket_of(plan.book, taken)


def _index(basket: tuple[BasketItem, ...], last: Date) -> tuple[IndexDay, ...]:
    if not basket or any(not any(day <= last for day, _ in item.prices) for item in basket):
        return ()
    first = max(min(day for day, _ in item.prices) for item in basket)
    changes = {day for item in basket for day, _ in item.prices if first < day <= last}
    days = [first, *sorted(changes), last]
    return index_through(basket, list(dict.fromkeys(days))) if last > first else ()


def reprice_job(plan: Plan, now: Date) -> JobRepriced:
    """Hold a job as it was priced against the book of another day.

    Parameters
    ----------
    plan : Plan
        With its outlook; who makes what stays as it was decided.
    now : date

    Raises
    ------
    InputError
        With every fault: costs that are not worked out, rates or prices that do not hold on one of the days.
    """
    if plan.money is None:
        raise InputError.at("re-price", "plan.not_costed_to_compare")
    job, book, extras = plan.job, plan.book, [e for e in plan.job.price.extras if not e.option]
    given = job.price.given
    result = reprice(
        plan.schedule,
        usage_of([m for m in plan.materials if m.maker is Making.SITE], book),
        book,
        then=job.job.date,
        now=now,
        workshop=book.workshop(job.job.workshop),
        makers={c.kind: c.decision for c in plan.money.kinds},
        net=given.net if given else price_job(plan).price.net,
        other_cost=sum((e.cost for e in extras), Decimal(0)),
        other_hours=sum((e.hours for e in extras), Decimal(0)),
    )
    basket = basket_of_job(plan)
    return JobRepriced(result, given is not None, basket, _index(basket, max(now, job.job.date)))
