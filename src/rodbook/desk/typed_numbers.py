"""Numbers that were typed into a form, read in the way of the book's locale before a document takes them. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.job.numerals import TwoReadings, as_typed, read_decimal

__all__ = ["in_book", "shown_number"]


def _plain(typed: str, currency: str, locale: str, *, money: bool) -> str:
    """A number with a decimal point, as documents keep it; what is none stays as it was typed, for the document to refuse.

    Raises
    ------
    TwoReadings
        If it could be two.
    """
    text = typed.removeprefix(f"{currency} ").removesuffix(f" {currency}") if money else typed
    try:
        return f"{read_decimal(text, locale, strict=money):f}"
    except TwoReadings:
        raise
    except ValueError:
        return typed


def in_book(
    typed: Mapping[str, str], currency: str, locale: str, *, money: Iterable[str] = (), numbers: Iterable[str] = ()
) -> dict[str, str]:
    """What was typed, its amounts and numbers with a decimal point; what is empty or no number stays as it is.

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
        With every one that could be two numbers, at its field.
    """
    found, faults, amounts = dict(typed), [], frozenset(money)
    for field in (*amounts, *numbers):
        text = typed.get(field, "")
        if not text:
            continue
        try:
            found[field] = _plain(text, currency, locale, money=field in amounts)
        except TwoReadings as error:
            faults.append(Fault(field, str(error)))
    if faults:
        raise InputError(faults)
    return found


def shown_number(value: object, locale: str) -> str:
    """A value of a document as a form shows it: a number as `as_typed` writes it, yes or nothing, a word as it stands."""
    if isinstance(value, bool):
        return "yes" if value else ""
    if isinstance(value, float | int | Decimal):
        return as_typed(value, locale)
    return "" if value is None else str(value)
