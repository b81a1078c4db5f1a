"""What can be later without moving a hand-over, by when things have to be ordered, and what a late delivery moves.

All of it keeps to the schedule: the same people, in the same turn. Somebody who plans anew may do better.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.dates.model import Schedule
from rodbook.dates.problem import Problem
from rodbook.dates.waits import Gap

__all__ = ["Kept", "OrderBy", "Slip", "forward", "kept_order", "order_by", "slack", "slips"]


@dataclass(frozen=True)
class Kept:
    """A schedule's turn: every task with what it waits for, people and places included, by start.

    Parameters
    ----------
    order : tuple of int
        All tasks, each after what it waits for.
    before : tuple of tuple of (int, Gap)
    blocks : tuple of tuple of (int, int)
        For each task the days off of those who do it.
    """

    order: tuple[int, ...]
    before: tuple[tuple[tuple[int, Gap], ...], ...]
    blocks: tuple[tuple[tuple[int, int], ...], ...]


def kept_order(problem: Problem, schedule: Schedule) -> Kept:
    """What follows on what when a schedule's people and its turn are kept."""
    placed = [schedule.of(task.key) for task in problem.tasks]
    order = sorted(range(len(placed)), key=lambda n: (placed[n].start, n))
    gap = Gap(0, 0, 0, 0, problem.calendar.quarters)
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
    return Kept(tuple(order), tuple(tuple(w) for w in waits), blocks)


def forward(problem: Problem, kept: Kept, late_days: Mapping[str, int] | None = None) -> list[int]:
    """Start of each task as early as it goes in that turn. [quarters]

    Parameters
    ----------
    problem : Problem
    kept : Kept
    late_days : mapping of str to int, optional
        By how many working days the deliveries of tasks are late.
    """
    late = late_days or {}
    starts = [0] * len(problem.tasks)
    for n in kept.order:
        task = problem.tasks[n]
        start = problem.release[n]
        for p, gap in kept.before[n]:
            start = max(start, gap.earliest(starts[p] + problem.tasks[p].quarters))
        start += late.get(task.key, 0) * problem.calendar.quarters
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
    found: dict[str, int] = {}
    for n in reversed(kept.order):
        task = problem.tasks[n]
        end = min((gap.latest(begin[f]) for f, gap in followers[n]), default=limit[problem.job[n]])
        end = min(end, limit[problem.job[n]])
        begin[n] = end - task.quarters
        for first, last in reversed(kept.blocks[n]):
            if begin[n] < last and begin[n] + task.quarters > first:
                begin[n] = first - task.quarters
        found[task.key] = begin[n] + task.quarters - schedule.of(task.key).end
    return found


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
        Last day on which an order keeps every hand-over to its day.
    delivered : date
        When it comes by the schedule.
    lead_days : int
        Working days, as promised; where it is ordered, those that are left.
    ordered : date, optional
        Day on which it was ordered already: `planned` and `latest` then say nothing.
    promised : date, optional
        Day for which it was then promised, where one was named.
    """

    job: str
    supplier: str
    planned: Date
    latest: Date
    delivered: Date
    lead_days: int
    ordered: Date | None = None
    promised: Date | None = None


def order_by(problem: Problem, kept: Kept, schedule: Schedule) -> tuple[OrderBy, ...]:
    """By when everything with a lead time has to be ordered, the soonest first, and last what is ordered already."""
    floats = slack(problem, kept, schedule)
    calendar = problem.calendar
    found: list[OrderBy] = []
    for task in problem.tasks:
        for wait in task.waits:
            if not wait.supplier:
                continue
            order, comes = schedule.of(wait.after), schedule.of(task.key)
            job = next(work.name for work in problem.works if work.key == task.job)
            found.append(
                OrderBy(
                    job, wait.supplier, calendar.day_of_end(order.end),
                    calendar.day_of_end(order.end + floats[wait.after]), calendar.day_of_start(comes.start), wait.days,
                    order.task.done, wait.promised,
                )
            )  # fmt: skip
    return tuple(sorted(found, key=lambda row: (row.ordered is not None, row.latest, row.job, row.supplier)))


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

    @property
    def sentence(self) -> str:
        """What it moves, in words."""
        days = f"{self.late_days} working day{'' if self.late_days == 1 else 's'}"
        whose = f"If {self.supplier} delivers to {self.job} {days} late"
        if not self.moved:
            return f"{whose}, nothing moves."
        tasks = "one task comes" if self.moved == 1 else f"{self.moved} tasks come"
        if not self.hand_overs:
            return f"{whose}, {tasks} later and every hand-over keeps its day."
        told = ", ".join(f"{name} from {_said(a)} to {_said(b)}" for name, a, b in self.hand_overs)
        return f"{whose}, {tasks} later and hand-over moves: {told}."


def _said(day: Date) -> str:
    return f"{day.day} {day:%B}"


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
    found: list[Slip] = []
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
            found.append(Slip(job, wait.supplier, late_days, moved, tuple(row for row in days if row[1] != row[2])))
    return tuple(found)


def _added(starts: Sequence[int], quarters: Sequence[int]) -> list[int]:
    return [a + b for a, b in zip(starts, quarters, strict=True)]
