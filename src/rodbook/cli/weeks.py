"""The crew's weeks over several jobs on a terminal: what to make, what to buy, and what one more day would earn."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from pathlib import Path

import click

from rodbook.cli.console import paper_wide
from rodbook.cli.price_lists import day_of
from rodbook.cli.reading import book_for, read_jobs
from rodbook.cli.terminal import put_paper, table
from rodbook.cli.working_out import work_out
from rodbook.errors import InputError, Unread
from rodbook.job import Book
from rodbook.job.amounts import Amount, read_money
from rodbook.job.numerals import as_typed, decimal_sign, number_or_none
from rodbook.money import MoreDays, WeekDays, capacity
from rodbook.money.rates.rounding import rounded
from rodbook.papers.numbers import Numbers
from rodbook.papers.weeks.content import done_in
from rodbook.plan import WeeksDecided, crew_days, days_besides, income_of, more_days, weeks_of_job, weeks_wanted

__all__ = ["weeks_command"]

MOST_DAYS = 700


def _days_example(locale: str) -> str:
    """Days of three weeks as the option takes them."""
    return ("; " if decimal_sign(locale) == "," else ",").join(as_typed(days, locale) for days in (10.0, 10.0, 7.5))


def _days(text: str, count: int, locale: str) -> list[float]:
    """Days in each week from an option; the last one holds for the weeks after it.

    Semicolons part the weeks, or commas where the book writes decimals with a point and there are none.
    """
    results = []
    for part in text.split(";" if ";" in text or decimal_sign(locale) == "," else ","):
        value = number_or_none(part, locale)
        if value is None or not 0 <= value <= MOST_DAYS:
            how = _days_example(locale)
            raise InputError.at("--days", "cli.not_days", typed=part.strip(), example=how)
        results.append(float(value))
    return [*results, *[results[-1]] * count][:count]


_SPAN = re.compile(r"\s*(?P<days>[^\s]+)\s+at\s+(?P<cost>[^;]+?)\s*(?:;\s*(?P<span>.+?)\s*)?")


def _more(option: str, text: str, book: Book, start: date, count: int) -> MoreDays:
    """Days on top from an option: ``Dora: 5 at 260; 2026-12-07..2026-12-18``, the days left out where it holds throughout."""
    whole = option == "--hire"
    name, colon, rest = text.partition(":") if whole else ("overtime", ":", text)
    result, how = (
        _SPAN.fullmatch(rest),
        "Dora: 5 at 260; 2026-12-07..2026-12-18" if whole else "2 at 300; 2026-12-07..2026-12-18",
    )
    if not colon or not name.strip() or result is None:
        raise InputError.at(option, "cli.days_for_money_unread", typed=text, example=how)
    days = number_or_none(result["days"], book.locale)
    if days is None or not 0 < days <= MOST_DAYS:
        raise InputError.at(option, "cli.days_not_above_zero", typed=result["days"], example=how)
    try:
        cost = read_money(result["cost"], book.currency, book.locale, what=Amount.DAY_PRICE)
    except Unread as error:
        raise InputError.at(option, error.message) from None
    if cost < 0:
        raise InputError.at(option, "cli.no_price_of_a_day", typed=result["cost"], example=how)
    first, _, last = (result["span"] or "").partition("..")
    return more_days(
        book,
        start,
        count,
        name=name.strip(),
        days=float(days),
        day_cost=rounded(cost, book.currency),
        whole=whole,
        first=day_of(option, first.strip()) if first else None,
        last=day_of(option, (last or first).strip()) if first else None,
    )


@click.command("weeks")
@click.argument("jobs", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--from", "start", default="", metavar="DAY", help="A day of the first week, as 2026-12-01; else today.")
@click.option("--count", type=click.IntRange(1, 26), default=8, show_default=True, help="How many weeks.")
@click.option(
    "--days", default="", help="Crew days in each week, as in '10; 10; 7.5'; else the days of the book's crew."
)
@click.option(
    "--hire",
    multiple=True,
    metavar="TEXT",
    help="Whole days of somebody hired, as in 'Dora: 5 at 260; 2026-12-07..2026-12-18': days a week, price of a day, when.",
)
@click.option("--overtime", default="", help="Days of overtime in a week, as in '2 at 300; 2026-12-07..2026-12-18'.")
@click.option("--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write it as a paper too.")
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside the first job.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def weeks_command(
    jobs: tuple[Path, ...],
    start: str,
    count: int,
    days: str,
    hire: tuple[str, ...],
    overtime: str,
    pdf: Path | None,
    book: Path | None,
    seconds: float,
) -> None:
    """Decide over several jobs what to make and what to buy, so that the firm earns most with the days there are.

    Each job is done between its own first and last day, all of them are promised, and a client pays the price that was given,
    else the price as it stands. Overtime and hired hands are taken where they are worth their price, and it says which are.
    """
    the_book, whose = book_for(jobs[0], book)
    today = datetime.now().astimezone().date()
    day = day_of("--from", start) if start else today
    monday = day - timedelta(days=day.weekday())
    there = _days(days, count, the_book.locale) if days else list(crew_days(the_book, monday, count))
    if not there:
        raise InputError.at("--days", "cli.no_crew", example=_days_example(the_book.locale))
    texts = [*(("--hire", text) for text in hire), *([("--overtime", overtime)] if overtime.strip() else [])]
    more = [_more(option, text, the_book, monday, count) for option, text in texts]
    people = len(the_book.dates.crew) or 2
    wanted, names = [], dict[str, None]()
    for number, job in enumerate(read_jobs(jobs, the_book), 1):
        plan = work_out(job, the_book, seconds, 0)
        name = plan.job.job.name if plan.job.job.name not in names else f"{plan.job.job.name} ({number})"
        names[name] = None
        first, last = weeks_of_job(plan.job, monday, count)
        wanted.append(
            weeks_wanted(
                plan,
                name,
                first_week=first,
                last_week=last,
                promised=True,
                besides=days_besides(plan, people=people),
                income=income_of(plan),
            )
        )
    result = capacity(
        wanted, [WeekDays(each) for each in there], currency=the_book.currency, more=more, value_weeks=None
    )
    write, console = Numbers.of(the_book), paper_wide(the_book)
    columns = ("week from", "crew days", "used", *(("on top",) if more else ()), "one more day would earn")
    rows = table(*columns, "done in it", right=columns[1:])
    for use in result.weeks:
        first_day = write.date(monday + timedelta(weeks=use.week - 1))
        worth = "" if use.one_more_day is None else write.money(use.one_more_day)
        on_top = [f"{use.more:.1f}" if use.more else ""] if more else []
        done = "\n".join(f"{job}: {words}" for job, words in done_in(result, use.week))
        rows.add_row(f"{use.week}, {first_day}", f"{use.days:g}", f"{use.used:.1f}", *on_top, worth, done)
    console.print(rows)
    for one in result.more:
        console.print(one.sentence, highlight=False, markup=False)
    for name in names:
        console.print(f"\n{name}", style="bold", highlight=False, markup=False)
        for decision in result.decisions:
            if decision.job == name:
                console.print(decision.reason, highlight=False, markup=False)
    proof = (
        "That is proven."
        if result.proven
        else f"Another choice might earn up to {write.money(result.bound - result.earned)} more."
    )
    console.print(f"\nWhat clients pay less what goes out, wages not taken off: {write.money(result.earned)}. {proof}")
    if pdf is not None:
        from rodbook.papers import weeks_pdf

        put_paper(pdf, weeks_pdf(the_book, WeeksDecided(today, monday, tuple(wanted), result)))
    click.echo(f"Book: {whose}")
