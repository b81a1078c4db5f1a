"""What fills between a lining of standard size and the opening that it stands in."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.survey import UprightRectangle
from rodbook.working import Measure

__all__ = ["Packers", "packers_for"]


@dataclass(frozen=True)
class Packers:
    """Packing at each place, the lining standing upright and in the middle of what the opening offers.

    Parameters
    ----------
    side : Measure
        Least packing at each side, where the upright rectangle touches. [mm]
    head : Measure
        Least packing over the head. [mm]
    left_mm, right_mm : tuple of float
        At foot, middle and head. [mm]
    head_mm : tuple of float
        Over the head at left, middle and right. [mm]
    """

    side: Measure
    head: Measure
    left_mm: tuple[float, ...]
    right_mm: tuple[float, ...]
    head_mm: tuple[float, ...]


def packers_for(rectangle: UprightRectangle, outer_width: Measure, outer_height: Measure) -> Packers:
    """Work out the packers for a lining of this outer size in this opening.

    Parameters
    ----------
    rectangle : UprightRectangle
        What the opening offers.
    outer_width, outer_height : Measure
        Of the lining. [mm]

    Returns
    -------
    Packers
        The least ones may be negative where the lining does not fit; that is for the caller to judge.
    """
    side = ((rectangle.width - outer_width) / 2).named("packer at each side")
    head = (rectangle.height - outer_height).named("packer over the head")
    left = rectangle.left_mm + side.value
    right = left + outer_width.value
    return Packers(
        side,
        head,
        tuple(round(left - station.left_mm, 3) for station in rectangle.stations),
        tuple(round(station.right_mm - right, 3) for station in rectangle.stations),
        tuple(round(height - outer_height.value, 3) for height in rectangle.heads_mm),
    )
