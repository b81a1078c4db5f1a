"""The firm's own times and prices as they stand on a day: which there must be, and in which units."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from babel.numbers import list_currencies

from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job import Book
from rodbook.job.book import Rate, valid_on
from rodbook.job.faults import nearest
from rodbook.money.rates.names import PREPARATION, REJECTS, Counted, RateName, Way, counted_in, per_what
from rodbook.money.rates.rounding import measured
from rodbook.money.rates.spread import LogNormal

__all__ = ["FITTING_UNITS", "KNOWN_UNITS", "OPTIONAL_UNITS", "RATE_UNITS", "SiteRate", "SiteRates", "Way", "site_rates"]

RATE_UNITS: Mapping[str, str] = {
    RateName.CREW_HOUR: "currency/hour",
    RateName.SET_UP: "minutes/distinct part",
    RateName.CARRY_A_SHEET: "minutes/sheet",
    RateName.BREAK_DOWN: "minutes/metre cut",
    RateName.SIZE_A_PART: "minutes/part",
    RateName.PREPARE_EDGES: "minutes/metre of edge",
    RateName.BORE_A_CUP: "minutes/boring",
    RateName.BORE_A_PLATE: "minutes/plate",
    RateName.APPLY_A_COAT: "minutes/m2",
    RateName.PAINT: "currency/m2 and coat",
    RateName.CLEAN_UP: "minutes/sheet",
    RateName.WASTE_AWAY: "currency/kg",
}
"""Every rate that the site cost needs, and its unit; minutes are the crew's, whose hour has its price."""


FITTING_UNITS: Mapping[str, str] = {
    "read once more": "minutes/opening",
    "place an order": "minutes/order",
    "take in a delivery": "minutes/delivery",
    "check a part": "minutes/part",
    "fit a lining": "minutes/opening",
    "hang a leaf": "minutes/leaf",
    "fit trims": "minutes/opening",
    "fit a panel": "minutes/panel",
    "touch up": "minutes/opening",
    "adjust a leaf": "minutes/leaf",
    "hand over": "minutes/job",
    "drying": "hours/coat",
    "merchant's lead": "working days/order",
}
"""Times that the programme of dates knows, a book may hold, and no cost is reckoned from."""

OPTIONAL_UNITS: Mapping[str, str] = {
    RateName.BATCH_SET_UP: "minutes/batch",
    RateName.LIFT_ALONE: "kg",
    RateName.INTERRUPTIONS: "minutes/hour of work",
    RateName.WORKING_DAY: "hours/day",
    RateName.PAINTER_HOUR: "currency/hour",
    RateName.LEAD_TIME: "times what is said",
    RateName.PAY_THE_MERCHANT: "days",
    RateName.PAY_THE_WORKSHOP: "days",
    RateName.OVERHEAD: "currency/crew hour",
    RateName.OVERHEAD_ON_COST: "share of cost",
    RateName.MARGIN: "share of price",
    RateName.MARK_UP: "share of cost",
    RateName.CONFIDENCE: "share of jobs",
    RateName.PRICE_HOLDS: "days",
    **FITTING_UNITS,
    **dict.fromkeys(REJECTS.values(), "share of parts"),
    **dict.fromkeys(PREPARATION.values(), "minutes/m2"),
}
"""Rates that a book may hold besides: what is not in it is not counted, and a remark says so where it matters. A batch is
one kind of part from one board; "lift alone" is the mass above which two carry a sheet."""

KNOWN_UNITS: Mapping[str, str] = {**RATE_UNITS, **OPTIONAL_UNITS}
"""Every rate that money knows, and its unit."""


@dataclass(frozen=True)
class SiteRate:
    """A time or price of site work as it stands on the day.

    Parameters
    ----------
    name : str
        One of `KNOWN_UNITS`.
    value : Decimal
        [`unit`]
    unit : str
        As in `KNOWN_UNITS`; "currency" stands for the book's.
    since : date
        Day from which it holds.
    source : str
    nine_in_ten : Decimal, optional
        What nine in ten stay under, `value` being the middle; None where no spread is known. [`unit`]
    learning : Decimal, optional
        Share to which each doubling of the number brings a unit's time; None where it stays. [1]
    """

    name: str
    value: Decimal
    unit: str
    since: Date
    source: str
    nine_in_ten: Decimal | None = None
    learning: Decimal | None = None

    @property
    def spread(self) -> LogNormal | None:
        """Its spread around `value` [`unit`]; None where no spread is known or it is zero."""
        if self.nine_in_ten is None or not self.value or self.nine_in_ten == self.value:
            return None
        return LogNormal.of(float(self.value), float(self.nine_in_ten))

    def provenance(self) -> str:
        """Where it comes from, in a few words."""
        return f"{self.name}: {self.source}, since {self.since}"


