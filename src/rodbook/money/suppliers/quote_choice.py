"""Quotes compared and given out in one: what each is like, who gets what, and why each is taken or not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Infeasible
from rodbook.money.rates.rounding import rounded
from rodbook.money.suppliers.quotes import ComparedQuote, Finding, FindingKind, Quote, compare_quotes
from rodbook.money.suppliers.split_orders import EFFORT, SplitOrder, SplitOrders, split_orders
from rodbook.setout import ScheduleLine

__all__ = ["SHUT_OUT", "QuoteVerdict", "QuotesHeld", "hold_quotes", "shut_out_by"]

SHUT_OUT = (FindingKind.LAPSED, FindingKind.LATE, FindingKind.NOT_WHOLE)
"""With one of these a quote is not among those that an order is given out to."""


@dataclass(frozen=True)
class QuoteVerdict:
    """Whether a quote is taken, and why.

    Parameters
    ----------
    workshop, reference : str
    taken : SplitOrder, optional
        What it gets; None where it gets nothing.
    sentence : str
    """

    workshop: str
    reference: str
    taken: SplitOrder | None
    sentence: str


@dataclass(frozen=True)
class QuotesHeld:
    """Quotes held against an order and each other.

    Parameters
    ----------
    day : date
        As of which validity is looked at.
    needed_days : int, optional
        Working days until the parts are needed.
    trouble : Decimal
        What each workshop besides the first costs. [currency]
    order : tuple of ScheduleLine
    compared : tuple of ComparedQuote
        The cheapest comparable first.
    split : SplitOrders, optional
        Who gets what so that all of it costs least; None where it can't be given out.
    sentence : str
        What to do, or why nothing can be given out.
    verdicts : tuple of QuoteVerdict
        One for each of `compared`.
    """

    day: Date
    needed_days: int | None
    trouble: Decimal
    order: tuple[ScheduleLine, ...]
    compared: tuple[ComparedQuote, ...]
    split: SplitOrders | None
    sentence: str
    verdicts: tuple[QuoteVerdict, ...]


def hold_quotes(
    order: Sequence[ScheduleLine],
    quotes: Sequence[Quote],
    *,
    currency: str,
    day: Date,
    needed_days: int | None = None,
    trouble: Decimal = Decimal(0),
    effort: float = EFFORT,
) -> QuotesHeld:
    """Compare quotes and give the order out.

    Parameters
    ----------
    order : sequence of ScheduleLine
        What is to be bought in.
    quotes : sequence of Quote
    currency : str
        ISO 4217 code.
    day : date
        Of the comparison, for what is no longer valid.
    needed_days : int, optional
        Working days until the parts are needed.
    trouble : Decimal
        What each workshop besides the first costs in telephone, unloading and checking. [currency]
    effort : float
        How much work the search for giving it out may count; the clock ends nothing. [s counted]

    Returns
    -------
    QuotesHeld

    Raises
    ------
    InputError
        With every fault in the quotes, or where nothing is ordered.
    """
    result = compare_quotes(order, quotes, currency=currency, day=day, needed_days=needed_days)
    try:
        split: SplitOrders | None = split_orders(
            order, quotes, currency=currency, day=day, needed_days=needed_days, trouble=trouble, effort=effort
        )
        sentence = split.sentence if split else ""
    except Infeasible as error:
        split, sentence = None, str(error)
    gets = {id(quotes[one.number]): one for one in (split.orders if split else ())}
    verdicts = tuple(
        QuoteVerdict(
            each.quote.workshop,
            each.quote.reference,
            gets.get(id(each.quote)),
            _why(each, gets.get(id(each.quote)), result, split, len(order), currency),
        )
        for each in result
    )
    return QuotesHeld(day, needed_days, trouble, tuple(order), result, split, sentence, verdicts)


def shut_out_by(each: ComparedQuote) -> Finding | None:
    """The finding that leaves a quote out, which its verdict says; None where none does."""
    return next((f for f in each.findings if f.kind in SHUT_OUT), None)


def _why(
    each: ComparedQuote,
    taken: SplitOrder | None,
    results: Sequence[ComparedQuote],
    split: SplitOrders | None,
    ordered: int,
    currency: str,
) -> str:
    """Why a quote is taken or not, in a sentence."""
    if (shut := shut_out_by(each)) is not None:
        return f"Left out: {shut.sentence[0].lower()}{shut.sentence[1:]}"
    if split is None:
        return _lacks(each) or "It has every line as ordered."
    if taken is not None and len(split.orders) > 1:
        carried = f" with its delivery of {rounded(taken.delivery, currency)}" if taken.delivery else ""
        top_up = f", {taken.top_up} of it up to its least charge" if taken.top_up else ""
        return f"Take {len(taken.marks)} of {ordered} lines from it, for {taken.amount} {currency}{carried}{top_up}."
    if taken is not None:
        return " ".join(_alone(each, taken, results, currency))
    if each.comparable is not None and each.comparable > split.amount:
        more = each.comparable - split.amount
        return f"Not taken: for exactly what is ordered it comes to {each.comparable} {currency}, {more} more than what is taken."
    if lacks := _lacks(each):
        return f"Not taken: {lacks[0].lower()}{lacks[1:-1]}, and with the rest and its delivery from another it costs no less."
    return "Not taken: it costs no less than what is taken."


def _lacks(each: ComparedQuote) -> str:
    """What a quote lacks of the order, in a sentence; empty where it has all of it."""
    if not each.by_line and not each.quote.lumps:
        return "It has no line as it is ordered."
    return f"It does not have {', '.join(each.filled)} as ordered." if each.filled else ""


def _alone(each: ComparedQuote, taken: SplitOrder, results: Sequence[ComparedQuote], currency: str) -> Iterator[str]:
    """Why all of it goes to one: against the next that has all of it too."""
    yield f"Take all of it from here, for {taken.amount} {currency} with delivery."
    rivals = [
        other
        for other in results
        if other is not each and other.comparable is not None and not any(f.kind in SHUT_OUT for f in other.findings)
    ]
    whole = [other for other in rivals if not other.filled]
    if whole:
        nearest = min(whole, key=lambda other: other.comparable or Decimal(0))
        more = (nearest.comparable or Decimal(0)) - taken.amount
        name = nearest.quote.workshop
        yield f"The next that has all of it is {name}, {more} {currency} more." if more else f"{name} costs as much."
    elif rivals:
        yield "No other has all of it, and no splitting costs less."
    else:
        yield "No other can be held against the order."
