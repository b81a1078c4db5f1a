"""A workshop's list read into the lines of a quote."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money import QuoteLine, quote_lines

WANTED = {"1-door-left": 3, "D2": 2}


def _rows(*rows):
    return [(n, list(row)) for n, row in enumerate(rows, 1)]


def test_headings_stand_anywhere_at_the_top_and_other_columns_are_left_alone():
    rows = _rows(
        ["Rook Mill"], [], ["Item", "Remark", "Quantity", "Total", "Board"], ["1 door LEFT", "primed", 3, 96.5, "MDF"]
    )
    assert quote_lines(rows, WANTED, "EUR", "en") == (QuoteLine("1-door-left", 3, Decimal("96.5"), "MDF"),)


def test_without_a_number_as_many_as_are_ordered_are_taken():
    rows = _rows(["mark", "each"], ["1-door-left", "10,50"], ["X9", "4"])
    found = quote_lines(rows, WANTED, "EUR", "en")
    assert [(line.mark, line.quantity, line.amount) for line in found] == [
        ("1-door-left", 3, Decimal("31.50")),
        ("X9", 1, Decimal(4)),
    ]


def test_rows_without_a_mark_or_a_price_are_left_out():
    rows = _rows(["mark", "amount"], ["1-door-left", 5], ["together", None], [None, 5], ["", ""])
    assert [line.mark for line in quote_lines(rows, WANTED, "EUR", "en")] == ["1-door-left"]


def test_every_fault_is_told_at_once_with_its_row():
    rows = _rows(
        ["mark", "quantity", "amount", "currency"],
        ["1-door-left", "3", "-1", ""],
        ["D2", "half", "4", ""],
        ["E1", "1", "1.234", ""],
        ["E2", "1", "4", "usd"],
    )
    with pytest.raises(InputError) as told:
        quote_lines(rows, WANTED, "EUR", "en")
    assert [fault.where for fault in told.value.faults] == [
        "row 2 (1-door-left)",
        "row 3 (D2)",
        "row 4 (E1)",
        "row 5 (E2)",
    ]


@given(st.lists(st.tuples(st.integers(1, 50), st.decimals(0, 9999, places=2)), min_size=1, max_size=20))
def test_a_price_for_each_times_their_number_is_the_amount(lines):
    rows = _rows(["mark", "how many", "each"], *([f"P{n}", count, str(each)] for n, (count, each) in enumerate(lines)))
    found = quote_lines(rows, {}, "EUR", "en")
    assert [(line.quantity, line.amount) for line in found] == [(count, each * count) for count, each in lines]
