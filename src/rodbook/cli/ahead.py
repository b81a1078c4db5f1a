"""Leaves that waste less board, on a terminal."""

from __future__ import annotations

from pathlib import Path

import click
from babel.numbers import format_currency
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import short_size, table
from rodbook.cli.working_out import only_ours_on_stdout, progress
from rodbook.errors import InputError, Unread
from rodbook.job import Book
from rodbook.job.files import (
    read_job,
)
from rodbook.job.units import parse_length
from rodbook.plan import LESS_MM, MORE_MM, Ahead, frame_ahead, plan_parts
from rodbook.working import percent

__all__ = ["ahead"]


def print_ahead(results: tuple[Ahead, ...], book: Book, console: Console) -> None:
    """Print, for each leaf that is wanted, what could be had instead and what the whole job's boards then come to.

    Parameters
    ----------
    results : tuple of Ahead
    book : Book
        For the currency.
    console : Console
    """
    if not results:
        console.print("No opening of this job is still to be framed.")
        return
    rows = table(
        "openings", "leaf, mm", "frame to, mm", "sheets", "boards", "used", "", right=("sheets", "boards", "used")
    )
    for ahead in results:
        for place, offer in enumerate(ahead.offers):
            text = "as wanted" if offer.wanted else "cheapest" if place == 0 else ""
            rows.add_row(
                ", ".join(ahead.openings) if place == 0 else "",
                short_size(*offer.leaf),
                short_size(*offer.framed),
                str(offer.sheets),
                format_currency(offer.cost, book.currency, locale=book.locale),
                percent(100 * offer.used, 0),
                text,
            )
        rows.add_section()
    console.print(rows)
    console.print(
        "Each leaf is tried with the others as they are, everything made on site; sheets and money are of the whole job."
    )


def _length(option: str, text: str) -> float:
    """A length from an option, with a decimal comma or point."""
    try:
        return parse_length(text)
    except Unread as error:
        raise InputError.at(option, error.message) from None


@click.command("frame-ahead")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--less", default=f"{LESS_MM:g}", show_default=True, help="A leaf may be so much smaller, mm.")
@click.option("--more", default=f"{MORE_MM:g}", show_default=True, help="A leaf may be so much larger, mm.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job.")
def ahead(job: Path, less: str, more: str, book: Path | None) -> None:
    """Look for leaves near the wanted ones that waste less board, for openings still to be framed."""
    the_book, whose = book_for(job, book)
    the_job = read_job(job, the_book)
    if aside := plan_parts(the_job, the_book).aside:
        raise InputError(fault for one in aside for fault in one.faults)
    with progress() as tell, only_ours_on_stdout():
        result = frame_ahead(
            the_job,
            the_book,
            less=_length("--less", less),
            more=_length("--more", more),
            on_try=lambda done, of: tell("leaves tried", done, of),
        )
    print_ahead(result, the_book, paper_wide(the_book))
    click.echo(f"Book: {whose}")
