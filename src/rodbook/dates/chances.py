"""Which dates hold how surely: the schedule played through many times with times and deliveries that vary.

The people, and the turn in which each does what, stay as they are; every task begins as soon as it can, and nothing is ordered
before its planned day. Times are lognormal, so that what is late is later than what is early is early. What is shared is drawn
once: a crew that is slow is slow on every task, a kind of work that takes longer does so in every room, and a supplier who is
late is late with every order.
"""

from __future__ import annotations

import math
import zlib
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from rodbook.dates.model import Schedule
from rodbook.dates.passes import Kept
from rodbook.dates.problem import Problem
from rodbook.errors import InputError

__all__ = ["CREW_SHARE", "NINE_IN_TEN", "Chance", "Likely", "Play", "likely_days", "play", "played", "shared_factor"]

DRAWS = 4000
"""Times that the schedule is played through (house assumption): a chance is then known to about one in a hundred."""

CREW_SHARE = 0.5
"""Of the variance of a time's logarithm, what the crew has in common over all kinds of work; the rest is common to all tasks of
one kind, as in what a job costs (house assumption). [1]"""

NINE_IN_TEN = 0.9

TINY = 1e-6
"""What times that were added up in another turn may differ by. [quarters]"""

_NINE_IN_TEN_Z = NormalDist().inv_cdf(NINE_IN_TEN)

