"""A programme of dates: the schedule with its proof, what it rests on, and how sure its dates are."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.dates.bounds import earliest_ends
from rodbook.dates.calendars import WorkCalendar
from rodbook.dates.chances import DRAWS, Chance, likely_days, play
from rodbook.dates.model import Done, Finish, Person, Placed, Schedule, Task, Work
from rodbook.dates.ordering import OrderBy, order_by
from rodbook.dates.passes import Slip, kept_order, slack, slips
from rodbook.dates.problem import Problem, make_problem
from rodbook.dates.solver import LATENESS, solve
from rodbook.errors import Message

__all__ = ["Programme", "make_programme", "make_schedule"]

LATE_DAYS = 3
"""Working days by which a delivery is taken to be late where nothing else is asked (house assumption)."""


@dataclass(frozen=True)
class Programme:
    """Dates of one job or of several that share people.

    Parameters
    ----------
    people : tuple of Person
    works : tuple of Work
    calendar : WorkCalendar
    schedule : Schedule
    floats : dict of str to int
        By task, how much later it may end without moving a hand-over from its day. [quarters]
    orders : tuple of OrderBy
    slips : tuple of Slip
    chance : Chance
    remarks : tuple of Message
        What it rests on, and what somebody has to know.
    done : tuple of Done
        What was done before it begins, in the order of days.
    """

    people: tuple[Person, ...]
    works: tuple[Work, ...]
    calendar: WorkCalendar
    schedule: Schedule
    floats: dict[str, int]
    orders: tuple[OrderBy, ...]
    slips: tuple[Slip, ...]
    chance: Chance
    remarks: tuple[Message, ...] = ()
    done: tuple[Done, ...] = ()

    @property
    def to_do(self) -> tuple[Placed, ...]:
        """What is still to be done, by start."""
        return tuple(entry for entry in self.schedule.placed if entry.task.done is None)

    def start_of(self, entry: Placed) -> Date:
        """Day on which a task begins."""
        return self.calendar.day_of_start(entry.start)

    def end_of(self, entry: Placed) -> Date:
        """Day on which a task ends."""
        return self.calendar.day_of_end(entry.end)

    def late_by(self, days: int) -> tuple[Slip, ...]:
        """What moves if one delivery is so many working days late, for each delivery by itself, the turn being kept."""
        tasks = [entry.task for entry in self.schedule.placed]
        problem = make_problem(tasks, self.people, self.works, self.calendar)
        return slips(problem, kept_order(problem, self.schedule), days)


def make_schedule(
    tasks: Sequence[Task],
    people: Sequence[Person],
    works: Sequence[Work],
    calendar: WorkCalendar,
    *,
    effort: float = 0.3,
    seed: int = 0,
) -> Schedule:
    """The schedule whose jobs end soonest, with its proof or its bound.

    Parameters
    ----------
    tasks : sequence of Task
    people : sequence of Person
    works : sequence of Work
    calendar : WorkCalendar
    effort : float
        How much the search may do, by its own count (see `solve`).
    seed : int

    Raises
    ------
    InputError
        With every fault in what is to be planned.
    Infeasible
        If it does not fit into the calendar.
    """
    return _schedule(make_problem(tasks, people, works, calendar), effort, seed)


def _schedule(problem: Problem, effort: float, seed: int) -> Schedule:
    solved = solve(problem, effort=effort, seed=seed)
    answer, calendar = solved.answer, problem.calendar
    placed = [
        Placed(task, start, start + task.quarters, tuple(problem.people[p].name for p in who))
        for task, start, who in zip(problem.tasks, answer.starts, answer.people, strict=True)
    ]
    placed.sort(key=lambda entry: (entry.start, entry.end, problem.tasks.index(entry.task)))
    ends = problem.ends(answer.ends(problem))
    alone = earliest_ends(problem)
    if len(ends) == 1:  # what was made least is this job's end, with its lateness: the bound says how early that can be
        alone = [max(alone[0], _end_of_cost(solved.bound, problem.due[0]))]
    finishes = tuple(
        Finish(
            work,
            end,
            calendar.day_of_end(end),
            calendar.day_of_end(least),
            0 if due is None else max(0, -(-(end - due) // calendar.quarters)),
        )
        for work, end, least, due in zip(problem.works, ends, alone, problem.due, strict=True)
    )
    gap = (solved.cost - solved.bound) / calendar.quarters / len(finishes)
    return Schedule(tuple(placed), finishes, solved.proven, solved.cost, solved.bound, gap)


def _end_of_cost(cost: int, due: int | None) -> int:
    """The end of a single job that costs so much. [quarters]"""
    if due is None or cost <= due:
        return cost
    return due + -(-(cost - due) // (1 + LATENESS))


def make_programme(
    tasks: Sequence[Task],
    people: Sequence[Person],
    works: Sequence[Work],
    calendar: WorkCalendar,
    *,
    effort: float = 0.3,
    seed: int = 0,
    draws: int = DRAWS,
    late_days: int = LATE_DAYS,
    remarks: Sequence[Message] = (),
    on_stage: Callable[[str, int, int], None] | None = None,
) -> Programme:
    """Plan dates: the schedule, by when to order, what a late delivery moves, and which days hold how surely.

    Parameters
    ----------
    tasks : sequence of Task
    people : sequence of Person
    works : sequence of Work
    calendar : WorkCalendar
    effort : float
        How much the search may do, by its own count (see `solve`).
    seed : int
        Of search and simulation.
    draws : int
        Times that the schedule is played through.
    late_days : int
        By how many working days a delivery is late in `Programme.slips`.
    remarks : sequence of Message
    on_stage : callable, optional
        Told what is being worked out, how many steps are done, and how many there are.

    Raises
    ------
    InputError
        With every fault in what is to be planned.
    Infeasible
        If it does not fit into the calendar.
    """
    tell = on_stage or (lambda _what, _done, _steps: None)
    problem = make_problem(tasks, people, works, calendar)
    tell("who does what when", 1, 3)
    schedule = _schedule(problem, effort, seed)
    tell("which dates hold", 2, 3)
    kept = kept_order(problem, schedule)
    result = play(problem, kept, draws=draws, seed=seed)
    chance = likely_days(problem, schedule, result, seed=seed)
    return Programme(
        problem.people,
        problem.works,
        calendar,
        schedule,
        slack(problem, kept, schedule),
        order_by(problem, kept, schedule, chance, result),
        slips(problem, kept, late_days),
        chance,
        tuple(remarks),
    )
