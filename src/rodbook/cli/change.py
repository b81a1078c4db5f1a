"""A change by the client on a terminal: the job as agreed against the job as wanted now, and a paper to be signed."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

import click
from rich.console import Console

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for, read_jobs
from rodbook.cli.terminal import table
from rodbook.cli.working_out import say_unconfirmed, work_out
from rodbook.errors import Fault, Infeasible, InputError, Message, StoreError
from rodbook.job.faults import nearest
from rodbook.money import ChangeOrder, PriceRules
from rodbook.papers.change.content import effect_said
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan, as_json, at_day_of, change_of, effect_of_change, hand_overs, rules_of
from rodbook.plan.analyses.unconfirmed import PaperFor
from rodbook.setout import PartKind

__all__ = ["change"]

LONGEST = 120


def _kinds(texts: tuple[str, ...], plans: tuple[Plan, Plan]) -> frozenset[PartKind]:
    """Kinds of part that were named as made already; all of them where one of the words is "all"."""
    there = {line.part.kind.value: line.part.kind for plan in plans for line in plan.schedule}
    words = [word.strip() for text in texts for word in text.split(",") if word.strip()]
    if "all" in words:
        return frozenset(there.values())
    faults = [
        Fault(
            "--made",
            "cli.unknown_part",
            word=word,
            hint=nearest(word, there) or Message("cli.parts_there", kinds=tuple(there)),
        )
        for word in words
        if word not in there
    ]
    if faults:
        raise InputError(faults)
    return frozenset(there[word] for word in words)


@click.command()
@click.argument("agreed", type=click.Path(path_type=Path))
@click.argument("wanted", type=click.Path(path_type=Path))
@click.option("--what", default="the change", show_default=True, help="What the client wants, in a line.")
@click.option(
    "--made",
    multiple=True,
    metavar="KINDS",
    help="Kinds of part made or ordered already, as in 'door, lining leg', or 'all': none of them is saved.",
)
@click.option("--book", type=click.Path(path_type=Path), help="The firm's book; else book.toml beside AGREED.")
@click.option("--paper", type=click.Path(path_type=Path, dir_okay=False), help="Write the client's paper as a PDF.")
@click.option("--json", "as_text", is_flag=True, help="Print it as JSON.")
@click.option(
    "--seconds", type=click.FloatRange(min=0.1, max=600), default=10.0, help="Search for each board's layouts."
)
def change(
    agreed: Path,
    wanted: Path,
    what: str,
    made: tuple[str, ...],
    book: Path | None,
    paper: Path | None,
    seconds: float,
    *,
    as_text: bool,
) -> None:
    """Price a change by the client: the job file AGREED as it was priced, against WANTED, the same job as it is wanted now.

    Both are planned by one book and at the prices of WANTED's day, so that prices which moved by themselves are no matter of
    the change. What it costs, what to ask, and what it does to earnings and to the hand-over are for the firm; the paper
    for the client has the parts and the price alone.
    """
    if not what.strip() or len(what) > LONGEST:
        raise InputError.at("--what", "cli.change_not_said", most=LONGEST)
    the_book, whose = book_for(agreed, book)
    before, after = read_jobs((agreed, wanted), the_book)
    before = at_day_of(before, after)
    plans = (work_out(before, the_book, seconds, 0), work_out(after, the_book, seconds, 0))
    order = change_of(*plans, what=what.strip(), made=_kinds(made, plans))
    effect = effect_of_change(*plans, order)
    write = Numbers.of(the_book)
    days, why_no_days = None, ""
    try:
        days = hand_overs(*plans, today=datetime.now().astimezone().date())
    except (InputError, Infeasible) as error:
        why_no_days = str(error)
    if as_text:
        results = {
            "change": order,
            "effect": effect,
            "rules": rules_of(plans[1]),
            "hand_over": None if days is None else {"without": days[0], "with": days[1]},
            "no_hand_over": why_no_days,
        }
        click.echo(json.dumps(as_json(results), indent=1, ensure_ascii=False))
    else:
        console = paper_wide(the_book)
        _print_money(order, rules_of(plans[1]), write, console)
        for sentence in effect_said(effect, write):
            console.print(sentence, highlight=False, markup=False)
        if days is not None:
            then, now = map(write.date, days)
            text = f"{then} either way" if days[0] == days[1] else f"{then} without it, {now} with it"
            console.print(f"Hand-over, nine in ten by: {text}.", highlight=False, markup=False)
        else:
            console.print(f"The hand-over is not planned: {why_no_days}", highlight=False, markup=False)
        if before.job.name != after.job.name:
            named = f"{before.job.name!r} and {after.job.name!r}"
            console.print(f"The two files name their job {named}; see that they are of the same one.", markup=False)
    if paper is not None:
        from rodbook.papers import change_pdf

        content = change_pdf(plans[1], order)
        try:
            paper.write_bytes(content)
        except OSError as error:
            raise StoreError("file.cant_be_written", path=paper, reason=error.strerror or str(error)) from None
        click.echo(f"Wrote {paper}", err=as_text)
    say_unconfirmed(plans[1], PaperFor.CLIENT, err=as_text)
    click.echo(f"Book: {whose}", err=as_text)


def _print_money(order: ChangeOrder, rules: PriceRules, write: Numbers, console: Console) -> None:
    price = order.price
    for line in order.lines:
        console.print(line.sentence, highlight=False, markup=False)
    columns = ("line", "cost", "overhead", "earned", "net")
    rows = table(*columns, right=columns[1:])
    for entry in price.lines:
        rows.add_row(entry.name, *map(write.money, (entry.cost, entry.overhead, entry.earned, entry.net)))
    rows.add_section()
    rows.add_row("together", *map(write.money, (price.cost, price.overhead, price.earned, price.net)))
    console.print(rows)
    overhead = [f"{write.money(rules.overhead_an_hour)} on each crew hour more"] if rules.overhead_an_hour else []
    overhead += [f"{write.percent(rules.overhead_share, 1)} on cost"] if rules.overhead_share else []
    text = f"overhead of {' and '.join(overhead)}" if overhead else "no overhead"
    console.print(
        f"Net is cost with {text}, and a mark-up of {write.percent(rules.mark_up, 1)} on both, rounded line by line.",
        highlight=False,
        markup=False,
    )
    for tax in price.taxes:
        console.print(f"{tax.name} on {write.money(tax.on)}: {write.money(tax.amount)}.", highlight=False, markup=False)
    console.print(_asked(order, write), highlight=False, markup=False)


def _asked(order: ChangeOrder, write: Numbers) -> str:
    gross = order.price.gross
    if not gross:
        return "There is nothing to ask the client for, and nothing to give back."
    text = "Ask the client for" if gross > 0 else "The client pays less by"
    return f"{text} {write.money(abs(gross))}; it holds until {write.date(order.price.valid_until)}."
