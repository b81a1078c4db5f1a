"""Tasks, people and calendar put into numbers once, for everything that searches, passes or draws."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rodbook.dates.calendars import WorkCalendar, blocks_of
from rodbook.dates.checks import check_programme, in_order
from rodbook.dates.model import Person, Task, Work
from rodbook.dates.waits import Gap, gap_of
from rodbook.errors import InputError

__all__ = ["Problem", "make_problem"]

type Blocks = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Problem:
    """What is to be planned, in quarters; tasks are counted in an order in which each comes after what it waits for.

    Parameters
    ----------
    tasks : tuple of Task
    people : tuple of Person
    works : tuple of Work
    calendar : WorkCalendar
    before : tuple of tuple of (int, Gap)
        For each task what it waits for.
    release : tuple of int
        For each task the first quarter with which it can begin: of its job, or of its own.
    blocks : tuple of tuple of (int, int)
        For each person the days off.
    able : tuple of tuple of int
        For each task the people who can do it.
    due : tuple of int or None
        For each job the quarter by which it is wanted.
    job : tuple of int
        For each task its job.
    """

    tasks: tuple[Task, ...]
    people: tuple[Person, ...]
    works: tuple[Work, ...]
    calendar: WorkCalendar
    before: tuple[tuple[tuple[int, Gap], ...], ...]
    release: tuple[int, ...]
    blocks: tuple[Blocks, ...]
    able: tuple[tuple[int, ...], ...]
    due: tuple[int | None, ...]
    job: tuple[int, ...]

    def earliest(self) -> list[int]:
        """First start of each task if there were people enough: a forward pass. [quarters]"""
        results: list[int] = []
        for n in range(len(self.tasks)):
            arrivals = (gap.earliest(results[p] + self.tasks[p].quarters) for p, gap in self.before[n])
            results.append(max(arrivals, default=0))
            results[n] = max(results[n], self.release[n])
        return results

    def followers(self) -> list[list[tuple[int, Gap]]]:
        """For each task what waits for it."""
        results: list[list[tuple[int, Gap]]] = [[] for _ in self.tasks]
        for n, waits in enumerate(self.before):
            for p, gap in waits:
                results[p].append((n, gap))
        return results

    def ends(self, finishes: Iterable[int]) -> list[int]:
        """When each job ends if its tasks end then. [quarters]"""
        result = [0] * len(self.works)
        for n, end in enumerate(finishes):
            result[self.job[n]] = max(result[self.job[n]], end)
        return result

    def cost(self, finishes: Iterable[int], lateness: int) -> int:
        """Ends of all jobs, and `lateness` times what is late, added up. [quarters]"""
        ends = self.ends(finishes)
        late = (max(0, end - due) for end, due in zip(ends, self.due, strict=True) if due is not None)
        return sum(ends) + lateness * sum(late)


def make_problem(
    tasks: Sequence[Task], people: Sequence[Person], works: Sequence[Work], calendar: WorkCalendar
) -> Problem:
    """Put into numbers what is to be planned.

    Parameters
    ----------
    tasks : sequence of Task
    people : sequence of Person
    works : sequence of Work
    calendar : WorkCalendar

    Raises
    ------
    InputError
        With every fault.
    """
    faults = check_programme(tasks, people, works, calendar)
    if faults:
        raise InputError(faults)
    ordered = in_order(tasks)
    index = {task.key: n for n, task in enumerate(ordered)}
    jobs = {work.key: n for n, work in enumerate(works)}
    blocks = blocks_of(people, calendar)
    release = [calendar.morning(work.earliest) if work.earliest else 0 for work in works]
    return Problem(
        ordered,
        tuple(people),
        tuple(works),
        calendar,
        tuple(tuple((index[wait.after], gap_of(wait, calendar)) for wait in task.waits) for task in ordered),
        tuple(
            max(release[jobs[task.job]], calendar.morning(task.not_before) if task.not_before else 0)
            for task in ordered
        ),
        tuple(blocks[person.name] for person in people),
        tuple(tuple(n for n, person in enumerate(people) if person.does(task.trade)) for task in ordered),
        tuple(calendar.evening(work.due) if work.due else None for work in works),
        tuple(jobs[task.job] for task in ordered),
    )
