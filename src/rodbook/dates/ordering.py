"""By when to order: the last day on which an order still holds the hand-over in nine cases of ten.

Found by going back from the evening of the hand-over through every play of the schedule, with what each task takes and how late
each delivery is in that play: the same draws that say how sure the hand-over is. Somebody orders on that day; everything else
goes on in its turn. The days hold together: with every order on its last day each job is handed over in nine cases of ten.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import timedelta

import numpy as np

from rodbook.dates.chances import NINE_IN_TEN, Chance, Floats, Likely, Play
from rodbook.dates.model import Schedule
from rodbook.dates.passes import Kept
from rodbook.dates.problem import Problem

__all__ = ["LATER", "OrderBy", "order_by", "order_days"]

LATER = timedelta(weeks=1)
"""By how much later an order is, to show what that does to the chance (house assumption)."""

HALVINGS = 12
"""Of what orders may lose alike: then known to three parts in a hundred thousand."""

type Order = tuple[int, int]
"""The task that takes in what is ordered, and the number of its wait."""


@dataclass(frozen=True)
class OrderBy:
    """By when something has to be ordered.

    Parameters
    ----------
    job : str
        Name of the job.
    supplier : str
    planned : date
        When it is ordered by the schedule.
    latest : date
        Last day on which an order holds `goal` in nine cases of ten, every other order going out on its own last day.
    delivered : date
        When it comes by the schedule.
    lead_days : int
        Working days of the supplier, as promised; where it is ordered, those that are left.
    ordered : date, optional
        Day on which it was ordered already: `planned` and `latest` then say nothing.
    promised : date, optional
        Day for which it was then promised, where one was named.
    goal : date, optional
        Day of the hand-over: the one that is wanted, where an order on `planned` holds it in nine cases of ten, else the first
        that it holds so.
    holds : float
        Chance of `goal` with every order on its `latest`.
    later : date, optional
        A week after `latest`, or the last working day before that.
    later_holds : float
        Chance of `goal` with this order on `later` and the others on their `latest`.
    wanted : date, optional
        Day by which the job is wanted, where even an order on `planned` does not hold it in nine cases of ten.
    wanted_holds : float
        Chance of `wanted` with an order on `planned`.
    key : str
        Of the job.
    """

    job: str
    supplier: str
    planned: Date
    latest: Date
    delivered: Date
    lead_days: int
    ordered: Date | None = None
    promised: Date | None = None
    goal: Date | None = None
    holds: float = 0.0
    later: Date | None = None
    later_holds: float = 0.0
    wanted: Date | None = None
    wanted_holds: float = 0.0
    key: str = ""


def _latest_starts(problem: Problem, kept: Kept, result: Play, job: int, evening: int) -> dict[int, Floats]:
    """Last start, in each play, of every task that a job's end waits for, so that the job is over by an evening. [quarters]"""
    draws = result.ends.shape[1]
    ends: dict[int, Floats] = {}
    starts: dict[int, Floats] = {}
    for n in reversed(kept.order):
        end = ends.get(n)
        if problem.job[n] == job:
            own = np.full(draws, float(evening))
            end = own if end is None else np.minimum(end, own)
        if end is None:
            continue
        takes = result.takes[n]
        start = end - takes
        for first, last in reversed(kept.blocks[n]):
            start = np.where((start < last - 1e-6) & (start + takes > first + 1e-6), first - takes, start)
        starts[n] = start
        for k, (p, gap) in enumerate(kept.before[n]):
            before = gap.latest_of(start, result.late.get((n, k), 0.0))
            ends[p] = np.minimum(ends[p], before) if p in ends else before
    return starts


def order_days(problem: Problem, kept: Kept, result: Play, job: int, evening: int) -> dict[Order, Floats]:
    """Last day on which each order may go out in each play, so that a job is over by an evening.

    Parameters
    ----------
    problem : Problem
    kept : Kept
    result : Play
    job : int
    evening : int
        [quarters]

    Returns
    -------
    dict of (int, int) to numpy.ndarray
        By the task that takes it in and the number of its wait, for every order that the job's end waits for, of whichever job:
        numbers of working days; -1 where no order is soon enough, or the job is late whatever is ordered.
    """
    starts = _latest_starts(problem, kept, result, job, evening)
    over = result.of_job(problem, job) <= evening + 1e-6
    days: dict[Order, Floats] = {}
    for n, k in result.late:
        if n not in starts:
            continue
        gap = kept.before[n][k][1]
        assert gap.lead is not None, "what is ordered has a lead time"
        number = np.floor(starts[n] / gap.day + 1e-6)
        last = gap.lead.ordered_by_of(np.maximum(number, -1.0), result.late[n, k])
        days[n, k] = np.where(over, last, -1.0)
    return days


