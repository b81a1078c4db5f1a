"""Bodies that are taken out of a part or stand in it, and the clear distance between two of them.

One frame for all: x from the part's left edge, y down from its top edge, both seen from the inner face, z from the inner
face into the board. Every body is convex and knows its nearest point to a given one, so the distance between any two is
found the same way: from one to the other and back until nothing moves.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

__all__ = ["Box", "Cylinder", "Solid", "Vector", "clear_distance"]

type Vector = tuple[float, float, float]

_STEPS = 2000
_STILL_MM = 1e-7


class Solid(Protocol):
    """A convex body."""

    def nearest(self, point: Vector) -> Vector:
        """The body's point nearest to this one. [mm]"""
        ...

    @property
    def middle(self) -> Vector:
        """A point well inside. [mm]"""
        ...


@dataclass(frozen=True)
class Box:
    """A body with level, upright and deep sides, from one corner to the opposite one. [mm]"""

    low: Vector
    high: Vector

    def nearest(self, point: Vector) -> Vector:
        """The box's point nearest to this one. [mm]"""
        x, y, z = (min(max(p, a), b) for p, a, b in zip(point, self.low, self.high, strict=True))
        return x, y, z

    @property
    def middle(self) -> Vector:
        """Its centre. [mm]"""
        x, y, z = ((a + b) / 2 for a, b in zip(self.low, self.high, strict=True))
        return x, y, z


@dataclass(frozen=True)
class Cylinder:
    """A hole: from the middle of its mouth, along one of the three directions, for its depth. [mm]

    Parameters
    ----------
    mouth : tuple of float
    axis : int
        0 along x, 1 along y, 2 along z.
    way : int
        1 or -1 along that axis.
    radius, depth : float
    """

    mouth: Vector
    axis: int
    way: int
    radius: float
    depth: float

    @property
    def span(self) -> tuple[float, float]:
        """From where to where it goes along its axis. [mm]"""
        start = self.mouth[self.axis]
        end = start + self.way * self.depth
        return min(start, end), max(start, end)

    def nearest(self, point: Vector) -> Vector:
        """The hole's point nearest to this one. [mm]"""
        results = list(point)
        low, high = self.span
        results[self.axis] = min(max(point[self.axis], low), high)
        i, j = (k for k in range(3) if k != self.axis)
        off_i, off_j = point[i] - self.mouth[i], point[j] - self.mouth[j]
        off = math.hypot(off_i, off_j)
        if off > self.radius:
            results[i] = self.mouth[i] + off_i * self.radius / off
            results[j] = self.mouth[j] + off_j * self.radius / off
        return results[0], results[1], results[2]

    @property
    def middle(self) -> Vector:
        """Half-way down. [mm]"""
        results = list(self.mouth)
        results[self.axis] = sum(self.span) / 2
        return results[0], results[1], results[2]


def clear_distance(first: Solid, second: Solid) -> float:
    """Clear distance between two bodies; zero where they meet. [mm]

    Notes
    -----
    Alternating nearest points between convex bodies come to the nearest pair (Cheney and Goldstein, 1959, from memory).
    Where two round sides just touch it comes there slowly: the answer may be up to 0.01 mm too large.

    Examples
    --------
    >>> cup = Cylinder((22.5, 100.0, 0.0), axis=2, way=1, radius=17.5, depth=13.0)
    >>> pin = Cylinder((22.5, 140.0, 0.0), axis=2, way=1, radius=2.5, depth=10.0)
    >>> round(clear_distance(cup, pin), 3)
    20.0
    """
    here = first.nearest(second.middle)
    there = second.nearest(here)
    for _ in range(_STEPS):
        moved = first.nearest(there)
        step = math.dist(here, moved)
        here, there = moved, second.nearest(moved)
        if step < _STILL_MM:
            break
    gap = math.dist(here, there)
    return gap if gap > _STILL_MM * 10 else 0.0
