"""A block pasted into the grid of openings, with headings or without: the matcher of lists that are brought in reads it. Pure."""

from __future__ import annotations

import json
from collections.abc import Sequence

from rodbook.desk.platform.grid import COLUMNS
from rodbook.errors import Fault, InputError
from rodbook.job import Opening
from rodbook.job.files.separated import rows_from_text
from rodbook.job.files.tables import has_headings, heading_of, openings_from_rows_apart

__all__ = ["pasted_openings"]

MOST_TEXT = 1_000_000
"""No block is longer; it is a list to bring in as a file then. [characters]"""


def pasted_openings(text: str, filled: str) -> tuple[tuple[Opening, ...], tuple[Fault, ...]]:
    """The openings in a block: by its headings, wherever it was pasted; without any, as it fills the rows of the grid.

    Parameters
    ----------
    text : str
        As it was copied.
    filled : str
        The rows of the grid as the block would fill them, as JSON: first the names of the columns that show, then the cells
        of each row.

    Returns
    -------
    tuple
        Openings of the sound rows, and the faults of the others, each with its place.

    Raises
    ------
    InputError
        If its headings are wrong, or if it is not what the grid sends.
    """
    if len(text) > MOST_TEXT:
        raise InputError.at("", "form.block_too_long")
    rows = rows_from_text(text)
    if has_headings(rows):
        return openings_from_rows_apart(rows)
    names, *cells = _rows_of_the_grid(filled)
    known = {column.name: heading_of(column.field, column.index) for column in COLUMNS}
    headings = [known.get(name) or "" for name in names]
    kept = [n for n, heading in enumerate(headings) if heading]
    return openings_from_rows_apart([[row[n] if n < len(row) else "" for n in kept] for row in (headings, *cells)])


def _rows_of_the_grid(filled: str) -> Sequence[Sequence[str]]:
    try:
        rows = json.loads(filled)
    except (ValueError, RecursionError):
        rows = None
    if (
        isinstance(rows, list)
        and len(rows) > 1
        and all(isinstance(row, list) and all(isinstance(cell, str) for cell in row) for row in rows)
    ):
        return rows
    raise InputError.at("", "form.not_a_block")
