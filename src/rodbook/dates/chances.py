"""Which dates hold how surely: the schedule played through many times with times and deliveries that vary.

The people, and the turn in which each does what, stay as they are; every task begins as soon as it can. Times are
lognormal, so that what is late is later than what is early is early.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from rodbook.dates.model import LEAD_SPREAD, Schedule
from rodbook.dates.passes import Kept
from rodbook.dates.problem import Problem
from rodbook.errors import InputError

__all__ = ["Chance", "Likely", "likely_days", "played"]

DRAWS = 4000
"""Times that the schedule is played through (house assumption): a chance is then known to about one in a hundred."""

_NINE_IN_TEN = NormalDist().inv_cdf(0.9)


@dataclass(frozen=True)
class Likely:
    """When a task ends, as sure as one wants to be.

    Parameters
    ----------
    planned : date
        By the schedule.
    half, nine_in_ten : date
        Days by which it is over in half, and in nine of ten, of the plays.
    holds : float
        Share of plays in which it is over on the planned day or before.
    """

    planned: Date
    half: Date
    nine_in_ten: Date
    holds: float


@dataclass(frozen=True)
class Chance:
    """How sure dates are.

    Parameters
    ----------
    draws : int
    seed : int
    tasks : dict of str to Likely
        By key.
    jobs : dict of str to Likely
        The end of each job, by key.
    """

    draws: int
    seed: int
    tasks: dict[str, Likely]
    jobs: dict[str, Likely]


def _factors(draw: np.random.Generator, spread: float, draws: int) -> NDArray[np.float64]:
    """Lognormal factors whose middle is 1 and of which nine in ten are below `spread`."""
    deviation = math.log(spread) / _NINE_IN_TEN
    return np.exp(deviation * draw.standard_normal(draws))


def played(problem: Problem, kept: Kept, *, draws: int = DRAWS, seed: int = 0) -> NDArray[np.float64]:
    """End of each task in each play. [quarters]

    Parameters
    ----------
    problem : Problem
    kept : Kept
    draws : int
    seed : int

    Returns
    -------
    numpy.ndarray
        One row for each task.

    Notes
    -----
    A delivery comes on the day that was promised or later, never before it (house assumption): in half of the plays it is on
    time, in nine of ten within `LEAD_SPREAD` times the promised days.

    Raises
    ------
    InputError
        If there is not one play.
    """
    if draws < 1:
        raise InputError.at("draws", f"{draws} plays tell nothing; use a few thousand")
    draw = np.random.default_rng(seed)
    ends = np.zeros((len(problem.tasks), draws))
    for n in kept.order:
        task = problem.tasks[n]
        start = np.full(draws, float(problem.release[n]))
        for p, gap in kept.before[n]:
            late: NDArray[np.float64] | float = 0.0
            if any(w.supplier and w.after == problem.tasks[p].key for w in task.waits) and gap.days:
                late = np.maximum(0.0, np.ceil(gap.days * _factors(draw, LEAD_SPREAD, draws) - 1e-9) - gap.days)
            start = np.maximum(start, gap.earliest_of(ends[p], late))
        takes = task.quarters * _factors(draw, task.spread, draws) if task.quarters else np.zeros(draws)
        for first, last in kept.blocks[n]:
            start = np.where((start < last) & (start + takes > first), float(last), start)
        ends[n] = start + takes
    return ends


def _likely(ends: NDArray[np.float64], planned: int, problem: Problem) -> Likely:
    calendar = problem.calendar
    middle, nine = np.quantile(ends, [0.5, 0.9], method="inverted_cdf")
    evening = -(-planned // calendar.quarters) * calendar.quarters

    def day(end: float) -> Date:
        return calendar.day_of_end(math.ceil(end - 1e-6))

    return Likely(calendar.day_of_end(planned), day(middle), day(nine), float(np.mean(ends <= evening + 1e-6)))


def likely_days(problem: Problem, kept: Kept, schedule: Schedule, *, draws: int = DRAWS, seed: int = 0) -> Chance:
    """How sure each task's day and each job's hand-over are.

    Parameters
    ----------
    problem : Problem
    kept : Kept
    schedule : Schedule
    draws : int
    seed : int
    """
    ends = played(problem, kept, draws=draws, seed=seed)
    tasks = {task.key: _likely(ends[n], schedule.of(task.key).end, problem) for n, task in enumerate(problem.tasks)}
    jobs: dict[str, Likely] = {}
    for j, (work, finish) in enumerate(zip(problem.works, schedule.finishes, strict=True)):
        mine = [n for n, job in enumerate(problem.job) if job == j]
        jobs[work.key] = _likely(ends[mine].max(axis=0), finish.end, problem)
    return Chance(draws, seed, tasks, jobs)
