"""Amounts with a currency's sign or code beside them, as people type them."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.job.amounts import OtherCurrency, currency_of, money_example, read_money
from rodbook.job.numerals import TwoReadings, as_typed


@pytest.mark.parametrize(
    ("text", "currency", "locale", "value"),
    [
        ("48,50 €", "EUR", "de", "48.50"),
        ("€48.50", "EUR", "en", "48.50"),
        ("EUR 48,50", "EUR", "de_AT", "48.50"),
        ("48.50eur", "EUR", "en", "48.50"),
        ("-€ 3,5", "EUR", "de", "-3.5"),
        ("€ −3,5", "EUR", "de", "-3.5"),
        ("1.234,50\u00a0€", "EUR", "de", "1234.50"),
        ("$1,234.50", "USD", "en_US", "1234.50"),
        ("$5", "AUD", "en", "5"),
        ("A$5", "AUD", "en_AU", "5"),
        ("48,50 kr", "SEK", "en", "48.50"),
        ("48,50 kr.", "DKK", "da", "48.50"),
        ("48 Kč", "CZK", "de", "48"),
        ("CHF 1'234.50", "CHF", "de_CH", "1234.50"),
        ("£3", "GBP", "de", "3"),
        ("3", "EUR", "de", "3"),
    ],
)
def test_an_amount_is_read_with_its_currency_s_sign(text, currency, locale, value):
    assert read_money(text, currency, locale) == Decimal(value)


@pytest.mark.parametrize(
    ("text", "currency", "locale", "kind", "sentence"),
    [
        ("£48.50", "EUR", "de", OtherCurrency, "'£48.50' is in GBP and the book in EUR; write it in EUR"),
        ("48,50 USD", "EUR", "de", OtherCurrency, "'48,50 USD' is in USD and the book in EUR; write it in EUR"),
        ("$5", "EUR", "en", OtherCurrency, "'$5' is in USD and the book in EUR; write it in EUR"),
        (
            "€ 1.234",
            "EUR",
            "de",
            TwoReadings,
            "'1.234' could be 1234 or 1,234; write it without a mark for the thousands",
        ),
        ("48 apples", "EUR", "de", ValueError, "'48 apples' is no amount of money; write it like 48,00"),
        ("€ 48 €", "EUR", "en", ValueError, "'€ 48 €' is no amount of money; write it like 48.00"),
        ("€", "EUR", "en", ValueError, "'€' is no amount of money; write it like 48.00"),
        ("", "EUR", "de_AT", ValueError, "nothing is no amount of money; write it like 48,00"),
        ("1e5", "EUR", "en", ValueError, "'1e5' is no amount of money; write it like 48.00"),
    ],
)
def test_what_is_no_amount_in_the_book_s_currency_is_said_in_a_sentence(text, currency, locale, kind, sentence):
    with pytest.raises(kind) as refused:
        read_money(text, currency, locale)
    assert str(refused.value) == sentence


@given(
    st.decimals(-(10**7), 10**7, places=2),
    st.sampled_from(["EUR", "CHF", "SEK", "USD", "JPY"]),
    st.sampled_from(["en", "de", "de_AT", "de_CH", "fr", "sv"]),
    st.sampled_from(["{} {}", "{}{}"]),
    st.booleans(),
)
def test_what_a_form_shows_is_read_again_with_its_code_on_either_side(value, currency, locale, form, first):
    shown = as_typed(value, locale)
    parts = (currency, shown) if first else (shown, currency)
    assert read_money(form.format(*parts), currency, locale) == value


def test_the_example_is_itself_read():
    for locale in ("en", "de", "de_AT", "de_CH", "fr"):
        assert currency_of(money_example(locale), "EUR", locale) == (money_example(locale), "")
        assert read_money(money_example(locale), "EUR", locale) == Decimal("48.00")
