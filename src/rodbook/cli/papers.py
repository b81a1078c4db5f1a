"""The papers of a job, written into a folder."""

from __future__ import annotations

from pathlib import Path

import click

from rodbook.cli.reading import book_for
from rodbook.cli.working_out import plan_options, progress, say_aside, say_unconfirmed, work_out_apart
from rodbook.plan import Plan
from rodbook.plan.analyses.unconfirmed import PaperFor

__all__ = ["papers", "write_all"]


@click.command()
@plan_options
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("papers"),
    show_default=True,
    help="Folder to write to; made where there is none.",
)
def papers(job: Path, book: Path | None, seconds: float, seed: int, out: Path) -> None:
    """Write the papers of a job: survey sheets, openings, packers, parts, order, layouts, summary, lists for a spreadsheet.

    An opening, panel or run that can't be built stands aside, and each paper says what is not in it; the code that comes
    back is then 3.
    """
    the_book, whose = book_for(job, book)
    the_plan = work_out_apart(job, the_book, seconds, seed)
    write_all(the_plan, out)
    say_unconfirmed(the_plan, PaperFor.CLIENT)
    click.echo(f"Book: {whose}")
    say_aside(the_plan)


def write_all(the_plan: Plan, out: Path) -> None:
    """Write every paper of a plan, with a bar where somebody is looking, and list them."""
    from rodbook.papers import write_papers

    with progress() as tell:
        written = write_papers(the_plan, out, on_progress=tell)
    click.echo(f"Papers in {out}:")
    for path in written:
        click.echo(f"  {path.name}")
