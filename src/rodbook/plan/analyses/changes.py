"""What a change of a job comes to: two plans of it by the same book and day, held against each other in parts, money and days."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.job import Job
from rodbook.job.models import Making
from rodbook.money import ChangeOrder, CostItem, MaterialUsage, change_order, site_rates
from rodbook.money.rates.rounding import rounded
from rodbook.plan.analyses.pricing import price_job, rules_of
from rodbook.plan.model import Plan
from rodbook.plan.schedule.dates import plan_dates, wanted_by
from rodbook.plan.stages.materials import Kept, lay_out_lines, usage_of
from rodbook.setout import PartKind, ScheduleLine

SECONDS = 1.0
"""About how long each board is searched for, with the change and without it: both alike, so that only the change differs (house
assumption). [s]"""

__all__ = ["ChangeEffect", "at_day_of", "change_of", "effect_of_change", "hand_overs"]


@dataclass(frozen=True)
class ChangeEffect:
    """What a change does to the job as a whole.

    Parameters
    ----------
    net_before, net_after : Decimal
        Price of the job, net of tax, without the change and with it. [currency]
    earned_before, earned_after, earned_unpaid : Decimal
        What is earned of it: without the change, with it as priced, and if it is done without being charged. [currency]
    margin_before, margin_after, margin_unpaid : Decimal, optional
        The same as a share of the net price; None where the price is zero. [1]
    crew_hours : Decimal
        What the crew works more, or less below zero. [h]
    made_anew : Decimal, optional
        What parts made anew come to more on average, or less below zero: it is in the price of a job, not in that of a
        change. None where some kinds are made already, as nobody knows how many of those were. [currency]
    """

    net_before: Decimal
    net_after: Decimal
    earned_before: Decimal
    earned_after: Decimal
    earned_unpaid: Decimal
    margin_before: Decimal | None
    margin_after: Decimal | None
    margin_unpaid: Decimal | None
    crew_hours: Decimal
    made_anew: Decimal | None


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
        raise InputError.at("change", "plan.not_costed_both")
    day, book = after.job.job.date, after.book
    if before.job.job.date != day:
        raise InputError.at("change", "plan.planned_for_two_days")
    kept: Kept = {}

    def laid_out(lines: Sequence[ScheduleLine]) -> tuple[MaterialUsage, ...]:
        return usage_of(lay_out_lines(lines, after.job, book, Making.SITE, seconds=SECONDS, seed=0, kept=kept), book)

    return change_order(
        what,
        (before.schedule, before.money),
        after.schedule,
        rules_of(after),
        book=book,
        day=day,
        laid_out=laid_out,
        making=after.job.making,
        made=made,
        workshop=book.workshop(after.job.job.workshop),
        extra=_extras(before, after),
    )


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


def _extra_hours(before: Plan, after: Plan) -> Decimal:
    """Hours besides the parts that are more after a change, or less below zero. [h]"""

    def hours(plan: Plan) -> Decimal:
        return sum((extra.hours for extra in plan.job.price.extras if not extra.option), Decimal(0))

    return hours(after) - hours(before)


def effect_of_change(before: Plan, after: Plan, order: ChangeOrder) -> ChangeEffect:
    """What a change does to price, earnings and hours of the job.

    Parameters
    ----------
    before, after : Plan
        With their outlook. The price before is the one that was given to the client,
        and its cost what was reckoned then; else those that the plan comes to.
    order : ChangeOrder
        Of these two.

    Returns
    -------
    ChangeEffect
        The change is added to the job as it was priced: its net price to the net price, its cost and overhead to those
        of the job.
    """
    price, given = price_job(before).price, before.job.price.given
    net, earned = (price.net, price.earned) if given is None else (given.net, given.net - given.cost)
    more, spent = order.price.net, order.price.cost + order.price.overhead + order.price.contingency
    hours = sum((line.crew_hours for line in order.lines), _extra_hours(before, after))

    def share(part: Decimal, whole: Decimal) -> Decimal | None:
        return part / whole if whole else None

    with_it, unpaid = earned + more - spent, earned - spent
    return ChangeEffect(
        net,
        net + more,
        earned,
        with_it,
        unpaid,
        share(earned, net),
        share(with_it, net + more),
        share(unpaid, net),
        hours,
        None if any(line.made for line in order.lines) else _made_anew(after) - _made_anew(before),
    )


def _made_anew(plan: Plan) -> Decimal:
    """What the parts of a plan cost on average more than if every one of them is right. [currency]"""
    assert plan.outlook is not None
    assert plan.money is not None
    return plan.outlook.decided.cost.mean - plan.money.totals.decided


def hand_overs(before: Plan, after: Plan, *, today: Date, effort: float = 0.3) -> tuple[Date, Date]:
    """Days by which a job is handed over in nine cases of ten, without a change and with it, by the book's people.

    Parameters
    ----------
    before, after : Plan
        All the way, with money.
    today : date
        When jobs begin that name no day.
    effort : float
        How much each search may do, by its own count.

    Raises
    ------
    InputError
        If the book names nobody who works, or with every other fault of crew, days and jobs.
    Infeasible
        If one does not fit into the calendar.
    """
    if not after.book.dates.crew:
        raise InputError.at("dates", "plan.nobody_works")
    results = [
        plan_dates([plan], wanted_by(plan.book, [plan.job], today=today), effort=effort) for plan in (before, after)
    ]
    first, second = (one.chance.jobs["1"].nine_in_ten for one in results)
    return first, second
