"""The command line: the edge that reads files, prints and sets exit codes."""

from __future__ import annotations

import click

from rodbook import __version__
from rodbook.cli.exits import run
from rodbook.cli.group import LateGroup

__all__ = ["main", "rodbook"]


@click.group(cls=LateGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="Rodbook %(version)s")
@click.option(
    "--json", "_as_json", is_flag=True, expose_value=False, help="Say what is wrong as JSON, with code and place."
)
def rodbook() -> None:
    """Set out once: openings become sizes, parts, borings, layouts, costs and papers.

    A job is a text file that you can read and write; the book is another, with your boards, rates and build-ups. Begin
    with `rodbook new`, look with `rodbook check`, then `rodbook plan` and `rodbook papers`.
    """


def main() -> None:
    """Run the command line; errors become one sentence each and an exit code."""
    run(rodbook)
