"""Which task is done in which week, and what is ordered when: what is decided, put into the weeks as early as it goes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rodbook.money.deciding.demand import JobWanted, Offered, TaskWanted
from rodbook.money.deciding.integer_programme import MixedProgramme

__all__ = ["WeekWork", "week_work"]

LEAST_DAYS = 1e-6
"""Less than this is nothing. [days]"""

ORDER, EARLY, NEVER = 0.01, 100.0, 1e4
"""What a day costs less for each task that goes before its own, more before what is ordered is there, and where none is. [1]"""


@dataclass(frozen=True)
class WeekWork:
    """What is done of a task in a week, or that it is to be ordered in it.

    Parameters
    ----------
    week : int
    job, task, way : str
    days : float
        Crew days; zero for an order. [days]
    ordered : bool
        Whether it stands for the order, which goes out in the first week of the task.
    """

    week: int
    job: str
    task: str
    way: str
    days: float
    ordered: bool = False


def week_work(
    jobs: Sequence[JobWanted],
    taken: Mapping[tuple[str, str], Offered],
    there: Sequence[float],
    full: Mapping[int, float],
) -> tuple[WeekWork, ...]:
    """Put what is decided into the weeks as early as it goes, in the order in which each job has its tasks.

    Parameters
    ----------
    jobs : sequence of JobWanted
    taken : mapping of (str, str) to Offered
        The way of each task of each job that is taken.
    there : sequence of float
        Most that can be done in each week. [days]
    full : mapping of int to float
        What has to be done in a week, as days on top are paid for in it. [days]

    Returns
    -------
    tuple of WeekWork
        By week; orders before what is done. A task that waits for others is put behind the arrival of what they order, as far as
        there is room.

    Notes
    -----
    A linear programme over days by task and week, which costs the more the later a day is; nothing else that is decided changes.
    """
    programme = MixedProgramme()
    weeks: list[list[tuple[int, float]]] = [[] for _ in there]
    placed: list[tuple[JobWanted, TaskWanted, Offered, int, int]] = []
    for job in jobs:
        arrival = _arrival(job, taken)
        for number, task in enumerate(job.tasks):
            way = taken.get((job.name, task.name))
            if way is None or not way.crew_days:
                continue
            terms = []
            for week in range(task.first_week + way.not_before, task.last_week - way.not_after + 1):
                early = EARLY if task.waits and week < arrival else 0.0
                column = programme.column(week * (1 - min(number, 50) * ORDER) + early)
                placed.append((job, task, way, week, column))
                terms.append((column, 1.0))
                weeks[week - 1].append((column, 1.0))
            programme.row(terms, way.crew_days, way.crew_days)
    for number, (terms, days) in enumerate(zip(weeks, there, strict=True), 1):
        over, under = (
            programme.column(NEVER),
            programme.column(NEVER),
        )  # the decision fits but for the solver's last digits
        programme.row([*terms, (over, -1.0), (under, 1.0)], full.get(number, 0.0), full.get(number, days))
    result = programme.relaxed() if placed else None
    done = [
        WeekWork(week, job.name, task.name, way.name, round(result.values[column], 4))
        for job, task, way, week, column in (placed if result is not None else ())
        if result is not None and result.values[column] > LEAST_DAYS
    ]
    return tuple(sorted([*_orders(jobs, taken), *done], key=lambda one: (one.week, not one.ordered)))


def _arrival(job: JobWanted, taken: Mapping[tuple[str, str], Offered]) -> int:
    """Week from which everything that a job orders is there."""
    ways = [(task, taken.get((job.name, task.name))) for task in job.tasks]
    return max((task.first_week + way.arrives for task, way in ways if way is not None), default=1)


def _orders(jobs: Sequence[JobWanted], taken: Mapping[tuple[str, str], Offered]) -> Iterator[WeekWork]:
    for job in jobs:
        for task in job.tasks:
            way = taken.get((job.name, task.name))
            if way is not None and way.ordered is not None:
                yield WeekWork(task.first_week, job.name, task.name, way.name, 0.0, ordered=True)
