"""The shape of an opening by least squares: outline, how sure it is, and how well the readings agree."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from rodbook.errors import Infeasible, InputError
from rodbook.survey.adjusting import Adjusted, Vector
from rodbook.survey.assuming import Assumption, assumptions_of, hold, in_words
from rodbook.survey.building import OLD, Building
from rodbook.survey.chance import chi_square_limit, chi_square_tail, noticed_shift, outlier_limit
from rodbook.survey.instruments import INSTRUMENTS, Instrument
from rodbook.survey.layout import Layout, fit_layout, layout_of
from rodbook.survey.outline import CORNERS, MIDDLES, is_simple
from rodbook.survey.readings import Reading, checked

__all__ = ["AgreementTest", "Depth", "ReadingFit", "Shape", "Vertex", "adjust_shape"]

RISK = 0.001
"""Risk that a sound reading is called misread (common practice in surveying)."""

POWER = 0.80
"""Chance with which the least slip that is stated would be found (common practice in surveying)."""

AGREEMENT_RISK = 0.05
"""Risk of the test of all readings together, shared between its two ends (common practice)."""

LEAST_CHECKED = 0.02
"""Redundancy below which nothing checks a reading to speak of (house assumption): slips of 30 standard errors pass."""


@dataclass(frozen=True)
class Vertex:
    """A point of the outline, from the foot of the left side: x level to the right, y plumb upwards. [mm]

    Parameters
    ----------
    name : str
        A foot left, B foot right, C head right, D head left; F, R, H, L the middles of floor, right side, head, left.
    place : str
        The same in words.
    x_mm, y_mm : float
        Where it is. [mm]
    x_error_mm, y_error_mm : float
        Standard errors. [mm]
    """

    name: str
    place: str
    x_mm: float
    y_mm: float
    x_error_mm: float
    y_error_mm: float


@dataclass(frozen=True)
class ReadingFit:
    """How a reading came out.

    Parameters
    ----------
    name : str
        What was read.
    value_mm, standard_error_mm : float
        As taken. [mm]
    adjusted_mm, residual_mm : float
        What it should have said by all readings, and by how much that differs from it. [mm]
    redundancy : float
        Share of it that the other readings check, 0 to 1.
    w : float
        Size of its residual in the residual's own standard error; 0 where nothing checks it.
    least_slip_mm : float or None
        Least slip in it that would be found four times out of five; None where nothing checks it. [mm]
    """

    name: str
    value_mm: float
    standard_error_mm: float
    adjusted_mm: float
    residual_mm: float
    redundancy: float
    w: float
    least_slip_mm: float | None

    @property
    def is_checked(self) -> bool:
        """Whether other readings check it."""
        return self.least_slip_mm is not None


@dataclass(frozen=True)
class AgreementTest:
    """Whether the readings differ as their standard errors let expect: the chi-square test of the variance factor.

    Parameters
    ----------
    misfit : float
        Sum of squared residuals, each in its own standard error.
    degrees_of_freedom : int
        Readings less unknowns.
    least, most : float
        Limits of the misfit at the risk.
    risk : float
        Shared between both ends.
    chance : float
        Chance of a misfit at least as large.
    """

    misfit: float
    degrees_of_freedom: int
    least: float
    most: float
    risk: float
    chance: float

    @property
    def variance_factor(self) -> float:
        """Misfit for each degree of freedom; near 1 where the standard errors are right."""
        return self.misfit / self.degrees_of_freedom

    @property
    def sentence(self) -> str:
        """What it says, in words."""
        if self.misfit > self.most:
            return "The readings differ more than their standard errors let expect."
        if self.misfit < self.least:
            return "The readings agree better than their standard errors let expect."
        return "The readings agree as their standard errors let expect."


@dataclass(frozen=True)
class Depth:
    """Clear depth at a place, and its standard error. [mm]"""

    place: str
    value_mm: float
    error_mm: float


@dataclass(frozen=True)
class Shape:
    """An opening's outline, worked out from its readings.

    Parameters
    ----------
    vertices : tuple of Vertex
        Anticlockwise from A.
    covariance : tuple of tuple of float
        Of x and y of each vertex in order, if the stated standard errors are right. [mm2]
    readings : tuple of ReadingFit
        How each came out, in the order given.
    depths : tuple of Depth
        As many places as were read.
    degrees_of_freedom : int
        Readings less unknowns.
    agreement : AgreementTest or None
        None where nothing checks anything.
    assumed : tuple of Assumption
        What the readings don't tell well, each with what it may be out by.
    raked : bool
        Whether the head is said to be raked.
    building : Building, optional
        What it is taken to be like where nothing was read; None where all that was not read is taken as exact.
    exact : tuple of str
        What is taken as exact, in sentences, where no building is said.
    shared : tuple of str
        "sides" or "floor and head" where a width or a height shows a bow, and nothing tells which of the two has it.
    """

    vertices: tuple[Vertex, ...]
    covariance: tuple[tuple[float, ...], ...]
    readings: tuple[ReadingFit, ...]
    depths: tuple[Depth, ...]
    degrees_of_freedom: int
    agreement: AgreementTest | None
    assumed: tuple[Assumption, ...]
    raked: bool
    building: Building | None = None
    exact: tuple[str, ...] = ()
    shared: tuple[str, ...] = ()

    def vertex(self, name: str) -> Vertex:
        """A vertex by its letter."""
        return next(v for v in self.vertices if v.name == name)

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """The outline as bare points. [mm]"""
        return tuple((v.x_mm, v.y_mm) for v in self.vertices)

    @property
    def assumed_sentences(self) -> tuple[str, ...]:
        """What is taken for granted, in words."""
        if not self.assumed:
            return self.exact
        return (f"Assumed where too little was read, and within this 95 times in 100: {in_words(self.assumed)}.",)

    @property
    def unchecked(self) -> tuple[str, ...]:
        """Names of readings that nothing checks."""
        return tuple(fit.name for fit in self.readings if not fit.is_checked)

    @property
    def least_depth(self) -> Depth | None:
        """The shallowest place, where a depth was read."""
        return min(self.depths, key=lambda depth: depth.value_mm, default=None)

    @property
    def head_slope_degrees(self) -> float:
        """How far the head rises to the right. [degrees]"""
        left, right = self.vertex("D"), self.vertex("C")
        return math.degrees(math.atan2(right.y_mm - left.y_mm, right.x_mm - left.x_mm))


@dataclass(frozen=True, eq=False)
class Fitted:
    """Shape, layout and adjustment together, for use inside the survey.

    Parameters
    ----------
    layout : Layout
    adjusted : Adjusted
        By the readings alone: what tells how they agree.
    """

    layout: Layout
    adjusted: Adjusted


def adjust_shape(
    readings: Sequence[Reading],
    *,
    raked: bool = False,
    instruments: Mapping[str, Instrument] = INSTRUMENTS,
    risk: float = RISK,
    power: float = POWER,
    building: Building | None = OLD,
) -> Shape:
    """Find the outline that fits all readings best; nothing is left out, whatever it says.

    `rodbook.survey.survey_opening` looks for misread readings as well; this is its inner step.

    Parameters
    ----------
    readings : sequence of Reading
        Any subset that lets an outline be found.
    raked : bool
        Whether the head slopes on purpose; then it is never taken as level.
    instruments : mapping of str to Instrument
        Standard errors by instrument.
    risk, power : float
        Risk of calling a sound reading misread; chance with which the least slips stated would be found.
    building : Building, optional
        What it is taken to be like where nothing was read; with None, whatever was not read is taken as exact.

    Returns
    -------
    Shape

    Raises
    ------
    InputError
        If a reading can't be, or the outline can't be found, with a sentence that says what is missing; if no outline
        that is simple comes of them.

    Examples
    --------
    >>> from rodbook.survey import diagonal, height, width
    >>> shape = adjust_shape([width(800, "foot"), width(800, "head"), height(1500, "left"), height(1500, "right"),
    ...     diagonal(1700, "foot left"), diagonal(1700, "foot right")], building=None)
    >>> [(v.name, round(v.x_mm, 3), round(v.y_mm, 3)) for v in shape.vertices]
    [('A', 0.0, 0.0), ('B', 800.0, 0.0), ('C', 800.0, 1500.0), ('D', 0.0, 1500.0)]
    >>> shape.degrees_of_freedom, shape.exact[-1]
    (1, 'The floor is taken as level.')
    """
    fitted = fit(checked(readings, instruments), instruments, raked=raked)
    shape = shape_of(fitted, raked=raked, risk=risk, power=power, building=building)
    if not is_simple(shape.points):
        raise InputError.at(worst_name(shape), "survey.outline_crosses_itself")
    return shape


def fit(readings: tuple[Reading, ...], instruments: Mapping[str, Instrument], *, raked: bool) -> Fitted:
    """Lay out and adjust checked readings.

    Raises
    ------
    InputError
        If no outline comes of them.
    """
    try:
        return Fitted(*fit_layout(layout_of(readings, instruments, raked=raked)))
    except Infeasible as error:
        raise InputError.at("readings", "survey.check_for_a_slip", why=error.message) from None


def shape_of(fitted: Fitted, *, raked: bool, risk: float, power: float, building: Building | None) -> Shape:
    """Plain values of a fit: the outline with what is assumed, how the readings agree without it."""
    alone = fitted.layout, fitted.adjusted
    layout, adjusted = hold(*alone, building, raked=raked) if building else alone
    count = 2 * len(layout.outline.names)
    flat = layout.follow @ adjusted.unknowns
    full = layout.follow @ adjusted.cofactors @ layout.follow.T
    errors = np.sqrt(np.clip(np.diagonal(full), 0, None)).tolist()
    values = flat.tolist()
    places = {**CORNERS, **{name: f"middle of the {chain}" for name, chain in MIDDLES.items()}}
    vertices = tuple(
        Vertex(name, places[name], values[at], values[at + 1], errors[at], errors[at + 1])
        for at, name in zip(range(0, count, 2), layout.outline.names, strict=True)
    )
    depths = tuple(Depth(place, values[count + at], errors[count + at]) for at, place in enumerate(layout.depths))
    answer, _ = layout.observed(layout.readings, adjusted.unknowns)
    return Shape(
        vertices,
        tuple(map(tuple, full[:count, :count].tolist())),
        _fits(fitted, answer, risk=risk, power=power),
        depths,
        fitted.adjusted.degrees,
        agreement_of(fitted.adjusted),
        assumptions_of(layout, adjusted),
        raked,
        building,
        fitted.layout.assumed,
        fitted.layout.shared,
    )


def _fits(fitted: Fitted, answer: Vector, *, risk: float, power: float) -> tuple[ReadingFit, ...]:
    """How each reading came out against what the shape says of it; what checks it is what was read, not what is assumed."""
    adjusted = fitted.adjusted
    shift = noticed_shift(risk, power)
    rows = zip(
        fitted.layout.readings,
        adjusted.errors.tolist(),
        answer.tolist(),
        adjusted.redundancies.tolist(),
        adjusted.standardised(LEAST_CHECKED).tolist(),
        strict=True,
    )
    return tuple(
        ReadingFit(
            r.name,
            r.value_mm,
            s,
            adjusted_mm,
            adjusted_mm - r.value_mm,
            share,
            w,
            shift * s / math.sqrt(share) if share > LEAST_CHECKED else None,
        )
        for r, s, adjusted_mm, share, w in rows
    )


def agreement_of(adjusted: Adjusted) -> AgreementTest | None:
    """Test the misfit against what its degrees of freedom let expect."""
    degrees = adjusted.degrees
    if degrees < 1:
        return None
    half = AGREEMENT_RISK / 2
    return AgreementTest(
        adjusted.misfit,
        degrees,
        chi_square_limit(1 - half, degrees),
        chi_square_limit(half, degrees),
        AGREEMENT_RISK,
        chi_square_tail(adjusted.misfit, degrees),
    )


def worst_name(shape: Shape) -> str:
    """Name of the reading that fits least."""
    return max(shape.readings, key=lambda fit: (fit.w, abs(fit.residual_mm))).name


def misread_limit(risk: float) -> float:
    """Size of w above which a reading is called misread; the risk must be a chance.

    Raises
    ------
    InputError
        If it is none.
    """
    if not 0 < risk < 1:
        raise InputError.at("risk", "survey.not_a_chance", risk=risk)
    return outlier_limit(risk)
