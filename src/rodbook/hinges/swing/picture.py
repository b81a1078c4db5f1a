"""The geometry of a swing for whoever draws it: plain points and arcs in plan."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from rodbook.hinges.swing.leaf import Corners, Leaf, at_angle
from rodbook.hinges.swing.obstacles import Obstacle
from rodbook.hinges.swing.paths import FixedPivot, Path, Point
from rodbook.late import late_library

if TYPE_CHECKING:
    import shapely
else:
    shapely = late_library("shapely")

__all__ = ["Arc", "SwingPicture", "swing_picture"]

SAGITTA_MM = 0.05
"""A swept outline lies within this of the true one. [mm]"""


@dataclass(frozen=True)
class Arc:
    """Part of a circle, turned from one angle to the other; angles from the x axis towards the room. [mm, degrees]"""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float


@dataclass(frozen=True)
class SwingPicture:
    """What there is to draw, all in plan. [mm]

    Parameters
    ----------
    closed, opened : tuple of points
        The leaf's outline.
    arcs : tuple of Arc
        Where its corners go, exactly, for a fixed pivot; empty otherwise.
    trails : tuple of tuple of points
        Where its corners go along a path, point by point; empty for a fixed pivot.
    swept : tuple of points
        Outline of all that the leaf sweeps, handles included, within 0.05 mm; rebates are filled up.
    obstacles : tuple of Obstacle
    """

    closed: tuple[Point, ...]
    opened: tuple[Point, ...]
    arcs: tuple[Arc, ...]
    trails: tuple[tuple[Point, ...], ...]
    swept: tuple[Point, ...]
    obstacles: tuple[Obstacle, ...]


def swing_picture(leaf: Leaf, path: Path, to_deg: float, obstacles: Sequence[Obstacle] = ()) -> SwingPicture:
    """Gather what there is to draw of a leaf that opens to an angle.

    Parameters
    ----------
    leaf : Leaf
    path : Path
    to_deg : float
        Mostly the free angle of its `Swing`, or what is wanted. [degrees]
    obstacles : sequence of Obstacle

    Returns
    -------
    SwingPicture

    Examples
    --------
    >>> picture = swing_picture(Leaf(400, 20), FixedPivot(), 90)
    >>> picture.arcs[-1]
    Arc(centre=(0.0, 0.0), radius=400.0, start_deg=0.0, end_deg=90.0)
    """
    to_deg = min(to_deg, path.stop_deg)
    reach = max(float(np.hypot(*(body.outline - np.array(path.reference)).T).max()) for body in leaf.bodies)
    step = math.degrees(math.sqrt(8 * SAGITTA_MM / max(reach + path.fastest_shift_mm, 1.0)))
    angles = np.linspace(0.0, to_deg, max(2, math.ceil(to_deg / step) + 1))
    hulls = [
        shapely.MultiPoint(np.vstack((before, after))).convex_hull
        for body in leaf.bodies
        for before, after in pairwise([at_angle(body.outline, path, float(a)) for a in angles])
    ]
    swept = shapely.union_all(hulls)
    whole = max((g for g in shapely.get_parts(swept) if isinstance(g, shapely.Polygon)), key=lambda g: g.area)
    arcs: tuple[Arc, ...] = ()
    trails: tuple[tuple[Point, ...], ...] = ()
    if isinstance(path, FixedPivot):
        arcs = tuple(_arc(leaf, path, corner, to_deg) for corner in leaf.outline)
    else:
        stands = [at_angle(leaf.outline, path, float(a)) for a in angles]
        trails = tuple(leaf.plan(np.array([s[k] for s in stands])) for k in range(len(leaf.outline)))
    return SwingPicture(
        leaf.standing(path, 0.0),
        leaf.standing(path, to_deg),
        arcs,
        trails,
        leaf.plan(np.array(whole.exterior.coords[:-1])),
        tuple(obstacles),
    )


def _arc(leaf: Leaf, pivot: FixedPivot, corner: Corners, to_deg: float) -> Arc:
    x, y = float(corner[0]) - pivot.x, float(corner[1]) - pivot.y
    start = math.degrees(math.atan2(y, x))
    (centre,) = leaf.plan(np.array([pivot.reference]))
    if leaf.sign == 1:
        return Arc(centre, math.hypot(x, y), start, start + to_deg)
    return Arc(centre, math.hypot(x, y), 180.0 - start, 180.0 - start - to_deg)
