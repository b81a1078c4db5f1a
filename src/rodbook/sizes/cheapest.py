"""The cheapest number of sizes: what another size costs to set up against what thicker packers cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.sizes.trade_off import Trade

__all__ = ["Weighed", "weigh_money"]


@dataclass(frozen=True)
class Weighed:
    """One number of sizes in money: setting up, packing, and both. [currency]"""

    number: int
    set_ups: Decimal
    packing: Decimal

    @property
    def total(self) -> Decimal:
        """Setting up and packing together. [currency]"""
        return self.set_ups + self.packing


def weigh_money(trades: Sequence[Trade], *, set_up: Decimal, packing_mm: Decimal) -> tuple[Weighed, ...]:
    """Put each number of sizes in money; the least total is the cheapest mix there is.

    As each trade has the least packing that its number of sizes can do with, and set-ups go by the number alone, no other
    choice of sizes can cost less.

    Parameters
    ----------
    trades : sequence of Trade
        As `trade_off` gave them.
    set_up : Decimal
        What each distinct size costs to set up and keep apart. [currency]
    packing_mm : Decimal
        What a millimetre of packing costs at one opening, over its whole height and head. [currency/mm]

    Returns
    -------
    tuple of Weighed
        In the order of the trades.

    Raises
    ------
    InputError
        If either figure is negative or not finite.

    Examples
    --------
    >>> from rodbook.sizes import Offer, PackerRange, trade_off
    >>> offers = [Offer("C1", 842, 2030), Offer("C2", 845, 2034), Offer("C3", 524, 2031)]
    >>> money = weigh_money(
    ...     trade_off(offers, PackerRange(4, 16, 4, 20)), set_up=Decimal(30), packing_mm=Decimal("0.50"))
    >>> [(weighed.number, str(weighed.total)) for weighed in money]
    [(2, '81.500'), (3, '108.000')]
    """
    for name, value in (("set_up", set_up), ("packing_mm", packing_mm)):
        if not value.is_finite() or value < 0:
            raise InputError.at(name, "sizes.not_a_price", value=value)
    return tuple(
        Weighed(trade.number, trade.number * set_up, Decimal(repr(round(trade.choice.packing_mm, 6))) * packing_mm)
        for trade in trades
    )
