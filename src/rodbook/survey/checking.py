"""Which one more reading would check those that nothing checks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from rodbook.errors import Infeasible, InputError
from rodbook.survey.instruments import INSTRUMENTS, Instrument
from rodbook.survey.layout import layout_of
from rodbook.survey.readings import Reading, bow, checked, diagonal, height, level, plumb, width
from rodbook.survey.shape import LEAST_CHECKED

__all__ = ["OneMore", "one_more_reading", "usual_readings"]

CHECKED_WELL = 0.10
"""Redundancy from which a reading counts as checked here: slips of 13 standard errors are found (house assumption)."""


@dataclass(frozen=True)
class OneMore:
    """A reading that is worth taking.

    Parameters
    ----------
    name : str
        What to read.
    checks : tuple of str
        Readings that it would check and that nothing checks yet.
    unchecked : tuple of str
        Readings that nothing would check even then.
    """

    name: str
    checks: tuple[str, ...]
    unchecked: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """What to do, in words."""
        left = f" Nothing would check: {', '.join(self.unchecked)}." if self.unchecked else ""
        return f"Read the {self.name}: it would check {', '.join(self.checks)}.{left}"


def one_more_reading(
    readings: Sequence[Reading], *, raked: bool = False, instruments: Mapping[str, Instrument] = INSTRUMENTS
) -> OneMore | None:
    """Find the one further reading that would check most of what nothing checks.

    Every reading of the usual set that was not taken is tried, and taking any again; each is put to the adjustment, and
    the one after which most readings are checked is named: one for what nothing checks at all before one for what is checked
    a little, a new one before a second one of the same.

    Returns
    -------
    OneMore or None
        None where everything is checked already.

    Raises
    ------
    InputError
        If the readings themselves give no outline.

    Examples
    --------
    >>> from rodbook.survey import height, plumb, width
    >>> more = one_more_reading([width(842, "foot"), width(843, "head"), height(2010, "left"), height(2012, "right"),
    ...     plumb("left", 2)])
    >>> print(more.sentence)
    Read the right side out of plumb at head: it would check width at foot, width at head, left side out of plumb at head. \
Nothing would check: height at left, height at right.
    """
    counted = checked(readings, instruments)
    now = _redundancies(counted, instruments, raked=raked)
    doubtful = [r.name for r, share in zip(counted, now, strict=True) if share < CHECKED_WELL]
    if not doubtful:
        return None
    bare = {r.name for r, share in zip(counted, now, strict=True) if share < LEAST_CHECKED}
    best: tuple[tuple[int, int, float], OneMore] | None = None
    taken = {reading.what for reading in counted}
    fresh = [reading for reading in usual_readings(counted) if reading.what not in taken]
    for candidate in (*fresh, *counted):
        try:
            then = _redundancies(checked((*counted, candidate), instruments), instruments, raked=raked)[:-1]
        except InputError:
            continue
        shares = dict(zip((r.name for r in counted), then, strict=True))
        checks = tuple(name for name in doubtful if shares[name] >= CHECKED_WELL)
        worse = sum(1 for r, share in zip(counted, now, strict=True) if share >= CHECKED_WELL > shares[r.name])
        score = len(checks) - worse, len(bare.intersection(checks)), round(sum(then), 6) if candidate in fresh else -1.0
        if checks and (best is None or score > best[0]):
            left = tuple(name for name in doubtful if name not in checks)
            name = candidate.what if candidate in fresh else f"{candidate.what} again"
            best = score, OneMore(name, checks, left)
    return best[1] if best else None


def _redundancies(readings: tuple[Reading, ...], instruments: Mapping[str, Instrument], *, raked: bool) -> list[float]:
    """Redundancy of each reading in an opening of about this size; what the readings say hardly matters."""
    layout = layout_of(readings, instruments, raked=raked)
    try:
        _, slopes = layout.model(layout.start)
    except Infeasible:
        raise InputError.at("readings", "survey.no_shape") from None
    weighed = slopes / layout.errors[:, None]
    cofactors = np.linalg.inv(weighed.T @ weighed)
    results: list[float] = (1.0 - np.einsum("ij,jk,ik->i", weighed, cofactors, weighed)).tolist()
    return results


def usual_readings(readings: tuple[Reading, ...]) -> list[Reading]:
    """The readings that an opening may have, with values near enough for their slopes."""
    widths = [r.value_mm for r in readings if r.kind == "width"] or [1000.0]
    heights = [r.value_mm for r in readings if r.kind == "height"] or [2000.0]
    wide, high = widths[0], heights[0]
    slanting = (wide**2 + high**2) ** 0.5
    return [
        diagonal(slanting, "foot left"),
        diagonal(slanting, "foot right"),
        plumb("left", 0),
        plumb("right", 0),
        level("head", 0),
        level("floor", 0),
        width(wide, "foot"),
        width(wide, "head"),
        height(high, "left"),
        height(high, "right"),
        width(wide, "middle"),
        height(high, "middle"),
        bow("left", 0),
        bow("right", 0),
        bow("head", 0),
        bow("floor", 0),
        plumb("left", 0, "middle"),
        plumb("right", 0, "middle"),
        level("head", 0, "middle"),
        level("floor", 0, "middle"),
    ]
