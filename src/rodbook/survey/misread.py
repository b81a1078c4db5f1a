"""Misread readings found: the one that the others gainsay, what it should have been near, and what may have happened."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from rodbook.errors import Infeasible, InputError, Message
from rodbook.survey.adjusting import Adjusted
from rodbook.survey.building import OLD, Building
from rodbook.survey.checking import usual_readings
from rodbook.survey.explaining import Explanation, explanations
from rodbook.survey.instruments import INSTRUMENTS, Instrument
from rodbook.survey.layout import MOST_UNSURE_MM, Layout, fit_layout, layout_of, standard_error
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

EQUALLY_GOOD = 1.0
"""Where leaving out one reading or another differs by less misfit than this, one that a common slip explains goes first
(house assumption)."""

NEARLY = ((15.0, 0.8), (60.0, 0.3), (math.inf, 0.0))
"""Readings whose w reaches this share of the largest are tried, by the size of the largest: the larger the slip, the
more it bends the shape, and the less w alone tells (house assumption)."""

TELLS_W = 3.0
"""A reading is asked for to tell two explanations apart where they differ in it by so many standard errors (house assumption)."""

MOST_WAYS = 4
"""So many ways of explaining it are told; the readings of all are listed (house assumption)."""

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
    def near(self) -> Message:
        """What it should be, and how surely."""
        return Message("survey.near", near_mm=self.expected_mm, give_or_take_mm=2 * self.expected_error_mm)

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
    ways : tuple of tuple of str
        Where it is open: each way in which it can be explained, by the names of the readings misread then, likeliest first.
    ask : str
        Where it is open: the reading that would tell these ways apart best.
    """

    retakes: tuple[Retake, ...]
    w: float
    ways: tuple[tuple[str, ...], ...] = ()
    ask: str = ""

    @property
    def is_settled(self) -> bool:
        """Whether the readings tell which one it is."""
        return len(self.retakes) == 1

    @property
    def message(self) -> Message:
        """What to do."""
        if self.is_settled:
            (one,) = self.retakes
            asked = tuple(Message("survey.then", said=offer.message) for offer in one.offers)
            return Message("survey.take_again", name=one.name, value_mm=_mm(one.value_mm), near=one.near, asked=asked)
        listed = tuple(
            Message("survey.one_of_these", name=r.name, value_mm=_mm(r.value_mm), near=r.near) for r in self.retakes
        )
        asked = tuple(
            Message("survey.for_the_reading", name=r.name, said=offer.message)
            for r in self.retakes
            for offer in r.offers
        )
        best = Message("survey.would_tell_apart", name=self.ask) if self.ask else None
        if any(len(way) > 1 for way in self.ways):
            ways = tuple(Message("survey.way", names=way) for way in self.ways[:MOST_WAYS])
            return Message("survey.several_wrong", ways=ways, readings=listed, best=best, asked=asked)
        return Message("survey.one_wrong", readings=listed, best=best, asked=asked)

    @property
    def sentence(self) -> str:
        """What to do, in English; only to be shown."""
        return self.message.sentence


def _mm(value: float) -> float:
    """To a tenth of a millimetre."""
    return round(value, 1)


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
        texts = [suspect.sentence for suspect in self.suspects]
        texts += self.shape.assumed_sentences
        if self.shape.agreement:
            texts.append(self.shape.agreement.sentence)
        if self.shape.unchecked:
            texts.append(f"Nothing checks: {', '.join(self.shape.unchecked)}.")
        return tuple(texts)


