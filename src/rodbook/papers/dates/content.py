"""The paper of dates: bars, by when to order, how sure it is, and a list for each person."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date as Date  # noqa: N812
from pathlib import Path

from babel.dates import format_date

from rodbook.dates import (
    OrderBy,
    Programme,
    headline,
    hundred,
    order_said,
    planned_said,
    slip_said,
    wanted_said,
)
from rodbook.job.numerals import as_typed
from rodbook.papers.common.shared import Content, Json, Pictures, Sheetful, frame, missing_rows, writer
from rodbook.papers.pictures.gantt import draw_gantt, draw_key, gantt_rows, stretches
from rodbook.plan import Plan
from rodbook.working import percent

__all__ = ["dates_content", "short_day"]

WIDTH_MM = 256.0
"""Of the page inside its margins, lying. [mm]"""

LONGEST_DAYS = 14
"""Days on which anything is done in one picture."""

MOST_ROWS = 17
"""Rows in one picture, so that the first fits under the heading."""


def short_day(day: Date, locale: str) -> str:
    """A day with its weekday, without its year."""
    return str(format_date(day, "EEE d MMM", locale=locale))


def dates_content(programme: Programme, plans: Sequence[Plan]) -> Sheetful:
    """What stands on the paper.

    Parameters
    ----------
    programme : Programme
    plans : sequence of Plan
        The jobs, in the programme's order.
    """
    write = writer(plans[0])
    locale = plans[0].book.locale
    pictures = Pictures(write)

    def long_day(day: Date) -> str:
        return str(format_date(day, "d MMMM y", locale=locale))

    rows = gantt_rows(programme)
    written = {day: format_date(day, "E d.M.", locale=locale) for day in programme.calendar.days}
    bars: list[Json] = [
        pictures.add(draw_gantt(programme, rows[at : at + MOST_ROWS], days, width=WIDTH_MM, written=written))
        for days in stretches(programme, LONGEST_DAYS)
        for at in range(0, len(rows), MOST_ROWS)
    ]
    content: Content = {
        "frame": _frame(plans),
        "sentence": headline(programme, long_day),
        "below": _below(programme, long_day),
        "pictures": bars,
        "key": pictures.add(draw_key()),
        "jobs": [plan.job.job.name for plan in plans] if len(plans) > 1 else [],
        "done": [[short_day(done.day, locale), done.what, done.job] for done in programme.done],
        "orders": [_order(order, locale) for order in programme.orders if order.ordered is None],
        "orders_said": _orders_said(programme, locale),
        "placed": [_placed(order, locale) for order in programme.orders if order.ordered is not None],
        "sure": _sure(programme, locale),
        "slips": [slip_said(slip, lambda day: short_day(day, locale)) for slip in programme.slips],
        "people": [_of(programme, person.name, locale) for person in programme.people],
        "rests": [*map(str, programme.remarks), *_days(programme, locale)],
    }
    return Sheetful(Path(__file__).with_name("dates.typ"), content, pictures.files)


def _below(programme: Programme, long_day: Callable[[Date], str]) -> list[str]:
    """How wanted days stand, and what is planned: what comes below the headline."""
    several = len(programme.works) > 1
    results = [(work.name, wanted_said(programme, work.key, long_day)) for work in programme.works]
    wanted = [f"{name}: {answer}" if several else answer for name, answer in results if answer]
    return [*wanted, planned_said(programme, long_day)]


def _orders_said(programme: Programme, locale: str) -> list[str]:
    results: list[str] = []
    for order in programme.orders:
        if answer := order_said(order, lambda day: short_day(day, locale)):
            whose = f"{order.supplier}, {order.job}" if len(programme.works) > 1 else order.supplier
            results.append(f"{whose}: {answer}")
    return results


def _order(order: OrderBy, locale: str) -> Json:
    return [
        order.supplier,
        short_day(order.latest, locale),
        short_day(order.planned, locale),
        short_day(order.delivered, locale),
        f"{order.lead_days} working days",
        order.job,
    ]


def _placed(order: OrderBy, locale: str) -> Json:
    """An order that is placed and has not come."""
    assert order.ordered is not None
    promised = short_day(order.promised, locale) if order.promised else "–"
    return [
        order.supplier,
        short_day(order.ordered, locale),
        promised,
        short_day(order.delivered, locale),
        order.job,
    ]


def _frame(plans: Sequence[Plan]) -> Json:
    result = frame(plans[0], "Dates", title="Dates", landscape=True)
    assert isinstance(result, dict)
    if len(plans) > 1:
        result |= {"job": ", ".join(plan.job.job.name for plan in plans), "number": "", "client": "", "site": ""}
        result |= {"missing": [row for plan in plans for row in missing_rows(plan)]}
    return result


def _sure(programme: Programme, locale: str) -> Json:
    rows: list[Json] = []
    for finish in programme.schedule.finishes:
        likely = programme.chance.jobs[finish.work.key]
        rows.append(
            [
                finish.work.name,
                short_day(likely.nine_in_ten, locale),
                short_day(likely.half, locale),
                short_day(likely.planned, locale),
                percent(hundred(likely.holds), 0),
            ]
        )
    return rows


def _of(programme: Programme, name: str, locale: str) -> Json:
    jobs = {work.key: work.name for work in programme.works}
    rows: list[Json] = []
    hours = 0.0
    for entry in programme.schedule.by_person(name):
        begin, end = programme.calendar.starts_at(entry.start), programme.calendar.ends_at(entry.end)
        until = f"{end:%H:%M}" if begin.date() == end.date() else f"{short_day(end.date(), locale)} {end:%H:%M}"
        others = [other for other in entry.people if other != name]
        rows.append(
            [
                short_day(begin.date(), locale),
                f"{begin:%H:%M}",
                until,
                entry.task.name,
                jobs[entry.task.job],
                ", ".join(others),
            ]
        )
        hours += entry.task.quarters / 4
    return {"name": name, "rows": rows, "hours": as_typed(hours, locale)}


def _days(programme: Programme, locale: str) -> list[str]:
    calendar = programme.calendar
    last = max(finish.day for finish in programme.schedule.finishes)
    kept = [f"{short_day(day, locale)} {name}" for day, name in calendar.holidays if day <= last]
    hours = calendar.quarters / 4
    results = [f"Days of {as_typed(hours, locale)} hours from {calendar.begins:%H:%M} on, breaks not drawn."]
    if kept:
        results.append(f"Public holidays kept: {', '.join(kept)}.")
    return results
