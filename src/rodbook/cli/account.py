"""A job's account on a terminal: what was priced, reckoned with and taken, and what hours say of the book's times."""

from __future__ import annotations

from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import put_paper, table
from rodbook.cli.working_out import work_out
from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.actuals import Actuals
from rodbook.job.files import read_actuals, read_job
from rodbook.money import rate_update, site_rates
from rodbook.money.rates.names import Counted, counted_in
from rodbook.papers.account.content import account_rows
from rodbook.papers.numbers import Numbers
from rodbook.plan import JobAccount, account_of, time_entries

__all__ = ["account"]


@click.command()
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "--actuals",
    "took",
    type=click.Path(path_type=Path),
    help="Hours and invoices as TOML; else JOB.actuals.toml beside the job.",
)
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the job.")
@click.option("--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write it as a paper too.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def account(job: Path, took: Path | None, book: Path | None, pdf: Path | None, seconds: float) -> None:
    """Hold what a job took against its price and its plan, and say what is left.

    Hours stand in the file as [[hours]] with day, person, task, hours and perhaps done; invoices as [[invoices]] with supplier,
    number, day, currency and lines. Nothing goes into the book by itself.
    """
    the_book, whose = book_for(job, book)
    kept = read_actuals(took or job.with_suffix(".actuals.toml"))
    plan = work_out(read_job(job, the_book), the_book, seconds, 0)
    result = account_of(plan, kept)
    console = paper_wide(the_book)
    for sentence in result.account.sentences:
        console.print(sentence, highlight=False, markup=False)
    _print(result, the_book, console)
    _print_updates(kept, the_book, console)
    if pdf is not None:
        from rodbook.papers import account_pdf

        put_paper(pdf, account_pdf(plan, result))
    click.echo(f"Book: {whose}")


def _print(result: JobAccount, book: Book, console: Console) -> None:
    rows = account_rows(result, Numbers.of(book))
    columns = ("what", "hours planned", "hours taken", "cost planned", "cost", "still to come", "more or less")
    lines = table(*columns, right=columns[1:])
    for row in rows.lines:
        lines.add_row(*row)
    lines.add_section()
    lines.add_row(*rows.together)
    console.print(lines)
    sums = table("", "reckoned", rows.ends, right=("reckoned", rows.ends))
    for sum_row in rows.sums:
        sums.add_row(*sum_row)
    console.print(sums)
    for sentence in rows.remarks:
        console.print(sentence, highlight=False, markup=False)


def _print_updates(kept: Actuals, book: Book, console: Console) -> None:
    """What the hours say of the book's times; those that hold since the hours or later are left out."""
    if not kept.hours:
        return
    last = max(entry.day for entry in kept.hours)
    try:
        rates = site_rates(book, last).all()
    except InputError:
        return
    entries = time_entries(kept)
    for name in dict.fromkeys(entry.task for entry in entries):
        rate = rates.get(name)
        if rate is None or not rate.value or counted_in(rate.unit) != Counted.MINUTES:
            continue
        own = [(e, k.sure) for e, k in zip(entries, kept.hours, strict=True) if e.task == name and e.day > rate.since]
        if not own:
            continue
        sure = [number for number, (_, is_sure) in enumerate(own, 1) if is_sure]
        update = rate_update(rate, [entry for entry, _ in own], day=last, confirmed=sure)
        console.print(update.sentence, highlight=False, markup=False)
        for question in update.questions:
            console.print(f"  {question.sentence} (sure = true)", highlight=False, markup=False)
