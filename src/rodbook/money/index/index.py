"""An index of what the firm itself buys: how dear its own basket has become."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError
from rodbook.job import Book
from rodbook.job.faults import nearest
from rodbook.money.rates.rounding import measured

__all__ = ["BasketItem", "IndexDay", "basket_of", "index_through", "laspeyres", "paasche"]


def _weighed(prices: Mapping[str, Decimal], quantities: Mapping[str, Decimal]) -> Decimal:
    return sum((prices[name] * quantity for name, quantity in quantities.items()), Decimal(0))


def _refuse_gaps(quantities: Mapping[str, Decimal], *prices: Mapping[str, Decimal]) -> None:
    faults = [
        Fault(("basket", name), "money.basket_price_missing")
        for name in quantities
        if any(name not in each for each in prices)
    ]
    faults += [
        Fault(("basket", n), "money.basket_quantity_out_of_range", quantity=q) for n, q in quantities.items() if q < 0
    ]
    if not faults and not _weighed(prices[0], quantities):
        faults = [Fault("basket", "money.basket_cost_nothing")]
    if faults:
        raise InputError(faults)


def laspeyres(
    before: Mapping[str, Decimal], after: Mapping[str, Decimal], quantities: Mapping[str, Decimal]
) -> Decimal:
    """Price index with the quantities of the first time.

    Parameters
    ----------
    before, after : mapping of str to Decimal
        Prices by item at the two times. [currency/unit]
    quantities : mapping of str to Decimal
        Bought at the first time. [unit]

    Returns
    -------
    Decimal
        100 where nothing has changed. [1]

    Raises
    ------
    InputError
        If an item of the basket lacks a price, a quantity is below zero, or the basket cost nothing.

    Notes
    -----
    100 sum(p1 q0) / sum(p0 q0); common statistics.

    Examples
    --------
    >>> prices = {"sheet": Decimal(48)}, {"sheet": Decimal(54)}
    >>> laspeyres(*prices, {"sheet": Decimal(10)})
    Decimal('112.5')
    """
    _refuse_gaps(quantities, before, after)
    return 100 * _weighed(after, quantities) / _weighed(before, quantities)


def paasche(before: Mapping[str, Decimal], after: Mapping[str, Decimal], quantities: Mapping[str, Decimal]) -> Decimal:
    """Price index with quantities of the second time; otherwise as `laspeyres`. [1]"""
    return laspeyres(before, after, quantities)


@dataclass(frozen=True)
class BasketItem:
    """Something that the firm buys: how much of it, and what it cost since when.

    Parameters
    ----------
    name : str
        A sheet, a length or a rate as the book calls it.
    quantity : Decimal
        [unit]
    prices : tuple of date and Decimal
        In any order; each holds until the next. [currency/unit]
    """

    name: str
    quantity: Decimal
    prices: tuple[tuple[Date, Decimal], ...]

    def on(self, day: Date) -> Decimal | None:
        """What one cost on a day; None before the first price. [currency/unit]"""
        begun = [price for price in self.prices if price[0] <= day]
        return max(begun)[1] if begun else None


@dataclass(frozen=True)
class IndexDay:
    """The index on a day, and how much each item moved it.

    Parameters
    ----------
    day : date
    index : Decimal
        100 on the first day, to a hundredth. [1]
    by_item : tuple of str and Decimal
        Points of the index, the largest move first; they add up to what the index has moved, but for rounding. [1]
    """

    day: Date
    index: Decimal
    by_item: tuple[tuple[str, Decimal], ...]


def _prices_of(book: Book) -> dict[str, tuple[tuple[Date, Decimal], ...]]:
    results: dict[str, tuple[tuple[Date, Decimal], ...]] = {}
    sheets = [size for board in book.boards for size in board.sheets]
    lengths = [size for section in book.sections for size in section.lengths]
    for name, prices in [*((s.name, s.prices) for s in sheets), *((s.name, s.prices) for s in lengths)]:
        results[name] = tuple((price.since, price.amount) for price in prices)
    for rate in book.rates:
        results[rate.name] = (*results.get(rate.name, ()), (rate.since, measured(rate.value)))
    return results


def basket_of(book: Book, quantities: Mapping[str, Decimal]) -> tuple[BasketItem, ...]:
    """The firm's basket with the prices that its book holds.

    Parameters
    ----------
    book : Book
    quantities : mapping of str to Decimal
        By sheets, lengths and rates as the book calls them, such as "crew hour". [unit]

    Raises
    ------
    InputError
        If the book has no sheet, length or rate of a name.
    """
    known = _prices_of(book)
    faults = [
        Fault("basket", "money.basket_name_unknown", name=name, hint=nearest(name, list(known)))
        for name in quantities
        if name not in known
    ]
    if faults:
        raise InputError(faults)
    return tuple(BasketItem(name, quantity, known[name]) for name, quantity in quantities.items())


def index_through(basket: Sequence[BasketItem], days: Sequence[Date]) -> tuple[IndexDay, ...]:
    """The index of a basket on several days against the first of them.

    Parameters
    ----------
    basket : sequence of BasketItem
    days : sequence of date
        The first is 100.

    Returns
    -------
    tuple of IndexDay

    Raises
    ------
    InputError
        If there is no day, or an item has no price on one of them.
    """
    if not days:
        raise InputError.at("index", "money.index_without_base")
    prices = [{item.name: price for item in basket if (price := item.on(day)) is not None} for day in days]
    quantities = {item.name: item.quantity for item in basket}
    results: list[IndexDay] = []
    for day, now in zip(days, prices, strict=True):
        index = laspeyres(prices[0], now, quantities)
        whole = _weighed(prices[0], quantities)
        moves = [
            (n, 100 * (now[n] - prices[0][n]) * q / whole) for n, q in quantities.items() if now[n] != prices[0][n]
        ]
        moves.sort(key=lambda move: (-abs(move[1]), move[0]))
        cent = Decimal("0.01")
        results.append(IndexDay(day, index.quantize(cent), tuple((n, m.quantize(cent)) for n, m in moves)))
    return tuple(results)
