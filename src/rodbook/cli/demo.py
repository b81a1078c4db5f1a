"""A sample job, planned and written."""

from __future__ import annotations

from pathlib import Path

import click

from rodbook.cli.console import paper_wide
from rodbook.cli.papers import write_all
from rodbook.cli.terminal import print_summary
from rodbook.cli.working_out import work_out
from rodbook.errors import InputError
from rodbook.job.files import (
    parse_book,
    parse_job,
    sample_book_text,
    sample_names,
    sample_text,
)

__all__ = ["demo"]


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("out/demo"),
    show_default=True,
    help="Folder to write the papers to.",
)
@click.option("--sample", default="converted-store", show_default=True, help="Which sample job.")
def demo(out: Path, sample: str) -> None:
    """Plan a sample job, print its summary and write its papers."""
    if sample not in sample_names():
        raise InputError.at("--sample", "cli.unknown_sample", name=sample, names=sample_names())
    book = parse_book(sample_book_text())
    the_plan = work_out(parse_job(sample_text(sample), book), book, 10.0, 0)
    print_summary(the_plan, paper_wide(the_plan.book), working=False)
    write_all(the_plan, out)
