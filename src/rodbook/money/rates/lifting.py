"""How many people a lift takes: a guideline mass for one, and the lifting equation for what is lifted often.

Both are guidance and not law; neither says that a lift is safe.
"""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import InputError

__all__ = [
    "GUIDELINE_CLOSE_KG",
    "GUIDELINE_FAR_KG",
    "Lift",
    "guideline_share",
    "lifting_index",
    "people_to_lift",
    "recommended_kg",
]

GUIDELINE_CLOSE_KG = {"head": 10.0, "shoulder": 20.0, "elbow": 25.0, "knuckle": 20.0, "lower leg": 10.0}
"""Guideline filter for men, load held close, by the zone that the hands pass through. [kg]
INDG143, quoted; the lowest zone passed through counts."""

GUIDELINE_FAR_KG = {"head": 5.0, "shoulder": 10.0, "elbow": 15.0, "knuckle": 10.0, "lower leg": 5.0}
"""The same at arm's length. [kg]"""

TEAM_OF_TWO = 4 / 3
"""Two together lift two thirds of what both could alone. [1] L23 of the same regulator, from memory."""

LOAD_CONSTANT_KG = 23.0
"""Most that the equation recommends under the best conditions. [kg] DHHS (NIOSH) 94-110."""


def guideline_share(*, lifts_a_minute: float = 0.0, twist_degrees: float = 0.0) -> float:
    """What is left of the guideline mass when a lift is repeated or twisted.

    Parameters
    ----------
    lifts_a_minute : float
        [1/min]
    twist_degrees : float
        Of the trunk. [degrees]

    Returns
    -------
    float
        [1]

    Notes
    -----
    INDG143, quoted: once or twice a minute 30% less, five to eight 50%, above twelve 80%; beyond 45 degrees 10%,
    beyond 90 degrees 20%. Between the steps the next stricter one is taken (house assumption).
    """
    repeated = next(s for least, s in ((8.0, 0.2), (2.0, 0.5), (0.5, 0.7), (-1.0, 1.0)) if lifts_a_minute > least)
    twisted = next(share for least, share in ((90.0, 0.8), (45.0, 0.9), (-1.0, 1.0)) if twist_degrees > least)
    return repeated * twisted


@dataclass(frozen=True)
class Lift:
    """One lift as the lifting equation sees it.

    Parameters
    ----------
    hold_cm : float
        From between the ankles to the hands. [cm]
    height_cm : float
        Of the hands at its start. [cm]
    travel_cm : float
        Up or down. [cm]
    turn_degrees : float
        Away from straight ahead. [degrees]
    frequency, coupling : float
        Multipliers for how often and how well it is held, read from the equation's tables. [1]
    """

    hold_cm: float
    height_cm: float
    travel_cm: float
    turn_degrees: float = 0.0
    frequency: float = 1.0
    coupling: float = 1.0

    def multipliers(self) -> tuple[float, float, float, float]:
        """For reach, height, travel and turning. [1]

        Notes
        -----
        HM = 25/H, VM = 1 - 0.003 abs(V - 75), DM = 0.82 + 4.5/D, AM = 1 - 0.0032 A, each 1 below and 0 beyond its limits:
        revised NIOSH lifting equation, Waters, Putz-Anderson and Garg, DHHS (NIOSH) 94-110, 1994.
        """
        hold = 0.0 if self.hold_cm > 63 else min(1.0, 25 / self.hold_cm)
        height = 0.0 if self.height_cm > 175 else 1 - 0.003 * abs(self.height_cm - 75)
        travel = 0.0 if self.travel_cm > 175 else min(1.0, 0.82 + 4.5 / max(self.travel_cm, 25.0))
        turn = 0.0 if self.turn_degrees > 135 else 1 - 0.0032 * self.turn_degrees
        return hold, height, travel, turn


def recommended_kg(lift: Lift) -> float:
    """Most that the lifting equation recommends for one person. [kg]

    Raises
    ------
    InputError
        If a distance or an angle is below zero, or nothing is held away from the body at all.

    Examples
    --------
    >>> round(recommended_kg(Lift(50, 75, 40, coupling=0.95)), 2)
    10.19
    """
    if lift.hold_cm <= 0 or min(lift.height_cm, lift.travel_cm, lift.turn_degrees) < 0:
        raise InputError.at("lift", "money.lift_below_zero")
    result = LOAD_CONSTANT_KG
    for multiplier in (*lift.multipliers(), lift.frequency, lift.coupling):
        result *= multiplier
    return result


def lifting_index(mass_kg: float, lift: Lift) -> float:
    """Mass over what is recommended; above 1 the lift wants changing. Infinite where nothing is recommended. [1]"""
    recommended = recommended_kg(lift)
    return mass_kg / recommended if recommended else float("inf")


def people_to_lift(mass_kg: float, alone_kg: float) -> tuple[int, str]:
    """How many carry a thing, and what to say of it.

    Parameters
    ----------
    mass_kg : float
        >= 0. [kg]
    alone_kg : float
        Most that one carries alone, > 0. [kg]

    Returns
    -------
    tuple of int and str
        One or two; a sentence where it is more than the guideline for two, else empty.

    Examples
    --------
    >>> people_to_lift(24, 25), people_to_lift(30, 25)
    ((1, ''), (2, ''))
    """
    if mass_kg < 0 or alone_kg <= 0:
        raise InputError.at("lift", "money.masses_not_above_zero", mass_kg=mass_kg, alone_kg=alone_kg)
    if mass_kg <= alone_kg:
        return 1, ""
    if mass_kg <= TEAM_OF_TWO * alone_kg:
        return 2, ""
    return 2, (
        f"at {mass_kg:.0f} kg it is more than two should lift ({TEAM_OF_TWO * alone_kg:.0f} kg by the guideline); "
        "halve it first or use a trolley"
    )
