"""Whether what a desk keeps is whole: its database, each revision in it and each picture. What is damaged is named.

The database's own check finds damage in its structure. What it can't see, a letter changed in a name or a figure, is seen by
seals: each revision carries the SHA-256 of what was saved, and a desk that is stopped writes down the hash of every page of its
database file, which the next start compares. Reads files alone, so it works where the desk can't start.
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

__all__ = ["CANNOT_START", "Damage", "DamageKind", "Kept", "check_home", "forget_pages", "note_pages", "seal_of"]

PAGES_FILE = "pages-at-rest"
PAGE = 4096


class DamageKind(StrEnum):
    """What is damaged."""

    DATABASE_MISSING = "database-missing"
    DATABASE_UNREADABLE = "database-unreadable"
    PAGES_CHANGED = "pages-changed"
    STRUCTURE = "structure"
    REVISION = "revision"
    PHOTO_MISSING = "photo-missing"
    PHOTO_CHANGED = "photo-changed"


BROKEN = (sqlite3.DatabaseError, UnicodeError)
"""What reading a damaged database raises: the second where what it says of the damage is itself no text any more."""

CANNOT_START = frozenset({DamageKind.DATABASE_MISSING, DamageKind.DATABASE_UNREADABLE})
"""With these a desk has nothing to work on."""


@dataclass(frozen=True, slots=True)
class Damage:
    """One thing that is damaged: which kind, of which document or file, at which revision, and what was found."""

    kind: DamageKind
    what: str = ""
    number: int = 0
    found: str = ""

    def __post_init__(self) -> None:
        """What was read from a damaged database may hold bytes that are no text; they are told as a sign in their place."""
        for name in ("what", "found"):
            object.__setattr__(self, name, getattr(self, name).encode("utf-8", "replace").decode())


@dataclass(frozen=True, slots=True)
class Kept:
    """All that a save puts into a revision: of which `folder`, its `number`, the `document`, its own `text`, the `changes` as
    data, `who`, `when` as the database writes it, and the revision that it `undoes`.
    """

    folder: int
    number: int
    document: object
    text: str
    changes: object
    who: str
    when: str
    undoes: int | None = None


def seal_of(kept: Kept) -> str:
    """Seal a revision: the SHA-256 over all that a save puts into it, however its fields are ordered.

    Examples
    --------
    >>> one, same = ({"b": 1, "a": [2.5]}, {"a": [2.5], "b": 1})
    >>> seals = [seal_of(Kept(1, 2, document, "", None, "Ada", "2031-04-02 10:00:00")) for document in (one, same)]
    >>> seals[0] == seals[1]
    True
    """
    when = kept.when if "." in kept.when else f"{kept.when}.000000"  # a whole second is written without its fraction
    fields = [kept.folder, kept.number, kept.document, kept.text, kept.changes, kept.who, when, kept.undoes]
    plain = json.loads(json.dumps(fields))  # as it will be read again, so keys are texts before they are ordered
    answer = json.dumps(plain, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(answer.encode("utf-8", "surrogatepass")).hexdigest()


def check_home(home: Path, *, photos: bool = True) -> list[Damage]:
    """Look at all that a desk keeps.

    Parameters
    ----------
    home : Path
        The desk's folder; a new one has nothing damaged.
    photos : bool
        Whether each picture is read too.
    """
    database = home / "desk.sqlite3"
    if not database.exists():
        return [Damage(DamageKind.DATABASE_MISSING)] if _was_used(home) else []
    changed = list(_changed_pages(home))
    try:
        with closing(sqlite3.connect(f"file:{database}?mode=ro", uri=True, timeout=20)) as opened:
            opened.text_factory = lambda data: data.decode("utf-8", "surrogateescape")
            rest = [*_structure(opened), *_revisions(opened), *(_photos(opened, home) if photos else ())]
    except BROKEN as error:
        rest = [Damage(DamageKind.DATABASE_UNREADABLE, found=str(error))]
    return [*changed, *rest]


def _was_used(home: Path) -> bool:
    """Whether a desk worked in a folder before: a key or pictures are there."""
    return (home / "secret-key").exists() or any((home / "photos").glob("*"))


def _structure(database: sqlite3.Connection) -> Iterator[Damage]:
    """What the database's own checks find."""
    try:
        for (result,) in database.execute("PRAGMA integrity_check(20)"):
            if result != "ok":
                yield Damage(DamageKind.STRUCTURE, found=result)
        for row in database.execute("PRAGMA foreign_key_check"):
            yield Damage(DamageKind.STRUCTURE, what=str(row[0]), found=f"row {row[1]} belongs to nothing in {row[2]}")
    except BROKEN as error:
        yield Damage(DamageKind.STRUCTURE, found=str(error))


