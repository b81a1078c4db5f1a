"""Cuts that are not square: mitres and bevels, and what the saw's scale reads for them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from rodbook.errors import InputError
from rodbook.working import Measure

__all__ = ["Cut", "Side", "cut_brief", "cut_words", "mitre", "mitre_unequal", "past_the_corner"]

Side = Literal["left", "right"]


def mitre(corner_degrees: float) -> float:
    """What the saw's scale reads for a mitre: half of what the corner lacks to a straight line.

    Parameters
    ----------
    corner_degrees : float
        Inside the corner, between 0 and 180. [degrees]

    Returns
    -------
    float
        Turned from a square cut. [degrees]

    References
    ----------
    .. [1] Two pieces of one width meet on the bisector: each is cut at half the corner from its edge (elementary
       geometry; published tables of mitres for trim agree, see tests/published).

    Examples
    --------
    >>> mitre(90), mitre(145)
    (45.0, 17.5)
    """
    if not 0 < corner_degrees < 180:
        raise InputError.at("corner", "setout.corner_not_mitred", corner_deg=corner_degrees)
    return 90 - corner_degrees / 2


def mitre_unequal(width_mm: float, other_mm: float, corner_degrees: float) -> float:
    r"""What the saw's scale reads for one of two pieces of unlike width that meet in a corner. [degrees from square]

    Parameters
    ----------
    width_mm, other_mm : float
        This piece, and the one that it meets. [mm]
    corner_degrees : float
        Inside the corner. [degrees]

    Notes
    -----
    .. math:: \tan a = \frac{w_1 \sin g}{w_2 + w_1 \cos g}

    with a measured from this piece's edge; both pieces have the mitre's line in common.

    Examples
    --------
    >>> round(90 - mitre_unequal(70, 45, 90), 3), round(90 - mitre_unequal(45, 70, 90), 3)
    (57.265, 32.735)
    """
    g = math.radians(corner_degrees)
    return 90 - math.degrees(math.atan2(width_mm * math.sin(g), other_mm + width_mm * math.cos(g)))


def past_the_corner(width_mm: float, corner_degrees: float) -> float:
    """How much longer a mitred piece is along its outer edge than along its inner one, at one end. [mm]

    >>> round(past_the_corner(70, 120), 2), round(past_the_corner(70, 60), 2)
    (40.41, 121.24)
    """
    return width_mm / math.tan(math.radians(corner_degrees) / 2)


@dataclass(frozen=True)
class Cut:
    """How one end of a part is cut, where that is not square.

    Parameters
    ----------
    end : str
        "top" or "foot" of what stands; "left" or "right" end, seen from the room, of what lies.
    degrees : Measure
        Turned from a square cut. [°]
    through : str
        "face": the mitre gauge is turned. "thickness": the blade is tilted, or the part stands on its edge.
    long_point : str
        Where the longest point lies: "outer edge", "inner face".
    """

    end: Literal["top", "foot", "left", "right"]
    degrees: Measure
    through: Literal["face", "thickness"]
    long_point: str


def cut_words(cuts: tuple[Cut, ...]) -> str:
    """Cuts in the words of the workshop.

    >>> cut_words((Cut("top", Measure(36.1, "slope", unit="°"), "thickness", "outer face"),))
    'top bevelled 36.1° from square through the thickness, long point on the outer face'
    """
    values: dict[str, list[str]] = {}
    for cut in cuts:
        how = "mitred" if cut.through == "face" else "bevelled"
        through = "" if cut.through == "face" else " through the thickness"
        words = f"{how} {cut.degrees.value:.1f}° from square{through}, long point on the {cut.long_point}"
        values.setdefault(words, []).append(cut.end if cut.end in ("top", "foot") else f"{cut.end} end")
    return "; ".join(f"{' and '.join(ends)} {words}" for words, ends in values.items())


def cut_brief(cuts: tuple[Cut, ...]) -> str:
    """Cuts in as few words as a table has room for.

    >>> cut_brief((Cut("left", Measure(63.04, "mitre", "°"), "face", "outer edge"),))
    'left mitre 63.0°'
    """
    values: dict[str, list[str]] = {}
    for cut in cuts:
        values.setdefault(f"{'mitre' if cut.through == 'face' else 'bevel'} {cut.degrees.value:.1f}°", []).append(
            cut.end
        )
    return ", ".join(f"{' and '.join(ends)} {words}" for words, ends in values.items())
