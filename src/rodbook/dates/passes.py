"""What can be later without moving a hand-over, and what a late delivery moves, were every task to take its planned time.

All of it keeps to the schedule: the same people, in the same turn. Somebody who plans anew may do better.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.dates.model import Schedule
from rodbook.dates.problem import Problem
from rodbook.dates.waits import Gap, clock_of

__all__ = ["Kept", "Slip", "forward", "kept_order", "slack", "slips"]


@dataclass(frozen=True)
class Kept:
    """A schedule's turn: every task with what it waits for, people and places included, by start.

    Parameters
    ----------
    order : tuple of int
        All tasks, each after what it waits for.
    before : tuple of tuple of (int, Gap)
        What each waits for of its own comes first, in the order of its waits.
    blocks : tuple of tuple of (int, int)
        For each task the days off of those who do it.
    ends : tuple of int
        Of each task by the schedule. [quarters]
    """

    order: tuple[int, ...]
    before: tuple[tuple[tuple[int, Gap], ...], ...]
    blocks: tuple[tuple[tuple[int, int], ...], ...]
    ends: tuple[int, ...]


def kept_order(problem: Problem, schedule: Schedule) -> Kept:
    """What follows on what when a schedule's people and its turn are kept."""
    placed = [schedule.of(task.key) for task in problem.tasks]
    order = sorted(range(len(placed)), key=lambda n: (placed[n].start, n))
    gap = Gap(clock_of(problem.calendar))
    waits = [list(before) for before in problem.before]
    last: dict[tuple[str, str], int] = {}
    for n in order:
        task = problem.tasks[n]
        if not task.quarters:
            continue
        for holder in [("person", name) for name in placed[n].people] + [("place", task.place)] * bool(task.place):
            if holder in last:
                waits[n].append((last[holder], gap))
            last[holder] = n
    names = {person.name: blocks for person, blocks in zip(problem.people, problem.blocks, strict=True)}
    blocks = tuple(tuple(sorted(b for name in entry.people for b in names[name])) for entry in placed)
    return Kept(tuple(order), tuple(tuple(w) for w in waits), blocks, tuple(entry.end for entry in placed))


def forward(problem: Problem, kept: Kept, late_days: Mapping[str, int] | None = None) -> list[int]:
    """Start of each task as early as it goes in that turn. [quarters]

    Parameters
    ----------
    problem : Problem
    kept : Kept
    late_days : mapping of str to int, optional
        By how many working days of the supplier the deliveries of tasks are late.
    """
    late = late_days or {}
    starts = [0] * len(problem.tasks)
    for n in kept.order:
        task = problem.tasks[n]
        start = problem.release[n]
        for k, (p, gap) in enumerate(kept.before[n]):
            delivered = k < len(task.waits) and bool(task.waits[k].supplier)
            days = late.get(task.key, 0) if delivered else 0
            start = max(start, gap.earliest(starts[p] + problem.tasks[p].quarters, days))
        for first, last in kept.blocks[n]:
            if start < last and start + task.quarters > first:
                start = last
        starts[n] = start
    return starts


def slack(problem: Problem, kept: Kept, schedule: Schedule) -> dict[str, int]:
    """How much later each task may end without moving any hand-over beyond its day. [quarters]

    Parameters
    ----------
    problem : Problem
    kept : Kept
    schedule : Schedule
    """
    ends = [finish.end for finish in schedule.finishes]
    limit = [
        max(end, due or 0, problem.calendar.evening(finish.day))
        for end, due, finish in zip(ends, problem.due, schedule.finishes, strict=True)
    ]
    followers: list[list[tuple[int, Gap]]] = [[] for _ in problem.tasks]
    for n, waits in enumerate(kept.before):
        for p, gap in waits:
            followers[p].append((n, gap))
    begin = [0] * len(problem.tasks)
    results: dict[str, int] = {}
    for n in reversed(kept.order):
        task = problem.tasks[n]
        end = min((gap.latest(begin[f]) for f, gap in followers[n]), default=limit[problem.job[n]])
        end = min(end, limit[problem.job[n]])
        begin[n] = end - task.quarters
        for first, last in reversed(kept.blocks[n]):
            if begin[n] < last and begin[n] + task.quarters > first:
                begin[n] = first - task.quarters
        results[task.key] = begin[n] + task.quarters - schedule.of(task.key).end
    return results


@dataclass(frozen=True)
class Slip:
    """What one late delivery moves.

    Parameters
    ----------
    job, supplier : str
        Whose delivery, and from whom.
    late_days : int
        Working days.
    moved : int
        How many tasks come later.
    hand_overs : tuple of (str, date, date)
        Jobs whose hand-over moves to another day: name, day as planned, day then.
    """

    job: str
    supplier: str
    late_days: int
    moved: int
    hand_overs: tuple[tuple[str, Date, Date], ...]


def slips(problem: Problem, kept: Kept, late_days: int) -> tuple[Slip, ...]:
    """What moves if one delivery is late, for each delivery by itself.

    Parameters
    ----------
    problem : Problem
    kept : Kept
    late_days : int
        Working days.
    """
    calendar = problem.calendar
    quarters = [task.quarters for task in problem.tasks]
    usual = forward(problem, kept)
    ends = problem.ends(_added(usual, quarters))
    results: list[Slip] = []
    for task in problem.tasks:
        for wait in task.waits:
            if not wait.supplier:
                continue
            then = forward(problem, kept, {task.key: late_days})
            then_ends = problem.ends(_added(then, quarters))
            moved = sum(a != b for a, b in zip(usual, then, strict=True))
            days = [
                (work.name, calendar.day_of_end(a), calendar.day_of_end(b))
                for work, a, b in zip(problem.works, ends, then_ends, strict=True)
            ]
            job = next(work.name for work in problem.works if work.key == task.job)
            results.append(Slip(job, wait.supplier, late_days, moved, tuple(row for row in days if row[1] != row[2])))
    return tuple(results)


def _added(starts: Sequence[int], quarters: Sequence[int]) -> list[int]:
    return [a + b for a, b in zip(starts, quarters, strict=True)]
