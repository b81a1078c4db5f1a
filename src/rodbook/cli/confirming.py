"""Figures of a book that nobody has confirmed, on a terminal: listed, and confirmed in the book's file."""

from __future__ import annotations

from pathlib import Path

import click
import tomlkit

from rodbook.cli.console import paper_wide
from rodbook.cli.price_lists import replace_file
from rodbook.cli.terminal import table
from rodbook.errors import InputError
from rodbook.job.confirming import confirm, unconfirmed
from rodbook.job.files import parse_book, read_book, text_in
from rodbook.papers.common.unconfirmed import figure_rows
from rodbook.papers.numbers import Numbers

__all__ = ["confirm_command"]


@click.command("confirm")
@click.argument("book", type=click.Path(path_type=Path))
@click.argument("places", nargs=-1)
@click.option("--all", "every", is_flag=True, help="Every figure of the list holds.")
def confirm_command(book: Path, places: tuple[str, ...], *, every: bool) -> None:
    """List what a book has from a sample and nobody has confirmed; or say that the figures at PLACES hold.

    A place is what the list says first, such as rates[3]. Whatever you type into the book yourself is confirmed, as long as
    `confirmed = false` does not stand beside it.
    """
    the_book = read_book(book)
    figures = unconfirmed(the_book)
    if not places and not every:
        rows = table("place", "what", "figure", "since", "where it comes from", right=("figure",))
        for row in figure_rows(figures, Numbers.of(the_book)):
            rows.add_row(*row)
        if figures:
            paper_wide(the_book).print(rows)
        click.echo(f"{len(figures)} not confirmed." if figures else "Everything in it is confirmed.")
        return
    wanted = [figure.path for figure in figures] if every else list(dict.fromkeys(places))
    document = tomlkit.parse(text_in(book))
    confirm(document, wanted)
    written = tomlkit.dumps(document)
    left = {figure.path for figure in unconfirmed(parse_book(written))}
    if left != {figure.path for figure in figures} - set(wanted):
        raise InputError.at("book", "cli.marks_not_taken_off")
    replace_file(book, written)
    click.echo(f"{len(wanted)} confirmed in {book}; {len(left)} left.")
