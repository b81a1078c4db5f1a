"""Which task is done in which week, and what is ordered when: days of an answer shared out among the tasks that may use them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rodbook.money.wanted import JobWanted, Offered, TaskWanted

__all__ = ["WeekWork", "week_work"]

LEAST_DAYS = 1e-6
"""Less than this is nothing. [days]"""


@dataclass(frozen=True)
class WeekWork:
    """What is done of a task in a week, or that it is to be ordered in it.

    Parameters
    ----------
    week : int
    job, task, way : str
    days : float
        Crew days; nought for an order. [days]
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
    placed: Mapping[tuple[str, int, int, int], float],
) -> tuple[WeekWork, ...]:
    """Share out the days that were placed in weeks among the tasks of the same span, in the order in which the job has them.

    Parameters
    ----------
    jobs : sequence of JobWanted
    taken : mapping of (str, str) to Offered
        The way of each task of each job that is taken.
    placed : mapping of (str, int, int, int) to float
        Days by job, first and last week of a span, and week. [days]

    Returns
    -------
    tuple of WeekWork
        By week; orders before what is done.
    """
    work = [one for job in jobs for one in _of_job(job, taken, placed)]
    return tuple(sorted(work, key=lambda one: (one.week, not one.ordered)))


def _of_job(
    job: JobWanted,
    taken: Mapping[tuple[str, str], Offered],
    placed: Mapping[tuple[str, int, int, int], float],
) -> Iterator[WeekWork]:
    left = {key: days for key, days in placed.items() if key[0] == job.name}
    for task in job.tasks:
        way = taken.get((job.name, task.name))
        if way is None:
            continue
        if way.ordered is not None:
            yield WeekWork(task.first_week, job.name, task.name, way.name, 0.0, ordered=True)
        yield from _placed(job, task, way, left)


def _placed(
    job: JobWanted, task: TaskWanted, way: Offered, left: dict[tuple[str, int, int, int], float]
) -> Iterator[WeekWork]:
    """Days of a task, week after week, taken from what is left of those of its span."""
    first, last, wanted = task.first_week + way.not_before, task.last_week - way.not_after, way.crew_days
    for week in range(first, last + 1):
        days = min(wanted, left.get((job.name, first, last, week), 0.0))
        if days > LEAST_DAYS:
            left[job.name, first, last, week] -= days
            wanted -= days
            yield WeekWork(week, job.name, task.name, way.name, round(days, 4))
