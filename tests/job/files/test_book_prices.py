"""Prices added to a book's document."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.book import Price
from rodbook.job.files import add_prices, parse_book, sample_book_text

NEW = Price(amount=Decimal("53.00"), since=Date(2026, 12, 1), source="a list")


def test_every_sheet_and_length_of_the_sample_can_have_a_new_price() -> None:
    book = parse_book(sample_book_text())
    every = [(b.name, s.name) for b in book.boards for s in b.sheets]
    every += [(c.name, s.name) for c in book.sections for s in c.lengths]
    grown = parse_book(add_prices(sample_book_text(), dict.fromkeys(every, NEW)))
    for entry in (*(s for b in grown.boards for s in b.sheets), *(s for c in grown.sections for s in c.lengths)):
        assert entry.prices[-1] == NEW


def test_prices_in_tables_of_their_own() -> None:
    text = sample_book_text().replace(
        'prices = [{ amount = "96.00", since = 2026-01-05, source = "invented for the sample" }]',
        '[[boards.sheets.prices]]\namount = "96.00"\nsince = 2026-01-05\nsource = "invented for the sample"',
    )
    name = "18 mm birch plywood"
    written = add_prices(text, {(name, f"{name} 2440 x 1220"): NEW})
    assert parse_book(written).board(name).sheets[0].prices[-1] == NEW


def test_what_the_book_does_not_have_is_said() -> None:
    with pytest.raises(InputError, match="it does not have 22 mm MDF, none"):
        add_prices(sample_book_text(), {("22 mm MDF", "none"): NEW})
