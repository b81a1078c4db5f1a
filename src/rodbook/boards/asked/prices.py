"""Prices as whole numbers of one small unit, so that sums of them are exact."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import gcd

__all__ = ["PriceScale"]


@dataclass(frozen=True, slots=True)
class PriceScale:
    """The unit in which a set of prices are whole: ten to the power of minus `places`."""

    places: int

    @classmethod
    def of(cls, prices: Iterable[Decimal]) -> PriceScale:
        """Find the coarsest unit, no coarser than one hundredth, in which all `prices` are whole."""
        exponents = [price.as_tuple().exponent for price in prices]
        return cls(max([2, *(-e for e in exponents if isinstance(e, int))]))

    def units(self, price: Decimal) -> int:
        """Give a price in whole units; exact."""
        _, digits, exponent = price.as_tuple()
        assert isinstance(exponent, int)
        return int("".join(map(str, digits)) + "0" * (self.places + exponent))

    def price(self, units: int) -> Decimal:
        """Give whole units as a price; exact, whatever the decimal context."""
        return Decimal((int(units < 0), tuple(map(int, str(abs(units)))), -self.places))

    @staticmethod
    def common_step(units: Sequence[int]) -> int:
        """Give the number that divides every sum of these prices; 0 where all are 0."""
        return gcd(*units) if units else 0
