"""A job as it was priced against another day's prices and times, on a terminal and as a paper."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.price_lists import day_of
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import put_paper, table
from rodbook.cli.working_out import work_out
from rodbook.job import Book
from rodbook.job.files import read_job
from rodbook.papers.numbers import Numbers
from rodbook.papers.repricing.content import repricing_rows
from rodbook.plan import JobRepriced, reprice_job

__all__ = ["repricing"]


@click.command("re-price")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--on", metavar="DAY", help="Day whose prices and times are taken, as 2027-02-01; today where left out.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job.")
@click.option("--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write it as a paper too.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def repricing(job: Path, on: str | None, book: Path | None, pdf: Path | None, seconds: float) -> None:
    """Hold a job as it was priced against another day's book: what moved, what is left, what to ask for."""
    now = day_of("--on", on) if on else datetime.now().astimezone().date()
    the_book, whose = book_for(job, book)
    plan = work_out(read_job(job, the_book), the_book, seconds, 0)
    result = reprice_job(plan, now)
    _print(result, the_book, paper_wide(the_book))
    if pdf is not None:
        from rodbook.papers import repricing_pdf

        put_paper(pdf, repricing_pdf(plan, result))
    click.echo(f"Book: {whose}")


def _print(result: JobRepriced, book: Book, console: Console) -> None:
    write = Numbers.of(book)
    rows = repricing_rows(result, write)
    for sentence in result.repriced.sentences:
        console.print(sentence, highlight=False, markup=False)
    then, now = write.date(result.repriced.then), write.date(result.repriced.now)
    if rows.moved:
        moved = table("what moved", then, now, "more or less", right=(then, now, "more or less"))
        for row in rows.moved:
            moved.add_row(*row)
        console.print(moved)
    sums = table("", then, f"{now} " if now == then else now, right=(then, now))
    for sum_row in rows.sums:
        sums.add_row(*sum_row)
    console.print(sums)
    if len(rows.index) > 1:
        index = table("day", "index", "moved most since the first day, in points", right=("index",))
        for index_row in rows.index:
            index.add_row(*index_row)
        console.print(index)
    for remark in rows.remarks:
        console.print(remark, highlight=False, markup=False)
