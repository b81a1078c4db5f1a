"""The least gap beside a leaf at which it clears what stands there, by its hinge edge or by its free edge."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from rodbook.hinges.swing.leaf import Corners, Leaf, at_angle
from rodbook.hinges.swing.paths import Path

__all__ = ["LeastGap", "fixed_pivot_gap", "least_gap"]

STEP_DEG = 0.25
GOLDEN = (math.sqrt(5) - 1) / 2


@dataclass(frozen=True)
class LeastGap:
    """How far a leaf reaches beyond its closed edge, and at which angle. [mm, degrees]"""

    gap_mm: float
    at_deg: float


def fixed_pivot_gap(a_mm: float, b_mm: float) -> float:
    r"""Gap that a corner wants beside a fixed pivot.

    Parameters
    ----------
    a_mm : float
        From the pivot to the leaf's edge, along the front. [mm]
    b_mm : float
        From the pivot to that edge's corner, square to the front. [mm]

    Returns
    -------
    float
        [mm]

    Notes
    -----
    .. math:: \sqrt{a^2 + b^2} - a

    Examples
    --------
    >>> round(fixed_pivot_gap(600, 22), 2)
    0.4
    """
    return math.hypot(a_mm, b_mm) - a_mm


def least_gap(
    leaf: Leaf,
    path: Path,
    *,
    edge: Literal["hinge", "free"] = "hinge",
    to_deg: float = 90.0,
    between: tuple[float, float] = (-math.inf, math.inf),
) -> LeastGap:
    """Least gap beside an edge at which the leaf opens without touching; for a fixed pivot the same as the formula.

    Two leaves that hang side by side and open together want twice as much between their hinge edges.

    Parameters
    ----------
    leaf : Leaf
    path : Path
    edge : str
        "hinge" or "free".
    to_deg : float
        How far it is to open. [degrees]
    between : tuple of float
        What stands beside the leaf goes from here to there, zero being the leaf's front face and above zero the room;
        without it, all depths count. [mm]

    Returns
    -------
    LeastGap
        Good to 0.001 mm.

    Examples
    --------
    >>> from rodbook.hinges.swing.paths import cup_hinge_path
    >>> for thickness in (16, 19, 22):
    ...     print(thickness, round(least_gap(Leaf(450, thickness), cup_hinge_path(thickness)).gap_mm, 1))
    16 0.2
    19 1.0
    22 2.5
    """
    outline = leaf.outline
    low, high = between

    def beyond(angle_deg: float) -> float:
        corners = _cut(at_angle(outline, path, angle_deg), low, high)
        if not len(corners):
            return -math.inf
        if edge == "hinge":
            return float(outline[:, 0].min() - corners[:, 0].min())
        return float(corners[:, 0].max() - outline[:, 0].max())

    to_deg = min(to_deg, path.stop_deg)
    angles = np.linspace(0.0, to_deg, max(2, math.ceil(to_deg / STEP_DEG) + 1))
    values = [beyond(a) for a in angles]
    best = max(range(len(values)), key=values.__getitem__)
    left, right = angles[max(best - 1, 0)], angles[min(best + 1, len(angles) - 1)]
    for _ in range(40):
        one, other = right - GOLDEN * (right - left), left + GOLDEN * (right - left)
        if beyond(one) >= beyond(other):
            right = other
        else:
            left = one
    angle = max((float(angles[best]), float((left + right) / 2)), key=beyond)
    return LeastGap(max(beyond(angle), 0.0), angle)


def _cut(corners: Corners, low: float, high: float) -> Corners:
    """What of an outline lies between two depths."""
    for limit, sign in ((low, 1.0), (high, -1.0)):
        if not math.isfinite(limit) or not len(corners):
            continue
        inside = sign * (corners[:, 1] - limit)
        kept = []
        for k in range(len(corners)):
            a, b = corners[k - 1], corners[k]
            da, db = inside[k - 1], inside[k]
            if (da < 0) != (db < 0):
                kept.append(a + (b - a) * (da / (da - db)))
            if db >= 0:
                kept.append(b)
        corners = np.array(kept, dtype=np.float64).reshape(-1, 2)
    return corners
