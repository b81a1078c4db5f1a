"""What is weighed when making is held against buying: the ways of every kind, their closed-form means, the best mixture."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.job import Book, Workshop
from rodbook.job.book import WorkshopRates
from rodbook.job.models import Making
from rodbook.money.costs.bought import BoughtCost, bought_costs
from rodbook.money.costs.lines import by_kind
from rodbook.money.costs.outcome import Outcome, Rejects, Setting, book_rejects, outcome
from rodbook.money.costs.site import SiteCost, site_costs
from rodbook.money.costs.usage import MaterialUsage
from rodbook.money.costs.ways import DELIVERIES, WayCost, way_costs
from rodbook.money.rates.names import REJECTS
from rodbook.money.rates.site_rates import SiteRates, Way, site_rates
from rodbook.money.rates.spread import LogNormal
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["Mixture", "Weighing", "weigh", "weighing", "worth_keeping"]

type Mixture = tuple[tuple[PartKind, Way], ...]
"""Who makes what: a way for each kind of part."""


@dataclass(frozen=True)
class Weighing:
    """Everything that is weighed: the ways of each kind, and what they have in common.

    Parameters
    ----------
    ways : mapping of PartKind to mapping of Way to WayCost
    setting : Setting
    workshop_rates : WorkshopRates, optional
    rejects : callable
    spreads : mapping of str to LogNormal
        Around 1, by the name of the rate.
    """

    ways: Mapping[PartKind, Mapping[Way, WayCost]]
    setting: Setting
    workshop_rates: WorkshopRates | None
    rejects: Rejects
    spreads: Mapping[str, LogNormal]

    def charges(self, mixture: Mapping[PartKind, Way]) -> float:
        """Least charge and deliveries of the one order that a mixture takes. [currency]"""
        amount = float(sum(self.ways[kind][way].bought_amount for kind, way in mixture.items()))
        travels = max((DELIVERIES[way] for way in mixture.values()), default=0)
        if not travels or self.workshop_rates is None:
            return 0.0
        return max(0.0, float(self.workshop_rates.least_order) - amount) + travels * self.setting.delivery

    def mean(self, kind: PartKind, way: Way, changed: Mapping[str, float] | None = None) -> Outcome:
        """Closed-form mean of a way: it is a sum of products of factors that vary on their own.

        Parameters
        ----------
        kind : PartKind
        way : Way
        changed : mapping of str to float, optional
            Factors that take the place of their means.
        """
        cost = self.ways[kind][way]
        share = self.rejects(kind, way)
        factors = {name: spread.mean for name, spread in self.spreads.items()} | dict(changed or {})
        return outcome(cost, self.setting, factors, cost.parts * share / (1 - share), 1 - (1 - share) ** cost.parts)

    def mean_cost(self, mixture: Mapping[PartKind, Way], changed: Mapping[str, float] | None = None) -> float:
        """Mean cost of a mixture, its order's charges included. [currency]"""
        return self.charges(mixture) + sum(float(self.mean(k, w, changed).cost) for k, w in mixture.items())

    def best(self) -> dict[PartKind, Way]:
        """The mixture with the least mean cost of all that there are, as all share one order.

        Kinds are added one by one. A beginning that costs no less than another and orders no more can't become the better one,
        whatever follows, and is given up; so what is left is few, and exact.
        """
        least = float(self.workshop_rates.least_order) if self.workshop_rates else 0.0
        result, lowest = {kind: next(iter(ways)) for kind, ways in self.ways.items()}, math.inf
        for travels in sorted(set(DELIVERIES.values())):
            begun: list[Begun] = [(0.0, 0.0, ())]
            for kind, ways in self.ways.items():
                offered = [
                    (way, float(self.mean(kind, way).cost), float(cost.bought_amount))
                    for way, cost in ways.items()
                    if DELIVERIES[way] <= travels
                ]
                begun = worth_keeping(
                    [(cost + c, amount + a, (*way, w)) for cost, amount, way in begun for w, c, a in offered]
                )
            for cost, amount, chosen in begun:
                charged = travels * self.setting.delivery + max(0.0, least - amount) if travels else 0.0
                if cost + charged < lowest - 1e-9:
                    result, lowest = dict(zip(self.ways, chosen, strict=True)), cost + charged
        return result


type Begun = tuple[float, float, tuple[Way, ...]]
"""Mean cost and amount ordered of the first kinds, and their ways."""


def worth_keeping(begun: list[Begun]) -> list[Begun]:
    """Those that no other beats in cost without ordering less."""
    kept: list[Begun] = []
    for each in sorted(begun, key=lambda b: (b[0], -b[1])):
        if not kept or each[1] > kept[-1][1]:
            kept.append(each)
    return kept


def _spreads(rates: SiteRates) -> dict[str, LogNormal]:
    """Spreads around 1 of all the rates that have one; rejects vary by their own number."""
    return {
        name: LogNormal(1.0, rate.spread.sigma)
        for name, rate in rates.all().items()
        if rate.spread is not None and name not in REJECTS.values()
    }


def _allowed(kind: PartKind, ways: Mapping[Way, WayCost], making: Mapping[str, Making]) -> dict[Way, WayCost]:
    asked = making.get(kind.value, Making.CHEAPER)
    if asked is Making.SITE or (asked is Making.BOUGHT and Way.BOUGHT not in ways):
        return {Way.SITE: ways[Way.SITE]}
    return {Way.BOUGHT: ways[Way.BOUGHT]} if asked is Making.BOUGHT else dict(ways)


def weighing(
    lines: Sequence[ScheduleLine],
    usage: Iterable[MaterialUsage],
    book: Book,
    day: Date,
    workshop: Workshop | None,
    making: Mapping[str, Making],
    *,
    rejects: Rejects | None = None,
) -> Weighing:
    """Put together what is weighed: the ways that make sense for each kind, and what the job leaves free.

    Parameters
    ----------
    lines, usage, book, day, workshop, making
        As for `make_or_buy`.
    rejects : callable, optional
        Share of rejects by kind and way; the book's where it is left out.

    Raises
    ------
    InputError
        With every fault in rates or usage.
    """
    rates = site_rates(book, day)
    bought, workshop_rates = bought_costs(lines, workshop, day, currency=book.currency)
    site = site_costs(lines, usage, rates)
    lead = float(workshop.lead_on(day)) if workshop else 0.0
    return weigh(by_kind(lines), site, bought, rates, workshop_rates, making, lead_days=lead, rejects=rejects)


def weigh(
    members: Mapping[PartKind, Sequence[ScheduleLine]],
    site: Mapping[PartKind, SiteCost],
    bought: Mapping[PartKind, BoughtCost],
    rates: SiteRates,
    workshop_rates: WorkshopRates | None,
    making: Mapping[str, Making],
    *,
    lead_days: float = 0.0,
    rejects: Rejects | None = None,
) -> Weighing:
    """Put together what is weighed from the costs of both pure ways.

    Parameters
    ----------
    members : mapping of PartKind to sequence of ScheduleLine
    site, bought : mapping of PartKind to SiteCost and BoughtCost
        Of the same kinds.
    rates : SiteRates
    workshop_rates : WorkshopRates, optional
    making : mapping of str to Making
    lead_days : float
        [working days]
    rejects : callable, optional
    """
    ways = {kind: _allowed(kind, way_costs(site[kind], bought[kind], members[kind]), making) for kind in site}
    delivery = float(workshop_rates.delivery) if workshop_rates else 0.0
    setting = Setting(rates, lead_days, delivery)
    return Weighing(ways, setting, workshop_rates, rejects or book_rejects(rates), _spreads(rates))
