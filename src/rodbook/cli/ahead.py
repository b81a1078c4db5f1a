"""Leaves that waste less board, on a terminal."""

from __future__ import annotations

from babel.numbers import format_currency
from rich.console import Console

from rodbook.cli.terminal import short_size, table
from rodbook.job import Book
from rodbook.plan import Ahead
from rodbook.working import percent

__all__ = ["print_ahead"]


def print_ahead(found: tuple[Ahead, ...], book: Book, console: Console) -> None:
    """Print, for each leaf that is wanted, what could be had instead and what the whole job's boards then come to.

    Parameters
    ----------
    found : tuple of Ahead
    book : Book
        For the currency.
    console : Console
    """
    if not found:
        console.print("No opening of this job is still to be framed.")
        return
    rows = table(
        "openings", "leaf, mm", "frame to, mm", "sheets", "boards", "used", "", right=("sheets", "boards", "used")
    )
    for ahead in found:
        for place, offer in enumerate(ahead.offers):
            said = "as wanted" if offer.wanted else "cheapest" if place == 0 else ""
            rows.add_row(
                ", ".join(ahead.openings) if place == 0 else "", short_size(*offer.leaf), short_size(*offer.framed),
                str(offer.sheets), format_currency(offer.cost, book.currency, locale=book.locale),
                percent(100 * offer.used, 0), said,
            )  # fmt: skip
        rows.add_section()
    console.print(rows)
    console.print(
        "Each leaf is tried with the others as they are, everything made on site; sheets and money are of the whole job."
    )
