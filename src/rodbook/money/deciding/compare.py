"""Make or buy: the kinds of part decided together, because an order has one delivery and one least charge.

Whether one kind is worth buying in depends on what else is in the order, so all mixtures are weighed (`decision`). The
decision rests on mean costs, with remakes, interruptions and all that varies, as the price does; amounts of single kinds and
totals are straight lines through the book's middles.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError, Message
from rodbook.job import Book, Workshop
from rodbook.job.book import WorkshopRates
from rodbook.job.faults import nearest
from rodbook.job.models import Making
from rodbook.money.costs.bought import BoughtCost, Order, bought_costs, order_of
from rodbook.money.costs.lines import by_kind, opening_shares
from rodbook.money.costs.site import MINUTES_AN_HOUR, SiteCost, site_costs
from rodbook.money.costs.usage import MaterialUsage
from rodbook.money.deciding.choice import KindChoice, MakeOrBuy, OpeningCost, OpeningShare, Totals
from rodbook.money.deciding.decision import Deciding
from rodbook.money.deciding.weighing import weigh
from rodbook.money.rates.rounding import measured, rounded
from rodbook.money.rates.site_rates import Way, site_rates
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["make_or_buy", "settle"]

type Kinds = frozenset[PartKind]


@dataclass(frozen=True)
class _Ways:
    """What every kind costs each way, before anything is decided."""

    lines: Mapping[PartKind, Sequence[ScheduleLine]]
    site: Mapping[PartKind, SiteCost]
    bought: Mapping[PartKind, BoughtCost]
    rates: WorkshopRates | None
    currency: str
    asked: Mapping[PartKind, Making]
    deciding: Deciding

    def order(self, kinds: Iterable[PartKind]) -> Order:
        """The order of those kinds, all of which can be bought."""
        wanted = set(kinds)
        amounts = {k: b.amount for k, b in self.bought.items() if k in wanted and b.amount is not None}
        return order_of(amounts, self.rates, self.currency)

    def site_amount(self, kinds: Iterable[PartKind]) -> Decimal:
        """Those kinds made on site. [currency]"""
        return sum((self.site[k].amount for k in kinds), rounded(Decimal(0), self.currency))

    def mean(self, bought: Kinds) -> Decimal:
        """Mean cost of the whole job with those kinds bought in. [currency]"""
        mixture = {kind: Way.BOUGHT if kind in bought else Way.SITE for kind in self.site}
        return rounded(measured(self.deciding.cost(mixture)), self.currency)

    def minutes(self, kinds: Iterable[PartKind]) -> Decimal:
        """Crew time for those kinds. [minutes]"""
        return sum((self.site[k].minutes for k in kinds), Decimal(0))


def _asked(making: Mapping[str, Making], bought: Mapping[PartKind, BoughtCost]) -> dict[PartKind, Making]:
    """What the job says of each kind; a wish that can't be met is a fault."""
    known = [kind.value for kind in PartKind]
    faults = [
        Fault(("making", name), "money.unknown_kind_of_part", name=name, hint=nearest(name, known))
        for name in making
        if name not in known
    ]
    asked = {kind: making.get(kind.value, Making.CHEAPER) for kind in bought}
    faults += [
        Fault(("making", kind.value), "money.cant_be_bought_as_wished", why_not=bought[kind].why_not)
        for kind, wish in asked.items()
        if wish is Making.BOUGHT and bought[kind].amount is None
    ]
    if faults:
        raise InputError(faults)
    return asked


def _other_way(ways: _Ways, kind: PartKind, bought: Kinds) -> Decimal | None:
    if ways.bought[kind].amount is None:
        return None
    return ways.mean(bought ^ {kind}) - ways.mean(bought)


def _reason(ways: _Ways, kind: PartKind, decision: Making, other_way: Decimal | None, hours: Decimal) -> str:
    asked, currency = ways.asked[kind], ways.currency
    here, there = ("Made on site", "bought in") if decision is Making.SITE else ("Bought in", "made on site")
    if other_way is None:
        because = "as the job asks; it could not be bought in" if asked is Making.SITE else "as it can't be bought in"
        return f"{here}, {because}: {ways.bought[kind].why_not}."
    compared = f"{abs(other_way)} {currency} {'less' if other_way < 0 else 'more'}" if other_way else "the same"
    if asked is not Making.CHEAPER:
        return f"{here}, as the job asks; {there} it would cost the job {compared}."
    if other_way < 0:
        return (
            f"{here}, as it was cheaper by its share of the sheets; as they are laid out now, "
            f"{there} it would cost the job {compared}."
        )
    if not other_way:
        saved = f", and this way saves {hours} crew hours" if decision is Making.BOUGHT and hours else ""
        return f"{here}: both ways cost the job the same{saved}."
    crew = f"save {hours} crew hours" if decision is Making.SITE else f"take {hours} crew hours"
    return f"{here}, as it is cheaper on average: {there} it would cost the job {compared} and {crew}."


