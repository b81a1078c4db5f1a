"""Misread readings found: the one that the others gainsay, what it should have been near, and what may have happened."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from rodbook.errors import Infeasible, InputError
from rodbook.survey.adjusting import Adjusted
from rodbook.survey.instruments import INSTRUMENTS, Instrument
from rodbook.survey.layout import MOST_UNSURE_MM, Layout, fit_layout, layout_of
from rodbook.survey.outline import is_simple
from rodbook.survey.readings import Reading, checked
from rodbook.survey.shape import (
    LEAST_CHECKED,
    POWER,
    RISK,
    Fitted,
    Shape,
    agreement_of,
    misread_limit,
    shape_of,
    worst_name,
)
from rodbook.survey.slips import Slip, common_slips

__all__ = ["Retake", "Survey", "Suspect", "survey_opening"]

ROUNDS = 2
"""So many misread readings are looked for in one opening, one after the other."""

TELLS_APART = 6.0
"""Two readings can be told apart when leaving out the one leaves so much less misfit than leaving out the other: the
better one is then e^(6/2), 20 times, as likely (house assumption)."""

EQUALLY_GOOD = 1.0
"""Where leaving out one reading or another differs by less misfit than this, one that a common slip explains goes first
(house assumption)."""

NEARLY = ((15.0, 0.8), (60.0, 0.3), (math.inf, 0.0))
"""Readings whose w reaches this share of the largest are tried, by the size of the largest: the larger the slip, the
more it bends the shape, and the less w alone tells (house assumption)."""

BEYOND_ERROR = 1e-6
"""Chance of the misfit below which what is left contradicts itself beyond any error (house assumption)."""


@dataclass(frozen=True)
class Retake:
    """A reading to take again.

    Parameters
    ----------
    name : str
        Which.
    value_mm : float
        As taken. [mm]
    expected_mm, expected_error_mm : float
        What the other readings give, and its standard error. [mm]
    offers : tuple of Slip
        Common slips that would explain it; questions, nothing is changed.
    """

    name: str
    value_mm: float
    expected_mm: float
    expected_error_mm: float
    offers: tuple[Slip, ...]

    @property
    def slip_mm(self) -> float:
        """How far it seems out. [mm]"""
        return self.value_mm - self.expected_mm


@dataclass(frozen=True)
class Suspect:
    """One slip: the reading that was misread, or several of which one was.

    Parameters
    ----------
    retakes : tuple of Retake
        Likeliest first; more than one where the readings can't tell which it is.
    w : float
        Size of the standardised residual that gave it away.
    """

    retakes: tuple[Retake, ...]
    w: float

    @property
    def is_settled(self) -> bool:
        """Whether the readings tell which one it is."""
        return len(self.retakes) == 1

    @property
    def sentence(self) -> str:
        """What to do, in words."""
        if self.is_settled:
            (one,) = self.retakes
            text = f"Take the {one.name} again: it says {_mm(one.value_mm)}, but should be near {_near(one)}."
            return " ".join((text, *(offer.sentence for offer in one.offers)))
        listed = "; ".join(f"{r.name} ({_mm(r.value_mm)}, near {_near(r)} if it is this one)" for r in self.retakes)
        asked = [f"For the {r.name}: {offer.sentence}" for r in self.retakes for offer in r.offers]
        text = f"One of these readings is wrong, and the others can't tell which. Take them again: {listed}."
        return " ".join((text, *asked))


def _mm(value: float) -> str:
    return f"{value:.1f} mm".replace(".0 mm", " mm")


def _near(retake: Retake) -> str:
    return f"{retake.expected_mm:.0f} mm, give or take {2 * retake.expected_error_mm:.0f} mm"


@dataclass(frozen=True)
class Survey:
    """An opening's shape, and the readings to take again before anything is made to it.

    Parameters
    ----------
    shape : Shape
        Without the readings that were misread, where the readings tell which; else with all of them.
    suspects : tuple of Suspect
        None where nothing stands out.
    left_out : tuple of str
        Names of the readings that the shape does without.
    """

    shape: Shape
    suspects: tuple[Suspect, ...]
    left_out: tuple[str, ...]

    @property
    def is_settled(self) -> bool:
        """Whether every slip that was noticed could be put down to one reading."""
        return all(suspect.is_settled for suspect in self.suspects)

    @property
    def sentences(self) -> tuple[str, ...]:
        """All there is to say: what to take again, what is assumed, how the readings agree."""
        said = [suspect.sentence for suspect in self.suspects]
        said += self.shape.assumed
        if self.shape.agreement:
            said.append(self.shape.agreement.sentence)
        if self.shape.unchecked:
            said.append(f"Nothing checks: {', '.join(self.shape.unchecked)}.")
        return tuple(said)


def survey_opening(
    readings: Sequence[Reading], *, raked: bool = False, instruments: Mapping[str, Instrument] = INSTRUMENTS,
    risk: float = RISK, power: float = POWER,
) -> Survey:  # fmt: skip
    """Find an opening's shape, and the readings that were misread.

    Parameters
    ----------
    readings : sequence of Reading
        Any subset that lets an outline be found.
    raked : bool
        Whether the head slopes on purpose; then it is never taken as level.
    instruments : mapping of str to Instrument
        Standard errors by instrument.
    risk : float
        Risk that a sound reading is called misread; 0.001 sets the limit of w at 3.29.
    power : float
        Chance with which the least slips stated would be found.

    Returns
    -------
    Survey

    Raises
    ------
    InputError
        If a reading can't be, if the outline can't be found or crosses itself, or if the readings contradict each
        other beyond any error even without the worst of them; the sentence names a reading.

    Notes
    -----
    A reading stands out when its standardised residual w is above the limit [1]_. Which one it is, is settled by
    adjusting anew without each that may be it, as a large slip bends the shape; the one whose absence leaves least
    misfit is taken out, once more round, and one that fits after all is put back.

    References
    ----------
    .. [1] Baarda, *A testing procedure for use in geodetic networks*, Netherlands Geodetic Commission, 1968
       (from memory): risk 0.001 and power 0.80.

    Examples
    --------
    >>> from rodbook.survey import diagonal, height, plumb, width
    >>> found = survey_opening([width(842, "foot"), width(482, "head"), height(2010, "left"), height(2010, "right"),
    ...     plumb("left", 0), plumb("right", 0), diagonal(2179, "foot left"), diagonal(2179, "foot right")])
    >>> print(found.suspects[0].sentence)
    Take the width at head again: it says 482 mm, but should be near 842 mm, give or take 5 mm. Were two digits \
