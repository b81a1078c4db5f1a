"""A programme as an iCalendar file (RFC 5545), for all or for one person.

An event is known by what it is: the job, the task by its own name, the first or second day of it. Whatever else is planned beside
it, it keeps its UID, so that importing a newer file changes events and doubles none. SEQUENCE rises when an event is revised, and
DTSTAMP is when it was, as a file without a method has it (RFC 5545, 3.8.7.2 and 3.8.7.4): both are handed in, or follow from the
file before.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from icalendar import Calendar, Component, Event

from rodbook.dates import OrderBy, Placed, Programme, Stage, Work, hundred, order_said

__all__ = ["Edition", "calendar_ended", "calendar_file"]

_PRODUCT = "-//Rodbook//Programme of dates//EN"

_OF_THE_EDITION = frozenset({"DTSTAMP", "SEQUENCE", "STATUS"})
"""Properties that say nothing of what an event is about."""


@dataclass(frozen=True)
class Edition:
    """Which state of a job its events come from.

    Parameters
    ----------
    made : datetime
        When that state came to be, with its zone.
    number : int
        Rises with every state, >= 0.
    ident : str
        What the job is known by, which no change of it changes; its number or name where left out.
    """

    made: datetime
    number: int = 0
    ident: str = ""


def calendar_file(
    programme: Programme, editions: Mapping[str, Edition] | Edition, *, person: str = "", before: bytes = b""
) -> bytes:
    """Every task as an event for each day on which it goes on; as events of a whole day, last days to order and hand-overs.

    Parameters
    ----------
    programme : Programme
    editions : mapping of str to Edition, or Edition
        By the keys of the jobs; one for all of them where they have none of their own.
    person : str
        Only what they do, and no orders; everything where empty.
    before : bytes
        The file that was given out before, if there is one: events that are as they were in it keep their SEQUENCE and DTSTAMP,
        others have a higher one, and those that are no more are called off. What is no such file is left aside.

    Returns
    -------
    bytes
        The same for the same programme, editions and file before. Times are local to whoever opens it.
    """
    made = Calendar()
    made.add("prodid", _PRODUCT)
    made.add("version", "2.0")
    made.add("name", f"Dates of {person}" if person else "Dates")
    old = _events_in(before)
    idents = _idents(programme, editions)
    for key, event in _every(programme, idents, person):
        edition = _edition(editions, key)
        _stamped(event, edition, old.pop(str(event["uid"]), None))
        made.add_component(event)
    newest = max(_edition(editions, work.key).made for work in programme.works)
    for gone in _called_off(old, newest):
        made.add_component(gone)
    return bytes(made.to_ical())


def calendar_ended(before: bytes, made: datetime) -> bytes:
    """The file of somebody who has nothing to do any more: what was still to come in the one that they were given is called off.

    Parameters
    ----------
    before : bytes
        The file that was given out before.
    made : datetime
        When it is known, with its zone.

    Returns
    -------
    bytes
        Empty where nothing of it is still to come.
    """
    ended = Calendar()
    ended.add("prodid", _PRODUCT)
    ended.add("version", "2.0")
    gone = list(_called_off(_events_in(before), made))
    if not gone:
        return b""
    if name := Calendar.from_ical(before).get("name"):
        ended.add("name", str(name))
    for event in gone:
        ended.add_component(event)
    return bytes(ended.to_ical())


def _edition(editions: Mapping[str, Edition] | Edition, key: str) -> Edition:
    return editions if isinstance(editions, Edition) else editions[key]


def _idents(programme: Programme, editions: Mapping[str, Edition] | Edition) -> dict[str, str]:
    """What each job is known by; two that are known by the same are told apart by their names, and else by their turn."""

    def first(work: Work) -> str:
        return _edition(editions, work.key).ident or work.ident or work.name

    shared = Counter(first(work) for work in programme.works)
    results: dict[str, str] = {}
    taken: Counter[str] = Counter()
    for work in programme.works:
        ident = first(work) if shared[first(work)] == 1 else f"{first(work)}\n{work.name}"
        taken[ident] += 1
        results[work.key] = ident if taken[ident] == 1 else f"{ident}\n{taken[ident]}"
    return results


def _every(programme: Programme, idents: Mapping[str, str], person: str) -> Iterator[tuple[str, Event]]:
    """Every event with the key of its job."""
    names = {work.key: work.name for work in programme.works}
    for entry in programme.to_do:
        if not person or person in entry.people:
            for event in _events(entry, names[entry.task.job], idents[entry.task.job], programme):
                yield entry.task.job, event
    if person:
        return
    for order in programme.orders:
        if order.ordered is None:
            yield order.key, _order(order, idents[order.key])
    for work in programme.works:
        day = programme.chance.jobs[work.key].nine_in_ten
        event = _whole_day(day, f"hand-over: nine in ten by this day, {work.name}", work.name)
        event.add("uid", _uid(idents[work.key], "hand-over by"))
        yield work.key, event


def _uid(*words: object) -> str:
    return hashlib.sha256("\n".join(map(str, words)).encode()).hexdigest()[:32] + "@rodbook"


def _events(entry: Placed, job: str, ident: str, programme: Programme) -> list[Event]:
    spans = list(programme.calendar.spans(entry.start, entry.end))
    summary = entry.task.name
    if entry.task.stage is Stage.HAND_OVER:
        holds = hundred(programme.chance.tasks[entry.task.key].holds)
        summary = f"{summary} as planned, which holds in {holds} cases of 100"
    results: list[Event] = []
    for number, (begin, end) in enumerate(spans, 1):
        event = Event()
        event.add("uid", _uid(ident, entry.task.ident or entry.task.name, number))
        event.add("summary", summary if len(spans) == 1 else f"{summary} (day {number} of {len(spans)})")
        event.add("dtstart", begin)
        event.add("dtend", end)
        event.add("description", "\n".join(filter(None, [job, ", ".join(entry.people), entry.task.working])))
        if entry.task.place:
            event.add("location", entry.task.place.partition(": ")[2] or entry.task.place)
        results.append(event)
    return results


def _whole_day(day: date, summary: str, description: str) -> Event:
    event = Event()
    event.add("summary", summary)
    event.add("dtstart", day)
    event.add("dtend", day + timedelta(days=1))
    event.add("description", description)
    event.add("transp", "TRANSPARENT")
    return event


def _order(order: OrderBy, ident: str) -> Event:
    lead = f"lead time {order.lead_days} working days, as promised"
    text = "\n".join((order.job, lead, order_said(order, str)))
    event = _whole_day(order.latest, f"last day to order from {order.supplier}", text)
    event.add("uid", _uid(ident, order.supplier, "order by"))
    return event


# --- editions -----------------------------------------------------------------------------------------------------


def _events_in(before: bytes) -> dict[str, Component]:
    """Events of a file by their UIDs; none where it can't be read."""
    if not before:
        return {}
    try:
        events = Calendar.from_ical(before).walk("VEVENT")
        return {str(event["uid"]): event for event in events if "dtstamp" in event and "dtstart" in event}
    except (ValueError, KeyError, AttributeError):
        return {}


