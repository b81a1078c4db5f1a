"""How long it takes to measure, take in, fit, touch up and adjust: the book's own times, else named assumptions."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.dates.model import LABOUR_SPREAD, LEAD_SPREAD
from rodbook.job import Book
from rodbook.money import SiteRates
from rodbook.money.rates.names import RateName

__all__ = ["HOUSE_TIMES", "FittingTime", "FittingTimes"]

HOUSE_TIMES: dict[str, float] = {
    "read once more": 10.0,
    "place an order": 60.0,
    "take in a delivery": 60.0,
    "check a part": 2.0,
    "fit a lining": 75.0,
    "hang a leaf": 30.0,
    "fit trims": 40.0,
    "fit a panel": 45.0,
    "touch up": 25.0,
    "adjust a leaf": 12.0,
    "hand over": 60.0,
    "drying": 6.0,
    "merchant's lead": 2.0,
    "working day": 8.0,
}
"""What is taken where the book holds no time of its own; all of them house assumptions. Units as in `OPTIONAL_UNITS`."""


@dataclass(frozen=True)
class FittingTime:
    """One time.

    Parameters
    ----------
    value : float
        [minutes, hours or days]
    spread : float
        Nine in ten take less than this many times `value`.
    assumed : bool
        Whether the book has none.
    """

    value: float
    spread: float
    assumed: bool


class FittingTimes:
    """The times that hold for a book on a day, and which of them were only assumed.

    Parameters
    ----------
    book : Book
    rates : SiteRates
        As they stand on the day.
    """

    def __init__(self, book: Book, rates: SiteRates) -> None:
        """Take the book's rates."""
        self.book = book
        self.rates = rates
        self.assumed: dict[str, None] = {}

    def of(self, name: str) -> FittingTime:
        """One of `HOUSE_TIMES`; KeyError where there is no such time."""
        rate = self.rates.other(name)
        if rate is None:
            self.assumed.setdefault(name)
            return FittingTime(HOUSE_TIMES[name], LABOUR_SPREAD, assumed=True)
        value = float(rate.value)
        spread = LABOUR_SPREAD if rate.nine_in_ten is None or not value else float(rate.nine_in_ten) / value
        return FittingTime(value, max(spread, 1.0), assumed=False)

    @property
    def lead_spread(self) -> float:
        """Nine in ten deliveries of a workshop come within this many times what it says: the book's, as costs have it."""
        rate = self.rates.other(RateName.LEAD_TIME)
        return LEAD_SPREAD if rate is None or rate.nine_in_ten is None else max(1.0, float(rate.nine_in_ten))
