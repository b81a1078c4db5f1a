"""A merchant's price list against the book, printed row by row, and put into the book's file where that is wanted."""

from __future__ import annotations

import contextlib
import os
import tempfile
from datetime import date as Date  # noqa: N812
from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.commands import paper_wide
from rodbook.cli.terminal import table
from rodbook.errors import InputError, StoreError
from rodbook.job import Book
from rodbook.job.book import Price
from rodbook.job.files import add_prices, price_rows, read_book
from rodbook.money import PriceList, price_list
from rodbook.papers.numbers import Numbers

__all__ = ["day_of", "price_list_command"]


def day_of(option: str, text: str) -> Date:
    """A day as an option has it.

    Raises
    ------
    InputError
        If it is none.
    """
    try:
        return Date.fromisoformat(text.strip())
    except ValueError:
        raise InputError.at(option, f"{text.strip()!r} is not a day; write it as 2026-12-01") from None


@click.command("price-list")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--book", required=True, type=click.Path(path_type=Path), help="The firm's book.")
@click.option("--since", required=True, metavar="DAY", help="From which day the list holds, as 2026-12-01.")
@click.option("--source", help="Whose list it is, and of when; the file's name where left out.")
@click.option("--sheet", help="Sheet of a workbook; the first one where left out.")
@click.option("--write", is_flag=True, help="Put the new prices into the book, beside those that it has.")
def price_list_command(
    file: Path, book: Path, since: str, source: str | None, sheet: str | None, *, write: bool
) -> None:
    """Hold a merchant's price list (CSV or XLSX) against the book and print what would change.

    The list needs headings for name and price; names are those of the book's sheets and lengths. Nothing that the book has
    is overwritten: new prices stand beside the old, with the day from which they hold.
    """
    the_book = read_book(book)
    found = price_list(
        price_rows(file, sheet), the_book, since=day_of("--since", since), source=source or f"list {file.name}"
    )
    _print(found, the_book, paper_wide())
    if not write:
        if found.changes:
            click.echo("Nothing was written; --write puts these prices into the book.")
        return
    new = Price.model_validate  # one price for each change, all from the same list
    prices = {
        (c.stock, c.name): new({"amount": c.after, "since": found.since, "source": found.source}) for c in found.changes
    }
    if not prices:
        click.echo("Nothing to write: the book has these prices already.")
        return
    _replace(book, add_prices(book.read_text("utf-8-sig"), prices))
    click.echo(f"Put {len(prices)} {'price' if len(prices) == 1 else 'prices'} into {book}.")


def _print(found: PriceList, book: Book, console: Console) -> None:
    write = Numbers(book.locale, book.currency)
    if found.changes:
        rows = table(
            "row",
            "as sold",
            "of what",
            "until now",
            "new price",
            "change",
            right=("row", "until now", "new price", "change"),
        )
        for change in found.changes:
            before = "–" if change.before is None else write.money(change.before)
            percent = "–" if change.percent is None else f"{change.percent:+} %"
            rows.add_row(str(change.row), change.name, change.stock, before, write.money(change.after), percent)
        console.print(rows)
    else:
        console.print("No price would change.")
    for row, shown, name in found.nearly:
        console.print(f"Row {row}, {shown!r}, was left alone; the book has {name!r}.", highlight=False, markup=False)
    for what, names in (("Stay as they are", found.unchanged), ("Not in the list", found.not_listed)):
        if names:
            console.print(f"{what}: {'; '.join(names)}.", highlight=False, markup=False)


def _replace(path: Path, text: str) -> None:
    """Write a file anew, whole or not at all."""
    try:
        mode = path.stat().st_mode & 0o777
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    except OSError as error:
        raise StoreError(f"{path} can't be written: {error.strerror or error}.") from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as out:
            out.write(text)
        Path(beside).chmod(mode)
        Path(beside).replace(path)
    except OSError as error:
        with contextlib.suppress(OSError):
            Path(beside).unlink()
        raise StoreError(f"{path} can't be written: {error.strerror or error}.") from None
