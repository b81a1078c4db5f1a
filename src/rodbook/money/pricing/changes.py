"""What a change by the client really costs: parts that stay change by nothing, and what is new is decided at what it then costs.

Whoever makes what stays goes on making it. For what is new it is decided by mean costs, as for a whole job, but at what it costs
beside what stays: the sheets that it takes more, and the order that it can still join or that would be a second one.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from itertools import product

from rodbook.errors import InputError
from rodbook.job import Book, Workshop
from rodbook.job.book import WorkshopRates
from rodbook.job.models import Making
from rodbook.money.costs.bought import BoughtCost, bought_costs, order_charges
from rodbook.money.costs.lines import by_kind, quantity
from rodbook.money.costs.site import SiteCost, site_costs
from rodbook.money.costs.usage import MaterialUsage
from rodbook.money.deciding.choice import MakeOrBuy
from rodbook.money.deciding.weighing import weigh
from rodbook.money.pricing.price import CostItem, Price, make_price
from rodbook.money.pricing.rules import PriceRules
from rodbook.money.rates.rounding import rounded, share_out
from rodbook.money.rates.site_rates import SiteRates, Way, site_rates
from rodbook.setout import PartKind, ScheduleLine
from rodbook.setout.schedule import piece_key

__all__ = ["ChangeLine", "ChangeOrder", "LaidOut", "change_order"]

MOST_TRIED = 8
"""So many choices for what is new are all tried, each laid out; of more, the better of all bought and all made, then each kind
by itself the other way (house assumption)."""

type LaidOut = Callable[[Sequence[ScheduleLine]], Sequence[MaterialUsage]]
"""Lays out what is made on site; the same lines have the same answer."""


@dataclass(frozen=True)
class ChangeLine:
    """What a change does to one kind of part.

    Parameters
    ----------
    kind : PartKind
    stays, dropped, added : int
        Parts that are the same before and after, fall away, and are new.
    made : bool
        Whether those before are made or ordered already.
    maker : Making, optional
        Who makes what is new; None where nothing is.
    cost : Decimal
        What the change costs the firm here; below zero where it saves. [currency]
    crew_hours : Decimal
        More, or less below zero. [h]
    sentence : str
    """

    kind: PartKind
    stays: int
    dropped: int
    added: int
    made: bool
    maker: Making | None
    cost: Decimal
    crew_hours: Decimal
    sentence: str


@dataclass(frozen=True)
class ChangeOrder:
    """A change, in parts and in money.

    Parameters
    ----------
    what : str
        What the client wants, in a line.
    lines : tuple of ChangeLine
    cost : Decimal
        Of all lines, before overhead and earnings. [currency]
    price : Price
        What the client pays for it.
    """

    what: str
    lines: tuple[ChangeLine, ...]
    cost: Decimal
    price: Price


@dataclass(frozen=True)
class _Parts:
    """The parts of a change: all before, those that stay, and those that are new."""

    before: tuple[ScheduleLine, ...]
    stay: tuple[ScheduleLine, ...]
    added: tuple[ScheduleLine, ...]


def _so_many(line: ScheduleLine, number: int) -> ScheduleLine:
    return line if number == line.quantity else replace(line, quantity=number, openings=((line.mark, number),))


def _counted(lines: Sequence[ScheduleLine]) -> Counter[tuple[object, ...]]:
    results: Counter[tuple[object, ...]] = Counter()
    for line in lines:
        results[piece_key(line.part)] += line.quantity
    return results


def _common(lines: Sequence[ScheduleLine], others: Sequence[ScheduleLine], *, inside: bool) -> tuple[ScheduleLine, ...]:
    """Of the lines so many parts as the others have too, or so many as they have not."""
    there = _counted(others)
    results: list[ScheduleLine] = []
    for line in lines:
        key = piece_key(line.part)
        known = min(there[key], line.quantity)
        there[key] -= known
        number = known if inside else line.quantity - known
        if number:
            results.append(_so_many(line, number))
    return tuple(results)


def _together(lines: Sequence[ScheduleLine], more: Sequence[ScheduleLine]) -> list[ScheduleLine]:
    """Lines with more parts: like ones are made with like ones."""
    results = list(lines)
    places = {piece_key(line.part): n for n, line in enumerate(results)}
    for line in more:
        place = places.get(piece_key(line.part))
        if place is None:
            results.append(line)
        else:
            results[place] = _so_many(results[place], results[place].quantity + line.quantity)
    return results


@dataclass(frozen=True)
class _Case:
    """What is not made or ordered yet of what stays, and how anything beside it is costed."""

    site: tuple[ScheduleLine, ...]
    bought: tuple[ScheduleLine, ...]
    laid_out: LaidOut
    rates: SiteRates
    workshop: Workshop | None
    day: Date
    currency: str

    def sites(self, more: Sequence[ScheduleLine] = ()) -> dict[PartKind, SiteCost]:
        """What is made on site, with more of it."""
        lines = _together(self.site, more)
        return site_costs(lines, self.laid_out(lines), self.rates) if lines else {}

    def offers(
        self, more: Sequence[ScheduleLine] = (), *, alone: bool = False
    ) -> tuple[dict[PartKind, BoughtCost], WorkshopRates | None]:
        """What is bought in, with more of it, or the more alone."""
        lines = list(more) if alone else _together(self.bought, more)
        return bought_costs(lines, self.workshop, self.day, currency=self.currency)

    def amounts(self, more: Sequence[ScheduleLine] = ()) -> dict[PartKind, Decimal]:
        """The same in money; what is bought has a rate. [currency]"""
        return {kind: cost.amount or Decimal(0) for kind, cost in self.offers(more)[0].items()}

    def charges(self, amount: Decimal) -> Decimal:
        """Least charge and delivery of an order; none where nothing is ordered. [currency]"""
        _, rates = self.offers()
        if not amount or rates is None:
            return Decimal(0)
        return sum(order_charges(amount, rates, self.currency), Decimal(0))


def _means(
    costs: Mapping[PartKind, SiteCost], lines: Sequence[ScheduleLine], rates: SiteRates
) -> dict[PartKind, float]:
    """Mean cost of each kind on site. [currency]"""
    members = {kind: own for kind, own in by_kind(lines).items() if kind in costs}
    none = {kind: BoughtCost(kind, cost.parts, (), None, None) for kind, cost in costs.items()}
    weighed = weigh(members, costs, none, rates, None, {})
    return {kind: float(weighed.mean(kind, Way.SITE).cost) for kind in costs}


def _spread_over(
    differences: Mapping[PartKind, Decimal], changed: Mapping[PartKind, Decimal], currency: str
) -> dict[PartKind, Decimal]:
    """What moved for kinds that did not change, such as shares of sheets, put to those that did, by their area. [currency]"""
    moved = sum((amount for kind, amount in differences.items() if kind not in changed), Decimal(0))
    shares = share_out(rounded(moved, currency), list(changed.values()), currency) if changed else ()
    more = dict(zip(changed, shares, strict=True)) if changed else {}
    return {kind: differences.get(kind, Decimal(0)) + more[kind] for kind in changed}


def _decided(case: _Case, added: Sequence[ScheduleLine], making: Mapping[str, Making]) -> dict[PartKind, Making]:
    """Who makes what is new, so that it costs least on average beside what stays."""
    members = by_kind(added)
    offers, workshop_rates = case.offers(added, alone=True)
    open_to: dict[PartKind, list[Making]] = {}
    for kind in members:
        wish, offer = making.get(kind.value, Making.CHEAPER), offers[kind].amount
        ways = [way for way in (Making.BOUGHT, Making.SITE) if wish in (Making.CHEAPER, way)]
        open_to[kind] = [way for way in ways if way is Making.SITE or offer is not None] or [Making.SITE]
    if all(len(ways) == 1 for ways in open_to.values()):
        return {kind: ways[0] for kind, ways in open_to.items()}
    bought = _bought_means(case, members, offers, workshop_rates)
    there = sum(case.amounts().values(), Decimal(0))

    def cost(choice: Mapping[PartKind, Making]) -> float:
        ordered = sum((offers[k].amount or Decimal(0) for k, way in choice.items() if way is Making.BOUGHT), Decimal(0))
        more = _made_by(added, choice, Making.SITE)
        on_site = sum(_means(case.sites(more), _together(case.site, more), case.rates).values())
        charged = case.charges(there + ordered) - case.charges(there)
        return round(on_site + sum(bought[k] for k, way in choice.items() if way is Making.BOUGHT) + float(charged), 6)

    if math.prod(len(ways) for ways in open_to.values()) <= MOST_TRIED:
        return min((dict(zip(open_to, ways, strict=True)) for ways in product(*open_to.values())), key=cost)
    best = min(({kind: ways[end] for kind, ways in open_to.items()} for end in (0, -1)), key=cost)
    for kind, ways in open_to.items():
        best = min((best, *({**best, kind: way} for way in ways if way is not best[kind])), key=cost)
    return best


def _bought_means(
    case: _Case,
    members: Mapping[PartKind, Sequence[ScheduleLine]],
    offers: Mapping[PartKind, BoughtCost],
    rates: WorkshopRates | None,
) -> dict[PartKind, float]:
    """Mean cost of what is new of each kind bought in, before what the order is charged on top. [currency]"""
    costs = case.sites([line for own in members.values() for line in own])
    lead = float(case.workshop.lead_on(case.day)) if case.workshop else 0.0
    weighed = weigh(members, {k: costs[k] for k in members}, offers, case.rates, rates, {}, lead_days=lead)
    return {k: float(weighed.mean(k, Way.BOUGHT).cost) for k in members if Way.BOUGHT in weighed.ways[k]}


def change_order(
    what: str,
    before: tuple[Sequence[ScheduleLine], MakeOrBuy],
    after: Sequence[ScheduleLine],
    rules: PriceRules,
    *,
    book: Book,
    day: Date,
    laid_out: LaidOut,
    making: Mapping[str, Making] | None = None,
    made: Collection[PartKind] = (),
    workshop: Workshop | None = None,
    extra: Sequence[CostItem] = (),
) -> ChangeOrder:
    """Work out what a change costs, and its price.

    Parameters
    ----------
    what : str
        What the client wants, in a line.
    before : tuple
        The parts as they were agreed, and who makes them.
    after : sequence of ScheduleLine
        The parts as they are wanted now.
    rules : PriceRules
    book, day
        For times and prices.
    laid_out : callable
        Lays out what is made on site.
    making : mapping of str to Making, optional
        What the job says, by kind, for what is new.
    made : collection of PartKind
        Kinds that are made or ordered already: what falls away of them is not saved, and what is new of them is made or
        ordered besides.
    workshop : Workshop, optional
        Where parts are ordered.
    extra : sequence of CostItem
        What else the change takes: measuring again, taking away.

    Returns
    -------
    ChangeOrder
        Kinds of which every part stays are not in it. What is new is made whichever way costs least on average, the order and
        the sheets of what stays being there.

    Raises
    ------
    InputError
        If the plan and the book are in different currencies, or nothing has changed.
    """
    lines, money = before
    currency = book.currency
    if money.currency != currency:
        raise InputError.at("change", "money.plans_in_two_currencies", currency=money.currency, own=currency)
    parts = _Parts(tuple(lines), _common(lines, after, inside=True), _common(after, lines, inside=False))

    def uncut(those: Sequence[ScheduleLine], maker: Making) -> tuple[ScheduleLine, ...]:
        return tuple(x for x in those if x.part.kind not in made and money.maker_of(x.part.kind) is maker)

    rates = site_rates(book, day)
    was, case = (
        _Case(uncut(those, Making.SITE), uncut(those, Making.BOUGHT), laid_out, rates, workshop, day, currency)
        for those in (parts.before, parts.stay)
    )
    makers = _decided(case, parts.added, making or {}) if parts.added else {}
    result = _lines(was, case, parts, makers, made)
    items = [CostItem(f"{line.kind}", line.cost, max(line.crew_hours, Decimal(0))) for line in result]
    ordered = _made_by(parts.added, makers, Making.BOUGHT)
    totals = [sum(amounts.values(), Decimal(0)) for amounts in (was.amounts(), case.amounts(ordered))]
    if charge := was.charges(totals[1]) - was.charges(totals[0]):
        items.append(CostItem("order and delivery", charge))
    items += extra
    if not items:
        raise InputError.at("change", "money.plans_the_same")
    price = make_price(items, rules, currency=currency, day=day)
    return ChangeOrder(what, tuple(result), sum((item.cost for item in items), Decimal(0)), price)


def _made_by(
    added: Sequence[ScheduleLine], makers: Mapping[PartKind, Making], maker: Making
) -> tuple[ScheduleLine, ...]:
    return tuple(line for line in added if makers[line.part.kind] is maker)


def _lines(
    was: _Case, case: _Case, parts: _Parts, makers: Mapping[PartKind, Making], made: Collection[PartKind]
) -> list[ChangeLine]:
    """The change kind by kind, without what the order is charged on top."""
    zero, currency = Decimal(0), case.currency
    dropped = _common(parts.before, parts.stay, inside=False)
    changed = by_kind([*dropped, *parts.added])
    old, new = was.sites(), case.sites(_made_by(parts.added, makers, Making.SITE))
    on_site = {x.part.kind for x in (*was.site, *_made_by(parts.added, makers, Making.SITE))}
    moves = {kind: quantity("area", own) for kind, own in changed.items() if kind in on_site}

    def differences(of: Callable[[SiteCost], Decimal]) -> dict[PartKind, Decimal]:
        every = dict.fromkeys([*old, *new])
        return {k: (of(new[k]) if k in new else zero) - (of(old[k]) if k in old else zero) for k in every}

    costs = _spread_over(differences(lambda cost: cost.amount), moves, currency)
    hours = differences(lambda cost: cost.crew_hours)
    stray = sum((moved for kind, moved in hours.items() if kind not in moves), zero)
    offers = [was.amounts(), case.amounts(_made_by(parts.added, makers, Making.BOUGHT))]
    results: list[ChangeLine] = []
    for kind in (kind for kind in PartKind if kind in changed):
        added, away, stays = (
            sum(x.quantity for x in those if x.part.kind is kind) for those in (parts.added, dropped, parts.stay)
        )
        cost = costs.get(kind, zero) + offers[1].get(kind, zero) - offers[0].get(kind, zero)
        took = hours.get(kind, zero) + (stray / len(moves) if kind in moves else zero)
        maker = makers.get(kind)
        answer = _sentence(kind, added, away, cost, currency, made=kind in made, maker=maker)
        results.append(ChangeLine(kind, stays, away, added, kind in made, maker, cost, took, answer))
    return results


def _sentence(
    kind: PartKind, added: int, dropped: int, cost: Decimal, currency: str, *, made: bool, maker: Making | None
) -> str:
    away = "falls away" if dropped == 1 else "fall away"
    new = f"new, {'made on site' if maker is Making.SITE else 'bought in'}"
    moves = [f"{number} {word}" for number, word in ((added, new), (dropped, away)) if number]
    text = f"{kind}: {' and '.join(moves)}"
    money = f"{abs(cost)} {currency} {'more' if cost > 0 else 'less'}" if cost else "no difference in cost"
    if made and dropped:
        there = "it is" if dropped == 1 else "they are"
        return f"{text}; {there} made already, so nothing is saved: {money}."
    return f"{text}: {money}."
