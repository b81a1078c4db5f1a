"""What jobs want of the crew's days, and in which ways each task of theirs can be done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import isfinite

from rodbook.errors import Fault, Place

__all__ = ["JobWanted", "MoreDays", "Offered", "TaskWanted", "WeekDays", "wanted_faults"]


@dataclass(frozen=True)
class Offered:
    """One way in which a task of a job can be done.

    Parameters
    ----------
    name : str
    cost : Decimal
        What goes out besides the crew's wages. [currency]
    crew_days : float
        [days]
    ordered : Decimal, optional
        How much of the cost is ordered from the workshop; None where nothing is. [currency]
    not_before, not_after : int
        Weeks after the first of the task before the crew can begin, as what is ordered has to arrive; and before its last
        when the crew has to be through, as what it made goes out to be finished. [weeks]
    arrives : int
        Weeks after the first of the task until what is ordered is there. [weeks]
    travels : int
        How often an order of it travels: twice where it goes out and comes back.
    """

    name: str
    cost: Decimal
    crew_days: float
    ordered: Decimal | None = None
    not_before: int = 0
    not_after: int = 0
    travels: int = 1
    arrives: int = 0


@dataclass(frozen=True)
class TaskWanted:
    """Something that a job wants done in certain weeks, in one of several ways: its doors, its linings, its fitting.

    Parameters
    ----------
    name : str
    ways : tuple of Offered
        One is taken.
    first_week, last_week : int
        Both included, counted from 1.
    waits : bool
        Whether it is better done when what the job's other tasks order is there; it moves days between weeks and decides
        nothing.
    """

    name: str
    ways: tuple[Offered, ...]
    first_week: int
    last_week: int
    waits: bool = False


@dataclass(frozen=True)
class JobWanted:
    """A job that wants crew days.

    Parameters
    ----------
    name : str
    income : Decimal
        What the client pays, net of tax. [currency]
    tasks : tuple of TaskWanted
    promised : bool
        Whether it has to be done; else it may be left.
    delivery, least_order : Decimal
        What its workshop charges for an order; least charge before delivery. What goes out and comes back pays the delivery
        twice, once for the whole order. [currency]
    """

    name: str
    income: Decimal
    tasks: tuple[TaskWanted, ...]
    promised: bool = True
    delivery: Decimal = Decimal(0)
    least_order: Decimal = Decimal(0)


@dataclass(frozen=True)
class WeekDays:
    """Crew days there are in a week. [days]"""

    days: float


@dataclass(frozen=True)
class MoreDays:
    """Days that can be had on top of the crew's in some weeks, at a price: overtime, or hired hands.

    Parameters
    ----------
    name : str
        Its own among those that can be had.
    day_cost : Decimal
        [currency/day]
    days : mapping of int to float
        By the week's number, how many at most. [days]
    whole : bool
        Whether they come in whole days alone, as hired hands do.
    """

    name: str
    day_cost: Decimal
    days: Mapping[int, float]
    whole: bool = False


def wanted_faults(jobs: Sequence[JobWanted], weeks: Sequence[WeekDays], more: Sequence[MoreDays] = ()) -> list[Fault]:
    """Everything that is wrong with what is wanted."""
    return [*_week_faults(weeks), *_more_faults(more, len(weeks)), *_job_faults(jobs, len(weeks))]


def _week_faults(weeks: Sequence[WeekDays]) -> Iterator[Fault]:
    if not weeks:
        yield Fault("weeks", "money.no_weeks")
    for number, week in enumerate(weeks):
        if not (week.days >= 0 and isfinite(week.days)):
            yield Fault(("weeks", number), "money.week_days_out_of_range")


def _more_faults(more: Sequence[MoreDays], last: int) -> Iterator[Fault]:
    for name, count in Counter(one.name for one in more).items():
        if count > 1:
            yield Fault(("more_days", name), "money.more_days_named_alike", count=count)
    for one in more:
        at = Place(("more_days", one.name))
        if not (one.day_cost.is_finite() and one.day_cost >= 0):
            yield Fault(at, "money.day_cost_out_of_range", cost=one.day_cost)
        for week, days in one.days.items():
            if not 1 <= week <= last:
                yield Fault(at, "money.week_out_of_range", week=week, last=last)
            if not (days >= 0 and isfinite(days)):
                yield Fault(at, "money.more_days_out_of_range", days=days, week=week)


def _job_faults(jobs: Sequence[JobWanted], last: int) -> Iterator[Fault]:
    for name, count in Counter(job.name for job in jobs).items():
        if count > 1:
            yield Fault(("jobs", name), "money.jobs_named_alike", count=count)
    for job in jobs:
        for name, count in Counter(task.name for task in job.tasks).items():
            if count > 1:
                yield Fault(("jobs", job.name, "tasks", name), "money.tasks_named_alike", count=count)
        for task in job.tasks:
            yield from _task_faults(task, Place(("jobs", job.name, "tasks", task.name)), last)


def _task_faults(task: TaskWanted, at: Place, last: int) -> Iterator[Fault]:
    if not task.ways:
        yield Fault(at, "money.task_without_way")
    if not 1 <= task.first_week <= task.last_week <= last:
        yield Fault(
            at, "money.task_weeks_out_of_range", first_week=task.first_week, last_week=task.last_week, last=last
        )
    for way in task.ways:
        if not way.crew_days >= 0 or not way.cost.is_finite() or min(way.not_before, way.not_after, way.arrives) < 0:
            yield Fault(at / "ways" / way.name, "money.way_below_zero")
