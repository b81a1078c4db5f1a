"""Numbers that were typed into a form, read in the way of the book's locale before a document takes them. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from rodbook.errors import Fault, InputError, Unread
from rodbook.job.amounts import OtherCurrency, read_money
from rodbook.job.numerals import as_typed, in_figures, read_decimal

__all__ = ["in_book", "shown_number"]


def in_book(
    typed: Mapping[str, str], currency: str, locale: str, *, money: Iterable[str] = (), numbers: Iterable[str] = ()
) -> dict[str, str]:
    """What was typed, its amounts and numbers with a decimal point; what is empty stays as it is, and so do
    words in place of a number, for the document to refuse beside all else that is wrong with it.

    Parameters
    ----------
    typed : mapping
        By field.
    currency, locale : str
        The book's.
    money, numbers : iterable of str
        Fields that hold an amount, and those that hold another number which is no length.

    Raises
    ------
    InputError
        With every one that is none, could be two, or is in another currency, at its field.
    """
    result, faults, amounts = dict(typed), [], frozenset(money)
    for field in (*amounts, *numbers):
        text = typed.get(field, "")
        if not text:
            continue
        try:
            read = read_money(text, currency, locale) if field in amounts else read_decimal(text, locale)
            result[field] = f"{read:f}"
        except Unread as error:
            if isinstance(error, OtherCurrency) or in_figures(text):
                faults.append(Fault(field, error.message))
    if faults:
        raise InputError(faults)
    return result


def shown_number(value: object, locale: str) -> str:
    """A value of a document as a form shows it: a number as `as_typed` writes it, yes or nothing, a word as it stands."""
    if isinstance(value, bool):
        return "yes" if value else ""
    if isinstance(value, float | int | Decimal):
        return as_typed(value, locale)
    return "" if value is None else str(value)
