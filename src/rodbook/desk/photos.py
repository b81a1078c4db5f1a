"""Pictures of openings: known by their content, kept under its hash."""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path

from django.conf import settings

from rodbook.errors import InputError

__all__ = ["MOST_BYTES", "kind_of", "path_of", "put"]

MOST_BYTES = 10 * 1024 * 1024
"""No picture is larger."""

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


def put(data: bytes) -> tuple[str, str]:
    """Keep a picture; its hash and its kind.

    Raises
    ------
    InputError
        If it is none that is kept.
    """
    kind = kind_of(data)
    if kind is None:
        raise InputError.at("photo", "this is no JPEG, PNG or WebP picture, so it was not kept")
    sha256 = hashlib.sha256(data).hexdigest()
    path = path_of(sha256)
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, made = tempfile.mkstemp(dir=path.parent, prefix="new-")
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        Path(made).replace(path)
    return sha256, kind
