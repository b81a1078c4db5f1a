"""Which one further reading would make the largest front surest."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from rodbook.errors import Infeasible
from rodbook.survey.adjusting import Vector
from rodbook.survey.checking import usual_readings
from rodbook.survey.front import Extremes, Found, Geometry, find_front, stated_error
from rodbook.survey.instruments import INSTRUMENTS, Instrument
from rodbook.survey.layout import standard_error
from rodbook.survey.observing import Touching, observe
from rodbook.survey.readings import Reading, level
from rodbook.survey.shape import Shape
from rodbook.working import percent

__all__ = ["Helps", "most_helpful"]

WORTH_IT = 0.9
"""A reading that leaves more than this share of what is unsure is not worth asking for (house assumption)."""

TRIED = 6
"""So many readings are tried on the front."""


@dataclass(frozen=True)
class Helps:
    """A reading that would make what an opening offers surer.

    Parameters
    ----------
    name : str
        What to read.
    width_error_mm, height_error_mm : float
        Standard errors of width and height of the largest front as they are. [mm]
    width_then_mm, height_then_mm : float
        The same with that reading. [mm]
    """

    name: str
    width_error_mm: float
    height_error_mm: float
    width_then_mm: float
    height_then_mm: float

    @property
    def gain(self) -> float:
        """Share of what is unsure that it takes away."""
        return 1 - math.hypot(self.width_then_mm, self.height_then_mm) / math.hypot(
            self.width_error_mm, self.height_error_mm
        )

    @property
    def sentence(self) -> str:
        """What to read and what it gains, in words."""
        return (
            f"Read the {self.name}: what is unsure of width and height would be less by {percent(100 * self.gain, 0)}."
        )


def most_helpful(
    readings: Sequence[Reading], shape: Shape, *, instruments: Mapping[str, Instrument] = INSTRUMENTS
) -> Helps | None:
    r"""Find the reading of the usual set, not yet taken, after which width and height together would be surest.

    Parameters
    ----------
    readings : sequence of Reading
        As taken.
    shape : Shape
        Adjusted with what is assumed of the building: only then is it unsure where nothing was read.
    instruments : mapping of str to Instrument
        What each reading would be out by.

    Returns
    -------
    Helps or None
        None where no single reading would gain much, or nothing upright fits.

    Notes
    -----
    A reading of slopes h and standard error s takes :math:`\Sigma h h' \Sigma / (s^2 + h' \Sigma h)` off the covariance,
    whatever it says. Those that take most off the variances of the outline are tried on the front.
    """
    geometry = Geometry.of(shape)
    try:
        result = find_front(geometry, "raked" if shape.raked else "level")
    except Infeasible:
        return None
    taken = {reading.what for reading in readings}
    if shape.raked:
        taken.add(level("head", 0).what)
    after = [
        (reading.what, _with(geometry, reading, instruments, result.run))
        for reading in usual_readings(tuple(readings))
        if reading.what not in taken and (reading.kind != "bow" or geometry.outline.has_middle(reading.part))
    ]
    after.sort(key=lambda entry: float(np.trace(entry[1])))
    now = _errors(geometry, result)
    best: Helps | None = None
    for name, covariance in after[:TRIED]:
        one = Helps(name, *now, *_errors(replace(geometry, covariance=covariance), result))
        if best is None or one.gain > best.gain + 1e-9:
            best = one
    return best if best and best.gain > 1 - WORTH_IT else None


def _errors(geometry: Geometry, result: Found) -> tuple[float, float]:
    extremes = Extremes.of(geometry, result)
    across = extremes.right.plus(extremes.left.times(-1))
    upwards = extremes.head.plus(extremes.foot.times(-1))
    tall = min(result.head_left.value, result.head_right.value) - result.foot.value
    return stated_error(geometry, result.run, across), stated_error(geometry, tall, upwards)


def _with(geometry: Geometry, reading: Reading, instruments: Mapping[str, Instrument], wide: float) -> Vector:
    """The covariance with one reading more."""
    outline, flat = geometry.outline, geometry.flat
    slopes = np.zeros(len(flat))
    _, terms = observe(reading, flat, outline, Touching.of(flat, outline))
    for place, slope in terms:
        slopes[place] += slope
    gained = geometry.covariance @ slopes
    error = standard_error(reading, instruments, wide, flat[outline.x("D") + 1])
    return np.asarray(geometry.covariance - np.outer(gained, gained) / (error**2 + float(slopes @ gained)))
