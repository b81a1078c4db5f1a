"""A front set upright into an opening: packers at every fixing, and where the structure must be cut back instead."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.errors import Fault, InputError, Message
from rodbook.survey.extremes import Unsure
from rodbook.survey.front import Extremes, Found, Geometry, Head, Line, error_about, find_front
from rodbook.survey.outline import Chain
from rodbook.survey.shape import Shape

__all__ = ["CutBack", "FrontFit", "Packer", "fit_front", "fixings"]

FIRST_FIXING_MM = 150.0
"""Furthest that the first and last fixing stand from the ends (NHBC Standards 2018, 6.7.4)."""

FIXING_CENTRES_MM = 600.0
"""Furthest that fixings stand apart (NHBC Standards 2018, 6.7.4)."""

SAID_MM = 0.05
"""Less than this isn't cut back: a tenth of what a plane takes off (house assumption)."""

_SAME_MM = 1e-6
"""A fixing at the very end is on the front, whatever its width lost in adding up."""

Side = Literal["left", "right", "head", "foot"]
Stand = Literal["middle", "left", "right"]
_CHAINS: dict[Side, Chain] = {"left": "left side", "right": "right side", "head": "head", "foot": "floor"}


@dataclass(frozen=True)
class Packer:
    """What fills between front and structure at one fixing.

    Parameters
    ----------
    side : str
        "left", "right", "head" or "foot".
    at_mm : float
        Up from the front's foot; for head and foot, to the right from its left leg. [mm]
    size_mm : float
        Thickness; negative where the structure is in the way. [mm]
    error_mm : float
        Its standard error: packers come out within two of these 95 times of 100. [mm]
    """

    side: Side
    at_mm: float
    size_mm: float
    error_mm: float


@dataclass(frozen=True)
class CutBack:
    """Where the structure must be cut back for the front to go in.

    Parameters
    ----------
    side : str
        "left", "right", "head" or "foot".
    from_mm, to_mm : float
        Between these: up from the front's foot, or to the right from its left leg. [mm]
    most_mm, most_at_mm : float
        Greatest depth to be taken off, and where. [mm]
    """

    side: Side
    from_mm: float
    to_mm: float
    most_mm: float
    most_at_mm: float

    @property
    def message(self) -> Message:
        """What to do."""
        size = {"from_mm": self.from_mm, "to_mm": self.to_mm, "most_at_mm": self.most_at_mm, "most_mm": self.most_mm}
        if self.side in ("left", "right"):
            return Message("survey.cut_side_back", side=self.side, **size)
        return Message("survey.cut_floor_back" if self.side == "foot" else "survey.cut_head_back", **size)

    @property
    def sentence(self) -> str:
        """What to do, in English; only to be shown."""
        return self.message.sentence


@dataclass(frozen=True)
class FrontFit:
    """A front of a given size in its opening.

    Parameters
    ----------
    left_mm, foot_mm : float
        Where its lower left corner stands, from the foot of the opening's left side. [mm]
    width_mm, left_height_mm, right_height_mm : float
        Its outer size. [mm]
    packers : tuple of Packer
        Left and right from the foot upwards, head and foot from left to right.
    cut_backs : tuple of CutBack
        None where it fits.
    """

    left_mm: float
    foot_mm: float
    width_mm: float
    left_height_mm: float
    right_height_mm: float
    packers: tuple[Packer, ...]
    cut_backs: tuple[CutBack, ...]

    @property
    def fits(self) -> bool:
        """Whether nothing needs cutting back."""
        return not self.cut_backs

    def packers_at(self, side: Side) -> tuple[Packer, ...]:
        """Those of one side."""
        return tuple(packer for packer in self.packers if packer.side == side)


def fixings(
    length_mm: float, *, ends_mm: float = FIRST_FIXING_MM, centres_mm: float = FIXING_CENTRES_MM
) -> tuple[float, ...]:
    """Space fixings along a leg or a head: one near each end, the fewest between, all evenly.

    Parameters
    ----------
    length_mm : float
        Of the leg or head, > 0. [mm]
    ends_mm : float
        First and last fixing from the ends. [mm]
    centres_mm : float
        Furthest apart. [mm]

    Returns
    -------
    tuple of float
        From the foot or the left. [mm]

    Raises
    ------
    InputError
        If a length is not positive.

    Examples
    --------
    >>> fixings(2010)
    (150.0, 720.0, 1290.0, 1860.0)
    """
    if not (length_mm > 0 and ends_mm >= 0 and centres_mm > 0):
        raise InputError.at("fixings", "survey.fixings_out_of_range")
    ends = min(ends_mm, length_mm / 4)
    between = length_mm - 2 * ends
    spaces = max(1, math.ceil(between / centres_mm - 1e-9))
    return tuple(ends + between * i / spaces for i in range(spaces + 1))


