"""Rows of a price list out of separated text or a workbook, each with its number."""

from __future__ import annotations

import csv
import io

from rodbook.errors import InputError
from rodbook.job.files.store import FilePath, read_bytes, text_of
from rodbook.job.files.workbooks import Numbered, rows_from_workbook

__all__ = ["price_rows"]

MOST_BYTES = 10_000_000
"""No price list is larger."""

SIGNS = (";", "\t", ",")
"""What may stand between cells; where prices have decimal commas it is one of the first two."""


def price_rows(path: FilePath, sheet: str | None = None, *, western: bool = False) -> Numbered:
    """Read the rows of a price list: separated text or a workbook.

    Parameters
    ----------
    path : str or path
    sheet : str, optional
        Name of the workbook's sheet; the first one where it is left out.
    western : bool
        Separated text that is not UTF-8 is in the old Western encoding, as somebody said.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        If it is no table.
    """
    data = read_bytes(path, most=MOST_BYTES)
    if data.startswith(b"PK"):
        return rows_from_workbook(data, sheet)
    text = text_of(data, western=western)
    first = next((line for line in text.splitlines() if line.strip()), "")
    sign = next((s for s in SIGNS if s in first), ",")
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True))
    except csv.Error:
        raise InputError.at("list", "table.quotation_marks") from None
    return [(number, row) for number, row in enumerate(rows, 1) if any(cell.strip() for cell in row)]
