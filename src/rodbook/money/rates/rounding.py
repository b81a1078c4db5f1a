"""Where numbers become money: the one rounding rule, and the sharing out of a total so that nothing is lost.

Lengths, areas and minutes come as floats; `measured` is the one way from them to Decimal. An amount stays unrounded
until a line is made of it; then `rounded` is called once, and totals are sums of rounded lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache

from babel.numbers import get_currency_precision

from rodbook.errors import InputError

__all__ = ["counted", "currency_unit", "figure", "measured", "rounded", "rounded_together", "share_out"]

PLACES = 6
"""Decimals kept of a measured quantity: a millionth of a metre or a minute is below anything that can be read, and
rounding there takes off what floating-point sums leave behind."""


COUNTED = frozenset({"cup", "distinct part", "hole", "length", "part", "plate", "sheet"})
"""Units that are counted, and so have a plural."""


@cache
def currency_unit(currency: str) -> Decimal:
    """Smallest unit in which amounts of a currency are written.

    Parameters
    ----------
    currency : str
        ISO 4217 code.

    Returns
    -------
    Decimal
        [currency]

    Examples
    --------
    >>> currency_unit("EUR"), currency_unit("JPY")
    (Decimal('0.01'), Decimal('1'))
    """
    return Decimal(1).scaleb(-get_currency_precision(currency))


def rounded(amount: Decimal, currency: str) -> Decimal:
    """Round an amount to its currency's unit, halves away from zero (common practice); called last, once a line.

    Parameters
    ----------
    amount : Decimal
        [currency]
    currency : str
        ISO 4217 code.

    Returns
    -------
    Decimal
        [currency]

    Examples
    --------
    >>> rounded(Decimal("2.345"), "EUR"), rounded(Decimal("-0.5"), "JPY")
    (Decimal('2.35'), Decimal('-1'))
    """
    return amount.quantize(currency_unit(currency), rounding=ROUND_HALF_UP)


def measured(value: float | Decimal) -> Decimal:
    """Take a measured quantity or a rate over into Decimal, to a millionth.

    Parameters
    ----------
    value : float or Decimal
        Finite. [any unit]

    Returns
    -------
    Decimal

    Examples
    --------
    >>> measured(0.1 + 0.2), measured(12)
    (Decimal('0.3'), Decimal('12'))
    """
    exact = value if isinstance(value, Decimal) else Decimal(repr(float(value)))
    shown = f"{exact:.{PLACES}f}".rstrip("0").rstrip(".")
    return Decimal("0" if shown == "-0" else shown)


def figure(value: Decimal, places: int = 3) -> str:
    """Write a quantity for a working: no more decimals than it has, and at most `places`.

    >>> figure(Decimal("24.600")), figure(Decimal("1") / 3), figure(Decimal("12"))
    ('24.6', '0.333', '12')
    """
    shown = f"{value:.{places}f}"
    shown = shown.rstrip("0").rstrip(".") if "." in shown else shown
    return "0" if shown == "-0" else shown


def counted(value: Decimal, unit: str) -> str:
    """Write a quantity with its unit, in the plural where the unit is something that is counted.

    >>> counted(Decimal(1), "part"), counted(Decimal(12), "part"), counted(Decimal("24.6"), "m")
    ('1 part', '12 parts', '24.6 m')
    """
    shown = figure(value)
    return f"{shown} {unit}{'s' if unit in COUNTED and shown != '1' else ''}"


def rounded_together(amounts: Sequence[Decimal], currency: str) -> tuple[Decimal, ...]:
    """Round amounts so that they add up to their rounded sum: down first, then the largest remainders up by a unit.

    Parameters
    ----------
    amounts : sequence of Decimal
        Finite; may be less than zero. [currency]
    currency : str
        ISO 4217 code.

    Returns
    -------
    tuple of Decimal
        Each within one unit of its amount; of equal remainders the earlier ones go up. [currency]

    Examples
    --------
    >>> rounded_together([Decimal("0.335")] * 3, "EUR")
    (Decimal('0.34'), Decimal('0.34'), Decimal('0.33'))
    """
    unit = Fraction(currency_unit(currency))
    exact = [Fraction(amount) / unit for amount in amounts]
    given = [amount.numerator // amount.denominator for amount in exact]
    whole = rounded(sum(amounts, Decimal(0)), currency)
    missing = int(Fraction(whole) / unit) - sum(given)
    by_remainder = sorted(range(len(exact)), key=lambda i: given[i] - exact[i])
    for i in by_remainder[:missing]:
        given[i] += 1
    return tuple(rounded(Decimal(number) * currency_unit(currency), currency) for number in given)


def share_out(total: Decimal, weights: Sequence[Decimal | Fraction | float], currency: str) -> tuple[Decimal, ...]:
    """Share an amount out in proportion, in whole units, by the largest remainder: the shares add up to it exactly.

    Parameters
    ----------
    total : Decimal
        Whole in the currency's unit; may be less than zero. [currency]
    weights : sequence of number
        Not less than zero; where all are zero the shares are as even as they can be. [any one unit]
    currency : str
        ISO 4217 code.

    Returns
    -------
    tuple of Decimal
        One for each weight, each within one unit of its exact share; units left over go to the largest remainders, the
        earlier of equal ones. [currency]

    Raises
    ------
    InputError
        If a weight is less than zero, if there is nothing to share among, or if `total` has parts of a unit.

    Examples
    --------
    >>> share_out(Decimal("85.00"), [1, 1, 1], "EUR")
    (Decimal('28.34'), Decimal('28.33'), Decimal('28.33'))
    """
    unit = currency_unit(currency)
    units = abs(Fraction(total) / Fraction(unit))
    exact = [Fraction(weight) for weight in weights]
    if units.denominator != 1:
        raise InputError.at("share", "money.total_not_in_units", total=total, currency=currency, unit=unit)
    if any(weight < 0 for weight in exact):
        raise InputError.at("share", "money.weight_below_zero")
    if not exact:
        if units:
            raise InputError.at("share", "money.nothing_to_share_among", total=total, currency=currency)
        return ()
    whole = sum(exact) or Fraction(len(exact))
    wanted = [units * (weight if any(exact) else Fraction(1)) / whole for weight in exact]
    given = [want.numerator // want.denominator for want in wanted]
    by_remainder = sorted(range(len(exact)), key=lambda i: given[i] - wanted[i])
    for i in by_remainder[: int(units) - sum(given)]:
        given[i] += 1
    signed = -unit if total < 0 else unit
    return tuple(rounded(share * signed, currency) if share else rounded(Decimal(0), currency) for share in given)
