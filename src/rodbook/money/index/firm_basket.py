"""The firm's own basket: what it buys over its jobs, at the prices that its book holds, and their index through time.

The quantities stay, the prices move (Laspeyres): the index on a day is what the same basket costs then, against what it cost on
the day that is 100. What the book has no price for on that day can't be held against it, and is named. Quantities are those of
the jobs, whenever they were; with quantities of another time than the first day the same formula is named after Lowe as well.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from enum import StrEnum

from rodbook.errors import Fault, InputError
from rodbook.job import Book
from rodbook.job.book import Price
from rodbook.money.index.index import BasketItem, IndexDay, index_through
from rodbook.money.rates.names import RateName
from rodbook.money.rates.rounding import measured
from rodbook.money.suppliers.charges import BY_FIELD, charge_name

__all__ = ["BasketKey", "BasketKind", "FirmIndex", "FirmItem", "GroupIndex", "IndexLine", "firm_basket", "firm_index"]

CREW_HOUR = RateName.CREW_HOUR.value
"""The rate of the firm's own hours."""

HUNDREDTH = Decimal("0.01")


class BasketKind(StrEnum):
    """What sort of thing is bought."""

    SHEETS = "sheets"
    LENGTHS = "lengths"
    CHARGES = "workshops’ charges"
    HOURS = "own hours"


@dataclass(frozen=True, order=True)
class BasketKey:
    """Something that is bought, by its place in the book.

    Parameters
    ----------
    kind : BasketKind
    owner : str
        Board, section or workshop; empty for hours.
    what : str
        Its sheet or length, or the charge as the book's rates call it.
    of : str
        Board or section of a charge that is by material.
    """

    kind: BasketKind
    owner: str
    what: str
    of: str = ""


@dataclass(frozen=True)
class FirmItem:
    """Something that the firm buys: how much of it, per what, and what it cost since when."""

    key: BasketKey
    unit: str
    item: BasketItem


@dataclass(frozen=True)
class IndexLine:
    """One line of the working of an index.

    Parameters
    ----------
    name, unit : str
    kind : BasketKind
    quantity : Decimal
        [`unit`]
    before, after : Decimal
        Price on the day that is 100 and on the last day. [currency/`unit`]
    points : Decimal
        By how much it moved the index. [1]
    """

    name: str
    kind: BasketKind
    unit: str
    quantity: Decimal
    before: Decimal
    after: Decimal
    points: Decimal

    @property
    def cost_before(self) -> Decimal:
        """On the day that is 100. [currency]"""
        return self.quantity * self.before

    @property
    def cost_after(self) -> Decimal:
        """On the last day. [currency]"""
        return self.quantity * self.after


@dataclass(frozen=True)
class GroupIndex:
    """The index of one sort of things by itself. [1]"""

    kind: BasketKind
    cost_before: Decimal
    cost_after: Decimal
    index: Decimal


@dataclass(frozen=True)
class FirmIndex:
    """What the basket costs through time.

    Parameters
    ----------
    base, last : date
        The day that is 100, and the last one.
    days : tuple of IndexDay
        The first, every day on which a price changed, and the last.
    lines : tuple of IndexLine
        What weighs most first.
    groups : tuple of GroupIndex
    left_out : tuple of str
        What has no price on the day that is 100.
    """

    base: Date
    last: Date
    days: tuple[IndexDay, ...]
    lines: tuple[IndexLine, ...]
    groups: tuple[GroupIndex, ...]
    left_out: tuple[str, ...]

    @property
    def cost_before(self) -> Decimal:
        """Of the whole basket on the day that is 100. [currency]"""
        return sum((line.cost_before for line in self.lines), Decimal(0))

    @property
    def cost_after(self) -> Decimal:
        """Of the same on the last day. [currency]"""
        return sum((line.cost_after for line in self.lines), Decimal(0))

    @property
    def index(self) -> Decimal:
        """On the last day. [1]"""
        return self.days[-1].index


type _Prices = tuple[tuple[Date, Decimal], ...]


def _sold(book: Book) -> dict[BasketKey, tuple[str, str, _Prices]]:
    """Every sheet and length of the book: name, unit and prices; with its board or section where others have its name."""
    sizes: list[tuple[BasketKey, str, tuple[Price, ...]]] = [
        (BasketKey(BasketKind.SHEETS, board.name, size.name), "sheet", size.prices)
        for board in book.boards
        for size in board.sheets
    ]
    sizes += [
        (BasketKey(BasketKind.LENGTHS, section.name, size.name), "length", size.prices)
        for section in book.sections
        for size in section.lengths
    ]
    alike = Counter(key.what for key, _, _ in sizes)
    return {
        key: (
            key.what if alike[key.what] == 1 else f"{key.owner}, {key.what}",
            unit,
            tuple((price.since, price.amount) for price in prices),
        )
        for key, unit, prices in sizes
    }


