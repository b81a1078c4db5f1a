"""Typed rows saved as far as they are sound: a row that can't be read keeps nobody from saving the others. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from rodbook.desk.platform import store
from rodbook.desk.platform.changes import Value
from rodbook.desk.platform.grid import PANELS, RUNS, Row, with_faults
from rodbook.errors import Fault, InputError
from rodbook.job import Book, Job
from rodbook.job.aside import GROUPS, asides_of, entry_of

__all__ = ["as_they_are_now", "put_faults", "sound_rows"]


def put_faults(
    faults: Sequence[Fault], rows: Sequence[Row], panel_rows: Sequence[Row], run_rows: Sequence[Row]
) -> list[Fault]:
    """Put each fault into its row; those that belong to none come back."""
    return with_faults(run_rows, with_faults(panel_rows, with_faults(rows, faults), PANELS), RUNS)


type _Typed = tuple[Sequence[Row], Sequence[Row], Sequence[Row]]


def sound_rows(document: store.Document, faults: Sequence[Fault], typed: _Typed, job: Job, book: Book) -> Job | None:
    """The job with those of the typed rows that can be kept; a row at fault leaves its entry as it was.

    Parameters
    ----------
    document : Document
        As it was typed.
    faults : sequence of Fault
        Why it can't be kept as a whole.
    typed : tuple
        The rows of openings, panels and runs that stand in it.
    job : Job
        As it is now.
    book : Book

    Returns
    -------
    Job, optional
        None where a fault is of the whole job, or where what is left can't be kept either.
    """
    before = store.as_document(job)
    left = dict(document)
    try:
        names = {group: [row.cells.get("mark", "") for row in rows] for group, rows in zip(GROUPS, typed, strict=True)}
        aside = asides_of(faults, names)
        for group, rows in zip(GROUPS, typed, strict=True):
            bad = {one.number for one in aside if one.group == group}
            known = {_key(entry): entry for entry in cast("list[Value]", before.get(group, []))}
            entries = cast("list[Value]", left.get(group, []))
            results = [
                entry if n not in bad else known.get(rows[n - 1].was if n <= len(rows) else "")
                for n, entry in enumerate(entries, 1)
            ]
            left[group] = [entry for entry in results if entry is not None]
        return store.read_job_document(left, book)
    except InputError:
        return None


def _key(entry: Value) -> str:
    """What an entry is called."""
    return str(entry.get("mark", entry.get("name", ""))) if isinstance(entry, dict) else ""


def as_they_are_now(typed: _Typed, faults: Sequence[Fault]) -> None:
    """Let the rows that were saved stand for their entries, so that saving again changes them and adds none."""
    bad = {entry for fault in faults if (entry := entry_of(fault)) is not None}
    for group, rows in zip(GROUPS, typed, strict=True):
        for n, row in enumerate(rows, 1):
            if (group, n) not in bad:
                row.was = row.cells.get("mark", row.was)
