"""What decides between two ways of making: where the answer turns, and what moves the difference most.

All of it rests on closed-form means, so no draws are needed and no answer wobbles.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.money.outcome import HOURS_A_DAY
from rodbook.money.rates import Way
from rodbook.money.rounding import measured, rounded
from rodbook.money.weighing import Weighing
from rodbook.setout import PartKind
from rodbook.working import percent

__all__ = ["Sway", "TurningValues", "set_up_of_a_size", "sways", "turning_values"]

type Kinds = Mapping[PartKind, Way]

EITHER_WAY = 0.1
"""Prices have no spread in the book; what a tenth more or less of them does is shown beside the spreads (house
assumption). [1]"""


@dataclass(frozen=True)
class TurningValues:
    """Where the answer between two mixtures turns, everything else staying.

    Parameters
    ----------
    difference : Decimal
        Mean cost of the second less that of the first: above nought the first is cheaper. [currency]
    day_value : Decimal, optional
        What a crew day has to cost for both to cost the same; None where it does not turn on that. [currency/day]
    day_now : Decimal
        What it costs by the book, on average. [currency/day]
    workshop_prices, material_prices : Decimal, optional
        What the workshop's charges, or the merchant's prices, have to be multiplied with; None where they do not matter or
        would have to fall below nought. [1]
    sentences : tuple of str
    """

    difference: Decimal
    day_value: Decimal | None
    day_now: Decimal
    workshop_prices: Decimal | None
    material_prices: Decimal | None
    sentences: tuple[str, ...]


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
    by_crew = weighed.setting.rates.other("painter hour") is None
    hours = sum(float(o.hours) + (float(o.painter_hours) if by_crew else 0.0) for o in outcomes)
    rest = sum(float(o.sundries) + (0.0 if by_crew else float(o.painter)) for o in outcomes)
    return _Mean(
        material=sum(float(o.material) for o in outcomes),
        hours=hours,
        hour=float(outcomes[0].hour) if outcomes else 0.0,
        workshop=charges + sum(float(o.bought) for o in outcomes),
        rest=rest,
    )


def _ratio(over: float, under: float) -> float | None:
    found = over / under if abs(under) > 1e-9 else None
    return found if found is not None and found >= 0 else None


def _same_kinds(first: Kinds, second: Kinds) -> None:
    if set(first) != set(second) or not first:
        raise InputError.at("mixtures", "the two that are held against each other must be of the same kinds of part")


def turning_values(
    weighed: Weighing, first: Kinds, second: Kinds, *, currency: str, beside: Kinds | None = None
) -> TurningValues:
    """Find what a crew day, the workshop's charges and the merchant's prices have to be for two mixtures to cost the same.

    Parameters
    ----------
    weighed : Weighing
    first, second : mapping of PartKind to Way
        Of the same kinds.
    currency : str
    beside : mapping of PartKind to Way, optional
        What else is in the order.

    Returns
    -------
    TurningValues

    Raises
    ------
    InputError
        If the mixtures are not of the same kinds.

    Notes
    -----
    Mean cost = material x m + hours x h + charges x w + rest, so each turning value solves a line. The least charge of an
    order is taken to rise with the workshop's other charges.
    """
    _same_kinds(first, second)
    others = dict(beside or {})
    a, b = _mean(weighed, first, others), _mean(weighed, second, others)
    difference = b.cost - a.cost
    hours_a_day = weighed.setting.rate("working day", HOURS_A_DAY)
    hour = _ratio(difference + (a.hours - b.hours) * a.hour, a.hours - b.hours)
    workshop = _ratio(difference + a.workshop - b.workshop, a.workshop - b.workshop)
    material = _ratio(difference + a.material - b.material, a.material - b.material)

    def share(value: float | None) -> Decimal | None:
        return None if value is None else measured(value).quantize(Decimal("0.001"))

    day_value = None if hour is None else rounded(measured(hour * hours_a_day), currency)
    day_now = rounded(measured(a.hour * hours_a_day), currency)
    found = TurningValues(
        rounded(measured(difference), currency), day_value, day_now, share(workshop), share(material), ()
    )
    return TurningValues(
        found.difference, day_value, day_now, found.workshop_prices, found.material_prices,
        tuple(_said(found, currency)),
    )  # fmt: skip


def _said(found: TurningValues, currency: str) -> list[str]:
    if found.day_value is None:
        said = ["What a crew day costs does not turn the answer."]
    else:
        said = [f"The answer turns when a crew day costs {found.day_value} {currency}; it costs {found.day_now} now."]
    for what, value in (("the workshop's charges", found.workshop_prices), ("boards", found.material_prices)):
        if value is None:
            said.append(f"No price of {what} turns the answer.")
        else:
            move = abs(100 * (value - 1))
            said.append(f"The answer turns when {what} {'rise' if value >= 1 else 'fall'} by {percent(move, 1)}.")
    return said


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

    found = [
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
    if "crew hour" not in weighed.spreads:
        tenth += (("crew hour", lambda m: m.hours * m.hour),)
    for name, part in tenth:
        by = EITHER_WAY * (part(b) - part(a))
        found.append(_sway(name, now - by, now + by, "a tenth less and more", currency))
    return tuple(sorted((s for s in found if s.width), key=lambda s: (-s.width, s.name)))


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