def _revisions(database: sqlite3.Connection) -> Iterator[Damage]:
    """Each revision whose seal does not fit, or that can't be read."""
    try:
        names = dict(database.execute("SELECT id, name FROM desk_folder"))
        has_seal = any(row[1] == "seal" for row in database.execute("PRAGMA table_info(desk_revision)"))
        last = database.execute("SELECT max(id) FROM desk_revision").fetchone()[0] or 0
    except BROKEN as error:
        yield Damage(DamageKind.DATABASE_UNREADABLE, what="desk_revision", found=str(error))
        return
    if not has_seal:
        return
    for key in range(1, last + 1):
        try:
            row = database.execute(
                'SELECT folder_id, number, document, text, changes, who, "when", undoes, seal FROM desk_revision WHERE id = ?',
                (key,),
            ).fetchone()
        except BROKEN as error:
            yield Damage(DamageKind.REVISION, what=f"row {key}", found=str(error))
            continue
        if row is None or not row[-1]:
            continue
        folder, number, document, text, changes, who, when, undoes, seal = row
        try:
            changed = None if changes is None else json.loads(changes)
            whole = seal == seal_of(Kept(folder, number, json.loads(document), text, changed, who, when, undoes))
        except (ValueError, TypeError):
            whole = False
        if not whole:
            known = number if isinstance(number, int) else 0
            yield Damage(DamageKind.REVISION, what=str(names.get(folder, f"document {folder}")), number=known)


def _photos(database: sqlite3.Connection, home: Path) -> Iterator[Damage]:
    """Each picture that is not there, or not what was kept."""
    try:
        kept = sorted({str(row[0]) for row in database.execute("SELECT sha256 FROM desk_photo")})
    except BROKEN as error:
        yield Damage(DamageKind.DATABASE_UNREADABLE, what="desk_photo", found=str(error))
        return
    for name in kept:
        digest = hashlib.sha256()
        try:
            with (home / "photos" / name).open("rb") as source:
                while data := source.read(1 << 20):
                    digest.update(data)
        except OSError as error:
            yield Damage(DamageKind.PHOTO_MISSING, what=name, found=error.strerror or str(error))
            continue
        if digest.hexdigest() != name:
            yield Damage(DamageKind.PHOTO_CHANGED, what=name)


def _page_hashes(database: Path) -> list[str]:
    """Hash each page of a database file."""
    results: list[str] = []
    with database.open("rb") as source:
        while page := source.read(PAGE):
            results.append(hashlib.blake2b(page, digest_size=16).hexdigest())
    return results


def note_pages(home: Path) -> None:
    """Write down what each page of a database at rest is; what is still in its log is put in first."""
    with suppress(OSError, *BROKEN):
        database = home / "desk.sqlite3"
        with closing(sqlite3.connect(database, timeout=5)) as opened:
            busy, _, _ = opened.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        if not busy:
            (home / PAGES_FILE).write_text("\n".join(_page_hashes(database)), "ascii")


def forget_pages(home: Path) -> None:
    """Forget them: from now on the database changes."""
    (home / PAGES_FILE).unlink(missing_ok=True)


def _changed_pages(home: Path) -> Iterator[Damage]:
    """Pages that changed while no desk ran."""
    try:
        kept = (home / PAGES_FILE).read_text("ascii", "replace").split()
        now = _page_hashes(home / "desk.sqlite3")
    except OSError:
        return
    wal = home / "desk.sqlite3-wal"
    if wal.exists() and wal.stat().st_size:
        return  # somebody worked in it since, by another way than the desk's
    different = [n + 1 for n in range(max(len(kept), len(now))) if kept[n : n + 1] != now[n : n + 1]]
    if different:
        pages = ", ".join(map(str, different[:10])) + (
            f" and {len(different) - 10} more" if len(different) > 10 else ""
        )
        yield Damage(DamageKind.PAGES_CHANGED, number=len(different), found=pages)
