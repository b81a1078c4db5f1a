"""What each kind of reading should say of a given outline, and how that changes with every coordinate."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.errors import Infeasible
from rodbook.survey.outline import Outline, Terms, crossing
from rodbook.survey.readings import Place, Reading

__all__ = ["Touching", "observe"]

_MIDDLE_OF = {"left side": "L", "right side": "R", "floor": "F", "head": "H"}
_ENDS = {"left side": ("A", "D"), "right side": ("B", "C"), "floor": ("A", "B"), "head": ("D", "C")}
_INTO = {"left side": -1, "right side": 1, "floor": 1, "head": -1}
"""Sign that makes a bow into the opening positive, for chains that run foot to head and left to right."""

_DIAGONALS = {"foot left to head right": "AC", "foot right to head left": "BD"}


@dataclass(frozen=True)
class Touching:
    """Which corners a tape meets: at the foot the higher one, at the head the lower, at each side the one further in."""

    foot: str = "A"
    head: str = "D"
    left: str = "A"
    right: str = "B"

    @classmethod
    def of(cls, flat: Sequence[float], outline: Outline) -> Touching:
        """As these coordinates have it."""
        place = {name: (flat[outline.x(name)], flat[outline.x(name) + 1]) for name in "ABCD"}
        return cls(
            max("AB", key=lambda name: place[name][1]),
            min("DC", key=lambda name: place[name][1]),
            max("AD", key=lambda name: place[name][0]),
            min("BC", key=lambda name: place[name][0]),
        )


def observe(reading: Reading, flat: Sequence[float], outline: Outline, touching: Touching) -> tuple[float, Terms]:
    """Value that the outline gives for a reading, and its slopes.

    A tape held level at the foot lies on a foot corner, one at the head meets a head corner; a plumb one at the left or
    right stands at a corner of that side. Middle is half way between.

    Parameters
    ----------
    reading : Reading
        Any but a depth.
    flat : sequence of float
        Coordinates in the order of the outline. [mm]
    outline : Outline
        Which points there are.
    touching : Touching
        Which corners these are.

    Returns
    -------
    tuple
        Value and its slopes with regard to single coordinates. [mm]

    Raises
    ------
    Infeasible
        If corners of the outline fall together.
    """
    match reading.kind:
        case "width":
            return _span(flat, outline, _level_at(reading.at, flat, outline, touching), plumb=False)
        case "height":
            return _span(flat, outline, _plumb_at(reading.at, flat, outline, touching), plumb=True)
        case "diagonal":
            return _distance(flat, *(outline.x(name) for name in _DIAGONALS[reading.part]))
        case "plumb" | "level":
            return _offset(reading, flat, outline)
        case "bow":
            return _bow(reading.part, flat, outline)
        case _:
            raise ValueError(f"an outline has no {reading.kind}")


def _level_at(place: Place, flat: Sequence[float], outline: Outline, touching: Touching) -> tuple[float, Terms]:
    if not isinstance(place, str):
        return place, []
    low, high = outline.x(touching.foot) + 1, outline.x(touching.head) + 1
    return _between(flat, place, low, high, names=("foot", "head"))


def _plumb_at(place: Place, flat: Sequence[float], outline: Outline, touching: Touching) -> tuple[float, Terms]:
    if not isinstance(place, str):
        return place, []
    low, high = outline.x(touching.left), outline.x(touching.right)
    return _between(flat, place, low, high, names=("left", "right"))


def _between(flat: Sequence[float], place: str, low: int, high: int, *, names: tuple[str, str]) -> tuple[float, Terms]:
    if place == names[0]:
        return flat[low], [(low, 1.0)]
    if place == names[1]:
        return flat[high], [(high, 1.0)]
    return (flat[low] + flat[high]) / 2, [(low, 0.5), (high, 0.5)]


def _span(flat: Sequence[float], outline: Outline, at: tuple[float, Terms], *, plumb: bool) -> tuple[float, Terms]:
    near, far = (
        (outline.chain("floor"), outline.chain("head"))
        if plumb
        else (
            outline.chain("left side"),
            outline.chain("right side"),
        )
    )
    low, low_terms, low_slope = crossing(flat, near, at[0], plumb=plumb)
    high, terms, high_slope = crossing(flat, far, at[0], plumb=plumb)
    terms += [(place, -slope) for place, slope in low_terms]
    terms += [(place, slope * (high_slope - low_slope)) for place, slope in at[1]]
    return high - low, terms


def _distance(flat: Sequence[float], p: int, q: int) -> tuple[float, Terms]:
    dx, dy = flat[q] - flat[p], flat[q + 1] - flat[p + 1]
    length = math.hypot(dx, dy)
    if length < 1:
        raise Infeasible("survey.corners_fall_together")
    return length, [(q, dx / length), (p, -dx / length), (q + 1, dy / length), (p + 1, -dy / length)]


def _offset(reading: Reading, flat: Sequence[float], outline: Outline) -> tuple[float, Terms]:
    high, terms = _on_chain(reading, reading.at, flat, outline)
    low, low_terms = _on_chain(reading, reading.start, flat, outline)
    return high - low, terms + [(place, -slope) for place, slope in low_terms]


def _on_chain(reading: Reading, place: Place, flat: Sequence[float], outline: Outline) -> tuple[float, Terms]:
    plumb = reading.kind == "level"
    own = 1 if plumb else 0
    if isinstance(place, str):
        first, last = _ENDS[reading.part]
        name = {"foot": first, "left": first, "head": last, "right": last}.get(place, _MIDDLE_OF[reading.part])
        if name in outline.names:
            return flat[outline.x(name) + own], [(outline.x(name) + own, 1.0)]
        p, q = outline.x(first) + own, outline.x(last) + own
        return (flat[p] + flat[q]) / 2, [(p, 0.5), (q, 0.5)]
    value, terms, _ = crossing(flat, outline.chain(reading.part), place, plumb=plumb)  # type: ignore[arg-type]
    return value, terms


def _bow(part: str, flat: Sequence[float], outline: Outline) -> tuple[float, Terms]:
    p, q = (outline.x(name) for name in _ENDS[part])
    m = outline.x(_MIDDLE_OF[part])
    length, spread = _distance(flat, p, q)
    ux, uy = flat[q] - flat[p], flat[q + 1] - flat[p + 1]
    vx, vy = flat[m] - flat[p], flat[m + 1] - flat[p + 1]
    sign = _INTO[part] / length
    turn = sign * (ux * vy - uy * vx)
    terms = [
        (q, sign * vy),
        (q + 1, -sign * vx),
        (m, -sign * uy),
        (m + 1, sign * ux),
        (p, sign * (uy - vy)),
        (p + 1, sign * (vx - ux)),
    ]
    return turn, terms + [(place, -turn / length * slope) for place, slope in spread]
