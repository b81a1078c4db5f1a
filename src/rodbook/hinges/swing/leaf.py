"""A leaf in its place, and where its corners are when it stands open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from rodbook.errors import Fault, InputError
from rodbook.hinges.swing.paths import Path, Point

__all__ = ["Body", "Corners", "Handle", "Leaf", "at_angle", "at_angles"]

type Corners = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Handle:
    """Something that stands out from a leaf's face.

    Parameters
    ----------
    from_hinge_edge : float
        To its middle. [mm]
    width, projection : float
        Across the leaf, and out from its face. [mm]
    bottom, top : float
        Heights above the floor. [mm]
    """

    from_hinge_edge: float
    width: float
    projection: float
    bottom: float = 900.0
    top: float = 1100.0


@dataclass(frozen=True)
class Body:
    """A piece of a leaf in the leaf's own frame: an outline in plan with the heights that it spans. [mm]"""

    name: str
    outline: Corners
    bottom: float
    top: float


@dataclass(frozen=True)
class Leaf:
    """A leaf that swings into the room.

    Parameters
    ----------
    width, thickness : float
        [mm]
    hand : str
        The side it hangs on, seen from the room. Plan: x to the right, y towards the room.
    at : tuple of float
        Its front corner at the hinge edge, closed, in plan. [mm]
    bottom, top : float
        Heights above the floor. [mm]
    handles : tuple of Handle
    profile : tuple of points
        Its outline in the leaf's own frame where it is no plain rectangle: a rebated or bevelled edge. [mm]

    Raises
    ------
    InputError
        If a size makes no sense; every fault at once.
    """

    width: float
    thickness: float
    hand: Literal["left", "right"] = "left"
    at: Point = (0.0, 0.0)
    bottom: float = 0.0
    top: float = 2000.0
    handles: tuple[Handle, ...] = ()
    profile: tuple[Point, ...] = ()

    def __post_init__(self) -> None:
        """Check the sizes."""
        faults = [
            Fault("leaf", "hinges.not_above_zero", what=what, value_mm=value)
            for what, value in (
                ("width", self.width),
                ("thickness", self.thickness),
                ("height", self.top - self.bottom),
            )
            if value <= 0
        ]
        if 0 < len(self.profile) < 3:
            faults.append(Fault("leaf", "hinges.profile_without_area"))
        if faults:
            raise InputError(faults)

    @property
    def sign(self) -> int:
        """1 where the leaf hangs on its left, -1 where it is the mirror image."""
        return 1 if self.hand == "left" else -1

    @property
    def outline(self) -> Corners:
        """Its corners in its own frame. [mm]"""
        w, t = self.width, self.thickness
        return np.array(self.profile or ((0.0, 0.0), (0.0, -t), (w, -t), (w, 0.0)), dtype=np.float64)

    @property
    def bodies(self) -> tuple[Body, ...]:
        """The leaf and its handles."""
        results = [Body("leaf", self.outline, self.bottom, self.top)]
        for handle in self.handles:
            left, right = handle.from_hinge_edge - handle.width / 2, handle.from_hinge_edge + handle.width / 2
            corners = np.array([(left, 0.0), (right, 0.0), (right, handle.projection), (left, handle.projection)])
            results.append(Body("handle", corners, handle.bottom, handle.top))
        return tuple(results)

    def own(self, points: Iterable[Point]) -> Corners:
        """Points of the plan in the leaf's own frame. [mm]"""
        x, y = self.at
        return np.array([((px - x) * self.sign, py - y) for px, py in points], dtype=np.float64)

    def plan(self, corners: Corners) -> tuple[Point, ...]:
        """Points of the leaf's own frame in plan. [mm]"""
        x, y = self.at
        return tuple((x + self.sign * float(px), y + float(py)) for px, py in corners)

    def standing(self, path: Path, angle_deg: float) -> tuple[Point, ...]:
        """Its corners in plan when it stands open so far. [mm]

        Examples
        --------
        >>> from rodbook.hinges.swing.paths import FixedPivot
        >>> leaf = Leaf(400, 20, hand="right", at=(1000, 0))
        >>> [(round(x), round(y)) for x, y in leaf.standing(FixedPivot(), 90)]
        [(1000, 0), (980, 0), (980, 400), (1000, 400)]
        """
        return self.plan(at_angle(self.outline, path, angle_deg))


def at_angle(corners: Corners, path: Path, angle_deg: float) -> Corners:
    """Corners of a body in the leaf's own frame after it has turned so far. [mm]"""
    result: Corners = at_angles(corners, path, np.array([angle_deg]))[0]
    return result


def at_angles(corners: Corners, path: Path, angles_deg: Corners) -> Corners:
    """The same at several angles: one layer of corners for each. [mm]"""
    turn = np.exp(1j * np.radians(angles_deg))
    shifts = np.array([complex(*path.shift(angle)) for angle in angles_deg.tolist()])
    centre = complex(*path.reference)
    points = (corners[:, 0] + 1j * corners[:, 1] - centre) * turn[:, None] + (centre + shifts)[:, None]
    return np.stack((points.real, points.imag), axis=-1)
