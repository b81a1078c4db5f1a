"""The quantity at which make or buy turns.

Sheets come whole and set-up and delivery are paid once, so neither side is a straight line in the number of parts: the
quantity is searched for, not solved for, and the answer may turn more than once.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.job import Book, Workshop
from rodbook.job.book import LengthSize, SheetSize, standing_on
from rodbook.job.models import Making
from rodbook.money.bought import bought_costs, order_charges
from rodbook.money.rates import SiteRates, site_rates
from rodbook.money.site import site_costs
from rodbook.money.usage import MaterialUsage, StockTaken
from rodbook.setout import Part, PartKind, ScheduleLine

__all__ = ["LIMIT", "Turning", "most_frequent", "parts_in_rows", "turning_quantity", "whole_sheets"]

LIMIT = 200
"""How far the search goes: more like parts than a house has (house assumption)."""


@dataclass(frozen=True)
class Turning:
    """From which quantity on the other way of making is cheaper.

    Parameters
    ----------
    kind : PartKind
    mark : str
        The part that was counted up.
    limit : int
        Quantities looked at: 1 up to this.
    at_one : Making, optional
        The cheaper way for a single one; None where it can't be bought.
    turns_at : int, optional
        First quantity at which the other way is cheaper; None where there is none up to `limit`.
    turns_to : Making, optional
    back_at : int, optional
        First quantity after that at which the first way is cheaper again; None where there is none up to `limit`.
    site_amount, bought_amount : Decimal, optional
        What that many cost each way at `turns_at`, ordered alone. [currency]
    sentence : str
    """

    kind: PartKind
    mark: str
    limit: int
    at_one: Making | None
    turns_at: int | None
    turns_to: Making | None
    back_at: int | None
    site_amount: Decimal | None
    bought_amount: Decimal | None
    sentence: str


def most_frequent(lines: Sequence[ScheduleLine]) -> ScheduleLine:
    """The line with most parts, the first of equal ones.

    Raises
    ------
    InputError
        If there is none.
    """
    if not lines:
        raise InputError.at("turning quantity", "there is no part to count up")
    return max(lines, key=lambda line: line.quantity)


def whole_sheets(parts_a_sheet: int) -> Callable[[int], int]:
    """Sheets for so many parts, when so many come out of each.

    Raises
    ------
    InputError
        If not even one part comes out of a sheet.

    Examples
    --------
    >>> sheets = whole_sheets(3)
    >>> sheets(1), sheets(3), sheets(4)
    (1, 1, 2)
    """
    if parts_a_sheet < 1:
        raise InputError.at("turning quantity", "not even one part comes out of a sheet or length; choose a larger one")

    def sheets(parts: int) -> int:
        return math.ceil(parts / parts_a_sheet)

    return sheets


def parts_in_rows(
    part: Part, length_mm: float, width_mm: float, *, kerf_mm: float, edge_trim_mm: float, end_trim_mm: float
) -> int:
    """How many like parts come out of a sheet in plain rows, the better way round; a mixed layout may give more.

    Parameters
    ----------
    part : Part
        Turned only where it has no grain; of a section only its length counts.
    length_mm, width_mm : float
        Of the sheet or length as sold. [mm]
    kerf_mm, edge_trim_mm, end_trim_mm : float
        Lost between neighbours, off each edge of a sheet, and off each end of a length. [mm]
    """
    a, b = part.cut_length, part.cut_width
    if part.sectional:
        return _fitting(length_mm - 2 * end_trim_mm, a, kerf_mm)
    long, wide = length_mm - 2 * edge_trim_mm, width_mm - 2 * edge_trim_mm
    straight = _fitting(long, a, kerf_mm) * _fitting(wide, b, kerf_mm)
    turned = 0 if part.grain else _fitting(long, b, kerf_mm) * _fitting(wide, a, kerf_mm)
    return max(straight, turned)


def _fitting(room_mm: float, size_mm: float, kerf_mm: float) -> int:
    """Cutting works on hundredths of a millimetre, so the comparison does."""
    return max(0, (round(room_mm * 100) + round(kerf_mm * 100)) // (round(size_mm * 100) + round(kerf_mm * 100)))


@dataclass(frozen=True)
class _Material:
    """What the part is made from."""

    one: StockTaken
    thickness_mm: float
    density: float


def _price(size: SheetSize | LengthSize, day: Date) -> Decimal:
    price = standing_on(size.prices, day)
    if price is None:
        raise InputError.at(f"book, {size.name!r}", f"it has no price that holds on {day}")
    return price.amount


def _material(part: Part, book: Book, day: Date, size: str | None) -> _Material:
    """The board or section in the size named, or in the size that is cheapest for its area."""
    stock = book.section(part.stock) if part.sectional else book.board(part.stock)
    offered = (
        [StockTaken(s.name, 1, _price(s, day), s.length, part.width.value) for s in book.section(part.stock).lengths]
        if part.sectional
        else [StockTaken(s.name, 1, _price(s, day), s.length, s.width) for s in book.board(part.stock).sheets]
    )
    fitting = [one for one in offered if size in (None, one.name)]
    if not fitting:
        names = ", ".join(one.name for one in offered)
        raise InputError.at(f"book, {part.stock!r}", f"it is not sold as {size!r}; use one of: {names}")
    one = min(fitting, key=lambda one: one.price / Decimal(repr(one.m2)))
    return _Material(one, stock.thickness, (stock.density_low + stock.density_high) / 2)


def _site_amount(line: ScheduleLine, sheets: int, material: _Material, rates: SiteRates) -> Decimal:
    usage = MaterialUsage(
        line.part.stock, line.part.sectional, (replace(material.one, count=sheets),), material.thickness_mm,
        material.density, parts_m2=line.part.face_m2 * line.quantity,
    )  # fmt: skip
    return site_costs([line], [usage], rates)[line.part.kind].amount


def cheaper_way(site: Decimal, bought: Decimal) -> Making:
    """The cheaper way; at equal cost bought in, which saves crew time."""
    return Making.SITE if site < bought else Making.BOUGHT


def _at(n: int, line: ScheduleLine) -> ScheduleLine:
    """The same part, so many of it, all in one place."""
    return replace(line, quantity=n, openings=((line.mark, n),))


def turning_quantity(
    lines: Sequence[ScheduleLine],
    sheets: Callable[[int], int],
    book: Book,
    day: Date,
    workshop: Workshop | None,
    *,
    size: str | None = None,
    limit: int = LIMIT,
) -> Turning:
    """Search for the quantity of a kind's most frequent part at which the cheaper way of making it changes.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        All of one kind.
    sheets : callable
        Whole sheets or lengths for so many of that part; `whole_sheets` makes one.
    book, day
        For rates and prices.
    workshop : Workshop, optional
        The part is ordered from it alone: set-up, least charge and delivery are all its own.
    size : str, optional
        Sheet or length as the book calls it; the cheapest for its area where left out.
    limit : int
        Last quantity looked at.

    Returns
    -------
    Turning

    Raises
    ------
    InputError
        If rates or prices are missing, or `sheets` gives fewer than the parts need.
    """
    line = most_frequent(lines)
    rates = site_rates(book, day)
    offers, workshop_rates = bought_costs([_at(1, line)], workshop, day, currency=book.currency)
    kind = line.part.kind
    if offers[kind].amount is None:
        sentence = f"There is no quantity at which it turns, as it can't be bought in: {offers[kind].why_not}."
        return Turning(kind, line.mark, limit, None, None, None, None, None, None, sentence)
    material = _material(line.part, book, day, size)

    def both(n: int) -> tuple[Decimal, Decimal]:
        many = _at(n, line)
        offer = bought_costs([many], workshop, day, currency=book.currency)[0][kind].amount
        assert offer is not None, "what one can be bought of, more can be bought of"
        assert workshop_rates is not None, "an offer rests on rates"
        bought = offer + sum(order_charges(offer, workshop_rates, book.currency))
        return _site_amount(many, sheets(n), material, rates), bought

    at_one = cheaper_way(*both(1))
    turns_at = back_at = None
    amounts: tuple[Decimal | None, Decimal | None] = (None, None)
    for n in range(2, limit + 1):
        costs = both(n)
        way = cheaper_way(*costs)
        if turns_at is None and way is not at_one:
            turns_at, amounts = n, costs
        elif turns_at is not None and way is at_one:
            back_at = n
            break
    turns_to = None if turns_at is None else _other(at_one)
    sentence = _sentence(line, limit, at_one, turns_at, back_at)
    return Turning(kind, line.mark, limit, at_one, turns_at, turns_to, back_at, *amounts, sentence)


def _other(way: Making) -> Making:
    return Making.BOUGHT if way is Making.SITE else Making.SITE


def _sentence(line: ScheduleLine, limit: int, at_one: Making, turns_at: int | None, back_at: int | None) -> str:
    if turns_at is None:
        return f"{line.mark} is cheaper {at_one} at every quantity up to {limit}."
    back = f"; at {back_at} it is cheaper {at_one} again" if back_at is not None else ""
    return f"{line.mark} is cheaper {at_one} up to {turns_at - 1} of it and {_other(at_one)} from {turns_at}{back}."
