"""Readings as taken: what was read, where, with what; and the words they are called by.

Corners are A (foot left), B (foot right), C (head right), D (head left), seen from the front. Signs: out of plumb is
positive where the upper end stands further right; out of level is positive where the right end stands higher; a bow is
positive where the middle stands into the opening.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rodbook.errors import Fault, InputError, Message

__all__ = ["Place", "Reading", "bow", "checked", "depth", "diagonal", "height", "level", "numbered", "plumb", "width"]

type Place = str | float
"""A named place ("foot", "middle", "head"; "left", "middle", "right") or millimetres from the foot of the left side."""

Kind = Literal["width", "height", "diagonal", "plumb", "level", "bow", "depth"]

LARGEST_MM = 20000.0
"""No opening is read larger (house assumption)."""

LARGEST_OFFSET_MM = 1000.0
"""No side is further out of plumb, level or straight, save a raked head (house assumption)."""

_HEIGHTS, _STATIONS = ("foot", "middle", "head"), ("left", "middle", "right")
_PLACES: dict[str, tuple[str, ...]] = {"width": _HEIGHTS, "height": _STATIONS, "plumb": _HEIGHTS, "level": _STATIONS}
_PARTS: dict[str, tuple[str, ...]] = {
    "plumb": ("left side", "right side"),
    "level": ("floor", "head"),
    "bow": ("left side", "right side", "floor", "head"),
    "diagonal": ("foot left to head right", "foot right to head left"),
}
_COUNTED = ("", "", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")


@dataclass(frozen=True)
class Reading:
    """One measurement as taken. Make one with `width`, `height`, `diagonal`, `plumb`, `level`, `bow` or `depth`.

    Parameters
    ----------
    kind : str
        What was read.
    value_mm : float
        What it said. [mm]
    at : str or float
        Where it was read; for plumb and level, the place further up or further right.
    part : str
        For plumb, level, bow and diagonal: of what.
    start : str or float
        For plumb and level: the place that `at` is compared with.
    by : str
        Instrument.
    standard_error_mm : float, optional
        Its own standard error instead of the instrument's. [mm]
    count : int
        1, or 2 and more where the same thing was read again.
    """

    kind: Kind
    value_mm: float
    at: Place = ""
    part: str = ""
    start: Place = ""
    by: str = "tape"
    standard_error_mm: float | None = None
    count: int = 1

    @property
    def name(self) -> str:
        """What it is called: ``width at foot``, ``left side out of plumb at head``, with its count where read again."""
        again = (
            f", {_COUNTED[self.count] if self.count < len(_COUNTED) else self.count} reading" if self.count > 1 else ""
        )
        return self.what + again

    @property
    def what(self) -> str:
        """What was read, whichever time it was: ``width at foot``."""
        match self.kind:
            case "diagonal":
                return f"diagonal {self.part}"
            case "bow":
                return f"bow of the {self.part}"
            case "plumb" | "level":
                usual = "foot" if self.kind == "plumb" else "left"
                since = "" if self.start == usual else f", from {_place(self.start)}"
                return f"{self.part} out of {self.kind} at {_place(self.at)}{since}"
            case _:
                return f"{self.kind} at {_place(self.at)}"

    @property
    def can_be_negative(self) -> bool:
        """Whether its sign says a direction."""
        return self.kind in ("plumb", "level", "bow")


def _place(place: Place) -> str:
    return place if isinstance(place, str) else f"{place:g} mm"


def width(value_mm: float, at: Place, *, by: str = "tape", standard_error_mm: float | None = None) -> Reading:
    """Width read level, at "foot", "middle", "head" or at a height above the foot of the left side. [mm]

    >>> width(842, "foot").name
    'width at foot'
    """
    return Reading("width", value_mm, at, by=by, standard_error_mm=standard_error_mm)


def height(value_mm: float, at: Place, *, by: str = "tape", standard_error_mm: float | None = None) -> Reading:
    """Height read plumb, at "left", "middle", "right" or at a distance from the foot of the left side. [mm]"""
    return Reading("height", value_mm, at, by=by, standard_error_mm=standard_error_mm)


def diagonal(
    value_mm: float,
    start: Literal["foot left", "foot right"],
    *,
    by: str = "tape",
    standard_error_mm: float | None = None,
) -> Reading:
    """Diagonal from one foot to the head of the other side. [mm]

    >>> diagonal(2181, "foot left").name
    'diagonal foot left to head right'
    """
    part = {"foot left": _PARTS["diagonal"][0], "foot right": _PARTS["diagonal"][1]}.get(start, start)
    return Reading("diagonal", value_mm, part=part, by=by, standard_error_mm=standard_error_mm)


def plumb(
    side: Literal["left", "right"],
    value_mm: float,
    at: Place = "head",
    *,
    start: Place = "foot",
    by: str = "plumb",
    standard_error_mm: float | None = None,
) -> Reading:
    """How far a side stands further right at one height than at another, foot to head unless said otherwise. [mm]

    >>> plumb("left", 3).name
    'left side out of plumb at head'
    """
    return Reading("plumb", value_mm, at, f"{side} side", start, by, standard_error_mm)


def level(
    part: Literal["floor", "head"],
    value_mm: float,
    at: Place = "right",
    *,
    start: Place = "left",
    by: str = "level",
    standard_error_mm: float | None = None,
) -> Reading:
    """How far floor or head stands higher at one station than at another, left to right unless said otherwise. [mm]"""
    return Reading("level", value_mm, at, part, start, by, standard_error_mm)


def bow(
    part: Literal["left", "right", "floor", "head"],
    value_mm: float,
    *,
    by: str = "level",
    standard_error_mm: float | None = None,
) -> Reading:
    """How far the middle of a side, floor or head stands into the opening from a line between its ends. [mm]"""
    whole = f"{part} side" if part in ("left", "right") else part
    return Reading("bow", value_mm, "middle", whole, by=by, standard_error_mm=standard_error_mm)


def depth(value_mm: float, at: str = "foot", *, by: str = "tape", standard_error_mm: float | None = None) -> Reading:
    """Clear depth behind the wall's face, at any place that has a name. [mm]"""
    return Reading("depth", value_mm, at, by=by, standard_error_mm=standard_error_mm)


