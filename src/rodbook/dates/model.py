"""What a programme of dates consists of: people, tasks and what each waits for, and when each is done.

Time is counted in quarters of an hour of the firm's working time from the start on: quarter 0 is the first of the first
working day, and nights, weekends and holidays have none. `WorkCalendar` turns quarters into days and hours.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from enum import StrEnum

__all__ = [
    "QUARTERS_AN_HOUR",
    "Absence",
    "Done",
    "Finish",
    "OpenDays",
    "Person",
    "Placed",
    "Schedule",
    "Stage",
    "Task",
    "Wait",
    "Work",
    "quarters_of",
]

QUARTERS_AN_HOUR = 4

LABOUR_SPREAD = 1.35
"""Nine in ten tasks take less than this many times what was planned (house assumption)."""

LEAD_SPREAD = 1.25
"""Nine in ten deliveries come within this many times the days that were promised (house assumption)."""

LONGEST_CLOSED = 800
"""Days by the clock for which a supplier may be closed, besides its weekends (house assumption)."""


class Stage(StrEnum):
    """What kind of task it is, in the order in which they come."""

    MEASURE = "measure"
    ORDER = "order"
    DELIVER = "deliver"
    CHECK = "check"
    MAKE = "make"
    COAT = "coat"
    LININGS = "linings"
    LEAVES = "leaves"
    TRIMS = "trims"
    PANELS = "panels"
    DECORATE = "decorate"
    ADJUST = "adjust"
    HAND_OVER = "hand over"


def quarters_of(hours: float) -> int:
    """Quarters of an hour that a time takes, a part of one counting whole; zero stays zero.

    Parameters
    ----------
    hours : float
        [h]

    Examples
    --------
    >>> quarters_of(2.0), quarters_of(2.1), quarters_of(0.0)
    (8, 9, 0)
    """
    return math.ceil(round(hours * QUARTERS_AN_HOUR, 6))


@dataclass(frozen=True)
class Absence:
    """Days on which somebody does not work, or the firm is closed; both ends count.

    Parameters
    ----------
    first, last : date
    """

    first: Date
    last: Date


@dataclass(frozen=True)
class OpenDays:
    """Days on which a supplier works, whatever the firm does.

    Parameters
    ----------
    weekdays : tuple of int
        0 is Monday.
    holidays : tuple of date
        Public holidays that it keeps.
    closed : tuple of Absence
    """

    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    holidays: tuple[Date, ...] = ()
    closed: tuple[Absence, ...] = ()

    def between(self, first: Date, last: Date) -> tuple[Date, ...]:
        """Every such day from one day to another, both included."""
        kept = frozenset(self.holidays)
        days = (first + timedelta(days=n) for n in range((last - first).days + 1))
        return tuple(
            day
            for day in days
            if day.weekday() in self.weekdays
            and day not in kept
            and not any(one.first <= day <= one.last for one in self.closed)
        )

    def after(self, day: Date, count: int) -> Date:
        """The so many-th such day after a day; the day itself for none. Where none is open for years, every day is."""
        if not count:
            return day
        result = self.between(day + timedelta(days=1), day + timedelta(days=14 * count + LONGEST_CLOSED))
        return result[count - 1] if len(result) >= count else day + timedelta(days=14 * count + LONGEST_CLOSED)


@dataclass(frozen=True)
class Person:
    """Somebody of the crew.

    Parameters
    ----------
    name : str
    trades : tuple of str
        Trades that they do; everything where there is none.
    off : tuple of Absence
        Days off of their own.
    """

    name: str
    trades: tuple[str, ...] = ()
    off: tuple[Absence, ...] = ()

    def does(self, trade: str) -> bool:
        """Whether they do a trade; a task without a trade is for everybody."""
        return not trade or not self.trades or trade in self.trades


@dataclass(frozen=True)
class Wait:
    """What a task waits for: another's end, and a time after it.

    Parameters
    ----------
    after : str
        Key of the task that comes first.
    working : int
        Working time between the two. [quarters]
    drying : float
        Hours by the clock: nights, weekends and holidays count. [h]
    days : int
        Working days from the day on which the other ends: 1 is the next working morning. For a lead time, the days that
        were promised, counted on the days on which the supplier works.
    supplier : str
        Whose lead time `days` is; empty where it is none.
    promised : date, optional
        Day that was named when it was ordered.
    open : OpenDays, optional
        Days on which the supplier works; the firm's own days where left out.
    spread : float
        Nine in ten deliveries come within this many times `days`.
    """

    after: str
    working: int = 0
    drying: float = 0.0
    days: int = 0
    supplier: str = ""
    promised: Date | None = None
    open: OpenDays | None = None
    spread: float = LEAD_SPREAD


@dataclass(frozen=True)
class Task:
    """Something that is done in one go by the same people.

    Parameters
    ----------
    key : str
        Its name among all tasks of all jobs.
    name : str
        What is printed.
    job : str
        Key of its job.
    stage : Stage
    quarters : int
        How long it takes with `hands` people. [quarters]
    hands : int
        How many people it takes; what takes no time takes nobody.
    trade : str
        Who can do it; empty for everybody.
    place : str
        Where only one task can go on at a time; empty where it does not matter.
    waits : tuple of Wait
    spread : float
        Nine in ten take less than this many times `quarters`.
    working : str
        How its time came about.
    not_before : date, optional
        Day before which it can't begin.
    done : date, optional
        Day on which it was done already. It then takes no time, and stands for what others wait for.
    rate : str
        The kind of time that it takes: tasks of one kind are slow together. That of its stage where left out.
    ident : str
        Its name within its job, that it keeps whatever else is planned; `name` where left out.
    """

    key: str
    name: str
    job: str
    stage: Stage
    quarters: int
    hands: int = 1
    trade: str = ""
    place: str = ""
    waits: tuple[Wait, ...] = ()
    spread: float = LABOUR_SPREAD
    working: str = ""
    not_before: Date | None = None
    done: Date | None = None
    rate: str = ""
    ident: str = ""


@dataclass(frozen=True)
class Work:
    """One job among those that are planned together.

    Parameters
    ----------
    key : str
    name : str
    due : date, optional
        Day by which it is to be handed over.
    earliest : date, optional
        Day before which nothing of it is begun.
    ident : str
        What tells it from every other job, whatever is planned beside it; `name` where left out.
    """

    key: str
    name: str
    due: Date | None = None
    earliest: Date | None = None
    ident: str = ""


@dataclass(frozen=True)
class Done:
    """Something of a job that was done already.

    Parameters
    ----------
    job : str
        Name of the job.
    what : str
    day : date
    """

    job: str
    what: str
    day: Date


@dataclass(frozen=True)
class Placed:
    """When a task is done, and by whom.

    Parameters
    ----------
    task : Task
    start, end : int
        [quarters]
    people : tuple of str
    """

    task: Task
    start: int
    end: int
    people: tuple[str, ...]


@dataclass(frozen=True)
class Finish:
    """When a job is handed over, and before when it can't be.

    Parameters
    ----------
    work : Work
    end : int
        End of its last task. [quarters]
    day : date
        The day of that end.
    earliest_day : date
        No order of tasks and no share of the people brings this job alone to an end before this day.
    late_days : int
        Working days after the day that was wanted.
    """

    work: Work
    end: int
    day: Date
    earliest_day: Date
    late_days: int


@dataclass(frozen=True)
class Schedule:
    """When every task of every job is done.

    Parameters
    ----------
    placed : tuple of Placed
        By start.
    finishes : tuple of Finish
        One for each job, as they were given.
    proven : bool
        Whether no better one exists.
    cost, bound : int
        What was made least, and what is proven to be its least: ends of all jobs added up, with lateness. [quarters]
    gap_days : float
        How much sooner each job could be over at most, on average. [working days]
    """

    placed: tuple[Placed, ...]
    finishes: tuple[Finish, ...]
    proven: bool
    cost: int
    bound: int
    gap_days: float = 0.0
    _index: dict[str, Placed] = field(default_factory=dict, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Keep tasks by their keys."""
        self._index.update({entry.task.key: entry for entry in self.placed})

    def of(self, key: str) -> Placed:
        """When the task of that key is done; KeyError where there is none."""
        return self._index[key]

    def by_person(self, name: str) -> tuple[Placed, ...]:
        """What somebody does, in order."""
        return tuple(entry for entry in self.placed if name in entry.people)
