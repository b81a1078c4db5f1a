"""Dates of one job or of several that share people: tasks from their plans, on the firm's days."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date as Date  # noqa: N812
from datetime import time

from rodbook.dates import (
    Absence,
    Done,
    OpenDays,
    Person,
    Programme,
    Task,
    Wait,
    Work,
    WorkCalendar,
    check_programme,
    crew_faults,
    make_calendar,
    make_programme,
    open_days,
)
from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job import Book, Job
from rodbook.job.dates import WEEKDAYS, Away
from rodbook.plan.model import Plan
from rodbook.plan.schedule.facts import Opened, Settled, settled
from rodbook.plan.schedule.tasks import JobTasks, tasks_of

__all__ = ["FirmDays", "SupplierOpen", "WantedDates", "dates_faults", "plan_dates", "wanted_by"]


@dataclass(frozen=True)
class FirmDays:
    """When the firm works.

    Parameters
    ----------
    weekdays : tuple of int
        0 is Monday.
    hours : float, optional
        Of work in a day; the book's working day, else 8, where left out. [h]
    begins : time
    country : str
        Whose public holidays are kept, as an ISO 3166 code; none where empty.
    closed : tuple of Absence
    """

    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    hours: float | None = None
    begins: time = time(8)
    country: str = ""
    closed: tuple[Absence, ...] = ()


@dataclass(frozen=True)
class SupplierOpen:
    """When a supplier works.

    Parameters
    ----------
    name : str
    weekdays : tuple of int
        0 is Monday.
    country : str, optional
        Whose public holidays it keeps; the firm's where left out, none where empty.
    closed : tuple of Absence
    """

    name: str
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    country: str | None = None
    closed: tuple[Absence, ...] = ()


@dataclass(frozen=True)
class WantedDates:
    """What is asked of the dates.

    Parameters
    ----------
    start : date
        First day on which anything is done.
    people : tuple of Person
    days : FirmDays
    due : date, optional
        Day by which every job is wanted.
    late_days : int
        Working days by which a delivery is taken to be late, to see what that moves.
    unnamed : date, optional
        Day before which nothing is begun of jobs that name no start of their own; `start` where left out.
    now : date, optional
        Day from which on the rest is planned of jobs of which something is done; `start` where left out.
    suppliers : tuple of SupplierOpen
        Of whom more is known than that they work from Monday to Friday without the country's public holidays.
    """

    start: Date
    people: tuple[Person, ...]
    days: FirmDays = field(default_factory=FirmDays)
    due: Date | None = None
    late_days: int = 3
    unnamed: Date | None = None
    now: Date | None = None
    suppliers: tuple[SupplierOpen, ...] = ()


def _absences(away: Sequence[Away]) -> tuple[Absence, ...]:
    return tuple(Absence(one.first, one.last) for one in away)


def wanted_by(book: Book, jobs: Sequence[Job], *, today: Date) -> WantedDates:
    """What a book and its jobs ask of the dates.

    Parameters
    ----------
    book : Book
        Whose people and days they are.
    jobs : sequence of Job
    today : date
        When jobs begin that name no day.
    """
    firm = book.dates
    people = tuple(Person(one.name, tuple(one.trades), _absences(one.off)) for one in firm.crew)
    weekdays = tuple(n for n, name in enumerate(WEEKDAYS) if name in firm.days)
    days = FirmDays(weekdays, country=firm.holidays, closed=_absences(firm.closed))
    first = min((_begins(job, today) for job in jobs), default=today)
    suppliers = tuple(
        SupplierOpen(
            one.supplier,
            tuple(n for n, name in enumerate(WEEKDAYS) if name in one.days),
            one.holidays,
            _absences(one.closed),
        )
        for one in firm.suppliers
    )
    return WantedDates(first, people, days, unnamed=today, now=today, suppliers=suppliers)


def _begins(job: Job, today: Date) -> Date:
    """Day on which a job is begun, or on which what is left of it is gone on with."""
    start = job.dates.start or today
    return max(start, today) if job.dates.begun else start


@dataclass(frozen=True)
class _Asked:
    tasks: tuple[Task, ...]
    works: tuple[Work, ...]
    calendar: WorkCalendar
    remarks: tuple[Message, ...]
    done: tuple[Done, ...]


def _asked(plans: Sequence[Plan], wanted: WantedDates) -> _Asked:
    """Tasks, jobs and days; InputError with every fault."""
    faults: list[Fault] = list(crew_faults(wanted.people))
    if not plans:
        faults.append(Fault("jobs", "plan.no_jobs_for_dates"))
    if not 0 <= wanted.late_days <= 60:
        faults.append(Fault("late", "plan.late_days_out_of_range", days=wanted.late_days))
    results = _tasks(plans, wanted, faults)
    days = wanted.days
    hours = days.hours if days.hours is not None else results[0].hours_a_day if results else 8.0
    try:
        calendar = make_calendar(
            wanted.start,
            weekdays=days.weekdays,
            hours=hours,
            begins=days.begins,
            country=days.country,
            closed=days.closed,
        )
    except InputError as error:
        raise InputError([*faults, *error.faults]) from None
    now = wanted.now or wanted.start
    opened = _Suppliers(wanted, now, faults)
    results = [_on_suppliers_days(tasks, opened) for tasks in results]
    left: list[Settled] = []
    for plan, tasks in zip(plans, results, strict=True) if len(results) == len(plans) else ():
        try:
            left.append(_left_of(tasks, plan.job, now, calendar, opened))
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    remarks = [remark for tasks, one in zip(results, left, strict=True) for remark in (*tasks.remarks, *one.remarks)]
    works, answer = _works(plans, left, wanted, now)
    remarks += answer
    if not days.country:
        remarks.append(Message("plan.no_public_holidays"))
    if opened.untold:
        besides = Message("plan.without_holidays", country=days.country) if days.country else None
        remarks.append(Message("plan.suppliers_days_taken", suppliers=sorted(opened.untold), besides=besides))
    every = tuple(task for one in left for task in one.tasks)
    return _Asked(every, tuple(works), calendar, tuple(remarks), tuple(d for one in left for d in one.done))


def _tasks(plans: Sequence[Plan], wanted: WantedDates, faults: list[Fault]) -> list[JobTasks]:
    """The tasks of every job that has any."""
    results: list[JobTasks] = []
    for number, plan in enumerate(plans, 1):
        try:
            results.append(tasks_of(plan, key=str(number), people=len(wanted.people)))
        except InputError as error:
            faults += error.faults
    return results


def _ident(job: Job) -> str:
    """What tells a job from others, whatever is planned beside it: the firm's number for it, else its name."""
    return job.job.number or job.job.name


