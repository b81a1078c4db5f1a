"""Openings out of a table, as a spreadsheet or a survey app gives it, and back into one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from pathlib import Path

from pydantic import ValidationError

from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job.checks import Entries, JobParts, check_job_parts
from rodbook.job.faults import MOST_FAULTS, complaints_of, nearest
from rodbook.job.files.columns import COLUMNS, Column, column_of
from rodbook.job.files.salvage import opening_alone
from rodbook.job.files.separated import plain_text, rows_from_text, safe_text, text_from_rows
from rodbook.job.files.store import FilePath, read_bytes, text_of
from rodbook.job.files.workbooks import rows_from_workbook
from rodbook.job.models import Opening
from rodbook.job.rows import rows_in_text
from rodbook.wording.places import column_letter

__all__ = [
    "MOST_COLUMNS",
    "MOST_FILE_BYTES",
    "MOST_ROWS",
    "has_headings",
    "heading_of",
    "openings_from_rows",
    "openings_from_rows_apart",
    "read_openings",
    "read_openings_apart",
    "word_of",
    "write_openings_csv",
]

MOST_FILE_BYTES = 10_000_000
"""No table is larger."""

MOST_ROWS = 2000
"""Openings in one table, as in one job."""

MOST_COLUMNS = 60
"""Columns in one table; there are 34 to fill."""

_MOST_SHOWN = 400
"""Signs of a cell that a fault keeps; its sentence shows fewer."""

_HEADING_ROWS = 10
"""The headings stand among so many first rows; what is above them is a title."""

_WORDS: Mapping[str, Mapping[str, object]] = {
    "leaves": {"one": 1, "two": 2, "three": 3, "single": 1, "pair": 2, "double": 2, "triple": 3},
    "hand": {"l": "left", "r": "right"},
    "head": {"sloping": "raked", "straight": "level"},
    "sill": {
        "yes": True,
        "y": True,
        "true": True,
        "x": True,
        "with": True,
        "1": True,
        "no": False,
        "n": False,
        "false": False,
        "-": False,
        "without": False,
        "none": False,
        "0": False,
    },
}
"""Words that cells may hold in place of the values of the field."""

_READINGS = ("widths", "heights", "diagonals")
_WANTED = ("leaf", "clear")

type Numbered = Sequence[tuple[int, Sequence[object]]]


def read_openings(path: FilePath, sheet: str | None = None, *, western: bool = False) -> tuple[Opening, ...]:
    """Read openings from a table: separated text (``.csv``, ``.tsv``, ``.txt``) or a workbook (``.xlsx``).

    Parameters
    ----------
    path : str or path
        Where it lies.
    sheet : str, optional
        Name of the workbook's sheet; the first one where it is left out.
    western : bool
        Separated text that is not UTF-8 is in the old Western encoding, as somebody said.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        If anything in it is wrong; carries every fault, each with its place.
    """
    return _all_sound(*read_openings_apart(path, sheet, western=western))


def read_openings_apart(
    path: FilePath, sheet: str | None = None, *, western: bool = False
) -> tuple[tuple[Opening, ...], tuple[Fault, ...]]:
    """Read openings from a table as far as its rows are sound; what is given is as for `read_openings`.

    Returns
    -------
    tuple
        The openings of the sound rows; and the faults of the others, each with its place.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        If it is no table, or its headings are wrong.
    """
    data = read_bytes(path, most=MOST_FILE_BYTES)
    kind = Path(path).suffix.lower()
    if data.startswith(b"PK") or kind in (".xlsx", ".xlsm", ".xls"):
        return _apart(rows_from_workbook(data, sheet))
    if kind not in (".csv", ".tsv", ".txt"):
        raise _no_table(kind)
    return openings_from_rows_apart(rows_from_text(text_of(data, western=western)))


def openings_from_rows_apart(rows: Sequence[Sequence[object]]) -> tuple[tuple[Opening, ...], tuple[Fault, ...]]:
    """Read openings from rows of cells as far as they are sound; see `read_openings_apart`."""
    return _apart([(n, row) for n, row in enumerate(rows, 1) if any(not _blank(cell) for cell in row)])


def has_headings(rows: Sequence[Sequence[object]]) -> bool:
    """Whether one of the first rows names columns: two of its cells at least are headings that are known.

    Examples
    --------
    >>> has_headings([["Corridor"], ["Opening", "Foot width"]]), has_headings([["C1", "842,5", "843"]])
    (True, False)
    """
    return any(sum(column_of(cell) is not None for cell in row) > 1 for row in rows[:_HEADING_ROWS])


def heading_of(field: str, index: int | str | None) -> str | None:
    """The heading of the column that fills a field; None where no list has one for it."""
    return next((column.label for column in COLUMNS if (column.field, column.index) == (field, index)), None)


def _no_table(suffix: str) -> InputError:
    return (
        InputError.at("file", "table.of_another_kind", suffix=suffix)
        if suffix
        else InputError.at("file", "table.no_kind")
    )


def openings_from_rows(rows: Sequence[Sequence[object]]) -> tuple[Opening, ...]:
    """Read openings from rows of cells, one of the first of them a row of headings.

    Parameters
    ----------
    rows : sequence of sequences
        All rows from the first, blank ones included: their numbers are the places in faults.

    Raises
    ------
    InputError
        If anything in them is wrong; carries every fault, each with its place.

    Examples
    --------
    >>> openings_from_rows([["opening", "leaf width", "leaf height"], ["W1", 447, "2100"]])[0].leaf
    (447.0, 2100.0)
    """
    return _all_sound(*openings_from_rows_apart(rows))


def _blank(cell: object) -> bool:
    return cell is None or (isinstance(cell, str) and not cell.strip())


# --- the headings -------------------------------------------------------------------------------------------------


def _all_sound(results: tuple[Opening, ...], faults: tuple[Fault, ...]) -> tuple[Opening, ...]:
    if faults:
        raise InputError(_not_too_many(list(faults)))
    return results


def _apart(rows: Numbered) -> tuple[tuple[Opening, ...], tuple[Fault, ...]]:
    if not rows:
        raise InputError.at("file", "table.empty")
    known = [sum(column_of(cell) is not None for cell in row) for _, row in rows[:_HEADING_ROWS]]
    head = known.index(max(known)) if max(known) > 1 else 0
    columns = _columns(*rows[head])
    body = rows[head + 1 :]
    if not body:
        raise InputError.at("file", "table.only_headings")
    if len(body) > MOST_ROWS:
        raise InputError.at("file", "table.too_many_rows", rows=len(body), most=MOST_ROWS)
    return _rows_read(columns, body)


def _columns(number: int, headings: Sequence[object]) -> dict[int, Column]:
    """The columns by their position; raises every fault in the headings."""
    columns: dict[int, Column] = {}
    first: dict[str, int] = {}
    faults: list[Fault] = []
    at = Place(("rows", number - 1))
    if len(headings) > MOST_COLUMNS and any(not _blank(cell) for cell in headings[MOST_COLUMNS:]):
        raise InputError.at(at, "table.too_many_columns", columns=len(headings), most=MOST_COLUMNS)
    for position, heading in enumerate(headings):
        if _blank(heading):
            continue
        where, column = at / "column" / position, column_of(heading)
        if column is None:
            shown = str(_text(heading))[:_MOST_SHOWN]
            hint = nearest(shown, [c.label for c in COLUMNS] + [name for c in COLUMNS for name in c.also])
            faults.append(Fault(where, "table.no_such_column", heading=shown, hint=hint))
        elif column.label in first:
            taken = column_letter(first[column.label])
            faults.append(Fault(where, "table.column_twice", heading=column.label, column=taken))
        else:
            first[column.label] = position
            columns[position] = column
    faults += _absent(at, {column.label for column in columns.values()})
    if faults:
        raise InputError(faults)
    return columns


def _absent(at: Place, labels: set[str]) -> Iterable[Fault]:
    """Columns without which no opening can be read."""
    if "mark" not in labels:
        yield Fault(at, "table.no_mark")
    sized = False
    for field in (*_READINGS, *_WANTED):
        group = [column.label for column in COLUMNS if column.field == field]
        lacking = [label for label in group if label not in labels]
        if lacking and len(lacking) < len(group):
            yield Fault(at, "table.columns_missing", missing=lacking, group=group)
        sized = sized or (len(lacking) < len(group) and field != "diagonals")
    if not sized:
        yield Fault(at, "table.no_sizes")


# --- the rows -----------------------------------------------------------------------------------------------------


def _rows_read(columns: Mapping[int, Column], body: Numbered) -> tuple[tuple[Opening, ...], tuple[Fault, ...]]:
    """The openings of the rows that are sound, and the faults of all others."""
    faults: list[Fault] = []
    openings: dict[int, Opening] = {}
    sound: dict[int, Opening] = {}
    marks: dict[int, str] = {}
    taken: set[Place] = set()
    for number, row in body:
        faults += _strays(number, row, columns)
        raw = _raw(row, columns)
        if isinstance(raw.get("mark"), str):
            marks[number] = str(raw["mark"])
        try:
            openings[number] = sound[number] = Opening.model_validate(raw)
        except ValidationError as error:
            result = complaints_of(error, Opening, raw)
            faults += [Fault(_place(number, where, marks.get(number)), _in_cell(answer)) for where, answer in result]
            taken.update(_place(number, where[:1], marks.get(number)) for where, _ in result)
            if (saved := opening_alone(raw)) is not None:
                sound[number] = saved
    checked = check_job_parts(JobParts(openings=Entries(sound, marks)), None)
    faults += [fault for fault in map(_in_table, checked) if fault.at not in taken]
    bad = set(map(_row_of, faults))
    return tuple(opening for number, opening in openings.items() if number not in bad), tuple(_in_order(faults))


def _row_of(fault: Fault) -> int:
    match fault.at.path:
        case ("rows", int(number), *_):
            return number + 1
    return 0


def _place(number: int, location: Sequence[str | int], mark: str | None) -> Place:
    field = location[0] if location else ""
    index = location[1] if len(location) > 1 else None
    label = next((c.label for c in COLUMNS if c.field == field and c.index == index), str(field))
    return Place(("rows", number - 1, label), mark or "")


def _in_cell(answer: Message) -> Message:
    """What is said of a value, in the words of a table's cells."""
    if answer.code == "field.neither_true_nor_false":
        return Message("table.neither_yes_nor_no", value=answer.parameters["value"])
    return answer


