r"""Two leaves side by side, each at any angle: do they meet, how far apart must they hang not to, and which goes first?

Two leaves back to back on one division come out sideways over their hinge edges as they open, each by what `least_gap` says::

    ======== |gap| ========      closed
          \\ \   / //
           \\ \ / //             both half open: what comes out of the one meets what comes out of the other

Each leaf by itself clears the other one closed. Here both are swept, every angle of the one with every angle of the other.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from rodbook.hinges.swing.leaf import Corners, Leaf, at_angles
from rodbook.hinges.swing.pairs import First
from rodbook.hinges.swing.paths import Path

__all__ = ["Together", "together"]

STEP_DEG = 1.0
"""Angles that are tried: over half of it what comes out sideways changes by less than 0.001 mm where it is most."""

TOUCH_MM = 0.02
"""What overlaps by less only touches: 0.01 mm of each leaf, as in a swing (house assumption). [mm]"""


@dataclass(frozen=True)
class Together:
    """Two neighbouring leaves at every two angles up to what is wanted.

    Parameters
    ----------
    gap_mm : float
        Between them, both closed. [mm]
    clear_gap_mm : float
        Between them, so that they clear each other at any two angles; the same gap where they do. [mm]
    first : str
        Which may be opened first, all the way, and the other after it: "either", "left", "right" or "neither".
    second_deg : tuple of float
        How far the left one opens with the right one open as far as is wanted; and the right one with the left one so. [degrees]
    """

    gap_mm: float
    clear_gap_mm: float
    first: First
    second_deg: tuple[float, float]

    @property
    def free(self) -> bool:
        """Whether they clear each other at any two angles, so that both may move at once."""
        return self.clear_gap_mm <= self.gap_mm


def together(left: Leaf, right: Leaf, *, left_path: Path, right_path: Path, wanted_deg: float = 90.0) -> Together:
    r"""Sweep two leaves at independent angles.

    Parameters
    ----------
    left, right : Leaf
        In their places, the one beside the other.
    left_path, right_path : Path
    wanted_deg : float
        How far each is to open. [degrees]

    Returns
    -------
    Together

    Notes
    -----
    For two angles the right leaf would have to hang further to the right by

    .. math:: \max_y \left( x_{\max}^{left}(y) - x_{\min}^{right}(y) \right)

    over the depths y that both reach. Both outlines are convex, so that this is greatest at a corner of one of them or at the
    end of what they both reach: looking at the depths of all corners is exact. Rebated edges are filled up.

    Examples
    --------
    >>> from rodbook.hinges.swing.paths import cup_hinge_path
    >>> path = cup_hinge_path(22)
    >>> one, other = Leaf(400, 22, hand="right", at=(400, 0)), Leaf(400, 22, at=(403, 0))
    >>> found = together(one, other, left_path=path, right_path=path)
    >>> found.free, round(found.clear_gap_mm, 1), found.first, found.second_deg
    (False, 5.0, 'neither', (13.0, 13.0))
    """
    gap = _closed_edge(right, left=True) - _closed_edge(left, left=False)
    if left.top <= right.bottom or right.top <= left.bottom:
        return Together(gap, gap, "either", (wanted_deg, wanted_deg))
    steps = max(1, int(np.ceil(wanted_deg / STEP_DEG)))
    ends = [min(wanted_deg, path.stop_deg) for path in (left_path, right_path)]
    angles = [np.linspace(0.0, end, steps + 1) for end in ends]
    one, other = _outlines(left, left_path, angles[0]), _outlines(right, right_path, angles[1])
    lacking = _lacking(one, other)
    meets = lacking > TOUCH_MM
    right_with_left, left_with_right = _reached(meets[-1], angles[1]), _reached(meets[:, -1], angles[0])
    left_first = not meets[:, 0].any() and not meets[-1].any()
    right_first = not meets[0].any() and not meets[:, -1].any()
    first: First = (
        "either" if left_first and right_first else "left" if left_first else "right" if right_first else "neither"
    )
    most = float(lacking.max())
    return Together(gap, gap + most if most > TOUCH_MM else gap, first, (left_with_right, right_with_left))


def _closed_edge(leaf: Leaf, *, left: bool) -> float:
    xs = [x for x, _ in leaf.plan(leaf.outline)]
    return min(xs) if left else max(xs)


def _outlines(leaf: Leaf, path: Path, angles_deg: Corners) -> Corners:
    """Corners in plan, one layer for each angle. [mm]"""
    result = at_angles(leaf.outline, path, angles_deg)
    placed: Corners = np.array(leaf.at) + result * np.array([leaf.sign, 1.0])
    return placed


def _lacking(one: Corners, other: Corners) -> Corners:
    """For each two angles, how much further to the right the right leaf would have to hang; minus infinity if it never minds."""
    depths = np.unique(np.concatenate((one[:, :, 1].ravel(), other[:, :, 1].ravel())))
    right_side, left_side = _side(one, depths), -_side(other * np.array([-1.0, 1.0]), depths)
    result: Corners = np.array([(row - left_side).max(axis=1) for row in right_side])
    return result


def _side(outlines: Corners, depths: Corners) -> Corners:
    """How far to the right each outline reaches at each depth; minus infinity where it has nothing. [mm]"""
    start, end = outlines, np.roll(outlines, -1, axis=1)
    result = np.full((len(outlines), len(depths)), -np.inf)
    for k in range(outlines.shape[1]):
        (x0, y0), (x1, y1) = start[:, k].T, end[:, k].T
        run = np.where(np.abs(y1 - y0) < 1e-12, np.inf, y1 - y0)
        share = (depths[None, :] - y0[:, None]) / run[:, None]
        on_it = (share >= -1e-12) & (share <= 1 + 1e-12) & np.isfinite(run)[:, None]
        at = np.where(on_it, x0[:, None] + np.where(on_it, share, 0.0) * (x1 - x0)[:, None], -np.inf)
        level = (~np.isfinite(run))[:, None] & (np.abs(depths[None, :] - y0[:, None]) < 1e-9)
        at = np.where(level, np.maximum(x0, x1)[:, None], at)
        result = np.maximum(result, at)
    return result


def _reached(meets: npt.NDArray[np.bool_], angles_deg: Corners) -> float:
    """The last of the angles before the first at which they meet; 0 where they do from the start. [degrees]"""
    hits = np.flatnonzero(meets)
    return float(angles_deg[-1]) if not len(hits) else float(angles_deg[max(int(hits[0]) - 1, 0)])
