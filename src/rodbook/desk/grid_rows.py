"""The rows of the grid of openings as HTML, each kept by what stands in it: of a long job only changed rows are drawn anew.

Templates would take most of the page's time, as two hundred openings are some thousands of cells. Every column is drawn from
its entry in `COLUMNS`; whatever comes from a document or from a form is escaped here.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language, gettext

from rodbook.desk.grid import COLUMNS, Column, Row

__all__ = ["drawn_rows"]

KEPT = 2000
"""Rows kept in memory, the least lately used going first; each takes some 3 kB."""


def drawn_rows(rows: Iterable[Row]) -> SafeString:
    """Every row of the grid, its faults under it.

    Parameters
    ----------
    rows : iterable of Row
        In the order in which they are shown.
    """
    language = get_language()
    return _safe(
        _row(at, row.number, row.was, tuple(row.cells.get(c.name, "") for c in COLUMNS), row.out, tuple(row.faults),
             language)
        for at, row in enumerate(rows, 1)
    )  # fmt: skip


def _safe(pieces: Iterable[str]) -> SafeString:
    """Put together what is escaped already."""
    return mark_safe("".join(pieces))  # noqa: S308  each piece escapes its texts


@lru_cache(maxsize=KEPT)
def _row(
    at: int, number: int, was: str, texts: tuple[str, ...], out: bool, faults: tuple[tuple[str, str], ...],  # noqa: FBT001
    _language: str | None,
) -> str:  # fmt: skip
    """One row, `at` counting from 1 as people do; the language is there to keep each one's rows apart."""
    wrong = {field for field, _ in faults}
    place = f"{escape(gettext('row'))} {at}"
    take_out = escape(gettext("take out"))
    marked = ' class="wrong"' if faults else ""
    cells = "".join(
        _cell(column, text, number, place, wrong=column.field in wrong)
        for column, text in zip(COLUMNS, texts, strict=True)
    )
    return (
        f'<tr data-row="{number}"{marked}>{cells}<td data-word="{take_out}">'
        f'<input type="hidden" name="r{number}-was" value="{escape(was)}">'
        f'<input type="checkbox" name="r{number}-out" aria-label="{take_out} {place}"{" checked" if out else ""}></td>'
        f"</tr>\n{_told(number, faults)}"
    )


def _cell(column: Column, text: str, number: int, place: str, *, wrong: bool) -> str:
    """One cell: a list where the column has choices, else a box to type into."""
    word = escape(gettext(column.word))
    told = f' aria-invalid="true" aria-describedby="faults-{number}"' if wrong else ""
    common = f'name="r{number}-{column.name}" aria-label="{word}, {place}"{told}'
    if column.choices:
        return f'<td data-word="{word}"><select {common}>{_options(column.choices, text)}</select></td>\n'
    keys = ' inputmode="decimal"' if column.decimal else ""
    return (
        f'<td data-word="{word}"><input {common} value="{escape(text)}" size="{column.size}"{keys} autocomplete="off">'
        "</td>\n"
    )


def _options(choices: tuple[str, ...], text: str) -> str:
    """The choices, and whatever else was typed or pasted, so that it can be told what is wrong with it."""
    listed = choices if text in choices or not text else (*choices, text)
    return "".join(f"<option{' selected' if choice == text else ''}>{escape(choice)}</option>" for choice in listed)


def _told(number: int, faults: tuple[tuple[str, str], ...]) -> str:
    if not faults:
        return ""
    said = "".join(f'<p class="fault">{escape(field)}: {escape(sentence)}</p>' for field, sentence in faults)
    return f'<tr class="told"><td colspan="{len(COLUMNS) + 1}" id="faults-{number}">{said}</td></tr>\n'
