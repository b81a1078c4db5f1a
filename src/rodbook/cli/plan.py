"""A job worked out and summed up on a terminal."""

from __future__ import annotations

import json
from pathlib import Path

import click

from rodbook.cli.console import paper_wide
from rodbook.cli.reading import book_for
from rodbook.cli.terminal import print_summary
from rodbook.cli.working_out import plan_options, say_aside, say_unconfirmed, work_out_apart
from rodbook.plan import plan_json
from rodbook.plan.analyses.unconfirmed import PaperFor

__all__ = ["plan"]


@click.command()
@plan_options
@click.option("--json", "as_json", is_flag=True, help="Print the whole plan as JSON, each size with its working.")
@click.option("--working", is_flag=True, help="Print how each part's size came about.")
def plan(job: Path, book: Path | None, seconds: float, seed: int, *, as_json: bool, working: bool) -> None:
    """Work a job out and print its summary.

    Sizes, parts, boards, and what to make or to buy. Nothing is written. An opening, panel or run that can't be built
    stands aside with its sentence and the others go on; the code that comes back is then 3.
    """
    the_book, whose = book_for(job, book)
    the_plan = work_out_apart(job, the_book, seconds, seed)
    if as_json:
        click.echo(json.dumps(plan_json(the_plan), indent=1, ensure_ascii=False))
        say_aside(the_plan)
        return
    print_summary(the_plan, paper_wide(the_plan.book), working=working)
    say_unconfirmed(the_plan, PaperFor.CLIENT)
    click.echo(f"Book: {whose}")
    say_aside(the_plan)
