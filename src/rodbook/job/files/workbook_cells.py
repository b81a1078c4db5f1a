"""The script that takes the cells out of a workbook, in a process of its own: a workbook in, rows or a reason out, as JSON.

It uses the standard library and the reader of workbooks, nothing of this package, so that it starts at once and stays small.
"""

from __future__ import annotations

import io
import json
import sys
import warnings
from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime, time, timedelta
from typing import Any

__all__ = ["MOST_CELLS", "MOST_ROWS", "as_cell", "cells_of"]

MOST_CELLS = 150_000
"""Cells of a sheet that are looked through, blank ones before the last of a row counted: ten thousand articles of fifteen
columns. House assumption."""

MOST_ROWS = 100_000
"""Rows of a sheet, blank ones counted, that are looked through; a stray cell far below a table would take forever."""

_MOST_UNSAVED = 500
"""Formulas without results that are told."""

type Answer = dict[str, object]


class _Refused(Exception):  # noqa: N818  it says what is so
    """The sheet goes beyond a limit."""


def cells_of(data: bytes, sheet: str | None) -> Answer:
    """The rows of one sheet that are not blank, or why there are none.

    Parameters
    ----------
    data : bytes
        The workbook.
    sheet : str, optional
        Name of the sheet; the first one where it is left out.

    Returns
    -------
    dict
        ``rows``: pairs of a number and its cells; or ``names`` of the sheets where the wanted one is not among them; or
        ``unsaved``: row and column of each formula without a result; or ``beyond``: "rows" or "cells".
    """
    import openpyxl

    def opened(*, results: bool) -> Any:
        return openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=results, keep_links=False)

    written = opened(results=False)
    names = [str(each.title) for each in written.worksheets]
    name = names[0] if sheet is None and names else _named(names, sheet or "")
    if name is None:
        return {"names": names}
    try:
        rows, formulas = _rows(written[name], lambda _number, cells: [cell.value for cell in cells])
        if not formulas:
            return {"rows": rows}
        unsaved: list[tuple[int, int]] = []

        def result(number: int, cells: Sequence[Any]) -> list[object]:
            for column, cell in enumerate(cells, 1):
                if cell.value is None and cell.data_type != "str" and (number, column) in formulas:
                    unsaved.append((number, column))
            return [cell.value for cell in cells]

        rows, _ = _rows(opened(results=True)[name], result)
    except _Refused as error:
        return {"beyond": str(error)}
    return {"unsaved": unsaved[:_MOST_UNSAVED]} if unsaved else {"rows": rows}


def _named(names: Sequence[str], wanted: str) -> str | None:
    return next((name for name in names if name.casefold() == wanted.strip().casefold()), None)


def _rows(
    sheet: Any, values: Callable[[int, Sequence[Any]], list[object]]
) -> tuple[list[tuple[int, list[object]]], set[tuple[int, int]]]:
    """The rows that are not blank, and where formulas stand."""
    rows: list[tuple[int, list[object]]] = []
    formulas: set[tuple[int, int]] = set()
    for number, cells in _limited(sheet):
        formulas.update((number, column) for column, cell in enumerate(cells, 1) if cell.data_type == "f")
        if row := _trimmed(values(number, cells)):
            rows.append((number, row))
    return rows, formulas


def _limited(sheet: Any) -> Iterator[tuple[int, Sequence[Any]]]:
    """Every row of a sheet up to the limits, whatever the sheet claims its size to be."""
    sheet.reset_dimensions()
    seen = 0
    for number, row in enumerate(sheet.iter_rows(), 1):
        seen += len(row)
        if number > MOST_ROWS:
            raise _Refused("rows")
        if seen > MOST_CELLS:
            raise _Refused("cells")
        yield number, row


def _trimmed(cells: list[object]) -> list[object]:
    """Cells without the blank ones at the end."""
    while cells and (cells[-1] is None or (isinstance(cells[-1], str) and not cells[-1].strip())):
        cells.pop()
    return cells


_KINDS: dict[str, Callable[[str], object]] = {
    "datetime": datetime.fromisoformat,
    "date": date.fromisoformat,
    "time": time.fromisoformat,
    "timedelta": lambda seconds: timedelta(seconds=float(seconds)),
}


def _sent(value: object) -> object:
    """A cell that JSON has no word for."""
    if isinstance(value, timedelta):
        return {"timedelta": str(value.total_seconds())}
    if isinstance(value, datetime | date | time):
        return {type(value).__name__: value.isoformat()}
    return str(value)


def as_cell(value: object) -> object:
    """A cell as it was before it was sent.

    Examples
    --------
    >>> as_cell({"date": "2026-12-01"}), as_cell("C1")
    (datetime.date(2026, 12, 1), 'C1')
    """
    if not isinstance(value, dict):
        return value
    ((kind, text),) = value.items()
    return _KINDS[kind](text)


def _main() -> None:
    sys.modules["numpy"] = None  # type: ignore[assignment]  # the reader asks for it and has no use for it here
    data = sys.stdin.buffer.read()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of what a workbook may hold that is of no use here
        answer = cells_of(data, sys.argv[1] if len(sys.argv) > 1 else None)
    sys.stdout.buffer.write(json.dumps(answer, default=_sent).encode())


if __name__ == "__main__":
    _main()
