"""Rows of cells out of a spreadsheet workbook (XLSX): first a look at whether it may be opened, then opened within bounds.

The look goes through what the workbook is packed from without taking it apart: how many parts, how large unpacked, how many
styles, texts and cells. What passes is read in a process of its own (`workbook_cells`), which is ended at limits of time and
memory whatever the look has missed.
"""

from __future__ import annotations

import io
import json
import re
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from rodbook.errors import Fault, InputError, Message
from rodbook.job.faults import MOST_FAULTS, nearest
from rodbook.job.files import workbook_cells
from rodbook.job.files.bounded import Bounds, Ended, EndedError, run_bounded
from rodbook.job.files.workbook_cells import MOST_CELLS, MOST_ROWS, as_cell

__all__ = ["BOUNDS", "MOST_UNPACKED_BYTES", "refuse_harm", "rows_from_workbook", "rows_in"]

BOUNDS = Bounds(cpu_seconds=8, memory_bytes=200_000_000)
"""What reading a workbook may take; the largest that passes the look takes about two thirds of the time. House assumption."""

MOST_UNPACKED_BYTES = 60_000_000
"""A workbook that unpacks to more is not opened."""

_MOST_PARTS = 1000
_MOST_RATIO = 150
"""A workbook shrinks to a tenth or so; one part that shrinks to less than one in this many is made to do harm."""

_SMALL_BYTES = 1_000_000
"""Parts that unpack to no more than this do no harm, whatever their ratio."""

_MOST_TEXT_BYTES = 20_000_000
"""Texts of all cells together, as packed in one part. House assumption. [bytes]"""

_MOST_MARKS = 60_000
"""Marks of XML in a part that describes the workbook (its styles above all): a few thousand in one that people made."""

_MARKS_A_TEXT = 4
"""Marks of XML that one text takes."""

_DESCRIBING = re.compile(r"xl/(styles|workbook)\.xml|xl/_rels/.*|\[Content_Types\]\.xml|docProps/.*", re.IGNORECASE)
_TEXTS = re.compile(r".*sharedStrings[^/]*\.xml", re.IGNORECASE)
_SHEET = re.compile(r"xl/worksheets/[^/]+\.xml", re.IGNORECASE)

_CELL = re.compile(rb"<(?:\w+:)?c[\s/>]")
_CHUNK = 1 << 18
_OVERLAP = 600

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
        If it is no workbook, is made to do harm, takes too much to read, has no such sheet, or has formulas without results.
    """
    refuse_harm(data)
    args = () if sheet is None else (sheet.replace("\0", " "),)
    try:
        answer = json.loads(run_bounded(Path(workbook_cells.__file__), data, *args, bounds=BOUNDS))
    except EndedError as error:
        raise InputError.at("file", _ended(error.why)) from None
    return rows_in(answer, sheet)


def _ended(why: Ended) -> Message:
    """Why a workbook was not read to its end."""
    if why is Ended.TIME:
        return Message("workbook.took_too_long", seconds=BOUNDS.cpu_seconds)
    if why is Ended.MEMORY:
        return Message("workbook.took_too_much_memory", most_mb=BOUNDS.memory_bytes / 1e6)
    return Message("workbook.others_being_read" if why is Ended.BUSY else "workbook.damaged")


def _beyond(limit: str) -> Message:
    """What a sheet has too many of: rows or cells."""
    if limit == "rows":
        return Message("workbook.too_many_rows", most=MOST_ROWS)
    return Message("workbook.too_many_cells", most=MOST_CELLS)


def rows_in(answer: Mapping[str, object], sheet: str | None) -> Numbered:
    """The rows in what was found in a workbook, as `workbook_cells` tells it.

    Raises
    ------
    InputError
        If there are none, with the reason.
    """
    match answer:
        case {"rows": list(rows)}:
            return [(number, [as_cell(cell) for cell in cells]) for number, cells in rows]
        case {"unsaved": list(places)}:
            raise InputError(_without_result(number, column) for number, column in places[:MOST_FAULTS])
        case {"beyond": str(limit)}:
            raise InputError.at("file", _beyond(limit))
        case {"names": list(names)} if names and sheet is not None:
            raise InputError.at("file", "workbook.no_such_sheet", sheet=sheet, hint=nearest(sheet, names))
    raise InputError.at("file", "workbook.no_cells")


def _without_result(row: int, column: int) -> Fault:
    return Fault(("cells", row - 1, column - 1), "workbook.formula_without_result")


# --- the look before it is opened -----------------------------------------------------------------------------------


def refuse_harm(data: bytes) -> None:
    """Refuse what is no workbook, or one that would take too much to open; nothing of it is kept unpacked.

    Raises
    ------
    InputError
        With the reason.
    """
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise InputError.at("file", "workbook.of_the_old_kind")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
            _refuse_bomb(parts)
            cells = [result for part in parts if (result := _looked_through(archive, part)) is not None]
    except InputError:
        raise
    except Exception:  # damaged archives fail in a dozen ways
        raise InputError.at("file", "workbook.damaged") from None
    if cells and min(cells) > MOST_CELLS:
        raise InputError.at("file", _beyond("cells"))


def _refuse_bomb(parts: Sequence[zipfile.ZipInfo]) -> None:
    total = sum(part.file_size for part in parts)
    tight = any(p.file_size > max(_SMALL_BYTES, _MOST_RATIO * p.compress_size) for p in parts)
    texts = any(p.file_size > _MOST_TEXT_BYTES for p in parts if _TEXTS.fullmatch(p.filename))
    if total > MOST_UNPACKED_BYTES or tight or texts or len(parts) > _MOST_PARTS:
        raise InputError.at("file", "workbook.unpacks_too_large")


def _looked_through(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> int | None:
    """Go through one part piece by piece; how many cells it has, where it is a sheet."""
    marks = cells = 0
    is_sheet, tail = bool(_SHEET.fullmatch(part.filename)), b""
    most = _most_marks(part.filename)
    with archive.open(part) as unpacked:
        while chunk := unpacked.read(_CHUNK):
            _refuse_entities(tail + chunk, begins=not tail)
            marks += chunk.count(b"<")
            if is_sheet:  # a mark that is cut by two pieces may be missed, and the reader counts again
                cells += len(_CELL.findall(chunk))
            if most is not None and marks > most:
                texts = bool(_TEXTS.fullmatch(part.filename))
                raise InputError.at("file", "workbook.too_many_texts" if texts else "workbook.too_many_styles")
            tail = chunk[-_OVERLAP:]
    return cells if is_sheet else None


def _most_marks(name: str) -> int | None:
    """Marks of XML that a part may have; None where the reader stops by itself, or does not look at it."""
    if _TEXTS.fullmatch(name):
        return MOST_CELLS * _MARKS_A_TEXT
    return _MOST_MARKS if _DESCRIBING.fullmatch(name) else None


def _refuse_entities(piece: bytes, *, begins: bool) -> None:
    """Refuse parts that define their own abbreviations, openly or hidden by an unusual encoding."""
    bare = piece.replace(b"\0", b"") if b"\0" in piece else piece
    encoding = _ENCODING.match(bare.removeprefix(b"\xef\xbb\xbf")[:400]) if begins else None
    hidden = encoding is not None and encoding[1].lower() not in _PLAIN_ENCODINGS
    if hidden or b"<!DOCTYPE" in bare or b"<!ENTITY" in bare:
        raise InputError.at("file", "workbook.made_to_do_harm")
