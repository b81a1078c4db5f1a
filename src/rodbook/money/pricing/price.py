"""From costs to the client's price: overhead, contingency, earnings, taxes and options, to the penny.

What a line costs grows by its overhead and its share of the contingency, and by the mark-up; it is rounded once, from its exact
share, so that equal lines have equal prices. The net price is the sum of rounded lines; what rounding moves it by is earned or
given up. Costs and contingency of the lines add up to those of the whole, so that of equal lines one may show a unit more. Each
tax is worked out once on the net sum that it is charged on, and its shares of the lines are handed out so that they add up to it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.job.book import TaxLine
from rodbook.money.pricing.rules import PriceRules
from rodbook.money.rates.rounding import rounded, rounded_together, share_out

__all__ = [
    "ClientPrice",
    "CostItem",
    "Option",
    "Price",
    "PriceLine",
    "PricedOption",
    "TaxAmount",
    "for_client",
    "make_price",
    "with_options",
]


@dataclass(frozen=True)
class CostItem:
    """Something that the client pays for, at cost.

    Parameters
    ----------
    name : str
        As it stands on the client's paper.
    cost : Decimal
        What it costs on average, wages included; below zero for what falls away. [currency]
    crew_hours : Decimal
        That carry overhead. [h]
    group : str
        For taxes that are charged on some lines only.
    """

    name: str
    cost: Decimal
    crew_hours: Decimal = Decimal(0)
    group: str = ""


@dataclass(frozen=True)
class Option:
    """Something that the client may take besides."""

    name: str
    items: tuple[CostItem, ...]


@dataclass(frozen=True)
class PriceLine:
    """A line of the price.

    Parameters
    ----------
    name, group : str
    cost, overhead, contingency : Decimal
        What it costs the firm; not for the client's paper. [currency]
    net, tax, gross : Decimal
        [currency]
    exact : Decimal
        The net price before it was rounded. [currency]
    """

    name: str
    group: str
    cost: Decimal
    overhead: Decimal
    contingency: Decimal
    net: Decimal
    tax: Decimal
    gross: Decimal
    exact: Decimal

    @property
    def earned(self) -> Decimal:
        """What is left of the net price. [currency]"""
        return self.net - self.cost - self.overhead - self.contingency


@dataclass(frozen=True)
class TaxAmount:
    """One tax: its name, percentage, what it is charged on, and what it comes to. [%, currency, currency]"""

    name: str
    percent: Decimal
    on: Decimal
    amount: Decimal
    note: str


@dataclass(frozen=True)
class Price:
    """The client's price, and what it is made of.

    Parameters
    ----------
    currency : str
    lines : tuple of PriceLine
        They add up to everything below, exactly.
    cost, overhead, contingency : Decimal
        What it costs the firm, before it earns anything. [currency]
    earned : Decimal
        Net price less all three. [currency]
    net : Decimal
        [currency]
    taxes : tuple of TaxAmount
    gross : Decimal
        Net price and taxes. [currency]
    margin, mark_up : Decimal, optional
        What is earned as a share of the net price, and as a share of cost, overhead and contingency: the same money seen
        twice. None where there is nothing to hold it against. [1]
    day, valid_until : date
    options : tuple of PricedOption
        Not in the price.
    """

    currency: str
    lines: tuple[PriceLine, ...]
    cost: Decimal
    overhead: Decimal
    contingency: Decimal
    earned: Decimal
    net: Decimal
    taxes: tuple[TaxAmount, ...]
    gross: Decimal
    margin: Decimal | None
    mark_up: Decimal | None
    day: Date
    valid_until: Date
    options: tuple[PricedOption, ...] = ()

    @property
    def rounding(self) -> Decimal:
        """What rounding each line, and not their sum, adds to the net price, or takes from it below zero. [currency]"""
        return self.net - rounded(sum((line.exact for line in self.lines), Decimal(0)), self.currency)


@dataclass(frozen=True)
class PricedOption:
    """What the price grows by (or falls, below zero) if this is taken by itself.

    Parameters
    ----------
    name : str
    lines : tuple of PriceLine
    net, tax, gross : Decimal
        Of the whole price with it less the whole price without. [currency]
    """

    name: str
    lines: tuple[PriceLine, ...]
    net: Decimal
    tax: Decimal
    gross: Decimal


def _faults(items: Sequence[CostItem], options: Sequence[Option], currency: str, contingency: Decimal) -> list[Fault]:
    every = [*items, *(item for option in options for item in option.items)]
    faults = [
        Fault(("costs", item.name), "money.cost_is_no_number")
        for item in every
        if not item.cost.is_finite() or not item.crew_hours.is_finite() or item.crew_hours < 0
    ]
    faults += [
        Fault(("options", name), "money.options_named_alike", count=count)
        for name, count in Counter(option.name for option in options).items()
        if count > 1
    ]
    if contingency < 0 or contingency != rounded(contingency, currency):
        faults.append(
            Fault("contingency", "money.contingency_out_of_range", contingency=contingency, currency=currency)
        )
    if not items:
        faults.append(Fault("price", "money.nothing_to_price"))
    return faults


def _spread(contingency: Decimal, items: Sequence[CostItem]) -> list[Decimal]:
    """Each line's exact share of the contingency, by its cost; evenly where nothing costs anything. [currency]"""
    weights = [max(item.cost, Decimal(0)) for item in items]
    whole = sum(weights, Decimal(0))
    return [contingency * weight / whole if whole else contingency / len(items) for weight in weights]


