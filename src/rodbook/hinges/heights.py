"""At which heights the hinges sit on a leaf."""

from __future__ import annotations

from rodbook.errors import Infeasible
from rodbook.working import Measure

__all__ = ["hinge_heights"]


def hinge_heights(
    leaf_height: Measure, count: int, *, from_top: Measure, from_bottom: Measure, step: float = 0.5
) -> tuple[Measure, ...]:
    """Heights of the hinges' centres, all measured from the leaf's top.

    The first and the last keep their distance from the ends; the rest are spaced evenly between, rounded down to what
    the workshop sets.

    Parameters
    ----------
    leaf_height : Measure
        [mm]
    count : int
        How many, >= 2.
    from_top, from_bottom : Measure
        Ends of the leaf to the nearest hinge's centre. [mm]
    step : float
        Heights are multiples of this, the last one's excepted. [mm]

    Returns
    -------
    tuple of Measure
        From the top down. [mm]

    Raises
    ------
    Infeasible
        If the leaf is too low for that many hinges; they keep at least 100 mm (house assumption) from each other.

    Examples
    --------
    >>> [float(h) for h in hinge_heights(Measure(2000, "leaf height"), 3, from_top=Measure(100, "top hinge down"),
    ...     from_bottom=Measure(100, "bottom hinge up"))]
    [100.0, 1000.0, 1900.0]
    """
    last = (leaf_height - from_bottom).named(f"hinge {count} from the leaf's top")
    first = from_top.named("hinge 1 from the leaf's top")
    if last.value - first.value < LEAST_SPACING_MM * (count - 1):
        raise Infeasible(
            "hinges.no_room_for_hinges",
            height_mm=leaf_height,
            count=count,
            top_mm=from_top,
            bottom_mm=from_bottom,
        )
    between = [
        (first + k * (last - first) / (count - 1)).named(f"hinge {k + 1} from the leaf's top").rounded_down(step)
        for k in range(1, count - 1)
    ]
    return (first, *between, last)


LEAST_SPACING_MM = 100.0
"""Least distance between the centres of two hinges (house assumption)."""
