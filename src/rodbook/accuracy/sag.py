"""How far a shelf, a rail or a head sags under a load."""

from __future__ import annotations

from typing import Literal

from rodbook.errors import Fault, InputError

__all__ = ["MODULUS", "rectangle_inertia", "sag"]

type Case = Literal[
    "even, on two supports",
    "even, held fast",
    "point, on two supports",
    "point, held fast",
    "even, one end",
    "point, one end",
]

_SHARE: dict[str, float] = {
    "even, on two supports": 5 / 384,
    "even, held fast": 1 / 384,
    "point, on two supports": 1 / 48,
    "point, held fast": 1 / 192,
    "even, one end": 1 / 8,
    "point, one end": 1 / 3,
}
"""Wood Handbook 2010, table 9-1 (seen): bending share k_b of W L^3 / (E I); points at mid-span or at the free end."""

MODULUS = {"MDF, 12 to 19 mm": 2200.0, "MDF, 19 to 30 mm": 2100.0, "particleboard, 13 to 20 mm": 1600.0}
"""Least stiffness of boards (EN 622-5:2009 and EN 312 P2, from memory). [N/mm2]"""


def rectangle_inertia(width_mm: float, depth_mm: float) -> float:
    """Second moment of area of a rectangle, depth along the load: b d^3 / 12. [mm4]

    Examples
    --------
    >>> rectangle_inertia(300, 18)
    145800.0
    """
    return width_mm * depth_mm**3 / 12


def sag(load_n: float, span_mm: float, *, modulus_n_per_mm2: float, inertia_mm4: float, case: Case) -> float:
    r"""Greatest sag by bending, before creep; creep adds half as much or more in time.

    Parameters
    ----------
    load_n : float
        Whole load, its own weight included. [N]
    span_mm : float
        Clear between supports, or the free length. [mm]
    modulus_n_per_mm2 : float
        [N/mm2]
    inertia_mm4 : float
        [mm4]
    case : str
        How the load lies and the ends are held.

    Returns
    -------
    float
        Downwards. [mm]

    Raises
    ------
    InputError
        If span, modulus or inertia is not positive; every fault at once.

    Notes
    -----
    .. math:: \delta = k_b \frac{W L^3}{E I}

    Shear is left out, as for pieces more than ten times as long as they are deep.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, 2010, eq. 9-2 and table 9-1.

    Examples
    --------
    >>> round(sag(15 * 9.81, 900, modulus_n_per_mm2=2200, inertia_mm4=145800, case="even, on two supports"), 2)
    4.35
    """
    faults = [
        Fault("sag", "accuracy.not_above_zero", what=what, value=value)
        for what, value in (("span", span_mm), ("modulus", modulus_n_per_mm2), ("inertia", inertia_mm4))
        if value <= 0
    ]
    if faults:
        raise InputError(faults)
    return _SHARE[case] * load_n * span_mm**3 / (modulus_n_per_mm2 * inertia_mm4)
