"""Blank lists to be filled in, as separated text or as a workbook: headings and names, with room for prices."""

from __future__ import annotations

import io
from collections.abc import Sequence

from rodbook.errors import InputError
from rodbook.job.files.separated import safe_text, text_from_rows

__all__ = ["BLANK_KINDS", "blank_list"]

BLANK_KINDS = ("csv", "xlsx")
"""How a blank list may be written."""

_LEAST_WIDTH, _MOST_WIDTH = 10, 48
"""Of a workbook's columns. [letters]"""


def blank_list(rows: Sequence[Sequence[str]], kind: str) -> bytes:
    """A blank list as a file.

    Parameters
    ----------
    rows : sequence of sequence of str
        Headings first.
    kind : str
        "csv", with semicolons and the mark that makes spreadsheets read its letters rightly, or "xlsx".

    Raises
    ------
    InputError
        If it is neither.
    """
    if kind == "csv":
        return text_from_rows([[safe_text(cell) for cell in row] for row in rows], ";").encode("utf-8-sig")
    if kind != "xlsx":
        raise InputError.at("list", "file.blank_list_of_another_kind", kind=kind)
    return _workbook(rows)


def _workbook(rows: Sequence[Sequence[str]]) -> bytes:
    from openpyxl import Workbook
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    sheet = book.active
    assert sheet is not None, "a new workbook has a sheet"
    for number, row in enumerate(rows, 1):
        for column, text in enumerate(row, 1):
            if text:
                cell = sheet.cell(number, column, text)
                cell.data_type = "s"  # a name that begins with a sign is no formula
                cell.font = Font(bold=number == 1)
    for column, texts in enumerate(zip(*rows, strict=True), 1):
        wide = max(map(len, texts)) + 2
        sheet.column_dimensions[get_column_letter(column)].width = min(max(wide, _LEAST_WIDTH), _MOST_WIDTH)
    sheet.freeze_panes = "A2"
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
