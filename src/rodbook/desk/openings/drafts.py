"""Readings on their way into the job: kept one by one as a draft, and put into the job as soon as it can take them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from django.db import transaction

from rodbook.desk.models import Draft, Folder, Sent
from rodbook.desk.openings.measuring import PLACES, place_named, read_off
from rodbook.desk.platform import store
from rodbook.desk.platform.faults import in_words
from rodbook.errors import InputError
from rodbook.job import Book, Job, Opening

__all__ = [
    "ABOUT",
    "Ready",
    "about_of",
    "base_of",
    "draft_of",
    "drop_overtaken",
    "keep",
    "not_in",
    "readings_of",
    "ready",
    "settle",
]

ABOUT = ("room", "leaves", "hand", "head", "note")
"""What a draft of a new opening says beside its readings."""

_SETS = (("widths", "heights"), ("widths",), ("heights",), ("diagonals",), ("depth",), ("readings",))

type Raw = dict[str, object]


@dataclass(frozen=True)
class Ready:
    """What can go into the job, and why the rest can't.

    Parameters
    ----------
    job : Job, optional
        The job with the readings in it; None where nothing can go in yet.
    fields : tuple of str
        Fields of the opening that went in.
    faults : tuple of str
        Sentences on those that are complete and still can't.
    """

    job: Job | None
    fields: tuple[str, ...]
    faults: tuple[str, ...]


def not_in(opening: Opening | None, kept: Mapping[str, object]) -> dict[str, object]:
    """What is kept and does not stand in the job already."""
    there = read_off(opening)
    return {name: value for name, value in kept.items() if name not in there or there[name] != value}


def draft_of(folder: Folder, mark: str, opening: Opening | None = None) -> dict[str, object]:
    """What is kept for an opening and is not in the job; nothing where there is no draft."""
    result = Draft.objects.filter(folder=folder, mark=mark).first()
    return not_in(opening, result.readings) if result else {}


def base_of(folder: Folder, mark: str, base: int) -> int:
    """Revision on which the first kept reading of an opening was taken, where that is before `base`."""
    result = Draft.objects.filter(folder=folder, mark=mark).first()
    return min(result.base, base) if result and result.base else base


def keep(
    folder: Folder,
    mark: str,
    values: Mapping[str, object],
    *,
    base: int = 0,
    opening: Opening | None = None,
    sent: Sent | None = None,
) -> dict[str, object]:
    """Keep readings of an opening, beside what is kept already; at once and for good.

    Parameters
    ----------
    folder : Folder
    mark : str
        The opening.
    values : mapping
        What is to be kept, by the name of its place.
    base : int
        Revision that they were taken on; 0 for what is no reading.
    opening : Opening, optional
        As it stands in the job.
    sent : Sent, optional
        The note that this reading came in, written in the same transaction.
    """
    with transaction.atomic():
        draft, _ = Draft.objects.get_or_create(folder=folder, mark=mark)
        before = not_in(opening, draft.readings)
        if base:
            waiting = draft.base and any(place_named(name) for name in before)
            draft.base = min(draft.base, base) if waiting else base
        draft.readings = {**before, **values}
        draft.save()
        if sent is not None:
            sent.save()
    return dict(draft.readings)


def drop_overtaken(folder: Folder, mark: str, now: Opening | None, head: int) -> None:
    """Leave what somebody else saved: take the readings out of the draft whose place has another value in the job."""
    there = read_off(now)
    with transaction.atomic():
        draft = Draft.objects.filter(folder=folder, mark=mark).first()
        if draft is None:
            return
        draft.readings = {name: value for name, value in draft.readings.items() if name not in there}
        draft.base = head
        draft.save()
        if now is not None and not any(place_named(name) for name in draft.readings):
            draft.delete()


def settle(folder: Folder, mark: str, fields: Iterable[str], about: Iterable[str] = ()) -> None:
    """Take out of the draft what stands in the job now."""
    gone = tuple(fields)
    done = frozenset(about)
    with transaction.atomic():
        draft = Draft.objects.filter(folder=folder, mark=mark).first()
        if draft is None:
            return
        draft.readings = {k: v for k, v in draft.readings.items() if k.split("-")[0] not in gone and k not in done}
        if draft.readings:
            draft.save()
        else:
            draft.delete()


def readings_of(opening: Opening | None, draft: Mapping[str, object]) -> dict[str, float]:
    """Every reading of an opening: what stands in the job, and over it what is kept in its draft."""
    result = read_off(opening)
    for name, value in draft.items():
        if place_named(name) is not None and isinstance(value, int | float):
            result[name] = float(value)
    return result


def about_of(opening: Opening | None, draft: Mapping[str, object]) -> dict[str, str]:
    """What is known of an opening beside its readings, as a form shows it."""
    texts = {name: str(getattr(opening, name)) for name in ABOUT} if opening else {"leaves": "1", "hand": "left"}
    return texts | {name: str(draft[name]) for name in ABOUT if draft.get(name)}


def _value(field: str, readings: Mapping[str, float]) -> object:
    """The whole value of a field; None while a reading of it is missing."""
    if field == "readings":
        return {n.removeprefix("readings-"): v for n, v in readings.items() if n.startswith("readings-")} or None
    names = [place.name for place in PLACES if place.field == field]
    if any(name not in readings for name in names):
        return None
    return readings[field] if field == "depth" else [readings[name] for name in names]


def _with(raw: Raw, fields: Sequence[str], readings: Mapping[str, float]) -> Raw:
    now = {**raw, **{field: _value(field, readings) for field in fields}}
    if now.get("state") == "planned" and {"widths", "heights"} <= now.keys():
        now = {name: value for name, value in now.items() if name not in ("state", "leaf", "clear")}
    return now


def ready(job: Job, book: Book, mark: str, draft: Mapping[str, object]) -> Ready:
    """Find what of a draft the job can take: sets that are complete, all of them together or each by itself.

    A planned opening, or one that is not in the job yet, needs its three widths and three heights first.

    Parameters
    ----------
    job : Job
    book : Book
    mark : str
        The opening.
    draft : mapping
        What is kept for it.
    """
    document = cast("Raw", store.as_document(job))
    raws = list(cast("list[Raw]", document.get("openings", [])))
    at = next((n for n, o in enumerate(job.openings) if o.mark == mark), None)
    opening = job.openings[at] if at is not None else None
    readings = readings_of(opening, draft)
    changed = {place.field for name in draft if (place := place_named(name)) is not None}
    complete = [
        f for f in ("widths", "heights", "diagonals", "depth", "readings") if f in changed and _value(f, readings)
    ]
    tries: list[Sequence[str]] = [tuple(complete)]
    if opening is None or opening.state == "planned":
        if not {"widths", "heights"} <= set(complete):
            return Ready(None, (), ())
        tries += [("widths", "heights"), ("diagonals",), ("depth",), ("readings",)]
    else:
        tries += _SETS
    start = raws[at] if at is not None else {"mark": mark, **{k: v for k in ABOUT if (v := draft.get(k))}}
    return _tried(document, raws, at, start, [t for t in tries if t and set(t) <= set(complete)], readings, book)


def _tried(
    document: Raw,
    raws: list[Raw],
    at: int | None,
    start: Raw,
    tries: Sequence[Sequence[str]],
    readings: Mapping[str, float],
    book: Book,
) -> Ready:
    best: Job | None = None
    taken: list[str] = []
    faults: dict[str, None] = {}
    for fields in tries:
        new = [f for f in fields if f not in taken]
        if not new:
            continue
        raw = _with(start, new, readings)
        listed = [*raws, raw] if at is None else [*raws[:at], raw, *raws[at + 1 :]]
        try:
            held = len(listed) if at is None else at + 1
            best = store.read_job_document({**document, "openings": listed}, book, held=("openings", held))
        except InputError as error:
            faults.update((in_words(fault), None) for fault in error.faults)
        else:
            start, taken = raw, [*taken, *new]
            if set(fields) == set(tries[0]):
                return Ready(best, tuple(taken), ())
    return Ready(best, tuple(taken), tuple(faults))
