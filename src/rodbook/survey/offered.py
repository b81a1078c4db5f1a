"""What an opening with a level head offers, from its adjusted shape, in the terms that the rest of a plan works with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from rodbook.errors import Infeasible, Message
from rodbook.survey.front import Geometry, Line, UprightFront, find_front, plain
from rodbook.survey.outline import Outline
from rodbook.survey.rectangle import LEAN_SAID_MM, Station, UprightRectangle
from rodbook.survey.shape import Shape
from rodbook.working import Measure

__all__ = ["lean_remarks", "rectangle_from_shape", "the_lesser"]

_PAIRS = {"sides": (("L", "AD"), ("R", "BC"), 0), "floor and head": (("F", "AB"), ("H", "DC"), 1)}
"""Which two share a bow, their middles and ends, and the coordinate that it moves."""


def rectangle_from_shape(shape: Shape) -> UprightRectangle:
    """Give the largest front with a level head as the upright rectangle that the rest of a plan works with.

    Where a bow may be in either of two sides its sizes are the lesser of those that either would leave.

    Raises
    ------
    Infeasible
        If nothing upright fits between the sides.
    """
    geometry = Geometry.of(shape)
    front = plain(geometry, result := find_front(geometry, "level"), "level", shape)
    heights = _thirds(result.foot, result.head_left)
    stations = tuple(
        Station(place, geometry.meets("left side", at).value, geometry.meets("right side", at).value)
        for place, at in zip(("foot", "middle", "head"), heights, strict=True)
    )
    left, middle, right = (
        geometry.meets("head", at).value - result.foot.value for at in _thirds(result.left, result.right)
    )
    width, height = the_lesser(shape, geometry, front)
    start = (front.left_mm + front.right_mm - width.value) / 2
    return UprightRectangle(
        width,
        height,
        start,
        stations,
        (left, middle, right),
        shape.vertex("D").x_mm,
        lean_remarks(shape),
        front.width_error_mm,
        front.left_height_error_mm,
    )


def lean_remarks(shape: Shape) -> tuple[Message, ...]:
    """What is taken as exact, where no building is said; and a left side that leans, in words."""
    exact = () if shape.building else tuple(Message("plain.text", text=one) for one in shape.exact)
    lean = shape.vertex("D").x_mm
    if abs(lean) < LEAN_SAID_MM:
        return exact
    code = "survey.left_side_leans_right" if lean > 0 else "survey.left_side_leans_left"
    return (*exact, Message(code, lean_mm=round(abs(lean), 1)))


def the_lesser(shape: Shape, geometry: Geometry, front: UprightFront) -> tuple[Measure, Measure]:
    """Width and height of a front, or what is left of them if a bow that two sides share is all in one of them."""
    width, height = front.width, front.height
    for other in _otherwise(shape, geometry):
        try:
            result = find_front(other, front.head)
        except Infeasible:
            continue
        tall = min(result.head_left.value, result.head_right.value) - result.foot.value
        width, height = _less(width, result.run), _less(height, tall)
    return width, height


def _less(size: Measure, other_mm: float) -> Measure:
    lost = size.value - other_mm
    if lost < 0.005:
        return size
    taken = Measure(lost, "where a bow is all in one side", source="the lesser of the two that the readings allow")
    return (size - taken).named(size.name)


def _otherwise(shape: Shape, geometry: Geometry) -> Iterator[Geometry]:
    """The same shape with each bow that two sides share all in the one, and all in the other."""
    outline = geometry.outline
    for pair in shape.shared:
        *middles, axis = _PAIRS[pair]
        if any(name not in outline.names for name, _ in middles):
            continue
        bows = [_bow(geometry, outline, name, ends, axis) for name, ends in middles]
        # Both are counted along the axis: what the one stands further in, the other stands further back.
        across = bows[0] - bows[1]
        for share in (1.0, 0.0):
            flat = list(geometry.flat)
            for (name, ends), bow in zip(middles, (share * across, (share - 1) * across), strict=True):
                flat[outline.x(name) + axis] = _between(geometry, outline, ends, axis) + bow
            yield replace(geometry, flat=tuple(flat))


def _between(geometry: Geometry, outline: Outline, ends: str, axis: int) -> float:
    return sum(geometry.flat[outline.x(name) + axis] for name in ends) / 2


def _bow(geometry: Geometry, outline: Outline, name: str, ends: str, axis: int) -> float:
    return geometry.flat[outline.x(name) + axis] - _between(geometry, outline, ends, axis)


def _thirds(low: Line, high: Line) -> Sequence[Line]:
    return low, (low + high).times(0.5), high
