"""Dates of one job or of several that share people: tasks from their plans, on the firm's days."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from datetime import time

from rodbook.dates import (
    Absence,
    Person,
    Programme,
    Task,
    Work,
    WorkCalendar,
    check_programme,
    crew_faults,
    make_calendar,
    make_programme,
)
from rodbook.errors import Fault, InputError
from rodbook.job import Book, Job
from rodbook.job.dates import WEEKDAYS, Away
from rodbook.plan.model import Plan
from rodbook.plan.tasks import JobTasks, tasks_of

__all__ = ["FirmDays", "WantedDates", "dates_faults", "plan_dates", "wanted_by"]


@dataclass(frozen=True)
class FirmDays:
    """When the firm works.

    Parameters
    ----------
    weekdays : tuple of int
        0 is Monday.
    hours : float, optional
        Of work in a day; the book's working day, else 8, where left out. [h]
    begins : time
    country : str
        Whose public holidays are kept, as an ISO 3166 code; none where empty.
    closed : tuple of Absence
    """

    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    hours: float | None = None
    begins: time = time(8)
    country: str = ""
    closed: tuple[Absence, ...] = ()


@dataclass(frozen=True)
class WantedDates:
    """What is asked of the dates.

    Parameters
    ----------
    start : date
        First day on which anything is done.
    people : tuple of Person
    days : FirmDays
    due : date, optional
        Day by which every job is wanted.
    late_days : int
        Working days by which a delivery is taken to be late, to see what that moves.
    unnamed : date, optional
        Day before which nothing is begun of jobs that name no start of their own; `start` where left out.
    """

    start: Date
    people: tuple[Person, ...]
    days: FirmDays = field(default_factory=FirmDays)
    due: Date | None = None
    late_days: int = 3
    unnamed: Date | None = None


def _absences(away: Sequence[Away]) -> tuple[Absence, ...]:
    return tuple(Absence(one.first, one.last) for one in away)


def wanted_by(book: Book, jobs: Sequence[Job], *, today: Date) -> WantedDates:
    """What a book and its jobs ask of the dates.

    Parameters
    ----------
    book : Book
        Whose people and days they are.
    jobs : sequence of Job
    today : date
        When jobs begin that name no day.
    """
    firm = book.dates
    people = tuple(Person(one.name, tuple(one.trades), _absences(one.off)) for one in firm.crew)
    weekdays = tuple(n for n, name in enumerate(WEEKDAYS) if name in firm.days)
    days = FirmDays(weekdays, country=firm.holidays, closed=_absences(firm.closed))
    first = min((job.dates.start or today for job in jobs), default=today)
    return WantedDates(first, people, days, unnamed=today)


@dataclass(frozen=True)
class _Asked:
    tasks: tuple[Task, ...]
    works: tuple[Work, ...]
    calendar: WorkCalendar
    remarks: tuple[str, ...]


def _asked(plans: Sequence[Plan], wanted: WantedDates) -> _Asked:
    """Tasks, jobs and days; InputError with every fault."""
    faults: list[Fault] = list(crew_faults(wanted.people))
    if not plans:
        faults.append(Fault("jobs", "there is no job to plan dates for; name at least one"))
    if not 0 <= wanted.late_days <= 60:
        faults.append(Fault("late", f"{wanted.late_days} working days won't do; from 0 to 60 are taken"))
    found: list[JobTasks] = []
    for number, plan in enumerate(plans, 1):
        try:
            found.append(tasks_of(plan, key=str(number), people=len(wanted.people)))
        except InputError as error:
            faults += error.faults
    days = wanted.days
    hours = days.hours if days.hours is not None else found[0].hours_a_day if found else 8.0
    try:
        calendar = make_calendar(
            wanted.start,
            weekdays=days.weekdays,
            hours=hours,
            begins=days.begins,
            country=days.country,
            closed=days.closed,
        )
    except InputError as error:
        raise InputError([*faults, *error.faults]) from None
    if faults:
        raise InputError(faults)
    works = tuple(
        Work(
            str(number), plan.job.job.name, plan.job.dates.by or wanted.due,
            start if (start := plan.job.dates.start or wanted.unnamed) and start > wanted.start else None,
        )
        for number, plan in enumerate(plans, 1)
    )  # fmt: skip
    tasks = tuple(task for one in found for task in one.tasks)
    remarks = [remark for one in found for remark in one.remarks]
    if not days.country:
        remarks.append("No public holidays are kept, as no country is named.")
    return _Asked(tasks, works, calendar, tuple(remarks))


def dates_faults(plans: Sequence[Plan], wanted: WantedDates) -> tuple[Fault, ...]:
    """What is wrong with the dates that are asked, without planning them.

    Parameters
    ----------
    plans : sequence of Plan
        All the way, with money.
    wanted : WantedDates
    """
    try:
        asked = _asked(plans, wanted)
    except InputError as error:
        return tuple(error.faults)
    return check_programme(asked.tasks, wanted.people, asked.works, asked.calendar)


def plan_dates(
    plans: Sequence[Plan], wanted: WantedDates, *, effort: float = 0.3, seed: int = 0,
    on_stage: Callable[[str, int, int], None] | None = None,
) -> Programme:  # fmt: skip
    """Plan the dates of jobs.

    Parameters
    ----------
    plans : sequence of Plan
        All the way, with money. What their jobs say of dates is kept to; a day that is wanted comes before that of
        `wanted`, a start only where it is later.
    wanted : WantedDates
    effort : float
        How much the search may do, by its own count.
    seed : int
    on_stage : callable, optional
        Told what is being worked out, how many steps are done, and how many there are.

    Returns
    -------
    Programme
        Jobs have the keys "1", "2" and so on, in the order of the plans.

    Raises
    ------
    InputError
        With every fault of crew, days and jobs at once.
    Infeasible
        If it does not fit into the calendar.
    """
    if on_stage is not None:
        on_stage("tasks", 0, 3)
    asked = _asked(plans, wanted)
    return make_programme(
        asked.tasks, wanted.people, asked.works, asked.calendar, effort=effort, seed=seed, late_days=wanted.late_days,
        remarks=asked.remarks, on_stage=on_stage,
    )  # fmt: skip
