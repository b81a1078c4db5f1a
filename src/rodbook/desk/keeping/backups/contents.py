"""What is in a database of the desk: how much of each, and its newest revision. Reads the file alone, without the desk."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

__all__ = ["PASSING", "Contents", "Newest", "contents_of", "same_rows"]

PASSING = ("django_session", "axes_accessattempt", "axes_accessfailurelog", "axes_accesslog")
"""Tables of what passes: who is signed in now, and tries. No backup has them."""


@dataclass(frozen=True, slots=True)
class Newest:
    """The newest revision: of which document, its number, who saved it and when (as the database writes it, UTC)."""

    document: str
    number: int
    who: str
    when: str


@dataclass(frozen=True, slots=True)
class Contents:
    """How many documents, revisions and pictures there are, and the newest revision (None where there is none)."""

    documents: int
    revisions: int
    photos: int
    newest: Newest | None


def contents_of(path: Path) -> Contents:
    """Read it from a database file.

    Raises
    ------
    sqlite3.DatabaseError
        If the file is no database of the desk, or damaged where this reads.
    """
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as result:
        documents, revisions, photos = (
            result.execute(f"SELECT count(*) FROM {table}").fetchone()[0]  # noqa: S608  names from here
            for table in ("desk_folder", "desk_revision", "desk_photo")
        )
        row = result.execute(
            'SELECT f.name, r.number, r.who, r."when" FROM desk_revision r JOIN desk_folder f ON f.id = r.folder_id'
            ' ORDER BY r."when" DESC, r.id DESC LIMIT 1'
        ).fetchone()
    return Contents(documents, revisions, photos, None if row is None else Newest(*row))


def same_rows(one: Path, other: Path) -> list[str]:
    """Name the tables in which two databases differ, those of what passes aside.

    Raises
    ------
    sqlite3.DatabaseError
        If one of them can't be read.
    """
    with (
        closing(sqlite3.connect(f"file:{one}?mode=ro", uri=True)) as a,
        closing(sqlite3.connect(f"file:{other}?mode=ro", uri=True)) as b,
    ):
        tables = [
            sorted(row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")) for db in (a, b)
        ]
        different = sorted(set(tables[0]) ^ set(tables[1]))
        for name in sorted(set(tables[0]) & set(tables[1]) - set(PASSING)):
            rows = (db.execute(f'SELECT * FROM "{name}" ORDER BY rowid') for db in (a, b))  # noqa: S608
            if any(x != y for x, y in _pairs(*rows)):
                different.append(name)
    return different


def _pairs(one: sqlite3.Cursor, other: sqlite3.Cursor) -> list[tuple[object, object]]:
    """Line rows up, by thousands, with None where one table is longer."""
    results: list[tuple[object, object]] = []
    while True:
        a, b = one.fetchmany(1000), other.fetchmany(1000)
        if a != b:
            return [(a, b)]
        if not a:
            return results
