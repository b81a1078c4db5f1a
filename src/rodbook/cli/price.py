"""A job's price on a terminal: the firm's own view, costs and earnings included."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import click
from babel.numbers import format_currency
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import print_aside, put_paper, table
from rodbook.cli.working_out import plan_options, say_aside, say_unconfirmed, work_out_apart
from rodbook.papers.numbers import Numbers
from rodbook.plan import (
    Plan,
    Pricing,
    left_out_in_words,
    price_job,
)
from rodbook.plan.analyses.unconfirmed import PaperFor
from rodbook.working import percent

__all__ = ["price", "print_price"]


def print_price(plan: Plan, pricing: Pricing, console: Console) -> None:
    """Print each line with what it costs and earns, the sums, taxes and options.

    Parameters
    ----------
    plan : Plan
    pricing : Pricing
    console : Console
    """
    price, book = pricing.price, plan.book

    def money(amount: Decimal) -> str:
        return str(format_currency(amount, book.currency, locale=book.locale))

    print_aside(plan, console)
    write = Numbers.of(book)
    console.print(left_out_in_words(pricing.left_out, write.hours), highlight=False, markup=False)
    columns = ("line", "cost", "overhead", "contingency", "earned", "net")
    rows = table(*columns, right=columns[1:])
    for line in price.lines:
        amounts = (line.cost, line.overhead, line.contingency, line.earned, line.net)
        rows.add_row(line.name, *map(money, amounts))
    rows.add_section()
    rows.add_row("together", *map(money, (price.cost, price.overhead, price.contingency, price.earned, price.net)))
    console.print(rows)
    if price.margin is not None and price.mark_up is not None:
        margin, mark_up = percent(100 * price.margin, 1), percent(100 * price.mark_up, 1)
        console.print(f"Margin {margin} of the price, which is a mark-up of {mark_up} on cost.")
    if price.rounding:
        console.print(
            f"Equal lines have equal prices: rounding each of them moves the price by {money(price.rounding)}."
        )
    if pricing.rules.confidence is not None:
        console.print(
            f"Parts cost {money(pricing.parts_cost)} on average; {money(pricing.contingency)} are put on it, so that "
            f"{100 * pricing.rules.confidence:.0f} such jobs of 100 do not cost more."
        )
    for tax in price.taxes:
        console.print(f"{tax.name}, {percent(tax.percent)} on {money(tax.on)}: {money(tax.amount)}.")
    console.print(f"To pay: {money(price.gross)}. It holds until {Numbers.of(book).date(price.valid_until)}.")
    for option in price.options:
        console.print(f"Option, {option.name}: {money(option.net)} net, {money(option.gross)} with tax.")


@click.command()
@plan_options
@click.option("--paper", type=click.Path(path_type=Path, dir_okay=False), help="Write the client's price as a PDF.")
def price(job: Path, book: Path | None, seconds: float, seed: int, paper: Path | None) -> None:
    """Make a job's price and print how it comes about; the client's paper shows none of that.

    An opening or panel that can't be built stands aside, and the price and the paper say that it is not in it; the code
    that comes back is then 3.
    """
    the_book, whose = book_for(job, book)
    the_plan = work_out_apart(job, the_book, seconds, seed)
    result = price_job(the_plan)
    print_price(the_plan, result, paper_wide(the_book))
    say_unconfirmed(the_plan, PaperFor.CLIENT)
    if paper is not None:
        from rodbook.papers import price_pdf

        put_paper(paper, price_pdf(the_plan, result))
    click.echo(f"Book: {whose}")
    say_aside(the_plan)
