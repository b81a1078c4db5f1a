"""How far a leaf opens before it meets something: the first contact, and with what.

Each step turns the leaf by no more than the gap allows at the greatest speed that any of its points that can get there
has, so that nothing is stepped over; the last stretch is halved. The leaf is taken 0.01 mm smaller all round, so that what
only touches, such as a leaf lying on its lining, is let go: a contact is one that overlaps by that much.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from rodbook.errors import InputError
from rodbook.hinges.swing.leaf import Body, Corners, Leaf, at_angle, at_angles
from rodbook.hinges.swing.obstacles import Obstacle, SlopingPlane
from rodbook.hinges.swing.paths import Path, Point
from rodbook.late import late_library

if TYPE_CHECKING:
    import shapely
else:
    shapely = late_library("shapely")

__all__ = ["Contact", "Swing", "swing"]

TOUCH_MM = 0.01
"""What overlaps by less only touches (house assumption). [mm]"""

NEAR_DEG = 0.8
"""Where the gap allows no longer a turn than this, the leaf goes on by fixed steps. [degrees]"""

STEP_DEG = 0.1
"""Those steps: a turn by so little bends the path of a point 600 mm out by 0.0003 mm only, so nothing is missed in one."""

TOGETHER = 32
ROUNDS = 3
"""So many steps are looked at together; the one that meets is divided so many times over."""


@dataclass(frozen=True)
class Contact:
    """Something that a leaf meets.

    Parameters
    ----------
    name : str
        What it meets.
    by : str
        What of the leaf meets it: "leaf" or "handle".
    angle_deg : float
        When. [degrees]
    at : tuple of float
        Where in plan. [mm]
    """

    name: str
    by: str
    angle_deg: float
    at: Point


@dataclass(frozen=True)
class Swing:
    """How far a leaf opens.

    Parameters
    ----------
    free_deg : float
        Largest free angle: up to it nothing overlaps by more than 0.01 mm. [degrees]
    stopped_by : str
        Name of what stops it, empty where its own hinge does.
    contacts : tuple of Contact
        What would stop it, each as if it stood alone, the first one first.
    wanted_deg : float
        [degrees]
    """

    free_deg: float
    stopped_by: str
    contacts: tuple[Contact, ...]
    wanted_deg: float

    @property
    def enough(self) -> bool:
        """Whether it opens as far as is wanted."""
        return self.free_deg >= self.wanted_deg - 1e-9

    def __str__(self) -> str:
        """One sentence."""
        return self.said()

    def said(self, name: str = "the leaf") -> str:
        """One sentence about a leaf that is called so.

        Parameters
        ----------
        name : str
            "the leaf", "the left leaf", "leaf 3 from the left".
        """
        if not self.stopped_by:
            return f"{_at_start(name)} opens to {self.free_deg:.0f}°, where its hinge stops it."
        tail = "" if self.enough else f", short of the {self.wanted_deg:g}° wanted"
        whose = name if self.contacts[0].by == "leaf" else f"the handle of {name}"
        return f"{_at_start(whose)} meets {self.stopped_by} at {self.free_deg:.1f}°{tail}."


def _at_start(name: str) -> str:
    return name[:1].upper() + name[1:]


def swing(
    leaf: Leaf,
    path: Path,
    obstacles: Sequence[Obstacle] = (),
    *,
    planes: Sequence[SlopingPlane] = (),
    wanted_deg: float = 90.0,
) -> Swing:
    """Open a leaf until it meets something.

    Parameters
    ----------
    leaf : Leaf
    path : Path
        `FixedPivot`, `PathTable` or `cup_hinge_path`.
    obstacles : sequence of Obstacle
        In plan; those that do not span the leaf's heights are passed.
    planes : sequence of SlopingPlane
        Ceilings and floors.
    wanted_deg : float
        How far it should open. [degrees]

    Returns
    -------
    Swing

    Examples
    --------
    >>> from rodbook.hinges.swing.obstacles import block
    >>> from rodbook.hinges.swing.paths import FixedPivot
    >>> wall = block("the side wall", (-200, -100), (0, 3000))
    >>> print(swing(Leaf(400, 20), FixedPivot(), [wall]))
    The leaf meets the side wall at 104.5°.
    """
    if not 0 < wanted_deg <= 270:
        raise InputError.at("swing", "hinges.angle_out_of_range", wanted_deg=wanted_deg)
    results = []
    for body in leaf.bodies:
        results += [
            contact
            for obstacle in obstacles
            if obstacle.beside(body.bottom, body.top) and (contact := _meets(leaf, body, path, obstacle))
        ]
        results += [contact for plane in planes if (contact := _meets_plane(leaf, body, path, plane))]
    first_of_each: dict[str, Contact] = {}
    for contact in sorted(results, key=lambda c: c.angle_deg):
        first_of_each.setdefault(contact.name, contact)
    contacts = tuple(first_of_each.values())
    if contacts:
        return Swing(contacts[0].angle_deg, contacts[0].name, contacts, wanted_deg)
    return Swing(path.stop_deg, "", (), wanted_deg)


def _meets(leaf: Leaf, body: Body, path: Path, obstacle: Obstacle) -> Contact | None:
    outline = leaf.own(obstacle.outline)
    fixed = shapely.Polygon(outline)
    shapely.prepare(fixed)
    corners = _a_touch_smaller(body.outline)
    reference = np.array(path.reference)
    reach = float(np.hypot(*(corners - reference).T).max())
    if fixed.distance(shapely.Point(path.reference)) > reach + path.largest_shift_mm:
        return None  # the leaf never comes so far
    furthest = float(np.hypot(*(outline - reference).T).max()) + path.largest_shift_mm
    speed = min(reach, furthest) + path.fastest_shift_mm

    def clear(angles_deg: Corners) -> Corners:
        return np.asarray(shapely.distance(fixed, shapely.polygons(at_angles(corners, path, angles_deg))))

    angle = _first(clear, speed, path.stop_deg)
    if angle is None:
        return None
    line = shapely.shortest_line(shapely.Polygon(at_angle(corners, path, max(angle - 1e-3, 0.0))), fixed)
    (at,) = leaf.plan(np.array([line.coords[0]]))
    return Contact(obstacle.name, body.name, angle, at)


def _a_touch_smaller(outline: Corners) -> Corners:
    smaller = shapely.Polygon(outline).buffer(-TOUCH_MM, join_style="mitre")
    return outline if smaller.is_empty else np.array(smaller.exterior.coords[:-1])


def _meets_plane(leaf: Leaf, body: Body, path: Path, plane: SlopingPlane) -> Contact | None:
    up = 1 if plane.kind == "ceiling" else -1
    z = body.top if plane.kind == "ceiling" else body.bottom
    x0, y0 = leaf.at
    slope = np.array([plane.slope_x * leaf.sign, plane.slope_y])
    level = plane.height + plane.slope_x * x0 + plane.slope_y * y0 - z
    reach = float(np.hypot(*(body.outline - np.array(path.reference)).T).max())
    speed = (reach + path.fastest_shift_mm) * float(np.hypot(*slope))

    def room(angle_deg: float) -> Corners:
        height: Corners = level + at_angle(body.outline, path, angle_deg) @ slope
        return up * height

    def clear(angles_deg: Corners) -> Corners:
        result: Corners = np.array([room(angle).min() for angle in angles_deg.tolist()]) + TOUCH_MM
        return result

    angle = _first(clear, max(speed, 1e-9), path.stop_deg)
    if angle is None:
        return None
    where = at_angle(body.outline, path, angle)[int(room(angle).argmin())]
    (at,) = leaf.plan(np.array([where]))
    return Contact(plane.name, body.name, angle, at)


def _first(clear: Callable[[Corners], Corners], speed_mm_per_rad: float, stop_deg: float) -> float | None:
    """First angle at which nothing is clear any more, never stepping further than the gap allows. [degrees]"""
    angle = 0.0
    gap = float(clear(np.array([angle]))[0])
    if gap <= 0:
        return angle
    while angle < stop_deg:
        ahead = math.degrees(gap / speed_mm_per_rad)
        if ahead > NEAR_DEG:
            angle = min(angle + ahead, stop_deg)
            gap = float(clear(np.array([angle]))[0])
            continue
        steps = np.minimum(angle + STEP_DEG * np.arange(TOGETHER + 1), stop_deg)
        gaps = clear(steps[1:])
        if (gaps <= 0).any():
            for _ in range(ROUNDS):
                met = int(np.argmax(gaps <= 0))
                steps = np.linspace(steps[met], steps[met + 1], TOGETHER + 1)
                gaps = clear(steps[1:])
            return float(steps[int(np.argmax(gaps <= 0))])
        angle, gap = float(steps[-1]), float(gaps[-1])
    return None
