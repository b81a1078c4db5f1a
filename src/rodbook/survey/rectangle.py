"""The largest upright rectangle that fits an opening, from three widths, three heights and two diagonals."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import Message
from rodbook.survey.squareness import lean_from_diagonals
from rodbook.working import Measure, least

__all__ = ["Station", "UprightRectangle", "upright_rectangle"]

_PLACES = ("foot", "middle", "head")
_STATIONS = ("left", "middle", "right")


@dataclass(frozen=True)
class Station:
    """Where the two sides of an opening stand at one height.

    Parameters
    ----------
    place : str
        "foot", "middle" or "head".
    left_mm, right_mm : float
        From the foot of the left side, level, to the right. [mm]
    """

    place: str
    left_mm: float
    right_mm: float


@dataclass(frozen=True)
class UprightRectangle:
    """What an opening offers to a lining that stands upright in it.

    Parameters
    ----------
    width, height : Measure
        Of the rectangle. [mm]
    left_mm : float
        Where its left side stands in the middle of what there is room for, from the foot of the opening's left side. [mm]
    stations : tuple of Station
        The opening's sides at foot, middle and head.
    heads_mm : tuple of float
        The three heights. [mm]
    lean_mm : float
        How far the sides lean to the right over their height. [mm]
    remarks : tuple of Message
        What was assumed, and what nothing checks.
    width_error_mm, height_error_mm : float, optional
        Standard errors of the sizes; None where nothing was adjusted. [mm]
    """

    width: Measure
    height: Measure
    left_mm: float
    stations: tuple[Station, ...]
    heads_mm: tuple[float, float, float]
    lean_mm: float
    remarks: tuple[Message, ...]
    width_error_mm: float | None = None
    height_error_mm: float | None = None


def upright_rectangle(
    widths_mm: tuple[float, float, float],
    heights_mm: tuple[float, float, float],
    *,
    diagonals_mm: tuple[float, float] | None = None,
) -> UprightRectangle:
    """Find the widest upright rectangle between the sides, as high as the least reading of the head.

    A bow may be in either side: the width is the lesser of those that either would leave, and what is drawn shares the bow
    between both, so that a mirrored opening has a mirrored result. Without diagonals the sides are taken as plumb on the mean,
    and a remark says that nothing checks it. The floor is taken as level.

    Parameters
    ----------
    widths_mm : tuple of float
        Read level at foot, middle and head. [mm]
    heights_mm : tuple of float
        Read plumb at left, middle and right. [mm]
    diagonals_mm : tuple of float, optional
        Foot left to head right, foot right to head left. [mm]

    Returns
    -------
    UprightRectangle

    Raises
    ------
    InputError
        If the diagonals can't belong to the widths and heights.

    Examples
    --------
    >>> upright_rectangle((843, 842, 843), (2012, 2010, 2013)).width.working()
    'opening width = least of width at foot 843.0, width at middle 842.0, width at head 843.0 = 842.0'
    """
    widths = [
        Measure(value, f"width at {place}", source="reading") for value, place in zip(widths_mm, _PLACES, strict=True)
    ]
    heights = [
        Measure(value, f"height at {place}", source="reading")
        for value, place in zip(heights_mm, _STATIONS, strict=True)
    ]
    lean, remarks = _lean(widths_mm, heights_mm, diagonals_mm)
    bow = (widths_mm[0] + widths_mm[2]) / 2 - widths_mm[1]
    stations = _stations(widths_mm, lean, bow / 2)
    room = min(right - left for left, right in (_inner(_stations(widths_mm, lean, one)) for one in (0.0, bow)))
    inner_left = sum(_inner(stations)) / 2 - room / 2
    width = least(*widths, name="opening width")
    lost = width.value - room
    if lost > 1e-9:
        width = (width - Measure(lost, "lost to leaning sides", source="from the diagonals")).named("upright width")
    return UprightRectangle(
        width, least(*heights, name="opening height"), inner_left, stations, heights_mm, lean, tuple(remarks)
    )


def _stations(widths: tuple[float, float, float], lean: float, left_bow: float) -> tuple[Station, ...]:
    """The sides at foot, middle and head, the left one that far into the opening at its middle."""
    lefts = (0.0, lean / 2 + left_bow, lean)
    return tuple(Station(place, left, left + width) for place, left, width in zip(_PLACES, lefts, widths, strict=True))


def _inner(stations: tuple[Station, ...]) -> tuple[float, float]:
    """How far in both sides stand. [mm]"""
    return max(station.left_mm for station in stations), min(station.right_mm for station in stations)


def _lean(
    widths: tuple[float, float, float], heights: tuple[float, float, float], diagonals: tuple[float, float] | None
) -> tuple[float, list[Message]]:
    if diagonals is None:
        return (widths[0] - widths[2]) / 2, [Message("survey.no_diagonals")]
    lean, doubt = lean_from_diagonals(
        diagonals, foot_width_mm=widths[0], head_width_mm=widths[2], heights_mm=(heights[0], heights[2])
    )
    remarks = [Message("survey.floor_taken_level")]
    if abs(lean) >= LEAN_SAID_MM:
        code = "survey.sides_lean_right" if lean > 0 else "survey.sides_lean_left"
        remarks.append(Message(code, lean_mm=round(abs(lean), 1)))
    if doubt > _DOUBT_MM:
        remarks.append(Message("survey.diagonals_disagree", lean_mm=round(doubt, 1)))
    return lean, remarks


LEAN_SAID_MM = 5.0
"""A lean from here on is said in words (house assumption); a smaller one only shows in the packers."""

_DOUBT_MM = 8.0
"""Half-difference of the two leans above which the diagonals are asked for again (house assumption: 2 mm of tape)."""