@dataclass(frozen=True)
class SiteRates:
    """All the rates of site work that hold on one day; the fields are named after `RATE_UNITS`.

    Parameters
    ----------
    day : date
    currency : str
        ISO 4217 code of the money in them.
    crew_hour, set_up, carry_a_sheet, break_down, size_a_part, prepare_edges, bore_a_cup, bore_a_plate : SiteRate
    apply_a_coat, paint, clean_up, waste_away : SiteRate
    others : tuple of SiteRate
        Those of `OPTIONAL_UNITS` that the book holds.
    """

    day: Date
    currency: str
    crew_hour: SiteRate
    set_up: SiteRate
    carry_a_sheet: SiteRate
    break_down: SiteRate
    size_a_part: SiteRate
    prepare_edges: SiteRate
    bore_a_cup: SiteRate
    bore_a_plate: SiteRate
    apply_a_coat: SiteRate
    paint: SiteRate
    clean_up: SiteRate
    waste_away: SiteRate
    others: tuple[SiteRate, ...] = ()

    def all(self) -> dict[str, SiteRate]:
        """Every rate by its name, those that a book may hold besides included."""
        must = {name: getattr(self, name.replace(" ", "_")) for name in RATE_UNITS}
        return must | {rate.name: rate for rate in self.others}

    def other(self, name: str) -> SiteRate | None:
        """One of `OPTIONAL_UNITS`; None where the book does not hold it."""
        return next((rate for rate in self.others if rate.name == name), None)


def _unit_fault(rate: Rate, unit: str, currency: str) -> Message | None:
    """What is wrong with the unit; the book's own currency may be written out."""
    if rate.unit in (unit, unit.replace("currency", currency)):
        return None
    head = counted_in(rate.unit)
    in_money = counted_in(unit) == Counted.CURRENCY and per_what(unit) == per_what(rate.unit)
    if in_money and head in list_currencies():
        return Message("money.rate_in_other_currency", currency=head, own=currency)
    return Message("money.rate_in_other_unit", unit=rate.unit, wanted=unit)


def _spread_fault(rate: Rate) -> Message | None:
    if rate.nine_in_ten is not None and rate.nine_in_ten < rate.value:
        return Message("money.rate_nine_in_ten_below_middle", nine_in_ten=rate.nine_in_ten, middle=rate.value)
    if rate.learning is not None and counted_in(rate.unit) != Counted.MINUTES:
        return Message("money.rate_learning_no_time")
    if rate.name in (RateName.MARGIN, RateName.CONFIDENCE) and rate.value >= 1:
        return Message("money.rate_share_too_large", name=rate.name, value=rate.value)
    if rate.name in REJECTS.values() and rate.value >= 1:
        return Message("money.rate_rejects_too_large", value=rate.value)
    return None


def _entry_faults(rates: tuple[Rate, ...], currency: str) -> Iterator[Fault]:
    begun: dict[tuple[str, Date], int] = {}
    for number, rate in enumerate(rates, 1):
        at = Place(("book", "rates", number - 1), rate.name)
        unit = KNOWN_UNITS.get(rate.name)
        if unit is None:
            yield Fault(at, "money.unknown_rate", name=rate.name, hint=nearest(rate.name, KNOWN_UNITS))
            continue
        yield from (Fault(at, answer) for answer in (_unit_fault(rate, unit, currency), _spread_fault(rate)) if answer)
        first = begun.setdefault((rate.name, rate.since), number)
        if first != number:
            yield Fault(at, "money.rate_begins_twice", since=rate.since, first=first)


def _missing(name: str, rates: list[Rate], day: Date) -> Fault:
    hint = Message("money.rate_begins_later", day=min(rate.since for rate in rates)) if rates else None
    return Fault(("book", "rates"), "money.no_rate_on_day", name=name, day=day, hint=hint)


def site_rates(book: Book, day: Date) -> SiteRates:
    """Every rate of site work that holds on a day.

    Parameters
    ----------
    book : Book
    day : date

    Returns
    -------
    SiteRates

    Raises
    ------
    InputError
        With every fault at once: a rate that is missing or begins later, has another unit than `KNOWN_UNITS` says or is
        in another currency than the book, has a name that the site cost does not know, begins twice on the same day, or
        has a spread that runs backwards.
    """
    faults = list(_entry_faults(book.rates, book.currency))
    by_name: dict[str, list[Rate]] = defaultdict(list)
    for rate in book.rates:
        by_name[rate.name].append(rate)
    results: dict[str, SiteRate] = {}
    others: list[SiteRate] = []
    for name, unit in KNOWN_UNITS.items():
        standing = valid_on(tuple(by_name[name]), day)
        if standing is not None:
            taken = _taken(standing, unit)
            if name in RATE_UNITS:
                results[name.replace(" ", "_")] = taken
            else:
                others.append(taken)
        elif name in RATE_UNITS:
            faults.append(_missing(name, by_name[name], day))
    if faults:
        raise InputError(faults)
    return SiteRates(day, book.currency, **results, others=tuple(others))


def _taken(rate: Rate, unit: str) -> SiteRate:
    spread, learning = rate.nine_in_ten, rate.learning
    return SiteRate(
        rate.name,
        measured(rate.value),
        unit,
        rate.since,
        rate.source,
        None if spread is None else measured(spread),
        None if learning is None else measured(learning),
    )
