"""Amounts of money as people type them: with or without the sign or code of their currency, in the way of a book's locale."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache

from babel import Locale, UnknownLocaleError
from babel.core import get_global
from babel.numbers import get_currency_symbol, list_currencies

from rodbook.errors import Unread
from rodbook.job.numerals import TwoReadings, as_typed, read_decimal

__all__ = ["Amount", "OtherCurrency", "Whose", "currency_of", "currency_said", "money_example", "read_money"]

_EXAMPLE = Decimal("48.00")
_AROUND = re.compile(
    r"(?P<minus>[-−]?)\s*(?P<before>[^\d\s.,'’+−-]*)\s*(?P<number>[-−]?\s*[\d.,].*?)\s*(?P<after>[^\d\s.,'’]*)\.?"
)
"""An amount with what stands before and after its figures."""


class OtherCurrency(Unread):
    """An amount in another currency than the one that it is wanted in."""


class Amount(StrEnum):
    """What an amount is called where it can't be read."""

    MONEY = "amount of money"
    PRICE = "price"
    DAY_PRICE = "price of a day"


class Whose(StrEnum):
    """Whose currency an amount has to be in."""

    BOOK = "the book"
    INVOICE = "the invoice"


def money_example(locale: str, example: Decimal = _EXAMPLE) -> str:
    """An amount as a form shows it in a locale, for the end of a sentence that says how to write one.

    >>> money_example("de_AT"), money_example("en")
    ('48,00', '48.00')
    """
    return as_typed(example, locale)


def _locale(name: str) -> Locale | None:
    try:
        return Locale.parse(name.replace("-", "_"))
    except (UnknownLocaleError, ValueError):
        return None


@lru_cache(maxsize=512)
def _signs(currency: str, locale: str) -> frozenset[str]:
    """How a currency may be written, in small letters: its code, and its signs in the locale, in English and at home.

    A code's first two letters are its country (ISO 4217), whose first language is taken for home. A sign with a country's letters
    before it, as in A$, stands without them too.
    """
    spoken = get_global("territory_languages").get(currency[:2], {})
    home = max(spoken, key=lambda language: float(spoken[language].get("population_percent", 0)), default="en")
    known = [result for name in (locale, "en", home) if (result := _locale(name)) is not None]
    signs = {currency, *(get_currency_symbol(currency, result) for result in known)}
    signs |= {sign.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ") for sign in signs if unicodedata.category(sign[-1]) == "Sc"}
    return frozenset(sign.casefold().rstrip(".") for sign in signs)


@lru_cache(maxsize=256)
def _others(sign: str, locale: str) -> str:
    """The currency that a sign or code means where it is not the book's: its code, or the sign where several have it."""
    if sign.upper() in list_currencies():
        return sign.upper()
    known = [result for name in (locale, "en") if (result := _locale(name)) is not None]
    codes = {
        code
        for code in list_currencies()
        for one in known
        if get_currency_symbol(code, one).casefold() == sign.casefold()
    }
    return (
        codes.pop()
        if len(codes) == 1
        else sign
        if codes or any(unicodedata.category(mark) == "Sc" for mark in sign)
        else ""
    )


def currency_said(word: str, currency: str, locale: str) -> str:
    """The code of a currency that a code or a sign alone stands for; what is neither stays as it is, in capitals.

    >>> currency_said(" € ", "EUR", "de"), currency_said("gbp", "EUR", "de"), currency_said("", "EUR", "de")
    ('EUR', 'GBP', '')
    """
    sign = word.strip().rstrip(".")
    if not sign:
        return ""
    return currency if sign.casefold() in _signs(currency, locale) else _others(sign, locale) or sign.upper()


def currency_of(text: str, currency: str, locale: str) -> tuple[str, str]:
    """An amount's figures without its currency, and which currency that is.

    Parameters
    ----------
    text : str
        As it was typed.
    currency, locale : str
        The book's: a sign that stands for several currencies is the book's where the book's is one of them.

    Returns
    -------
    tuple of str
        The figures, and the code of the currency or the sign of one that has no code; empty where none is written, and where what
        stands beside the figures is none, in which case they are the whole text.

    Examples
    --------
    >>> [currency_of(text, "EUR", "de") for text in ("48,50 €", "€48.50", "-EUR 3", "£ 2", "48", "48 m")]
    [('48,50', 'EUR'), ('48.50', 'EUR'), ('-3', 'EUR'), ('2', 'GBP'), ('48', ''), ('48 m', '')]
    >>> currency_of("$5", "AUD", "en"), currency_of("$5", "EUR", "en")
    (('5', 'AUD'), ('5', 'USD'))
    """
    plain = text.strip()
    parts = _AROUND.fullmatch(plain)
    if parts is None or bool(parts["before"]) == bool(parts["after"]):
        return plain, ""
    sign = (parts["before"] or parts["after"]).rstrip(".")
    code = currency if sign.casefold() in _signs(currency, locale) else _others(sign, locale)
    return (f"{parts['minus']}{parts['number']}", code) if code else (plain, "")


def read_money(
    text: str, currency: str, locale: str, *, what: Amount = Amount.MONEY, whose: Whose = Whose.BOOK
) -> Decimal:
    """Read an amount as somebody typed it.

    Parameters
    ----------
    text : str
        Perhaps with the sign or code of its currency before or after it.
    currency, locale : str
        In which it is wanted, and the book's way of writing.
    what : Amount
    whose : Whose
        What the amount is called where it can't be read, and whose currency it has to be in.

    Raises
    ------
    OtherCurrency
        If it is in another currency.
    TwoReadings
        If it could be two amounts.
    Unread
        If it is none.

    Examples
    --------
    >>> read_money("48,50 €", "EUR", "de"), read_money("€48.50", "EUR", "en")
    (Decimal('48.50'), Decimal('48.50'))
    >>> read_money("£48.50", "EUR", "de")
    Traceback (most recent call last):
    ...
    rodbook.job.amounts.OtherCurrency: '£48.50' is in GBP and the book in EUR; write it in EUR
    """
    figures, code = currency_of(text, currency, locale)
    typed = text.strip()[:40]
    if code not in ("", currency):
        raise OtherCurrency("form.other_currency", typed=typed, currency=code, whose=whose, own=currency)
    try:
        return read_decimal(figures, locale, strict=True)
    except TwoReadings:
        raise
    except Unread:
        raise Unread("form.not_an_amount", typed=typed, what=what, example=money_example(locale)) from None
