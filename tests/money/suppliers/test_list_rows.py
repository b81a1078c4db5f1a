"""Cells of lists read as they were meant, or refused in a sentence."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError, Message
from rodbook.money.suppliers.list_rows import amount_said, columns_of, day_said, number_of, percent_more, refuse_source

D = Decimal


@given(st.integers(1, 400), st.decimals("0.05", 900, places=2))
def test_what_a_spreadsheet_worked_out_is_taken_as_it_was_meant(times: int, price: Decimal) -> None:
    assert amount_said(times * float(price), None, "EUR", "en") == times * price


@pytest.mark.parametrize(
    ("cell", "named", "said"),
    [
        ("48.00 GBP", None, "it is in GBP and the book in EUR"),
        ("CHF 48", "", "it is in CHF and the book in EUR"),
        ("48", "gbp", "it is in GBP and the book in EUR"),
        ("48 CHF", "GBP", "it is in CHF and GBP and the book in EUR"),
        (None, None, "nothing can't be read as a price for certain"),
        (True, None, "can't be read as a price for certain"),
        (float("inf"), None, "can't be read as a price for certain"),
        (-0.01, None, "a price of -0.01 is below zero"),
        (10**8, None, "is more than anything costs"),
        ("0.00001", None, "has more places than a book keeps; round it"),
        (1 / 3, None, "has more places than a book keeps; round it"),
        (1e-7, None, "has more places than a book keeps; round it"),
    ],
)
def test_what_is_no_amount_is_said(cell: Any, named: Any, said: str) -> None:
    found = amount_said(cell, named, "EUR", "en")
    assert isinstance(found, Message)
    assert said in str(found)


def test_amounts_in_the_book_s_own_currency() -> None:
    for cell in ("48.00 EUR", "EUR 48,00", "48,00 €", "€48.00", "€ 48", "eur48", 48, 48.0, D(48)):
        for named in ("eur", "€", None):
            assert amount_said(cell, named, "EUR", "de") == 48
    with pytest.raises(ValueError, match="NaN"):
        number_of(D("NaN"))


def test_a_price_is_asked_for_as_the_book_writes_it() -> None:
    assert str(amount_said("much", None, "EUR", "de_AT")).endswith("write it like 48,00")
    assert str(amount_said("much", None, "EUR", "en")).endswith("write it like 48.00")
    assert str(amount_said("-3,5", None, "EUR", "de")) == "a price of -3,5 is below zero"
    assert str(amount_said("£48", "€", "EUR", "de")) == "it is in GBP and the book in EUR; a list has to be in EUR"


def test_days_and_sources() -> None:
    at_eight = datetime(2027, 1, 1, 8)  # noqa: DTZ001  as a spreadsheet has it
    assert day_said(at_eight) == day_said(date(2027, 1, 1)) == day_said(" 2027-01-01 ") == date(2027, 1, 1)
    assert day_said(None) is None
    assert "write it as" in str(day_said("1/1/27"))
    for source in ("", " ", "x" * 351):
        with pytest.raises(InputError):
            refuse_source(source)
    assert (percent_more(D(0), D(3)), percent_more(D(2), D(1))) == (None, D("-50.0"))


def test_headings_stand_among_the_first_rows() -> None:
    rows = [(n, ["x"]) for n in range(1, 30)] + [(30, ["name", "price"])]
    headings = {"name": ("name",), "price": ("price", "each")}
    assert columns_of(rows[26:], headings, (("name",), ("price",))) == (3, {"name": 0, "price": 1})
    with pytest.raises(InputError, match="write 'name' and 'price' over them"):
        columns_of(rows, headings, (("name",), ("price",)))
