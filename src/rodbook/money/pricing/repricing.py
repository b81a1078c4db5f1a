"""A job as it was priced against today's prices and times: what moved, and what that does to what it earns."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.job import Book, Workshop
from rodbook.job.book import valid_on
from rodbook.job.models import Making
from rodbook.money.costs.bought import bought_costs, order_charges
from rodbook.money.costs.site import site_costs
from rodbook.money.costs.usage import MaterialUsage, StockTaken
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import rounded
from rodbook.money.rates.site_rates import site_rates
from rodbook.setout import PartKind, ScheduleLine
from rodbook.working import percent

__all__ = ["Moved", "Repriced", "reprice", "usage_on"]


@dataclass(frozen=True)
class Moved:
    """A price or a time that is another one now, and what that does to the job.

    Parameters
    ----------
    what : str
        A rate of the book, a board, or what the workshop charges for.
    then, now : Decimal
        What all of it came to, and comes to. [currency]
    """

    what: str
    then: Decimal
    now: Decimal

    @property
    def more(self) -> Decimal:
        """[currency]"""
        return self.now - self.then


@dataclass(frozen=True)
class Repriced:
    """A job as it was priced, and as it would be today.

    Parameters
    ----------
    currency : str
    then, now : date
    cost_then, cost_now : Decimal
        Of its parts. [currency]
    moved : tuple of Moved
        The largest first; they add up to the difference of the two costs exactly.
    net : Decimal
        Price that was agreed. [currency]
    margin_then, margin_now : Decimal
        What is left of it, as a share. [1]
    keep_margin : Decimal
        Net price at which today's cost leaves the margin that was reckoned with. [currency]
    sentences : tuple of str
        What to ask for, or what to absorb.
    """

    currency: str
    then: Date
    now: Date
    cost_then: Decimal
    cost_now: Decimal
    moved: tuple[Moved, ...]
    net: Decimal
    margin_then: Decimal
    margin_now: Decimal
    keep_margin: Decimal
    sentences: tuple[str, ...]


def usage_on(usage: Iterable[MaterialUsage], book: Book, day: Date) -> tuple[MaterialUsage, ...]:
    """The same sheets and lengths at the prices of another day; offcuts that lay there still cost nothing.

    Raises
    ------
    InputError
        With every sheet or length that the book does not know, or that has no price on the day.
    """
    faults: list[Fault] = []

    def priced(taken: StockTaken, sizes: Mapping[str, Decimal | None]) -> StockTaken:
        if not taken.price and taken.name not in sizes:
            return taken
        price = sizes.get(taken.name)
        if price is None:
            faults.append(Fault(("book", "stocks", taken.name), "money.no_price_on_day", day=day))
            return taken
        return replace(taken, price=price)

    results = []
    for entry in usage:
        offered = book.section(entry.stock).lengths if entry.sectional else book.board(entry.stock).sheets
        sizes = {size.name: None if (price := valid_on(size.prices, day)) is None else price.amount for size in offered}
        results.append(replace(entry, taken=tuple(priced(taken, sizes) for taken in entry.taken)))
    if faults:
        raise InputError(faults)
    return tuple(results)


type _Split = dict[str, Decimal]


def _costs(
    lines: Sequence[ScheduleLine],
    usage: Sequence[MaterialUsage],
    book: Book,
    day: Date,
    workshop: Workshop | None,
    makers: Mapping[PartKind, Making],
    *,
    hour: Decimal | None = None,
) -> _Split:
    """What the job's parts cost on a day, by what the money goes by; at another price of the crew's hour where one is given."""
    rates = site_rates(book, day)
    if hour is not None:
        rates = replace(rates, crew_hour=replace(rates.crew_hour, value=hour))
    split: _Split = {}
    made = [line for line in lines if makers[line.part.kind] is Making.SITE]
    for cost in site_costs(made, usage, rates).values():
        for line in cost.lines:
            name = line.rate_name or f"{line.name}, {line.stock}"
            split[name] = split.get(name, Decimal(0)) + line.amount
    bought = [line for line in lines if makers[line.part.kind] is not Making.SITE]
    offers, workshop_rates = bought_costs(bought, workshop, day, currency=book.currency)
    faults = [
        Fault((kind.value,), "money.cant_be_bought", why_not=o.why_not)
        for kind, o in offers.items()
        if o.amount is None
    ]
    if faults:
        raise InputError(faults)
    parts = Decimal(0)
    for offer in offers.values():
        for line in offer.lines:
            name = f"workshop: {line.name}{f', {line.stock}' if line.stock else ''}"
            split[name] = split.get(name, Decimal(0)) + line.amount
            parts += line.amount
    if offers and workshop_rates is not None:
        top_up, delivery = order_charges(parts, workshop_rates, book.currency)
        split["workshop: least charge"], split["workshop: delivery"] = top_up, delivery
    return split


def reprice(
    lines: Sequence[ScheduleLine],
    usage: Sequence[MaterialUsage],
    book: Book,
    *,
    then: Date,
    now: Date,
    workshop: Workshop | None,
    makers: Mapping[PartKind, Making],
    net: Decimal,
    other_cost: Decimal = Decimal(0),
    other_hours: Decimal = Decimal(0),
) -> Repriced:
    """Hold a job as it was priced against the book of another day.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        Every part of the job.
    usage : sequence of MaterialUsage
        Of what is made on site; its prices are taken from the book for both days.
    book : Book
        History is kept in it, so it knows both days.
    then, now : date
    workshop : Workshop, optional
    makers : mapping of PartKind to Making
        Who makes each kind.
    net : Decimal
        Price that was agreed, net of tax. [currency]
    other_cost : Decimal
        What the job costs besides its parts and wages, taken as unmoved. [currency]
    other_hours : Decimal
        Crew hours besides those for its parts, at each day's crew hour. [h]

    Returns
    -------
    Repriced
        Of a time that takes longer and an hour that costs more, the time is valued at the old hour and the hour takes the
        rest (house assumption).

    Raises
    ------
    InputError
        With every fault: rates or prices that do not hold on one of the days, a price that is not above zero.
    """
    if net <= 0:
        raise InputError.at("net", "money.agreed_price_not_above_zero", net=net)
    old_hour, new_hour = site_rates(book, then).crew_hour.value, site_rates(book, now).crew_hour.value
    before = _costs(lines, usage_on(usage, book, then), book, then, workshop, makers)
    usage_now = usage_on(usage, book, now)
    between = _costs(lines, usage_now, book, now, workshop, makers, hour=old_hour)
    after = _costs(lines, usage_now, book, now, workshop, makers)
    moved = [
        Moved(name, before.get(name, Decimal(0)), between.get(name, Decimal(0)))
        for name in dict.fromkeys([*before, *between])
    ]
    hours_then = sum(between.values(), Decimal(0))
    hours_more = sum(after.values(), Decimal(0)) - hours_then
    other_then, other_now = (rounded(other_hours * hour, book.currency) for hour in (old_hour, new_hour))
    if old_hour != new_hour:
        hour = _hour_moved(between, after, hours_more)
        moved.append(Moved(hour.what, hour.then + other_then, hour.now + other_now))
    cost_then = sum(before.values(), Decimal(0)) + other_cost + other_then
    cost_now = sum(after.values(), Decimal(0)) + other_cost + other_now
    margin_then, margin_now = (net - cost_then) / net, (net - cost_now) / net
    keep = rounded(cost_now / (1 - margin_then), book.currency) if margin_then < 1 else net
    shown = tuple(sorted((m for m in moved if m.more), key=lambda m: (-abs(m.more), m.what)))
    return Repriced(
        book.currency,
        then,
        now,
        cost_then,
        cost_now,
        shown,
        net,
        margin_then,
        margin_now,
        keep,
        _sentences(cost_now - cost_then, net, keep, (margin_then, margin_now), book.currency),
    )


def _hour_moved(between: _Split, after: _Split, more: Decimal) -> Moved:
    """What the crew's hours came to at the old price of an hour, and come to at the new one."""
    changed = sum((between[name] for name in between if between[name] != after[name]), Decimal(0))
    return Moved(RateName.CREW_HOUR.value, changed, changed + more)


def _sentences(
    more: Decimal, net: Decimal, keep: Decimal, margins: tuple[Decimal, Decimal], currency: str
) -> tuple[str, ...]:
    if not more:
        return ("Nothing has moved: the job costs what it was priced at.",)
    then, now = (percent(100 * margin, 1) for margin in margins)
    first = f"The job costs {abs(more)} {currency} {'more' if more > 0 else 'less'} than it was priced at."
    if more < 0:
        return (first, f"At the agreed {net} {currency} it leaves {now} instead of {then}.")
    return (
        first,
        f"Absorbed, it leaves {now} of the price instead of {then}.",
        f"To keep {then}, ask for {keep - net} {currency} more; to get back the cost alone, ask for {more} {currency}.",
    )
