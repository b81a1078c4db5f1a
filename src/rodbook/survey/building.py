"""What may be taken for granted of a building, and how far it may be out: standard errors by its age."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from rodbook.errors import InputError

__all__ = ["BUILDINGS", "OLD", "Building"]


@dataclass(frozen=True)
class Building:
    """How far sides, floors and heads of a building's openings are out of plumb, level and straight.

    Parameters
    ----------
    name : str
        As a job names it.
    plumb_per_metre_mm : float
        A side is out of plumb by this for each metre of height, > 0. [mm/m]
    level_per_metre_mm : float
        A floor or a head is out of level by this for each metre of width, > 0. [mm/m]
    bow_per_metre_mm : float
        The middle of any of them is out of a line between its ends by this for each metre of its length, > 0. [mm/m]
    ripple_mm : float
        Any place between those that were read is out of a fair curve by this, zero or more. [mm]
    source : str
        Where the figures come from.

    All are standard errors: two in three are within them, 95 in 100 within twice as much.

    Raises
    ------
    InputError
        If a figure is out of its range.
    """

    name: str
    plumb_per_metre_mm: float
    level_per_metre_mm: float
    bow_per_metre_mm: float
    ripple_mm: float = 0.5
    source: str = "the firm's own"

    def __post_init__(self) -> None:
        """Refuse a building without any error, which would outweigh every reading."""
        shares = (self.plumb_per_metre_mm, self.level_per_metre_mm, self.bow_per_metre_mm)
        if not (all(0 < share < 100 for share in shares) and 0 <= self.ripple_mm < 100):
            raise InputError.at(self.name, "survey.building_out_of_range")


BUILDINGS: Mapping[str, Building] = MappingProxyType(
    {
        "new": Building("new", 1.2, 1.5, 0.8, 0.3, "house assumption"),
        "settled": Building("settled", 2.0, 2.5, 1.2, 0.5, "house assumption"),
        "old": Building("old", 2.7, 3.8, 1.8, 0.8, "house assumption"),
    }
)
"""By age, until a firm knows its own: new (framed or plastered in the last few years), settled (some decades), old. House
assumptions, all of them."""

OLD = BUILDINGS["old"]
"""Where nothing is said of a building the widest figures hold."""
