"""Job files, books and lists of openings, checked."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from rodbook.cli.exits import EXIT_INPUT
from rodbook.cli.reading import book_for
from rodbook.errors import Fault, InputError, RodbookError
from rodbook.job.files import (
    read_book,
    read_job,
    read_openings,
    text_in,
)
from rodbook.wording import said_as_data

__all__ = ["check"]


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--book", type=click.Path(path_type=Path), help="The book that jobs are checked against.")
@click.option(
    "--json", "as_text", is_flag=True, help="Print what is found as JSON, each fault with its code and place."
)
def check(files: tuple[Path, ...], book: Path | None, *, as_text: bool) -> None:
    """Check job files, books and lists of openings; every fault is named with its place.

    A job is worked out as far as its parts, so that what is called sound here is not refused by `rodbook plan`.
    """
    faults = 0
    lines: list[dict[str, object]] = []
    for path in files:
        try:
            sound = _check_one(path, book)
            lines.append({"file": str(path), "faults": []})
            if not as_text:
                click.echo(f"{path}: {sound}")
        except InputError as error:
            faults += len(error.faults)
            lines.append({"file": str(path), "faults": [said_as_data(fault) for fault in error.faults]})
            for fault in () if as_text else error.faults:
                click.echo(f"{path}: {fault}", err=True)
    if as_text:
        click.echo(json.dumps({"files": lines}, indent=1, ensure_ascii=False))
        sys.exit(EXIT_INPUT if faults else 0)
    if faults:
        click.echo(f"{faults} {'fault' if faults == 1 else 'faults'} to put right.", err=True)
        sys.exit(EXIT_INPUT)


def _check_one(path: Path, book: Path | None) -> str:
    if path.suffix.lower() in (".csv", ".tsv", ".xlsx", ".xlsm"):
        return f"{_count(len(read_openings(path)), 'opening')}, sound."
    if _is_book(path):
        the_book = read_book(path)
        return (
            f"a book: {_count(len(the_book.build_ups), 'build-up')}, {_count(len(the_book.boards), 'board')}, "
            f"{_count(len(the_book.rates), 'rate')}, sound."
        )
    from rodbook.plan import plan_parts  # loaded here: a book and a list of openings are checked without it

    the_book, _ = book_for(path, book)
    job = read_job(path, the_book)
    result = plan_parts(job, the_book)
    faults = [fault for one in result.aside for fault in one.faults]
    faults += [Fault(note.at, note) for note in result.not_worked_out]
    if faults:
        raise InputError(faults)
    return f"a job: {_count(len(job.openings), 'opening')}, {_count(len(job.panels), 'panel')}, sound."


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _is_book(path: Path) -> bool:
    try:
        return "[firm]" in text_in(path)
    except RodbookError:  # whoever reads it says what is wrong
        return False
