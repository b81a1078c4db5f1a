"""Which workshop to give which lines: each delivery and each least charge weighed against cheaper lines elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, Infeasible, InputError
from rodbook.money.deciding.integer_programme import MixedProgramme
from rodbook.money.rates.rounding import rounded
from rodbook.money.suppliers.quotes import Quote, fallen_out, line_prices, quote_faults
from rodbook.setout import ScheduleLine

__all__ = ["EFFORT", "SplitOrder", "SplitOrders", "split_orders"]

EFFORT = 5.0
"""How much work the search counts at the most, for whoever asks (house assumption). [s counted]"""


@dataclass(frozen=True)
class SplitOrder:
    """What one workshop gets.

    Parameters
    ----------
    number : int
        Its place among the quotes, from 0.
    workshop, reference : str
    marks : tuple of str
    parts_amount, top_up, delivery, amount : Decimal
        [currency]
    """

    number: int
    workshop: str
    reference: str
    marks: tuple[str, ...]
    parts_amount: Decimal
    top_up: Decimal
    delivery: Decimal
    amount: Decimal


@dataclass(frozen=True)
class SplitOrders:
    """The cheapest way to give out an order.

    Parameters
    ----------
    orders : tuple of SplitOrder
    amount : Decimal
        All of them, without the trouble of further orders. [currency]
    single : Decimal, optional
        The cheapest quote that has all of it; None where none has. [currency]
    saved : Decimal, optional
        What splitting saves against that, the trouble taken off. [currency]
    sentence : str
    """

    orders: tuple[SplitOrder, ...]
    amount: Decimal
    single: Decimal | None
    saved: Decimal | None
    sentence: str


@dataclass(frozen=True)
class _Bundle:
    """Lines that are given out together."""

    quote: int
    marks: tuple[str, ...]
    amount: Decimal


def _bundles(
    quotes: Sequence[Quote], order: Sequence[ScheduleLine], currency: str, day: Date, needed_days: int | None
) -> list[_Bundle]:
    wanted = {line.mark for line in order}
    results: list[_Bundle] = []
    for number, quote in enumerate(quotes):
        if day > quote.valid_until or (needed_days is not None and quote.lead_days > needed_days):
            continue
        if fallen_out(quote, order):
            continue
        own = [_Bundle(number, (mark,), amount) for mark, amount in line_prices(quote, order, currency).items()]
        own += [_Bundle(number, lump.marks, lump.amount) for lump in quote.lumps if wanted.issuperset(lump.marks)]
        if quote.whole_only:
            marks = tuple(mark for bundle in own for mark in bundle.marks)
            own = [_Bundle(number, marks, sum((b.amount for b in own), Decimal(0)))] if own else []
        results += own
    return results


def split_orders(
    order: Sequence[ScheduleLine],
    quotes: Sequence[Quote],
    *,
    currency: str,
    day: Date,
    needed_days: int | None = None,
    trouble: Decimal = Decimal(0),
    effort: float = EFFORT,
) -> SplitOrders:
    """Give each line of an order to a workshop, so that all of it costs least.

    Parameters
    ----------
    order : sequence of ScheduleLine
    quotes : sequence of Quote
        Those that are no longer valid or come too late are left out, lines quoted in another board, and all of a quote that
        holds only as a whole where any of it is not as ordered.
    currency : str
        ISO 4217 code.
    day : date
    needed_days : int, optional
        Working days until the parts are needed.
    trouble : Decimal
        What each workshop besides the first costs in telephone, unloading and checking. [currency]
    effort : float
        How much work the search may count; the clock ends nothing. [s counted]

    Returns
    -------
    SplitOrders

    Raises
    ------
    InputError
        With every fault in the quotes.
    Infeasible
        If lines are quoted by nobody; `items` names them.
    """
    faults = quote_faults(quotes, currency)
    if not order:
        faults.append(Fault("order", "money.nothing_ordered_to_give_out"))
    if faults:
        raise InputError(faults)
    bundles = _bundles(quotes, order, currency, day, needed_days)
    nobody = [line.mark for line in order if not any(line.mark in bundle.marks for bundle in bundles)]
    if nobody:
        raise Infeasible("money.nobody_quotes", marks=nobody, items=nobody)
    taken = _solve(order, quotes, bundles, trouble, effort)
    used = [number for number in range(len(quotes)) if any(bundle.quote == number for bundle in taken)]
    orders = tuple(_order(number, quotes[number], taken, currency) for number in used)
    amount = sum((one.amount for one in orders), Decimal(0))
    single = _single(order, quotes, bundles, currency)
    saved = None if single is None else single - amount - trouble * (len(orders) - 1)
    return SplitOrders(orders, amount, single, saved, _sentence(orders, amount, single, saved, currency))


def _solve(
    order: Sequence[ScheduleLine], quotes: Sequence[Quote], bundles: Sequence[_Bundle], trouble: Decimal, effort: float
) -> list[_Bundle]:
    programme = MixedProgramme()
    columns = [programme.decision(float(bundle.amount)) for bundle in bundles]
    for line in order:
        programme.row([(c, 1.0) for c, b in zip(columns, bundles, strict=True) if line.mark in b.marks], 1.0, 1.0)
    for number, quote in enumerate(quotes):
        own = [(c, b) for c, b in zip(columns, bundles, strict=True) if b.quote == number]
        if not own:
            continue
        used = programme.decision(float(quote.delivery + trouble))
        for column, _ in own:
            programme.row([(used, 1.0), (column, -1.0)], 0.0)
        if quote.least_order:
            top_up = programme.column(1.0)
            amounts = [(column, float(bundle.amount)) for column, bundle in own]
            programme.row([(top_up, 1.0), (used, -float(quote.least_order)), *amounts], 0.0)
    result = programme.best(effort=effort)
    if result is None:
        raise Infeasible("money.lines_given_twice")
    return [bundle for column, bundle in zip(columns, bundles, strict=True) if result.values[column] > 0.5]


def _order(number: int, quote: Quote, taken: Sequence[_Bundle], currency: str) -> SplitOrder:
    own = [bundle for bundle in taken if bundle.quote == number]
    parts = sum((bundle.amount for bundle in own), rounded(Decimal(0), currency))
    top_up = max(quote.least_order - parts, rounded(Decimal(0), currency))
    marks = tuple(mark for bundle in own for mark in bundle.marks)
    return SplitOrder(
        number, quote.workshop, quote.reference, marks, parts, top_up, quote.delivery, parts + top_up + quote.delivery
    )


def _single(
    order: Sequence[ScheduleLine], quotes: Sequence[Quote], bundles: Sequence[_Bundle], currency: str
) -> Decimal | None:
    """The cheapest quote that has every line, each once."""
    wanted = sorted(line.mark for line in order)
    results = []
    for number, quote in enumerate(quotes):
        own = [bundle for bundle in bundles if bundle.quote == number]
        if sorted(mark for bundle in own for mark in bundle.marks) == wanted:
            results.append(_order(number, quote, own, currency).amount)
    return min(results, default=None)


def _sentence(
    orders: Sequence[SplitOrder], amount: Decimal, single: Decimal | None, saved: Decimal | None, currency: str
) -> str:
    names = " and ".join(one.workshop for one in orders)
    if single is None:
        return f"No quote has all of it; given to {names} it costs {amount} {currency}."
    if len(orders) == 1:
        return f"Give all of it to {names}, for {amount} {currency}: no splitting costs less."
    against = f"which saves {saved} {currency} against one order of {single} {currency}"
    return f"Given to {names} it costs {amount} {currency}, {against}."
