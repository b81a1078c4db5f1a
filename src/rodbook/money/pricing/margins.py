"""Break-even and the two ways of writing what is earned: on the cost (mark-up) or in the price (margin)."""

from __future__ import annotations

from decimal import Decimal

from rodbook.errors import InputError

__all__ = ["break_even_units", "margin_of_mark_up", "mark_up_of_margin"]


def break_even_units(fixed: Decimal, price: Decimal, variable: Decimal) -> Decimal:
    """How many units have to be sold before what is earned on each has paid the fixed cost.

    Parameters
    ----------
    fixed : Decimal
        Cost that does not depend on the number, >= 0. [currency]
    price : Decimal
        [currency/unit]
    variable : Decimal
        Cost of each unit, below `price`. [currency/unit]

    Returns
    -------
    Decimal
        Not rounded: whole units are the next whole number up. [units]

    Raises
    ------
    InputError
        If `fixed` is below zero, or a unit earns nothing.

    Notes
    -----
    fixed / (price - variable); common accounting practice.

    Examples
    --------
    >>> break_even_units(Decimal(102000), price=Decimal(20), variable=Decimal(8))
    Decimal('8500')
    """
    if fixed < 0:
        raise InputError.at("fixed", "money.fixed_cost_below_zero", fixed=fixed)
    if price <= variable:
        raise InputError.at("price", "money.unit_earns_nothing", price=price, variable=variable)
    return fixed / (price - variable)


def margin_of_mark_up(mark_up: Decimal) -> Decimal:
    """Margin in the price that a mark-up on the cost comes to.

    Parameters
    ----------
    mark_up : Decimal
        As a fraction of the cost, > -1. [1]

    Returns
    -------
    Decimal
        As a fraction of the price. [1]

    Raises
    ------
    InputError
        If the price would not be above zero.

    Notes
    -----
    m = k / (1 + k); common accounting practice.

    Examples
    --------
    >>> margin_of_mark_up(Decimal("0.25"))
    Decimal('0.2')
    """
    if mark_up <= -1:
        raise InputError.at("mark-up", "money.mark_up_out_of_range", mark_up=mark_up)
    return mark_up / (1 + mark_up)


def mark_up_of_margin(margin: Decimal) -> Decimal:
    """Mark-up on the cost that a margin in the price comes to.

    Parameters
    ----------
    margin : Decimal
        As a fraction of the price, < 1. [1]

    Returns
    -------
    Decimal
        As a fraction of the cost. [1]

    Raises
    ------
    InputError
        If nothing of the price would be left for the cost.

    Notes
    -----
    k = m / (1 - m); common accounting practice.

    Examples
    --------
    >>> mark_up_of_margin(Decimal("0.2"))
    Decimal('0.25')
    """
    if margin >= 1:
        raise InputError.at("margin", "money.margin_out_of_range", margin=margin)
    return margin / (1 - margin)
