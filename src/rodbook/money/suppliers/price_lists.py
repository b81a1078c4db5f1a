"""A merchant's price list against the book: what would change, before anything is changed.

Only sheets and lengths that the book has are looked at; a merchant sells much else. Prices are added with the day from which they
hold, so nothing is overwritten.
"""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job import Book
from rodbook.job.book import LengthSize, Price, SheetSize, valid_on
from rodbook.job.numerals import as_typed
from rodbook.money.suppliers.list_rows import (
    Rows,
    amount_said,
    cell_of,
    columns_of,
    percent_more,
    refuse_source,
    word_of,
)

__all__ = ["HEADINGS", "PriceChange", "PriceList", "blank_prices", "price_list", "with_prices"]

HEADINGS: Mapping[str, tuple[str, ...]] = {
    "name": ("name", "item", "article", "description", "sheet", "length"),
    "price": ("price", "net price", "net", "amount", "each"),
    "currency": ("currency",),
}
"""Words that a column's heading may have; name and price there must be."""


@dataclass(frozen=True)
class PriceChange:
    """A price that would change.

    Parameters
    ----------
    row : int
        Of the list.
    stock, name : str
        Board or section, and its sheet or length as the book calls it.
    before : Decimal, optional
        What holds on that day by the book; None where nothing does. [currency]
    after : Decimal
        [currency]
    """

    row: int
    stock: str
    name: str
    before: Decimal | None
    after: Decimal

    @property
    def percent(self) -> Decimal | None:
        """By how much; None where there was no price. [%]"""
        return percent_more(self.before, self.after)


@dataclass(frozen=True)
class PriceList:
    """What a price list would do to the book.

    Parameters
    ----------
    since : date
    source : str
    changes : tuple of PriceChange
        The largest first.
    unchanged : tuple of str
        Names whose price stays.
    not_listed : tuple of str
        Sheets and lengths of the book that the list does not have.
    nearly : tuple of (int, str, str)
        Rows whose name is nearly one of the book's: row, its name, the book's.
    """

    since: Date
    source: str
    changes: tuple[PriceChange, ...]
    unchanged: tuple[str, ...]
    not_listed: tuple[str, ...]
    nearly: tuple[tuple[int, str, str], ...]


type _Sold = dict[str, tuple[str, SheetSize | LengthSize]]


def _sold(book: Book) -> _Sold:
    """Sheets and lengths in small letters: by their own name where only one has it, or with their stock's before it."""
    every: list[tuple[str, SheetSize | LengthSize]] = [(b.name, size) for b in book.boards for size in b.sheets]
    every += [(section.name, size) for section in book.sections for size in section.lengths]
    alike = Counter(word_of(size.name) for _, size in every)
    results: _Sold = {}
    for stock, size in every:
        results[word_of(f"{stock} {size.name}")] = results[word_of(f"{stock}, {size.name}")] = (stock, size)
        if alike[word_of(size.name)] == 1:
            results[word_of(size.name)] = (stock, size)
    return results


def _read(
    rows: Rows, columns: Mapping[str, int], sold: _Sold, currency: str, locale: str
) -> Iterator[tuple[int, str, Decimal] | Fault]:
    """Rows that are in the book: number, name in small letters and price, or what is wrong with them."""
    seen: dict[tuple[str, str], tuple[int, Decimal]] = {}
    for number, row in rows:
        name = word_of(cell_of(row, columns["name"]))
        if name not in sold:
            continue
        if not word_of(cell_of(row, columns["price"])):
            continue  # a line that nobody filled in
        at = Place(("rows", number - 1), sold[name][1].name)
        price = amount_said(cell_of(row, columns["price"]), cell_of(row, columns.get("currency")), currency, locale)
        if isinstance(price, Message):
            yield Fault(at, price)
        elif (key := (sold[name][0], sold[name][1].name)) in seen:
            first, other_price = seen[key]
            if other_price != price:
                yield Fault(
                    at,
                    "money.row_priced_otherwise",
                    row=first,
                    other=as_typed(other_price, locale),
                    price=as_typed(price, locale),
                )
        else:
            seen[key] = number, price
            yield number, name, price


