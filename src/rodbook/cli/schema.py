"""The JSON Schema of a job and of a book."""

from __future__ import annotations

import json

import click

from rodbook.job.files import (
    book_schema,
    job_schema,
)

__all__ = ["schema"]


@click.command()
@click.argument("what", type=click.Choice(["job", "book"]))
def schema(what: str) -> None:
    """Print the JSON Schema of a job or a book."""
    click.echo(json.dumps(job_schema() if what == "job" else book_schema(), indent=2, ensure_ascii=False))
