"""Rates of site work as they stand on a day."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.money import RATE_UNITS, SiteRate, site_rates

DAY = date(2026, 11, 2)


def changed(raw: dict[str, Any], rates: list[dict[str, Any]]) -> Book:
    return Book.model_validate({**raw, "rates": rates})


def rate(name: str, *, unit: str | None = None, since: str = "2026-01-05", value: float = 5) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit or RATE_UNITS[name], "since": since, "source": "test"}


def faults(book: Book, day: date = DAY) -> list[str]:
    with pytest.raises(InputError) as caught:
        site_rates(book, day)
    return str(caught.value).split("\n")


def test_the_sample_book_has_every_rate(book: Book) -> None:
    rates = site_rates(book, DAY)
    assert rates.crew_hour == SiteRate(
        "crew hour", Decimal(38), "currency/hour", date(2026, 1, 5), "invented for the sample"
    )
    assert rates.prepare_edges.value == Decimal("3.5")
    assert (rates.day, rates.currency) == (DAY, "EUR")
    for name, unit in RATE_UNITS.items():
        found = getattr(rates, name.replace(" ", "_"))
        assert (found.name, found.unit) == (name, unit)


def test_the_latest_that_has_begun_holds(raw_book: dict[str, Any]) -> None:
    later = [rate("crew hour", since="2026-12-01", value=44), rate("crew hour", since="2026-06-01", value=41)]
    book = changed(raw_book, [*raw_book["rates"], *later])
    assert [site_rates(book, d).crew_hour.value for d in (date(2026, 5, 31), date(2026, 6, 1), date(2026, 12, 24))] == [
        38, 41, 44,
    ]  # fmt: skip


def test_missing_rates_are_all_named_at_once(raw_book: dict[str, Any]) -> None:
    kept = [r for r in raw_book["rates"] if r["name"] not in ("bore a cup", "paint")]
    kept.append(rate("paint", since="2027-01-04"))
    assert faults(changed(raw_book, kept)) == [
        "book.rates: there is no rate 'bore a cup' that holds on 2026-11-02; add one",
        "book.rates: there is no rate 'paint' that holds on 2026-11-02 (the first begins on 2027-01-04); add one",
    ]


def test_a_day_before_everything_misses_all_twelve(book: Book) -> None:
    assert len(faults(book, date(2020, 1, 1))) == len(RATE_UNITS) == 12


def test_unknown_names_and_wrong_units_are_faults(raw_book: dict[str, Any]) -> None:
    rates = [r for r in raw_book["rates"] if r["name"] != "bore a cup"]
    rates += [
        rate("bore a cupp", unit="minutes/boring"),
        rate("bore a cup", unit="minutes/hour"),
        rate("size a part"),
    ]
    assert faults(changed(raw_book, rates)) == [
        "book.rates[12] (bore a cupp): the site cost knows no rate 'bore a cupp'; did you mean bore a cup?",
        "book.rates[13] (bore a cup): its unit is 'minutes/hour'; the site cost reckons it in 'minutes/boring'",
        "book.rates[14] (size a part): it begins on 2026-01-05, as book.rates[5] does; keep one of the two",
    ]