def _in_table(fault: Fault) -> Fault:
    """A fault of the checks, which count openings, with the row in its place."""
    within = {name: _row(value) if isinstance(value, Place) else value for name, value in fault.parameters.items()}
    return Fault(_row(fault.at), Message(fault, **within))


def _row(at: Place) -> Place:
    """The place of an opening as one of its row, with the heading in place of the field."""
    match at.path:
        case ("openings", int(number), "readings", str(name), *rest):
            return replace(at, path=("rows", number, name.replace("-", " "), *rest))
        case ("openings", int(number), str(field), *rest):
            return replace(at, path=("rows", number, field.replace("_", "-"), *rest))
        case ("openings", int(number), *rest):
            return replace(at, path=("rows", number, *rest))
    return at


def _in_order(faults: Iterable[Fault]) -> list[Fault]:
    return sorted(dict.fromkeys(faults), key=_row_of)


def _not_too_many(faults: Sequence[Fault]) -> list[Fault]:
    if len(faults) <= MOST_FAULTS:
        return list(faults)
    more = Fault("file", "file.more_faults", faults=len(faults) - MOST_FAULTS)
    return [*faults[:MOST_FAULTS], more]


def _strays(number: int, row: Sequence[object], columns: Mapping[int, Column]) -> Iterable[Fault]:
    for position, cell in enumerate(row):
        if position not in columns and not _blank(cell):
            at = Place(("rows", number - 1, "column", position))
            yield Fault(at, "table.no_heading", value=str(_text(cell))[:_MOST_SHOWN])
            return


