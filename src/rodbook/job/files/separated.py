"""Rows of cells out of separated text and back, whichever sign separates them."""

from __future__ import annotations

import contextlib
import csv
import io
import re
from collections.abc import Iterable, Sequence

from rodbook.errors import InputError
from rodbook.job.files.columns import column_of

__all__ = ["plain_text", "rows_from_text", "safe_text", "text_from_rows"]

_SEPARATORS = (",", ";", "\t")
_SAID_SEPARATOR = re.compile(r"sep=([,;\t])\r?\n", re.IGNORECASE)
_HEADING_LINES = 10
_FORMULA = re.compile("'*[=+\\-@\uff1d\uff0b\uff0d\uff20]")
"""How text begins that a spreadsheet takes for a formula, or that was already kept from being one."""


def rows_from_text(text: str) -> list[list[str]]:
    """The rows of cells in a separated text, blank ones included so that their numbers are a spreadsheet's.

    The sign between cells is the one that makes the most known headings.

    Raises
    ------
    InputError
        If quotation marks do not match.

    Examples
    --------
    >>> rows_from_text("mark;depth\\nC1;420,5\\n")
    [['mark', 'depth'], ['C1', '420,5']]
    """
    answer = _SAID_SEPARATOR.match(text)
    if answer:
        return _rows(text[answer.end() :], answer[1])
    start = "".join(io.StringIO(text, newline="").readlines()[:_HEADING_LINES])
    return _rows(text, max(_SEPARATORS, key=lambda sign: _headings(start, sign)))


def _headings(start: str, sign: str) -> tuple[int, int]:
    """How many known headings the best of the first rows has when it is cut at a sign; and how many cells."""
    rows = csv.reader(io.StringIO(start, newline=""), delimiter=sign)
    counts = [(0, 0)]
    with contextlib.suppress(csv.Error):  # the reading proper says what is wrong, and where
        counts += [(sum(column_of(cell) is not None for cell in row), len(row)) for row in rows]
    return max(counts)


def _rows(text: str, sign: str) -> list[list[str]]:
    rows: list[list[str]] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
    try:
        rows.extend(reader)
    except csv.Error:
        raise InputError.at(("rows", len(rows)), "table.quotation_marks_or_long_cell") from None
    return rows


def text_from_rows(rows: Iterable[Sequence[str]], separator: str) -> str:
    """Separated text of rows, each cell as it is."""
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=separator, lineterminator="\n").writerows(rows)
    return out.getvalue()


def safe_text(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe goes before what would begin one.

    >>> safe_text("=1+1"), safe_text("plain")
    ("'=1+1", 'plain')
    """
    return f"'{text}" if _FORMULA.match(text) else text


def plain_text(text: str) -> str:
    """Text as it was before `safe_text`.

    >>> plain_text("'=1+1"), plain_text("'tis plain")
    ('=1+1', "'tis plain")
    """
    return text[1:] if text.startswith("'") and _FORMULA.match(text) else text
