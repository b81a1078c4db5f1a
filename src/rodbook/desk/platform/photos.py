"""Pictures of openings: made anew without what else was in them, known by their content, kept under its hash."""

from __future__ import annotations

import hashlib
import os
import tempfile
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

from rodbook.desk.platform import picture_kept
from rodbook.desk.platform.turns import aside
from rodbook.errors import InputError, Message
from rodbook.job.files.bounded import Bounds, Ended, EndedError, run_bounded

__all__ = [
    "BOUNDS",
    "MOST_BYTES",
    "Kept",
    "TryLaterError",
    "bytes_kept",
    "hash_of",
    "keep",
    "kind_of",
    "made_anew",
    "path_of",
]

MOST_BYTES = 10 * 1024 * 1024
"""No picture is larger."""

BOUNDS = Bounds(cpu_seconds=8, memory_bytes=220_000_000)
"""What making a picture anew may take. House assumption."""

KINDS = ("image/jpeg", "image/png", "image/webp")


def kind_of(data: bytes) -> str | None:
    r"""What kind of picture this is, by its first bytes; None where it is none that is kept.

    Examples
    --------
    >>> kind_of(b"\xff\xd8\xff\xe0..."), kind_of(b"GIF89a")
    ('image/jpeg', None)
    """
    if data.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "image/webp"
    return None


def path_of(sha256: str) -> Path:
    """Where a picture lies."""
    return Path(settings.HOME) / "photos" / sha256


def hash_of(data: bytes) -> str:
    """What a picture is known by."""
    return hashlib.sha256(data).hexdigest()


@dataclass(frozen=True)
class Kept:
    """A picture as it is kept.

    Parameters
    ----------
    sha256 : str
        Its hash.
    kind : str
    data : bytes
    """

    sha256: str
    kind: str
    data: bytes


class TryLaterError(InputError):
    """Nothing is wrong with the picture; it can't be taken in at this moment."""


_WHY = {
    "pixels": Message(
        "desk.picture_too_large",
        most_million=picture_kept.MOST_DECODED_PX / 1e6,
        most_jpeg_million=picture_kept.MOST_PX / 1e6,
    ),
    "broken": Message("desk.picture_broken"),
}

_ENDED = {
    Ended.TIME: Message("desk.picture_too_slow", most_s=BOUNDS.cpu_seconds),
    Ended.MEMORY: Message("desk.picture_too_much"),
    Ended.BROKEN: _WHY["broken"],
}


def made_anew(data: bytes) -> Kept:
    """The picture that is kept of one that was sent: upright, bounded, and without where and with what it was taken.

    Raises
    ------
    InputError
        If it is none that is kept, is broken, has too many pixels or takes too much to open.
    TryLaterError
        If others are being made anew.
    """
    if kind_of(data) is None:
        raise InputError.at("photo", "desk.not_a_picture")
    try:
        with aside():
            answer = run_bounded(Path(picture_kept.__file__), data, bounds=BOUNDS)
    except EndedError as error:
        if error.why is Ended.BUSY:
            raise TryLaterError.at("photo", "desk.pictures_busy") from None
        raise InputError.at("photo", _ENDED[error.why]) from None
    kind, _, kept = answer.partition(b"\n")
    if (why := kind.decode()) in _WHY:
        raise InputError.at("photo", _WHY[why])
    return Kept(hash_of(kept), why, kept)


def bytes_kept() -> int:
    """What the pictures of all jobs take. [bytes]"""
    folder = Path(settings.HOME) / "photos"
    if not folder.is_dir():
        return 0
    with os.scandir(folder) as entries:
        return sum(entry.stat().st_size for entry in entries if entry.is_file())


def keep(kept: Kept, *, instead: bool = False) -> None:
    """Put a picture where pictures lie, unless it lies there.

    Parameters
    ----------
    kept : Kept
    instead : bool
        Whether another goes for it, so that no room is asked for.

    Raises
    ------
    InputError
        If all pictures together would take more than the desk has room set aside for.
    OSError
        If the disk is full or can't be written; nothing is left of the picture then, and pages say so as of every save.
    """
    path = path_of(kept.sha256)
    if path.exists():
        return
    if not instead and bytes_kept() + len(kept.data) > settings.MOST_PICTURE_BYTES:
        raise InputError.at("photo", "desk.pictures_full", most_mb=settings.MOST_PICTURE_BYTES / 1e6)
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, made = tempfile.mkstemp(dir=path.parent, prefix="new-")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(kept.data)
            out.flush()
            os.fsync(out.fileno())
        Path(made).replace(path)
        _sync(path.parent)
    except BaseException:
        Path(made).unlink(missing_ok=True)  # a part of a picture takes room that a save needs
        raise


def _sync(folder: Path) -> None:
    """Have the names in a folder written too, where the system does that for folders."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
