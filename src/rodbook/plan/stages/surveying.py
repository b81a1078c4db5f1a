"""The readings of a standing opening as the survey takes them, its shape, and how a lining is packed in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, Literal

from rodbook.job import Book, Opening
from rodbook.job.readings import ReadingName, reading_name
from rodbook.survey import (
    BUILDINGS,
    INSTRUMENTS,
    OLD,
    Building,
    Helps,
    Instrument,
    OneMore,
    Reading,
    Shape,
    Survey,
    UprightRectangle,
    bow,
    depth,
    diagonal,
    height,
    level,
    most_helpful,
    one_more_reading,
    plumb,
    raked_rectangle_from_shape,
    rectangle_from_shape,
    survey_opening,
    width,
)
from rodbook.survey.readings import numbered

__all__ = [
    "building_of",
    "helps_most",
    "instruments_of",
    "next_reading",
    "places_of",
    "reading_called",
    "readings_of",
    "rectangle_of",
    "survey_of",
]

_ACROSS: tuple[Literal["foot", "middle", "head"], ...] = ("foot", "middle", "head")
_UP: tuple[Literal["left", "middle", "right"], ...] = ("left", "middle", "right")
_FEET: tuple[Literal["foot left", "foot right"], ...] = ("foot left", "foot right")

_from_shape = lru_cache(maxsize=1024)(rectangle_from_shape)
_under_rake = lru_cache(maxsize=1024)(raked_rectangle_from_shape)
"""Kept by their readings: a changed margin or a changed opening leaves all the others as they are."""


def instruments_of(book: Book) -> Mapping[str, Instrument]:
    """Standard errors by instrument: the usual ones, and over them what the book says.

    Parameters
    ----------
    book : Book
    """
    own = {e.name: Instrument(e.name, e.error, e.error_per_metre, e.source) for e in book.instruments}
    return {**INSTRUMENTS, **own}


def building_of(book: Book, age: str) -> Building:
    """What is taken for granted of a building of this age: the book's own figures, else the usual ones.

    Parameters
    ----------
    book : Book
    age : str
        As the job says it.
    """
    own = next((e for e in book.ages if e.name == age), None)
    if own is None:
        return BUILDINGS[age]
    return Building(own.name, own.plumb_per_metre, own.level_per_metre, own.bow_per_metre, own.ripple, own.source)


def readings_of(opening: Opening) -> tuple[Reading, ...]:
    """Every reading of a standing opening, in the order in which one walks round it.

    Parameters
    ----------
    opening : Opening

    Examples
    --------
    >>> opening = Opening.model_validate({"mark": "C1", "widths": (842, 843, 843), "heights": (2030, 2030, 2031),
    ...     "readings": {"plumb-left": 3}})
    >>> [reading.name for reading in readings_of(opening)][-2:]
    ['height at right', 'left side out of plumb at head']
    """
    return tuple(_read_by(opening, name, reading) for _, _, name, reading in _walked(opening))


def places_of(opening: Opening) -> dict[str, tuple[str, int | str | None]]:
    """Where in the document each reading stands, by what the survey calls it: its field, and which value of it.

    >>> opening = Opening.model_validate({"mark": "C1", "widths": (842, 843, 843), "heights": (2030, 2030, 2031),
    ...     "readings": {"plumb-left": 3, "plumb-left-again": 4, "width-foot": 842}})
    >>> found = places_of(opening)
    >>> found["width at foot"], found["width at foot, second reading"]
    (('widths', 0), ('readings', 'width-foot'))
    >>> found["left side out of plumb at head, second reading"]
    ('readings', 'plumb-left-again')
    """
    walked = _walked(opening)
    names = (reading.name for reading in numbered(reading for _, _, _, reading in walked))
    return {name: (field, index) for name, (field, index, _, _) in zip(names, walked, strict=True)}


def _walked(opening: Opening) -> list[tuple[str, int | str | None, str, Reading]]:
    """Each reading with its field, which value of it, and its name."""
    results: list[tuple[str, int | str | None, str, Reading]] = []
    if opening.widths is not None:
        for n, (value, at) in enumerate(zip(opening.widths, _ACROSS, strict=True)):
            results.append(("widths", n, f"width-{at}", width(value, at)))
    if opening.heights is not None:
        for n, (value, beside) in enumerate(zip(opening.heights, _UP, strict=True)):
            results.append(("heights", n, f"height-{beside}", height(value, beside)))
    if opening.diagonals is not None:
        for n, (value, foot) in enumerate(zip(opening.diagonals, _FEET, strict=True)):
            results.append(("diagonals", n, f"diagonal-{foot.removeprefix('foot ')}", diagonal(value, foot)))
    if opening.depth is not None:
        results.append(("depth", None, "depth", depth(opening.depth)))
    for name, value in opening.readings.items():
        meaning = reading_name(name)
        if meaning is not None:
            results.append(("readings", name, name, _further(meaning, value)))
    return results


def reading_called(name: str) -> str:
    """What a further reading is called in words; empty for a name that is none.

    >>> reading_called("plumb-left"), reading_called("width-600-again")
    ('left side out of plumb at head', 'width at 600 mm, once more')
    """
    meaning = reading_name(name)
    if meaning is None:
        return ""
    return _further(meaning, 1.0).what + (", once more" if meaning.again else "")


def _further(name: ReadingName, value: float) -> Reading:
    part: Any = name.part
    match name.kind:
        case "width":
            return width(value, name.at)
        case "height":
            return height(value, name.at)
        case "diagonal":
            return diagonal(value, _FEET[name.part == "right"])
        case "plumb":
            return plumb(part, value, name.at or "head")
        case "level":
            return level(part, value, name.at or "right")
        case "bow":
            return bow(part, value)
        case "depth":
            return depth(value, str(name.at))


def _read_by(opening: Opening, name: str, reading: Reading) -> Reading:
    """The reading with its instrument: the one said for it by name, else the one said for its kind, else the usual one."""
    by = opening.read_by.get(name) or opening.read_by.get(reading.kind)
    return replace(reading, by=by) if by else reading


def survey_of(opening: Opening, book: Book, age: str = OLD.name) -> Survey:
    """The shape of a standing opening, with what was misread.

    Parameters
    ----------
    opening : Opening
    book : Book
        For its instruments.
    age : str
        How old the building is.

    Raises
    ------
    InputError
        If no outline comes of the readings.
    """
    instruments = tuple(instruments_of(book).items())
    return _surveyed(readings_of(opening), opening.head == "raked", instruments, building_of(book, age))


@lru_cache(maxsize=2048)
def _surveyed(
    readings: tuple[Reading, ...],
    raked: bool,  # noqa: FBT001
    instruments: tuple[tuple[str, Instrument], ...],
    building: Building,
) -> Survey:
    return survey_opening(readings, raked=raked, instruments=dict(instruments), building=building)


def next_reading(opening: Opening, book: Book) -> OneMore | None:
    """The one reading that would check most of what nothing checks; None where all is checked or nothing helps.

    Parameters
    ----------
    opening : Opening
    book : Book
    """
    return _next(readings_of(opening), opening.head == "raked", tuple(instruments_of(book).items()))


@lru_cache(maxsize=256)
def _next(
    readings: tuple[Reading, ...],
    raked: bool,  # noqa: FBT001
    instruments: tuple[tuple[str, Instrument], ...],
) -> OneMore | None:
    return one_more_reading(readings, raked=raked, instruments=dict(instruments))


def rectangle_of(opening: Opening, survey: Survey) -> UprightRectangle:
    """What an opening offers to a lining that stands upright in it, as its shape has it.

    Parameters
    ----------
    opening : Opening
    survey : Survey

    Raises
    ------
    Infeasible
        If nothing upright fits between the sides.
    """
    return (_under_rake if opening.head == "raked" else _from_shape)(survey.shape)


def helps_most(opening: Opening, survey: Survey, book: Book) -> Helps | None:
    """The one reading that would make what an opening offers surest; None where none would gain much.

    Parameters
    ----------
    opening : Opening
    survey : Survey
        Of the opening.
    book : Book
        For its instruments.
    """
    return _helps(readings_of(opening), survey.shape, tuple(instruments_of(book).items()))


@lru_cache(maxsize=2048)
def _helps(
    readings: tuple[Reading, ...], shape: Shape, instruments: tuple[tuple[str, Instrument], ...]
) -> Helps | None:
    return most_helpful(readings, shape, instruments=dict(instruments))