def _raw(row: Sequence[object], columns: Mapping[int, Column]) -> dict[str, object]:
    """The fields of one opening, as far as its cells fill them."""
    raw: dict[str, object] = {}
    several: dict[str, dict[int, object]] = {}
    named: dict[str, dict[str, object]] = {}
    for position, column in columns.items():
        cell = row[position] if position < len(row) else None
        if isinstance(column.index, str):
            if not _blank(cell):
                named.setdefault(column.field, {})[column.index] = _length(cell)
        elif column.index is not None:
            several.setdefault(column.field, {})[column.index] = None if _blank(cell) else cell
        elif not _blank(cell):
            raw[column.field] = _length(cell) if column.is_length else word_of(column.field, _text(cell))
    for field, values in several.items():
        if any(value is not None for value in values.values()):
            raw[field] = [_length(values[index]) for index in sorted(values)]
    raw |= named
    if "state" not in raw and raw.keys() & set(_WANTED) and not raw.keys() & set(_READINGS):
        raw["state"] = "planned"
    return raw


def _length(cell: object) -> object:
    """A cell that is a length; whole numbers of absurd size are made small enough to handle."""
    return float("inf") if isinstance(cell, int) and cell.bit_length() > 63 else cell


def _text(cell: object) -> object:
    """A cell as text: a spreadsheet keeps a mark such as 12 as a number, and a date where none was meant."""
    if isinstance(cell, str):
        return plain_text(cell.strip())
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, int) and cell.bit_length() > 63:
        return "a number of very many digits"
    if isinstance(cell, float) and cell.is_integer() and abs(cell) < 1e15:
        return str(int(cell))
    return cell.isoformat() if isinstance(cell, Date) else str(cell)


