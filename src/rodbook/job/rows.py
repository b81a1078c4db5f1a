"""Rows of a front, one over the other from the floor up, as a short text and as entries: ``drawer 200, drawer, leaves``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from rodbook.errors import Unread

__all__ = ["ROW_KINDS", "rows_from_text", "rows_in_text"]

ROW_KINDS = ("drawer", "flap", "leaves", "apron")
"""What a row of a front may be."""

_ROW = re.compile(r"([a-z]+)(?:\s+(\d{1,6}(?:\.\d{1,20})?)\s*(mm|shares?)?)?")


def rows_from_text(text: str) -> list[dict[str, Any]]:
    """Entries of rows from a text: kind, and its height in mm or its share of what the others leave.

    Parameters
    ----------
    text : str
        From the floor up, between commas.

    Raises
    ------
    Unread
        If a row can't be read.

    Examples
    --------
    >>> rows_from_text("drawer 200, drawer 2 shares, leaves")
    [{'kind': 'drawer', 'height': 200.0}, {'kind': 'drawer', 'share': 2.0}, {'kind': 'leaves'}]
    """
    results: list[dict[str, Any]] = []
    for answer in filter(None, (row.strip() for row in re.split(r"[,;]", text))):
        read = _ROW.fullmatch(answer.casefold())
        if read is None or read[1] not in ROW_KINDS:
            raise Unread("length.no_row_of_front", row=answer)
        row: dict[str, Any] = {"kind": read[1]}
        if read[2]:
            row["share" if (read[3] or "").startswith("share") else "height"] = float(read[2])
        results.append(row)
    return results


def rows_in_text(rows: Sequence[Any]) -> str:
    """Rows as `rows_from_text` reads them; what is no row is left out.

    >>> rows_in_text([{"kind": "drawer", "height": 200.0}, {"kind": "leaves"}])
    'drawer 200, leaves'
    """
    texts: list[str] = []
    for row in rows:
        if not isinstance(row, dict) or "kind" not in row:
            continue
        height, share = row.get("height"), row.get("share")
        size = f" {_plain(height)}" if height else f" {_plain(share)} shares" if share not in (None, 1, 1.0) else ""
        texts.append(f"{row['kind']}{size}")
    return ", ".join(texts)


def _plain(value: object) -> str:
    """All of a number's figures, none of them as a power of ten."""
    if not isinstance(value, int | float):
        return str(value)
    text = format(Decimal(repr(value)), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
