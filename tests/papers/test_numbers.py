"""Numbers as a book's locale writes them."""

from datetime import date
from decimal import Decimal

import pytest

from rodbook.hinges import MassRange
from rodbook.papers.numbers import Numbers

ENGLISH, AUSTRIAN = Numbers("en", "EUR"), Numbers("de_AT", "EUR")


@pytest.mark.parametrize(
    ("value", "english", "austrian"),
    [
        (842, "842.0", "842,0"),
        (2015.5, "2015.5", "2015,5"),
        (416.25, "416.25", "416,25"),
        (-0.0, "0.0", "0,0"),
        (1 / 3, "0.333", "0,333"),
    ],
)
def test_lengths_in_columns(value, english, austrian):
    assert (ENGLISH.mm(value), AUSTRIAN.mm(value)) == (english, austrian)


def test_lengths_in_sentences():
    assert ENGLISH.short(842.0) == "842"
    assert AUSTRIAN.short_size(827.0, 2022.5) == "827 × 2022,5"
    assert ENGLISH.size(827, 2022) == "827.0 × 2022.0"
    assert ENGLISH.tenth(4.125) == "4.1"
    assert ENGLISH.span([4.125, 12.49]) == "4.1 to 12.5"
    assert ENGLISH.span([4.0, 4.04]) == "4.0"


def test_money():
    assert ENGLISH.money(Decimal("1798.29")) == "€1,798.29"
    assert AUSTRIAN.money(Decimal("1798.29")) == "€\xa01.798,29"


def test_dates_have_the_month_in_words():
    assert ENGLISH.date(date(2026, 11, 2)) == "2 November 2026"
    assert AUSTRIAN.date(date(2026, 11, 2)) == "2. November 2026"


def test_hours_metres_and_masses():
    assert ENGLISH.hours(Decimal("31.18")) == "31.2 h"
    assert AUSTRIAN.metres(26.61) == "26,6 m"
    assert ENGLISH.kilograms(MassRange(14.37, 15.9)) == "14.4 to 15.9 kg"
    assert ENGLISH.kilograms(MassRange(3.0, 3.01)) == "3.0 kg"


def test_a_locale_that_nobody_knows_is_written_as_english():
    assert Numbers("xx_nowhere", "EUR").mm(1.5) == "1.5"
    assert Numbers("de-AT", "EUR").mm(1.5) == "1,5"


def test_working_is_written_in_the_locale():
    line = "leaf width = (clear width 842.0 − 2 × margin 3.0) ÷ 2 = 418.0"
    assert ENGLISH.in_working(line) == line
    assert AUSTRIAN.in_working(line) == "leaf width = (clear width 842,0 − 2 × margin 3,0) ÷ 2 = 418,0"
    assert AUSTRIAN.in_working("scale 1:10.") == "scale 1:10."
