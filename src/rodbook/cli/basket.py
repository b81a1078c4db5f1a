"""What several jobs buy, at the prices of the book through time: the firm's own index, on a terminal and as a paper."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.price_lists import day_of
from rodbook.cli.reading import book_for, read_jobs
from rodbook.cli.terminal import put_paper, table
from rodbook.cli.working_out import work_out
from rodbook.job import Book
from rodbook.money import FirmIndex, firm_basket, firm_index
from rodbook.papers.basket.content import basket_rows
from rodbook.papers.numbers import Numbers
from rodbook.plan import bought_together

__all__ = ["basket_command"]


@click.command("basket")
@click.argument("jobs", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--base", metavar="DAY", help="The day that is 100; else the first on which everything has a price.")
@click.option("--until", metavar="DAY", help="Up to which day, as 2027-02-01; today where left out.")
@click.option("--hours", is_flag=True, help="Count the crew's own hours too.")
@click.option("--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write it as a paper too, with its curve.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the first job.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def basket_command(
    jobs: tuple[Path, ...],
    base: str | None,
    until: str | None,
    pdf: Path | None,
    book: Path | None,
    seconds: float,
    *,
    hours: bool,
) -> None:
    """Hold what several jobs buy against the prices of the book through time.

    Sheets, lengths and workshops' charges of all the jobs are one basket; it stays, and its prices move.
    """
    today = datetime.now().astimezone().date()
    last = day_of("--until", until) if until else today
    first = day_of("--base", base) if base else None
    the_book, whose = book_for(jobs[0], book)
    plans = [work_out(job, the_book, seconds, 0) for job in read_jobs(jobs, the_book)]
    result = firm_index(firm_basket(the_book, bought_together(plans, hours=hours)), last, first)
    _print(result, the_book, len(plans), paper_wide(the_book))
    if pdf is not None:
        from rodbook.papers import basket_pdf

        put_paper(pdf, basket_pdf(the_book, result, [plan.job.job.name for plan in plans], day=today))
    click.echo(f"Book: {whose}")


def _print(result: FirmIndex, book: Book, jobs: int, console: Console) -> None:
    write = Numbers.of(book)
    rows = basket_rows(result, write, jobs)
    for sentence in rows.sentences:
        console.print(sentence, highlight=False, markup=False)
    days = table("day", "index", "moved most since the first day, in points", right=("index",))
    for day in rows.days:
        days.add_row(*day)
    console.print(days, "")
    groups = table("sort of thing", "cost then", "cost now", "index", right=("cost then", "cost now", "index"))
    for group in rows.groups:
        groups.add_row(*group)
    console.print(groups, "")
    columns = ("bought", "how much", "price then", "cost then", "price now", "cost now", "points")
    working = table(*columns, right=columns[1:])
    for line in rows.working:
        working.add_row(*line)
    working.add_section()
    working.add_row(*rows.sum)
    console.print(working)
    for remark in rows.remarks:
        console.print(remark, highlight=False, markup=False)
