"""Which plate and which boring distance bring a leaf to its lap, from those on hand; the side screw does the rest.

Common practice, no independent source: lap = constant of the arm + cup's edge to leaf's edge - height of the plate. An
inset leaf laps by minus its margin, with the constant of the arm that is cranked for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.errors import InputError

__all__ = [
    "COMMON_ARMS",
    "COMMON_BORING_DISTANCES",
    "COMMON_PLATE_HEIGHTS",
    "COMMON_SIDE_ADJUSTMENT",
    "Arm",
    "PlateFit",
    "arm_for",
    "lap_reached",
    "plate_fits",
    "plate_line",
]

STRAIGHT_CONSTANT_MM = 13.0
"""Constant of a straight arm, so that 5 mm boring distance and no plate height lap 18 mm (from memory). [mm]"""


@dataclass(frozen=True)
class Arm:
    """A hinge's arm.

    Parameters
    ----------
    name : str
        "straight" for a full lap, "half cranked", "cranked for inset".
    crank_mm : float
        How far the arm is cranked. [mm]
    constant_mm : float
        In lap = constant + boring distance - plate height. [mm]
    source : str
    """

    name: str
    crank_mm: float
    constant_mm: float
    source: str


_NO_SOURCE = "common practice, no independent source; the constant from memory"
COMMON_ARMS = tuple(
    Arm(name, crank, STRAIGHT_CONSTANT_MM - crank, _NO_SOURCE)
    for name, crank in (("straight", 0.0), ("half cranked", 9.5), ("cranked for inset", 18.0))
)
"""Cranks 0, 8 to 9.5 and 15 to 19 mm are common; each arm's constant is the straight one's less its crank."""

COMMON_BORING_DISTANCES = (5.0, 4.0, 6.0, 3.0, 7.0, 8.0)
"""From the cup's edge to the leaf's edge, the usual one first (common practice). [mm]"""

COMMON_PLATE_HEIGHTS = (0.0, 2.0, 3.0, 4.0, 6.0, 9.0)
"""Heights of plates on hand (from memory; set your own). [mm]"""

COMMON_SIDE_ADJUSTMENT = (-2.0, 2.0)
"""What the side screw moves, towards more lap above zero (from memory). [mm]"""


def lap_reached(constant_mm: float, boring_distance_mm: float, plate_height_mm: float) -> float:
    """Lap before any adjustment: constant + boring distance - plate height. [mm]

    Examples
    --------
    >>> lap_reached(13, 5, 2)
    16
    """
    return constant_mm + boring_distance_mm - plate_height_mm


def plate_line(set_back_mm: float = 37.0, *, inset_leaf_mm: float = 0.0) -> float:
    """Line of the plate's holes from the front edge: 37 mm, the leaf's thickness more for inset (common practice). [mm]

    Examples
    --------
    >>> plate_line(inset_leaf_mm=22)
    59.0
    """
    return set_back_mm + inset_leaf_mm


@dataclass(frozen=True)
class PlateFit:
    """An arm, a plate and a boring distance, and what is left for the side screw.

    Parameters
    ----------
    arm : Arm
    boring_distance_mm, plate_height_mm : float
        [mm]
    lap_mm : float
        Before adjustment. [mm]
    adjust_mm : float
        What the side screw still has to do, above zero towards more lap. [mm]
    in_range : bool
    remark : str
        What has to be said, empty where nothing has.
    """

    arm: Arm
    boring_distance_mm: float
    plate_height_mm: float
    lap_mm: float
    adjust_mm: float
    in_range: bool
    remark: str


def plate_fits(
    lap_mm: float,
    *,
    arms: Sequence[Arm] = COMMON_ARMS,
    boring_distances: Sequence[float] = COMMON_BORING_DISTANCES,
    plate_heights: Sequence[float] = COMMON_PLATE_HEIGHTS,
    side_adjustment: tuple[float, float] = COMMON_SIDE_ADJUSTMENT,
    most: int = 3,
) -> tuple[PlateFit, ...]:
    """Best ways to reach a lap with what is on hand.

    Parameters
    ----------
    lap_mm : float
        Wanted; for an inset leaf, minus its margin at the hinge edge. [mm]
    arms : sequence of Arm
        On hand.
    boring_distances, plate_heights : sequence of float
        On hand, in the order in which the workshop likes them. [mm]
    side_adjustment : tuple of float
        From less to more lap. [mm]
    most : int
        How many answers at most.

    Returns
    -------
    tuple of PlateFit
        What needs the least side adjustment comes first; of equals, the arm, boring distance and plate named first.
        Where all are out of range the first says so, and by how much.

    Raises
    ------
    InputError
        If nothing is on hand, or the adjustment's ends are the wrong way round.

    Examples
    --------
    >>> best = plate_fits(16.5)[0]
    >>> best.arm.name, best.boring_distance_mm, best.plate_height_mm, best.adjust_mm
    ('straight', 5.0, 2.0, 0.5)
    """
    low, high = side_adjustment
    if not (arms and boring_distances and plate_heights) or low > high or most < 1:
        raise InputError.at("plates", "hinges.plates_incomplete")
    results = []
    for rank_arm, arm in enumerate(arms):
        for rank_boring, boring in enumerate(boring_distances):
            for rank_plate, plate in enumerate(plate_heights):
                left = lap_mm - lap_reached(arm.constant_mm, boring, plate)
                results.append((round(abs(left), 6), rank_arm, rank_boring, rank_plate, left, arm, boring, plate))
    results.sort(key=lambda row: row[:4])
    return tuple(_fit(lap_mm, left, arm, boring, plate, (low, high)) for *_, left, arm, boring, plate in results[:most])


def _fit(lap: float, left: float, arm: Arm, boring: float, plate: float, reach: tuple[float, float]) -> PlateFit:
    inside = reach[0] - 1e-9 <= left <= reach[1] + 1e-9
    remark = ""
    if not inside:
        beyond = left - reach[1] if left > reach[1] else reach[0] - left
        remedy: Literal["lower", "higher"] = "lower" if left > 0 else "higher"
        remark = (
            f"No plate on hand brings a lap of {lap:g} mm: the nearest, {plate:g} mm high with the cup {boring:g} mm from the "
            f"edge, is {beyond:.1f} mm beyond the side adjustment; it wants a {remedy} plate or another arm."
        )
    return PlateFit(arm, boring, plate, lap - left, left, inside, remark)


def arm_for(lap_mm: float, *, shared: bool = False) -> str:
    """Which arm a lap usually asks for: inset below zero, half cranked where two leaves share one edge.

    Examples
    --------
    >>> arm_for(16), arm_for(7, shared=True), arm_for(-3)
    ('straight', 'half cranked', 'cranked for inset')
    """
    if lap_mm < 0:
        return "cranked for inset"
    return "half cranked" if shared else "straight"
