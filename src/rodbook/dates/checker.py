"""Whether a schedule keeps to everything that was asked; shares no code with what makes schedules.

Goes by the clock and by single quarters of an hour instead of by formulas.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date as Date  # noqa: N812
from datetime import timedelta

from rodbook.dates.calendars import WorkCalendar
from rodbook.dates.model import Person, Placed, Schedule, Task, Wait, Work

__all__ = ["breaches"]


def breaches(
    schedule: Schedule, tasks: Sequence[Task], people: Sequence[Person], works: Sequence[Work], calendar: WorkCalendar
) -> tuple[str, ...]:
    """Everything in which a schedule does not keep to what was asked, in words; nothing where it does.

    Parameters
    ----------
    schedule : Schedule
    tasks : sequence of Task
    people : sequence of Person
    works : sequence of Work
    calendar : WorkCalendar
    """
    by_key = {entry.task.key: entry for entry in schedule.placed}
    results: list[str] = []
    if sorted(by_key) != sorted(task.key for task in tasks) or len(by_key) != len(schedule.placed):
        results.append("not every task is placed once")
        return tuple(results)
    for task in tasks:
        results += _of_one(by_key[task.key], task, works, calendar)
        for wait in task.waits:
            results += _of_wait(by_key[task.key], by_key[wait.after], wait, calendar)
    results += _of_people(schedule, people, calendar)
    results += _of_places(schedule)
    results += _of_finishes(schedule, works, calendar)
    return tuple(results)


def _of_one(entry: Placed, task: Task, works: Sequence[Work], calendar: WorkCalendar) -> Iterator[str]:
    if entry.end - entry.start != task.quarters:
        yield f"{task.key} takes {entry.end - entry.start} quarters instead of {task.quarters}"
    if entry.start < 0 or entry.end > calendar.length:
        yield f"{task.key} lies outside the calendar"
    hands = task.hands if task.quarters else 0
    if len(set(entry.people)) != hands:
        yield f"{task.key} has {len(set(entry.people))} people instead of {hands}"
    earliest = next(work.earliest for work in works if work.key == task.job)
    if earliest and calendar.starts_at(entry.start).date() < earliest:
        yield f"{task.key} begins before {earliest}"
    if task.not_before and calendar.starts_at(entry.start).date() < task.not_before:
        yield f"{task.key} begins before {task.not_before}"


def _of_wait(entry: Placed, before: Placed, wait: Wait, calendar: WorkCalendar) -> Iterator[str]:
    text = f"{entry.task.key} does not wait for {before.task.key}"
    if entry.start - before.end < wait.working:
        yield f"{text}: {wait.working} quarters"
    if wait.days:
        ended, begins = calendar.ends_at(before.end).date(), calendar.starts_at(entry.start).date()
        if _worked(ended, begins, wait, calendar) < wait.days:
            yield f"{text}: {wait.days} mornings"
    passed = calendar.starts_at(entry.start) - calendar.ends_at(before.end)
    if passed < timedelta(hours=wait.drying):
        yield f"{text}: {wait.drying} hours of drying"


def _worked(ended: Date, begins: Date, wait: Wait, calendar: WorkCalendar) -> int:
    """Days after one day, up to another, on which the supplier, or else the firm, works."""
    count, day = 0, ended
    while day < begins:
        day += timedelta(days=1)
        if wait.open is None:
            count += day in calendar.days
        else:
            off = day in wait.open.holidays or any(one.first <= day <= one.last for one in wait.open.closed)
            count += day.weekday() in wait.open.weekdays and not off
    return count


def _of_people(schedule: Schedule, people: Sequence[Person], calendar: WorkCalendar) -> Iterator[str]:
    for person in people:
        taken: dict[int, str] = {}
        for entry in schedule.by_person(person.name):
            if not person.does(entry.task.trade):
                yield f"{person.name} does not do {entry.task.trade}, which {entry.task.key} is"
            for quarter in range(entry.start, entry.end):
                if quarter in taken:
                    yield f"{person.name} does {taken[quarter]} and {entry.task.key} at once"
                    break
                taken[quarter] = entry.task.key
        days = {calendar.days[quarter // calendar.quarters] for quarter in taken}
        for absence in person.off:
            if any(absence.first <= day <= absence.last for day in days):
                yield f"{person.name} works on a day off between {absence.first} and {absence.last}"
    known = {person.name for person in people}
    for entry in schedule.placed:
        if not known.issuperset(entry.people):
            yield f"{entry.task.key} is done by somebody who is not in the crew"


def _of_places(schedule: Schedule) -> Iterator[str]:
    taken: dict[tuple[str, int], str] = {}
    for entry in schedule.placed:
        for quarter in range(entry.start, entry.end) if entry.task.place else ():
            other = taken.setdefault((entry.task.place, quarter), entry.task.key)
            if other != entry.task.key:
                yield f"{other} and {entry.task.key} are both in {entry.task.place}"
                break


def _of_finishes(schedule: Schedule, works: Sequence[Work], calendar: WorkCalendar) -> Iterator[str]:
    for work in works:
        end = max(entry.end for entry in schedule.placed if entry.task.job == work.key)
        finish = next(finish for finish in schedule.finishes if finish.work == work)
        if finish.end != end or finish.day != calendar.ends_at(end).date():
            yield f"{work.key} is said to end on {finish.day}, and does not"
        if finish.earliest_day > finish.day:
            yield f"{work.key} ends before the earliest day that is said to be possible"
