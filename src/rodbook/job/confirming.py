"""Figures that came with a sample: which of a book's nobody has confirmed yet, each by its place, and confirming them. Pure."""

from __future__ import annotations

import copy
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from enum import StrEnum
from typing import Any

from rodbook.errors import InputError
from rodbook.job.book import Book, LengthSize, SheetSize

__all__ = ["Figure", "FigureKind", "confirm", "confirmed", "unconfirmed"]


class FigureKind(StrEnum):
    """What an unconfirmed entry of a book is."""

    FIRM = "firm"
    SHEET = "sheet"
    LENGTH = "length"
    RATE = "rate"
    WORKSHOP = "workshop"
    TAX = "tax"


@dataclass(frozen=True)
class Figure:
    """An entry of a book that nobody has confirmed.

    Parameters
    ----------
    path : str
        Its place in the document, counted from 1, such as ``rates[3]``.
    kind : FigureKind
    name : str
        The firm, the size as sold, the rate, the workshop or the tax.
    of : str
        The board or section of a size; empty otherwise.
    value : Decimal or float, optional
        Where it is one figure. [`unit`]
    unit : str
        Of a rate; empty for a price, which is in the book's currency.
    since : date, optional
    source : str
    """

    path: str
    kind: FigureKind
    name: str
    of: str = ""
    value: Decimal | float | None = None
    unit: str = ""
    since: Date | None = None
    source: str = ""


def unconfirmed(book: Book) -> tuple[Figure, ...]:
    """Every entry of a book that nobody has confirmed, in the document's order."""
    return tuple(_found(book))


def _found(book: Book) -> Iterator[Figure]:
    if not book.firm.confirmed:
        yield Figure("firm", FigureKind.FIRM, book.firm.name)
    sold: list[tuple[str, FigureKind, str, SheetSize | LengthSize]] = [
        *((f"boards[{n}].sheets[{m}]", FigureKind.SHEET, b.name, size)
          for n, b in enumerate(book.boards, 1) for m, size in enumerate(b.sheets, 1)),
        *((f"sections[{n}].lengths[{m}]", FigureKind.LENGTH, s.name, size)
          for n, s in enumerate(book.sections, 1) for m, size in enumerate(s.lengths, 1)),
    ]  # fmt: skip
    for place, kind, of, size in sold:
        for n, price in enumerate(size.prices, 1):
            if not price.confirmed:
                path = f"{place}.prices[{n}]"
                yield Figure(path, kind, size.name, of, price.amount, since=price.since, source=price.source)
    for n, rate in enumerate(book.rates, 1):
        if not rate.confirmed:
            yield Figure(f"rates[{n}]", FigureKind.RATE, rate.name, "", rate.value, rate.unit, rate.since, rate.source)
    for n, shop in enumerate(book.workshops, 1):
        for m, rates in enumerate(shop.rates, 1):
            if not rates.confirmed:
                path = f"workshops[{n}].rates[{m}]"
                yield Figure(path, FigureKind.WORKSHOP, shop.name, since=rates.since, source=rates.source)
    for n, tax in enumerate(book.taxes, 1):
        if not tax.confirmed:
            yield Figure(f"taxes[{n}]", FigureKind.TAX, tax.name, since=tax.since, source=tax.source)


_STEP = re.compile(r"([a-z_]+)(?:\[([1-9][0-9]{0,5})\])?")


def _entry(document: Any, path: str) -> Any:
    """The table at a place of a book's document."""
    found = document
    for step in path.split("."):
        name = _STEP.fullmatch(step)
        if name is None:
            raise KeyError(step)
        found = found[name[1]]
        if name[2]:
            found = found[int(name[2]) - 1]
    return found


def confirm(document: Any, paths: Collection[str]) -> None:
    """Take the mark off entries of a book's document, which is changed.

    Parameters
    ----------
    document : mapping
        Plain values, or a document that keeps its comments.
    paths : collection of str
        Places as in `Figure.path`.

    Raises
    ------
    InputError
        If there is no such entry, or none that is unconfirmed.
    """
    for path in paths:
        try:
            entry = _entry(document, path)
            marked = entry["confirmed"] is False
        except (KeyError, IndexError, TypeError):
            marked = False
        if not marked:
            raise InputError.at(path, "nothing that waits to be confirmed stands here; look at the list again")
        del entry["confirmed"]


def confirmed(document: Mapping[str, Any], paths: Collection[str]) -> dict[str, Any]:
    """Plain values of a book with the mark taken off entries; what was handed in is left as it was."""
    changed = copy.deepcopy(dict(document))
    confirm(changed, paths)
    return changed
