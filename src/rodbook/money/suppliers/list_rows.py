"""Rows of a list that somebody sent: its headings found, its words, amounts and days read, and what can't be."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterator, Mapping, Sequence
from datetime import date as Date  # noqa: N812
from datetime import datetime
from decimal import Decimal

from rodbook.errors import InputError, Message, Unread
from rodbook.job.amounts import Amount, OtherCurrency, currency_of, currency_said, money_example, read_money
from rodbook.job.numerals import as_typed, read_decimal

__all__ = [
    "MOST_AMOUNT",
    "Rows",
    "amount_said",
    "cell_of",
    "columns_of",
    "day_said",
    "not_read",
    "number_of",
    "percent_more",
    "refuse_source",
    "whole_of",
    "word_of",
]

MOST_AMOUNT = Decimal(10) ** 8
"""No price, charge or quote is as much. [currency]"""

MOST_SOURCE = 350
"""Letters for where a list is from; a book takes a few more, for what is said of it."""

NEARLY = 0.7
"""How alike two words are where one may be a slip for the other."""

PLACES = 4
"""Digits after the point that a book keeps; a price with more came out of a sum that was not rounded."""

type Rows = Sequence[tuple[int, Sequence[object]]]
"""Rows with their numbers, as the spreadsheet shows them."""


def word_of(cell: object) -> str:
    """A cell's text in small letters with single spaces; empty where there is none.

    >>> word_of("  Set-up  charge "), word_of(None)
    ('set-up charge', '')
    """
    return " ".join(str(cell).split()).casefold() if cell is not None else ""


def cell_of(row: Sequence[object], column: int | None) -> object:
    """The cell of a column; None where the row is shorter or the list has no such column."""
    return row[column] if column is not None and column < len(row) else None


def columns_of(
    rows: Rows, headings: Mapping[str, Sequence[str]], needed: Sequence[Sequence[str]], *, within: int = 10
) -> tuple[int, dict[str, int]]:
    """Where the row of headings stands, and which column is which.

    Parameters
    ----------
    rows : sequence of (int, sequence)
    headings : mapping of str to sequence of str
        What each column may be called, in small letters.
    needed : sequence of (sequence of str)
        Columns without which there is no list; of several in a row one is enough.
    within : int
        It is one of so many first rows.

    Returns
    -------
    tuple of int and dict
        Its place among `rows`, and the column of each heading that there is.

    Raises
    ------
    InputError
        If no row has them.
    """
    for at, (_, row) in enumerate(rows[:within]):
        words = [word_of(cell) for cell in row]
        results = {
            what: next(n for n, word in enumerate(words) if word in known)
            for what, known in headings.items()
            if any(word in known for word in words)
        }
        if all(any(what in results for what in either) for either in needed):
            return at, results
    names = [either[0] for either in needed]
    written = [headings[either[0]][0] for either in needed]
    hint = next(_meant(rows[:within], [headings[what] for either in needed for what in either]), None)
    raise InputError.at("list", "money.no_headings", names=names, written=written, hint=hint)


def _meant(rows: Rows, known: Sequence[Sequence[str]]) -> Iterator[Message]:
    """A heading that is nearly one of those that are needed, as the end of what is said."""
    names = {name: words[0] for words in known for name in words}
    for number, row in rows:
        for word in map(word_of, row):
            close = difflib.get_close_matches(word, names, n=1, cutoff=NEARLY) if word not in names else []
            if close:
                yield Message("money.heading_meant", row=number, word=word[:40], meant=names[close[0]])


def not_read(row: Sequence[object], headings: Mapping[str, Sequence[str]]) -> list[Message]:
    """What to say of columns whose headings are not known, each with the nearest that is known.

    >>> for said in not_read(["charge", "form"], {"charge": ("charge",), "since": ("from",)}):
    ...     print(said)
    The column 'form' is not read; did you mean from?
    """
    names = {word for words in headings.values() for word in words}
    texts = []
    for cell in row:
        word = word_of(cell)
        if word and word not in names:
            close = difflib.get_close_matches(word, sorted(names), n=1, cutoff=NEARLY)
            texts += [
                Message("money.column_meant", column=word[:40], meant=close[0])
                if close
                else Message("money.column_not_read", column=word[:40])
            ]
    return texts


def number_of(cell: object, currency: str = "", locale: str = "en") -> Decimal:
    """Read a number or an amount as spreadsheets and people write it; an amount where there is a currency for it.

    >>> [str(number_of(cell, "EUR", "de")) for cell in ("48,00", "1,234.50", "1.234,50", "EUR 51.2", "51.2 €", 48.5)]
    ['48.00', '1234.50', '1234.50', '51.2', '51.2', '48.5']

    Raises
    ------
    OtherCurrency
        If it is in another currency.
    Unread
        If it is none, or could be read two ways.
    """
    if isinstance(cell, bool) or cell is None:
        raise Unread("form.not_a_number", typed=_shown(cell), example=money_example(locale))
    result = _computed(cell) if isinstance(cell, float) else Decimal(cell) if isinstance(cell, int | Decimal) else None
    if result is not None and result.is_finite():
        return result
    text = str(cell)
    return read_money(text, currency, locale) if currency else read_decimal(text, locale, strict=True)


def whole_of(cell: object) -> int | None:
    """A whole number of a list, or None where it is none.

    >>> whole_of("3"), whole_of(3.0), whole_of("3,5"), whole_of("x")
    (3, 3, None, None)
    """
    try:
        result = number_of(cell)
    except ValueError:
        return None
    return int(result) if result == result.to_integral_value() else None


def _shown(cell: object) -> str:
    return "" if cell is None or not str(cell).strip() else str(cell)[:40]


def _computed(value: float) -> Decimal | None:
    """A number of a spreadsheet; one that is off by what sums of floating numbers are off by is taken as it was meant.

    >>> _computed(12 * 1.05), _computed(1 / 3)
    (Decimal('12.6'), Decimal('0.3333333333333333'))
    """
    if not math.isfinite(value):
        return None
    meant = round(value, PLACES)
    near = abs(meant - value) <= 1e-12 * max(1.0, abs(value))
    return Decimal(repr(meant if near else value))


def amount_said(
    cell: object, named: object, currency: str, locale: str, *, what: Amount = Amount.PRICE
) -> Decimal | Message:
    """An amount of a list, or what is wrong with it.

    Parameters
    ----------
    cell : object
        With the amount, and perhaps the sign or code of its currency before or after it.
    named : object
        The row's cell for the currency; None or empty where the list has none.
    currency, locale : str
        The book's.
    what : Amount
        What the amount is called where something is wrong with it.

    Examples
    --------
    >>> amount_said("25,50", None, "EUR", "de"), amount_said("25,50 €", "€", "EUR", "de")
    (Decimal('25.50'), Decimal('25.50'))
    >>> print(amount_said("25.50 GBP", None, "EUR", "en"))
    it is in GBP and the book in EUR; a list has to be in EUR
    >>> print(amount_said("much", None, "EUR", "de"))
    'much' can't be read as a price for certain; write it like 48,00
    """
    texts = {currency_said(str(named or ""), currency, locale)}
    if isinstance(cell, str):
        texts.add(currency_of(cell, currency, locale)[1])
    others = sorted(texts - {"", currency})
    try:
        amount = number_of(cell, currency, locale)
    except OtherCurrency:
        amount = Decimal(0)
    except ValueError:
        return Message("money.amount_uncertain", typed=_shown(cell), what=what, example=money_example(locale))
    if others:
        return Message("money.list_in_other_currency", currencies=others, own=currency)
    if amount < 0:
        return Message("money.amount_below_zero", what=what, amount=as_typed(amount, locale))
    if amount >= MOST_AMOUNT:
        return Message("money.amount_too_large", what=what, amount=amount)
    if len(str(amount).partition(".")[2]) > PLACES or "E" in str(amount):
        return Message("money.amount_too_exact", what=what, amount=as_typed(amount, locale))
    return amount


def day_said(cell: object) -> Date | Message | None:
    """A day of a list; None where the cell is empty, or what is wrong with it.

    >>> day_said("2027-01-01"), day_said("")
    (datetime.date(2027, 1, 1), None)
    >>> print(day_said("1.1.27"))
    '1.1.27' is not a day; write it as 2026-12-01
    """
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, Date):
        return cell
    text = str(cell).strip() if cell is not None else ""
    if not text:
        return None
    try:
        return Date.fromisoformat(text)
    except ValueError:
        return Message("form.not_a_day", typed=text[:40])


def percent_more(before: Decimal | None, after: Decimal) -> Decimal | None:
    """By how much a price goes up or down, to a tenth; None where there was none. [%]

    >>> percent_more(Decimal("51.20"), Decimal(53)), percent_more(None, Decimal(3))
    (Decimal('3.5'), None)
    """
    return None if not before else (100 * (after / before - 1)).quantize(Decimal("0.1"))


def refuse_source(source: str) -> None:
    """Refuse what does not say where a list comes from.

    Raises
    ------
    InputError
        If it is empty or longer than a book takes.
    """
    if not source.strip():
        raise InputError.at("source", "money.source_empty")
    if len(source.strip()) > MOST_SOURCE:
        raise InputError.at("source", "money.source_too_long", most=MOST_SOURCE)
