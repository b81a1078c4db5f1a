"""What jobs want of the crew's days, and in which ways each task of theirs can be done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.errors import Fault

__all__ = ["JobWanted", "Offered", "TaskWanted", "WeekDays", "wanted_faults"]


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
    """

    name: str
    ways: tuple[Offered, ...]
    first_week: int
    last_week: int


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
    """Crew days there are in a week, and what can be had on top.

    Parameters
    ----------
    days : float
        [days]
    more_days : float
        Overtime or hired hands, at most. [days]
    day_cost : Decimal
        What each of those costs. [currency/day]
    """

    days: float
    more_days: float = 0.0
    day_cost: Decimal = Decimal(0)


def wanted_faults(jobs: Sequence[JobWanted], weeks: Sequence[WeekDays]) -> list[Fault]:
    """Everything that is wrong with what is wanted."""
    return [*_week_faults(weeks), *_job_faults(jobs, len(weeks))]


def _week_faults(weeks: Sequence[WeekDays]) -> Iterator[Fault]:
    if not weeks:
        yield Fault("weeks", "there is no week in which anything could be done; give one at the least")
    for number, week in enumerate(weeks, 1):
        if not week.days >= 0 or not week.more_days >= 0 or week.day_cost < 0:
            yield Fault(f"weeks[{number}]", "days and their cost can't be below nought")


def _job_faults(jobs: Sequence[JobWanted], last: int) -> Iterator[Fault]:
    for name, count in Counter(job.name for job in jobs).items():
        if count > 1:
            yield Fault(f"job {name}", f"{count} jobs have this name; each needs its own")
    for job in jobs:
        for name, count in Counter(task.name for task in job.tasks).items():
            if count > 1:
                yield Fault(f"job {job.name}, {name}", f"{count} tasks have this name; each needs its own")
        for task in job.tasks:
            yield from _task_faults(task, f"job {job.name}, {task.name}", last)


def _task_faults(task: TaskWanted, where: str, last: int) -> Iterator[Fault]:
    if not task.ways:
        yield Fault(where, "there is no way to do it; give one at the least")
    if not 1 <= task.first_week <= task.last_week <= last:
        yield Fault(
            where, f"weeks {task.first_week} to {task.last_week} are not among weeks 1 to {last}, in that order"
        )
    for way in task.ways:
        if not way.crew_days >= 0 or not way.cost.is_finite() or way.not_before < 0 or way.not_after < 0:
            yield Fault(f"{where}, {way.name}", "days, weeks to wait and money must be numbers from nought up")
