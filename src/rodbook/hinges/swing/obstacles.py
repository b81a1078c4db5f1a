"""What may stand in a leaf's way: outlines in plan with the heights that they span, and sloping planes.

Plan: x to the right, y towards the room; heights above the floor.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rodbook.errors import InputError
from rodbook.hinges.swing.paths import Point
from rodbook.late import late_library

if TYPE_CHECKING:
    import shapely
else:
    shapely = late_library("shapely")

__all__ = ["Obstacle", "SlopingPlane", "block", "high_spot", "inset_frame", "lay_on_frame"]

ROUND_CORNERS = 24


@dataclass(frozen=True)
class Obstacle:
    """Something fixed: trim, lining, wall, radiator, or another leaf.

    Parameters
    ----------
    name : str
    outline : tuple of points
        In plan, three or more. [mm]
    bottom, top : float
        Heights that it spans. [mm]
    own : bool
        Whether it is the front's own lining or trim.

    Raises
    ------
    InputError
        If the outline crosses itself or has no area.
    """

    name: str
    outline: tuple[Point, ...]
    bottom: float = -math.inf
    top: float = math.inf
    own: bool = False

    def __post_init__(self) -> None:
        """Check the outline."""
        if (
            len(self.outline) < 3
            or not shapely.Polygon(self.outline).is_valid
            or shapely.Polygon(self.outline).area <= 0
        ):
            raise InputError.at(self.name, "hinges.outline_without_area")

    def beside(self, bottom: float, top: float) -> bool:
        """Whether it spans any of these heights."""
        return self.bottom < top and self.top > bottom


@dataclass(frozen=True)
class SlopingPlane:
    """A sloping ceiling, or a floor finish that rises or falls: z = height + slope_x x + slope_y y.

    Parameters
    ----------
    name : str
    kind : str
        "ceiling" is met by the leaf's top, "floor" by its bottom.
    height : float
        At x = 0, y = 0. [mm]
    slope_x, slope_y : float
        Rise per mm to the right, and towards the room.
    """

    name: str
    kind: Literal["ceiling", "floor"]
    height: float
    slope_x: float = 0.0
    slope_y: float = 0.0


def block(
    name: str,
    x: tuple[float, float],
    y: tuple[float, float],
    *,
    bottom: float = -math.inf,
    top: float = math.inf,
    own: bool = False,
) -> Obstacle:
    """A rectangle in plan, from and to along each direction.

    Examples
    --------
    >>> block("radiator", (900, 1000), (50, 1250), bottom=150, top=750).beside(700, 2000)
    True
    """
    (left, right), (back, front) = x, y
    return Obstacle(name, ((left, back), (right, back), (right, front), (left, front)), bottom, top, own)


def high_spot(name: str, at: Point, height: float, *, radius: float = 10.0) -> Obstacle:
    """A spot of the floor that stands up to a height: it stops a leaf whose bottom is lower. [mm]"""
    outer = radius / math.cos(math.pi / ROUND_CORNERS)
    turn = 2 * math.pi / ROUND_CORNERS
    return Obstacle(
        name,
        tuple((at[0] + outer * math.cos(k * turn), at[1] + outer * math.sin(k * turn)) for k in range(ROUND_CORNERS)),
        top=height,
    )


def _both_sides(
    name: str, width: float, x: tuple[float, float], y: tuple[float, float], top: float
) -> tuple[Obstacle, Obstacle]:
    return (
        block(f"the left {name}", x, y, top=top, own=True),
        block(f"the right {name}", (width - x[1], width - x[0]), y, top=top, own=True),
    )


def inset_frame(
    front_width: float,
    *,
    margins: float,
    lining_thickness: float,
    lining_depth: float,
    trim: tuple[float, float] | None = None,
    trim_set_back: float = 0.0,
    top: float = math.inf,
) -> tuple[Obstacle, ...]:
    """Lining and trim around leaves that stand within the lining, flush with its front edge.

    Parameters
    ----------
    front_width : float
        From the first leaf's left edge, at x = 0, to the last one's right edge. [mm]
    margins : float
        At each side. [mm]
    lining_thickness, lining_depth : float
        [mm]
    trim : tuple of float, optional
        Its width and thickness; it stands in front of the lining's edge. [mm]
    trim_set_back : float
        From the lining's face to the trim. [mm]
    top : float
        Height up to which they go. [mm]

    Returns
    -------
    tuple of Obstacle
    """
    m = margins
    results: Sequence[Obstacle] = _both_sides(
        "lining", front_width, (-m - lining_thickness, -m), (-lining_depth, 0.0), top
    )
    if trim:
        inner = -m - trim_set_back
        results = (*results, *_both_sides("trim", front_width, (inner - trim[0], inner), (0.0, trim[1]), top))
    return tuple(results)


def lay_on_frame(
    front_width: float,
    *,
    leaf_thickness: float,
    lap: float,
    margins: float,
    lining_thickness: float,
    lining_depth: float,
    trim: tuple[float, float],
    top: float = math.inf,
) -> tuple[Obstacle, ...]:
    """Lining and trim around leaves that lie over the lining's edge; the trim stands beside them on the same plane.

    Parameters
    ----------
    front_width : float
        From the first leaf's left edge, at x = 0, to the last one's right edge. [mm]
    leaf_thickness, lap, margins : float
        [mm]
    lining_thickness, lining_depth : float
        [mm]
    trim : tuple of float
        Its width, and its thickness from the lining's front edge. [mm]
    top : float
        Height up to which they go. [mm]

    Returns
    -------
    tuple of Obstacle
    """
    back, (width, thickness) = -leaf_thickness, trim
    return (
        *_both_sides("lining", front_width, (lap - lining_thickness, lap), (back - lining_depth, back), top),
        *_both_sides("trim", front_width, (-margins - width, -margins), (back, back + thickness), top),
    )
