"""How many hinges a leaf gets, from the book's table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from rodbook.errors import Infeasible

__all__ = ["COMMON_COUNTS", "CountRow", "CountTableRow", "HingeNumber", "hinge_count", "hinge_number"]


class CountTableRow(Protocol):
    """A row of a table of counts: so many hinges up to this height and this mass. [mm, kg]"""

    @property
    def hinges(self) -> int:
        """How many."""
        ...

    @property
    def height(self) -> float:
        """Up to this leaf height. [mm]"""
        ...

    @property
    def mass(self) -> float:
        """Up to this leaf mass. [kg]"""
        ...


@dataclass(frozen=True)
class CountRow:
    """A row of a table of counts by plain values. [mm, kg]"""

    hinges: int
    height: float
    mass: float


COMMON_COUNTS = (CountRow(2, 1016, 5), CountRow(3, 1524, 9), CountRow(4, 2032, 15), CountRow(5, 2159, 22))
"""Common practice: published guides by height and by mass, quoted; no standard gives a count, and guides conflict."""


@dataclass(frozen=True)
class HingeNumber:
    """How many hinges, and which of height and mass asked for that many.

    Parameters
    ----------
    count : int
        The larger of the two.
    by_height, by_mass : int
        What each asks for by itself.
    asked_by : str
        "height", "mass" or "both".
    source : str
        Where the table comes from.
    """

    count: int
    by_height: int
    by_mass: int
    asked_by: Literal["height", "mass", "both"]
    source: str


def hinge_number(
    height_mm: float, mass_kg: float, *, table: Sequence[CountTableRow], source: str = "common practice"
) -> HingeNumber:
    """Count hinges by height and by mass, and say which of the two decided.

    Published guides conflict with each other, so the table is handed in from the book; taking the larger of the two
    counts is the careful reading of all of them.

    Parameters
    ----------
    height_mm : float
        Of the leaf. [mm]
    mass_kg : float
        Of the leaf, the heavy end of its range. [kg]
    table : sequence of CountTableRow
        Rows that grow in height, mass and count.
    source : str
        Where the table comes from.

    Returns
    -------
    HingeNumber

    Raises
    ------
    Infeasible
        If the leaf is taller or heavier than the table goes.

    Examples
    --------
    >>> hinge_number(900, 6.2, table=COMMON_COUNTS).count
    3
    >>> hinge_number(900, 6.2, table=COMMON_COUNTS).asked_by
    'mass'
    """
    tallest, heaviest = max(row.height for row in table), max(row.mass for row in table)
    if height_mm > tallest or mass_kg > heaviest:
        raise Infeasible(
            "hinges.leaf_beyond_table", height_mm=height_mm, mass_kg=mass_kg, tallest_mm=tallest, heaviest_kg=heaviest
        )
    by_height = min(row.hinges for row in table if height_mm <= row.height)
    by_mass = min(row.hinges for row in table if mass_kg <= row.mass)
    asked: Literal["height", "mass", "both"] = (
        "both" if by_height == by_mass else "height" if by_height > by_mass else "mass"
    )
    return HingeNumber(max(by_height, by_mass), by_height, by_mass, asked, source)


def hinge_count(height_mm: float, mass_kg: float, *, table: Sequence[CountTableRow]) -> int:
    """Count hinges: the larger of what the height and what the mass ask for.

    Parameters
    ----------
    height_mm : float
        Of the leaf. [mm]
    mass_kg : float
        Of the leaf, the heavy end of its range. [kg]
    table : sequence of CountTableRow
        Rows that grow in height, mass and count.

    Returns
    -------
    int

    Raises
    ------
    Infeasible
        If the leaf is taller or heavier than the table goes.

    Examples
    --------
    >>> hinge_count(900, 6.2, table=COMMON_COUNTS)
    3
    """
    return hinge_number(height_mm, mass_kg, table=table).count
