"""Rows of cells out of a spreadsheet workbook (XLSX), after a look at whether it is safe to open."""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Iterator, Sequence
from typing import Any

from rodbook.errors import Fault, InputError
from rodbook.job.faults import MOST_FAULTS, nearest, one_line
from rodbook.job.files.columns import letter

__all__ = ["MOST_UNPACKED_BYTES", "rows_from_workbook"]

MOST_UNPACKED_BYTES = 60_000_000
"""A workbook that unpacks to more is not opened."""

_MOST_PARTS = 1000
_MOST_RATIO = 150
"""A workbook shrinks to a tenth or so; one part that shrinks to less than one in this many is made to do harm."""

_SMALL_BYTES = 1_000_000
"""Parts that unpack to no more than this do no harm, whatever their ratio."""

_MOST_SHEET_ROWS = 100_000
"""Rows of a sheet, blank ones counted, that are looked through; a stray cell far below a table would take forever."""

_ENCODING = re.compile(rb"""\s*<\?xml[^>]{0,200}?encoding\s*=\s*["']([^"']*)["']""")
_PLAIN_ENCODINGS = frozenset({b"utf-8", b"utf8", b"us-ascii", b"ascii"})

type Numbered = list[tuple[int, Sequence[object]]]


def rows_from_workbook(data: bytes, sheet: str | None = None) -> Numbered:
    """The rows of one sheet that are not blank, each with its number as the spreadsheet shows it.

    Parameters
    ----------
    data : bytes
        The workbook.
    sheet : str, optional
        Name of the sheet; the first one where it is left out.

    Raises
    ------
    InputError
        If it is no workbook, is made to do harm, has no such sheet, or has formulas without results.
    """
    _refuse_harm(data)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of what a workbook may hold that is of no use here
            return _read(data, sheet)
    except InputError:
        raise
    except Exception:  # the library lets out whatever goes wrong deep inside it
        raise InputError.at("the file", _NOT_ONE) from None


_NOT_ONE = "this workbook can't be read; open it in a spreadsheet and save it again as .xlsx"


def _refuse_harm(data: bytes) -> None:
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise InputError.at("the file", "this workbook is of the old kind or locked; save it again as plain .xlsx")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
            _refuse_bomb(parts)
            for part in parts:
                _refuse_entities(archive.read(part))
    except InputError:
        raise
    except Exception:  # damaged archives fail in a dozen ways
        raise InputError.at("the file", _NOT_ONE) from None


def _refuse_bomb(parts: Sequence[zipfile.ZipInfo]) -> None:
    total = sum(part.file_size for part in parts)
    tight = any(p.file_size > max(_SMALL_BYTES, _MOST_RATIO * p.compress_size) for p in parts)
    if total > MOST_UNPACKED_BYTES or tight or len(parts) > _MOST_PARTS:
        raise InputError.at(
            "the file", "this workbook unpacks to far more than it should; copy the table into a new one and save that"
        )


def _refuse_entities(part: bytes) -> None:
    """Refuse parts that define their own abbreviations, openly or hidden by an unusual encoding."""
    bare = part.removeprefix(b"\xef\xbb\xbf").replace(b"\0", b"")
    encoding = _ENCODING.match(bare[:400])
    hidden = encoding is not None and encoding[1].lower() not in _PLAIN_ENCODINGS
    if hidden or b"<!DOCTYPE" in bare or b"<!ENTITY" in bare:
        raise InputError.at(
            "the file", "this workbook holds what none needs, and is not opened; save it again as .xlsx"
        )


def _read(data: bytes, sheet: str | None) -> Numbered:
    import openpyxl

    values = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
    formulas = openpyxl.load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
    try:
        name = _sheet_name([str(s.title) for s in values.worksheets], sheet)
        rows: Numbered = []
        faults: list[Fault] = []
        pairs = zip(_rows(values[name]), _rows(formulas[name]), strict=True)
        for number, (cells, written) in enumerate(pairs, 1):
            faults += _without_result(number, cells, written)
            found = _trimmed([cell.value for cell in cells])
            if found:
                rows.append((number, found))
    finally:
        values.close()
        formulas.close()
    if faults:
        raise InputError(faults[:MOST_FAULTS])
    return rows


def _sheet_name(names: list[str], wanted: str | None) -> str:
    if not names:
        raise InputError.at("the file", "this workbook has no sheet with cells")
    if wanted is None:
        return names[0]
    found = next((name for name in names if name.casefold() == wanted.strip().casefold()), None)
    if found is None:
        raise InputError.at("the file", one_line(f"there is no sheet {wanted!r}{nearest(wanted, names)}"))
    return found


def _rows(sheet: Any) -> Iterator[Sequence[Any]]:
    """Every row of a sheet, whatever the sheet claims its size to be."""
    sheet.reset_dimensions()
    for number, row in enumerate(sheet.iter_rows(), 1):
        if number > _MOST_SHEET_ROWS:
            said = f"this sheet goes on below row {_MOST_SHEET_ROWS}; copy the table into a new workbook and save that"
            raise InputError.at("the file", said)
        yield row


def _without_result(number: int, cells: Sequence[Any], written: Sequence[Any]) -> Iterator[Fault]:
    for column, (cell, source) in enumerate(zip(cells, written, strict=True), 1):
        if source.data_type == "f" and cell.value is None and cell.data_type != "str":
            yield Fault(
                f"cell {letter(column)}{number}",
                "the result of this formula is not saved; open the workbook in a spreadsheet and save it, "
                "or write the value itself",
            )


def _trimmed(cells: list[object]) -> list[object]:
    """Cells without the blank ones at the end."""
    while cells and (cells[-1] is None or (isinstance(cells[-1], str) and not cells[-1].strip())):
        cells.pop()
    return cells
