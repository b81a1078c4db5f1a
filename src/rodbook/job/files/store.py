"""Files read whole, up to a limit, and turned into text; what goes wrong is said in one sentence."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from rodbook.errors import InputError, StoreError
from rodbook.job.faults import one_line

__all__ = ["FilePath", "read_bytes", "text_of"]

type FilePath = str | os.PathLike[str]


def read_bytes(path: FilePath, *, most: int) -> bytes:
    """Read a whole file.

    Parameters
    ----------
    path : str or path
        Where it lies.
    most : int
        A larger file is refused. [bytes]

    Raises
    ------
    StoreError
        If there is no such file, or it can't be read.
    InputError
        If it is larger than `most`.
    """
    shown = one_line(repr(os.fspath(path)), 300)
    try:
        if not stat.S_ISREG(Path(path).stat().st_mode):
            raise StoreError(f"{shown} is not a file; name the file itself")
        with Path(path).open("rb") as file:
            data = file.read(most + 1)
    except FileNotFoundError:
        raise StoreError(f"there is no file {shown}; check its name and folder") from None
    except PermissionError:
        raise StoreError(f"{shown} may not be read; its permissions keep you out") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is not one that a file can have"
        raise StoreError(f"{shown} can't be read: {one_line(reason[0].lower() + reason[1:])}") from None
    if len(data) > most:
        raise too_large(most)
    return data


def too_large(most: int) -> InputError:
    """The complaint about a file that is larger than any real one."""
    return InputError.at("the file", f"it is larger than {most / 1e6:g} MB; no real one is, so it is not read")


def text_of(data: bytes) -> str:
    r"""Read bytes as UTF-8 text, with or without the mark that some editors put in front.

    Raises
    ------
    InputError
        If they are not UTF-8.

    Examples
    --------
    >>> text_of(b"\xef\xbb\xbfmark = 'C1'")
    "mark = 'C1'"
    """
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise InputError.at("the file", "its text is UTF-16; save it again as UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError.at(f"line {line}", "a character here is not UTF-8; save the file again as UTF-8") from None