def _charged(book: Book) -> dict[BasketKey, tuple[str, str, _Prices]]:
    """Every charge of the book's workshops that is a price for something."""
    results: dict[BasketKey, tuple[str, str, _Prices]] = {}
    for shop in book.workshops:
        for field, charge in BY_FIELD.items():
            if field in ("least_order", "lead_days"):
                continue
            by_of: dict[str, list[tuple[Date, Decimal]]] = {}
            for rates in shop.rates:
                values: Mapping[str, Decimal] = getattr(rates, field) if charge.by else {"": getattr(rates, field)}
                for of, amount in values.items():
                    by_of.setdefault(of, []).append((rates.since, amount))
            for of, prices in by_of.items():
                name = f"{shop.name}: {charge_name(field, of)}"
                results[BasketKey(BasketKind.CHARGES, shop.name, field, of)] = name, charge.unit, tuple(prices)
    return results


def firm_basket(book: Book, quantities: Mapping[BasketKey, Decimal]) -> tuple[FirmItem, ...]:
    """What the firm buys, with the prices that its book holds.

    Parameters
    ----------
    book : Book
    quantities : mapping of BasketKey to Decimal
        Of sheets, lengths, workshops' charges and own hours; what is zero is left out. [unit]

    Returns
    -------
    tuple of FirmItem

    Raises
    ------
    InputError
        With everything that the book does not have.
    """
    hours = tuple((rate.since, measured(rate.value)) for rate in book.rates if rate.name == CREW_HOUR)
    known = _sold(book) | _charged(book)
    if hours:
        known[BasketKey(BasketKind.HOURS, "", CREW_HOUR)] = CREW_HOUR, "hour", hours
    faults = [
        Fault(
            "basket",
            "money.basket_not_in_book",
            value=" ".join(filter(None, (key.owner, key.what, key.of))),
            kind=key.kind,
        )
        for key in quantities
        if key not in known
    ]
    if faults:
        raise InputError(faults)
    return tuple(
        FirmItem(key, known[key][1], BasketItem(known[key][0], quantity, known[key][2]))
        for key, quantity in quantities.items()
        if quantity
    )


def _first_day(items: Sequence[BasketItem], last: Date) -> Date:
    """The first day on which everything has a price that has one by the last day."""
    firsts = [min(day for day, _ in item.prices) for item in items]
    begun = [day for day in firsts if day <= last]
    if not begun:
        raise InputError.at("index", "money.basket_not_priced", day=last)
    return max(begun)


def firm_index(basket: Sequence[FirmItem], last: Date, base: Date | None = None) -> FirmIndex:
    """The index of the firm's basket, with its working.

    Parameters
    ----------
    basket : sequence of FirmItem
    last : date
        Up to which it is reckoned.
    base : date, optional
        The day that is 100; the first on which everything has a price where it is left out.

    Returns
    -------
    FirmIndex

    Raises
    ------
    InputError
        If the basket is empty, the days are the wrong way round, or nothing has a price on the day that is 100.

    Notes
    -----
    I = 100 Σ q p1 / Σ q p0 with the quantities q of the basket, the prices p0 of the day that is 100 and p1 of the other day
    (Laspeyres).
    """
    if not basket:
        raise InputError.at("index", "money.basket_empty")
    first = base or _first_day([one.item for one in basket], last)
    if first > last:
        raise InputError.at("base", "money.base_after_last_day", first=first, last=last)
    held = [one for one in basket if one.item.on(first) is not None]
    if not held:
        raise InputError.at("base", "money.basket_not_priced", day=first)
    left = tuple(one.item.name for one in basket if one not in held)
    changes = {day for one in held for day, _ in one.item.prices if first < day <= last}
    days = list(dict.fromkeys((first, *sorted(changes), last)))
    through = index_through([one.item for one in held], days)
    lines = _lines(held, first, last)
    return FirmIndex(first, last, through, lines, tuple(_groups(lines)), left)


def _lines(held: Sequence[FirmItem], first: Date, last: Date) -> tuple[IndexLine, ...]:
    prices = [(one, one.item.on(first) or Decimal(0), one.item.on(last) or Decimal(0)) for one in held]
    whole = sum((one.item.quantity * before for one, before, _ in prices), Decimal(0))
    lines = [
        IndexLine(
            one.item.name,
            one.key.kind,
            one.unit,
            one.item.quantity,
            before,
            after,
            (100 * one.item.quantity * (after - before) / whole).quantize(HUNDREDTH),
        )
        for one, before, after in prices
    ]
    return tuple(sorted(lines, key=lambda line: (-line.cost_before, line.name)))


def _groups(lines: Sequence[IndexLine]) -> list[GroupIndex]:
    results = []
    for kind in BasketKind:
        own = [line for line in lines if line.kind is kind]
        before = sum((line.cost_before for line in own), Decimal(0))
        after = sum((line.cost_after for line in own), Decimal(0))
        if before:
            results.append(GroupIndex(kind, before, after, (100 * after / before).quantize(HUNDREDTH)))
    return results