class _Together:
    """Last days of all orders, so that with every one of them on its day each job is handed over in nine cases of ten."""

    def __init__(self, planned: Mapping[Order, int], days: Sequence[Mapping[Order, Floats]], last: int) -> None:
        self.planned, self.days, self.last = planned, days, last
        self.latest = dict(planned)
        low, high = NINE_IN_TEN, 1.0
        for _ in range(HALVINGS):  # orders share what there is to lose alike ...
            middle = (low + high) / 2
            tried = {order: self._held(order, middle, {}) for order in planned}
            if self._enough(tried):
                high, self.latest = middle, tried
            else:
                low = middle
        for order in planned:  # ... and what is left goes to whichever can take it
            self.latest[order] = self._held(order, NINE_IN_TEN, self.latest)

    def _others(self, job: int, order: Order | None, latest: Mapping[Order, int]) -> Floats:
        """Plays in which a job is in time as far as all orders but one go."""
        first = next(iter(self.days[job].values()))
        held = np.ones(first.shape, bool)
        for other, last in self.days[job].items():
            if other != order and other in latest:
                held &= last >= latest[other]
        result: Floats = held.astype(float)
        return result

    def _held(self, order: Order, share: float, latest: Mapping[Order, int]) -> int:
        """Last day of an order that holds every job in such a share of plays, others going out on their days."""
        result = self.last
        for job, days in enumerate(self.days):
            if order in days:
                numbers = np.sort(np.where(self._others(job, order, latest) > 0, days[order], -1.0))[::-1]
                result = min(result, int(numbers[math.ceil(share * len(numbers) - 1e-9) - 1]))
        return max(result, self.planned[order])

    def _enough(self, latest: Mapping[Order, int]) -> bool:
        jobs = (job for job, days in enumerate(self.days) if days)
        return all(float(self._others(job, None, latest).mean()) >= NINE_IN_TEN for job in jobs)

    def chance(self, job: int, order: Order, number: int) -> float:
        """Chance that a job is in time where one order goes out on a day and the others on theirs."""
        held = self._others(job, order, self.latest) > 0
        return float(np.mean(held & (self.days[job][order] >= number)))


def order_by(problem: Problem, kept: Kept, schedule: Schedule, chance: Chance, result: Play) -> tuple[OrderBy, ...]:
    """By when everything with a lead time has to be ordered, the soonest first, and last what is ordered already.

    Parameters
    ----------
    problem : Problem
    kept : Kept
    schedule : Schedule
    chance : Chance
    result : Play
        That the chance comes from.
    """
    calendar = problem.calendar
    goals = [_goal(chance.jobs[work.key]) for work in problem.works]
    days = [order_days(problem, kept, result, job, calendar.evening(goal)) for job, goal in enumerate(goals)]
    planned = {
        (n, k): (schedule.of(problem.tasks[n].waits[k].after).end - 1) // calendar.quarters
        for n, k in result.late
        if schedule.of(problem.tasks[n].waits[k].after).task.done is None
    }
    soonest = {order: max(0, number) for order, number in planned.items()}
    together = _Together(soonest, days, len(calendar.days) - 1)
    rows = [_row(problem, schedule, order) for order in result.late]
    for at, order in enumerate(result.late):
        if order not in planned:
            continue
        job = problem.job[order[0]]
        likely, latest = chance.jobs[problem.works[job].key], together.latest[order]
        later = max(latest, calendar.evening(calendar.days[latest] + LATER) // calendar.quarters - 1)
        held = goals[job] == likely.wanted
        rows[at] = replace(
            rows[at],
            latest=calendar.days[latest],
            goal=goals[job],
            holds=together.chance(job, order, latest),
            later=calendar.days[later],
            later_holds=together.chance(job, order, later),
            wanted=None if held else likely.wanted,
            wanted_holds=0.0 if held else likely.wanted_holds,
        )
    return tuple(sorted(rows, key=lambda row: (row.ordered is not None, row.latest, row.job, row.supplier)))


def _goal(likely: Likely) -> Date:
    """Day of a hand-over that its orders are to hold: the wanted one if nine plays in ten do, else the first that they do."""
    if likely.wanted is not None and likely.wanted_holds >= NINE_IN_TEN:
        return likely.wanted
    return likely.nine_in_ten


def _row(problem: Problem, schedule: Schedule, order: Order) -> OrderBy:
    task, calendar = problem.tasks[order[0]], problem.calendar
    wait, work = task.waits[order[1]], problem.works[problem.job[order[0]]]
    placed = schedule.of(wait.after)
    day = calendar.day_of_end(placed.end)
    comes = calendar.day_of_start(schedule.of(task.key).start)
    return OrderBy(work.name, wait.supplier, day, day, comes, wait.days, placed.task.done, wait.promised, key=work.key)
