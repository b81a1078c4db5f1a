"""What a job wants of the crew's weeks, from its plan: its parts in every way that makes sense, and its fitting."""

from __future__ import annotations

from decimal import Decimal

from rodbook.dates.model import Stage
from rodbook.errors import InputError
from rodbook.money import JobWanted, Weighing, job_wanted, weighing
from rodbook.plan.model import Plan
from rodbook.plan.pricing import price_job
from rodbook.plan.tasks import tasks_of

__all__ = ["days_besides", "income_of", "weeks_wanted", "weigh_plan"]

QUARTERS_AN_HOUR = 4

_OF_PARTS = frozenset({Stage.MAKE, Stage.COAT})
"""What making or buying decides; all else is done by the crew either way."""


def weigh_plan(plan: Plan) -> Weighing:
    """The ways of making every kind of part of a plan, weighed by its book on its day.

    Raises
    ------
    InputError
        If its layouts and costs are not worked out.
    """
    if plan.money is None or plan.outlook is None:
        raise InputError.at(f"job {plan.job.job.name!r}", "its layouts and costs are not worked out")
    job, book = plan.job, plan.book
    return weighing(
        plan.schedule, plan.outlook.usage, book, job.job.date, book.workshop(job.job.workshop), job.making
    )  # fmt: skip


def days_besides(plan: Plan, *, people: int = 2) -> float:
    """Crew days for what the crew does whoever makes the parts: measuring, taking in, fitting, handing over. [days]

    Parameters
    ----------
    plan : Plan
    people : int
        In the crew.
    """
    found = tasks_of(plan, key="job", people=people)
    quarters = sum(task.quarters * task.hands for task in found.tasks if task.stage not in _OF_PARTS)
    return quarters / QUARTERS_AN_HOUR / found.hours_a_day


def income_of(plan: Plan) -> Decimal:
    """What the client pays, net of tax: the price that was given, else the price as it stands. [currency]"""
    given = plan.job.price.given
    return price_job(plan).price.net if given is None else given.net


def weeks_wanted(
    plan: Plan, name: str, *, first_week: int, last_week: int, promised: bool, besides: float, income: Decimal
) -> JobWanted:
    """What a job wants of the crew's weeks.

    Parameters
    ----------
    plan : Plan
    name : str
        Its own among the jobs.
    first_week, last_week : int
        Between which all of it is done, both included.
    promised : bool
    besides : float
        Crew days besides making the parts. [days]
    income : Decimal
        [currency]
    """
    return job_wanted(
        name, weigh_plan(plan), income=income, first_week=first_week, last_week=last_week, currency=plan.book.currency,
        promised=promised, fitting_days=besides,
    )  # fmt: skip
