"""How a firm comes from costs to prices: what its book says of overhead, earnings, confidence and taxes on a day."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.job import Book
from rodbook.job.book import TaxProfile, valid_on
from rodbook.job.faults import nearest
from rodbook.money.deciding.simulation import Figures
from rodbook.money.pricing.margins import margin_of_mark_up, mark_up_of_margin
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import rounded
from rodbook.money.rates.site_rates import SiteRates, site_rates

__all__ = ["PRICE_HOLDS_DAYS", "PriceRules", "contingency", "overhead_an_hour", "price_rules", "share_under"]

PRICE_HOLDS_DAYS = 30
"""How long a price holds where the book has no "price holds" (common practice). [days]"""


@dataclass(frozen=True)
class PriceRules:
    """How prices are made.

    Parameters
    ----------
    overhead_an_hour : Decimal
        What each crew hour carries of rent, van and office. [currency/h]
    overhead_share : Decimal
        What each unit of cost carries of them besides. [1]
    mark_up : Decimal
        On cost, overhead and contingency together. [1]
    confidence : Decimal, optional
        Share of such jobs that shall not cost more than cost and contingency; None for no contingency. [1]
    taxes : TaxProfile, optional
        None for none.
    holds_days : int
        How long a price holds. [days]
    """

    overhead_an_hour: Decimal = Decimal(0)
    overhead_share: Decimal = Decimal(0)
    mark_up: Decimal = Decimal(0)
    confidence: Decimal | None = None
    taxes: TaxProfile | None = None
    holds_days: int = PRICE_HOLDS_DAYS

    @property
    def margin(self) -> Decimal:
        """What the mark-up comes to as a share of the price. [1]"""
        return margin_of_mark_up(self.mark_up)


def overhead_an_hour(yearly: Decimal, crew_hours: Decimal) -> Decimal:
    """What each crew hour has to carry of the year's overheads.

    Parameters
    ----------
    yearly : Decimal
        Rent, van, insurance, office, and whatever no job is charged with, >= 0. [currency]
    crew_hours : Decimal
        Hours in a year that are charged to jobs, > 0. [h]

    Returns
    -------
    Decimal
        [currency/h]

    Raises
    ------
    InputError
        If there are no hours or the overheads are below zero.

    Examples
    --------
    >>> overhead_an_hour(Decimal(18000), Decimal(3000))
    Decimal('6')
    """
    if crew_hours <= 0 or yearly < 0:
        raise InputError.at("overhead", "money.overhead_not_carried", yearly=yearly, crew_hours=crew_hours)
    return yearly / crew_hours


def contingency(cost: Figures, confidence: Decimal, currency: str) -> Decimal:
    """What has to be added to the mean cost so that this share of such jobs does not cost more.

    Parameters
    ----------
    cost : Figures
        With its hundredths.
    confidence : Decimal
        From 0.01 to 0.99; between hundredths it is straight. [1]
    currency : str

    Returns
    -------
    Decimal
        Zero where the mean is enough. [currency]

    Raises
    ------
    InputError
        If the cost has no hundredths, or the confidence is out of range.
    """
    if not cost.hundredths:
        raise InputError.at("contingency", "money.cost_without_spread")
    if not Decimal("0.01") <= confidence <= Decimal("0.99"):
        raise InputError.at("confidence", "money.confidence_out_of_range", confidence=confidence)
    place = confidence * 100 - 1
    below = int(place)
    above = min(below + 1, len(cost.hundredths) - 1)
    wanted = cost.hundredths[below] + (cost.hundredths[above] - cost.hundredths[below]) * (place - below)
    return max(rounded(wanted - cost.mean, currency), rounded(Decimal(0), currency))


def share_under(cost: Figures, amount: Decimal) -> Decimal:
    """Which share of such jobs costs no more than an amount, to a hundredth and no surer than 1 or 99 in a hundred.

    Parameters
    ----------
    cost : Figures
        With its hundredths.
    amount : Decimal
        [currency]

    Returns
    -------
    Decimal
        From 0.01 to 0.99. [1]

    Raises
    ------
    InputError
        If the cost has no hundredths.
    """
    if not cost.hundredths:
        raise InputError.at("share", "money.cost_without_spread")
    under = bisect_right(cost.hundredths, amount)
    return Decimal(min(max(under, 1), 99)) / 100


def _mark_up(rates: SiteRates) -> Decimal | Fault:
    margin, mark_up = rates.other(RateName.MARGIN), rates.other(RateName.MARK_UP)
    if margin is not None and mark_up is not None:
        return Fault(("book", "rates"), "money.margin_and_mark_up")
    if margin is not None:
        return mark_up_of_margin(margin.value)
    return Decimal(0) if mark_up is None else mark_up.value


def _taxes(book: Book, name: str | None, day: Date) -> TaxProfile | Fault | None:
    if name is None:
        return None
    known = list(dict.fromkeys(profile.name for profile in book.taxes))
    named = tuple(profile for profile in book.taxes if profile.name == name)
    if not named:
        return Fault(("book", "taxes"), "money.unknown_profile", name=name, hint=nearest(name, known))
    days = [profile.since for profile in named]
    if len(set(days)) < len(days):
        return Fault(("book", "taxes"), "money.tax_begins_twice", name=name)
    standing = valid_on(named, day)
    return standing or Fault(("book", "taxes"), "money.tax_not_yet_held", name=name, day=day, first=min(days))


def price_rules(book: Book, day: Date, taxes: str | None = None) -> PriceRules:
    """How the book makes prices on a day.

    Parameters
    ----------
    book : Book
    day : date
    taxes : str, optional
        Profile of the book; none where it is left out.

    Returns
    -------
    PriceRules

    Raises
    ------
    InputError
        With every fault in the rates, a margin beside a mark-up, or a tax profile that is not there.
    """
    rates = site_rates(book, day)
    mark_up, profile = _mark_up(rates), _taxes(book, taxes, day)
    faults = [result for result in (mark_up, profile) if isinstance(result, Fault)]
    if isinstance(mark_up, Fault) or isinstance(profile, Fault):
        raise InputError(faults)

    def value(name: str) -> Decimal:
        rate = rates.other(name)
        return Decimal(0) if rate is None else rate.value

    confidence, holds = rates.other(RateName.CONFIDENCE), rates.other(RateName.PRICE_HOLDS)
    return PriceRules(
        overhead_an_hour=value(RateName.OVERHEAD),
        overhead_share=value(RateName.OVERHEAD_ON_COST),
        mark_up=mark_up,
        confidence=None if confidence is None else confidence.value,
        taxes=profile,
        holds_days=PRICE_HOLDS_DAYS if holds is None else int(holds.value),
    )