def price_list(rows: Rows, book: Book, *, since: Date, source: str) -> PriceList:
    """Hold a merchant's price list against the book.

    Parameters
    ----------
    rows : sequence of (int, sequence)
        Rows with their numbers; one of the first has headings for name and price, and may have one for the currency.
    book : Book
    since : date
        From which the prices hold.
    source : str
        What they are from.

    Returns
    -------
    PriceList

    Raises
    ------
    InputError
        With every fault: a price that can't be read for certain, another currency, a name twice at two prices, a price from
        that very day that is in the book already at another amount.
    """
    at, columns = columns_of(rows, HEADINGS, (("name",), ("price",)))
    refuse_source(source)
    sold = _sold(book)
    faults: list[Fault] = []
    changes: list[PriceChange] = []
    unchanged: list[str] = []
    listed: set[tuple[str, str]] = set()
    for result in _read(rows[at + 1 :], columns, sold, book.currency, book.locale):
        if isinstance(result, Fault):
            faults.append(result)
            continue
        number, word, price = result
        stock, size = sold[word]
        listed.add((stock, size.name))
        standing = valid_on(size.prices, since)
        if standing is not None and standing.amount == price:
            unchanged.append(size.name)
        elif standing is not None and standing.since == since:
            faults.append(
                Fault(
                    Place(("rows", number - 1), size.name),
                    "money.price_stands_already",
                    amount=as_typed(standing.amount, book.locale),
                    since=since,
                )
            )
        else:
            changes.append(PriceChange(number, stock, size.name, standing.amount if standing else None, price))
    if faults:
        raise InputError(faults)
    changes.sort(key=lambda change: (-abs(change.percent or Decimal(0)), change.name))
    missing = {(stock, size.name): None for stock, size in sold.values() if (stock, size.name) not in listed}
    words = {word: size.name for word, (stock, size) in sold.items() if (stock, size.name) in missing}
    near = tuple(
        _nearly(
            [row for row in rows[at + 1 :] if word_of(cell_of(row[1], columns["name"])) not in sold],
            columns["name"],
            words,
        )
    )
    return PriceList(since, source, tuple(changes), tuple(unchanged), tuple(name for _, name in missing), near)


def _nearly(rows: Rows, column: int, missing: Mapping[str, str]) -> Iterator[tuple[int, str, str]]:
    for number, row in rows:
        shown = str(cell_of(row, column) or "").strip()
        close = difflib.get_close_matches(word_of(shown)[:80], missing, n=1, cutoff=0.85)
        if close:
            yield number, shown, missing[close[0]]


def with_prices(book: Book, result: PriceList) -> Book:
    """The book with the changes of a list added; what it had stays.

    Parameters
    ----------
    book : Book
        That the list was held against.
    result : PriceList
    """
    changed = {(change.stock, change.name): change.after for change in result.changes}

    def prices(stock: str, size: SheetSize | LengthSize) -> tuple[Price, ...]:
        after = changed.get((stock, size.name))
        new = () if after is None else (Price(amount=after, since=result.since, source=result.source),)
        return (*size.prices, *new)

    boards = []
    for board in book.boards:
        sheets = tuple(size.model_copy(update={"prices": prices(board.name, size)}) for size in board.sheets)
        boards.append(board.model_copy(update={"sheets": sheets}))
    sections = []
    for section in book.sections:
        lengths = tuple(size.model_copy(update={"prices": prices(section.name, size)}) for size in section.lengths)
        sections.append(section.model_copy(update={"lengths": lengths}))
    return book.model_copy(update={"boards": tuple(boards), "sections": tuple(sections)})


def blank_prices(book: Book) -> list[list[str]]:
    """A blank price list for a merchant to fill in: every sheet and length of a book, without prices.

    Parameters
    ----------
    book : Book

    Returns
    -------
    list of list of str
        Headings first.
    """
    every = [(b.name, size.name) for b in book.boards for size in b.sheets]
    every += [(section.name, size.name) for section in book.sections for size in section.lengths]
    alike = Counter(word_of(name) for _, name in every)
    names = [name if alike[word_of(name)] == 1 else f"{stock}, {name}" for stock, name in every]
    return [["name", "price", "currency"], *([name, "", book.currency] for name in names)]
