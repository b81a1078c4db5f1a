"""How a leaf moves while it opens: about a fixed pivot, or along the path that its cup hinges give it.

Frame of the leaf: hung on its left, closed, its front corner at the hinge edge at (0, 0); x into the leaf, y towards the
room, so that it lies between y = -thickness and y = 0. At an angle it has turned by that angle about the reference point,
and has been carried along by the shift: w = R(angle) (q - reference) + reference + shift(angle).
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from rodbook.errors import Fault, InputError

__all__ = ["FixedPivot", "Path", "PathTable", "Point", "cup_hinge_path"]

type Point = tuple[float, float]


class Path(Protocol):
    """A motion of the leaf."""

    @property
    def reference(self) -> Point:
        """The point about which it turns, in the leaf's frame, closed. [mm]"""
        ...

    @property
    def stop_deg(self) -> float:
        """Where the hinge itself stops. [degrees]"""
        ...

    @property
    def largest_shift_mm(self) -> float:
        """Never carried along further than this. [mm]"""
        ...

    @property
    def fastest_shift_mm(self) -> float:
        """Never carried along faster than this. [mm per radian]"""
        ...

    def shift(self, angle_deg: float) -> Point:
        """How far the reference point has been carried along. [mm]"""
        ...


@dataclass(frozen=True)
class FixedPivot:
    """A pin that stays where it is: butt hinges, pivots.

    Parameters
    ----------
    x, y : float
        The pin in the leaf's frame: x above zero within the leaf's width, y above zero in front of its face. [mm]
    stop_deg : float
        Where the hinge itself stops. [degrees]
    """

    x: float = 0.0
    y: float = 0.0
    stop_deg: float = 180.0

    @property
    def reference(self) -> Point:
        """The pin."""
        return self.x, self.y

    @property
    def largest_shift_mm(self) -> float:
        """It does not move."""
        return 0.0

    @property
    def fastest_shift_mm(self) -> float:
        """It does not move."""
        return 0.0

    def shift(self, angle_deg: float) -> Point:  # noqa: ARG002  the same at every angle
        """It does not move."""
        return 0.0, 0.0


@dataclass(frozen=True)
class PathTable:
    """A path by its rows, as read from a hinge in hand or from its supplier's drawing; straight between the rows.

    Parameters
    ----------
    reference : tuple of float
        The point of the leaf that was followed, closed, in the leaf's frame: mostly the back corner of its hinge edge. [mm]
    rows : tuple of (float, float, float)
        Angle opened, and how far that point has come along x and y since the leaf was closed; the first row is
        (0, 0, 0), the last one is where the hinge stops. [degrees, mm, mm]
    source : str

    Raises
    ------
    InputError
        If the rows do not begin closed, or their angles do not grow; every fault at once.
    """

    reference: Point
    rows: tuple[tuple[float, float, float], ...]
    source: str = "measured"

    def __post_init__(self) -> None:
        """Check the rows."""
        faults = []
        if len(self.rows) < 2 or self.rows[0] != (0, 0, 0):
            faults.append(Fault("path", "hinges.path_too_short"))
        faults += [
            Fault(f"path, row {k + 1}", "hinges.angle_not_growing", angle_deg=row[0])
            for k, row in enumerate(self.rows)
            if k and not self.rows[k - 1][0] < row[0] <= 270
        ]
        if faults:
            raise InputError(faults)

    @property
    def stop_deg(self) -> float:
        """The last row's angle. [degrees]"""
        return self.rows[-1][0]

    @property
    def largest_shift_mm(self) -> float:
        """Over all rows. [mm]"""
        return max(math.hypot(x, y) for _, x, y in self.rows)

    @property
    def fastest_shift_mm(self) -> float:
        """Over all pairs of neighbouring rows. [mm per radian]"""
        return max(
            math.hypot(x1 - x0, y1 - y0) / math.radians(a1 - a0) for (a0, x0, y0), (a1, x1, y1) in pairwise(self.rows)
        )

    def shift(self, angle_deg: float) -> Point:
        """Between the two rows around the angle. [mm]"""
        k = min(max(bisect_right(self.rows, angle_deg, key=lambda row: row[0]), 1), len(self.rows) - 1)
        (a0, x0, y0), (a1, x1, y1) = self.rows[k - 1], self.rows[k]
        share = (angle_deg - a0) / (a1 - a0)
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


DRAWS_IN_MM, DRAWS_IN_LATE_MM = 13.84, 6.65
"""How far a leaf draws in at right angles: with the sine of the angle, and with its square (see `cup_hinge_path`). [mm]"""

COMES_FORWARD_MM = 4.0
"""How far it comes forward at right angles (house assumption). [mm]"""


def cup_hinge_path(
    thickness_mm: float, *, boring_distance_mm: float = 5.0, stop_deg: float = 110.0, step_deg: float = 1.0
) -> PathTable:
    r"""A path like that of common cup hinges, for want of the table of the hinge in hand.

    Parameters
    ----------
    thickness_mm : float
        Of the leaf. [mm]
    boring_distance_mm : float
        Cup's edge to leaf's edge. [mm]
    stop_deg : float
        110 is common. [degrees]
    step_deg : float
        Between the rows. [degrees]

    Returns
    -------
    PathTable

    Notes
    -----
    House assumption, not the drawing of any hinge: the back corner of the leaf's hinge edge draws in by
    13.84 s + 6.65 s\ :sup:`2` and comes forward by 4 s, where s is the sine of the angle. As the front corner goes out by
    t s, the gap wanted by a leaf of thickness t is the most of t s less that, which is 0.0376 (t - 13.84)\ :sup:`2`: about
    1 mm at 19 mm (common practice: about 1 mm at 18 to 20 mm, more for a thicker leaf, less for one bored further in),
    0.7 at 18, 1.4 at 20, 2.5 at 22 and 3.9 mm at 24 mm (from memory of what such tables say).
    Boring it e further in than 5 mm moves the corner: e (1 - cos), - e sin.

    Examples
    --------
    >>> [round(x, 1) for x in cup_hinge_path(19).shift(90)]
    [20.5, 4.0]
    """
    further = boring_distance_mm - 5.0
    steps = max(1, math.ceil(stop_deg / step_deg))
    rows: list[tuple[float, float, float]] = [(0.0, 0.0, 0.0)]
    for k in range(1, steps + 1):
        angle = stop_deg * k / steps
        sin, cos = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        inwards = DRAWS_IN_MM * sin + DRAWS_IN_LATE_MM * sin**2 + further * (1 - cos)
        rows.append((angle, inwards, (COMES_FORWARD_MM - further) * sin))
    return PathTable((0.0, -thickness_mm), tuple(rows), "house assumption after common practice")