def _lines(items: Sequence[CostItem], contingency: Decimal, rules: PriceRules, currency: str) -> list[PriceLine]:
    """Lines of a price before taxes: net prices from exact shares, costs and contingency adding up to the whole."""
    spread = _spread(contingency, items)
    costs = rounded_together([item.cost for item in items], currency)
    shown = rounded_together(spread, currency)
    return [
        _line(item, cost, share, on_it, rules, currency)
        for item, cost, share, on_it in zip(items, costs, spread, shown, strict=True)
    ]


def _line(
    item: CostItem, cost: Decimal, share: Decimal, contingency: Decimal, rules: PriceRules, currency: str
) -> PriceLine:
    exact_overhead = item.crew_hours * rules.overhead_an_hour + item.cost * rules.overhead_share
    overhead = rounded(exact_overhead, currency)
    exact = (item.cost + exact_overhead + share) * (1 + rules.mark_up)
    net = rounded(exact, currency)
    return PriceLine(item.name, item.group, cost, overhead, contingency, net, Decimal(0), net, exact)


def _charged(line: PriceLine, tax: TaxLine) -> bool:
    return not tax.on or line.group in tax.on


def _taxed(
    lines: Sequence[PriceLine], rules: PriceRules, currency: str
) -> tuple[tuple[PriceLine, ...], tuple[TaxAmount, ...]]:
    """Taxes on net sums, and each line's share of them."""
    shares = [rounded(Decimal(0), currency)] * len(lines)
    results: list[TaxAmount] = []
    for tax in rules.taxes.lines if rules.taxes else ():
        on = [n for n, line in enumerate(lines) if _charged(line, tax)]
        charged = sum((lines[n].net for n in on), rounded(Decimal(0), currency))
        amount = rounded(charged * tax.percent / 100, currency)
        for n, share in zip(on, _shared(amount, [lines[n].net for n in on], tax.percent, currency), strict=True):
            shares[n] += share
        results.append(TaxAmount(tax.name, tax.percent, charged, amount, tax.note))
    taxed = tuple(replace(x, tax=share, gross=x.net + share) for x, share in zip(lines, shares, strict=True))
    return taxed, tuple(results)


def _shared(amount: Decimal, nets: Sequence[Decimal], percent: Decimal, currency: str) -> list[Decimal]:
    """Each line's own tax, rounded; what is then missing or too much goes to the lines with the largest nets."""
    own = [rounded(net * percent / 100, currency) for net in nets]
    left = amount - sum(own, Decimal(0))
    corrections = share_out(left, [abs(net) for net in nets], currency) if nets else ()
    return [tax + more for tax, more in zip(own, corrections, strict=True)]


def _summed(lines: Sequence[PriceLine], rules: PriceRules, currency: str, day: Date) -> Price:
    taxed, taxes = _taxed(lines, rules, currency)
    zero = rounded(Decimal(0), currency)
    cost, overhead, contingency, net, gross = (
        sum((getattr(line, name) for line in taxed), zero)
        for name in ("cost", "overhead", "contingency", "net", "gross")
    )
    spent = cost + overhead + contingency
    earned = net - spent
    return Price(
        currency,
        taxed,
        cost,
        overhead,
        contingency,
        earned,
        net,
        taxes,
        gross,
        margin=earned / net if net else None,
        mark_up=earned / spent if spent else None,
        day=day,
        valid_until=day + timedelta(days=rules.holds_days),
    )


