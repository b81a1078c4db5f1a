"""What hangs on the hinges of a leaf, by statics, and how near that comes to what they are said to carry."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import Fault, InputError
from rodbook.hinges.mass import MassRange
from rodbook.working import percent

__all__ = ["STANDARD_GRAVITY", "WARNING_SHARE", "HingeLoad", "hinge_load", "top_hinge_pull"]

STANDARD_GRAVITY = 9.80665
"""Standard acceleration of free fall (3rd General Conference on Weights and Measures, 1901). [m/s2]"""

WARNING_SHARE = 0.8
"""From this share of the stated capacity on there is a warning (house assumption)."""


def top_hinge_pull(
    mass_kg: float,
    width_mm: float,
    *,
    distance_mm: float,
    offset_mm: float = 0.0,
    gravity_m_per_s2: float = STANDARD_GRAVITY,
) -> float:
    r"""Level pull on the top hinge of a leaf; the bottom hinge is pushed as hard.

    Parameters
    ----------
    mass_kg : float
        Of the leaf, spread evenly. [kg]
    width_mm : float
        Of the leaf. [mm]
    distance_mm : float
        From the top hinge to the bottom one; hinges between them are left out, which is careful. [mm]
    offset_mm : float
        From the pivot to the leaf's hinge edge; below zero where the pivot stands within the leaf. [mm]
    gravity_m_per_s2 : float
        [m/s2]

    Returns
    -------
    float
        [N]

    Raises
    ------
    InputError
        If the hinges have no distance, or the leaf no width.

    Notes
    -----
    Moments about the bottom hinge:

    .. math:: H = \frac{m g (w/2 + o)}{d}

    Examples
    --------
    >>> round(top_hinge_pull(16.2, 600, distance_mm=1800), 1)
    26.5
    """
    faults = [
        Fault("hinges", "hinges.pull_not_above_zero", what=what, value_mm=value)
        for what, value in (("their distance", distance_mm), ("the leaf's width", width_mm))
        if value <= 0
    ]
    if faults:
        raise InputError(faults)
    return mass_kg * gravity_m_per_s2 * (width_mm / 2 + offset_mm) / distance_mm


@dataclass(frozen=True)
class HingeLoad:
    """What the hinges of a leaf have to hold.

    Parameters
    ----------
    pull_n : tuple of float
        On the top hinge, for the light and the heavy end of the leaf's mass. [N]
    weight_n : tuple of float
        Of the leaf and what hangs on it. [N]
    weight_each_n : float
        The heavy end shared evenly between the hinges; in truth the hinge that was screwed down first may carry all. [N]
    share : float or None
        Pull at the heavy end as a share of the stated capacity; None where none is stated.
    remark : str
        What has to be said, empty where nothing has.
    """

    pull_n: tuple[float, float]
    weight_n: tuple[float, float]
    weight_each_n: float
    share: float | None
    remark: str


def hinge_load(
    mass: MassRange,
    width_mm: float,
    *,
    distance_mm: float,
    count: int = 2,
    offset_mm: float = 0.0,
    capacity_n: float | None = None,
    hung_kg: float = 0.0,
    hung_from_free_edge_mm: float = 100.0,
) -> HingeLoad:
    """Pull and weight on a leaf's hinges, with a warning near the capacity that their supplier states.

    Parameters
    ----------
    mass : MassRange
        Of the leaf.
    width_mm : float
        [mm]
    distance_mm : float
        Top hinge to bottom hinge. [mm]
    count : int
        How many hinges.
    offset_mm : float
        From the pivot to the leaf's hinge edge. [mm]
    capacity_n : float, optional
        Level pull that one hinge is stated to hold. [N]
    hung_kg : float
        Something hung on the leaf: clothes, a child. [kg]
    hung_from_free_edge_mm : float
        Where it hangs; the hinge standard's overload test hangs a mass 100 mm from the far edge (EN 15570:2008). [mm]

    Returns
    -------
    HingeLoad

    Examples
    --------
    >>> load = hinge_load(MassRange(15.0, 17.0), 600, distance_mm=1800, count=4, capacity_n=30)
    >>> load.remark
    'The top hinge is pulled with up to 27.8 N, 93% of the 30 N it is stated to hold: set the hinges further apart.'
    """
    arm_mm = width_mm + offset_mm - hung_from_free_edge_mm
    hung_n = hung_kg * STANDARD_GRAVITY
    extra = hung_n * arm_mm / distance_mm if hung_kg else 0.0
    low, high = (
        top_hinge_pull(kg, width_mm, distance_mm=distance_mm, offset_mm=offset_mm) + extra
        for kg in (mass.low, mass.high)
    )
    weight = (mass.low * STANDARD_GRAVITY + hung_n, mass.high * STANDARD_GRAVITY + hung_n)
    share = high / capacity_n if capacity_n else None
    remark = ""
    if share is not None and share >= WARNING_SHARE:
        remedy = (
            "set the hinges further apart"
            if share < 1
            else "set them further apart, make the leaf lighter or divide it"
        )
        remark = (
            f"The top hinge is pulled with up to {high:.1f} N, {percent(100 * share, 0)} of the {capacity_n:g} N it is stated "
            f"to hold: {remedy}."
        )
    return HingeLoad((low, high), weight, weight[1] / count, share, remark)
