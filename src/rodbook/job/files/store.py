"""Files read whole, up to a limit, and turned into text; what goes wrong is said in one sentence."""

from __future__ import annotations

import codecs
import os
import re
import stat
from pathlib import Path

from rodbook.errors import Fault, InputError, Place, StoreError

__all__ = ["NOT_UTF_8", "FilePath", "read_bytes", "text_of"]

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
    shown = str(os.fspath(path))
    try:
        if not stat.S_ISREG(Path(path).stat().st_mode):
            raise StoreError("file.not_a_file", path=shown)
        with Path(path).open("rb") as file:
            data = file.read(most + 1)
    except FileNotFoundError:
        raise StoreError("file.not_found", path=shown) from None
    except PermissionError:
        raise StoreError("file.may_not_be_read", path=shown) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None)
        if not reason:
            raise StoreError("file.impossible_name", path=shown) from None
        raise StoreError("file.cant_be_read", path=shown, reason=reason[0].lower() + reason[1:]) from None
    if len(data) > most:
        raise too_large(most)
    return data


def too_large(most: int) -> InputError:
    """The complaint about a file that is larger than any real one."""
    return InputError.at("file", "file.too_large", most_mb=most / 1e6)


NOT_UTF_8 = "file.not_utf_8"
"""Code of the fault that a text is not UTF-8 and may be read in the old Western encoding, where somebody says so."""

_WESTERN = "cp1252"

_AROUND = 24
"""Characters before and after the first doubtful one that are shown."""


def text_of(data: bytes, *, western: bool = False) -> str:
    r"""Read bytes as UTF-8 text, with or without the mark that some editors put in front, or as UTF-16 with its mark.

    Parameters
    ----------
    data : bytes
    western : bool
        Read them in the old Western encoding (code page 1252) where they are not UTF-8, as somebody said that they are.

    Raises
    ------
    InputError
        If they are neither, with line and column of the first character that can't be read.

    Examples
    --------
    >>> text_of(b"\xef\xbb\xbfmark = 'C1'")
    "mark = 'C1'"
    >>> text_of("Küche".encode("cp1252"), western=True)
    'Küche'
    """
    wide = data[:2] in (b"\xff\xfe", b"\xfe\xff")
    data = data.removeprefix(codecs.BOM_UTF8)  # else places of what is wrong would be counted from behind it
    try:
        text = data.decode("utf-16" if wide else "utf-8")
    except UnicodeDecodeError as error:
        if wide:
            at = _place(data[: error.start].decode("utf-16", "ignore"))
            raise InputError.at(at, "file.utf_16_damaged") from None
        text = _text_before_nul(data) if b"\0" in data[: error.start] else _western(data, error.start, agreed=western)
    if "\0" in text:
        raise InputError.at(_place(text[: text.index("\x00")]), "file.nul_character")
    return text


def _text_before_nul(data: bytes) -> str:
    """The sound text before the first character that no text has, and that character."""
    return data[: data.index(b"\0") + 1].decode("utf-8")


def _western(data: bytes, position: int, *, agreed: bool) -> str:
    """The text in the old Western encoding where that is agreed; else the question, with the first line in doubt read so."""
    before = data[:position].decode("utf-8")  # sound as far as here
    try:
        text = data.decode(_WESTERN)
    except UnicodeDecodeError:
        raise InputError.at(_place(before), "file.neither_encoding") from None
    if any(ord(sign) < 32 and sign not in "\t\r\n\f" for sign in text):
        raise InputError.at(_place(before), "file.neither_encoding")
    if agreed:
        return text
    line = re.split(r"[\r\n]", before)[-1]
    after = re.split(r"[\r\n]", data[position : position + _AROUND].decode(_WESTERN), maxsplit=1)[0]
    shown = f"{line[-_AROUND:]}{after}".strip()
    raise InputError(Fault(_place(before), "file.not_utf_8", line=shown))


def _place(before: str) -> Place:
    """Line and column of the character that follows this text."""
    lines = re.split(r"\r\n|\r|\n", before)
    return Place(("lines", len(lines) - 1, "character", len(lines[-1])))