exchanged, and it was 842.0 mm?
    """
    limit = misread_limit(risk)
    counted = checked(readings, instruments)
    layout = layout_of(counted, instruments, raked=raked)
    everything = tuple(range(len(counted)))
    whole: Adjusted | None
    try:
        layout, whole = fit_layout(layout)
    except Infeasible:
        whole = None
    left_out, suspects = _snoop(layout, everything, whole, limit)
    adjusted = _fit(layout, tuple(row for row in everything if row not in left_out))
    if adjusted is None:
        raise InputError.at("readings", "the readings pull so far apart that no shape has them; check each for a slip")
    _refuse_contradiction(layout, adjusted, [row for row in everything if row not in left_out])
    settled = all(suspect.is_settled for suspect in suspects)
    if settled or whole is None:
        kept = [row for row in everything if row not in left_out]
        fitted = Fitted(_only(layout, kept), adjusted)
    else:
        left_out, fitted = (), Fitted(layout, whole)
    shape = shape_of(fitted, raked=raked, risk=risk, power=power)
    if not is_simple(shape.points):
        raise InputError.at(
            worst_name(shape),
            "the readings give an outline that crosses itself, and this one fits least; read it again",
        )
    return Survey(shape, suspects, tuple(counted[row].name for row in left_out))


def _only(layout: Layout, rows: Sequence[int]) -> Layout:
    return replace(layout, readings=tuple(layout.readings[row] for row in rows), errors=layout.errors[list(rows)])


def _fit(layout: Layout, rows: Sequence[int]) -> Adjusted | None:
    """Adjust these readings alone with the unknowns of all; nothing where no shape comes of them."""
    try:
        adjusted = fit_layout(_only(layout, rows))[1]
    except Infeasible:
        return None
    return adjusted if adjusted.cofactors.diagonal().max() < MOST_UNSURE_MM**2 else None


def _snoop(
    layout: Layout, everything: tuple[int, ...], whole: Adjusted | None, limit: float
) -> tuple[tuple[int, ...], tuple[Suspect, ...]]:
    """Take out one reading after the other while one stands out; put back what fits after all."""
    rows, now = everything, whole
    out: list[tuple[int, list[int], float]] = []
    for _ in range(ROUNDS):
        may_be = _standing_out(rows, now, limit)
        if not may_be:
            break
        ranked = _ranked(layout, rows, may_be)
        if not ranked:
            break
        (best, least, now), w = ranked[0], max(may_be.values())
        alike = [row for row, misfit, _ in ranked if misfit - least < TELLS_APART]
        out.append((best, alike, w))
        rows = tuple(row for row in rows if row != best)
    if now is None:
        return (), ()
    if len(out) > 1:
        out, rows, now = _put_back(layout, rows, now, out, limit)
    suspects = tuple(_suspect(layout, rows, alike, w) for _, alike, w in out)
    return tuple(row for row, _, _ in out), suspects


def _standing_out(rows: tuple[int, ...], adjusted: Adjusted | None, limit: float) -> dict[int, float]:
    """Readings that may be the one, each with its w; all of them where there is no shape at all."""
    if adjusted is None:
        return dict.fromkeys(rows, math.inf)
    w = adjusted.standardised(LEAST_CHECKED)
    top = float(w.max()) if len(w) else 0.0
    if top <= limit:
        return {}
    share = next(share for most, share in NEARLY if top < most)
    return {row: size for row, size in zip(rows, w.tolist(), strict=True) if size > share * top}


def _ranked(
    layout: Layout, rows: tuple[int, ...], may_be: dict[int, float]
) -> list[tuple[int, float, Adjusted]]:  # fmt: skip
    """Adjust without each in turn; least misfit first, and among equals the one that a common slip explains."""
    tried = []
    for row in may_be:
        without = _fit(layout, tuple(other for other in rows if other != row))
        if without is not None:
            tried.append((row, without.misfit, without))
    tried.sort(key=lambda entry: entry[1])
    equal = [entry for entry in tried if entry[1] - tried[0][1] < EQUALLY_GOOD]
    if len(equal) > 1:
        equal.sort(key=lambda entry: not _retake(layout, entry[2], entry[0]).offers)
        tried[: len(equal)] = equal
    return tried


def _put_back(
    layout: Layout, rows: tuple[int, ...], now: Adjusted, out: list[tuple[int, list[int], float]], limit: float
) -> tuple[list[tuple[int, list[int], float]], tuple[int, ...], Adjusted]:
    """Put a reading back that fits once the other is out: the first may have stood out only because of the second."""
    row, _, _ = out[0]
    expected, error = _predicted(layout, now, row)
    reading = layout.readings[row]
    if abs(reading.value_mm - expected) > limit * math.hypot(error, layout.errors[row]):
        return out, rows, now
    back = tuple(sorted((*rows, row)))
    again = _fit(layout, back)
    if again is None or float(again.standardised(LEAST_CHECKED).max()) > limit:
        return out, rows, now
    return out[1:], back, again


def _predicted(layout: Layout, adjusted: Adjusted, row: int) -> tuple[float, float]:
    """What a reading should say by an adjustment without it, and the standard error of that. [mm]"""
    values, slopes = layout.observed((layout.readings[row],), adjusted.unknowns)
    return float(values[0]), math.sqrt(max(float(slopes[0] @ adjusted.cofactors @ slopes[0]), 0.0))


def _suspect(layout: Layout, rows: tuple[int, ...], alike: list[int], w: float) -> Suspect:
    """Retakes of all that may be it, each against an adjustment without it (and without what is out already)."""
    retakes = []
    for row in alike:
        kept = tuple(other for other in sorted({*rows, *alike}) if other != row)
        without = _fit(layout, kept)
        if without is not None:
            retakes.append(_retake(layout, without, row))
    return Suspect(tuple(retakes), w)


def _retake(layout: Layout, adjusted: Adjusted, row: int) -> Retake:
    expected, error = _predicted(layout, adjusted, row)
    others = []
    for other in range(len(layout.readings)):
        if other != row and layout.readings[other].kind != "depth":
            should, unsure = _predicted(layout, adjusted, other)
            others.append((layout.readings[other], should, math.hypot(unsure, float(layout.errors[other]))))
    reading = layout.readings[row]
    offers = common_slips(reading, expected, math.hypot(error, float(layout.errors[row])), others=others)
    return Retake(reading.name, reading.value_mm, expected, error, offers)


def _refuse_contradiction(layout: Layout, adjusted: Adjusted, rows: Sequence[int]) -> None:
    agreement = agreement_of(adjusted)
    if agreement is None or agreement.chance >= BEYOND_ERROR:
        return
    w = adjusted.standardised(LEAST_CHECKED)
    worst = rows[int(w.argmax())]
    reading = layout.readings[worst]
    raise InputError.at(
        reading.name,
        f"{reading.value_mm:g} mm contradicts the other readings beyond any error, even without the {ROUNDS} that fit "
        "least; take all of them again",
    )
