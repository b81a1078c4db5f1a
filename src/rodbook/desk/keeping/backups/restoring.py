"""Bringing a backup back: to a new place, checked there, then put in the place of what was, which is kept beside it."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import sqlite3
import tarfile
import tempfile
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, BinaryIO

from rodbook.desk.keeping.backups.contents import Contents, contents_of
from rodbook.desk.keeping.backups.making import DATABASE, FOLDERS, FORMAT, LAST_LINE
from rodbook.desk.keeping.backups.sealed import FIRST_LINE, Opened
from rodbook.desk.keeping.home import hold
from rodbook.errors import StoreError

__all__ = ["Restored", "is_sealed", "read_backup", "rehearse", "restore"]

LARGEST_MANIFEST = 64 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Restored:
    """What a backup brought back: when it was made, what is in it, how many files; where what was before lies now."""

    made: str
    contents: Contents
    files: int
    home: Path
    before: Path | None = None


def is_sealed(path: Path) -> bool:
    """Whether a backup needs a passphrase.

    Raises
    ------
    StoreError
        If the file can't be read.
    """
    try:
        with path.open("rb") as source:
            return source.read(len(FIRST_LINE)) == FIRST_LINE
    except OSError as error:
        raise StoreError("desk.backup_not_read", path=path, reason=error.strerror or str(error)) from None


def _checked_length(path: Path) -> int:
    """Check a file against its last line; gives the length before it.

    Raises
    ------
    StoreError
        If it is not what was written.
    """
    length = path.stat().st_size - LAST_LINE
    digest = hashlib.sha256()
    with path.open("rb") as source:
        left = max(0, length)
        while left and (data := source.read(min(left, 1 << 20))):
            digest.update(data)
            left -= len(data)
        last = source.read()
    if length < 0 or last != b"sha256 " + digest.hexdigest().encode() + b"\n":
        raise StoreError("desk.backup_damaged", path=path)
    return length


class _Before:
    """A file up to where its last line begins."""

    def __init__(self, source: BinaryIO, length: int) -> None:
        self.source, self.left = source, length

    def read(self, size: int = -1) -> bytes:
        """Read on."""
        data = self.source.read(self.left if size < 0 else min(size, self.left))
        self.left -= len(data)
        return data


def read_backup(path: Path, into: Path, *, passphrase: str = "") -> Restored:
    """Lay out what is in a backup in an empty folder, and check it: each file's hash, the database, and that all is there.

    Parameters
    ----------
    path : Path
    into : Path
        A folder with nothing in it.
    passphrase : str
        Of a sealed one.

    Raises
    ------
    StoreError
        If it can't be read, opened or is not what was written; with the place.
    """
    sealed = is_sealed(path)
    if sealed and not passphrase:
        raise StoreError("desk.backup_sealed", path=path)
    try:
        length = _checked_length(path)
        with path.open("rb") as source:
            stream: Any = Opened(source, passphrase, length=length) if sealed else _Before(source, length)
            with tarfile.open(fileobj=stream, mode="r|") as archive:
                result, manifest = _laid_out(archive, into)
    except (tarfile.TarError, EOFError) as error:
        raise StoreError("desk.not_a_backup", path=path, reason=str(error)) from None
    except OSError as error:
        raise StoreError("desk.backup_not_brought_back", path=path, reason=error.strerror or str(error)) from None
    _check_manifest(path, result, manifest)
    return Restored(str(manifest["made"]), _check_database(into / DATABASE), len(result), into)


def _laid_out(archive: tarfile.TarFile, into: Path) -> tuple[dict[str, tuple[int, str]], dict[str, Any]]:
    """Write each file and take its hash; names outside the known ones are refused."""
    results: dict[str, tuple[int, str]] = {}
    manifest: dict[str, Any] = {}
    for info in archive:
        source = archive.extractfile(info) if info.isfile() else None
        if source is None:
            raise tarfile.TarError(f"{info.name!r} is no file")
        if info.name == "manifest.json":
            try:
                manifest = json.loads(source.read(LARGEST_MANIFEST))
            except ValueError:
                raise tarfile.TarError("its manifest is no JSON") from None
            continue
        parts = info.name.split("/")
        if info.name != DATABASE and (parts[0] not in FOLDERS or len(parts) < 2 or not all(map(_plain, parts))):
            raise tarfile.TarError(f"{info.name!r} has no place in a backup")
        path = into.joinpath(*parts)
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        digest, length = hashlib.sha256(), 0
        with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as out:
            while data := source.read(1 << 20):
                out.write(data)
                digest.update(data)
                length += len(data)
            out.flush()
            os.fsync(out.fileno())
        results[info.name] = length, digest.hexdigest()
    return results, manifest


def _plain(part: str) -> bool:
    """Whether a part of a name leads nowhere else."""
    return part not in ("", ".", "..") and not set(part) & set("\\:\0")


def _check_manifest(path: Path, results: dict[str, tuple[int, str]], manifest: dict[str, Any]) -> None:
    """Compare what came out with what was said to be in it."""
    try:
        form = manifest["format"]
        values = {str(file["name"]): (int(file["size"]), str(file["sha256"])) for file in manifest["files"]}
        str(manifest["made"])
    except (KeyError, TypeError, ValueError):
        raise StoreError("desk.backup_without_manifest", path=path) from None
    if form != FORMAT:
        raise StoreError("desk.backup_of_other_format", path=path, found=form, known=FORMAT)
    wrong = sorted(name for name in values.keys() | results.keys() if values.get(name) != results.get(name))
    if wrong:
        raise StoreError("desk.backup_files_wrong", path=path, files=", ".join(wrong))


def _check_database(path: Path) -> Contents:
    """Check a database that came back.

    Raises
    ------
    StoreError
        If it is damaged.
    """
    try:
        with closing(sqlite3.connect(path)) as database:
            faults = [row[0] for row in database.execute("PRAGMA integrity_check(3)") if row[0] != "ok"]
            faults += [f"a row of {row[0]} belongs to nothing" for row in database.execute("PRAGMA foreign_key_check")]
        contents = contents_of(path)
    except sqlite3.DatabaseError as error:
        faults = [str(error)]
    if faults:
        raise StoreError("desk.backup_database_damaged", reason=faults[0])
    return contents


def rehearse(path: Path, *, passphrase: str = "") -> Restored:
    """Bring a backup back to a place that goes again: the proof that it can be done.

    Raises
    ------
    StoreError
        As `read_backup`.
    """
    with tempfile.TemporaryDirectory(prefix="rodbook-") as folder:
        return read_backup(path, Path(folder), passphrase=passphrase)


def restore(path: Path, home: Path, *, passphrase: str = "", now: datetime | None = None) -> Restored:
    """Put a backup in the place of a desk's folder; what was there before stands beside it under another name.

    Raises
    ------
    StoreError
        If the backup is not sound, or a desk is running in the folder; then nothing is changed.
    """
    stamp = (datetime.now().astimezone() if now is None else now).strftime("%Y-%m-%d-%H%M%S")
    try:
        home.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f"{home.name}-coming-", dir=home.parent))
    except OSError as error:
        raise StoreError("desk.not_writable_beside", home=home, reason=error.strerror or str(error)) from None
    try:
        result = read_backup(path, fresh, passphrase=passphrase)
        before = _swapped(fresh, home, home.with_name(f"{home.name}-before-{stamp}"))
    except BaseException:
        shutil.rmtree(fresh, ignore_errors=True)
        raise
    return Restored(result.made, result.contents, result.files, home, before)


def _swapped(fresh: Path, home: Path, before: Path) -> Path | None:
    """Put one folder in the place of another, which no desk may be running in."""
    if not home.exists():
        fresh.rename(home)
        return None
    held = hold(home)
    try:
        for name in ("secret-key", "desk.log", "backup.json"):
            if (home / name).is_file():
                shutil.copy2(home / name, fresh / name)
        home.rename(before)
        fresh.rename(home)
    except OSError as error:
        if before.exists() and not home.exists():
            before.rename(home)
        raise StoreError("desk.not_replaced", home=home, reason=error.strerror or str(error)) from None
    finally:
        held.let_go()
    (before / "held-by.json").unlink(missing_ok=True)
    return before
