"""A workshop's charges put into the book's document: comments stay where they belong."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.book import WorkshopRates
from rodbook.job.files import add_charges, parse_book, sample_book_text

SHOP = "Quarry Lane Workshop"


def _set(day: date) -> WorkshopRates:
    first = parse_book(sample_book_text()).workshops[0].rates[0]
    return first.model_copy(update={"since": day, "edge_m": Decimal("1.30"), "lead_days": 9})


def test_the_rest_of_the_document_stays_letter_by_letter() -> None:
    text = sample_book_text()
    new = add_charges(text, SHOP, [_set(date(2027, 1, 1)), _set(date(2027, 6, 1))])
    head, tail = text.split("\n# --- taxes")
    assert new.startswith(head)
    assert new.endswith("\n# --- taxes" + tail)
    assert [rates.since.year for rates in parse_book(new).workshops[0].rates] == [2026, 2027, 2027]


def test_sets_on_one_line_are_added_to_as_well() -> None:
    text = sample_book_text()
    start, end = text.index("[[workshops.rates]]"), text.index("\n# --- taxes")
    fields = [line for line in text[start:end].splitlines()[1:] if line]
    inline = "rates = [{ " + ", ".join(fields) + " }]\n"
    new = add_charges(text[:start] + inline + text[end:], SHOP, [_set(date(2027, 1, 1))])
    assert len(parse_book(new).workshops[0].rates) == 2


def test_a_workshop_that_is_not_there() -> None:
    with pytest.raises(InputError, match="it has no workshop 'Mill'"):
        add_charges(sample_book_text(), "Mill", [])
