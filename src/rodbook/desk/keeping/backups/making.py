"""Making a backup while the desk runs: a copy of the database as it stands at one moment, all pictures, and what they are.

The file is a plain tar archive that any tool opens: ``desk.sqlite3``, ``photos/``, ``papers/`` and last ``manifest.json`` with
length and SHA-256 of each. Under a passphrase the same archive is sealed (see `sealed`). After either comes one line with the
SHA-256 of all before it, which readers of such archives pass over.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import sqlite3
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, BinaryIO

from rodbook import __version__
from rodbook.desk.keeping.backups.contents import PASSING, Contents, contents_of
from rodbook.desk.keeping.backups.sealed import Sealed
from rodbook.errors import StoreError

__all__ = ["DATABASE", "FOLDERS", "FORMAT", "LAST_LINE", "Backup", "make_backup", "snapshot"]

FORMAT = 1
DATABASE = "desk.sqlite3"
FOLDERS = ("photos", "papers")
"""Folders of the desk's whose files are kept; keys, logs and what can be made anew are not."""

LAST_LINE = len(b"sha256 ") + 64 + 1
"""Bytes of the line at the end."""

PAGES_AT_ONCE, PAUSE = 1000, 0.002
"""The database is copied by so many pages, with a pause between, so that saves are not kept waiting. [s]"""


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup that was made: where it lies, how long it is in bytes, and what is in it."""

    path: Path
    length: int
    made: datetime
    contents: Contents
    files: int


class _Hashing(io.RawIOBase):
    """Hands on what is written and takes its SHA-256."""

    def __init__(self, out: BinaryIO) -> None:
        super().__init__()
        self.out, self.hash = out, hashlib.sha256()

    def writable(self) -> bool:
        return True

    def write(self, data: Any) -> int:
        self.hash.update(data)
        return self.out.write(data)


class _Hashed(io.RawIOBase):
    """Hands on what is read and takes its SHA-256."""

    def __init__(self, source: BinaryIO) -> None:
        super().__init__()
        self.source, self.hash = source, hashlib.sha256()

    def readable(self) -> bool:
        return True

    def read(self, size: int = -1) -> bytes:
        data = self.source.read(size)
        self.hash.update(data)
        return data


def snapshot(database: Path, to: Path) -> None:
    """Copy a database as it stands at one moment, while others read and write it; who is signed in is left out.

    Raises
    ------
    sqlite3.DatabaseError
        If it is damaged.
    """
    with (
        closing(sqlite3.connect(f"file:{database}?mode=ro", uri=True, timeout=20)) as source,
        closing(sqlite3.connect(to)) as copy,
    ):
        source.backup(copy, pages=PAGES_AT_ONCE, sleep=PAUSE)
        for table in PASSING:
            with suppress(sqlite3.OperationalError):  # a table of another version
                copy.execute(f"DELETE FROM {table}")  # noqa: S608  names from here
        copy.commit()
        copy.execute("PRAGMA journal_mode=DELETE")
        faults = [row[0] for row in copy.execute("PRAGMA integrity_check(3)")]
    if faults != ["ok"]:
        raise sqlite3.DatabaseError(faults[0])


def _kept_files(home: Path) -> Iterator[Path]:
    """List pictures and papers, in order."""
    for name in FOLDERS:
        for path in sorted((home / name).rglob("*")):
            if path.is_file() and not path.is_symlink() and not path.name.startswith("new-"):
                yield path


def _add(archive: tarfile.TarFile, name: str, source: BinaryIO, length: int, files: list[dict[str, object]]) -> None:
    """Add one file, and what it is to the manifest."""
    info = tarfile.TarInfo(name)
    info.size, info.mode, info.mtime = length, 0o600, 0
    hashed = _Hashed(source)
    archive.addfile(info, hashed)  # type: ignore[arg-type]
    files.append({"name": name, "size": length, "sha256": hashed.hash.hexdigest()})


def make_backup(home: Path, to: Path, *, passphrase: str = "", now: datetime | None = None) -> Backup:
    """Write a backup of a desk's folder into one file; the desk may run meanwhile.

    Parameters
    ----------
    home : Path
        The desk's folder.
    to : Path
        The file; it is there whole or not at all, and replaces one of the same name.
    passphrase : str
        What it is sealed under; empty for none.
    now : datetime, optional
        When it is made; the clock's time if left out.

    Raises
    ------
    StoreError
        If there is no database, it is damaged, or the file can't be written.
    """
    made = datetime.now(UTC) if now is None else now
    database = home / DATABASE
    if not database.is_file():
        raise StoreError("desk.no_desk_here", home=home, database=DATABASE)
    part = to.with_name(f"{to.name}.part")
    try:
        with tempfile.TemporaryDirectory(prefix="backup-", dir=home) as folder:
            copy = Path(folder) / DATABASE
            snapshot(database, copy)
            contents = contents_of(copy)
            with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as out:
                files = _write(out, home, copy, contents, made, passphrase)
                out.flush()
                os.fsync(out.fileno())
        part.replace(to)
        _settle(to.parent)
        return Backup(to, to.stat().st_size, made, contents, files)
    except sqlite3.DatabaseError as error:
        part.unlink(missing_ok=True)
        raise StoreError("desk.backup_of_damaged", reason=str(error)) from None
    except OSError as error:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise StoreError("desk.backup_not_written", path=to, reason=error.strerror or str(error)) from None


def _settle(folder: Path) -> None:
    """Have the folder's own entry on the disk, where the system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _write(out: BinaryIO, home: Path, copy: Path, contents: Contents, made: datetime, passphrase: str) -> int:
    """Write archive and last line; gives how many files are in it."""
    hashing = _Hashing(out)
    sealed = Sealed(hashing, passphrase) if passphrase else None  # type: ignore[arg-type]
    files: list[dict[str, object]] = []
    with tarfile.open(fileobj=sealed or hashing, mode="w|", format=tarfile.PAX_FORMAT) as archive:
        with copy.open("rb") as source:
            _add(archive, DATABASE, source, copy.stat().st_size, files)
        for path in _kept_files(home):
            try:
                source = path.open("rb")
            except FileNotFoundError:  # thrown away meanwhile; the database's copy may still name it
                continue
            with source:
                _add(archive, path.relative_to(home).as_posix(), source, os.fstat(source.fileno()).st_size, files)
        manifest = {
            "format": FORMAT,
            "program": f"Rodbook {__version__}",
            "made": made.isoformat(),
            "contents": asdict(contents),
            "files": files,
        }
        answer = json.dumps(manifest, indent=1).encode()
        info = tarfile.TarInfo("manifest.json")
        info.size, info.mode = len(answer), 0o600
        archive.addfile(info, io.BytesIO(answer))
    if sealed is not None:
        sealed.close()
    out.write(b"sha256 " + hashing.hash.hexdigest().encode() + b"\n")
    return len(files)
