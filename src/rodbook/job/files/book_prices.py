"""New prices put into a book's document without losing what a person wrote around them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import tomlkit
from tomlkit.items import AoT, Comment, Whitespace

from rodbook.errors import InputError, Message
from rodbook.job.book import Book, Price, WorkshopRates
from rodbook.job.files.documents import parse_book
from rodbook.job.files.writing import said_fields, toml_item

__all__ = ["add_charges", "add_prices"]

_SOLD = (("boards", "sheets"), ("sections", "lengths"))


def add_prices(text: str, prices: Mapping[tuple[str, str], Price]) -> str:
    """A book's document with prices added beside those that stand there; comments, order and ways of writing stay.

    Parameters
    ----------
    text : str
        The book as TOML.
    prices : mapping of (str, str) to Price
        By board or section, and its sheet or length.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If the document is no book, has no such sheet or length, or is laid out so oddly that it would not read back as meant.
    """
    before = parse_book(text)
    sold = {(b.name, s.name) for b in before.boards for s in b.sheets}
    sold |= {(c.name, s.name) for c in before.sections for s in c.lengths}
    if missing := [key for key in prices if key not in sold]:
        raise InputError.at("book", "book.no_such_sizes", sizes=[_size(*key) for key in missing])

    def put(document: Any) -> None:
        for group, sizes in _SOLD:
            for entry in document.get(group, []):
                for size in entry[sizes]:
                    if (price := prices.get((entry["name"].strip(), size["name"].strip()))) is not None:
                        _append(size["prices"], price)

    return _written(text, put, _grown(before, prices))


def _size(stock: str, name: str) -> Message:
    return Message("book.size_of_stock", stock=stock, name=name)


def add_charges(text: str, workshop: str, sets: Sequence[WorkshopRates]) -> str:
    """A book's document with sets of a workshop's charges added beside those that stand there; all else stays.

    Parameters
    ----------
    text : str
        The book as TOML.
    workshop : str
        Its name.
    sets : sequence of WorkshopRates
        Each from a day of its own.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If the document is no book, has no such workshop, or is laid out so oddly that it would not read back as meant.
    """
    before = parse_book(text)
    if workshop not in [shop.name for shop in before.workshops]:
        raise InputError.at("book", "book.no_such_workshop", workshop=workshop)

    def put(document: Any) -> None:
        for entry in document["workshops"]:
            if entry["name"].strip() == workshop:
                for rates in sets:
                    _append(entry["rates"], rates)

    shops = tuple(
        shop.model_copy(update={"rates": (*shop.rates, *sets)}) if shop.name == workshop else shop
        for shop in before.workshops
    )
    return _written(text, put, before.model_copy(update={"workshops": shops}))


def _written(text: str, put: Callable[[Any], None], meant: Book) -> str:
    """The document with what is put into it, as long as it reads back as meant."""
    try:
        document = tomlkit.parse(text)
        put(document)
        written = tomlkit.dumps(document)
        sound = parse_book(written) == meant
    except Exception:  # the library lets out whatever goes wrong deep inside it; the check is what counts
        sound, written = False, ""
    if not sound:
        raise InputError.at("book", "book.prices_cant_be_added")
    return written


def _append(there: Any, entry: Price | WorkshopRates) -> None:
    if isinstance(there, AoT):
        table = tomlkit.table()
        for name, value in said_fields(entry).items():
            table.append(name, toml_item(value))
        _pass_on(there[-1].value.body, table.value.body)
        there.append(table)
    else:
        there.append(toml_item(entry))


def _pass_on(last: list[Any], new: list[Any]) -> None:
    """Move the comments and blank lines after a table to the one that comes behind it: they belong to what follows."""
    trailing = len(last)
    while trailing and isinstance(last[trailing - 1][1], Comment | Whitespace):
        trailing -= 1
    new += last[trailing:]
    del last[trailing:]


def _grown(book: Book, prices: Mapping[tuple[str, str], Price]) -> Book:
    def with_new(stock: str, size: Any) -> Any:
        new = prices.get((stock, size.name))
        return size if new is None else size.model_copy(update={"prices": (*size.prices, new)})

    boards = tuple(
        b.model_copy(update={"sheets": tuple(with_new(b.name, size) for size in b.sheets)}) for b in book.boards
    )
    sections = tuple(
        s.model_copy(update={"lengths": tuple(with_new(s.name, size) for size in s.lengths)}) for s in book.sections
    )
    return book.model_copy(update={"boards": boards, "sections": sections})
