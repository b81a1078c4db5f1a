"""What a change by the client really costs: the two plans held against each other, and what is made already is made."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.job import Workshop
from rodbook.job.book import standing_on
from rodbook.job.models import Making
from rodbook.money.bought import bought_cost, order_charges
from rodbook.money.choice import MakeOrBuy
from rodbook.money.lines import by_kind
from rodbook.money.price import CostItem, Price, make_price
from rodbook.money.price_rules import PriceRules
from rodbook.money.rounding import rounded
from rodbook.setout import PartKind, ScheduleLine
from rodbook.setout.schedule import piece_key

__all__ = ["ChangeLine", "ChangeOrder", "change_order"]


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
    cost : Decimal
        What the change costs the firm here; below nought where it saves. [currency]
    crew_hours : Decimal
        More, or less below nought. [h]
    sentence : str
    """

    kind: PartKind
    stays: int
    dropped: int
    added: int
    made: bool
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


def _counted(lines: Sequence[ScheduleLine]) -> Counter[tuple[object, ...]]:
    found: Counter[tuple[object, ...]] = Counter()
    for line in lines:
        found[piece_key(line.part)] += line.quantity
    return found


def _added_lines(before: Sequence[ScheduleLine], after: Sequence[ScheduleLine]) -> list[ScheduleLine]:
    """Lines after the change with only as many parts as are new."""
    there = _counted(before)
    found: list[ScheduleLine] = []
    for line in after:
        key = piece_key(line.part)
        known = min(there[key], line.quantity)
        there[key] -= known
        if line.quantity > known:
            number = line.quantity - known
            found.append(replace(line, quantity=number, openings=((line.mark, number),)))
    return found


def _kind_amount(money: MakeOrBuy, kind: PartKind) -> tuple[Decimal, Decimal]:
    """What a kind costs as decided, without its share of the order's charges, and its crew hours. [currency, h]"""
    for choice in money.kinds:
        if choice.kind == kind:
            if choice.decision is Making.SITE or choice.bought.amount is None:
                return choice.site.amount, choice.site.crew_hours
            return choice.bought.amount, Decimal(0)
    return Decimal(0), Decimal(0)


def _afresh(
    added: Sequence[ScheduleLine], money: MakeOrBuy, workshop: Workshop | None, day: Date
) -> tuple[Decimal, Decimal]:
    """New parts of a kind that is made already: at the kind's cost of a part on site, or ordered as the workshop charges."""
    if not added:
        return Decimal(0), Decimal(0)
    choice = money.choice_of(added[0].part.kind)
    number = sum(line.quantity for line in added)
    rates = standing_on(workshop.rates, day) if workshop is not None else None
    if choice.decision is Making.SITE or workshop is None or rates is None:
        share = Decimal(number) / choice.parts
        return rounded(choice.site.amount * share, money.currency), choice.site.crew_hours * share
    cost = bought_cost(added, rates, workshop=workshop.name, currency=money.currency)
    if cost.amount is None:
        raise InputError.at(f"change, {choice.kind}", f"it can't be bought in: {cost.why_not}")
    return cost.amount, Decimal(0)


def change_order(
    what: str,
    before: tuple[Sequence[ScheduleLine], MakeOrBuy],
    after: tuple[Sequence[ScheduleLine], MakeOrBuy],
    rules: PriceRules,
    *,
    day: Date,
    made: Collection[PartKind] = (),
    workshop: Workshop | None = None,
    extra: Sequence[CostItem] = (),
) -> ChangeOrder:
    """Work out what a change costs, and its price.

    Parameters
    ----------
    what : str
        What the client wants, in a line.
    before, after : tuple
        The parts of each plan, and its make or buy.
    rules : PriceRules
    day : date
    made : collection of PartKind
        Kinds that are made or ordered already: what falls away of them is not saved, what is new of them is made or ordered
        by itself, with a set-up and for the order a delivery of its own.
    workshop : Workshop, optional
        Where new parts of made kinds are ordered.
    extra : sequence of CostItem
        What else the change takes: measuring again, taking away.

    Returns
    -------
    ChangeOrder

    Raises
    ------
    InputError
        If the two plans are in different currencies.
    """
    (lines_before, money_before), (lines_after, money_after) = before, after
    currency = money_after.currency
    if money_before.currency != currency:
        raise InputError.at(
            "change", f"one plan is in {money_before.currency} and the other in {currency}; plan both by the same book"
        )
    groups_before, groups_after = by_kind(lines_before), by_kind(lines_after)
    lines: list[ChangeLine] = []
    ordered = Decimal(0)
    for kind in PartKind:
        old, new = groups_before.get(kind, []), groups_after.get(kind, [])
        counts_old, counts_new = _counted(old), _counted(new)
        added, dropped = (counts_new - counts_old).total(), (counts_old - counts_new).total()
        (cost_old, hours_old), (cost_new, hours_new) = _kind_amount(money_before, kind), _kind_amount(money_after, kind)
        cost, hours = cost_new - cost_old, hours_new - hours_old
        if kind in made:
            cost, hours = _afresh(_added_lines(old, new), money_after, workshop, day)
            if added and money_after.maker_of(kind) is Making.BOUGHT:
                ordered += cost
        if added or dropped or cost:
            stays = counts_new.total() - added
            said = _sentence(kind, added, dropped, cost, currency, made=kind in made)
            lines.append(ChangeLine(kind, stays, dropped, added, kind in made, cost, hours, said))
    items = [CostItem(f"{line.kind}", line.cost, max(line.crew_hours, Decimal(0))) for line in lines]
    charge = _order_charge(money_before, money_after, ordered, workshop, day)
    if charge:
        items.append(CostItem("order and delivery", charge))
    items += extra
    if not items:
        raise InputError.at("change", "the two plans are the same, so there is nothing to be priced")
    price = make_price(items, rules, currency=currency, day=day)
    return ChangeOrder(what, tuple(lines), sum((item.cost for item in items), Decimal(0)), price)


def _order_charge(
    before: MakeOrBuy, after: MakeOrBuy, ordered: Decimal, workshop: Workshop | None, day: Date
) -> Decimal:
    """Least charge and delivery: of a further order where there is one, else what those of the one order change by."""
    rates = standing_on(workshop.rates, day) if workshop is not None else None
    if ordered and rates is not None:
        return sum(order_charges(ordered, rates, after.currency), Decimal(0))
    return (after.order.top_up + after.order.delivery) - (before.order.top_up + before.order.delivery)


def _sentence(kind: PartKind, added: int, dropped: int, cost: Decimal, currency: str, *, made: bool) -> str:
    away = "falls away" if dropped == 1 else "fall away"
    moves = [f"{number} {word}" for number, word in ((added, "new"), (dropped, away)) if number]
    told = f"{kind}: {' and '.join(moves) or 'the same parts'}"
    money = f"{abs(cost)} {currency} {'more' if cost > 0 else 'less'}" if cost else "no difference in cost"
    if made and dropped:
        there = "it is" if dropped == 1 else "they are"
        return f"{told}; {there} made already, so nothing is saved: {money}."
    return f"{told}: {money}."