def word_of(field: str, text: object) -> object:
    """What a cell means in a field that holds one of a few words: pair is 2, r is right, x is yes; else as it stands.

    >>> word_of("leaves", "Pair"), word_of("room", "Pair")
    (2, 'Pair')
    """
    if field in ("leaves", "hand", "sill", "state", "head") and isinstance(text, str):
        word = text.casefold()
        return _WORDS.get(field, {}).get(word, word)
    return text


# --- and back -----------------------------------------------------------------------------------------------------


def write_openings_csv(openings: Sequence[Opening], *, separator: str = ",") -> str:
    """A table of openings that `read_openings` reads back and a spreadsheet opens without harm.

    Parameters
    ----------
    openings : sequence of Opening
        What goes into it.
    separator : str
        Sign between cells: a comma, a tab, or a semicolon; with a semicolon decimals take a comma.
    """
    if separator not in (",", ";", "\t"):
        raise ValueError(f"{separator!r} can't stand between cells; use a comma, a semicolon or a tab")
    columns = [column for column in COLUMNS if _used(column, openings)]
    rows = [[column.label for column in columns]]
    rows += [[_cell(column, opening, separator) for column in columns] for opening in openings]
    return text_from_rows(rows, separator)


def _used(column: Column, openings: Sequence[Opening]) -> bool:
    """Whether a column says anything; those that every list has stay, so that it can be filled in further."""
    if column.field in ("mark", "room", "leaves", "hand"):
        return True
    if isinstance(column.index, str):
        return any(column.index in getattr(opening, column.field) for opening in openings)
    default = Opening.model_fields[column.field].default
    sized = any(opening.widths or opening.leaf or opening.clear for opening in openings)
    if not sized and column.field in ("widths", "heights"):
        return True
    return any(getattr(opening, column.field) != default for opening in openings)


def _cell(column: Column, opening: Opening, separator: str) -> str:
    value = getattr(opening, column.field)
    if isinstance(column.index, str):
        value = value.get(column.index)
    elif column.index is not None:
        value = None if value is None else value[column.index]
    if value is None:
        return ""
    if column.field == "rows":
        return rows_in_text([row.model_dump() for row in value])
    if column.field == "sill":
        return "yes" if value else "no"
    if column.is_length:
        return _number(value, "," if separator == ";" else ".")
    return safe_text(str(value))


def _number(value: float, point: str) -> str:
    """A length in figures, none of its decimals lost, and none that look like thousands."""
    whole, _, decimals = format(Decimal(repr(value)), "f").partition(".")
    decimals = decimals.rstrip("0")
    if len(decimals) == 3:
        decimals += "0"
    return f"{whole}{point}{decimals}" if decimals else whole
