"""Older documents brought up to the layout that this code reads, one format at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rodbook.errors import InputError, Message
from rodbook.job.book import BOOK_FORMAT
from rodbook.job.models import FORMAT
from rodbook.job.units import THROUGH, parse_length

__all__ = ["BOOK_CURRENT", "BOOK_STEPS", "CURRENT", "JOB_STEPS", "Raw", "Step", "upgrade"]

CURRENT = FORMAT
"""The format of a job that is written, and up to which any older one is read."""

BOOK_CURRENT = BOOK_FORMAT
"""The same of a book."""

type Raw = dict[str, Any]
type Step = Callable[[Raw], Raw]
"""Turns a document of one format into the next; it leaves alone whatever it does not expect, for the reader to name."""

_SHORT_NAMES = {"w": "widths", "h": "heights"}


def _full_names(raw: Raw) -> Raw:
    """0 to 1: the readings of an opening were called ``w`` and ``h`` before the first release."""
    openings = raw.get("openings")
    if not isinstance(openings, list):
        return raw
    return {**raw, "openings": [_renamed(opening) if isinstance(opening, dict) else opening for opening in openings]}


def _renamed(opening: Raw) -> Raw:
    taken = opening.keys()
    return {
        full if (full := _SHORT_NAMES.get(name, name)) == name or full not in taken else name: value
        for name, value in opening.items()
    }


JOB_STEPS: Mapping[int, Step] = {0: _full_names}
"""For each older format of a job, the step to the next one."""


def _said_through(raw: Raw) -> Raw:
    """1 to 2: a fitting's holes that go right through were given the depth 0; what depth 0 meant is written out."""
    fittings = raw.get("fittings")
    if not isinstance(fittings, list):
        return raw
    return {**raw, "fittings": [_through(fitting) for fitting in fittings]}


def _through(fitting: object) -> object:
    if not isinstance(fitting, dict) or "depth" not in fitting:
        return fitting
    try:
        depth = parse_length(fitting["depth"])
    except ValueError:
        return fitting
    return fitting if depth else {**fitting, "depth": THROUGH}


BOOK_STEPS: Mapping[int, Step] = {1: _said_through}
"""For each older format of a book, the step to the next one; the book came with format 1."""


def upgrade(raw: Raw, *, steps: Mapping[int, Step] = JOB_STEPS, current: int = CURRENT) -> Raw:
    """Bring a document up to the current format; what was handed in is left as it was.

    Parameters
    ----------
    raw : dict
        The document as it was read.
    steps : mapping of int to callable
        For each older format, the step to the next one.
    current : int
        The format to reach.

    Raises
    ------
    InputError
        If the format is missing, is no whole number, is newer than `current`, or is one that never was.

    Examples
    --------
    >>> upgrade({"format": 0, "openings": [{"mark": "C1", "w": [840, 840, 840]}]})
    {'format': 1, 'openings': [{'mark': 'C1', 'widths': [840, 840, 840]}]}
    """
    if "format" not in raw:
        raise InputError.at("format", "file.format_missing", current=current)
    result = raw["format"]
    if isinstance(result, bool) or not isinstance(result, int):
        raise InputError.at("format", "file.format_no_whole_number", current=current)
    if result > current:
        raise InputError.at(
            "format", "file.of_newer_format", format=_short(result, "value.many_digits"), current=current
        )
    for number in range(max(result, -1), current):
        if number not in steps:
            raise InputError.at(
                "format", "file.no_such_format", format=_short(result, "value.of_that_number"), current=current
            )
        raw = {**steps[number](raw), "format": number + 1}
    return raw


def _short(number: int, called: str) -> int | Message:
    return number if abs(number) < 1_000_000 else Message(called)
