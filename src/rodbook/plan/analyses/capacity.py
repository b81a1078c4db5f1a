"""What a job wants of the crew's weeks, from its plan: its parts in every way that makes sense, and its fitting."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from decimal import Decimal

from rodbook.dates.calendars import public_holidays
from rodbook.dates.model import Stage
from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.dates import WEEKDAYS, Away
from rodbook.money import CapacityAnswer, JobWanted, MoreDays, Weighing, job_wanted, weighing
from rodbook.plan.analyses.pricing import price_job
from rodbook.plan.model import Plan
from rodbook.plan.schedule.facts import done_names
from rodbook.plan.schedule.tasks import tasks_of

__all__ = [
    "WeeksDecided",
    "crew_days",
    "days_besides",
    "income_of",
    "more_days",
    "weeks_of_job",
    "weeks_wanted",
    "weigh_plan",
]

QUARTERS_AN_HOUR = 4

_OF_PARTS = frozenset({Stage.MAKE, Stage.COAT})
"""What making or buying decides; all else is done by the crew either way."""


@dataclass(frozen=True)
class WeeksDecided:
    """The crew's weeks as they were decided.

    Parameters
    ----------
    day : date
        On which it was decided.
    start : date
        Monday of the first week.
    wanted : tuple of JobWanted
    answer : CapacityAnswer
    """

    day: Date
    start: Date
    wanted: tuple[JobWanted, ...]
    answer: CapacityAnswer


def weigh_plan(plan: Plan) -> Weighing:
    """The ways of making every kind of part of a plan, weighed by its book on its day.

    Raises
    ------
    InputError
        If its layouts and costs are not worked out.
    """
    if plan.money is None or plan.outlook is None:
        raise InputError.at(("jobs", plan.job.job.name), "plan.job_not_costed")
    job, book = plan.job, plan.book
    return weighing(plan.schedule, plan.outlook.usage, book, job.job.date, book.workshop(job.job.workshop), job.making)


def days_besides(plan: Plan, *, people: int = 2) -> float:
    """Crew days for what the crew does whoever makes the parts: measuring, taking in, fitting, handing over. [days]

    What is done already is left out.

    Parameters
    ----------
    plan : Plan
    people : int
        In the crew.
    """
    result = tasks_of(plan, key="job", people=people)
    over = done_names(result, plan.job)
    left = {key for one in result.named if one.name not in over for key in one.keys}
    quarters = sum(
        task.quarters * task.hands for task in result.tasks if task.stage not in _OF_PARTS and task.key in left
    )
    return quarters / QUARTERS_AN_HOUR / result.hours_a_day


def crew_days(book: Book, start: Date, weeks: int) -> tuple[float, ...]:
    """Days that the book's crew works in each week: its days of the week without holidays, closed days and days off.

    Parameters
    ----------
    book : Book
    start : date
        A Monday.
    weeks : int

    Returns
    -------
    tuple of float
        Empty where the book names nobody. [days]

    Raises
    ------
    InputError
        If the book's code of public holidays is none.
    """
    firm = book.dates
    if not firm.crew:
        return ()
    return tuple(
        float(sum(not _away(one.off, day) for day in days for one in firm.crew))
        for days in _days_worked(book, start, weeks)
    )


def _days_worked(book: Book, start: Date, weeks: int) -> tuple[tuple[Date, ...], ...]:
    """Days on which the firm works in each week: its days of the week without holidays and closed days."""
    firm = book.dates
    last = start + timedelta(weeks=weeks)
    holidays = public_holidays(firm.holidays, range(start.year, last.year + 1)) if firm.holidays else {}

    def works(day: Date) -> bool:
        return WEEKDAYS[day.weekday()] in firm.days and day not in holidays and not _away(firm.closed, day)

    every = [[start + timedelta(weeks=week, days=n) for n in range(len(WEEKDAYS))] for week in range(weeks)]
    return tuple(tuple(day for day in days if works(day)) for days in every)


def more_days(
    book: Book,
    start: Date,
    weeks: int,
    *,
    name: str,
    days: float,
    day_cost: Decimal,
    first: Date | None = None,
    last: Date | None = None,
    whole: bool = False,
) -> MoreDays:
    """Days that can be had on top of the crew's, from one day to another, as the weeks have them.

    Parameters
    ----------
    book : Book
        Whose working days they are had on.
    start : date
        A Monday.
    weeks : int
    name : str
    days : float
        In a full week, at most. [days]
    day_cost : Decimal
        [currency/day]
    first, last : date, optional
        Between which they can be had, both included; from the first week or to the last where left out. Of a week that is
        not full they are had in proportion to its working days (house assumption).
    whole : bool
        Whether they come in whole days alone.

    Raises
    ------
    InputError
        If the last day is before the first, or none of them lies in these weeks on a day on which the firm works.
    """
    from_day, to_day = first or start, last or start + timedelta(weeks=weeks, days=-1)
    if to_day < from_day:
        raise InputError.at(name, "plan.last_day_before_first", last=to_day, first=from_day)
    full = len(book.dates.days)
    there = [sum(from_day <= day <= to_day for day in worked) for worked in _days_worked(book, start, weeks)]
    if not any(there):
        raise InputError.at(name, "plan.no_working_day", first=from_day, last=to_day)
    return MoreDays(name, day_cost, {week: days * n / full for week, n in enumerate(there, 1) if n}, whole)


def _away(spans: Sequence[Away], day: Date) -> bool:
    return any(one.first <= day <= one.last for one in spans)


def weeks_of_job(job: Job, start: Date, weeks: int) -> tuple[int, int]:
    """First and last week of a job by its own dates, as far as the weeks go, counted from 1.

    Parameters
    ----------
    job : Job
    start : date
        Monday of the first week.
    weeks : int
        How many there are.
    """

    def week(day: Date) -> int:
        return min(max((day - start).days // 7 + 1, 1), weeks)

    first = week(job.dates.start) if job.dates.start else 1
    return first, max(first, week(job.dates.by) if job.dates.by else weeks)


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
        name,
        weigh_plan(plan),
        income=income,
        first_week=first_week,
        last_week=last_week,
        currency=plan.book.currency,
        promised=promised,
        fitting_days=besides,
    )