def numbered(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """Count those that read the same thing again, so that every reading has a name of its own.

    >>> [r.name for r in numbered([width(842, "foot"), width(843, "foot")])]
    ['width at foot', 'width at foot, second reading']
    """
    seen: Counter[str] = Counter()
    counted = []
    for reading in readings:
        seen[reading.what] += 1
        counted.append(reading if reading.count == seen[reading.what] else replace(reading, count=seen[reading.what]))
    return tuple(counted)


def checked(readings: Sequence[Reading], instruments: Iterable[str]) -> tuple[Reading, ...]:
    """Number the readings and refuse what can't be one, all faults at once.

    Raises
    ------
    InputError
        For every value, place, part or instrument that can't be.
    """
    known = tuple(instruments)
    counted = numbered(readings)
    faults = [Fault(reading.name, what) for reading in counted for what in _wrong(reading, known)]
    if faults:
        raise InputError(faults)
    return counted


def _wrong(reading: Reading, instruments: tuple[str, ...]) -> list[Message]:
    results = []
    value = reading.value_mm
    if not math.isfinite(value):
        return [Message("survey.not_a_length", value=value)]
    if reading.can_be_negative:
        raked = reading.kind == "level" and reading.part == "head"
        if abs(value) > (LARGEST_MM if raked else LARGEST_OFFSET_MM):
            results.append(
                Message("survey.out_by_too_much", value_mm=value, most_mm=LARGEST_OFFSET_MM, part=reading.part)
            )
    elif not 0 < value <= LARGEST_MM:
        results.append(Message("survey.size_out_of_range", value_mm=value, kind=reading.kind, most_mm=LARGEST_MM))
    error = reading.standard_error_mm
    if error is not None and not 0 < error < math.inf:
        results.append(Message("survey.no_standard_error", error_mm=error))
    if error is None and reading.by not in instruments:
        results.append(Message("survey.no_such_instrument", name=reading.by, instruments=instruments))
    if reading.kind in _PARTS and reading.part not in _PARTS[reading.kind]:
        results.append(Message("survey.no_such_part", part=reading.part, parts=tuple(_PARTS[reading.kind])))
    if reading.kind in _PLACES:
        ends = (reading.at, reading.start) if reading.kind in ("plumb", "level") else (reading.at,)
        names = _PLACES[reading.kind]
        results += [_no_place(place, names) for place in ends if not _is_place(place, names)]
        if len(ends) == 2 and ends[0] == ends[1]:
            results.append(Message("survey.compares_with_itself"))
    return results


def _is_place(place: Place, names: tuple[str, ...]) -> bool:
    return place in names if isinstance(place, str) else 0 <= place <= LARGEST_MM


def _no_place(place: Place, names: tuple[str, ...]) -> Message:
    others = {"names": names[:-1], "last": names[-1]}
    if isinstance(place, str):
        return Message("survey.no_such_place", place=place, **others)
    return Message("survey.no_such_place_mm", place_mm=place, **others)
