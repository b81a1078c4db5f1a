"""The firm's own times and prices as they stand on a day: which there must be, and in which units."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.job import Book
from rodbook.job.book import Rate, standing_on
from rodbook.job.faults import nearest
from rodbook.money.rounding import measured

__all__ = ["RATE_UNITS", "SiteRate", "SiteRates", "site_rates"]

RATE_UNITS = {
    "crew hour": "currency/hour",
    "set up": "minutes/distinct part",
    "carry a sheet": "minutes/sheet",
    "break down": "minutes/metre cut",
    "size a part": "minutes/part",
    "prepare edges": "minutes/metre of edge",
    "bore a cup": "minutes/boring",
    "bore a plate": "minutes/plate",
    "apply a coat": "minutes/m2",
    "paint": "currency/m2 and coat",
    "clean up": "minutes/sheet",
    "waste away": "currency/kg",
}
"""Every rate that the site cost needs, and its unit; minutes are the crew's, whose hour has its price."""


@dataclass(frozen=True)
class SiteRate:
    """A time or price of site work as it stands on the day.

    Parameters
    ----------
    name : str
        One of `RATE_UNITS`.
    value : Decimal
        [`unit`]
    unit : str
        As in `RATE_UNITS`; "currency" stands for the book's.
    since : date
        Day from which it holds.
    source : str
    """

    name: str
    value: Decimal
    unit: str
    since: Date
    source: str

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


def _entry_faults(rates: tuple[Rate, ...]) -> Iterator[Fault]:
    begun: dict[tuple[str, Date], int] = {}
    for number, rate in enumerate(rates, 1):
        where = f"book.rates[{number}] ({rate.name})"
        unit = RATE_UNITS.get(rate.name)
        if unit is None:
            yield Fault(where, f"the site cost knows no rate {rate.name!r}{nearest(rate.name, RATE_UNITS)}")
            continue
        if rate.unit != unit:
            yield Fault(where, f"its unit is {rate.unit!r}; the site cost reckons it in {unit!r}")
        first = begun.setdefault((rate.name, rate.since), number)
        if first != number:
            yield Fault(where, f"it begins on {rate.since}, as book.rates[{first}] does; keep one of the two")


def _missing(name: str, rates: list[Rate], day: Date) -> Fault:
    later = f" (the first begins on {min(rate.since for rate in rates)})" if rates else ""
    return Fault("book.rates", f"there is no rate {name!r} that holds on {day}{later}; add one")


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
        With every fault at once: a rate that is missing or begins later, has another unit than `RATE_UNITS` says, has a
        name that the site cost does not know, or begins twice on the same day.
    """
    faults = list(_entry_faults(book.rates))
    by_name: dict[str, list[Rate]] = defaultdict(list)
    for rate in book.rates:
        by_name[rate.name].append(rate)
    found: dict[str, SiteRate] = {}
    for name, unit in RATE_UNITS.items():
        standing = standing_on(tuple(by_name[name]), day)
        if standing is None:
            faults.append(_missing(name, by_name[name], day))
            continue
        found[name.replace(" ", "_")] = SiteRate(name, measured(standing.value), unit, standing.since, standing.source)
    if faults:
        raise InputError(faults)
    return SiteRates(day, book.currency, **found)