def fit_front(
    shape: Shape,
    *,
    width_mm: float | None = None,
    height_mm: float | tuple[float, float] | None = None,
    head: Head = "level",
    fixing_heights_mm: Sequence[float] | None = None,
    fixing_stations_mm: Sequence[float] | None = None,
    foot_stations_mm: Sequence[float] | None = None,
    stand: Stand = "middle",
) -> FrontFit:
    """Set a front upright into an opening; say what packs it, or what must be cut back for it.

    It stands on the highest place of the floor under it. In the middle, its least packers left and right are equal; at
    the left or right, it touches there and all play goes to the other side.

    Parameters
    ----------
    shape : Shape
        The opening.
    width_mm : float, optional
        Outer width of the front; the largest that fits where left out. [mm]
    height_mm : float or pair of float, optional
        Outer height; under a raked head that of the lower leg, or of both, left and right. The largest where left
        out. [mm]
    head : str
        "level" or "raked".
    fixing_heights_mm, fixing_stations_mm : sequence of float, optional
        Up from the front's foot; to the right from its left leg. By `fixings` where left out. [mm]
    foot_stations_mm : sequence of float, optional
        Where it stands on the floor, to the right from its left leg; the stations of the head where left out. [mm]
    stand : str
        "middle", "left" or "right".

    Returns
    -------
    FrontFit

    Raises
    ------
    InputError
        If a size or a fixing can't be.
    Infeasible
        If nothing upright fits between the sides.

    Examples
    --------
    >>> from rodbook.survey import adjust_shape, height, plumb, width
    >>> shape = adjust_shape([width(842, "foot"), width(842, "head"), height(2010, "left"), height(2010, "right"),
    ...     plumb("left", 6), plumb("right", 6)], building=None)
    >>> fit = fit_front(shape, width_mm=830, height_mm=2000, fixing_heights_mm=(150, 1000, 1850))
    >>> [round(packer.size_mm, 1) for packer in fit.packers_at("left")]
    [8.6, 6.0, 3.5]
    >>> print(fit_front(shape, width_mm=838, height_mm=2000).cut_backs[0].sentence)
    Cut the left side back from 1675 to 2000 mm from the front's foot, most at 2000 mm: 1.0 mm.
    """
    _refuse_sizes(width_mm, height_mm, head)
    geometry = Geometry.of(shape)
    largest = find_front(geometry, head)
    wide = width_mm if width_mm is not None else largest.run
    left = _standing(largest, wide, stand)
    right = left + wide
    foot = _on_the_floor(geometry, left, right)
    head_left, head_right = _heights(largest, foot, left, right, height_mm)
    placed = _Placed.of(geometry, largest, Found(left, right, foot, head_left, head_right, ()), stand)
    feet = fixing_stations_mm if foot_stations_mm is None else foot_stations_mm
    return _fit(geometry, placed, {"leg": fixing_heights_mm, "head": fixing_stations_mm, "foot": feet})


@dataclass(frozen=True, eq=False)
class _Placed:
    """Where a front stands in the shape, and where in the opening as it may be: there too it stands where it touches."""

    found: Found
    left: Unsure
    foot: Unsure

    @classmethod
    def of(cls, geometry: Geometry, largest: Found, found: Found, stand: Stand) -> _Placed:
        """By what holds the largest front at the sides, and by the floor under this one."""
        extremes = Extremes.of(geometry, largest)
        back = geometry.unsure_fixed(-found.run)
        match stand:
            case "left":
                left = extremes.left
            case "right":
                left = extremes.right.plus(back)
            case _:
                left = extremes.left.times(0.5).plus(extremes.right.times(0.5)).plus(back.times(0.5))
        return cls(
            found, left, geometry.furthest_in("floor", *_over_the_floor(geometry, found.left, found.right), sign=1)
        )


def _refuse_sizes(width_mm: float | None, height_mm: float | tuple[float, float] | None, head: Head) -> None:
    pair = isinstance(height_mm, tuple)
    heights = height_mm if isinstance(height_mm, tuple) else (height_mm,)
    faults = [
        Fault(name, "survey.front_without_size", size_mm=value)
        for name, value in (("width", width_mm), *(("height", value) for value in heights))
        if value is not None and not 0 < value < math.inf
    ]
    if pair and head == "level":
        faults.append(Fault("height", "survey.two_heights_of_level_head"))
    if faults:
        raise InputError(faults)


def _standing(largest: Found, wide: float, stand: Stand) -> Line:
    match stand:
        case "left":
            return largest.left
        case "right":
            return largest.right + -wide
        case _:
            return (largest.left + largest.right).times(0.5) + -wide / 2


def _on_the_floor(geometry: Geometry, left: Line, right: Line) -> Line:
    """Height of the highest place of the floor under the front."""
    low, high = _over_the_floor(geometry, left, right)
    return max((line for _, line, _ in geometry.within("floor", low, high)), key=lambda line: line.value)


