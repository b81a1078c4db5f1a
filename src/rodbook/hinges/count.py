"""How many hinges a leaf gets, from the book's table."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.errors import Infeasible
from rodbook.job.book import HingeCount

__all__ = ["hinge_count"]


def hinge_count(height_mm: float, mass_kg: float, *, table: Sequence[HingeCount]) -> int:
    """Count hinges: the larger of what the height and what the mass ask for.

    Published guides conflict with each other, so the table stands in the book; taking the larger of the two is the
    careful reading of all of them.

    Parameters
    ----------
    height_mm : float
        Of the leaf. [mm]
    mass_kg : float
        Of the leaf, the heavy end of its range. [kg]
    table : sequence of HingeCount
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
    >>> rows = [HingeCount(hinges=2, height=1016, mass=5), HingeCount(hinges=3, height=1524, mass=9)]
    >>> hinge_count(900, 6.2, table=rows)
    3
    """
    fitting = [row.hinges for row in table if height_mm <= row.height and mass_kg <= row.mass]
    if not fitting:
        tallest, heaviest = max(row.height for row in table), max(row.mass for row in table)
        raise Infeasible(
            f"a leaf {height_mm:.0f} mm high of up to {mass_kg:.1f} kg is beyond the book's hinge table, which ends at "
            f"{tallest:g} mm and {heaviest:g} kg; divide the leaf, make it lighter or ask the hinge's supplier"
        )
    return min(fitting)