def _works(
    plans: Sequence[Plan], left: Sequence[Settled], wanted: WantedDates, now: Date
) -> tuple[list[Work], list[Message]]:
    """Jobs of which something is left to do, and what is said of the others and of days that are past."""
    works: list[Work] = []
    remarks: list[Message] = []
    for number, (plan, one) in enumerate(zip(plans, left, strict=True), 1):
        name, due = plan.job.job.name, plan.job.dates.by or wanted.due
        if not one.tasks:
            remarks.append(Message("plan.job_all_done", job=name))
            continue
        start = plan.job.dates.start or wanted.unnamed
        if plan.job.dates.begun:
            start = max(now, start or now)
            if due is not None and due < start:
                remarks.append(Message("plan.wanted_day_past", job=name, due=due))
                due = None
        works.append(
            Work(str(number), name, due, start if start and start > wanted.start else None, ident=_ident(plan.job))
        )
    return works, remarks


class _Suppliers:
    """The days on which suppliers work, by their names; what can't be looked up becomes a fault."""

    def __init__(self, wanted: WantedDates, now: Date, faults: list[Fault]) -> None:
        self.told = {one.name: one for one in wanted.suppliers}
        self.country, self.faults = wanted.days.country, faults
        self.years = range(min(now, wanted.start).year - 2, wanted.start.year + 7)
        self.untold: set[str] = set()
        self._kept: dict[str, OpenDays] = {}

    def __call__(self, name: str) -> OpenDays:
        if name not in self._kept:
            self._kept[name] = self._found(name)
        return self._kept[name]

    def _found(self, name: str) -> OpenDays:
        one = self.told.get(name)
        if one is None:
            self.untold.add(name)
            one = SupplierOpen(name)
        country = self.country if one.country is None else one.country
        try:
            return open_days(country, self.years, weekdays=one.weekdays, closed=one.closed)
        except InputError as error:
            if one.country is not None:
                self.faults += [fault.moved(Place(("suppliers", name, *fault.at.path))) for fault in error.faults]
            return OpenDays(one.weekdays, closed=one.closed)


def _on_suppliers_days(result: JobTasks, opened: Opened) -> JobTasks:
    """A job's tasks with lead times that run on the days of their suppliers."""

    def on_days(wait: Wait) -> Wait:
        return replace(wait, open=opened(wait.supplier)) if wait.supplier else wait

    return replace(result, tasks=tuple(replace(t, waits=tuple(map(on_days, t.waits))) for t in result.tasks))


def _left_of(tasks: JobTasks, job: Job, now: Date, calendar: WorkCalendar, opened: Opened) -> Settled:
    if not job.dates.begun:
        return Settled(tasks.tasks, (), ())
    return settled(tasks, job, now=now, calendar=calendar, opened=opened)


def dates_faults(plans: Sequence[Plan], wanted: WantedDates) -> tuple[Fault, ...]:
    """What is wrong with the dates that are asked, without planning them.

    Parameters
    ----------
    plans : sequence of Plan
        All the way, with money.
    wanted : WantedDates
    """
    try:
        asked = _asked(plans, wanted)
    except InputError as error:
        return tuple(error.faults)
    if not asked.works:
        return ()
    return check_programme(asked.tasks, wanted.people, asked.works, asked.calendar)


def plan_dates(
    plans: Sequence[Plan],
    wanted: WantedDates,
    *,
    effort: float = 0.3,
    seed: int = 0,
    on_stage: Callable[[str, int, int], None] | None = None,
) -> Programme:
    """Plan the dates of jobs.

    Parameters
    ----------
    plans : sequence of Plan
        All the way, with money. What their jobs say of dates is kept to; a day that is wanted comes before that of
        `wanted`, a start only where it is later.
    wanted : WantedDates
    effort : float
        How much the search may do, by its own count.
    seed : int
    on_stage : callable, optional
        Told what is being worked out, how many steps are done, and how many there are.

    Returns
    -------
    Programme
        Jobs have the keys "1", "2" and so on, in the order of the plans; one of which all is done is not among them.

    Raises
    ------
    InputError
        With every fault of crew, days and jobs at once.
    Infeasible
        If it does not fit into the calendar.
    """
    if on_stage is not None:
        on_stage("tasks", 0, 3)
    asked = _asked(plans, wanted)
    if not asked.works:
        raise InputError.at("jobs", "plan.all_done")
    programme = make_programme(
        asked.tasks,
        wanted.people,
        asked.works,
        asked.calendar,
        effort=effort,
        seed=seed,
        late_days=wanted.late_days,
        remarks=asked.remarks,
        on_stage=on_stage,
    )
    return replace(programme, done=asked.done)
