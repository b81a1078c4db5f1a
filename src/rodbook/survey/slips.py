"""Common slips of the pen and the eye: what a misread reading may have been. Offered, never applied."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rodbook.errors import Message
from rodbook.job.misread import by_tens, digits_exchanged
from rodbook.survey.readings import Reading

__all__ = ["Slip", "common_slips"]

OFFER_LIMIT = 2.58
"""An offer lies within so many standard errors of what the other readings give: 99% (house assumption)."""

MOST_OFFERS = 3
"""Offers shown for a reading (house assumption)."""

_ROUND_MM = (10, 100, 1000)
"""Marks of a tape that are easily taken for their neighbours. [mm]"""

_INCH_CM = 2.54
"""Centimetres in an inch, exact by definition."""


@dataclass(frozen=True)
class Slip:
    """A common slip that would explain a reading.

    Parameters
    ----------
    kind : str
        "digits exchanged", "10 mm out" and the like.
    would_be_mm : float
        What the reading would be without it. [mm]
    message : Message
        The question to ask.
    """

    kind: str
    would_be_mm: float
    message: Message

    @property
    def sentence(self) -> str:
        """The question in English; only to be shown."""
        return self.message.sentence


def common_slips(
    reading: Reading, expected_mm: float, error_mm: float, *, others: Iterable[tuple[Reading, float, float]] = ()
) -> tuple[Slip, ...]:
    """Find the common slips that would bring a reading near to what it should be.

    Parameters
    ----------
    reading : Reading
        As taken.
    expected_mm, error_mm : float
        What the other readings give for it, and the standard error of a sound reading against that. [mm]
    others : iterable of tuple
        Other readings, each with what it should be and the standard error of a sound reading against that. [mm]

    Returns
    -------
    tuple of Slip
        Nearest first.

    Examples
    --------
    >>> from rodbook.survey import width
    >>> [(s.kind, s.would_be_mm) for s in common_slips(width(482, "foot"), 841.2, 2.0)]
    [('digits exchanged', 842.0)]
    """
    results: dict[float, Slip] = {}
    for slip in (*_of_the_number(reading), *_boxes(reading, expected_mm, others)):
        if abs(slip.would_be_mm - expected_mm) <= OFFER_LIMIT * error_mm and slip.would_be_mm != reading.value_mm:
            results.setdefault(slip.would_be_mm, slip)
    return tuple(sorted(results.values(), key=lambda slip: abs(slip.would_be_mm - expected_mm))[:MOST_OFFERS])


def _of_the_number(reading: Reading) -> list[Slip]:
    value = reading.value_mm
    slips = [
        Slip("digits exchanged", swapped, Message("survey.digits_exchanged", was_mm=swapped))
        for swapped in digits_exchanged(value)
    ]
    for mark in _ROUND_MM:
        slips += [
            Slip(f"{mark} mm out", value + way, Message("survey.read_out_by", by_mm=mark, was_mm=value + way))
            for way in (mark, -mark)
        ]
    for was, code in zip(by_tens(value), ("survey.written_in_centimetres", "survey.written_in_tenths"), strict=True):
        slips.append(Slip("decimal point", was, Message(code, was_mm=was)))
    for factor in (_INCH_CM, 1 / _INCH_CM):
        was = round(value * factor, 1)
        code = "survey.inches_for_centimetres" if factor > 1 else "survey.centimetres_for_inches"
        slips.append(Slip("inches", was, Message(code, was_mm=was)))
    if reading.can_be_negative and value:
        slips.append(Slip("wrong way", -value, Message("survey.out_the_other_way", was_mm=-value)))
    return slips


def _boxes(reading: Reading, expected_mm: float, others: Iterable[tuple[Reading, float, float]]) -> Sequence[Slip]:
    """Offer another box that the reading fits, where that box differs from its own by more than chance."""
    if reading.can_be_negative:
        return ()
    fitting = [
        (abs(reading.value_mm - should), other, should, error)
        for other, should, error in others
        if not other.can_be_negative
        and other.what != reading.what
        and abs(reading.value_mm - should) <= OFFER_LIMIT * error
        and abs(expected_mm - should) > OFFER_LIMIT * error
    ]
    if not fitting:
        return ()
    _, other, should, error = min(fitting, key=lambda entry: entry[0])
    if abs(other.value_mm - should) > OFFER_LIMIT * error:
        asked = Message("survey.exchanged_with", other=other.what, other_mm=other.value_mm)
        return (Slip("exchanged", other.value_mm, asked),)
    return (
        Slip(
            "wrong box",
            round(expected_mm, 1),
            Message("survey.other_written_here", other=other.what, near_mm=should),
        ),
    )
