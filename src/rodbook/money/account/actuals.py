"""What a job took: hours by task and person, invoices by line, and the account, at the end or on the way there.

Until a job is finished, what is planned of a line and not taken yet is still to come: it is forecast to cost what was planned, or
what it has cost already where that is more. So an account on the way never says that a job cost less than planned.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError, Place
from rodbook.job.models import Making
from rodbook.money.costs.lines import CostName
from rodbook.money.deciding.choice import MakeOrBuy
from rodbook.money.rates.rounding import rounded
from rodbook.working import percent

__all__ = [
    "AccountLine",
    "FinalAccount",
    "Invoice",
    "InvoiceLine",
    "Planned",
    "TimeEntry",
    "actual_faults",
    "final_account",
    "planned_of",
]

MINUTES_AN_HOUR = 60
LONGEST_DAY_MINUTES = 16 * 60
"""No entry is longer than this; more is a slip of the pen (house assumption). [minutes]"""


@dataclass(frozen=True)
class TimeEntry:
    """Time that somebody put down.

    Parameters
    ----------
    day : date
    person, task : str
        A task is a rate of the book, such as "bore a cup", or any other work of the plan.
    minutes : Decimal
        [minutes]
    done : Decimal, optional
        How much was done in it, in the unit of the task's rate; None where it was not counted.
    """

    day: Date
    person: str
    task: str
    minutes: Decimal
    done: Decimal | None = None

    @property
    def each(self) -> Decimal | None:
        """Time for one unit; None where it was not counted. [minutes]"""
        return None if not self.done else self.minutes / self.done


@dataclass(frozen=True)
class InvoiceLine:
    """A line of an invoice, and the line of the plan that it belongs to. [currency, net of tax]"""

    what: str
    amount: Decimal


@dataclass(frozen=True)
class Invoice:
    """An invoice as received; a credit has amounts below zero."""

    supplier: str
    number: str
    day: Date
    currency: str
    lines: tuple[InvoiceLine, ...]


@dataclass(frozen=True)
class Planned:
    """What was reckoned with.

    Parameters
    ----------
    hours : mapping of str to Decimal
        By task. [h]
    costs : mapping of str to Decimal
        By line: boards and lengths, paint, waste, the workshop. [currency]
    """

    hours: Mapping[str, Decimal]
    costs: Mapping[str, Decimal]


@dataclass(frozen=True)
class AccountLine:
    """Planned and actual side by side.

    Parameters
    ----------
    what : str
    planned, actual : Decimal
        [currency]
    planned_hours, actual_hours : Decimal
        Zero for what is bought. [h]
    """

    what: str
    planned: Decimal
    actual: Decimal
    planned_hours: Decimal = Decimal(0)
    actual_hours: Decimal = Decimal(0)
    finished: bool = True

    @property
    def to_come(self) -> Decimal:
        """What of the plan is still to come; zero once the job is finished. [currency]"""
        return Decimal(0) if self.finished else max(Decimal(0), self.planned - self.actual)

    @property
    def forecast(self) -> Decimal:
        """What it costs in the end, at least. [currency]"""
        return self.actual + self.to_come

    @property
    def more(self) -> Decimal:
        """What it costs in the end more than planned; below zero only once the job is finished. [currency]"""
        return self.forecast - self.planned


@dataclass(frozen=True)
class FinalAccount:
    """A job's account.

    Parameters
    ----------
    currency : str
    lines : tuple of AccountLine
        Tasks first, then what was bought; they add up exactly.
    by_person : tuple of str and Decimal
        Hours of everybody. [h]
    net : Decimal
        What the client pays, net of tax. [currency]
    planned, actual : Decimal
        Cost. [currency]
    earned_planned, earned : Decimal
        What was to be left, and what is in the end, at most. [currency]
    margin_planned, margin : Decimal
        The same as shares of the price. [1]
    finished : bool
        Whether nothing is still to come.
    to_come, forecast : Decimal
        What of the plan is still to come, and what the job costs in the end, at least. [currency]
    sentences : tuple of str
    """

    currency: str
    lines: tuple[AccountLine, ...]
    by_person: tuple[tuple[str, Decimal], ...]
    net: Decimal
    planned: Decimal
    actual: Decimal
    earned_planned: Decimal
    earned: Decimal
    margin_planned: Decimal
    margin: Decimal
    finished: bool
    to_come: Decimal
    forecast: Decimal
    sentences: tuple[str, ...]


def planned_of(money: MakeOrBuy) -> Planned:
    """What a plan's make or buy reckons with: hours by rate, money by what is bought.

    Examples
    --------
    See `rodbook.money.final_account`.
    """
    hours: dict[str, Decimal] = defaultdict(Decimal)
    costs: dict[str, Decimal] = defaultdict(Decimal)
    for choice in money.kinds:
        if choice.decision is not Making.SITE:
            continue
        for line in choice.site.lines:
            if line.minutes:
                hours[line.rate_name] += line.minutes / MINUTES_AN_HOUR
            else:
                costs[line.stock if line.name == CostName.MATERIAL else line.name] += line.amount
    if money.order.amount:
        costs[money.workshop] += money.order.amount
    return Planned(dict(hours), dict(costs))


def actual_faults(entries: Sequence[TimeEntry], invoices: Sequence[Invoice], currency: str) -> list[Fault]:
    """Everything that is wrong with what was put down."""
    return [*_entry_faults(entries), *_invoice_faults(invoices, currency)]


def _entry_faults(entries: Sequence[TimeEntry]) -> Iterator[Fault]:
    for number, entry in enumerate(entries):
        at = Place(("hours", number), f"{entry.person}, {entry.day}")
        if not 0 < entry.minutes <= LONGEST_DAY_MINUTES:
            yield Fault(at, "money.minutes_out_of_range", minutes=entry.minutes, most_minutes=LONGEST_DAY_MINUTES)
        if entry.done is not None and not entry.done > 0:
            yield Fault(at, "money.done_not_above_zero", done=entry.done)


def _invoice_faults(invoices: Sequence[Invoice], currency: str) -> Iterator[Fault]:
    seen: set[tuple[str, str]] = set()
    for number, invoice in enumerate(invoices):
        at = Place(("invoices", number), f"{invoice.supplier}, {invoice.number}")
        if invoice.currency != currency:
            yield Fault(at, "money.invoice_in_other_currency", currency=invoice.currency, own=currency)
        if (invoice.supplier, invoice.number) in seen:
            yield Fault(at, "money.invoice_entered_twice")
        seen.add((invoice.supplier, invoice.number))
        for line in invoice.lines:
            if not line.amount.is_finite() or line.amount != rounded(line.amount, currency):
                yield Fault(at, "money.amount_not_of_currency", line=line.what, amount=line.amount, currency=currency)


def final_account(
    planned: Planned,
    entries: Sequence[TimeEntry],
    invoices: Sequence[Invoice],
    *,
    currency: str,
    crew_hour: Decimal,
    net: Decimal,
    finished: bool,
) -> FinalAccount:
    """Hold what a job took against what was reckoned with.

    Parameters
    ----------
    planned : Planned
    entries : sequence of TimeEntry
    invoices : sequence of Invoice
    currency : str
        ISO 4217 code.
    crew_hour : Decimal
        What an hour costs, planned and actual alike. [currency/h]
    net : Decimal
        What the client pays, net of tax. [currency]
    finished : bool
        Whether all work is done and all invoices are in; until then the end is forecast.

    Returns
    -------
    FinalAccount

    Raises
    ------
    InputError
        With every fault: an invoice entered twice or in another currency, hours that no day has, no price.
    """
    faults = actual_faults(entries, invoices, currency)
    if net <= 0:
        faults.append(Fault("net", "money.price_not_above_zero", net=net))
    if faults:
        raise InputError(faults)
    minutes: dict[str, Decimal] = defaultdict(Decimal)
    people: dict[str, Decimal] = defaultdict(Decimal)
    spent: dict[str, Decimal] = defaultdict(Decimal)
    for entry in entries:
        minutes[entry.task] += entry.minutes
        people[entry.person] += entry.minutes
    for invoice in invoices:
        for line in invoice.lines:
            spent[line.what] += line.amount
    lines = []
    for task in dict.fromkeys([*planned.hours, *minutes]):
        before, after = planned.hours.get(task, Decimal(0)), minutes.get(task, Decimal(0)) / MINUTES_AN_HOUR
        lines.append(
            AccountLine(
                task,
                rounded(before * crew_hour, currency),
                rounded(after * crew_hour, currency),
                before,
                after,
                finished,
            )
        )
    zero = Decimal(0)
    lines += [
        AccountLine(
            what,
            rounded(planned.costs.get(what, zero), currency),
            rounded(spent.get(what, zero), currency),
            finished=finished,
        )
        for what in dict.fromkeys([*planned.costs, *spent])
    ]
    reckoned = sum((line.planned for line in lines), Decimal(0))
    actual = sum((line.actual for line in lines), Decimal(0))
    to_come = sum((line.to_come for line in lines), Decimal(0))
    forecast = actual + to_come
    hours = tuple((person, total / MINUTES_AN_HOUR) for person, total in sorted(people.items()))
    return FinalAccount(
        currency,
        tuple(lines),
        hours,
        net,
        reckoned,
        actual,
        net - reckoned,
        net - forecast,
        (net - reckoned) / net,
        (net - forecast) / net,
        finished,
        to_come,
        forecast,
        tuple(_sentences(lines, net, reckoned, actual, currency, finished=finished)),
    )


def _sentences(
    lines: Sequence[AccountLine], net: Decimal, planned: Decimal, actual: Decimal, currency: str, *, finished: bool
) -> Iterator[str]:
    forecast = sum((line.forecast for line in lines), Decimal(0))
    more = forecast - planned
    text = f"{abs(more)} {currency} {'more' if more > 0 else 'less'} than planned" if more else "what was planned"
    earned = net - forecast
    left = f"it leaves {earned} {currency}" if earned >= 0 else f"it loses {-earned} {currency}"
    share = percent(100 * earned / net, 1)
    if finished:
        yield f"The job cost {text}; {left}, {share} of the price."
    else:
        yield f"Not finished: {actual} {currency} are taken, {forecast - actual} {currency} of what is planned are still to come."
        yield f"The job is heading for {forecast} {currency} at least, {text}; {left} at most, {share} of the price."
    for line in sorted(lines, key=lambda x: (-abs(x.more), x.what))[:3]:
        if line.more:
            way = "over" if line.more > 0 else "under"
            hours = f", {abs(line.actual_hours - line.planned_hours):.1f} hours" if line.planned_hours else ""
            yield f"{line.what}: {abs(line.more)} {currency} {way}{hours}."