def _over_the_floor(geometry: Geometry, left: Line, right: Line) -> tuple[Line, Line]:
    """Between where a front has floor under it; beyond the corners there is none."""
    ends = [geometry.coordinate(geometry.outline.x(name)) for name in "AB"]
    return max(left, ends[0], key=lambda line: line.value), min(right, ends[1], key=lambda line: line.value)


def _heights(
    largest: Found,
    foot: Line,
    left: Line,
    right: Line,
    height_mm: float | tuple[float, float] | None,
) -> tuple[Line, Line]:
    """Tops of both legs: as wanted, or on the head line of the largest front, carried to where this one's legs stand."""
    if isinstance(height_mm, tuple):
        return foot + height_mm[0], foot + height_mm[1]
    rise = largest.head_right - largest.head_left
    run = largest.right.value - largest.left.value
    slope = rise.value / run
    tops = [largest.head_left + rise.times((leg.value - largest.left.value) / run) for leg in (left, right)]
    if height_mm is None:
        return tops[0], tops[1]
    span = slope * (right.value - left.value)
    low = foot + height_mm
    return (low, low + span) if slope >= 0 else (low + -span, low)


def _fit(geometry: Geometry, placed: _Placed, fixed: Mapping[str, Sequence[float] | None]) -> FrontFit:
    result = placed.found
    left, right, foot = result.left, result.right, result.foot
    wide = result.run
    tall = {"left": result.head_left.value - foot.value, "right": result.head_right.value - foot.value}

    def top(at: float) -> Line:
        share = at / wide
        return result.head_left.times(1 - share) + result.head_right.times(share)

    gaps: dict[Side, tuple[float, Callable[[float], Line]]] = {
        "left": (tall["left"], lambda at: left - geometry.meets("left side", foot + at)),
        "right": (tall["right"], lambda at: geometry.meets("right side", foot + at) - right),
        "head": (wide, lambda at: geometry.meets("head", left + at) - top(at)),
        "foot": (wide, lambda at: foot - geometry.meets("floor", left + at)),
    }
    # The same gaps in the opening as it may be: where the front stands is not sure either, nor is what lies between known places.
    head_over_foot: Callable[[float], Line] = lambda at: top(at) - foot  # noqa: E731
    unsure: dict[Side, Callable[[float], Unsure]] = {
        "left": lambda at: placed.left.plus(geometry.unsure("left side", foot + at).times(-1)),
        "right": lambda at: geometry.unsure("right side", foot + at).plus(placed.left.times(-1)),
        "head": lambda at: (
            geometry.unsure("head", left + at)
            .plus(placed.foot.times(-1))
            .plus(Unsure(head_over_foot(at).value, head_over_foot(at).slopes).times(-1))
        ),
        "foot": lambda at: placed.foot.plus(geometry.unsure("floor", left + at).times(-1)),
    }
    packers: list[Packer] = []
    cut_backs: list[CutBack] = []
    for side, (length, gap) in gaps.items():
        leg = side in ("left", "right")
        given, furthest = (fixed["leg"], max(tall.values())) if leg else (fixed[side], wide)
        code = "survey.leg_fixing_off_front" if leg else "survey.head_fixing_off_front"
        for at in fixings(length) if given is None else given:
            if not 0 <= at <= furthest + _SAME_MM:
                raise InputError.at("fixings", code, at_mm=at, furthest_mm=furthest)
            if at <= length + _SAME_MM:
                line = gap(at)
                shift = wide if side == "right" else 0.0
                packers.append(
                    Packer(side, at, line.value, error_about(geometry, line.value + shift, unsure[side](at)))
                )
        cut_backs += _cut_backs(geometry, side, length, gap, start=(foot if leg else left).value)
    return FrontFit(left.value, foot.value, wide, tall["left"], tall["right"], tuple(packers), tuple(cut_backs))


def _cut_backs(
    geometry: Geometry, side: Side, length: float, gap: Callable[[float], Line], *, start: float
) -> list[CutBack]:
    """Stretches where the gap is negative; between points of the outline it runs straight, so ends suffice."""
    across = 1 if side in ("left", "right") else 0
    inside = [geometry.flat[x + across] - start for x in geometry.outline.chain(_CHAINS[side])]
    places = [0.0, *sorted(at for at in inside if 0 < at < length), length]
    sizes = [gap(at).value for at in places]
    results: list[CutBack] = []
    stretch: list[tuple[float, float]] = []
    for i, (at, size) in enumerate(zip(places, sizes, strict=True)):
        if i and (size < 0) != (sizes[i - 1] < 0):
            before, was = places[i - 1], sizes[i - 1]
            turning = before + (at - before) * was / (was - size)
            stretch.append((turning, 0.0))
        if size < 0:
            stretch.append((at, size))
        if stretch and (size >= 0 or i == len(places) - 1):
            most_at, most = min(stretch, key=lambda entry: entry[1])
            if -most > SAID_MM:
                results.append(CutBack(side, stretch[0][0], stretch[-1][0], -most, most_at))
            stretch = []
    return results
