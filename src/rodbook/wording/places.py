"""How a place in what was given is named."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.wording.rendering import sentence
from rodbook.wording.texts import LONGEST_PLACE, one_line

__all__ = ["column_letter", "place"]

_LONGEST_STEP = 60
_LONGEST_MARK = 40

_NUMBERED = {"rows": "place.row", "lines": "place.line", "layouts": "place.layout"}
"""First steps that a number follows: a row of a list, a line of a file. Within a document they are fields as any other."""

_BY_NAME = {
    "tasks": "place.task",
    "jobs": "place.job",
    "ways": "place.way",
    "options": "place.option",
    "usage": "place.usage",
    "costs": "place.cost",
    "boards": "place.board",
    "sections": "place.section",
    "panes": "place.pane",
    "fittings": "place.fitting",
    "stocks": "place.stock",
    "basket": "place.basket",
    "more_days": "place.more_days",
    "suppliers": "place.name",
    "files": "place.name",
    "parts": "place.name",
}
"""Lists of which an entry is called by its name; in a document theirs have numbers."""

_WHOLE = {"file": "place.file", "list": "place.list"}
"""What stands for all of what was given."""


def column_letter(number: int) -> str:
    """The letters of a spreadsheet's column, counted from 0.

    >>> column_letter(0), column_letter(25), column_letter(26)
    ('A', 'Z', 'AA')
    """
    before, last = divmod(number, 26)
    return (column_letter(before - 1) if before else "") + chr(65 + last)


def place(path: Sequence[str | int], mark: str = "", document: str = "", language: str = "") -> str:
    """Write a place the way a reader looks for it: entries counted from 1, the name of the entry behind.

    Parameters
    ----------
    path : sequence of str and int
        Names of fields, and numbers of entries from 0. Beside those of documents: ``("file",)`` and ``("list",)`` for all
        of a file or of a list; ``("rows", 4, "width")`` and ``("rows", 4, "column", 2)``; ``("cells", 4, 2)``;
        ``("lines", 6)`` and ``("lines", 6, "character", 0)``; ``("tasks", "hang leaves")`` for an entry by its name.
    mark : str
        What the entry calls itself.
    document : str
        In which document, if there are several.
    language : str

    Examples
    --------
    >>> place(("openings", 2, "widths"), "C3")
    'openings[3].widths (C3)'
    >>> place(("rows", 4, "width"), "C3"), place(("lines", 6), document="job.toml"), place(("tasks", "hang leaves"))
    ('row 5, width (C3)', 'job.toml, line 7', "task 'hang leaves'")
    >>> place(())
    ''
    """
    steps, text, apart = list(path), "", False
    while steps:
        words, used = _in_words(steps, first=not text, language=language)
        if words:
            text, apart = f"{text}, {words}" if text else words, True
        elif isinstance(steps[0], int):
            text += f"[{steps[0] + 1}]"
        else:
            name = one_line(steps[0], _LONGEST_STEP) or '""'
            text += (f", {name}" if apart else f".{name}") if text else name
            apart = False
        del steps[:used]
    if mark:
        text = f"{text} ({one_line(mark, _LONGEST_MARK)})" if text else one_line(mark, _LONGEST_MARK)
    if document:
        text = f"{document}, {text}" if text else document
    return one_line(text, LONGEST_PLACE + len(document))


def _in_words(steps: Sequence[str | int], *, first: bool, language: str) -> tuple[str, int]:
    """What the first of these steps are called together, and how many they are; nothing where they are fields."""
    name, *rest = steps
    if not isinstance(name, str) or not rest:
        whole = _WHOLE.get(str(name)) if first and not rest else None
        return (sentence(whole, {}, language), 1) if whole else ("", 1)
    if isinstance(rest[0], str):
        code = _BY_NAME.get(name)
        return (sentence(code, {"name": rest[0]}, language), 2) if code else ("", 1)
    if name in _NUMBERED and first:
        return sentence(_NUMBERED[name], {"number": rest[0] + 1}, language), 2
    if name == "character":
        return sentence("place.character", {"number": rest[0] + 1}, language), 2
    if name == "column":
        return sentence("place.column", {"column": column_letter(rest[0])}, language), 2
    if name == "cells" and first and len(rest) > 1 and isinstance(rest[1], int):
        return sentence("place.cell", {"cell": f"{column_letter(rest[1])}{rest[0] + 1}"}, language), 3
    return "", 1
