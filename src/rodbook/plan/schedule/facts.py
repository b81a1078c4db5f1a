"""What of a job is done, ordered or come already: its tasks without that, and what is left of every wait after it.

A day stands for its evening where something dries or is delivered after it, and for nothing else: what was done today leaves
the rest of today. What comes before something that is done is taken as done too, whatever is said of it; only turns that
somebody asked for besides are not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import timedelta

from rodbook.dates import Done, OpenDays, Task, Wait, WorkCalendar
from rodbook.dates.checks import in_order
from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job import Job
from rodbook.job.dates import OrderTerms
from rodbook.plan.schedule.tasks import JobTasks, NamedTask

__all__ = ["Opened", "Settled", "done_names", "settled", "suppliers_of"]

type Opened = Callable[[str], OpenDays]
"""The days on which a supplier works, by its name."""


@dataclass(frozen=True)
class Settled:
    """A job's tasks as they stand.

    Parameters
    ----------
    tasks : tuple of Task
        That are left; an order that is placed stays among them and takes no time, until it has come.
    done : tuple of Done
        In the order of days.
    remarks : tuple of Message
    """

    tasks: tuple[Task, ...]
    done: tuple[Done, ...]
    remarks: tuple[Message, ...]


@dataclass(frozen=True)
class _Order:
    """An order of a job: the task that places it, and the one that takes it in."""

    place: NamedTask
    take_in: NamedTask
    days: int


def _orders(result: JobTasks) -> dict[str, _Order]:
    named = {key: one for one in result.named for key in one.keys}
    return {
        wait.supplier: _Order(named[wait.after], named[task.key], wait.days)
        for task in result.tasks
        for wait in task.waits
        if wait.supplier
    }


def _said(result: JobTasks, job: Job, orders: Mapping[str, _Order], now: Date) -> tuple[dict[str, Date], list[Fault]]:
    """Day on which each task was done of which that is said, by name; and what is wrong with those days."""
    names = {one.name for one in result.named}
    values = {terms.name: terms.done for terms in job.dates.tasks if terms.done and terms.name in names}
    faults: list[Fault] = []
    for terms in job.dates.orders:
        order = orders.get(terms.supplier)
        if order is None:
            continue
        for task, day in ((order.place, terms.ordered), (order.take_in, terms.came)):
            if day is None:
                continue
            if values.setdefault(task.name, day) != day:
                faults.append(
                    Fault(_place(job, task.name), "plan.done_on_two_days", first=values[task.name], other=day)
                )
    for name, day in values.items():
        if day > now:
            faults.append(Fault(_place(job, name), "plan.done_still_to_come", day=day, today=now))
    return values, faults


def _place(job: Job, name: str) -> Place:
    return Place(("jobs", job.job.name, "tasks", name))


def _before(result: JobTasks, job: Job) -> dict[str, list[str]]:
    """Names of the tasks that each task waits for, without the turns that were asked for besides."""
    named = {key: one.name for one in result.named for key in one.keys}
    asked = {(terms.name, after) for terms in job.dates.tasks for after in terms.after}
    before: dict[str, list[str]] = {one.name: [] for one in result.named}
    for task in result.tasks:
        for wait in task.waits:
            name, after = named[task.key], named[wait.after]
            if name != after and (name, after) not in asked:
                before[name].append(after)
    return before


def _out_of_turn(job: Job, texts: Mapping[str, Date], before: Mapping[str, Sequence[str]]) -> list[Fault]:
    """A fault for each task that was done before something that it waits for."""
    latest: dict[str, tuple[Date, str] | None] = {}

    def last_of(name: str) -> tuple[Date, str] | None:
        """The last day said of a task and of all before it, and of which of them."""
        if name not in latest:
            latest[name] = None  # a circle is told elsewhere
            days = [result for other in before[name] if (result := last_of(other)) is not None]
            own = [(texts[name], name)] if name in texts else []
            latest[name] = max([*days, *own], default=None)
        return latest[name]

    faults: list[Fault] = []
    for name, day in texts.items():
        others = [result for other in before[name] if (result := last_of(other)) is not None]
        last = max(others, default=None)
        if last is not None and last[0] > day:
            faults.append(Fault(_place(job, name), "plan.done_out_of_turn", day=day, before=last[1], other=last[0]))
    return faults


def _all_done(texts: Mapping[str, Date], before: Mapping[str, Sequence[str]]) -> dict[str, Date]:
    """Last day on which each task was done at the latest: as it is said, or as something after it was done."""
    done = dict(texts)
    left = sorted(texts, key=lambda name: texts[name])
    for name in left:  # grows as it is gone through
        for other in before[name]:
            if other not in done or (other not in texts and done[name] < done[other]):
                done[other] = done[name]
                left.append(other)
    return done


def suppliers_of(result: JobTasks) -> dict[str, tuple[str, str]]:
    """From whom a job orders, and the names of the tasks that place the order and take it in."""
    return {supplier: (order.place.name, order.take_in.name) for supplier, order in _orders(result).items()}


def done_names(result: JobTasks, job: Job) -> frozenset[str]:
    """Names of a job's tasks that are done, or have to be as what comes after them is."""
    answer, _ = _said(result, job, _orders(result), Date.max)
    return frozenset(_all_done(answer, _before(result, job)))


