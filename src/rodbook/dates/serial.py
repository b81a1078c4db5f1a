"""One task after another in a given order, each as soon as its waits, its people and its place allow.

Gives the first answer, closes the holes that a search leaves, and is quick enough to be tried in many orders.
"""

from __future__ import annotations

import heapq
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter

import numpy as np

from rodbook.dates.problem import Problem
from rodbook.errors import Infeasible

__all__ = ["Answer", "first_answer", "in_turn", "latest_starts"]

TRIES = 60
"""Orders that are tried for the first answer (house assumption)."""


@dataclass(frozen=True)
class Answer:
    """Start of each task and the people who do it, by the problem's order. [quarters]"""

    starts: tuple[int, ...]
    people: tuple[tuple[int, ...], ...]

    def ends(self, problem: Problem) -> list[int]:
        """End of each task. [quarters]"""
        return [start + task.quarters for start, task in zip(self.starts, problem.tasks, strict=True)]


type Busy = list[tuple[int, int]]
"""Stretches that are taken, by their start; none overlaps or touches another, so that a full week is one of them."""


def _at(busy: Busy, start: int) -> int:
    """How many stretches begin at that time or before."""
    return bisect_right(busy, start, key=itemgetter(0))


def _clear(busy: Busy, start: int, end: int) -> int:
    """`start` where the stretch is free, else the end of the first thing in the way."""
    n = _at(busy, start)
    if n and busy[n - 1][1] > start:
        return busy[n - 1][1]
    if n < len(busy) and busy[n][0] < end:
        return busy[n][1]
    return start


def _take(busy: Busy, start: int, end: int) -> None:
    """Take a stretch that is free, and join it to what it touches."""
    n = _at(busy, start)
    first, last = n, n
    if n and busy[n - 1][1] == start:
        first, start = n - 1, busy[n - 1][0]
    if n < len(busy) and busy[n][0] == end:
        last, end = n + 1, busy[n][1]
    busy[first:last] = [(start, end)]


def _last_end(busy: Busy, start: int) -> int:
    """End of what somebody did before a time at which they are free; -1 for nothing."""
    n = _at(busy, start)
    return busy[n - 1][1] if n else -1


def _free_people(
    able: Sequence[int], busy: list[Busy], start: int, quarters: int, hands: int
) -> tuple[tuple[int, ...] | None, int]:
    """People who are free for the whole stretch, else the next time at which somebody more may be."""
    free: list[int] = []
    later: list[int] = []
    for person in able:
        clear = _clear(busy[person], start, start + quarters)
        if clear == start:
            free.append(person)
        else:
            later.append(clear)
    if len(free) >= hands:
        # Whoever was busy last goes on: the others keep longer stretches free.
        free.sort(key=lambda p: (-_last_end(busy[p], start), p))
        return tuple(sorted(free[:hands])), start
    return None, min(later)


def in_turn(problem: Problem, order: Sequence[int], people: Sequence[tuple[int, ...]] | None = None) -> Answer:
    """Place tasks one after another, each as early as it goes.

    Parameters
    ----------
    problem : Problem
    order : sequence of int
        All tasks, each after what it waits for.
    people : sequence of tuple of int, optional
        Who does each task; chosen among those who can where left out.

    Raises
    ------
    Infeasible
        If a task comes to lie beyond the calendar's end.
    """
    count = len(problem.tasks)
    starts = [0] * count
    chosen: list[tuple[int, ...]] = [()] * count if people is None else list(people)
    busy: list[Busy] = [list(blocks) for blocks in problem.blocks]
    places: dict[str, Busy] = {}
    for n in order:
        task = problem.tasks[n]
        start = problem.release[n]
        for p, gap in problem.before[n]:
            start = max(start, gap.earliest(starts[p] + problem.tasks[p].quarters))
        room = places.setdefault(task.place, []) if task.place else []
        while True:
            if start + task.quarters > problem.calendar.length:
                raise Infeasible(
                    "dates.ends_after_calendar",
                    task=task.name,
                    calendar_ends=problem.calendar.days[-1],
                    items=[task.key],
                )
            if not task.quarters:
                results: tuple[int, ...] | None = ()
                break
            clear = _clear(room, start, start + task.quarters)
            if clear > start:
                start = clear
                continue
            able = problem.able[n] if people is None else people[n]
            results, start = _free_people(able, busy, start, task.quarters, task.hands if people is None else len(able))
            if results is not None:
                break
        assert results is not None, "the loop is left with people, or with nobody where nobody is needed"
        starts[n], chosen[n] = start, results
        for person in results:
            _take(busy[person], start, start + task.quarters)
        if task.place and task.quarters:
            _take(room, start, start + task.quarters)
    return Answer(tuple(starts), tuple(chosen))


def latest_starts(problem: Problem) -> list[int]:
    """Last start of each task that keeps its job's shortest end, were there people enough: a backward pass. [quarters]"""
    early = problem.earliest()
    ends = problem.ends(start + task.quarters for start, task in zip(early, problem.tasks, strict=True))
    followers = problem.followers()
    result = [0] * len(problem.tasks)
    for n in range(len(problem.tasks) - 1, -1, -1):
        last = min((gap.latest(result[f]) for f, gap in followers[n]), default=ends[problem.job[n]])
        due = problem.due[problem.job[n]]
        slack = 0 if due is None else due - ends[problem.job[n]]
        result[n] = last - problem.tasks[n].quarters + (slack if not followers[n] else 0)
    return result


def _by_priority(problem: Problem, priority: Sequence[float]) -> list[int]:
    """An order in which each task comes after what it waits for, the smallest number first."""
    left = [len(before) for before in problem.before]
    followers = problem.followers()
    ready = [(priority[n], n) for n, count in enumerate(left) if not count]
    heapq.heapify(ready)
    results: list[int] = []
    while ready:
        _, n = heapq.heappop(ready)
        results.append(n)
        for f, _gap in followers[n]:
            left[f] -= 1
            if not left[f]:
                heapq.heappush(ready, (priority[f], f))
    return results


def first_answer(problem: Problem, *, lateness: int, seed: int, tries: int = TRIES) -> Answer:
    """The best of several orders: by what may wait least, with chance mixed in.

    Parameters
    ----------
    problem : Problem
    lateness : int
        What a quarter of being late weighs.
    seed : int
    tries : int

    Raises
    ------
    Infeasible
        If no order keeps within the calendar.
    """
    draw = np.random.default_rng(seed)
    late = np.array(latest_starts(problem), dtype=float)
    jobs = np.array(problem.job)
    spread = max(1.0, float(np.ptp(late)))
    best: Answer | None = None
    least = 0
    failed: Infeasible | None = None
    for n in range(tries):
        # The first order is without chance; every second one lets whole jobs go before others.
        shift = draw.random(len(problem.works))[jobs] * (n % 2) + 0.15 * draw.random(len(late)) * (n > 0)
        try:
            answer = in_turn(problem, _by_priority(problem, list(late + spread * shift)))
        except Infeasible as error:
            failed = error
            continue
        cost = problem.cost(answer.ends(problem), lateness)
        if best is None or cost < least:
            best, least = answer, cost
    if best is None:
        assert failed is not None, "an order that fails says why"
        raise failed
    return best
