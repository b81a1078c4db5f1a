"""What is wrong with tasks and people before anything is planned: every fault at once."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from graphlib import CycleError, TopologicalSorter

from rodbook.dates.calendars import WorkCalendar, absence_faults
from rodbook.dates.model import Person, Task, Work
from rodbook.errors import Fault, InputError, Message, Place

__all__ = ["check_programme", "crew_faults", "in_order"]


def in_order(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Tasks so that each comes after what it waits for, those given first coming first.

    Raises
    ------
    InputError
        If some wait for each other in a circle.
    """
    faults = list(_circles(tasks))
    if faults:
        raise InputError(faults)
    left = {task.key: sum(1 for _ in task.waits) for task in tasks}
    followers: dict[str, list[Task]] = {task.key: [] for task in tasks}
    for task in tasks:
        for wait in task.waits:
            followers[wait.after].append(task)
    ready = [task for task in tasks if not task.waits]
    results: list[Task] = []
    for task in ready:  # grows as it is gone through
        results.append(task)
        for follower in followers[task.key]:
            left[follower.key] -= 1
            if not left[follower.key]:
                ready.append(follower)
    return tuple(results)


def _circles(tasks: Sequence[Task]) -> Iterator[Fault]:
    """A fault for each circle; one task of a circle that was named is then taken to wait for nothing."""
    names = {task.key: task.name for task in tasks}
    waits = {task.key: {wait.after for wait in task.waits if wait.after in names} for task in tasks}
    while True:
        try:
            TopologicalSorter(waits).prepare()
        except CycleError as error:
            circle: list[str] = error.args[1]
            lines = [names[key] for key in reversed(circle)]
            yield Fault(("tasks", names[circle[0]]), "dates.circle_of_tasks", tasks=lines)
            waits[circle[0]] = set()
        else:
            return


def crew_faults(people: Sequence[Person]) -> Iterator[Fault]:
    """What is wrong with a crew by itself."""
    if not people:
        yield Fault("crew", "dates.nobody_works")
    for name, count in Counter(person.name for person in people).items():
        if not name.strip():
            yield Fault("crew", "dates.person_without_name")
        elif count > 1:
            yield Fault("crew", "dates.person_twice", name=name, count=count)
    for person in people:
        yield from absence_faults(f"days off of {person.name!r}", person.off)


def _wait_faults(task: Task, names: Mapping[str, str]) -> Iterator[Fault]:
    where = Place(("tasks", task.name))
    for wait in task.waits:
        if wait.after not in names:
            yield Fault(where, "dates.waits_for_no_task", after=wait.after)
        shown = names.get(wait.after, wait.after)
        if wait.working < 0 or wait.days < 0 or not (math.isfinite(wait.drying) and wait.drying >= 0):
            yield Fault(where, "dates.wait_below_zero", after=shown)


def _task_faults(task: Task, people: Sequence[Person], calendar: WorkCalendar) -> Iterator[Fault]:
    where = Place(("tasks", task.name))
    hours, longest = task.quarters / 4, calendar.length / 4
    if task.quarters < 0:
        yield Fault(where, "dates.task_below_zero", hours=hours)
    elif task.quarters > calendar.length:
        yield Fault(
            where, "dates.task_longer_than_calendar", hours=hours, calendar_hours=longest, days=len(calendar.days)
        )
    if task.not_before is not None and task.not_before > calendar.days[-1]:
        yield Fault(where, "dates.begins_after_calendar", begins=task.not_before, calendar_ends=calendar.days[-1])
    if task.done is not None and task.quarters:
        yield Fault(where, "dates.done_task_takes_hours", done=task.done, hours=hours)
    if task.hands < 0:
        yield Fault(where, "dates.hands_below_zero", people=task.hands)
    if task.spread < 1:
        yield Fault(where, "dates.spread_below_one", spread=task.spread)
    able = sum(person.does(task.trade) for person in people)
    if people and task.hands > able:
        trade = Message("dates.who_do", trade=task.trade) if task.trade else None
        yield Fault(where, "dates.more_hands_than_crew", people=task.hands, trade=trade, crew=able)


def _work_faults(works: Sequence[Work], tasks: Sequence[Task], calendar: WorkCalendar) -> Iterator[Fault]:
    keys = Counter(work.key for work in works)
    for key, count in keys.items():
        if count > 1:
            yield Fault(("jobs", key), "dates.job_twice", count=count)
    for work in works:
        begins = max(calendar.days[0], work.earliest or calendar.days[0])
        if work.due is not None and work.due < begins:
            yield Fault(("jobs", work.name), "dates.due_before_begin", due=work.due, begins=begins)
        if work.earliest is not None and work.earliest > calendar.days[-1]:
            yield Fault(
                ("jobs", work.name),
                "dates.begins_after_calendar",
                begins=work.earliest,
                calendar_ends=calendar.days[-1],
            )
        if not any(task.job == work.key for task in tasks):
            yield Fault(("jobs", work.name), "dates.job_without_tasks")
    for job in dict.fromkeys(task.job for task in tasks):
        if job not in keys:
            yield Fault(("jobs", job), "dates.job_of_tasks_missing")


def check_programme(
    tasks: Sequence[Task], people: Sequence[Person], works: Sequence[Work], calendar: WorkCalendar
) -> tuple[Fault, ...]:
    """Every fault in what is to be planned.

    Parameters
    ----------
    tasks : sequence of Task
    people : sequence of Person
    works : sequence of Work
    calendar : WorkCalendar
    """
    names = {task.key: task.name for task in tasks}
    faults = [*crew_faults(people), *_work_faults(works, tasks, calendar)]
    for key, count in Counter(task.key for task in tasks).items():
        if count > 1:
            faults.append(Fault(("tasks", names[key]), "dates.key_twice", count=count, key=key))
    for task in tasks:
        faults += _task_faults(task, people, calendar)
        faults += _wait_faults(task, names)
    faults += _circles(tasks)
    return tuple(faults)
