"""Dates of one job or of several that share people: tasks from their plans, on the firm's days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from datetime import time

from rodbook.dates import Absence, Person, Programme, Task, Work, crew_faults, make_calendar, make_programme
from rodbook.errors import Fault, InputError
from rodbook.plan.model import Plan
from rodbook.plan.tasks import JobTasks, tasks_of

__all__ = ["FirmDays", "WantedDates", "plan_dates"]


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
    """

    start: Date
    people: tuple[Person, ...]
    days: FirmDays = field(default_factory=FirmDays)
    due: Date | None = None
    late_days: int = 3


def plan_dates(plans: Sequence[Plan], wanted: WantedDates, *, effort: float = 0.3, seed: int = 0) -> Programme:
    """Plan the dates of jobs.

    Parameters
    ----------
    plans : sequence of Plan
        All the way, with money.
    wanted : WantedDates
    effort : float
        How much the search may do, by its own count.
    seed : int

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
    works = [Work(str(number), plan.job.job.name, wanted.due) for number, plan in enumerate(plans, 1)]
    tasks: list[Task] = [task for one in found for task in one.tasks]
    remarks = [remark for one in found for remark in one.remarks]
    if not days.country:
        remarks.append("No public holidays are kept, as no country is named.")
    return make_programme(
        tasks, wanted.people, works, calendar, effort=effort, seed=seed, late_days=wanted.late_days, remarks=remarks
    )