type Floats = NDArray[np.float64]


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
    wanted : date, optional
        Day by which it is wanted.
    wanted_holds : float
        Share of plays in which it is over on that day or before.
    """

    planned: Date
    half: Date
    nine_in_ten: Date
    holds: float
    wanted: Date | None = None
    wanted_holds: float = 0.0


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


@dataclass(frozen=True)
class Play:
    """A schedule played through.

    Parameters
    ----------
    ends : numpy.ndarray
        End of each task, a row for each. [quarters]
    takes : tuple of numpy.ndarray
        How long each task takes. [quarters]
    late : dict of (int, int) to numpy.ndarray
        By task and the number of its wait, how many days of the supplier's a delivery is late.
    """

    ends: Floats
    takes: tuple[Floats, ...]
    late: dict[tuple[int, int], Floats]

    def of_job(self, problem: Problem, job: int) -> Floats:
        """End of a job in each play. [quarters]"""
        mine = [n for n, other in enumerate(problem.job) if other == job]
        result: Floats = self.ends[mine].max(axis=0)
        return result


class _Shared:
    """Standard normal draws by what they are shared by: the same for the same seed, whatever else is drawn."""

    def __init__(self, draws: int, seed: int) -> None:
        self.draws, self.seed = draws, seed
        self._kept: dict[str, Floats] = {}

    def of(self, name: str) -> Floats:
        if name not in self._kept:
            draw = np.random.default_rng([self.seed, zlib.crc32(name.encode())])
            self._kept[name] = draw.standard_normal(self.draws)
        return self._kept[name]


def shared_factor(spread: float, crew: Floats, kind: Floats) -> Floats:
    r"""What a task's planned time is multiplied by.

    Parameters
    ----------
    spread : float
        Nine in ten of the factors are below it, >= 1. [1]
    crew, kind : numpy.ndarray
        Standard normal draws, of the crew and of the kind of work.

    Returns
    -------
    numpy.ndarray
        Middle 1. [1]

    Notes
    -----
    With c = `CREW_SHARE` and s = ln(spread) / 1.2816,

    .. math:: f = \exp\left(s\,(\sqrt{c}\,z_{crew} + \sqrt{1 - c}\,z_{kind})\right)

    Factors of tasks of one kind are the same; logarithms of those of two kinds have the correlation c.
    """
    result: Floats = np.exp(_sigma(spread) * (math.sqrt(CREW_SHARE) * crew + math.sqrt(1 - CREW_SHARE) * kind))
    return result


def _sigma(spread: float) -> float:
    return math.log(spread) / _NINE_IN_TEN_Z


def play(problem: Problem, kept: Kept, *, draws: int = DRAWS, seed: int = 0) -> Play:
    """Play a schedule through.

    Parameters
    ----------
    problem : Problem
    kept : Kept
    draws : int
    seed : int

    Notes
    -----
    A delivery comes on the day that was promised or later, never before it (house assumption): in half of the plays it is on
    time, in nine of ten within the spread of its wait times the promised days.

    Raises
    ------
    InputError
        If there is not one play.
    """
    if draws < 1:
        raise InputError.at("draws", "dates.too_few_plays", draws=draws)
    shared = _Shared(draws, seed)
    crew = shared.of("crew")
    takes = tuple(
        task.quarters * shared_factor(task.spread, crew, shared.of(f"kind {task.rate or task.stage}"))
        if task.quarters
        else np.zeros(draws)
        for task in problem.tasks
    )
    late: dict[tuple[int, int], Floats] = {}
    for n, task in enumerate(problem.tasks):
        for k, wait in enumerate(task.waits):
            if wait.supplier:
                days = wait.days * np.exp(_sigma(wait.spread) * shared.of(f"supplier {wait.supplier}"))
                late[n, k] = np.maximum(0.0, np.ceil(days - 1e-9) - wait.days)
    ends = np.zeros((len(problem.tasks), draws))
    for n in kept.order:
        start = np.full(draws, float(problem.release[n]))
        for k, (p, gap) in enumerate(kept.before[n]):
            ordered = max(0, -(-kept.ends[p] // gap.day) - 1) if (n, k) in late else 0
            start = np.maximum(start, gap.earliest_of(ends[p], late.get((n, k), 0.0), ordered))
        for first, last in kept.blocks[n]:
            start = np.where((start < last) & (start + takes[n] > first), float(last), start)
        ends[n] = start + takes[n]
    return Play(ends, takes, late)


def played(problem: Problem, kept: Kept, *, draws: int = DRAWS, seed: int = 0) -> Floats:
    """End of each task in each play, one row for each task. [quarters]"""
    return play(problem, kept, draws=draws, seed=seed).ends


def evening_of(problem: Problem, quarter: int) -> int:
    """Evening of the day on which something ends. [quarters]"""
    return -(-quarter // problem.calendar.quarters) * problem.calendar.quarters


def share_by(ends: Floats, evening: float) -> float:
    """Share of plays that are over by an evening."""
    return float(np.mean(ends <= evening + TINY))


def _likely(ends: Floats, planned: int, problem: Problem) -> Likely:
    calendar = problem.calendar
    middle, nine = np.quantile(ends, [0.5, NINE_IN_TEN], method="inverted_cdf")

    def day(end: float) -> Date:
        return calendar.day_of_end(math.ceil(end - TINY))

    return Likely(calendar.day_of_end(planned), day(middle), day(nine), share_by(ends, evening_of(problem, planned)))


def likely_days(problem: Problem, schedule: Schedule, result: Play, *, seed: int = 0) -> Chance:
    """How sure each task's day and each job's hand-over are.

    Parameters
    ----------
    problem : Problem
    schedule : Schedule
    result : Play
        Of that schedule.
    seed : int
        Of the play.
    """
    tasks = {
        task.key: _likely(result.ends[n], schedule.of(task.key).end, problem) for n, task in enumerate(problem.tasks)
    }
    jobs: dict[str, Likely] = {}
    for j, (work, finish) in enumerate(zip(problem.works, schedule.finishes, strict=True)):
        ends = result.of_job(problem, j)
        one, due = _likely(ends, finish.end, problem), problem.due[j]
        if due is not None:
            one = replace(one, wanted=work.due, wanted_holds=share_by(ends, due))
        jobs[work.key] = one
    return Chance(result.ends.shape[1], seed, tasks, jobs)