def _kind_choice(ways: _Ways, kind: PartKind, bought: Kinds, order: Order) -> KindChoice:
    site, offer, lines, currency = ways.site[kind], ways.bought[kind], ways.lines[kind], ways.currency
    decision = Making.BOUGHT if kind in bought else Making.SITE
    top_up = delivery = rounded(Decimal(0), currency)
    bought_amount: Decimal | None = None
    if offer.amount is not None:
        if kind in bought:
            share = next(s for s in order.shares if s.kind == kind)
            top_up, delivery = share.top_up, share.delivery
        else:
            larger = ways.order(bought | {kind})
            top_up, delivery = larger.top_up - order.top_up, larger.delivery - order.delivery
        bought_amount = offer.amount + top_up + delivery
    other_way = _other_way(ways, kind, bought)
    shared_site = opening_shares(site.amount, site.lines, lines, currency)
    shared_bought: Mapping[str, Decimal | None] = (
        dict.fromkeys(shared_site)
        if bought_amount is None
        else {**opening_shares(bought_amount, offer.lines, lines, currency)}
    )
    counts: dict[str, int] = defaultdict(int)
    for line in lines:
        for mark, count in line.openings:
            counts[mark] += count
    return KindChoice(
        kind=kind,
        parts=site.parts,
        site=site,
        bought=offer,
        top_up=top_up,
        delivery=delivery,
        site_amount=site.amount,
        bought_amount=bought_amount,
        difference=None if bought_amount is None else site.amount - bought_amount,
        site_per_part=rounded(site.amount / site.parts, currency),
        bought_per_part=None if bought_amount is None else rounded(bought_amount / site.parts, currency),
        crew_hours_saved=site.crew_hours,
        asked=ways.asked[kind],
        decision=decision,
        other_way=other_way,
        reason=_reason(ways, kind, decision, other_way, site.crew_hours),
        openings=tuple(OpeningShare(m, counts[m], amount, shared_bought[m]) for m, amount in shared_site.items()),
    )


def _opening_costs(kinds: Sequence[KindChoice]) -> tuple[OpeningCost, ...]:
    """The openings over all kinds: sums of what the kinds show, so that both ways of adding agree."""
    by_mark: dict[str, list[tuple[OpeningShare, Making]]] = defaultdict(list)
    for choice in kinds:
        for share in choice.openings:
            by_mark[share.mark].append((share, choice.decision))
    results: list[OpeningCost] = []
    for mark, shares in by_mark.items():
        bought = [share.bought for share, _ in shares]
        priced = [amount for amount in bought if amount is not None]
        decided = [share.site if decision is Making.SITE else share.bought for share, decision in shares]
        results.append(
            OpeningCost(
                mark,
                sum(share.parts for share, _ in shares),
                sum((share.site for share, _ in shares), Decimal(0)),
                sum(priced, Decimal(0)) if len(priced) == len(bought) else None,
                sum((amount for amount in decided if amount is not None), Decimal(0)),
            )
        )
    return tuple(results)


def _totals(ways: _Ways, bought: Kinds, order: Order) -> Totals:
    all_kinds = frozenset(ways.site)
    can_buy_all = all(offer.amount is not None for offer in ways.bought.values())
    site_made = ways.site_amount(all_kinds - bought)
    return Totals(
        all_site=ways.site_amount(all_kinds),
        all_bought=ways.order(all_kinds).amount if can_buy_all else None,
        site_made=site_made,
        bought_in=order.amount,
        decided=site_made + order.amount,
        crew_hours=_hours(ways.minutes(all_kinds - bought)),
        crew_hours_saved=_hours(ways.minutes(bought)),
    )


def _hours(minutes: Decimal) -> Decimal:
    return (minutes / MINUTES_AN_HOUR).quantize(Decimal("0.01"))


