"""What an opening under a raked head offers, from its adjusted shape, in the terms that the rest of a plan works with."""

from __future__ import annotations

from rodbook.survey.front import Geometry, find_front, plain
from rodbook.survey.offered import lean_remarks, the_lesser
from rodbook.survey.rectangle import Station, UprightRectangle
from rodbook.survey.shape import Shape
from rodbook.working import Measure

__all__ = ["raked_rectangle_from_shape"]


def raked_rectangle_from_shape(shape: Shape) -> UprightRectangle:
    """Give the space between the sides under a raked head, with the head read at three places.

    Parameters
    ----------
    shape : Shape
        With a raked head.

    Returns
    -------
    UprightRectangle
        Its width is that of the largest upright front; its height that of the lower leg. Its three heights are those of
        the head over the highest place of the floor: plumb over the foot of the left side, halfway, and over the foot of
        the right side; where the head does not reach so far, it is carried on straight.

    Raises
    ------
    Infeasible
        If nothing upright fits between the sides.
    """
    geometry = Geometry.of(shape)
    result = find_front(geometry, "raked")
    source = f"adjusted from {len(shape.readings)} readings"
    foot = Measure(result.foot.value, result.touches[2], source=source)
    lower = min(result.head_left, result.head_right, key=lambda line: line.value)
    top = Measure(lower.value, "head line at the lower leg", source=source)
    low, high = result.foot, lower
    stations = tuple(
        Station(place, geometry.meets("left side", at).value, geometry.meets("right side", at).value)
        for place, at in (("foot", low), ("middle", (low + high).times(0.5)), ("head", high))
    )
    start, run = stations[0].left_mm, stations[0].right_mm - stations[0].left_mm
    heads = [
        geometry.meets("head", geometry.fixed(start + share * run)).value - result.foot.value
        for share in (0.0, 0.5, 1.0)
    ]
    front = plain(geometry, result, "raked", shape)
    width, _ = the_lesser(shape, geometry, front)
    start = (result.left.value + result.right.value - width.value) / 2
    return UprightRectangle(
        width,
        (top - foot).named("upright height"),
        start,
        stations,
        (heads[0], heads[1], heads[2]),
        shape.vertex("D").x_mm,
        lean_remarks(shape),
        front.width_error_mm,
        max(front.left_height_error_mm, front.right_height_error_mm),
    )