def make_price(
    items: Sequence[CostItem],
    rules: PriceRules,
    *,
    currency: str,
    day: Date,
    contingency: Decimal = Decimal(0),
    options: Sequence[Option] = (),
) -> Price:
    """Make the client's price.

    Parameters
    ----------
    items : sequence of CostItem
    rules : PriceRules
    currency : str
        ISO 4217 code.
    day : date
        Day of the price.
    contingency : Decimal
        For the whole, as `contingency` gives it for the confidence wanted; shared by cost. [currency]
    options : sequence of Option
        What may be taken besides; they carry no contingency (house assumption).

    Returns
    -------
    Price

    Raises
    ------
    InputError
        With every fault.

    Notes
    -----
    net = (cost + hours x overhead an hour + cost x overhead share + contingency) x (1 + mark-up), rounded line by line from exact
    shares: lines that cost the same have the same price.

    Examples
    --------
    >>> from datetime import date
    >>> price = make_price(
    ...     [CostItem("doors", Decimal(800)), CostItem("fitting", Decimal(200), Decimal(5))],
    ...     PriceRules(overhead_an_hour=Decimal(6), mark_up=Decimal("0.25")), currency="EUR", day=date(2026, 11, 2))
    >>> str(price.net), str(price.earned), str(price.margin), str(price.mark_up)
    ('1287.50', '257.50', '0.2', '0.25')
    """
    faults = _faults(items, options, currency, contingency)
    if faults:
        raise InputError(faults)
    lines = _lines(items, contingency, rules, currency)
    price = _summed(lines, rules, currency, day)
    priced = []
    for option in options:
        own = _lines(option.items, Decimal(0), rules, currency)
        whole = _summed([*lines, *own], rules, currency, day)
        net, gross = whole.net - price.net, whole.gross - price.gross
        priced.append(PricedOption(option.name, tuple(own), net, gross - net, gross))
    return replace(price, options=tuple(priced))


def with_options(price: Price, taken: Iterable[str], rules: PriceRules) -> Price:
    """The price with the options that the client takes; their lines follow the others.

    Parameters
    ----------
    price : Price
    taken : iterable of str
        Names of its options.
    rules : PriceRules
        That it was made by.

    Returns
    -------
    Price
        Taxes are worked out anew on the whole; options that are not taken stay on offer.

    Raises
    ------
    InputError
        If there is no option of that name.
    """
    names = set(taken)
    known = {option.name for option in price.options}
    if missing := sorted(names - known):
        raise InputError([Fault("options", "money.unknown_option", name=name) for name in missing])
    lines = [*price.lines, *(line for option in price.options if option.name in names for line in option.lines)]
    whole = _summed(lines, rules, price.currency, price.day)
    left = tuple(option for option in price.options if option.name not in names)
    repriced = []
    for option in left:
        more = _summed([*lines, *option.lines], rules, price.currency, price.day)
        net, gross = more.net - whole.net, more.gross - whole.gross
        repriced.append(replace(option, net=net, tax=gross - net, gross=gross))
    return replace(whole, valid_until=price.valid_until, options=tuple(repriced))


@dataclass(frozen=True)
class ClientPrice:
    """What the client needs to see of a price, and nothing else: no costs, no overhead, no earnings.

    Parameters
    ----------
    currency : str
    lines : tuple of str and Decimal
        Names and net prices, which add up to `net`. [currency]
    net, gross : Decimal
        [currency]
    taxes : tuple of TaxAmount
    valid_until : date
    options : tuple of str, Decimal and Decimal
        Name, and what net and gross grow by if it is taken by itself. [currency]
    """

    currency: str
    lines: tuple[tuple[str, Decimal], ...]
    net: Decimal
    taxes: tuple[TaxAmount, ...]
    gross: Decimal
    valid_until: Date
    options: tuple[tuple[str, Decimal, Decimal], ...]


def for_client(price: Price) -> ClientPrice:
    """What of a price goes on the client's paper."""
    return ClientPrice(
        price.currency,
        tuple((line.name, line.net) for line in price.lines),
        price.net,
        price.taxes,
        price.gross,
        price.valid_until,
        tuple((option.name, option.net, option.gross) for option in price.options),
    )
