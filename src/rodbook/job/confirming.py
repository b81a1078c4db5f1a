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

__all__ = ["Figure", "FigureKind", "confirm", "confirmed", "marked_as", "unconfirmed"]


class FigureKind(StrEnum):
    """What an unconfirmed entry of a book is."""

    FIRM = "firm"
    SHEET = "sheet"
    LENGTH = "length"
    RATE = "rate"
    WORKSHOP = "workshop"
    TAX = "tax"
    CREW = "crew"
    OFFCUT = "offcut"


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
    yield from _in_the_shop(book)
    sold: list[tuple[str, FigureKind, str, SheetSize | LengthSize]] = [
        *(
            (f"boards[{n}].sheets[{m}]", FigureKind.SHEET, b.name, size)
            for n, b in enumerate(book.boards, 1)
            for m, size in enumerate(b.sheets, 1)
        ),
        *(
            (f"sections[{n}].lengths[{m}]", FigureKind.LENGTH, s.name, size)
            for n, s in enumerate(book.sections, 1)
            for m, size in enumerate(s.lengths, 1)
        ),
    ]
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


def _in_the_shop(book: Book) -> Iterator[Figure]:
    """Who works, and what lies there."""
    for n, member in enumerate(book.dates.crew, 1):
        if not member.confirmed:
            yield Figure(f"dates.crew[{n}]", FigureKind.CREW, member.name)
    for n, board in enumerate(book.boards, 1):
        for m, offcut in enumerate(board.offcuts, 1):
            if not offcut.confirmed:
                yield Figure(f"boards[{n}].offcuts[{m}]", FigureKind.OFFCUT, offcut.label, board.name)


_STEP = re.compile(r"([a-z_]+)(?:\[([1-9][0-9]{0,5})\])?")


def _entry(document: Any, path: str) -> Any:
    """The table at a place of a book's document."""
    result = document
    for step in path.split("."):
        name = _STEP.fullmatch(step)
        if name is None:
            raise KeyError(step)
        result = result[name[1]]
        if name[2]:
            result = result[int(name[2]) - 1]
    return result


_LISTS = (
    ("dates", "crew"),
    ("boards", "sheets", "prices"),
    ("boards", "offcuts"),
    ("sections", "lengths", "prices"),
    ("rates",),
    ("workshops", "rates"),
    ("taxes",),
)
"""Where entries that may be marked stand in a book's document, besides the firm."""

_NAMED_BY = ("name", "label")
"""What entries of a list that holds further ones are known by."""


def _entries(
    document: Any, steps: tuple[str, ...], above: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], dict[str, Any]]]:
    """Every entry of a list in a document, with the names of what it stands in."""
    result = document.get(steps[0]) if isinstance(document, dict) else None
    if len(steps) == 1:
        yield from ((above, entry) for entry in result or () if isinstance(entry, dict))
        return
    for inner in result if isinstance(result, list | tuple) else (result,):
        if isinstance(inner, dict):
            name = next((str(inner[by]) for by in _NAMED_BY if by in inner), "")
            yield from _entries(inner, steps[1:], (*above, name))


def _same(entry: Mapping[str, Any]) -> str:
    """What an entry says, however it is laid out, without its mark."""
    return repr(sorted((name, repr(value)) for name, value in entry.items() if name != "confirmed"))


def marked_as(document: Mapping[str, Any], sample: Mapping[str, Any]) -> tuple[dict[str, Any], int]:
    """A book's document with a mark on all that equals the sample's, for a book that was begun before there were marks.

    The firm is marked by its name; a price, rate, charge, tax, crew member and offcut where all of it is as in the sample, and in
    the same place there. What is the firm's own stays as it is.

    Parameters
    ----------
    document, sample : mapping
        Plain values, both as the model library writes them.

    Returns
    -------
    tuple of dict and int
        The document, a new one, and how many entries are marked.
    """
    changed = copy.deepcopy(dict(document))
    marked = 0
    for steps in _LISTS:
        known = {(above, _same(entry)) for above, entry in _entries(sample, steps)}
        for above, entry in _entries(changed, steps):
            if (above, _same(entry)) in known:
                entry["confirmed"] = False
                marked += 1
    firm, samples = changed.get("firm"), sample.get("firm")
    if isinstance(firm, dict) and isinstance(samples, Mapping) and firm.get("name") == samples.get("name"):
        firm["confirmed"] = False
        marked += 1
    return changed, marked


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
            raise InputError.at(path, "book.nothing_to_confirm")
        del entry["confirmed"]


def confirmed(document: Mapping[str, Any], paths: Collection[str]) -> dict[str, Any]:
    """Plain values of a book with the mark taken off entries; what was handed in is left as it was."""
    changed = copy.deepcopy(dict(document))
    confirm(changed, paths)
    return changed
