"""What is taken for granted of an opening beside its readings, each with what it may be out by, as if it had been read so.

Without it an outline would be as sure as its readings even where nothing was read: a floor that nobody put a level on would be
level to a hair.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from rodbook.errors import Infeasible
from rodbook.survey.adjusting import Adjusted, Vector
from rodbook.survey.building import Building
from rodbook.survey.layout import Held, Layout, assume_nothing, fit_layout

__all__ = ["Assumption", "assumptions_of", "hold", "in_words", "straight_between"]

SAID_SHARE = 0.25
"""What the readings leave more than this share of an assumption's variance of is said to be assumed: they have not even halved
what it may be out by (house assumption)."""

PRIOR_WEIGHT = 3.0
"""The spread by a building's age counts as much as so many readings would (house assumption): one that is twice as crooked as
its age lets expect is believed."""

CURVE_SHARE = 0.25
"""Half way between a corner and the middle a side departs from a straight piece by this share of what its middle is taken to
depart from the line between its corners: by geometry 0.25 for a parabola, 0.21 for a sine arc."""

_PARTS = ("floor", "head", "left side", "right side")
_LEANS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("level", "floor", ("B.y",)),
    ("plumb", "left side", ("D.x",)),
    ("plumb", "right side", ("C.x", "B.x")),
    ("level", "head", ("C.y", "D.y")),
)
"""How far each is out, as an unknown or as the difference of two."""


@dataclass(frozen=True)
class Assumption:
    """Something that the readings don't tell, or don't tell well.

    Parameters
    ----------
    state : str
        "plumb", "level" or "straight".
    part : str
        "floor", "head", "left side" or "right side".
    error_mm : float
        Standard error of how far it is out, with all readings: what remains unsure. [mm]
    assumed_error_mm : float
        The same by the building's age alone. [mm]
    """

    state: str
    part: str
    error_mm: float
    assumed_error_mm: float

    @property
    def share(self) -> float:
        """Share of the variance that the readings leave: 1 where they say nothing of it."""
        return (self.error_mm / self.assumed_error_mm) ** 2


def in_words(assumed: Sequence[Assumption]) -> str:
    """What is assumed in few words, each with the most that one of its parts may be out by 95 times in 100.

    >>> two = [Assumption("plumb", part, 3.2, 5.0) for part in ("left side", "right side")]
    >>> in_words([*two, Assumption("level", "floor", 2.0, 3.0)])
    'sides plumb ± 6 mm, floor level ± 4 mm'
    """
    results = []
    for state in ("plumb", "level", "straight"):
        own = {one.part: one.error_mm for one in assumed if one.state == state}
        if own:
            results.append(f"{_named(set(own))} {state} ± {2 * max(own.values()):.0f} mm")
    return ", ".join(results)


def _named(parts: set[str]) -> str:
    if parts == set(_PARTS):
        return "all four"
    names = [part for part in _PARTS if part in parts]
    if {"left side", "right side"} <= parts:
        names = ["sides", *(part for part in names if not part.endswith("side"))]
    return " and ".join((", ".join(names[:-1]), names[-1]) if len(names) > 1 else names)


def hold(layout: Layout, result: Adjusted, building: Building, *, raked: bool) -> tuple[Layout, Adjusted]:
    """Adjust the readings once more with everything free, and what a building of this age is like beside them.

    Parameters
    ----------
    layout : Layout
        Of the readings that count.
    result : Adjusted
        By the readings alone, to begin with.
    building : Building
    raked : bool
        Whether the head slopes on purpose; then it is not taken as level.

    Returns
    -------
    tuple
        Layout and adjustment; by the readings alone where no shape comes to rest otherwise.
    """
    free = assume_nothing(layout, result.unknowns)
    wide, high = _size(layout, result)
    leans = [lean for lean in _LEANS if not (raked and lean[1] == "head")]
    rows = [_row(free, names) for _, _, names in leans]
    errors = [lean_error(building, state, high if state == "plumb" else wide) for state, _, _ in leans]
    rows += [_row(free, (f"bow of the {part}",)) for part in _PARTS]
    errors += [bow_error(building, high if part.endswith("side") else wide) for part in _PARTS]
    named = (*((state, part) for state, part, _ in leans), *(("straight", part) for part in _PARTS))
    held = replace(free, held=Held(named, np.array(rows), np.array(errors)))
    try:
        first, adjusted = fit_layout(held)
        scaled = as_crooked(first.held, adjusted)
        return fit_layout(replace(first, held=scaled, start=adjusted.unknowns)) if scaled else (first, adjusted)
    except Infeasible:
        return layout, result


def as_crooked(held: Held, adjusted: Adjusted) -> Held | None:
    r"""What is assumed with wider standard errors, where the readings show an opening more crooked than its age lets expect.

    What leans or slopes, and what is bowed, are looked at apart. None where neither calls for it.

    Notes
    -----
    With m the misfit of the assumptions and r their redundancy, their variance is multiplied by
    :math:`(\nu + m) / (\nu + r)` where that is above 1: the mean of the variance factor after seeing m, if before it was 1
    as sure as :math:`\nu` readings make it.
    """
    count = len(held.names)
    m = (adjusted.residuals[-count:] / adjusted.errors[-count:]) ** 2
    r = adjusted.redundancies[-count:]
    straight = np.array([state == "straight" for state, _ in held.names])
    factors = np.ones(count)
    for group in (straight, ~straight):
        factors[group] = max(1.0, (PRIOR_WEIGHT + m[group].sum()) / (PRIOR_WEIGHT + r[group].sum()))
    if factors.max() <= 1.0:
        return None
    return replace(held, errors=held.errors * np.sqrt(factors))


def lean_error(building: Building, state: str, length_mm: float) -> float:
    """What a side may be out of plumb, or a floor or head out of level, over this length. [mm]"""
    per_metre = building.plumb_per_metre_mm if state == "plumb" else building.level_per_metre_mm
    return per_metre * length_mm / 1000


def bow_error(building: Building, length_mm: float) -> float:
    """What the middle of a side, floor or head of this length may be out of straight. [mm]"""
    return building.bow_per_metre_mm * length_mm / 1000


def straight_between(building: Building | None, length_mm: float, share: float) -> float:
    """Variance of a place between two that the outline knows, which it takes as on the straight line between them. [mm2]

    Parameters
    ----------
    building : Building, optional
        None where all is taken as straight.
    length_mm : float
        Of the whole side, floor or head. [mm]
    share : float
        Where between the two places, 0 to 1.
    """
    if building is None or not 0 < share < 1:
        return 0.0
    curve = CURVE_SHARE * bow_error(building, length_mm) * 4 * share * (1 - share)
    ripple = building.ripple_mm * min(1.0, 4 * share, 4 * (1 - share))
    return curve**2 + ripple**2


def assumptions_of(layout: Layout, adjusted: Adjusted) -> tuple[Assumption, ...]:
    """Everything that the readings leave unsure, the least told first in the order of plumb and level before straight."""
    held = layout.held
    if not held.names:
        return ()
    left = np.einsum("ij,jk,ik->i", held.rows, adjusted.cofactors, held.rows)
    results = [
        Assumption(state, part, math.sqrt(max(float(variance), 0.0)), float(error))
        for (state, part), variance, error in zip(held.names, left, held.errors, strict=True)
    ]
    return tuple(one for one in results if one.share > SAID_SHARE)


def _row(layout: Layout, names: Sequence[str]) -> Vector:
    row = np.zeros(len(layout.unknowns))
    first, *second = (layout.unknowns.index(name) for name in names)
    row[first], row[second] = 1.0, -1.0
    return row


def _size(layout: Layout, result: Adjusted) -> tuple[float, float]:
    flat = layout.follow @ result.unknowns
    outline = layout.outline
    return float(flat[outline.x("B")]), float(flat[outline.x("D") + 1])
