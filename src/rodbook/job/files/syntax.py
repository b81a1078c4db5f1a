"""Text into the plain values of a document, with one clear sentence where it is not well written."""

from __future__ import annotations

import math
import re
import tomllib
from typing import Any

from rodbook.errors import Fault, InputError
from rodbook.job.faults import one_line
from rodbook.job.files.store import too_large

__all__ = ["MOST_BYTES", "MOST_LEVELS", "read_values"]

MOST_BYTES = 5_000_000
"""No job or book is larger: 2000 openings with all their readings take less than 1 MB."""

MOST_LEVELS = 16
"""Lists and groups one inside another; a job needs five."""

_NOT_CLOSED = "text is not closed; end it with a quotation mark"
_SAID = (
    ("Cannot declare", "this heading stands here a second time; entries of a list are headed with [[two brackets]]"),
    ("Cannot overwrite", "this name already has a value; keep one of the two"),
    ("Duplicate inline table key", "this name already has a value; keep one of the two"),
    ("Cannot mutate", "this adds to a group that is already closed; write all of it in one place"),
    ("Cannot redefine", "this adds to a group that is already closed; write all of it in one place"),
    ("Expected '=' after", "there is no = between a name and its value; write it as in mark = \"C1\""),
    ("Expected newline", "something is left over after the value; decimals take a point, and each value its own line"),
    ("Expected ']", "this heading is not closed; write it as in [job] or [[openings]]"),
    ("Unclosed array", "a list is not closed; write it as in [842, 843, 843]"),
    ("Unclosed inline", "a group is not closed; end it with }"),
    ("Unterminated", _NOT_CLOSED),
    ("Expected", _NOT_CLOSED),
    ("Invalid date", "there is no such date; write it as 2026-11-25"),
    ("Invalid value", "this value can't be read; text stands in quotation marks, a number as in 842.5"),
    ("Invalid statement", "a line begins with a name, as in mark = \"C1\", or a heading, as in [[openings]]"),
    ("Invalid initial", "a name is missing here; write it as in mark = \"C1\""),
    ("Illegal character '\\n'", _NOT_CLOSED),
    ("Illegal character '\\r'", _NOT_CLOSED),
    ("Illegal character", "a character that can't be printed stands here; take it out"),
    ("Found invalid character", "a character that can't be printed stands here; take it out"),
    ("Unescaped", "a backslash stands in text; write it twice, or use 'single' quotation marks"),
    ("Invalid hex", "a backslash stands in text; write it twice, or use 'single' quotation marks"),
    ("Escaped character", "a backslash stands in text; write it twice, or use 'single' quotation marks"),
    ("Exceeds the limit", "a number has too many digits"),
)  # fmt: skip
"""How the reader of TOML begins what it says, and what is said here instead; the first that fits."""

_QUOTED = re.compile(
    r"""
      \"{3} (?: \\. | (?!\"{3}) [^\\] )*+ (?P<long>\"{3})?
    | '{3} (?: (?!'{3}) . )*+ (?P<long_plain>'{3})?
    | \" (?: \\[^\n] | [^\"\\\n] )*+ (?P<short>\")?
    | ' [^'\n]*+ (?P<short_plain>')?
    | (?P<comment>\#) [^\n]*+
    """,
    re.DOTALL | re.VERBOSE,
)
"""Text and comments, in one go also where they are not closed: then none of the names is matched."""

_LONG_NAME = re.compile(r"(?<![\w-])(?:[\w-]++[ \t]*+\.[ \t]*+){%d}" % MOST_LEVELS)  # noqa: UP031 - braces abound
_LONE_MARK = re.compile("[\"']")
_LONG_NUMBER = re.compile(r"[0-9_]{4000}")


def read_values(text: str) -> dict[str, Any]:
    """The values that a text holds, numbers of any size among them made small enough to handle.

    Raises
    ------
    InputError
        If it is too long, no text at all, or not TOML; a single fault, with its line.
    """
    try:
        size = len(text.encode())
    except UnicodeEncodeError as error:
        raise InputError(_fault(text, error.start, "a character that no text can have stands here")) from None
    if size > MOST_BYTES:
        raise too_large(MOST_BYTES)
    _refuse_long_names(text)
    try:
        values = tomllib.loads(text)
    except RecursionError:
        raise InputError.at("the file", "plain.text", text=_TOO_DEEP) from None
    except ValueError as error:
        raise InputError(_translated(text, str(error))) from None
    return {name: _tamed(value, 1) for name, value in values.items()}


_TOO_DEEP = f"lists or groups stand more than {MOST_LEVELS} deep one inside another; a job needs five"


def _without_text(text: str) -> str:
    """The document with a letter for each text and comment, but the quotation mark of text that is not closed."""
    return _QUOTED.sub(lambda match: ("s" if match.lastgroup else match[0][0]) + "\n" * match[0].count("\n"), text)


def _refuse_long_names(text: str) -> None:
    """Names of very many parts take the reader of TOML far too long."""
    bare = _without_text(text)
    if match := _LONG_NAME.search(bare):
        raise InputError(_fault(bare, match.start(), "a name of very many parts stands here; no name has dots in it"))


def _tamed(value: object, level: int) -> object:
    """A value without whole numbers that are too large to be shown, and not too deep to be looked at."""
    if level > MOST_LEVELS:
        raise InputError.at("the file", "plain.text", text=_TOO_DEEP)
    if isinstance(value, dict):
        return {name: _tamed(entry, level + 1) for name, entry in value.items()}
    if isinstance(value, list):
        return [_tamed(entry, level + 1) for entry in value]
    if isinstance(value, int) and value.bit_length() > 63:
        return float(value) if value.bit_length() < 1000 else math.inf if value > 0 else -math.inf
    return value


def _translated(text: str, said: str) -> Fault:
    sentence = next((ours for theirs, ours in _SAID if said.startswith(theirs)), "this can't be read as TOML")
    if match := re.search(r"at line (\d+), column", said):
        return _fault_on(text, int(match[1]), sentence)
    if match := _LONG_NUMBER.search(text):
        return _fault(text, match.start(), sentence)
    if sentence == _NOT_CLOSED and (match := _LONE_MARK.search(bare := _without_text(text))):
        return _fault_on(text, bare.count("\n", 0, match.start()) + 1, sentence)
    return Fault(f"line {max(len(text.splitlines()), 1)}", "job.file_ends_here", sentence=sentence)


def _fault(text: str, position: int, sentence: str) -> Fault:
    return _fault_on(text, text.count("\n", 0, position) + 1, sentence)


def _fault_on(text: str, line: int, sentence: str) -> Fault:
    lines = text.split("\n")
    reads = one_line(lines[line - 1].strip(), 60) if line <= len(lines) else ""
    return Fault(f"line {line}", "plain.text", text=f"{sentence}; it reads: {reads}" if reads else sentence)
