"""The crew's weeks over several jobs on a terminal: what to make, what to buy, and what one more day would earn."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import click

from rodbook.cli.commands import book_for, paper_wide, read_jobs, work_out
from rodbook.cli.price_lists import day_of
from rodbook.cli.terminal import table
from rodbook.errors import InputError
from rodbook.money import WeekDays, capacity, money_of
from rodbook.papers.numbers import Numbers
from rodbook.plan import crew_days, days_besides, income_of, weeks_of_job, weeks_wanted

__all__ = ["weeks_command"]

MOST_DAYS = 700


def _days(text: str, count: int) -> list[float]:
    """Days in each week from an option; the last one holds for the weeks after it."""
    found = []
    for part in text.split(","):
        value = money_of(part.strip())
        if value is None or not 0 <= value <= MOST_DAYS:
            raise InputError.at("--days", f"{part.strip()!r} is no number of days; write them like 10,10,7.5")
        found.append(float(value))
    return [*found, *[found[-1]] * count][:count]


@click.command("weeks")
@click.argument("jobs", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--from", "start", default="", metavar="DAY", help="A day of the first week, as 2026-12-01; else today.")
@click.option("--count", type=click.IntRange(1, 26), default=8, show_default=True, help="How many weeks.")
@click.option("--days", default="", help="Crew days in each week, as in 10,10,7.5; else the days of the book's crew.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the first job.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def weeks_command(
    jobs: tuple[Path, ...], start: str, count: int, days: str, book: Path | None, seconds: float
) -> None:  # fmt: skip
    """Decide over several jobs what to make and what to buy, so that the firm earns most with the days there are.

    Each job is done between its own first and last day, all of them are promised, and a client pays the price that was given,
    else the price as it stands.
    """
    the_book, whose = book_for(jobs[0], book)
    day = day_of("--from", start) if start else datetime.now().astimezone().date()
    monday = day - timedelta(days=day.weekday())
    there = _days(days, count) if days else list(crew_days(the_book, monday, count))
    if not there:
        raise InputError.at("--days", "nobody is in the book's crew, so no week has days; write them like 10,10,7.5")
    people = len(the_book.dates.crew) or 2
    wanted, names = [], dict[str, None]()
    for number, job in enumerate(read_jobs(jobs, the_book), 1):
        plan = work_out(job, the_book, seconds, 0)
        name = plan.job.job.name if plan.job.job.name not in names else f"{plan.job.job.name} ({number})"
        names[name] = None
        first, last = weeks_of_job(plan.job, monday, count)
        wanted.append(
            weeks_wanted(
                plan, name, first_week=first, last_week=last, promised=True, besides=days_besides(plan, people=people),
                income=income_of(plan),
            )
        )  # fmt: skip
    found = capacity(wanted, [WeekDays(each) for each in there], currency=the_book.currency, value_weeks=None)
    write, console = Numbers(the_book.locale, the_book.currency), paper_wide()
    rows = table(
        "week from",
        "crew days",
        "used",
        "one more day would earn",
        right=("crew days", "used", "one more day would earn"),
    )
    for use in found.weeks:
        first_day = write.date(monday + timedelta(weeks=use.week - 1))
        worth = "" if use.one_more_day is None else write.money(use.one_more_day)
        rows.add_row(f"{use.week}, {first_day}", f"{use.days:g}", f"{use.used:.1f}", worth)
    console.print(rows)
    for name in names:
        console.print(f"\n{name}", style="bold", highlight=False, markup=False)
        for decision in found.decisions:
            if decision.job == name:
                console.print(decision.reason, highlight=False, markup=False)
    proof = (
        "That is proven."
        if found.proven
        else f"Another choice might earn up to {write.money(found.bound - found.earned)} more."
    )
    console.print(f"\nWhat clients pay less what goes out, wages not taken off: {write.money(found.earned)}. {proof}")
    click.echo(f"Book: {whose}")
