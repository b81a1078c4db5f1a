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
        38,
        41,
        44,
    ]


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


def with_rates(raw: dict[str, Any], *more: dict[str, Any], **changes: dict[str, Any]) -> Book:
    """The sample book with some rates changed (names written with _) and others added."""
    kept = [r | changes.get(r["name"].replace(" ", "_"), {}) for r in raw["rates"]]
    return changed(raw, [*kept, *more])


def test_spread_and_learning_are_taken_over(raw_book: dict[str, Any]) -> None:
    book = with_rates(raw_book, size_a_part={"nine_in_ten": 6, "learning": 0.9})
    found = site_rates(book, DAY).size_a_part
    assert (found.nine_in_ten, found.learning) == (6, Decimal("0.9"))
    assert found.spread is not None
    assert found.spread.quantile(0.9) == pytest.approx(6)
    assert site_rates(book, DAY).bore_a_cup.spread is None


def test_what_a_book_may_hold_besides(raw_book: dict[str, Any]) -> None:
    book = with_rates(raw_book, rate("interruptions", unit="minutes/hour of work", value=7))
    rates = site_rates(book, DAY)
    assert rates.other("interruptions") == rates.all()["interruptions"]
    assert rates.other("lift alone") is None
    assert len(rates.all()) == 13


def test_another_currency_and_a_spread_backwards_are_faults(raw_book: dict[str, Any]) -> None:
    book = with_rates(
        raw_book,
        rate("painter hour", unit="USD/hour", value=30),
        rate("rejects, bought cut", unit="share of parts", value=2),
        size_a_part={"nine_in_ten": 3},
        paint={"learning": 0.9},
        crew_hour={"unit": "EUR/hour"},
    )
    assert faults(book) == [
        "book.rates[5] (size a part): nine in ten stay under 3, which is less than its middle, 4; write more",
        "book.rates[10] (paint): learning goes with times and not with prices; take it out",
        "book.rates[13] (painter hour): it is in USD while the book is in EUR; write it in EUR",
        "book.rates[14] (rejects, bought cut): a share of 2 would spoil every part; write 0.02 for two in a hundred",
    ]


def test_a_negative_rate_is_no_book(raw_book: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="greater than or equal to 0"):
        changed(raw_book, [rate("crew hour", value=-1)])