def _answer(ways: _Ways, bought: Kinds, *, day: Date, workshop: str) -> MakeOrBuy:
    order = ways.order(bought)
    kinds = tuple(_kind_choice(ways, kind, bought, order) for kind in ways.site)
    remarks: list[Message] = []
    if order.top_up:
        remarks.append(
            Message(
                "money.order_topped_up",
                amount=order.parts_amount,
                least=order.parts_amount + order.top_up,
                currency=ways.currency,
                workshop=workshop,
            )
        )
    return MakeOrBuy(
        currency=ways.currency,
        day=day,
        workshop=workshop,
        kinds=kinds,
        openings=_opening_costs(kinds),
        order=order,
        totals=_totals(ways, bought, order),
        remarks=tuple(remarks),
    )


def _ways(
    lines: Sequence[ScheduleLine],
    site: Mapping[PartKind, SiteCost],
    bought: Mapping[PartKind, BoughtCost],
    workshop_rates: WorkshopRates | None,
    asked: Mapping[PartKind, Making],
    book: Book,
    day: Date,
) -> _Ways:
    """Both pure ways of every kind, and what is decided between."""
    members = by_kind(lines)
    weighed = weigh(members, site, bought, site_rates(book, day), workshop_rates, {})
    deciding = Deciding(weighed, {kind.value: wish for kind, wish in asked.items()})
    return _Ways(members, site, bought, workshop_rates, book.currency, asked, deciding)


def make_or_buy(
    lines: Sequence[ScheduleLine],
    usage: Iterable[MaterialUsage],
    book: Book,
    day: Date,
    workshop: Workshop | None,
    making: Mapping[str, Making],
) -> MakeOrBuy:
    """Decide for every kind of part who makes it, so that the whole job costs least on average.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        Every part of the job.
    usage : iterable of MaterialUsage
        Sheets and lengths if all of it were made on site, one entry for each board and section.
    book : Book
        For the firm's own times and prices.
    day : date
        Day whose rates are taken.
    workshop : Workshop, optional
        The one that would be asked.
    making : mapping of str to Making
        What the job says, by kind; the cheaper way where it says nothing.

    Returns
    -------
    MakeOrBuy

    Raises
    ------
    InputError
        With every fault: rates that are missing or wrong, usage that does not agree with the schedule, a kind that the
        job wants bought in and that can't be.

    Notes
    -----
    Each kind carries its share by area of whole sheets, also of sheets that would stay half empty without it; once the
    decision is taken and what is left is laid out anew, `settle` puts the real sheets in.
    """
    faults: list[Fault] = []
    bought, workshop_rates = bought_costs(lines, workshop, day, currency=book.currency)
    site: dict[PartKind, SiteCost] = {}
    asked: dict[PartKind, Making] = {}
    try:
        asked = _asked(making, bought)
    except InputError as error:
        faults += error.faults
    try:
        site = site_costs(lines, usage, site_rates(book, day))
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)
    ways = _ways(lines, site, bought, workshop_rates, asked, book, day)
    decided = ways.deciding.decide()
    cheapest = frozenset(kind for kind, way in decided.items() if way is Way.BOUGHT)
    return _answer(ways, cheapest, day=day, workshop=workshop.name if workshop else "")


def settle(
    decided: MakeOrBuy,
    lines: Sequence[ScheduleLine],
    usage: Iterable[MaterialUsage],
    book: Book,
    workshop: Workshop | None,
) -> MakeOrBuy:
    """The same decisions, with the sheets as they are laid out once the decisions are taken.

    Parameters
    ----------
    decided : MakeOrBuy
        Of the same lines, book and workshop.
    lines : sequence of ScheduleLine
        Every part of the job.
    usage : iterable of MaterialUsage
        Of what is made on site and nothing else.
    book : Book
    workshop : Workshop, optional

    Returns
    -------
    MakeOrBuy
        Kinds made on site cost what their own sheets cost; kinds bought in keep the site cost that they were compared
        by. Where a kind that was free now looks dearer the way it was decided, its reason says so.

    Raises
    ------
    InputError
        If `usage` does not agree with what is made on site.
    """
    made = [line for line in lines if decided.maker_of(line.part.kind) is Making.SITE]
    fresh = site_costs(made, usage, site_rates(book, decided.day))
    site = {choice.kind: fresh.get(choice.kind, choice.site) for choice in decided.kinds}
    bought = frozenset(choice.kind for choice in decided.kinds if choice.decision is Making.BOUGHT)
    offers, rates = bought_costs(lines, workshop, decided.day, currency=book.currency)
    asked = {choice.kind: choice.asked for choice in decided.kinds}
    ways = _ways(lines, site, offers, rates, asked, book, decided.day)
    return _answer(ways, bought, day=decided.day, workshop=decided.workshop)
