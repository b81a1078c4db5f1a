"""New prices put into a book's document without losing what a person wrote around them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import AoT

from rodbook.errors import InputError
from rodbook.job.book import Book, Price
from rodbook.job.files.documents import parse_book
from rodbook.job.files.writing import toml_item

__all__ = ["add_prices"]

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
    if missing := [f"{stock}, {name}" for stock, name in prices if (stock, name) not in sold]:
        raise InputError.at("book", f"it does not have {'; '.join(missing)}")
    try:
        document = tomlkit.parse(text)
        for group, sizes in _SOLD:
            for entry in document.get(group, []):
                for size in entry[sizes]:
                    if (price := prices.get((entry["name"].strip(), size["name"].strip()))) is not None:
                        _append(size, price)
        written = tomlkit.dumps(document)
        sound = parse_book(written) == _grown(before, prices)
    except Exception:  # the library lets out whatever goes wrong deep inside it; the check is what counts
        sound, written = False, ""
    if not sound:
        raise InputError.at("book", "it is laid out in a way that prices can't be added to; put them in by hand")
    return written


def _append(size: Any, price: Price) -> None:
    there = size["prices"]
    if isinstance(there, AoT):
        table = tomlkit.table()
        for name, value in price:
            table.append(name, toml_item(value))
        there.append(table)
    else:
        there.append(toml_item(price))


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
