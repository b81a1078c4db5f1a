"""Outlines in the plane, in a round of corners: what a line meets of one, and what lies on one side of a line."""

from __future__ import annotations

from typing import Literal

from rodbook.setout.parts import Point

__all__ = ["beyond", "bounds", "met_by"]


def bounds(outline: tuple[Point, ...]) -> tuple[float, float, float, float]:
    """Left, foot, right and top. [mm]"""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return min(xs), min(ys), max(xs), max(ys)


def met_by(outline: tuple[Point, ...], axis: Literal[0, 1], at: float) -> tuple[tuple[float, float], ...]:
    """What a straight line meets of an outline, as stretches along it; a line along an edge meets what is beyond it.

    Parameters
    ----------
    outline : tuple of (float, float)
    axis : int
        0 for a plumb line at x, 1 for a level one at y.
    at : float
        [mm]

    Examples
    --------
    >>> met_by(((0, 0), (4, 0), (4, 2), (0, 6)), 1, 4.0)
    ((0.0, 2.0),)
    >>> met_by(((0, 0), (4, 0), (4, 2), (0, 6)), 0, 1.0)
    ((0.0, 5.0),)
    """
    other = 1 - axis
    crossings = []
    for start, end in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (start[axis] > at) != (end[axis] > at):
            share = (at - start[axis]) / (end[axis] - start[axis])
            crossings.append(float(start[other] + share * (end[other] - start[other])))
    crossings.sort()
    return tuple((a, b) for a, b in zip(crossings[::2], crossings[1::2], strict=True) if b > a)


def beyond(outline: tuple[Point, ...], axis: Literal[0, 1], at: float, *, more: bool) -> tuple[Point, ...]:
    """What of an outline without inward corners lies beyond a line, or before it; nothing where nothing does.

    Examples
    --------
    >>> beyond(((0, 0), (4, 0), (4, 6), (0, 6)), 1, 2.0, more=True)
    ((0.0, 2.0), (4.0, 2.0), (4.0, 6.0), (0.0, 6.0))
    >>> beyond(((0, 0), (4, 0), (4, 6), (0, 6)), 0, 5.0, more=True)
    ()
    """
    sign = 1.0 if more else -1.0

    def over(point: Point) -> float:
        return sign * (point[axis] - at)

    results: list[Point] = []
    for start, end in zip((outline[-1], *outline[:-1]), outline, strict=True):
        if (over(start) > 0 > over(end)) or (over(start) < 0 < over(end)):
            share = over(start) / (over(start) - over(end))
            across = start[1 - axis] + share * (end[1 - axis] - start[1 - axis])
            results.append((at, across) if axis == 0 else (across, at))
        if over(end) >= 0:
            results.append(end)
    kept = tuple((float(x), float(y)) for x, y in results)
    left, foot, right, top = bounds(kept) if kept else (0.0, 0.0, 0.0, 0.0)
    return kept if right > left and top > foot else ()
