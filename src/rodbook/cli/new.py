"""A new job file, and a book beside it."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import click

from rodbook.errors import InputError, StoreError
from rodbook.job.files import (
    new_book_text,
    new_job,
    parse_book,
    read_openings,
    sample_book_text,
    sample_names,
    sample_text,
)
from rodbook.job.proposals import opening_with_leaves

__all__ = ["new"]


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--sample", metavar="NAME", help="Begin with a sample job instead of an empty one.")
@click.option("--name", default="New job", help="What the job is called.")
@click.option("--openings", type=click.Path(path_type=Path), help="CSV or XLSX list of openings to begin with.")
@click.option(
    "--with-book",
    is_flag=True,
    help="Write a book beside it too: the sample's with a sample job, else one for your firm, with an empty shop.",
)
@click.option(
    "--firm", help="The firm's name, as on every paper; asked for where a book is written and it is left out."
)
@click.option("--person", default="", help="Who works; the firm's name where left out.")
@click.option("--locale", default="", help="How numbers and money are written, such as en or de_AT.")
@click.option("--currency", default="", help="Of every price, three letters.")
@click.option("--holidays", default="", help="Whose public holidays are kept, such as AT or DE-BY.")
def new(
    file: Path,
    sample: str | None,
    name: str,
    openings: Path | None,
    firm: str | None,
    person: str,
    locale: str,
    currency: str,
    holidays: str,
    *,
    with_book: bool,
) -> None:
    """Begin a new job file, with its figures explained."""
    if sample is not None and openings is not None:
        raise InputError.at("--sample", "cli.sample_and_list")
    targets = {file: _first_text(sample, name, openings)}
    if with_book and sample is not None:
        targets[file.parent / "book.toml"] = sample_book_text()
    elif with_book:
        targets[file.parent / "book.toml"] = new_book_text(
            firm if firm is not None else click.prompt("The firm's name, as on every paper"),
            person=person,
            locale=locale,
            currency=currency.upper(),
            holidays=holidays,
        )
    standing = [path for path in targets if path.exists()]
    if standing:
        raise StoreError("file.there_already", path=standing[0])
    for path, text in targets.items():
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8") as out:
                out.write(text)
        except OSError as error:
            raise StoreError("file.cant_be_written", path=path, reason=error.strerror or str(error)) from None
        click.echo(f"Wrote {path}")


def _today() -> date:
    return datetime.now().astimezone().date()


def _first_text(sample: str | None, name: str, openings: Path | None) -> str:
    if sample is None:
        first = parse_book(sample_book_text()).build_ups[0].name
        result = tuple(map(opening_with_leaves, read_openings(openings))) if openings else ()
        return new_job(name, date=_today(), build_up=first, openings=result)
    if sample not in sample_names():
        raise InputError.at("--sample", "cli.unknown_sample", name=sample, names=sample_names())
    return sample_text(sample)
