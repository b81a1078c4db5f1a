"""What is proven of a plan, in words a joiner reads."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

__all__ = ["proof_in_words"]


def proof_in_words(
    cost: Decimal, bound: Decimal, prices: Sequence[Decimal], *, noun: str, ran_out: bool, anything: bool
) -> str:
    """Say what cannot be done more cheaply.

    Parameters
    ----------
    cost, bound : Decimal
        What the plan costs and what none costs less than.
    prices : sequence of Decimal
        Of every sort on offer; where all that cost anything cost the same, sheets are counted instead of money.
    noun : str
        ``sheet`` or ``bar``.
    ran_out : bool
        Whether pieces were left over because there was no more to cut from.
    anything : bool
        Whether anything was cut at all.

    Examples
    --------
    >>> proof_in_words(Decimal(432), Decimal(432), [Decimal(48)], noun="sheet", ran_out=False, anything=True)
    '9 sheets; 8 is impossible.'
    >>> proof_in_words(Decimal(432), Decimal(384), [Decimal(48)], noun="sheet", ran_out=False, anything=True)
    '9 sheets; whether 8 will do is open, 7 is impossible.'
    """
    if not anything:
        return ""
    sold = {price for price in prices if price}
    opening = f"The {noun}s ran out. For what is cut from them: " if ran_out else ""
    if not cost:
        return f"{opening}Nothing has to be bought."
    if len(sold) == 1:
        (price,) = sold
        number, least = int(cost / price), int(-(-bound // price))
        return f"{opening}{_counted(number, noun)}; {_fewer(number, least)}."
    if cost == bound:
        return f"{opening}{cost:.2f}; less is impossible."
    return f"{opening}{cost:.2f}; less than {bound:.2f} is impossible, what lies between is open."


def _counted(number: int, noun: str) -> str:
    """Write a number of sheets or bars."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _fewer(number: int, least: int) -> str:
    """Say what of fewer is impossible."""
    impossible = "none at all is impossible" if least == 1 else f"{least - 1} is impossible"
    if least == number:
        return impossible
    open_ones = f"{least}" if least == number - 1 else f"{least} to {number - 1}"
    if least == 0:
        return f"whether {open_ones} will do is open"
    return f"whether {open_ones} will do is open, {impossible}"
