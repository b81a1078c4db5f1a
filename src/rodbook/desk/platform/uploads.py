"""Lists that somebody sends to the desk: only tables, only so large, and looked at in a folder that goes again."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from django.http import HttpRequest

from rodbook.desk.platform.turns import aside
from rodbook.errors import Fault, InputError
from rodbook.job.files.store import NOT_UTF_8

__all__ = ["MOST_BYTES", "SUFFIXES", "asks_western", "in_western", "sent_list"]

MOST_BYTES = 10 * 1024 * 1024
"""Largest list that is looked at."""

SUFFIXES = (".csv", ".tsv", ".txt", ".xlsx")
"""How the name of a list may end."""


def in_western(request: HttpRequest) -> bool:
    """Whether somebody said that the file is in the old Western encoding."""
    return request.POST.get("western") == "yes"


def asks_western(faults: Iterable[Fault]) -> bool:
    """Whether a page asks if the file is in the old Western encoding."""
    return any(NOT_UTF_8 in fault.codes for fault in faults)


@contextmanager
def sent_list(request: HttpRequest, *, too_large: str) -> Iterator[Path]:
    """The list that was sent, as a file that is there for as long as it is looked at.

    Parameters
    ----------
    request : HttpRequest
        With the file in its field "list".
    too_large : str
        What is said of one that is larger than any real one.

    Raises
    ------
    InputError
        If there is none, or it is no list.
    """
    upload = request.FILES.get("list")
    if upload is None:
        raise InputError.at("", "form.no_file")
    suffix = Path(str(upload.name)).suffix.lower()
    if suffix not in SUFFIXES:
        raise InputError.at("", "form.file_is_no_list" if suffix else "form.file_without_ending", suffix=suffix)
    if upload.size is None or upload.size > MOST_BYTES:
        raise InputError.at("", too_large)
    with tempfile.TemporaryDirectory(prefix="rodbook-") as folder:
        path = Path(folder) / f"list{suffix}"
        path.write_bytes(upload.read())
        with aside():  # a process of its own reads it
            yield path
