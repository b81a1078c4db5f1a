"""The largest upright front that fits an outline: plumb legs, level foot, level or raked head, touching what it must."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from rodbook.errors import Infeasible
from rodbook.survey.adjusting import Vector
from rodbook.survey.assuming import straight_between
from rodbook.survey.building import Building
from rodbook.survey.extremes import Unsure, greatest
from rodbook.survey.outline import Chain, Outline, crossing
from rodbook.survey.shape import Shape
from rodbook.working import Measure

__all__ = ["Head", "UprightFront", "upright_front"]

Head = Literal["level", "raked"]

_TURNS = 60
"""Turns after which the front must have come to rest; two or three are usual."""
_AT_REST_MM = 1e-9
LOPSIDED = 0.278
"""Share of the square of what is lost on average that widens a size's standard error, as the size may lose far more than that but
gain hardly anything: by it 97.5 of 100 halves of a normal distribution stay within 1.96 standard errors of their mean, where the
greater of two places that are level on average is one: (1.441/1.96)^2 - (1 - 2/pi) = 0.278 x 2/pi."""
_APART_MM = 1.0
"""A known place nearer to an end than this is that end: it must not count twice."""

_LEAST_LOST_MM = 0.005
"""Less than this is not taken off a size: nobody would see it in its working."""


@dataclass(frozen=True, eq=False)
class Line:
    """A length that follows from the coordinates: its value, and its slopes with regard to each of them."""

    value: float
    slopes: Vector

    def __add__(self, other: Line | float) -> Line:
        """Sum."""
        if isinstance(other, Line):
            return Line(self.value + other.value, self.slopes + other.slopes)
        return Line(self.value + other, self.slopes)

    def __sub__(self, other: Line) -> Line:
        """Difference."""
        return Line(self.value - other.value, self.slopes - other.slopes)

    def times(self, factor: float) -> Line:
        """Multiple."""
        return Line(self.value * factor, self.slopes * factor)


@dataclass(frozen=True, eq=False)
class Geometry:
    """A shape's outline, asked for lengths that carry their uncertainty; for use inside the survey."""

    outline: Outline
    flat: tuple[float, ...]
    covariance: Vector
    building: Building | None = None

    @classmethod
    def of(cls, shape: Shape) -> Geometry:
        """From a shape's plain values."""
        flat = tuple(value for point in shape.points for value in point)
        return cls(Outline("".join(v.name for v in shape.vertices)), flat, np.array(shape.covariance), shape.building)

    def coordinate(self, place: int) -> Line:
        """One coordinate."""
        slopes = np.zeros(len(self.flat))
        slopes[place] = 1.0
        return Line(self.flat[place], slopes)

    def meets(self, chain: Chain, at: Line) -> Line:
        """Where a level or plumb line at this height or station meets a chain."""
        plumb = chain in ("floor", "head")
        value, terms, slope = crossing(self.flat, self.outline.chain(chain), at.value, plumb=plumb)
        slopes = at.slopes * slope
        for place, share in terms:
            slopes[place] += share
        return Line(value, slopes)

    def within(self, chain: Chain, low: Line, high: Line) -> list[tuple[float, Line, str]]:
        """Points of a chain between two heights or stations, ends included: where, its coordinate, its words."""
        own, across = (1, 0) if chain in ("floor", "head") else (0, 1)
        places = [(low.value, self.meets(chain, low), ""), (high.value, self.meets(chain, high), "")]
        for x in self.outline.chain(chain):
            at = self.flat[x + across]
            if low.value < at < high.value:
                places.append((at, self.coordinate(x + own), self.outline.names[x // 2]))
        return sorted(places, key=lambda entry: entry[0])

    def unsure(self, chain: Chain, at: Line) -> Unsure:
        """Where a level or plumb line meets a chain, with what a side departs from straight between places that are known."""
        line = self.meets(chain, at)
        across = 0 if chain in ("floor", "head") else 1
        known = [self.flat[x + across] for x in self.outline.chain(chain)]
        own = 0.0
        for start, end in pairwise(known):
            if start < at.value < end:
                own = straight_between(self.building, known[-1] - known[0], (at.value - start) / (end - start))
        return Unsure(line.value, line.slopes, own)

    def furthest_in(self, chain: Chain, low: Line, high: Line, *, sign: int) -> Unsure:
        """How far in a chain stands between two heights or stations, `sign` being the way in: on average and how unsure.

        Its ends and its known places may be furthest in, and half way between them the side itself, which is not straight.
        """
        across = 0 if chain in ("floor", "head") else 1
        known = [self.flat[x + across] for x in self.outline.chain(chain)]
        inside = (place for place in known if low.value + _APART_MM < place < high.value - _APART_MM)
        at = [low.value, *inside, high.value]
        ends = {low.value: low, high.value: high}
        if self.building is not None:
            at = sorted([*at, *((a + b) / 2 for a, b in pairwise(at))])
        places = (self.unsure(chain, ends.get(place, self.fixed(place))).times(sign) for place in at)
        return greatest(places, self.covariance).times(sign)

    def unsure_fixed(self, value: float) -> Unsure:
        """The same as an unsure length that is sure."""
        return Unsure(value, np.zeros(len(self.flat)))

    def fixed(self, value: float) -> Line:
        """A length that is set and not read."""
        return Line(value, np.zeros(len(self.flat)))


@dataclass(frozen=True)
class UprightFront:
    """The largest front with plumb legs that fits an opening.

    Parameters
    ----------
    head : str
        "level" or "raked".
    left_mm, right_mm : float
        Where its legs' outer faces stand, from the foot of the opening's left side. [mm]
    foot_mm : float
        Height of its level foot above the foot of the opening's left side. [mm]
    width : Measure
        Between the legs' outer faces. Of a shape that is not sure some place stands further in than its own outline has it,
        so the width is less, by what is so on average. [mm]
    left_height, right_height : Measure
        Of the legs' outer faces, foot to head line; equal under a level head. [mm]
    width_error_mm, left_height_error_mm, right_height_error_mm : float
        Standard errors: of the places that hold it, and of which places these are. [mm]
    touches : tuple of str
        Where the opening holds it, in words.
    """

    head: Head
    left_mm: float
    right_mm: float
    foot_mm: float
    width: Measure
    left_height: Measure
    right_height: Measure
    width_error_mm: float
    left_height_error_mm: float
    right_height_error_mm: float
    touches: tuple[str, ...]

    @property
    def height(self) -> Measure:
        """The lower of both legs. [mm]"""
        return min(self.left_height, self.right_height, key=lambda measure: measure.value)

    @property
    def head_slope_degrees(self) -> float:
        """How far the head line rises to the right. [degrees]"""
        return math.degrees(math.atan2(self.right_height.value - self.left_height.value, self.width.value))


@dataclass(frozen=True, eq=False)
class Found:
    """A front's four sides with their slopes; for use inside the survey."""

    left: Line
    right: Line
    foot: Line
    head_left: Line
    head_right: Line
    touches: tuple[str, ...]

    @property
    def run(self) -> float:
        """Its width. [mm]"""
        return self.right.value - self.left.value


@dataclass(frozen=True, eq=False)
class Extremes:
    """How far in both sides, the floor and the head stand: on average, and how unsure; for use inside the survey."""

    left: Unsure
    right: Unsure
    foot: Unsure
    head: Unsure

    @classmethod
    def of(cls, geometry: Geometry, found: Found) -> Extremes:
        """Over the height and the width of a front."""
        return cls(
            geometry.furthest_in("left side", found.foot, found.head_left, sign=1),
            geometry.furthest_in("right side", found.foot, found.head_right, sign=-1),
            geometry.furthest_in("floor", found.left, found.right, sign=1),
            geometry.furthest_in("head", found.left, found.right, sign=-1),
        )


def error_about(geometry: Geometry, value: float, length: Unsure) -> float:
    """Standard error of a stated length, with what it is out by on average. [mm]"""
    return math.hypot(math.sqrt(length.variance(geometry.covariance)), value - length.mean)


def stated_error(geometry: Geometry, value: float, length: Unsure) -> float:
    """Standard error of a size that is stated as it is on average, with what makes it lopsided. [mm]"""
    lost = max(value - length.mean, 0.0)
    return math.sqrt(length.variance(geometry.covariance) + LOPSIDED * lost**2)


def _on_average(geometry: Geometry, size: Measure, length: Unsure, *, name: str) -> tuple[Measure, float]:
    """A size less an allowance for what is not sure, on average, and its standard error; as it is where all is exact."""
    lost = size.value - length.mean
    if geometry.building is None or lost < _LEAST_LOST_MM:
        return size.named(name), error_about(geometry, size.value, length)
    taken = Measure(lost, "allowance for what is not sure, on average", source="by the standard errors of the shape")
    return (size - taken).named(name), stated_error(geometry, size.value, length)


def upright_front(shape: Shape, *, head: Head = "level") -> UprightFront:
    """Find the largest front with plumb legs and a level foot that fits.

    Straight pieces make up the outline, so the tightest place is always at one of its points or at an end of the leg:
    nothing else is looked at. The front is as wide as the sides let it over its own height, and then as high as floor
    and head let it over its own width. A raked head line is parallel to the line between the head's ends over the
    front, lowered until it lies under the whole head.

    Parameters
    ----------
    shape : Shape
        The opening.
    head : str
        "level" or "raked".

    Returns
    -------
    UprightFront

    Raises
    ------
    Infeasible
        If nothing upright fits between the sides.

    Examples
    --------
    >>> from rodbook.survey import adjust_shape, height, plumb, width
    >>> shape = adjust_shape([width(842, "foot"), width(842, "head"), height(2010, "left"), height(2010, "right"),
    ...     plumb("left", 6), plumb("right", 6)], building=None)
    >>> print(upright_front(shape).width.working())
    upright width = right side at foot right 842.0 − left side at head left 6.0 = 836.0
    """
    geometry = Geometry.of(shape)
    result = find_front(geometry, head)
    return plain(geometry, result, head, shape)


def find_front(geometry: Geometry, head: Head) -> Found:
    """Come to rest on the largest front, from the narrowest and highest one.

    Raises
    ------
    Infeasible
        If nothing upright fits between the sides.
    """
    floor = [geometry.coordinate(x + 1) for x in geometry.outline.chain("floor")]
    roof = [geometry.coordinate(x + 1) for x in geometry.outline.chain("head")]
    foot = min(floor, key=_value)
    head_left = head_right = max(roof, key=_value)
    before: tuple[float, ...] = ()
    for _ in range(_TURNS):
        left, left_at = _tightest(geometry, "left side", foot, head_left, highest=True)
        right, right_at = _tightest(geometry, "right side", foot, head_right, highest=False)
        if right.value - left.value <= 0:
            raise Infeasible("survey.sides_lean_too_far", items=["left side", "right side"])
        foot, foot_at = _tightest(geometry, "floor", left, right, highest=True)
        head_left, head_right, head_at = _head_line(geometry, left, right, head)
        if min(head_left.value, head_right.value) <= foot.value:
            raise Infeasible("survey.floor_and_head_too_far_out", items=["floor", "head"])
        now = tuple(line.value for line in (left, right, foot, head_left, head_right))
        if before and max(abs(a - b) for a, b in zip(now, before, strict=True)) < _AT_REST_MM:
            break
        before = now
    return Found(left, right, foot, head_left, head_right, (left_at, right_at, foot_at, head_at))


def _value(line: Line) -> float:
    return line.value


def _tightest(geometry: Geometry, chain: Chain, low: Line, high: Line, *, highest: bool) -> tuple[Line, str]:
    sign = -1 if highest else 1
    places = geometry.within(chain, low, high)
    at, line, name = min(places, key=lambda entry: (round(sign * entry[1].value, 9), entry[2] == ""))
    return line, f"{chain} at {_where(geometry, chain, at, name)}"


def _where(geometry: Geometry, chain: Chain, at: float, name: str) -> str:
    """Words for a place on a chain: its end, its middle, or millimetres where it is neither."""
    ends = ("left", "right") if chain in ("floor", "head") else ("foot", "head")
    words = {
        "left side": (f"{ends[0]} left", f"{ends[1]} left"),
        "right side": (f"{ends[0]} right", f"{ends[1]} right"),
        "floor": ("foot left", "foot right"),
        "head": ("head left", "head right"),
    }[chain]
    across = 0 if chain in ("floor", "head") else 1
    points = geometry.outline.chain(chain)
    if abs(at - geometry.flat[points[0] + across]) < 1:
        return words[0]
    if abs(at - geometry.flat[points[-1] + across]) < 1:
        return words[1]
    return "its middle" if name else f"{at:.0f} mm"


def _head_line(geometry: Geometry, left: Line, right: Line, head: Head) -> tuple[Line, Line, str]:
    """Heights of the head line at both legs, and where the head holds it."""
    if head == "level":
        line, at = _tightest(geometry, "head", left, right, highest=False)
        return line, line, at
    places = geometry.within("head", left, right)
    start, end = places[0][1], places[-1][1]
    run = right.value - left.value
    # How far each point of the head lies above the line between its ends; the lowest one takes the line down.
    above = []
    for station, line, name in places:
        share = (station - left.value) / run
        above.append((line - start.times(1 - share) - end.times(share), station, name))
    drop, lowest, name = min(above, key=lambda entry: round(entry[0].value, 9))
    held = f"head at {_where(geometry, 'head', lowest, name)}"
    where = "both ends of the head" if drop.value > -_AT_REST_MM else held
    return start + drop, end + drop, where


def plain(geometry: Geometry, result: Found, head: Head, shape: Shape) -> UprightFront:
    source = f"adjusted from {len(shape.readings)} readings"
    left = Measure(result.left.value, result.touches[0], source=source)
    right = Measure(result.right.value, result.touches[1], source=source)
    foot = Measure(result.foot.value, result.touches[2], source=source)
    ends = [Measure(result.head_left.value, result.touches[3], source=source)]
    names = ["upright height"]
    if head == "raked":
        ends = [
            Measure(line.value, f"head line at {side}", source=source)
            for line, side in ((result.head_left, "left leg"), (result.head_right, "right leg"))
        ]
        names = ["height of the left leg", "height of the right leg"]
    extremes = Extremes.of(geometry, result)
    tops = [extremes.head]
    if head == "raked":
        tops = [Unsure(line.value, line.slopes) for line in (result.head_left, result.head_right)]
    across = _on_average(geometry, right - left, extremes.right.plus(extremes.left.times(-1)), name="upright width")
    upwards = [
        _on_average(geometry, end - foot, top.plus(extremes.foot.times(-1)), name=name)
        for end, top, name in zip(ends, tops, names, strict=True)
    ]
    return UprightFront(
        head,
        result.left.value,
        result.right.value,
        result.foot.value,
        across[0],
        upwards[0][0],
        upwards[-1][0],
        across[1],
        upwards[0][1],
        upwards[-1][1],
        result.touches,
    )
