"""The long lists of the page of dates, drawn once and kept: of hundreds of openings they take most of its time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from babel.dates import format_date
from django.template.loader import render_to_string
from django.utils.safestring import SafeString
from django.utils.translation import get_language

from rodbook.dates import Programme, slip_said
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.rendering import Kept
from rodbook.desk.site.facts import TaskTick
from rodbook.desk.site.forms import task_fields
from rodbook.desk.site.programme import DatesView, dates_view
from rodbook.job import Book, Job
from rodbook.job.numerals import as_typed
from rodbook.papers.numbers import Numbers
from rodbook.plan.schedule.tasks import NamedTask

__all__ = ["DrawnDates", "drawn_dates", "drawn_tasks", "drawn_ticks", "slips_of"]


@dataclass(frozen=True)
class DrawnDates:
    """A programme as the page shows it.

    Parameters
    ----------
    view : DatesView
    days : SafeString
        What is done, day by day.
    people : tuple of (str, str, SafeString)
        Name, hours in all, and what they do day by day; empty where that is nothing.
    """

    view: DatesView
    days: SafeString
    people: tuple[tuple[str, str, SafeString], ...]


_programmes: Kept[DrawnDates] = Kept(12)
_slips: Kept[list[str]] = Kept(24)
_tasks: Kept[SafeString] = Kept(12)
_ticks: Kept[SafeString] = Kept(12)


def drawn_dates(key: str, programme: Programme, book: Book) -> DrawnDates:
    """A programme, by the key of what it was made from and the language."""
    return _programmes.get((key, get_language() or ""), lambda: _draw(dates_view(programme, book)))


def _draw(view: DatesView) -> DrawnDates:
    def doings(days: object) -> SafeString:
        return render_to_string("desk/_doings.html", {"days": days}) if days else SafeString("")

    return DrawnDates(view, doings(view.days), tuple((name, hours, doings(days)) for name, hours, days in view.people))


def slips_of(key: str, programme: Programme, late: int, locale: str) -> list[str]:
    """What moves where a delivery is so many working days late."""

    def written(day: Date) -> str:
        return str(format_date(day, "EEE d MMM", locale=locale))

    return _slips.get((key, f"{locale} {late}"), lambda: [slip_said(slip, written) for slip in programme.late_by(late)])


def drawn_tasks(
    key: str, job: Job, named: Sequence[NamedTask], form: Form | None = None, *, may_change: bool, locale: str
) -> SafeString:
    """The fields of every task: as the job has them, kept by the key of what they come from; or as a form was filled in."""
    if form is not None:
        return _task_fields(named, form, may_change=may_change, locale=locale)
    kept = key, f"{get_language() or ''} {locale} {may_change}"
    return _tasks.get(
        kept, lambda: _task_fields(named, Form(task_fields(job, named, locale)), may_change=may_change, locale=locale)
    )


def drawn_ticks(key: str, ticks: Sequence[TaskTick], *, may_change: bool) -> SafeString:
    """Tasks to be ticked off, kept by the key of what they come from."""
    kept = key, f"{get_language() or ''} {may_change}"
    values = {"ticks": ticks, "may_change": may_change}
    return _ticks.get(kept, lambda: render_to_string("desk/_dates_ticks.html", values))


def _task_fields(named: Sequence[NamedTask], form: Form, *, may_change: bool, locale: str) -> SafeString:
    written = Numbers(locale, "EUR")
    rows = [
        {
            "number": n,
            "name": task.name,
            "reckoned": as_typed(round(task.reckoned, 2), locale),
            "working": written.in_working(task.working),
            "hours": form.typed(f"hours-{n}"),
            "after": form.typed(f"after-{n}"),
            "hours_fault": form.fault(f"hours-{n}"),
            "after_fault": form.fault(f"after-{n}"),
        }
        for n, task in enumerate(named, 1)
    ]
    return render_to_string("desk/_dates_tasks.html", {"task_rows": rows, "may_change": may_change})
