"""Workshops' lists held against a job's order and against each other, on a terminal."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date as Date  # noqa: N812
from datetime import datetime
from decimal import Decimal
from functools import partial
from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.price_lists import day_of
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import put_paper, table
from rodbook.cli.working_out import work_out
from rodbook.errors import Fault, InputError, Unread
from rodbook.job import Book
from rodbook.job.amounts import money_example, read_money
from rodbook.job.files import price_rows, read_job
from rodbook.job.models import Making
from rodbook.money import Quote, QuotesHeld, hold_quotes, quote_lines
from rodbook.papers.numbers import Numbers
from rodbook.papers.quotes.content import quote_cells

__all__ = ["quotes_command"]


def _amount(option: str, typed: str, book: Book) -> Decimal:
    """An amount as an option has it, in the book's currency and way of writing.

    Raises
    ------
    InputError
        If it is none.
    """
    try:
        value = read_money(typed, book.currency, book.locale)
    except Unread as error:
        raise InputError.at(option, error.message) from None
    if value < 0:
        raise InputError.at(option, "cli.amount_below_zero", typed=typed.strip(), example=money_example(book.locale))
    return value


def _whole(option: str, typed: str) -> int:
    """A number of days as an option has it.

    Raises
    ------
    InputError
        If it is none.
    """
    if not (typed.strip().isdecimal() and len(typed.strip()) < 4):
        raise InputError.at(option, "cli.not_whole_days", typed=typed.strip())
    return int(typed)


def _named[T](option: str, texts: Sequence[str], names: Sequence[str], read: Callable[[str, str], T]) -> dict[str, T]:
    """What an option gives by workshop, as NAME=AMOUNT, NAME=DAYS or NAME=DAY.

    Raises
    ------
    InputError
        With every one that is not of a list that is there, or can't be read.
    """
    results: dict[str, T] = {}
    faults: list[Fault] = []
    for text in texts:
        name, _, typed = (part.strip() for part in text.rpartition("="))
        try:
            if name not in names:
                faults.append(Fault(option, "cli.unknown_list", name=name or text, names=names))
            else:
                results[name] = read(option, typed)
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    return results


@click.command("quotes")
@click.argument("job", type=click.Path(path_type=Path))
@click.argument("lists", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--delivery", multiple=True, metavar="NAME=AMOUNT", help="What a workshop's delivery costs.")
@click.option("--least", multiple=True, metavar="NAME=AMOUNT", help="Its least charge, before delivery.")
@click.option("--lead", multiple=True, metavar="NAME=DAYS", help="Working days from order to delivery.")
@click.option("--until", multiple=True, metavar="NAME=DAY", help="Until which day it is valid, as in mill=2026-12-31.")
@click.option("--needed", type=click.IntRange(0, 999), help="Working days until the parts are needed.")
@click.option(
    "--trouble", default="0", metavar="AMOUNT", help="What each further workshop costs in time and telephone."
)
@click.option("--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write it as a paper too.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def quotes_command(
    job: Path,
    lists: tuple[Path, ...],
    delivery: tuple[str, ...],
    least: tuple[str, ...],
    lead: tuple[str, ...],
    until: tuple[str, ...],
    needed: int | None,
    trouble: str,
    pdf: Path | None,
    book: Path | None,
    seconds: float,
) -> None:
    """Hold workshops' lists (CSV or XLSX) against what a job orders, line by line, and say to whom to give which parts.

    A list has the headings mark, and amount or each; perhaps how many, made from and currency. A workshop is called as its
    file is, without the ending.
    """
    names = [path.stem for path in lists]
    if len(set(names)) < len(names):
        raise InputError.at("lists", "cli.lists_named_alike")
    the_book, whose = book_for(job, book)
    extra = _amount("--trouble", trouble, the_book)
    deliveries, charges = (
        _named(option, texts, names, partial(_amount, book=the_book))
        for option, texts in (("--delivery", delivery), ("--least", least))
    )
    leads, valid = _named("--lead", lead, names, _whole), _named("--until", until, names, day_of)
    plan = work_out(read_job(job, the_book), the_book, seconds, 0)
    order = plan.lines_made(Making.BOUGHT) or plan.schedule
    wanted = {line.mark: line.quantity for line in order}
    today = datetime.now().astimezone().date()
    quotes = [
        Quote(
            name,
            min(today, valid.get(name, today)),
            valid.get(name, Date.max),
            the_book.currency,
            leads.get(name, 0),
            quote_lines(price_rows(path), wanted, the_book.currency, the_book.locale),
            delivery=deliveries.get(name, Decimal(0)),
            least_order=charges.get(name, Decimal(0)),
        )
        for name, path in zip(names, lists, strict=True)
    ]
    held = hold_quotes(order, quotes, currency=the_book.currency, day=today, needed_days=needed, trouble=extra)
    console = paper_wide(the_book)
    _print(held, Numbers.of(the_book), console)
    console.print(held.sentence, style="bold", highlight=False, markup=False)
    if pdf is not None:
        from rodbook.papers import quotes_pdf

        put_paper(pdf, quotes_pdf(plan, held))
    click.echo(f"Book: {whose}")


def _print(held: QuotesHeld, write: Numbers, console: Console) -> None:
    result = held.compared
    names = [each.quote.workshop for each in result]
    rows = table("mark", "kind", "how many", *names, right=("how many", *names))
    for line, cells in quote_cells(held.order, result, write):
        rows.add_row(line.mark, str(line.part.kind), str(line.quantity), *(cell.text for cell in cells))
    rows.add_section()
    sums = ["" if each.comparable is None else write.money(each.comparable) for each in result]
    rows.add_row("as ordered, delivered", "", "", *sums)
    console.print(rows)
    for each, verdict in zip(result, held.verdicts, strict=True):
        console.print(f"\n{each.quote.workshop}", style="bold", highlight=False, markup=False)
        console.print(verdict.sentence, highlight=False, markup=False)
        for finding in each.findings:
            console.print(finding.sentence, highlight=False, markup=False)
        if each.filled and each.comparable is not None:
            filled = ", ".join(each.filled)
            console.print(f"Filled in at the best price of another: {filled}.", highlight=False, markup=False)
        if not each.findings:
            console.print("It is as ordered.")
    console.print()
