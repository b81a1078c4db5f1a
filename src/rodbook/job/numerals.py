"""Numbers as people type them, read in the way of a book's locale, and written as a form shows them again.

Files for machines (a job's and a book's TOML, JSON, the lists of parts and holes) have a decimal point whatever the locale, and
are not read here. Lengths have their own reader, `rodbook.job.units`.
"""

from __future__ import annotations

import re
from decimal import Decimal

from babel import Locale, UnknownLocaleError
from babel.numbers import get_decimal_symbol

from rodbook.errors import Unread

__all__ = ["TwoReadings", "as_typed", "decimal_sign", "in_figures", "number_or_none", "read_decimal"]

_SPACES = "  \u00a0\u2009\u202f"
_POINTS = (".", ",")
_GROUPS = (*_POINTS, "'", "’", " ")
_ONE_MARK = re.compile(r"[1-9][0-9]{0,2}([.,])[0-9]{3}")
"""Thousands to one reader and thousandths to another."""


class TwoReadings(Unread):
    """A number that could be one or another, a thousand times as large."""


def decimal_sign(locale: str) -> str:
    """The sign before a number's decimals; a point where the locale is not known.

    >>> decimal_sign("de_AT"), decimal_sign("en"), decimal_sign("nowhere")
    (',', '.', '.')
    """
    try:
        sign = get_decimal_symbol(Locale.parse(locale.replace("-", "_")))
    except (UnknownLocaleError, ValueError):
        return "."
    return sign if sign in _POINTS else "."


def _readings(digits: str) -> list[Decimal]:
    """What an unsigned number may mean: with each decimal sign, its thousands marked throughout or not at all."""
    results = []
    for sign in _POINTS:
        whole, mark, decimals = digits.partition(sign)
        if mark and not re.fullmatch(r"[0-9]+", decimals):
            continue
        if not re.fullmatch(r"[0-9]+", whole):
            groups = [
                g
                for g in _GROUPS
                if g != sign and re.fullmatch(rf"[1-9][0-9]{{0,2}}(?:{re.escape(g)}[0-9]{{3}})+", whole)
            ]
            if not groups:
                continue
            whole = whole.replace(groups[0], "")
        results.append(Decimal(f"{whole}.{decimals}" if mark else whole))
    return list(dict.fromkeys(results))


def read_decimal(text: str, locale: str | None, *, strict: bool = False) -> Decimal:
    """Read a number as somebody typed it.

    One mark with three digits after it may mark thousands as well as decimals. It is refused, but where it is the decimal
    sign of the locale; in a list from elsewhere and in money (`strict`) it is refused always.

    Parameters
    ----------
    text : str
        Without a currency.
    locale : str, optional
        The book's, as in "de_AT"; None where nobody knows it.
    strict : bool
        Whether such a mark is refused even where it is the locale's decimal sign.

    Raises
    ------
    TwoReadings
        If it could be two numbers.
    Unread
        If it is none.

    Examples
    --------
    >>> [str(read_decimal(text, "de")) for text in ("1.234,50", "48,5", "48.5", "1,125", "0.125", "1 234")]
    ['1234.50', '48.5', '48.5', '1.125', '0.125', '1234']
    >>> read_decimal("1.234", "de")
    Traceback (most recent call last):
    ...
    rodbook.job.numerals.TwoReadings: '1.234' could be 1234 or 1,234; write it without a mark for the thousands
    """
    plain = re.sub(f"[{_SPACES}]+", " ", text.strip())
    negative, digits = plain[:1] in ("-", "−"), plain.removeprefix("-").removeprefix("−").lstrip()
    sign = decimal_sign(locale) if locale else ""
    one = _ONE_MARK.fullmatch(digits)
    if one and (strict or one[1] != sign):
        shown = re.sub("[.,]", sign or ".", digits)
        raise TwoReadings("form.two_readings", typed=text.strip(), one=re.sub("[.,]", "", digits), other=shown)
    result = [Decimal(digits.replace(sign, "."))] if one else _readings(digits)
    if len(result) != 1:
        raise Unread("form.not_a_number", typed=text.strip()[:40], example=as_typed(Decimal("48.50"), locale or "en"))
    return -result[0] if negative else result[0]


def in_figures(text: str) -> bool:
    """Whether somebody wrote figures and marks only, so that a number was meant.

    >>> in_figures("12.34,5"), in_figures("−3"), in_figures("dear"), in_figures("4 a side")
    (True, True, False, False)
    """
    return re.fullmatch(r"[\s\d.,'’−-]+", text) is not None


def number_or_none(text: str, locale: str | None) -> Decimal | None:
    """A number as `read_decimal` reads it, or None where it can't be read for certain."""
    try:
        return read_decimal(text, locale)
    except ValueError:
        return None


def as_typed(value: Decimal | float | None, locale: str) -> str:
    """A number as a form shows it, to be read again as what it is: no thousands marked, the locale's decimal sign.

    Three decimals get a zero more, so that nobody takes them for thousands.

    >>> as_typed(Decimal("1234.50"), "de"), as_typed(0.18, "de"), as_typed(4.0, "en"), as_typed(1.125, "de")
    ('1234,50', '0,18', '4', '1,1250')
    """
    if value is None:
        return ""
    text = f"{Decimal(repr(value)).normalize() + 0:f}" if isinstance(value, float) else f"{Decimal(value):f}"
    return text.replace(".", decimal_sign(locale)) + ("0" if _ONE_MARK.fullmatch(text.removeprefix("-")) else "")
