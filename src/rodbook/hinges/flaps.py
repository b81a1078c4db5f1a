"""What a flap weighs on its stays and on the hand that lifts it, by statics."""

from __future__ import annotations

from rodbook.errors import InputError
from rodbook.hinges.pull import STANDARD_GRAVITY

__all__ = ["LIFT_CAUTION_N", "TWO_HANG_KG", "flap_lift", "flap_moment"]

TWO_HANG_KG = 10.0
"""A flap that is heavier is hung by two: one holds it overhead while the other drives the screws (house assumption). [kg]"""

LIFT_CAUTION_N = 50.0
"""A hand at a flap's foot that has to lift more without a stay is told of (house assumption). [N]"""


def flap_moment(mass_kg: float, height_mm: float, *, gravity_m_per_s2: float = STANDARD_GRAVITY) -> float:
    r"""Moment of a flap about its hinges where it is heaviest, held level.

    Parameters
    ----------
    mass_kg : float
        Of the flap, spread evenly, >= 0. [kg]
    height_mm : float
        From its hinges to its foot, > 0. [mm]
    gravity_m_per_s2 : float
        [m/s2]

    Returns
    -------
    float
        [N m]

    Raises
    ------
    InputError
        If the flap has no height, or less than no mass.

    Notes
    -----
    .. math:: M = m g h / 2

    The weight acts in the middle of the height; hinges are taken to stand at the top edge.

    Examples
    --------
    >>> round(flap_moment(5.0, 400), 2)
    9.81
    """
    if height_mm <= 0 or mass_kg < 0:
        raise InputError.at("flap", "hinges.flap_out_of_range")
    return mass_kg * gravity_m_per_s2 * height_mm / 2000


def flap_lift(mass_kg: float, *, gravity_m_per_s2: float = STANDARD_GRAVITY) -> float:
    r"""Force that a hand at the foot of a level flap has to hold without a stay: half its weight. [N]

    Notes
    -----
    .. math:: F = M / h = m g / 2

    Examples
    --------
    >>> round(flap_lift(5.0), 1)
    24.5
    """
    return mass_kg * gravity_m_per_s2 / 2
