"""A programme as an iCalendar file (RFC 5545), for all or for one person."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime, time, timedelta

from icalendar import Calendar, Event

from rodbook.dates import OrderBy, Placed, Programme

__all__ = ["calendar_file"]

_PRODUCT = "-//Rodbook//Programme of dates//EN"


def calendar_file(programme: Programme, *, person: str = "") -> bytes:
    """Every task as an event for each day on which it goes on, and each last day to order as an event of a whole day.

    Parameters
    ----------
    programme : Programme
    person : str
        Only what they do, and no orders; everything where empty.

    Returns
    -------
    bytes
        The same for the same programme. Times are local to whoever opens it.
    """
    made = Calendar()
    made.add("prodid", _PRODUCT)
    made.add("version", "2.0")
    made.add("name", f"Dates of {person}" if person else "Dates")
    stamp = datetime.combine(programme.calendar.days[0], time(0), tzinfo=UTC)
    names = {work.key: work.name for work in programme.works}
    for entry in programme.schedule.placed:
        if person and person not in entry.people:
            continue
        for event in _events(entry, names[entry.task.job], programme):
            event.add("dtstamp", stamp)
            made.add_component(event)
    for order in () if person else [one for one in programme.orders if one.ordered is None]:
        event = _order(order)
        event.add("dtstamp", stamp)
        made.add_component(event)
    return bytes(made.to_ical())


def _uid(*words: object) -> str:
    return hashlib.sha256("\n".join(map(str, words)).encode()).hexdigest()[:32] + "@rodbook"


def _events(entry: Placed, job: str, programme: Programme) -> list[Event]:
    spans = list(programme.calendar.spans(entry.start, entry.end))
    found: list[Event] = []
    for number, (begin, end) in enumerate(spans, 1):
        event = Event()
        event.add("uid", _uid(job, entry.task.key, number))
        event.add(
            "summary", entry.task.name if len(spans) == 1 else f"{entry.task.name} (day {number} of {len(spans)})"
        )
        event.add("dtstart", begin)
        event.add("dtend", end)
        event.add("description", "\n".join(filter(None, [job, ", ".join(entry.people), entry.task.working])))
        if entry.task.place:
            event.add("location", entry.task.place.partition(": ")[2] or entry.task.place)
        found.append(event)
    return found


def _order(order: OrderBy) -> Event:
    event = Event()
    event.add("uid", _uid(order.job, order.supplier, "order by"))
    event.add("summary", f"last day to order from {order.supplier}")
    event.add("dtstart", order.latest)
    event.add("dtend", order.latest + timedelta(days=1))
    event.add("description", f"{order.job}\nlead time {order.lead_days} working days, as promised")
    event.add("transp", "TRANSPARENT")
    return event
