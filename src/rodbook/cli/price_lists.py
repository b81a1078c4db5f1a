"""A merchant's or a workshop's price list against the book, printed row by row, and put into the book's file where wanted."""

from __future__ import annotations

import contextlib
import os
import tempfile
from datetime import date as Date  # noqa: N812
from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.terminal import table
from rodbook.errors import InputError, StoreError
from rodbook.job import Book
from rodbook.job.book import Price
from rodbook.job.files import add_charges, add_prices, blank_list, price_rows, read_book, text_in
from rodbook.money import (
    PriceList,
    WorkshopList,
    blank_charges,
    blank_prices,
    price_list,
    workshop_list,
    workshop_named,
)
from rodbook.papers.common.charges import charge_rows
from rodbook.papers.numbers import Numbers

__all__ = ["day_of", "price_list_command", "replace_file"]


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
        raise InputError.at(option, "form.not_a_day", typed=text.strip()) from None


@click.command("price-list")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--book", required=True, type=click.Path(path_type=Path), help="The firm's book.")
@click.option("--since", metavar="DAY", help="From which day the list holds, as 2026-12-01.")
@click.option("--workshop", metavar="NAME", help="It is a workshop's list of what it charges, not a merchant's.")
@click.option("--source", help="Whose list it is, and of when; the file's name where left out.")
@click.option("--sheet", help="Sheet of a workbook; the first one where left out.")
@click.option("--write", is_flag=True, help="Put the new prices into the book, beside those that it has.")
@click.option("--blank", is_flag=True, help="Write a blank list to FILE, to be filled in, and read nothing.")
def price_list_command(
    file: Path,
    book: Path,
    since: str | None,
    workshop: str | None,
    source: str | None,
    sheet: str | None,
    *,
    write: bool,
    blank: bool,
) -> None:
    """Hold a price list (CSV or XLSX) against the book and print what would change.

    A merchant's list needs headings for name and price; names are those of the book's sheets and lengths. A workshop's list
    needs headings for charge and price; --blank writes one that has every charge. Nothing that the book has is overwritten:
    new prices stand beside the old, with the day from which they hold.
    """
    the_book = read_book(book)
    if workshop is not None:
        workshop = workshop_named(the_book, workshop).name
    if blank:
        _blank(file, the_book, workshop)
        return
    if since is None:
        raise InputError.at("--since", "cli.no_since")
    day, answer = day_of("--since", since), source or f"list {file.name}"
    rows = price_rows(file, sheet)
    if workshop is not None:
        charges = workshop_list(rows, the_book, workshop, since=day, source=answer)
        _print_charges(charges, the_book, paper_wide(the_book))
        text = add_charges(text_in(book), charges.workshop, charges.sets) if charges.sets else ""
        _kept(book, text, len(charges.changes), write=write)
        return
    result = price_list(rows, the_book, since=day, source=answer)
    _print(result, the_book, paper_wide(the_book))
    new = Price.model_validate  # one price for each change, all from the same list
    prices = {
        (c.stock, c.name): new({"amount": c.after, "since": result.since, "source": result.source})
        for c in result.changes
    }
    text = add_prices(text_in(book), prices) if prices else ""
    _kept(book, text, len(prices), write=write)


def _kept(book: Path, text: str, count: int, *, write: bool) -> None:
    """Put the book's new text into its file, where that is wanted; or say that it was not."""
    if not write:
        if text:
            click.echo("Nothing was written; --write puts these prices into the book.")
        return
    if not text:
        click.echo("Nothing to write: the book has these prices already.")
        return
    replace_file(book, text)
    click.echo(f"Put {count} {'price' if count == 1 else 'prices'} into {book}.")


def _blank(file: Path, book: Book, workshop: str | None) -> None:
    """A blank list beside nothing that is there already."""
    rows = blank_prices(book) if workshop is None else blank_charges(book)
    content = blank_list(rows, file.suffix.lower().removeprefix("."))
    try:
        with file.open("xb") as out:
            out.write(content)
    except FileExistsError:
        raise StoreError("cli.list_there_already", path=file) from None
    except OSError as error:
        raise StoreError("file.cant_be_written", path=file, reason=error.strerror or str(error)) from None
    click.echo(f"Wrote {file}, a blank list of {len(rows) - 1} rows.")


def _print_charges(result: WorkshopList, book: Book, console: Console) -> None:
    write = Numbers.of(book)
    if result.changes:
        right = ("row", "until now", "new", "change")
        rows = table("row", "charge", "per", "until now", "new", "change", "from", right=right)
        for row in charge_rows(result, write):
            rows.add_row(*(cell or "–" for cell in row))
        console.print(rows)
    else:
        console.print("No charge would change.")
    for remark in result.remarks:
        console.print(str(remark), highlight=False, markup=False)
    for what, names in (("Stay as they are", result.unchanged), ("Not in the list", result.not_listed)):
        if names:
            console.print(f"{what}: {'; '.join(names)}.", highlight=False, markup=False)


def _print(result: PriceList, book: Book, console: Console) -> None:
    write = Numbers.of(book)
    if result.changes:
        rows = table(
            "row",
            "as sold",
            "of what",
            "until now",
            "new price",
            "change",
            right=("row", "until now", "new price", "change"),
        )
        for change in result.changes:
            before = "–" if change.before is None else write.money(change.before)
            more = "–" if change.percent is None else write.in_hundred(change.percent, signed=True)
            rows.add_row(str(change.row), change.name, change.stock, before, write.money(change.after), more)
        console.print(rows)
    else:
        console.print("No price would change.")
    for row, shown, name in result.nearly:
        console.print(f"Row {row}, {shown!r}, was left alone; the book has {name!r}.", highlight=False, markup=False)
    for what, names in (("Stay as they are", result.unchanged), ("Not in the list", result.not_listed)):
        if names:
            console.print(f"{what}: {'; '.join(names)}.", highlight=False, markup=False)


def replace_file(path: Path, text: str) -> None:
    """Write a file anew, whole or not at all."""
    try:
        mode = path.stat().st_mode & 0o777
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    except OSError as error:
        raise StoreError("file.cant_be_written", path=path, reason=error.strerror or str(error)) from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as out:
            out.write(text)
        Path(beside).chmod(mode)
        Path(beside).replace(path)
    except OSError as error:
        with contextlib.suppress(OSError):
            Path(beside).unlink()
        raise StoreError("file.cant_be_written", path=path, reason=error.strerror or str(error)) from None