def survey_opening(
    readings: Sequence[Reading],
    *,
    raked: bool = False,
    instruments: Mapping[str, Instrument] = INSTRUMENTS,
    risk: float = RISK,
    power: float = POWER,
    building: Building | None = OLD,
) -> Survey:
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
    building : Building, optional
        What it is taken to be like where nothing was read; with None, whatever was not read is taken as exact. Misread
        readings are looked for by the readings alone: a house may lean further than most, and nobody misread anything.

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
    misfit is taken out, once more round. Then every other reading and every pair that would explain the disagreement nearly as
    well is held against that: what all explanations have in common is settled, the rest is open.

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
        raise InputError.at("readings", "survey.readings_contradict")
    _refuse_contradiction(layout, adjusted, [row for row in everything if row not in left_out])
    settled = all(suspect.is_settled for suspect in suspects)
    if settled or whole is None:
        kept = [row for row in everything if row not in left_out]
        fitted = Fitted(_only(layout, kept), adjusted)
    else:
        left_out, fitted = (), Fitted(layout, whole)
    shape = shape_of(fitted, raked=raked, risk=risk, power=power, building=building)
    if not is_simple(shape.points):
        raise InputError.at(worst_name(shape), "survey.outline_crosses_itself")
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
    """Take out one reading after the other while one stands out; then hold what else would explain it against that."""
    rows, now = everything, whole
    out: list[int] = []
    greatest: list[float] = []
    for _ in range(ROUNDS):
        may_be = _standing_out(rows, now, limit)
        if not may_be:
            break
        ranked = _ranked(layout, rows, may_be)
        if not ranked:
            break
        best, _, now = ranked[0]
        out.append(best)
        greatest.append(max(may_be.values()))
        rows = tuple(row for row in rows if row != best)
    if now is None or not out:
        return (), ()
    first = Explanation(tuple(sorted(out)), now)
    near = explanations(layout, first, fit=lambda kept: _fit(layout, kept))
    near = _slips_first(layout, near)
    return near[0].rows, _suspects(layout, near, greatest)


def _slips_first(layout: Layout, near: list[Explanation]) -> list[Explanation]:
    """Among explanations that are equally good, one whose readings are all explained by common slips goes first."""
    equal = [one for one in near if one.score - near[0].score < EQUALLY_GOOD]
    equal.sort(key=lambda one: not all(_retake(layout, one.adjusted, row).offers for row in one.rows))
    return [*equal, *near[len(equal) :]]


def _suspects(layout: Layout, near: list[Explanation], greatest: Sequence[float]) -> tuple[Suspect, ...]:
    """What every explanation has in common is settled; what only some have is open between them."""
    common = set.intersection(*(set(one.rows) for one in near))
    settled = [Suspect((_retake(layout, near[0].adjusted, row),), greatest[0]) for row in near[0].rows if row in common]
    open_rows: dict[int, Explanation] = {}
    for one in near:
        for row in one.rows:
            if row not in common:
                open_rows.setdefault(row, one)
    if not open_rows:
        return tuple(settled)
    retakes = tuple(_retake(layout, one.adjusted, row) for row, one in open_rows.items())
    names = layout.readings
    ways = tuple(dict.fromkeys(tuple(names[row].name for row in one.rows if row not in common) for one in near))
    return (
        *settled,
        Suspect(
            retakes, greatest[-1], tuple(way for way in ways if way), _telling(layout, near) if len(near) > 1 else ""
        ),
    )


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


def _ranked(layout: Layout, rows: tuple[int, ...], may_be: dict[int, float]) -> list[tuple[int, float, Adjusted]]:
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


def _predicted(layout: Layout, adjusted: Adjusted, row: int) -> tuple[float, float]:
    """What a reading should say by an adjustment without it, and the standard error of that. [mm]"""
    return _said(layout, adjusted, layout.readings[row])


def _said(layout: Layout, adjusted: Adjusted, reading: Reading) -> tuple[float, float]:
    """What any reading should say by an adjustment, and the standard error of that. [mm]"""
    values, slopes = layout.observed((reading,), adjusted.unknowns)
    return float(values[0]), math.sqrt(max(float(slopes[0] @ adjusted.cofactors @ slopes[0]), 0.0))


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
    raise InputError.at(reading.name, "survey.reading_contradicts_others", value_mm=reading.value_mm, rounds=ROUNDS)


def _telling(layout: Layout, near: Sequence[Explanation]) -> str:
    """Name of the reading that would tell the two likeliest explanations apart best: a further one, or one of theirs again."""
    first, second = near[0], near[1]
    taken = {reading.what for reading in layout.readings}
    fresh = [r for r in usual_readings(layout.readings) if r.what not in taken and layout.tells_of(r)]
    own = [layout.readings[row] for row in dict.fromkeys((*first.rows, *second.rows))]
    flat = layout.follow @ first.adjusted.unknowns
    wide, high = float(flat[layout.outline.x("B")]), float(flat[layout.outline.x("D") + 1])
    best, most = "", TELLS_W
    for reading in (*fresh, *own):
        (a, a_error), (b, b_error) = (_said(layout, one.adjusted, reading) for one in (first, second))
        error = standard_error(reading, INSTRUMENTS, wide, high)
        apart = abs(a - b) / math.hypot(a_error, b_error, error)
        if apart > most:
            best, most = f"{reading.what}{'' if reading in fresh else ' once more'}", apart
    return best
