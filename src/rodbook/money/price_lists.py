"""A merchant's price list against the book: what would change, before anything is changed.

Only sheets and lengths that the book has are looked at; a merchant sells much else. Prices are added with the day from which they
hold, so nothing is overwritten.
"""

from __future__ import annotations

import difflib
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal, InvalidOperation

from rodbook.errors import Fault, InputError
from rodbook.job import Book
from rodbook.job.book import LengthSize, Price, SheetSize, standing_on

__all__ = ["HEADINGS", "PriceChange", "PriceList", "money_of", "price_list", "with_prices"]

HEADINGS: Mapping[str, tuple[str, ...]] = {
    "name": ("name", "item", "article", "description", "sheet", "length"),
    "price": ("price", "net price", "net", "amount", "each"),
    "currency": ("currency",),
}
"""Words that a column's heading may have; name and price there must be."""

HEADING_ROWS = 10
"""The headings stand among so many first rows."""

type Rows = Sequence[tuple[int, Sequence[object]]]


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
        return None if not self.before else (100 * (self.after / self.before - 1)).quantize(Decimal("0.1"))


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


def money_of(cell: object) -> Decimal | None:
    """Read an amount as spreadsheets and people write it; None where it is none or could be read two ways.

    >>> [str(money_of(cell)) for cell in ("48,00", "1,234.50", "1.234,50", "EUR 51.2", 48.5, "1.234", "x")]
    ['48.00', '1234.50', '1234.50', '51.2', '48.5', 'None', 'None']
    """
    if isinstance(cell, bool) or cell is None:
        return None
    if isinstance(cell, int | float | Decimal):
        found = Decimal(repr(cell)) if isinstance(cell, float) else Decimal(cell)
        return found if found.is_finite() else None
    text = re.sub(r"^[A-Z]{3}\s+|\s+[A-Z]{3}$|[\s\u00a0'’]", "", str(cell).strip())
    if "," in text and "." in text:
        thousands = "," if text.rfind(",") < text.rfind(".") else "."
        text = text.replace(thousands, "")
    elif re.fullmatch(r"-?\d{1,3}[.,]\d{3}", text):
        return None  # one mark and three digits: thousands or thousandths, nobody can tell
    text = text.replace(",", ".")
    try:
        return Decimal(text) if re.fullmatch(r"-?\d+(\.\d+)?", text) else None
    except InvalidOperation:
        return None


def _word(cell: object) -> str:
    return " ".join(str(cell).split()).casefold() if cell is not None else ""


def _columns(rows: Rows) -> tuple[int, dict[str, int]]:
    """Where the headings stand, and which column is which."""
    for at, (_, row) in enumerate(rows[:HEADING_ROWS]):
        words = [_word(cell) for cell in row]
        found = {
            what: next(n for n, word in enumerate(words) if word in known)
            for what, known in HEADINGS.items()
            if any(word in known for word in words)
        }
        if "name" in found and "price" in found:
            return at, found
    raise InputError.at(
        "the list",
        f"no row has headings for name and price; write {HEADINGS['name'][0]!r} and {HEADINGS['price'][0]!r} over them",
    )


type _Sold = dict[str, tuple[str, SheetSize | LengthSize]]


def _sold(book: Book) -> _Sold:
    """Sheets and lengths in small letters: by their own name where only one has it, or with their stock's before it."""
    every: list[tuple[str, SheetSize | LengthSize]] = [(b.name, size) for b in book.boards for size in b.sheets]
    every += [(section.name, size) for section in book.sections for size in section.lengths]
    alike = Counter(_word(size.name) for _, size in every)
    found: _Sold = {}
    for stock, size in every:
        found[_word(f"{stock} {size.name}")] = found[_word(f"{stock}, {size.name}")] = (stock, size)
        if alike[_word(size.name)] == 1:
            found[_word(size.name)] = (stock, size)
    return found


def _cell(row: Sequence[object], column: int | None) -> object:
    return row[column] if column is not None and column < len(row) else None


def _read(
    rows: Rows, columns: Mapping[str, int], sold: _Sold, currency: str
) -> Iterator[tuple[int, str, Decimal] | Fault]:
    """Rows that are in the book: number, name in small letters and price, or what is wrong with them."""
    seen: dict[tuple[str, str], tuple[int, Decimal]] = {}
    for number, row in rows:
        name = _word(_cell(row, columns["name"]))
        if name not in sold:
            continue
        where, cell = f"row {number} ({sold[name][1].name})", _cell(row, columns["price"])
        price, other = money_of(cell), str(_cell(row, columns.get("currency")) or currency).strip().upper()
        if price is None:
            yield Fault(where, f"{str(cell)!r} can't be read as a price for certain; write it like 48.00")
        elif price < 0:
            yield Fault(where, f"a price of {price} is below nought")
        elif other != currency:
            yield Fault(where, f"it is in {other} and the book in {currency}; a list has to be in {currency}")
        elif (key := (sold[name][0], sold[name][1].name)) in seen:
            first, other_price = seen[key]
            if other_price != price:
                yield Fault(where, f"row {first} has it at {other_price} and this one at {price}; keep one of them")
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
    at, columns = _columns(rows)
    sold = _sold(book)
    faults: list[Fault] = []
    changes: list[PriceChange] = []
    unchanged: list[str] = []
    listed: set[tuple[str, str]] = set()
    for found in _read(rows[at + 1 :], columns, sold, book.currency):
        if isinstance(found, Fault):
            faults.append(found)
            continue
        number, word, price = found
        stock, size = sold[word]
        listed.add((stock, size.name))
        standing = standing_on(size.prices, since)
        if standing is not None and standing.amount == price:
            unchanged.append(size.name)
        elif standing is not None and standing.since == since:
            faults.append(
                Fault(
                    f"row {number} ({size.name})",
                    f"the book has {standing.amount} from {since} already; give the list another day, or correct the book",
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
            [row for row in rows[at + 1 :] if _word(_cell(row[1], columns["name"])) not in sold], columns["name"], words
        )
    )
    return PriceList(since, source, tuple(changes), tuple(unchanged), tuple(name for _, name in missing), near)


def _nearly(rows: Rows, column: int, missing: Mapping[str, str]) -> Iterator[tuple[int, str, str]]:
    for number, row in rows:
        shown = str(_cell(row, column) or "").strip()
        close = difflib.get_close_matches(_word(shown)[:80], missing, n=1, cutoff=0.85)
        if close:
            yield number, shown, missing[close[0]]


def with_prices(book: Book, found: PriceList) -> Book:
    """The book with the changes of a list added; what it had stays.

    Parameters
    ----------
    book : Book
        That the list was held against.
    found : PriceList
    """
    changed = {(change.stock, change.name): change.after for change in found.changes}

    def prices(stock: str, size: SheetSize | LengthSize) -> tuple[Price, ...]:
        after = changed.get((stock, size.name))
        new = () if after is None else (Price(amount=after, since=found.since, source=found.source),)
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
