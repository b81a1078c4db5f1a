"""The rows of the grid of openings as HTML, each kept by what stands in it: of a long job only changed rows are drawn anew.

Templates would take most of the page's time, as two hundred openings are some thousands of cells. Every column is drawn from
its entry in the grid; whatever comes from a document or from a form is escaped here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language, gettext

from rodbook.desk.platform.grid import OBSTACLES, OPENINGS, PANELS, RUNS, Column, Grid, Row

__all__ = ["drawn_rows"]

KEPT = 2000
"""Rows kept in memory, the least lately used going first; each takes some 4 kB."""


def drawn_rows(
    rows: Iterable[Row], grid: Grid = OPENINGS, names: Mapping[str, Sequence[str]] | None = None
) -> SafeString:
    """Every row of the grid, its faults under it.

    Parameters
    ----------
    rows : iterable of Row
        In the order in which they are shown.
    grid : Grid
    names : mapping, optional
        Names of the book's lists, for the columns where one of them is chosen.
    """
    language = get_language()
    listed = tuple(tuple((names or {}).get(c.listed, ())) for c in grid.columns if c.listed)
    return _safe(
        _row(
            at,
            row.number,
            row.was,
            tuple(row.cells.get(c.name, "") for c in grid.columns),
            row.out,
            tuple(row.faults),
            grid.name,
            listed,
            language,
        )
        for at, row in enumerate(rows, 1)
    )


def _safe(pieces: Iterable[str]) -> SafeString:
    """Put together what is escaped already."""
    return mark_safe("".join(pieces))  # noqa: S308  each piece escapes its texts


@lru_cache(maxsize=KEPT)
def _row(
    at: int,
    number: int,
    was: str,
    texts: tuple[str, ...],
    out: bool,  # noqa: FBT001
    faults: tuple[tuple[str, str], ...],
    name: str,
    listed: tuple[tuple[str, ...], ...],
    _language: str | None,
) -> str:
    """One row, `at` counting from 1 as people do; the language is there to keep each one's rows apart."""
    grid = _GRIDS[name]
    wrong = {field for field, _ in faults}
    lists = iter(listed)
    place = f"{escape(gettext('row'))} {at}"
    take_out = escape(gettext("take out"))
    marked = ' class="wrong"' if faults else ""
    cells = "".join(
        _cell(
            column,
            text,
            f"{grid.prefix}{number}",
            place,
            wrong=column.field in wrong,
            choices=("", *next(lists)) if column.listed else column.choices,
        )
        for column, text in zip(grid.columns, texts, strict=True)
    )
    key = f"{grid.prefix}{number}"
    return (
        f'<tr id="{key}" data-row="{number}"{marked}>{cells}<td data-word="{take_out}">'
        f'<input type="hidden" name="{key}-was" value="{escape(was)}">'
        f'<input type="checkbox" name="{key}-out" aria-label="{take_out} {place}"{" checked" if out else ""}></td>'
        f"</tr>\n{_told(key, faults, len(grid.columns) + 1)}"
    )


def _cell(column: Column, text: str, key: str, place: str, *, wrong: bool, choices: tuple[str, ...]) -> str:
    """One cell: a list where the column has choices, else a box to type into."""
    word = escape(gettext(column.word))
    notes = f' aria-invalid="true" aria-describedby="faults-{key}"' if wrong else ""
    common = f'name="{key}-{column.name}" aria-label="{word}, {place}"{notes}'
    box = f'<td data-word="{word}"{' class="more"' if column.more else ""}>'
    if choices:
        return f"{box}<select {common}>{_options(choices, text, column.nothing)}</select></td>\n"
    keys = ' inputmode="decimal"' if column.decimal else ""
    return f'{box}<input {common} value="{escape(text)}" size="{column.size}"{keys} autocomplete="off"></td>\n'


def _options(choices: tuple[str, ...], text: str, nothing: str) -> str:
    """The choices, and whatever else was typed or pasted, so that it can be told what is wrong with it."""
    listed = choices if text in choices or not text else (*choices, text)
    named = f' value="" label="{escape(gettext(nothing))}"' if nothing else ""
    return "".join(
        f"<option{'' if choice else named}{' selected' if choice == text else ''}>{escape(choice)}</option>"
        for choice in listed
    )


def _told(key: str, faults: tuple[tuple[str, str], ...], columns: int) -> str:
    if not faults:
        return ""
    text = "".join(
        f'<p class="fault">{escape(field.replace("_", "-"))}: {escape(sentence)}</p>' for field, sentence in faults
    )
    return f'<tr class="told"><td colspan="{columns}" id="faults-{key}">{text}</td></tr>\n'


_GRIDS = {grid.name: grid for grid in (OBSTACLES, OPENINGS, PANELS, RUNS)}
