"""A programme of dates as its page shows it: what is done day by day, what is ordered by when, how sure it is, and bars."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from babel.dates import format_date
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from rodbook.dates import Likely, Placed, Programme, Stage, headline, hundred, order_said, planned_said, wanted_said
from rodbook.desk.platform.pictures import svg_of
from rodbook.errors import Message
from rodbook.job import Book
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.gantt import draw_gantt, draw_key, gantt_rows, stretches

__all__ = ["DatesView", "Doing", "Ordering", "Sure", "dates_view"]

WIDTH_MM = 240.0
"""Of a picture of bars. [mm]"""

LONGEST_DAYS = 14
"""Days on which anything is done in one picture."""


@dataclass(frozen=True)
class Doing:
    """One task as it stands in a list: from when to when, what, of which job, who with, and how much later it may be.

    Parameters
    ----------
    times, what, job, who, later : str
    tight : bool
        Whether a hand-over moves where it is a day later.
    """

    times: str
    what: str
    job: str
    who: str
    later: str
    tight: bool


@dataclass(frozen=True)
class Ordering:
    """What is ordered by when: from whom, what comes first and what waits for it; or when it was ordered, for when promised."""

    supplier: str
    job: str
    by: str
    planned: str
    comes: str
    lead: str
    first: str
    then: str
    ordered: str = ""
    promised: str = ""
    said: str = ""


@dataclass(frozen=True)
class Sure:
    """How sure a day is: planned, the share of plays in which it holds, and the days that half and nine in ten keep."""

    what: str
    job: str
    planned: str
    holds: str
    half: str
    nine: str


@dataclass(frozen=True)
class DatesView:
    """What the page shows.

    Parameters
    ----------
    sentence : str
        The headline: by when it is handed over in nine cases of ten.
    below : tuple of str
        How wanted days stand, and what is planned.
    days : tuple of (str, tuple of Doing)
        By the day on which tasks begin.
    bars : tuple of (str, str)
        What a picture shows, and the picture.
    key : str
        What the bars stand for.
    orders : tuple of Ordering
    done : tuple of (str, str, str)
        Day, what, and of which job.
    hand_overs, deliveries, rooms : tuple of Sure
    people : tuple of (str, str, tuple of (str, tuple of Doing))
        Name, hours in all, and what they do day by day.
    remarks : tuple of str or Message
    several : bool
        Whether there is more than one job.
    """

    sentence: str
    below: tuple[str, ...]
    days: tuple[tuple[str, tuple[Doing, ...]], ...]
    bars: tuple[tuple[str, str], ...]
    key: str
    orders: tuple[Ordering, ...]
    done: tuple[tuple[str, str, str], ...]
    hand_overs: tuple[Sure, ...]
    deliveries: tuple[Sure, ...]
    rooms: tuple[Sure, ...]
    people: tuple[tuple[str, str, tuple[tuple[str, tuple[Doing, ...]], ...]], ...]
    remarks: tuple[str | Message, ...]
    several: bool


def _some(names: Sequence[str]) -> str:
    """Names with commas between them, none twice."""
    return ", ".join(dict.fromkeys(names))


class _Teller:
    """Says dates of a programme in words."""

    def __init__(self, programme: Programme, book: Book) -> None:
        self.programme = programme
        self.locale = book.locale
        self.write = Numbers.of(book)
        self.jobs = {work.key: work.name for work in programme.works}
        self.several = len(programme.works) > 1

    def day(self, day: Date) -> str:
        return str(format_date(day, "EEE d MMM", locale=self.locale))

    def long(self, day: Date) -> str:
        return str(format_date(day, "d MMMM y", locale=self.locale))

    def below(self) -> tuple[str, ...]:
        results = [(name, wanted_said(self.programme, key, self.long)) for key, name in self.jobs.items()]
        wanted = [f"{name}: {answer}" if self.several else answer for name, answer in results if answer]
        return (*wanted, planned_said(self.programme, self.long))

    def job(self, key: str) -> str:
        return self.jobs[key] if self.several else ""

    def doing(self, entry: Placed, *, besides: str = "") -> Doing:
        calendar = self.programme.calendar
        begin, end = calendar.starts_at(entry.start), calendar.ends_at(entry.end)
        until = f"{end:%H:%M}" if begin.date() == end.date() else f"{self.day(end.date())} {end:%H:%M}"
        spare = self.programme.floats[entry.task.key] // calendar.quarters
        later = ngettext("may be %(n)s day later", "may be %(n)s days later", spare) % {"n": spare} if spare > 0 else ""
        who = ", ".join(name for name in entry.people if name != besides)
        times = f"{begin:%H:%M}–{until}" if entry.end > entry.start else f"{begin:%H:%M}"
        return Doing(times, entry.task.name, self.job(entry.task.job), who, later, spare < 1)

    def days(self, placed: Sequence[Placed], *, besides: str = "") -> tuple[tuple[str, tuple[Doing, ...]], ...]:
        results: dict[Date, list[Doing]] = {}
        for entry in placed:
            results.setdefault(self.programme.start_of(entry), []).append(self.doing(entry, besides=besides))
        return tuple((self.day(day), tuple(doings)) for day, doings in results.items())

    def orders(self) -> tuple[Ordering, ...]:
        schedule = self.programme.schedule
        results: list[Ordering] = []
        for order in self.programme.orders:
            first: list[str] = []
            then: list[str] = []
            for entry in schedule.placed:
                for wait in entry.task.waits:
                    if wait.supplier == order.supplier and self.jobs[entry.task.job] == order.job:
                        first += [schedule.of(w.after).task.name for w in schedule.of(wait.after).task.waits]
                        then += self._after(entry.task.key)
            if order.ordered is not None:
                promised = self.day(order.promised) if order.promised else ""
                results.append(
                    Ordering(
                        order.supplier,
                        order.job if self.several else "",
                        "",
                        "",
                        self.day(order.delivered),
                        "",
                        "",
                        _some(then),
                        self.day(order.ordered),
                        promised,
                    )
                )
                continue
            lead = ngettext("%(n)s working day", "%(n)s working days", order.lead_days) % {"n": order.lead_days}
            results.append(
                Ordering(
                    order.supplier,
                    order.job if self.several else "",
                    self.day(order.latest),
                    self.day(order.planned),
                    self.day(order.delivered),
                    lead,
                    _some(first),
                    _some(then),
                    said=order_said(order, self.day),
                )
            )
        return tuple(results)

    def _after(self, key: str) -> list[str]:
        placed = self.programme.schedule.placed
        return [entry.task.name for entry in placed if any(wait.after == key for wait in entry.task.waits)]

    def hand_overs(self) -> tuple[Sure, ...]:
        return tuple(self.sure(work.name, "", self.programme.chance.jobs[work.key]) for work in self.programme.works)

    def ends_of(self, stage: Stage) -> tuple[Sure, ...]:
        chance = self.programme.chance
        return tuple(
            self.sure(entry.task.name, self.job(entry.task.job), chance.tasks[entry.task.key])
            for entry in self.programme.schedule.placed
            if entry.task.stage is stage
        )

    def sure(self, what: str, job: str, likely: Likely) -> Sure:
        holds = self.write.percent(hundred(likely.holds) / 100)
        return Sure(what, job, self.day(likely.planned), holds, self.day(likely.half), self.day(likely.nine_in_ten))

    def bars(self) -> tuple[tuple[str, str], ...]:
        calendar = self.programme.calendar
        rows = gantt_rows(self.programme)
        results: list[tuple[str, str]] = []
        for first, last in stretches(self.programme, LONGEST_DAYS):
            lettered = {day: str(format_date(day, "E d.M.", locale=self.locale)) for day in calendar.days[first:last]}
            drawing = draw_gantt(self.programme, rows, (first, last), width=WIDTH_MM, written=lettered)
            text = _("Bars from %(first)s to %(last)s") % {
                "first": self.day(calendar.days[first]),
                "last": self.day(calendar.days[last - 1]),
            }
            results.append((text, svg_of(drawing, self.write)))
        return tuple(results)

    def remarks(self) -> tuple[str | Message, ...]:
        calendar = self.programme.calendar
        last = max(finish.day for finish in self.programme.schedule.finishes)
        kept = [f"{self.day(day)} {name}" for day, name in calendar.holidays if day <= last]
        hours = self.write.short(calendar.quarters / 4)
        text = _("Days of %(hours)s hours from %(begins)s on; breaks are not drawn.")
        days = text % {"hours": hours, "begins": f"{calendar.begins:%H:%M}"}
        holidays = [_("Public holidays kept: %(days)s.") % {"days": ", ".join(kept)}] if kept else []
        return (*self.programme.remarks, days, *holidays)


def dates_view(programme: Programme, book: Book) -> DatesView:
    """Say a programme as its page shows it.

    Parameters
    ----------
    programme : Programme
    book : Book
        How it writes days and figures.
    """
    tell = _Teller(programme, book)
    people = []
    for person in programme.people:
        mine = programme.schedule.by_person(person.name)
        hours = tell.write.short(sum(entry.task.quarters for entry in mine) / 4)
        people.append((person.name, hours, tell.days(mine, besides=person.name)))
    return DatesView(
        headline(programme, tell.long),
        tell.below(),
        tell.days(programme.to_do),
        tell.bars(),
        svg_of(draw_key(), tell.write),
        tell.orders(),
        tuple((tell.day(one.day), one.what, one.job if tell.several else "") for one in programme.done),
        tell.hand_overs(),
        tell.ends_of(Stage.DELIVER),
        tell.ends_of(Stage.ADJUST),
        tuple(people),
        tell.remarks(),
        tell.several,
    )
