"""Numbers as people type them: read in the book's way, never guessed at."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.job.numerals import as_typed, decimal_sign, number_or_none, read_decimal

LOCALES = ("en", "de", "de_AT", "de_CH", "fr", "sv", "pt_BR", "en_IN")


@pytest.mark.parametrize(
    ("text", "locale", "value"),
    [
        ("1.234,50", "de", "1234.50"),
        ("1.234,50", "en", "1234.50"),
        ("1,234.50", "de", "1234.50"),
        ("48,5", "en", "48.5"),
        ("48.5", "de", "48.5"),
        ("0.185", "de", "0.185"),
        ("0,185", "en", "0.185"),
        ("1.234.567", "en", "1234567"),
        ("1’234.50", "de_CH", "1234.50"),
        ("1 234,5", "fr", "1234.5"),
        ("1\u202f234,5", "fr", "1234.5"),
        ("−3,5", "de", "-3.5"),
        ("1,125", "de", "1.125"),
        ("1.125", "en", "1.125"),
        ("12,3456", "en", "12.3456"),
        ("842", "de", "842"),
    ],
)
def test_what_can_only_be_one_number_is_read(text, locale, value):
    assert read_decimal(text, locale) == Decimal(value)


@pytest.mark.parametrize(
    ("text", "locale", "sentence"),
    [
        ("1.234", "de", "'1.234' could be 1234 or 1,234; write it without a mark for the thousands"),
        ("1,234", "en", "'1,234' could be 1234 or 1.234; write it without a mark for the thousands"),
        ("1.234", None, "'1.234' could be 1234 or 1.234; write it without a mark for the thousands"),
        ("1,234", None, "'1,234' could be 1234 or 1.234; write it without a mark for the thousands"),
        ("12.34,5", "de", "'12.34,5' is no number; write it like 48,50"),
        ("1,2,3.4", "en", "'1,2,3.4' is no number; write it like 48.50"),
        ("4 8", "de", "'4 8' is no number; write it like 48,50"),
        ("", "de", "nothing is no number; write it like 48,50"),
        ("1e5", "en", "'1e5' is no number; write it like 48.50"),
        ("NaN", "en", "'NaN' is no number; write it like 48.50"),
    ],
)
def test_what_could_be_two_or_none_is_refused_in_a_sentence(text, locale, sentence):
    with pytest.raises(ValueError, match=r".") as refused:
        read_decimal(text, locale)
    assert str(refused.value) == sentence
    assert number_or_none(text, locale) is None


@given(st.decimals(-(10**9), 10**9, places=4), st.sampled_from(LOCALES))
def test_what_a_form_shows_is_read_as_what_it_is(value, locale):
    for exact in (value, round(value, 3), round(value, 2), round(value)):
        assert read_decimal(as_typed(Decimal(exact), locale), locale) == exact
        assert read_decimal(as_typed(Decimal(exact), locale), None) == exact


@given(st.floats(-1e9, 1e9, allow_nan=False), st.sampled_from(LOCALES))
def test_no_figure_of_a_float_is_lost_in_a_form(value, locale):
    assert float(read_decimal(as_typed(value, locale), locale)) == value


def test_the_decimal_sign_is_the_locales():
    assert [decimal_sign(locale) for locale in ("en", "de", "de-AT", "de_CH", "xx")] == [".", ",", ",", ".", "."]