def _comes(order: _Order, terms: OrderTerms, ordered: Date, now: Date, opened: OpenDays) -> tuple[Date, int]:
    """Day on which an order comes, as promised, else after its lead time; and how many of the supplier's days that is from now.

    The next one of them where it is past.
    """
    comes = terms.promised or opened.after(ordered, order.days)
    if comes < now:
        return opened.after(now, 1), 1
    return comes, len(opened.between(now + timedelta(days=1), comes))


def settled(result: JobTasks, job: Job, *, now: Date, calendar: WorkCalendar, opened: Opened) -> Settled:
    """Take out of a job's tasks what is done.

    Parameters
    ----------
    result : JobTasks
    job : Job
        Whose dates say what is done.
    now : date
        Day from which on the rest is planned.
    calendar : WorkCalendar
    opened : callable
        The days on which a supplier works, by its name.

    Returns
    -------
    Settled

    Raises
    ------
    InputError
        If tasks wait for each other in a circle, done or not; or a day is still to come, or something was done before what
        comes first, with every such fault.
    """
    in_order(result.tasks)
    orders = _orders(result)
    answer, faults = _said(result, job, orders, now)
    before = _before(result, job)
    faults += _out_of_turn(job, answer, before)
    if faults:
        raise InputError(faults)
    done = _all_done(answer, before)
    standing = {
        orders[terms.supplier].place.keys[-1]: terms
        for terms in job.dates.orders
        if terms.supplier in orders and terms.came is None and orders[terms.supplier].take_in.name not in done
    }
    by_key = {key: done[one.name] for one in result.named for key in one.keys if one.name in done}
    tasks: list[Task] = []
    for task in result.tasks:
        if task.key in standing:
            day = by_key[task.key]
            tasks.append(replace(task, quarters=0, waits=(), done=day, not_before=now))
        elif task.key not in by_key:
            tasks.append(_after_done(task, by_key, standing, orders, now, calendar, opened))
    shown = tuple(
        Done(job.job.name, name, day)
        for name, day in sorted(answer.items(), key=lambda row: (row[1], _rank(result, row[0])))
    )
    return Settled(tuple(tasks), shown, tuple(_remarks(job, done, answer, orders, standing, now)))


def _rank(result: JobTasks, name: str) -> int:
    return next(n for n, one in enumerate(result.named) if one.name == name)


def _after_done(
    task: Task,
    done: Mapping[str, Date],
    standing: Mapping[str, OrderTerms],
    orders: Mapping[str, _Order],
    now: Date,
    calendar: WorkCalendar,
    opened: Opened,
) -> Task:
    """A task that is left, with what is left of its waits."""
    waits: list[Wait] = []
    earliest: Date | None = None
    for wait in task.waits:
        if wait.after in standing and wait.supplier:
            order, terms = orders[wait.supplier], standing[wait.after]
            comes, days = _comes(order, terms, done[wait.after], now, opened(wait.supplier))
            waits.append(replace(wait, days=days, promised=terms.promised))
            earliest = comes if earliest is None else max(comes, earliest)
        elif wait.after not in done:
            waits.append(wait)
        elif wait.drying:
            dry = done[wait.after] + timedelta(days=calendar.nights_for(wait.drying))
            earliest = dry if earliest is None else max(dry, earliest)
    return replace(task, waits=tuple(waits), not_before=earliest)


def _remarks(
    job: Job,
    done: Mapping[str, Date],
    texts: Mapping[str, Date],
    orders: Mapping[str, _Order],
    standing: Mapping[str, OrderTerms],
    now: Date,
) -> Iterator[Message]:
    name = job.job.name
    if taken := [other for other in done if other not in texts]:
        yield Message("plan.taken_as_done", job=name, tasks=taken)
    for terms in standing.values():
        if terms.promised is not None and terms.promised < now:
            yield Message("plan.promised_not_come", job=name, supplier=terms.supplier, promised=terms.promised)
    for terms in job.dates.orders:
        if terms.supplier not in orders:
            yield Message("plan.nothing_ordered_now", job=name, supplier=terms.supplier)
