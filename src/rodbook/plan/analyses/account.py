"""A job's account, at the end or on the way: what was priced, what was reckoned with, what it took, and what is left."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.actuals import Actuals
from rodbook.money import (
    FinalAccount,
    Invoice,
    InvoiceLine,
    Planned,
    TimeEntry,
    final_account,
    planned_of,
    site_rates,
)
from rodbook.money.rates.names import Counted, counted_in, per_what
from rodbook.money.rates.site_rates import KNOWN_UNITS
from rodbook.plan.analyses.pricing import price_job
from rodbook.plan.model import Plan
from rodbook.plan.schedule.tasks import HAND_OVER

__all__ = ["JobAccount", "Task", "account_of", "handed_over", "invoices_of", "planned_for", "tasks_of", "time_entries"]

MINUTES_AN_HOUR = 60


@dataclass(frozen=True)
class JobAccount:
    """A job's final account, and where its price is from.

    Parameters
    ----------
    account : FinalAccount
    given : bool
        Whether the price is the one that was given to the client; else the one that the plan comes to.
    crew_hour : Decimal
        At which hours are reckoned, planned and actual alike. [currency/h]
    overhead : Decimal
        That the price carries besides, and that no line of the account shows. [currency]
    beyond : Decimal, optional
        What the price reckons with more than the cost planned here: averages for middles, and its contingency; None where the
        price is the one that was given. [currency]
    """

    account: FinalAccount
    given: bool
    crew_hour: Decimal
    overhead: Decimal
    beyond: Decimal | None = None


@dataclass(frozen=True)
class Task:
    """Something that hours may be put down for.

    Parameters
    ----------
    name : str
    counted_in : str
        What is counted of it, such as "part"; empty where nothing is.
    planned : Decimal
        Zero where the plan has none. [h]
    """

    name: str
    counted_in: str
    planned: Decimal = Decimal(0)


def time_entries(actuals: Actuals) -> list[TimeEntry]:
    """Hours as the core reckons with them, in their order."""
    return [TimeEntry(e.day, e.person, e.task, e.hours * MINUTES_AN_HOUR, e.done) for e in actuals.hours]


def invoices_of(actuals: Actuals) -> list[Invoice]:
    """Invoices as the core reckons with them, in their order."""
    return [
        Invoice(
            bill.supplier,
            bill.number,
            bill.day,
            bill.currency,
            tuple(InvoiceLine(line.what, line.amount) for line in bill.lines),
        )
        for bill in actuals.invoices
    ]


def planned_for(plan: Plan) -> Planned:
    """What a plan reckons with: its parts as decided, and what the client pays for besides.

    Raises
    ------
    InputError
        If costs are not worked out.
    """
    if plan.money is None:
        raise InputError.at("account", "plan.not_costed_to_compare")
    result = planned_of(plan.money)
    hours, costs = defaultdict(Decimal, result.hours), defaultdict(Decimal, result.costs)
    for extra in plan.job.price.extras:
        if extra.option:
            continue
        if extra.hours:
            hours[extra.name] += extra.hours
        if extra.cost:
            costs[extra.name] += extra.cost
    return Planned(dict(hours), dict(costs))


def tasks_of(book: Book, plan: Plan | None) -> list[Task]:
    """What hours may be put down for: what the plan has hours for, and then every other time of the book.

    Parameters
    ----------
    book : Book
    plan : Plan, optional
        With its costs; the book alone where they are not worked out.
    """
    planned = dict(planned_for(plan).hours) if plan is not None and plan.money is not None else {}
    names = [*planned, *(rate.name for rate in book.rates if counted_in(rate.unit) == Counted.MINUTES)]
    return [Task(name, _counted_in(name), planned.get(name, Decimal(0))) for name in dict.fromkeys(names)]


def _counted_in(name: str) -> str:
    unit = KNOWN_UNITS.get(name, "")
    return per_what(unit) if counted_in(unit) == Counted.MINUTES else ""


def handed_over(plan: Plan) -> bool:
    """Whether the job is said to be handed over, among its dates: until then its account forecasts the end."""
    return any(terms.name == HAND_OVER and terms.done is not None for terms in plan.job.dates.tasks)


def account_of(plan: Plan, actuals: Actuals) -> JobAccount:
    """Hold what a job took against its plan and its price.

    Parameters
    ----------
    plan : Plan
        With its outlook.
    actuals : Actuals

    Returns
    -------
    JobAccount

    Raises
    ------
    InputError
        With every fault: costs that are not worked out, an invoice entered twice or in another currency.
    """
    planned = planned_for(plan)
    given, price = plan.job.price.given, price_job(plan).price
    rates = site_rates(plan.book, plan.job.job.date)
    result = final_account(
        planned,
        time_entries(actuals),
        invoices_of(actuals),
        currency=plan.book.currency,
        crew_hour=rates.crew_hour.value,
        net=given.net if given else price.net,
        finished=handed_over(plan),
    )
    beyond = None if given else price.cost + price.contingency - result.planned
    return JobAccount(result, given is not None, rates.crew_hour.value, price.overhead, beyond)
