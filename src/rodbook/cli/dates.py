"""Dates of one job or of several: who does what when, printed, and written as papers and calendar files."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path

import click
from babel.dates import format_date
from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for, read_jobs
from rodbook.cli.terminal import table
from rodbook.cli.working_out import work_out
from rodbook.dates import Programme, headline, hundred, order_said, planned_said, slip_said, wanted_said
from rodbook.plan import Plan
from rodbook.plan.schedule.dates import plan_dates, wanted_by
from rodbook.plan.schedule.dates_texts import DatesTexts, read_wanted
from rodbook.working import percent

__all__ = ["dates"]


def _today() -> Date:
    return datetime.now().astimezone().date()


@click.command()
@click.argument("jobs", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--crew", help="Who works, as in 'Ada, Ben: painting, Cleo: joinery+painting'; else the book's crew.")
@click.option("--start", default="", metavar="DAY", help="First day, as 2026-12-01; else the jobs' own, or today.")
@click.option("--by", default="", metavar="DAY", help="Day by which jobs are wanted that name none.")
@click.option(
    "--holidays", default="", metavar="CODE", help="Whose public holidays are kept: AT, DE-BY, US-VT; else the book's."
)
@click.option("--days", default="", help="Days of the week on which the firm works, as in mon-fri; else the book's.")
@click.option("--hours", default="", help="Of work in a day; the book's working day, else 8, where left out.")
@click.option(
    "--closed", multiple=True, metavar="DAY..DAY", help="When the firm is closed besides; may be given again."
)
@click.option("--off", multiple=True, metavar="NAME=DAY..DAY", help="When somebody is away; may be given again.")
@click.option(
    "--late", default="3", show_default=True, help="Show what moves if a delivery is so many working days late."
)
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the first job.")
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), help="Folder for the paper and the calendar files."
)
@click.option(
    "--effort",
    type=click.FloatRange(min=0, max=60),
    default=0.3,
    show_default=True,
    help="How much the search may do; 0.3 is a few seconds.",
)
@click.option("--seed", default=0, show_default=True, help="Of search and simulation.")
def dates(
    jobs: tuple[Path, ...],
    crew: str | None,
    start: str,
    by: str,
    holidays: str,
    days: str,
    hours: str,
    closed: tuple[str, ...],
    off: tuple[str, ...],
    late: str,
    book: Path | None,
    out: Path | None,
    effort: float,
    seed: int,
) -> None:
    """Plan the dates of jobs that share people.

    Who does what when, by when to order, which dates hold how surely, and what a late delivery moves.
    """
    the_book, whose = book_for(jobs[0], book)
    texts = DatesTexts(crew, start, by, holidays, days, hours, closed, off, late, the_book.locale)
    read = read_jobs(jobs, the_book)
    wanted = read_wanted(texts, wanted_by(the_book, read, today=_today()), prefix="--")
    plans = [work_out(job, the_book, 10.0, seed) for job in read]
    programme = plan_dates(plans, wanted, effort=effort, seed=seed)
    print_dates(programme, paper_wide(the_book), locale=the_book.locale)
    if out is not None:
        _write(programme, plans, out)
    click.echo(f"Book: {whose}")


def _write(programme: Programme, plans: list[Plan], out: Path) -> None:
    from rodbook.papers import write_dates

    written = write_dates(programme, plans, out, made=datetime.now().astimezone())
    click.echo(f"Dates in {out}:")
    for path in written:
        click.echo(f"  {path.name}")


def print_dates(programme: Programme, console: Console, *, locale: str) -> None:
    """Print a programme: by when it is handed over, what is done when, what is ordered by when, and how sure it is.

    Parameters
    ----------
    programme : Programme
    console : Console
    locale : str
        How days are written.
    """

    def written(day: Date) -> str:
        return str(format_date(day, "EEE d MMM", locale=locale))

    _print_top(programme, console, locale)
    if programme.done:
        lines = [f"{written(done.day)} {done.what}" for done in programme.done]
        console.print(f"Done: {'; '.join(lines)}.", highlight=False, markup=False)
    _print_tasks(programme, console, written)
    _print_orders(programme, console, written)
    sure = table("hand-over", "nine in ten by", "as likely as not by", "planned", "holds", right=("holds",))
    for finish in programme.schedule.finishes:
        likely = programme.chance.jobs[finish.work.key]
        sure.add_row(
            finish.work.name,
            written(likely.nine_in_ten),
            written(likely.half),
            written(likely.planned),
            percent(hundred(likely.holds), 0),
        )
    console.print(sure, "")
    for slip in programme.slips:
        console.print(slip_said(slip, written), highlight=False, markup=False)
    console.print(Text("What it rests on", style="bold"))
    for remark in programme.remarks:
        console.print(Padding(Text(str(remark)), (0, 0, 0, 2)))


def _print_top(programme: Programme, console: Console, locale: str) -> None:
    def written(day: Date) -> str:
        return str(format_date(day, "d MMMM y", locale=locale))

    console.print(Text(headline(programme, written), style="bold"))
    for work in programme.works:
        if answer := wanted_said(programme, work.key, written):
            text = f"{work.name}: {answer}" if len(programme.works) > 1 else answer
            console.print(text, highlight=False, markup=False)
    console.print(planned_said(programme, written), highlight=False, markup=False)


def _print_tasks(programme: Programme, console: Console, written: Callable[[Date], str]) -> None:
    several = len(programme.works) > 1
    names = {work.key: work.name for work in programme.works}
    rows = table("from", "to", "what", "who", *(["job"] if several else []), "may be later", right=("may be later",))
    quarters = programme.calendar.quarters
    for entry in programme.to_do:
        spare = programme.floats[entry.task.key] // quarters
        first, last = programme.start_of(entry), programme.end_of(entry)
        rows.add_row(
            written(first),
            "" if first == last else written(last),
            entry.task.name,
            ", ".join(entry.people),
            *([names[entry.task.job]] if several else []),
            f"{spare} days" if spare > 1 else "1 day" if spare else "",
        )
    console.print(rows, "")


def _print_orders(programme: Programme, console: Console, written: Callable[[Date], str]) -> None:
    several = len(programme.works) > 1
    orders = table("order", "by", "planned", "comes", "lead time", *(["job"] if several else []))
    for order in programme.orders:
        by, planned, lead = written(order.latest), written(order.planned), f"{order.lead_days} working days"
        if order.ordered is not None:
            by, planned = f"ordered {written(order.ordered)}", ""
            lead = f"promised {written(order.promised)}" if order.promised else ""
        orders.add_row(order.supplier, by, planned, written(order.delivered), lead, *([order.job] if several else []))
    console.print(orders)
    for order in programme.orders:
        if answer := order_said(order, written):
            whose = f"{order.supplier}, {order.job}" if several else order.supplier
            console.print(f"{whose}: {answer}", highlight=False, markup=False)
    console.print("")
