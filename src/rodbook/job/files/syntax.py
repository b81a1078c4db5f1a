"""Text into the plain values of a document, with one clear sentence where it is not well written."""

from __future__ import annotations

import math
import re
import tomllib
from typing import Any

from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job.files.store import too_large

__all__ = ["MOST_BYTES", "MOST_LEVELS", "read_values"]

MOST_BYTES = 5_000_000
"""No job or book is larger: 2000 openings with all their readings take less than 1 MB."""

MOST_LEVELS = 16
"""Lists and groups one inside another; a job needs five."""

_NOT_CLOSED = "toml.text_not_closed"
_SAID = (
    ("Cannot declare", "toml.heading_twice"),
    ("Cannot overwrite", "toml.name_twice"),
    ("Duplicate inline table key", "toml.name_twice"),
    ("Cannot mutate", "toml.group_closed"),
    ("Cannot redefine", "toml.group_closed"),
    ("Expected '=' after", "toml.no_equals_sign"),
    ("Expected newline", "toml.left_over"),
    ("Expected ']", "toml.heading_not_closed"),
    ("Unclosed array", "toml.list_not_closed"),
    ("Unclosed inline", "toml.group_not_closed"),
    ("Unterminated", _NOT_CLOSED),
    ("Expected", _NOT_CLOSED),
    ("Invalid date", "toml.no_such_date"),
    ("Invalid value", "toml.no_value"),
    ("Invalid statement", "toml.no_name_or_heading"),
    ("Invalid initial", "toml.name_missing"),
    ("Illegal character '\\n'", _NOT_CLOSED),
    ("Illegal character '\\r'", _NOT_CLOSED),
    ("Illegal character", "toml.unprintable"),
    ("Found invalid character", "toml.unprintable"),
    ("Unescaped", "toml.backslash"),
    ("Invalid hex", "toml.backslash"),
    ("Escaped character", "toml.backslash"),
    ("Exceeds the limit", "toml.too_many_digits"),
)
"""How the reader of TOML begins what it says, and the code of what is said here instead; the first that fits."""

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
_MOST_SHOWN = 400
"""Signs of a line that a fault keeps; its sentence shows fewer."""

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
        raise InputError(_fault(text, error.start, "toml.character_of_no_text")) from None
    if size > MOST_BYTES:
        raise too_large(MOST_BYTES)
    _refuse_long_names(text)
    try:
        values = tomllib.loads(text)
    except RecursionError:
        raise InputError.at("file", "toml.too_deep", most=MOST_LEVELS) from None
    except ValueError as error:
        raise InputError(_translated(text, str(error))) from None
    return {name: _tamed(value, 1) for name, value in values.items()}


def _without_text(text: str) -> str:
    """The document with a letter for each text and comment, but the quotation mark of text that is not closed."""
    return _QUOTED.sub(lambda match: ("s" if match.lastgroup else match[0][0]) + "\n" * match[0].count("\n"), text)


def _refuse_long_names(text: str) -> None:
    """Names of very many parts take the reader of TOML far too long."""
    bare = _without_text(text)
    if match := _LONG_NAME.search(bare):
        raise InputError(_fault(bare, match.start(), "toml.name_of_many_parts"))


def _tamed(value: object, level: int) -> object:
    """A value without whole numbers that are too large to be shown, and not too deep to be looked at."""
    if level > MOST_LEVELS:
        raise InputError.at("file", "toml.too_deep", most=MOST_LEVELS)
    if isinstance(value, dict):
        return {name: _tamed(entry, level + 1) for name, entry in value.items()}
    if isinstance(value, list):
        return [_tamed(entry, level + 1) for entry in value]
    if isinstance(value, int) and value.bit_length() > 63:
        return float(value) if value.bit_length() < 1000 else math.inf if value > 0 else -math.inf
    return value


def _translated(text: str, words: str) -> Fault:
    code = next((ours for theirs, ours in _SAID if words.startswith(theirs)), "toml.unreadable")
    if match := re.search(r"at line (\d+), column", words):
        return _fault_on(text, int(match[1]), code)
    if match := _LONG_NUMBER.search(text):
        return _fault(text, match.start(), code)
    if code == _NOT_CLOSED and (match := _LONE_MARK.search(bare := _without_text(text))):
        return _fault_on(text, bare.count("\n", 0, match.start()) + 1, code)
    last = max(len(text.splitlines()), 1)
    return Fault(("lines", last - 1), "toml.ends_early", said=Message(code))


def _fault(text: str, position: int, code: str) -> Fault:
    return _fault_on(text, text.count("\n", 0, position) + 1, code)


def _fault_on(text: str, line: int, code: str) -> Fault:
    lines = text.split("\n")
    reads = lines[line - 1].strip()[:_MOST_SHOWN] if line <= len(lines) else ""
    at = Place(("lines", line - 1))
    return Fault(at, "toml.it_reads", said=Message(code), line=reads) if reads else Fault(at, code)
