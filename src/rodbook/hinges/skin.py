"""The board that is left under a cup: how thick, and how likely the drill comes through.

Thickness of the board and depth of the boring are both taken as normally spread and independent; a stated tolerance is
taken as two standard deviations (house assumption: nineteen in twenty lie within it).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

from rodbook.errors import InputError

__all__ = ["TOLERANCE_IN_DEVIATIONS", "Skin", "Spread", "at_least_one", "deepest_boring", "skin_under"]

TOLERANCE_IN_DEVIATIONS = 2.0
"""How many standard deviations a plus-and-minus tolerance is taken for (house assumption)."""

WHITE_SKIN_MM = 2.0
"""Thinner skins tend to show through a painted face (house assumption). [mm]"""

BEARABLE_CHANCE = 0.001
"""One spoilt leaf in a thousand is borne (house assumption)."""


@dataclass(frozen=True)
class Spread:
    """A size and its tolerance, both ways. [mm]"""

    nominal: float
    tolerance: float = 0.0

    @property
    def deviation(self) -> float:
        """Standard deviation. [mm]"""
        return self.tolerance / TOLERANCE_IN_DEVIATIONS


@dataclass(frozen=True)
class Skin:
    """What is left under a boring.

    Parameters
    ----------
    nominal_mm, worst_mm : float
        Under the flat of the cup: at nominal sizes, and at the thinnest board with the deepest boring in tolerance. [mm]
    under_point_mm : float
        Under the drill's point, at nominal sizes; below zero where the point comes through. [mm]
    chance_through : float
        That the cup itself breaks through.
    chance_point_through : float
        That the drill's point shows on the face: the one that counts.
    remark : str
        What has to be said, empty where nothing has.
    """

    nominal_mm: float
    worst_mm: float
    under_point_mm: float
    chance_through: float
    chance_point_through: float
    remark: str


def _chance_below_zero(mean: float, deviation: float) -> float:
    if deviation > 0:
        return float(NormalDist(mean, deviation).cdf(0.0))
    return 1.0 if mean <= 0 else 0.0


def _together(thickness: Spread, depth: Spread) -> float:
    return math.hypot(thickness.deviation, depth.deviation)


def skin_under(thickness: Spread, depth: Spread, *, point_mm: float = 0.0) -> Skin:
    r"""Skin left under a cup, and the chance of breaking through.

    Parameters
    ----------
    thickness : Spread
        Of the board. [mm]
    depth : Spread
        Of the boring down to its flat. [mm]
    point_mm : float
        How far the drill's point goes beyond the flat. [mm]

    Returns
    -------
    Skin

    Raises
    ------
    InputError
        If a size is not positive, or a tolerance or the point is below zero.

    Notes
    -----
    .. math:: P = \Phi\left(\frac{d + p - t}{\sqrt{s_d^2 + s_t^2}}\right)

    Examples
    --------
    >>> skin = skin_under(Spread(16, 0.2), Spread(13, 0.3), point_mm=2.5)
    >>> skin.nominal_mm, skin.under_point_mm, round(skin.chance_point_through, 4)
    (3, 0.5, 0.0028)
    """
    if min(thickness.nominal, depth.nominal) <= 0 or min(thickness.tolerance, depth.tolerance, point_mm) < 0:
        raise InputError.at("cup", "hinges.cup_out_of_range")
    deviation = _together(thickness, depth)
    nominal = thickness.nominal - depth.nominal
    under_point = nominal - point_mm
    chance = _chance_below_zero(under_point, deviation)
    worst = nominal - thickness.tolerance - depth.tolerance
    remark = ""
    if chance > BEARABLE_CHANCE:
        most = deepest_boring(thickness, depth.tolerance, point_mm=point_mm)
        remark = (
            f"{_often(chance)} come through: of {thickness.nominal:g} mm the cup takes {depth.nominal:g} mm and the "
            f"drill's point {point_mm:g} mm more; "
            + (f"bore no deeper than {most:.1f} mm or grind the point." if most > 0 else "take a thicker board.")
        )
    elif worst < WHITE_SKIN_MM:
        remark = (
            f"As little as {worst:.1f} mm may be left under the cup: it may show on a painted face; bore with a stop."
        )
    return Skin(nominal, worst, under_point, _chance_below_zero(nominal, deviation), chance, remark)


def _often(chance: float) -> str:
    return "More than half of the cups" if chance > 0.5 else f"One cup in {round(1 / chance)} will"


def deepest_boring(
    thickness: Spread, depth_tolerance_mm: float, *, point_mm: float = 0.0, chance: float = BEARABLE_CHANCE
) -> float:
    """Deepest nominal boring that breaks through no more often than the chance given. [mm]

    Examples
    --------
    >>> round(deepest_boring(Spread(18, 0.2), 0.3, point_mm=2.5), 2)
    14.94
    """
    deviation = _together(thickness, Spread(0.0, depth_tolerance_mm))
    slack = -NormalDist().inv_cdf(chance) * deviation
    return thickness.nominal - point_mm - slack


def at_least_one(chance: float, borings: int) -> float:
    """Chance that at least one of so many borings comes through.

    Examples
    --------
    >>> round(at_least_one(0.0028, 48), 2)
    0.13
    """
    return 1.0 - (1.0 - chance) ** borings