def _content(event: Component) -> dict[str, bytes]:
    lines = event.to_ical().replace(b"\r\n ", b"").split(b"\r\n")
    pairs = (line.partition(b":") for line in lines)
    results = {name.partition(b";")[0].decode(): value for name, _, value in pairs}
    return {name: value for name, value in results.items() if name not in _OF_THE_EDITION}


def _sequence(event: Component) -> int:
    return int(event.get("sequence", 0))


def _cancelled(event: Component) -> bool:
    return str(event.get("status", "")) == "CANCELLED"


def _stamped(event: Event, edition: Edition, old: Component | None) -> None:
    """Say of which edition an event is: of the one before, where nothing of it has changed."""
    made, number = edition.made, edition.number
    if old is not None:
        if _content(old) == _content(event) and not _cancelled(old):
            made, number = old.decoded("dtstamp"), _sequence(old)
        else:
            number = max(number, _sequence(old) + 1)
    event.add("dtstamp", made.astimezone(UTC).replace(microsecond=0))
    event.add("sequence", number)


def _day_of(event: Component) -> date:
    begins = event.decoded("dtstart")
    return begins.date() if isinstance(begins, datetime) else begins


def _called_off(old: Mapping[str, Component], made: datetime) -> Iterator[Component]:
    """Events of the file before that are no more, called off; those of past days are left as they were done."""
    for event in old.values():
        if _day_of(event) < made.date():
            continue
        if not _cancelled(event):
            number = _sequence(event) + 1
            for name in _OF_THE_EDITION:
                event.pop(name, None)
            event.add("status", "CANCELLED")
            event.add("sequence", number)
            event.add("dtstamp", made.astimezone(UTC).replace(microsecond=0))
        yield event
