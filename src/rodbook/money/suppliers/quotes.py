"""Workshops' quotes held line by line against the order and against each other.

A quote is kept as it was received. What it leaves out, counts otherwise or makes from another board is said, and it is made
comparable: quoted prices by the piece times the ordered number, what is missing at the best price that another quote has.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from enum import StrEnum

from rodbook.errors import Fault, InputError, Place
from rodbook.money.rates.rounding import rounded
from rodbook.setout import ScheduleLine

__all__ = [
    "ComparedQuote",
    "Finding",
    "FindingKind",
    "LumpSum",
    "Quote",
    "QuoteLine",
    "compare_quotes",
    "fallen_out",
    "line_prices",
    "quote_faults",
]


@dataclass(frozen=True)
class QuoteLine:
    """One line of a quote, as received.

    Parameters
    ----------
    mark : str
        Of the part in the order.
    quantity : int
        As quoted.
    amount : Decimal
        For all of them. [currency]
    stock : str
        Board or section as quoted; empty where it is as ordered.
    """

    mark: str
    quantity: int
    amount: Decimal
    stock: str = ""


@dataclass(frozen=True)
class LumpSum:
    """One amount for several lines of the order, all together or not at all. [currency]"""

    marks: tuple[str, ...]
    amount: Decimal


@dataclass(frozen=True)
class Quote:
    """A quote as received.

    Parameters
    ----------
    workshop, reference : str
    day, valid_until : date
    currency : str
        ISO 4217 code.
    lead_days : int
        From order to delivery. [working days]
    lines : tuple of QuoteLine
    lumps : tuple of LumpSum
    delivery, least_order : Decimal
        For an order; least charge before delivery. [currency]
    whole_only : bool
        Whether it holds only for all of it.
    """

    workshop: str
    day: Date
    valid_until: Date
    currency: str
    lead_days: int
    lines: tuple[QuoteLine, ...] = ()
    lumps: tuple[LumpSum, ...] = ()
    delivery: Decimal = Decimal(0)
    least_order: Decimal = Decimal(0)
    whole_only: bool = False
    reference: str = ""

    @property
    def amount(self) -> Decimal:
        """Everything as quoted, delivery and least charge included. [currency]"""
        parts = sum([*(line.amount for line in self.lines), *(lump.amount for lump in self.lumps)], Decimal(0))
        return max(parts, self.least_order) + self.delivery


class FindingKind(StrEnum):
    """In what a quote is not as ordered."""

    MISSING = "missing"
    QUANTITY = "other quantity"
    STOCK = "other board"
    NOT_ORDERED = "not ordered"
    LATE = "late"
    LAPSED = "no longer valid"
    HALF_LUMP = "lump sum beyond the order"
    NOT_WHOLE = "holds only as a whole"


@dataclass(frozen=True)
class Finding:
    """Something in which a quote is not as ordered; `mark` is empty where it is the whole quote."""

    kind: FindingKind
    mark: str
    sentence: str


@dataclass(frozen=True)
class ComparedQuote:
    """A quote held against the order.

    Parameters
    ----------
    quote : Quote
    findings : tuple of Finding
        Empty where it is as ordered.
    as_quoted : Decimal
        [currency]
    comparable : Decimal, optional
        For exactly what is ordered, missing lines at the best price of another quote that holds line by line, without its
        delivery (which `split_orders` counts); None where no quote has one, or this one holds only as a whole and is not
        for what is ordered. [currency]
    filled : tuple of str
        Marks that were filled in so.
    by_line : tuple of str and Decimal
        Price for the ordered number of each mark that it quotes as ordered by itself. [currency]
    """

    quote: Quote
    findings: tuple[Finding, ...]
    as_quoted: Decimal
    comparable: Decimal | None
    filled: tuple[str, ...]
    by_line: tuple[tuple[str, Decimal], ...]


def quote_faults(quotes: Sequence[Quote], currency: str) -> list[Fault]:
    """What makes quotes impossible to compare."""
    return [fault for number, quote in enumerate(quotes) for fault in _faults_of(quote, number, currency)]


def _faults_of(quote: Quote, number: int, currency: str) -> Iterator[Fault]:
    at = Place(("quotes", number), quote.workshop)
    if quote.currency != currency:
        yield Fault(at, "money.quote_in_other_currency", currency=quote.currency, own=currency)
    if quote.valid_until < quote.day:
        yield Fault(at, "money.quote_ends_before_its_day", valid_until=quote.valid_until, day=quote.day)
    amounts = [quote.delivery, quote.least_order]
    amounts += [*(line.amount for line in quote.lines), *(lump.amount for lump in quote.lumps)]
    if any(not amount.is_finite() or amount < 0 for amount in amounts):
        yield Fault(at, "money.quote_amount_below_zero")
    if any(line.quantity < 1 for line in quote.lines):
        yield Fault(at, "money.quote_without_quantity")
    marks = Counter([x.mark for x in quote.lines] + [mark for lump in quote.lumps for mark in set(lump.marks)])
    for mark, count in marks.items():
        if count > 1:
            yield Fault(at, "money.quote_prices_twice", mark=mark, count=count)


def line_prices(quote: Quote, order: Sequence[ScheduleLine], currency: str) -> dict[str, Decimal]:
    """Price of the ordered number of each mark, where it is quoted by itself from the board that is ordered. [currency]"""
    wanted = {line.mark: line for line in order}
    return {
        line.mark: rounded(line.amount * wanted[line.mark].quantity / line.quantity, currency)
        for line in quote.lines
        if line.mark in wanted and line.stock in ("", wanted[line.mark].part.stock)
    }


def fallen_out(quote: Quote, order: Sequence[ScheduleLine]) -> tuple[str, ...]:
    """Marks by which a quote that holds only as a whole is not what is ordered: none of it holds then.

    Parameters
    ----------
    quote : Quote
    order : sequence of ScheduleLine

    Returns
    -------
    tuple of str
        Lines that are not ordered, ordered in another number or made from another board, and those of a lump sum that are
        not ordered; empty where the quote holds line by line, or as it was given.
    """
    if not quote.whole_only:
        return ()
    wanted = {line.mark: line for line in order}
    results = [
        line.mark
        for line in quote.lines
        if line.mark not in wanted
        or line.quantity != wanted[line.mark].quantity
        or line.stock not in ("", wanted[line.mark].part.stock)
    ]
    results += [mark for lump in quote.lumps for mark in lump.marks if mark not in wanted]
    return tuple(dict.fromkeys(results))


def _line_findings(quote: Quote, order: Sequence[ScheduleLine]) -> Iterator[Finding]:
    """In what single lines are not as ordered."""
    wanted = {line.mark: line for line in order}
    covered = {mark for lump in quote.lumps for mark in lump.marks}
    quoted = {line.mark: line for line in quote.lines}
    for mark, line in wanted.items():
        if mark in covered:
            continue
        offer = quoted.get(mark)
        if offer is None:
            yield Finding(FindingKind.MISSING, mark, f"{mark} is missing: {line.quantity} × {line.part.kind}.")
            continue
        if offer.quantity != line.quantity:
            quoted_said, ordered_said = (f"{n} {'is' if n == 1 else 'are'}" for n in (offer.quantity, line.quantity))
            yield Finding(FindingKind.QUANTITY, mark, f"{mark}: {quoted_said} quoted, {ordered_said} ordered.")
        if offer.stock not in ("", line.part.stock):
            yield Finding(FindingKind.STOCK, mark, f"{mark}: quoted in {offer.stock}, ordered in {line.part.stock}.")
    for mark in quoted:
        if mark not in wanted:
            yield Finding(FindingKind.NOT_ORDERED, mark, f"{mark} is quoted but not ordered.")


def _findings(quote: Quote, order: Sequence[ScheduleLine], day: Date, needed_days: int | None) -> Iterator[Finding]:
    yield from _line_findings(quote, order)
    wanted = {line.mark for line in order}
    for lump in quote.lumps:
        beyond = [mark for mark in lump.marks if mark not in wanted]
        if beyond:
            yield Finding(FindingKind.HALF_LUMP, "", f"The lump sum is also for {', '.join(beyond)}, not ordered.")
    if fallen := fallen_out(quote, order):
        yield Finding(
            FindingKind.NOT_WHOLE,
            "",
            f"It holds only as a whole, and {', '.join(fallen)} {'is' if len(fallen) == 1 else 'are'} not as ordered; ask again.",
        )
    if day > quote.valid_until:
        yield Finding(FindingKind.LAPSED, "", f"It was valid until {quote.valid_until}; ask again.")
    if needed_days is not None and quote.lead_days > needed_days:
        late = quote.lead_days - needed_days
        yield Finding(
            FindingKind.LATE,
            "",
            f"It takes {quote.lead_days} working days, {late} more than there are before the parts are needed.",
        )


def compare_quotes(
    order: Sequence[ScheduleLine],
    quotes: Sequence[Quote],
    *,
    currency: str,
    day: Date,
    needed_days: int | None = None,
) -> tuple[ComparedQuote, ...]:
    """Hold quotes against the order and against each other.

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

    Returns
    -------
    tuple of ComparedQuote
        The cheapest comparable first, those that can't be compared last.

    Raises
    ------
    InputError
        With every fault: another currency, a price below zero, a mark priced twice, nothing ordered.
    """
    faults = quote_faults(quotes, currency)
    if not order:
        faults.append(Fault("order", "money.nothing_ordered_to_quote"))
    if faults:
        raise InputError(faults)
    prices = [line_prices(quote, order, currency) for quote in quotes]
    best: dict[str, Decimal] = {}
    for quote, each in zip(quotes, prices, strict=True):
        for mark, amount in () if quote.whole_only else each.items():
            best[mark] = min(amount, best.get(mark, amount))
    results = [
        _compared(quote, order, own, best, tuple(_findings(quote, order, day, needed_days)))
        for quote, own in zip(quotes, prices, strict=True)
    ]
    return tuple(sorted(results, key=lambda c: (c.comparable is None, c.comparable or c.as_quoted, c.quote.workshop)))


def _compared(
    quote: Quote,
    order: Sequence[ScheduleLine],
    own: dict[str, Decimal],
    best: dict[str, Decimal],
    findings: tuple[Finding, ...],
) -> ComparedQuote:
    lumped = {mark for lump in quote.lumps for mark in lump.marks}
    missing = [line.mark for line in order if line.mark not in own and line.mark not in lumped]
    comparable = None
    if all(mark in best for mark in missing) and not fallen_out(quote, order):
        parts = sum(own.values(), Decimal(0)) + sum((lump.amount for lump in quote.lumps), Decimal(0))
        filled = sum((best[mark] for mark in missing), Decimal(0))
        charged = max(parts, quote.least_order) + quote.delivery if parts else Decimal(0)
        comparable = charged + filled
    return ComparedQuote(quote, findings, quote.amount, comparable, tuple(missing), tuple(own.items()))
