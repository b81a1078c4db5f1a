"""What a kind of part costs when a workshop makes it to order, and what an order is charged on top."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import InputError, Message
from rodbook.job import Workshop
from rodbook.job.book import WorkshopRates, valid_on
from rodbook.money.costs.lines import CostLine, by_kind, quantity, total_of
from rodbook.money.rates.rounding import counted, rounded, share_out
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["BoughtCost", "Order", "OrderShare", "bought_cost", "bought_costs", "order_charges", "order_of"]


@dataclass(frozen=True)
class BoughtCost:
    """What a kind of part costs bought in, before what the order is charged on top.

    Parameters
    ----------
    kind : PartKind
    parts : int
    lines : tuple of CostLine
        Empty where it can't be bought.
    amount : Decimal, optional
        Sum of the lines; None where it can't be bought. [currency]
    why_not : Message, optional
        Why it can't be bought, as a sentence without capital and full stop; empty where it can.
    """

    kind: PartKind
    parts: int
    lines: tuple[CostLine, ...]
    amount: Decimal | None
    why_not: Message | None = None


@dataclass(frozen=True)
class OrderShare:
    """One kind's part of an order.

    Parameters
    ----------
    kind : PartKind
    parts_amount : Decimal
        [currency]
    top_up, delivery : Decimal
        Its share of each, by amount. [currency]
    amount : Decimal
        All three. [currency]
    """

    kind: PartKind
    parts_amount: Decimal
    top_up: Decimal
    delivery: Decimal
    amount: Decimal


@dataclass(frozen=True)
class Order:
    """An order as a workshop charges it.

    Parameters
    ----------
    parts_amount : Decimal
        [currency]
    top_up : Decimal
        What is missing to the least charge for an order. [currency]
    delivery : Decimal
        Once for the order. [currency]
    amount : Decimal
        All three; zero where nothing is ordered. [currency]
    shares : tuple of OrderShare
        They add up to the order exactly.
    """

    parts_amount: Decimal
    top_up: Decimal
    delivery: Decimal
    amount: Decimal
    shares: tuple[OrderShare, ...]


def order_charges(parts_amount: Decimal, rates: WorkshopRates, currency: str) -> tuple[Decimal, Decimal]:
    """What an order is charged on top of its parts: what is missing to the least charge, and delivery. [currency]"""
    missing = rounded(rates.least_order, currency) - parts_amount
    return max(missing, rounded(Decimal(0), currency)), rounded(rates.delivery, currency)


def order_of(amounts: Mapping[PartKind, Decimal], rates: WorkshopRates | None, currency: str) -> Order:
    """Put kinds of part into one order: least charge, delivery, and how each kind shares them.

    Parameters
    ----------
    amounts : mapping of PartKind to Decimal
        The parts of each kind, rounded; empty for no order. [currency]
    rates : WorkshopRates, optional
        Needed as soon as something is ordered.
    currency : str
        ISO 4217 code.

    Returns
    -------
    Order
        Top-up and delivery shared by amount, cents left over by the largest remainder.

    Raises
    ------
    InputError
        If something is ordered and there are no rates.
    """
    zero = rounded(Decimal(0), currency)
    if not amounts:
        return Order(zero, zero, zero, zero, ())
    if rates is None:
        raise InputError.at("order", "money.no_rates_to_order_by")
    parts = sum(amounts.values(), zero)
    top_up, delivery = order_charges(parts, rates, currency)
    weights = list(amounts.values())
    top_ups, deliveries = share_out(top_up, weights, currency), share_out(delivery, weights, currency)
    shares = tuple(
        OrderShare(kind, amount, up, carried, amount + up + carried)
        for (kind, amount), up, carried in zip(amounts.items(), top_ups, deliveries, strict=True)
    )
    return Order(parts, top_up, delivery, parts + top_up + delivery, shares)


def _line(
    name: str,
    amount: Decimal,
    unit: str,
    rate: Decimal,
    per: str,
    currency: str,
    source: str,
    goes_by: str,
    stock: str = "",
) -> CostLine:
    money = rounded(amount * rate, currency)
    title = f"{name}, {stock}" if stock else name
    working = f"{title}: {counted(amount, unit)} × {rate} {currency}/{per} = {money} {currency}"
    zero = Decimal(0)
    return CostLine(name, amount, unit, rate, f"{currency}/{per}", zero, money, working, source, goes_by, stock)


def _lines(lines: Sequence[ScheduleLine], rates: WorkshopRates, currency: str) -> Iterator[CostLine]:
    source = f"{rates.source}, since {rates.since}"
    for name, unit, rate, per, goes_by in (
        ("set up", "distinct part", rates.set_up, "distinct part", "distinct parts"),
        ("handle parts", "part", rates.part, "part", "parts"),
    ):
        yield _line(name, quantity(goes_by, lines), unit, rate, per, currency, source, goes_by)
    for stock, sectional in _stocks(lines):
        of_it = [x for x in lines if (x.part.stock, x.part.sectional) == (stock, sectional)]
        if sectional:
            metres = quantity("length", of_it)
            yield _line("section", metres, "m", rates.section_m[stock], "m", currency, source, "length", stock)
        else:
            area = quantity("area", of_it)
            yield _line("board", area, "m2", rates.board_m2[stock], "m2", currency, source, "area", stock)
    for name, unit, rate, per, goes_by in (
        ("edges", "m", rates.edge_m, "m", "edges"),
        ("borings", "hole", rates.boring, "hole", "holes"),
        ("coats", "m2 of coats", rates.coat_m2, "m2 and coat", "coats"),
    ):
        yield _line(name, quantity(goes_by, lines), unit, rate, per, currency, source, goes_by)


def _stocks(lines: Sequence[ScheduleLine]) -> list[tuple[str, bool]]:
    return list(dict.fromkeys((line.part.stock, line.part.sectional) for line in lines))


def _no_rate(lines: Sequence[ScheduleLine], rates: WorkshopRates, workshop: str) -> Message | None:
    missing = [
        Message("money.the_section" if sectional else "money.the_board", name=stock)
        for stock, sectional in _stocks(lines)
        if stock not in (rates.section_m if sectional else rates.board_m2)
    ]
    return Message("money.workshop_without_rate", workshop=workshop, stocks=missing) if missing else None


def bought_cost(lines: Sequence[ScheduleLine], rates: WorkshopRates, *, workshop: str, currency: str) -> BoughtCost:
    """Cost of having all the parts of one kind made, before what the order is charged on top.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        All of one kind, at least one.
    rates : WorkshopRates
        As they stand on the day.
    workshop : str
        Its name, for the sentences.
    currency : str
        ISO 4217 code.

    Returns
    -------
    BoughtCost
        Area is the parts' own; a cup counts as one hole with its pilots, each plate hole as one. Where the workshop has
        no rate for a board or section there is a sentence and no number.

    Raises
    ------
    InputError
        If there are no lines, or lines of several kinds.
    """
    kinds = {line.part.kind for line in lines}
    if len(kinds) != 1:
        raise InputError.at("bought-in cost", "money.several_kinds_at_once", kinds=len(kinds))
    kind, parts = kinds.pop(), sum(line.quantity for line in lines)
    if why_not := _no_rate(lines, rates, workshop):
        return BoughtCost(kind, parts, (), None, why_not)
    kept = tuple(line for line in _lines(lines, rates, currency) if line.quantity)
    return BoughtCost(kind, parts, kept, total_of(kept, currency))


def bought_costs(
    lines: Sequence[ScheduleLine], workshop: Workshop | None, day: Date, *, currency: str
) -> tuple[dict[PartKind, BoughtCost], WorkshopRates | None]:
    """Cost of having every kind of part made, and the workshop's rates that hold on the day.

    Parameters
    ----------
    lines : sequence of ScheduleLine
    workshop : Workshop, optional
        None where the book has none.
    day : date
    currency : str
        ISO 4217 code.

    Returns
    -------
    tuple
        By kind; where nothing can be bought each has the sentence that says why.
    """
    rates = None if workshop is None else valid_on(workshop.rates, day)
    if workshop is not None and rates is not None:
        costs = {
            kind: bought_cost(members, rates, workshop=workshop.name, currency=currency)
            for kind, members in by_kind(lines).items()
        }
        return costs, rates
    why_not = (
        Message("money.no_workshop_at_all")
        if workshop is None
        else Message("money.workshop_without_rates", workshop=workshop.name, day=day)
    )
    return {
        kind: BoughtCost(kind, sum(line.quantity for line in members), (), None, why_not)
        for kind, members in by_kind(lines).items()
    }, None
