"""What can be read of a document that can't be read as a whole, so that its sound parts are checked all the same."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date as Date  # noqa: N812

from pydantic import ValidationError

from rodbook.job.book import Board, Fitting, HingeCount, HingeType, Rate, Section, Workshop
from rodbook.job.build_ups.registry import read_build_up
from rodbook.job.checks import BookParts, Entries, JobParts
from rodbook.job.models import JobHeader, Opening, Panel, PriceTerms, Run

__all__ = ["book_parts", "job_parts", "marks_in", "name_in", "opening_alone"]

_MOST_ENTRIES = 2000
"""Entries of a list that are looked at one by one; no list has more."""

_OPENING_KEY = frozenset(
    {
        "mark",
        "state",
        "build_up",
        "head",
        "leaf",
        "clear",
        "leaf_widths",
        "leaf_shares",
        "floor_finish",
    }
)
"""Fields of an opening that others are checked against."""

_OPENING_ALONE = frozenset(Opening.model_fields) - _OPENING_KEY
_HEADER_ALONE = frozenset({"number", "client", "site", "revision", "note"})
_PANEL_ALONE = frozenset({"room", "note", "quantity"})
"""Fields without which the others can be checked all the same; that they are missing is then no fault of its own."""

type _Reader[T] = Callable[[object], T]


def _alone[T](read: _Reader[T], raw: object, harmless: frozenset[str] = frozenset()) -> T | None:
    """One entry read by itself, without unknown and harmless fields if they are all that is wrong with it."""
    try:
        return read(raw)
    except ValidationError as error:
        result = error.errors(include_url=False)
    unknown = {entry["loc"][0] for entry in result if entry["type"] == "extra_forbidden"}
    wrong = {entry["loc"][0] for entry in result if entry["loc"]}
    if not isinstance(raw, dict) or not wrong or not wrong <= harmless | unknown:
        return None
    try:
        return read({name: value for name, value in raw.items() if name not in wrong})
    except ValidationError:
        return None


def opening_alone(raw: object) -> Opening | None:
    """An opening read by itself, without the fields that are wrong where no other field depends on them."""
    return _alone(Opening.model_validate, raw, _OPENING_ALONE)


def _entries[T](
    read: _Reader[T], raw: object, *, key: str = "name", harmless: frozenset[str] = frozenset()
) -> Entries[T]:
    listed = raw[:_MOST_ENTRIES] if isinstance(raw, list) else []
    results = {n: entry for n, value in enumerate(listed, 1) if (entry := _alone(read, value, harmless)) is not None}
    names = {n: name for n, value in enumerate(listed, 1) if isinstance(value, dict) and (name := _text(value, key))}
    return Entries(results, names)


def _text(raw: Mapping[str, object], key: str) -> str | None:
    value = raw.get(key)
    return value.strip() or None if isinstance(value, str) else None


def name_in(raw: object, key: str) -> str:
    """Mark or name of an entry, whether the rest of it can be read or not; empty where it has none."""
    return (_text(raw, key) or "") if isinstance(raw, dict) else ""


def marks_in(raw: object) -> list[str]:
    """The openings that a run names, whether the rest of it can be read or not."""
    listed = raw.get("openings") if isinstance(raw, dict) else None
    return [mark.strip() for mark in listed if isinstance(mark, str)] if isinstance(listed, list) else []


def job_parts(raw: Mapping[str, object]) -> JobParts:
    """As much of a job as can be read."""
    header = raw.get("job")
    given = header if isinstance(header, dict) else {}
    making, sizes = raw.get("making"), raw.get("sizes")
    day = given.get("date")
    return JobParts(
        _alone(JobHeader.model_validate, header, _HEADER_ALONE),
        _text(given, "build_up"),
        _text(given, "workshop"),
        day if type(day) is Date else None,
        tuple(making) if isinstance(making, dict) else (),
        tuple(sizes) if isinstance(sizes, dict) else (),
        _alone(PriceTerms.model_validate, raw.get("price", {})) or PriceTerms.model_validate({}),
        _entries(Opening.model_validate, raw.get("openings"), key="mark", harmless=_OPENING_ALONE),
        _entries(Panel.model_validate, raw.get("panels"), key="mark", harmless=_PANEL_ALONE),
        _entries(Run.model_validate, raw.get("runs")),
    )


def book_parts(raw: Mapping[str, object]) -> BookParts:
    """As much of a book as can be read."""
    currency = _text(raw, "currency")
    return BookParts(
        currency if currency and re.fullmatch("[A-Z]{3}", currency) else None,
        _text(raw, "locale"),
        _entries(Board.model_validate, raw.get("boards")),
        _entries(Section.model_validate, raw.get("sections")),
        _entries(HingeType.model_validate, raw.get("hinges")),
        _entries(read_build_up, raw.get("build_ups")),
        _entries(Workshop.model_validate, raw.get("workshops")),
        _entries(Rate.model_validate, raw.get("rates")),
        tuple(_entries(HingeCount.model_validate, raw.get("hinge_counts")).read.values()),
        _entries(Fitting.model_validate, raw.get("fittings")),
    )
