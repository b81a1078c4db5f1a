"""What moves the difference between two ways of making most. Where the decision turns is for `turning_points`.

All of it rests on closed-form means, so no draws are needed and no answer wobbles.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.money.deciding.weighing import Weighing
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import measured, rounded
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind

__all__ = ["Sway", "difference_of", "set_up_of_a_size", "sways"]

type Kinds = Mapping[PartKind, Way]

EITHER_WAY = 0.1
"""Prices have no spread in the book; what a tenth more or less of them does is shown beside the spreads (house
assumption). [1]"""


@dataclass(frozen=True)
class Sway:
    """How far one thing moves the difference between two mixtures, all others at their means.

    Parameters
    ----------
    name : str
        A rate of the book, or what is priced.
    low, high : Decimal
        The difference with it low and high. [currency]
    basis : str
        What low and high are.
    turns : bool
        Whether the cheaper mixture changes on the way.
    """

    name: str
    low: Decimal
    high: Decimal
    basis: str
    turns: bool

    @property
    def width(self) -> Decimal:
        """How far it moves it. [currency]"""
        return abs(self.high - self.low)


@dataclass(frozen=True)
class _Mean:
    """Mean cost of a mixture as a sum that is straight in what is asked about."""

    material: float
    hours: float
    hour: float
    workshop: float
    rest: float

    @property
    def cost(self) -> float:
        return self.material + self.hours * self.hour + self.workshop + self.rest


def _mean(weighed: Weighing, mixture: Kinds, beside: Kinds, changed: Mapping[str, float] | None = None) -> _Mean:
    outcomes = [weighed.mean(kind, way, changed) for kind, way in mixture.items()]
    charges = weighed.charges({**beside, **mixture}) - weighed.charges(beside)
    by_crew = weighed.setting.rates.other(RateName.PAINTER_HOUR) is None
    hours = sum(float(o.hours) + (float(o.painter_hours) if by_crew else 0.0) for o in outcomes)
    rest = sum(float(o.sundries) + (0.0 if by_crew else float(o.painter)) for o in outcomes)
    return _Mean(
        material=sum(float(o.material) for o in outcomes),
        hours=hours,
        hour=float(outcomes[0].hour) if outcomes else 0.0,
        workshop=charges + sum(float(o.bought) for o in outcomes),
        rest=rest,
    )


def _same_kinds(first: Kinds, second: Kinds) -> None:
    if set(first) != set(second) or not first:
        raise InputError.at("mixtures", "money.mixtures_of_other_kinds")


def difference_of(
    weighed: Weighing, first: Kinds, second: Kinds, *, currency: str, beside: Kinds | None = None
) -> Decimal:
    """Mean cost of the second mixture less that of the first: above zero the first is cheaper. [currency]

    Raises
    ------
    InputError
        If the mixtures are not of the same kinds.
    """
    _same_kinds(first, second)
    others = dict(beside or {})
    return rounded(measured(_mean(weighed, second, others).cost - _mean(weighed, first, others).cost), currency)


def sways(
    weighed: Weighing, first: Kinds, second: Kinds, *, currency: str, beside: Kinds | None = None
) -> tuple[Sway, ...]:
    """What moves the difference between two mixtures, the most first.

    Parameters
    ----------
    weighed : Weighing
    first, second : mapping of PartKind to Way
        Of the same kinds; the difference is the second's mean cost less the first's.
    currency : str
    beside : mapping of PartKind to Way, optional
        What else is in the order.

    Returns
    -------
    tuple of Sway
        Rates with a spread at what one and nine in ten stay under; charges and prices a tenth less and more; what does not
        move it is left out.
    """
    _same_kinds(first, second)
    others = dict(beside or {})
    a, b = _mean(weighed, first, others), _mean(weighed, second, others)
    now = b.cost - a.cost

    def moved(changed: Mapping[str, float]) -> float:
        return _mean(weighed, second, others, changed).cost - _mean(weighed, first, others, changed).cost

    results = [
        _sway(
            name,
            moved({name: spread.quantile(0.1)}),
            moved({name: spread.quantile(0.9)}),
            "one and nine in ten",
            currency,
        )
        for name, spread in weighed.spreads.items()
    ]
    tenth: tuple[tuple[str, Callable[[_Mean], float]], ...] = (
        ("the workshop's charges", lambda m: m.workshop),
        ("boards and lengths", lambda m: m.material),
    )
    if RateName.CREW_HOUR not in weighed.spreads:
        tenth += ((RateName.CREW_HOUR, lambda m: m.hours * m.hour),)
    for name, part in tenth:
        by = EITHER_WAY * (part(b) - part(a))
        results.append(_sway(name, now - by, now + by, "a tenth less and more", currency))
    return tuple(sorted((s for s in results if s.width), key=lambda s: (-s.width, s.name)))


def _sway(name: str, low: float, high: float, basis: str, currency: str) -> Sway:
    least, most = rounded(measured(low), currency), rounded(measured(high), currency)
    return Sway(name, least, most, basis, (low < 0) != (high < 0))


def set_up_of_a_size(weighed: Weighing, mixture: Kinds, parts: Mapping[PartKind, int], *, currency: str) -> Decimal:
    """What one more standard size costs in set-ups: its distinct parts, each the way it is made.

    Parameters
    ----------
    weighed : Weighing
    mixture : mapping of PartKind to Way
    parts : mapping of PartKind to int
        Distinct parts that a further size brings: a leaf, a pair of legs that are alike, a head.
    currency : str

    Returns
    -------
    Decimal
        For `rodbook.sizes.weigh_money`. [currency]
    """
    rates, total = weighed.setting.rates, Decimal(0)
    for kind, number in parts.items():
        way = mixture[kind]
        if way in (Way.SITE, Way.FINISHED_OUT):
            total += number * rates.set_up.value * rates.crew_hour.value / 60
        elif weighed.workshop_rates is not None:
            total += number * weighed.workshop_rates.set_up
    return rounded(total, currency)
