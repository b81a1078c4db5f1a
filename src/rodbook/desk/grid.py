"""The grid of openings: a job's openings as rows of typed text, and typed rows as openings again. Pure."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rodbook.errors import Fault

__all__ = ["COLUMNS", "Column", "Row", "raw_openings", "rows_of", "rows_typed", "with_faults"]

MOST_ROWS = 600
"""A grid longer than this is a list to import."""


@dataclass(frozen=True)
class Column:
    """One column: its name in the form, the word over it, and where its value stands in an opening."""

    name: str
    word: str
    field: str
    index: int | None = None
    choices: tuple[str, ...] = ()
    size: int = 5

    @property
    def decimal(self) -> bool:
        """Whether a length is typed into it, so that a phone shows its keys for figures."""
        return self.index is not None or self.field == "depth"


COLUMNS = (
    Column("mark", "mark", "mark"),
    Column("room", "room", "room", size=14),
    Column("state", "stands", "state", choices=("standing", "planned")),
    Column("leaves", "leaves", "leaves", choices=("1", "2", "3")),
    Column("hand", "hung on", "hand", choices=("left", "right")),
    Column("wf", "width at foot", "widths", 0),
    Column("wm", "width at middle", "widths", 1),
    Column("wh", "width at head", "widths", 2),
    Column("hl", "height at left", "heights", 0),
    Column("hm", "height at middle", "heights", 1),
    Column("hr", "height at right", "heights", 2),
    Column("dr", "diagonal foot left to head right", "diagonals", 0),
    Column("dl", "diagonal foot right to head left", "diagonals", 1),
    Column("depth", "depth", "depth"),
    Column("lw", "leaf width wanted", "leaf", 0),
    Column("lh", "leaf height wanted", "leaf", 1),
    Column("note", "note", "note", size=16),
)
"""In the order in which an opening is measured."""

_DEFAULTS = {"state": "standing", "leaves": "1", "hand": "left"}


@dataclass
class Row:
    """One row as it is typed.

    Parameters
    ----------
    number : int
        In the form.
    was : str
        Mark of the opening that it shows; empty for a new one.
    cells : dict
        Typed text by column.
    out : bool
        Whether it is to be taken out.
    faults : list of (str, str)
        Field and sentence.
    """

    number: int
    was: str
    cells: dict[str, str]
    out: bool
    faults: list[tuple[str, str]]

    @property
    def blank(self) -> bool:
        """Whether nothing is typed but what stands there from the start."""
        return not any(text for name, text in self.cells.items() if name not in _DEFAULTS)


def _text(value: object) -> str:
    if value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) else str(value)


def rows_of(openings: Sequence[Mapping[str, object]], *, blank: int = 2) -> list[Row]:
    """A job's openings as rows, and some blank ones.

    Parameters
    ----------
    openings : sequence of mapping
        As they are kept.
    blank : int
        How many rows to add.
    """
    rows = []
    for number, opening in enumerate(openings):
        cells = {}
        for column in COLUMNS:
            value = opening.get(column.field)
            if column.index is not None:
                value = value[column.index] if isinstance(value, list | tuple) else None
            cells[column.name] = _text(value) or _DEFAULTS.get(column.name, "")
        rows.append(Row(number, str(opening.get("mark", "")), cells, out=False, faults=[]))
    return rows + [Row(len(rows) + k, "", dict(_DEFAULTS), out=False, faults=[]) for k in range(blank)]


def rows_typed(form: Mapping[str, str]) -> list[Row]:
    """Rows of a form that came back, in their order."""
    numbers = sorted({int(m[1]) for key in form if (m := re.fullmatch(r"r(\d{1,4})-mark", key))})[:MOST_ROWS]
    return [
        Row(
            number, form.get(f"r{number}-was", "").strip(),
            {c.name: form.get(f"r{number}-{c.name}", "").strip()[:400] for c in COLUMNS},
            out=f"r{number}-out" in form, faults=[],
        )
        for number in numbers
    ]  # fmt: skip


def raw_openings(
    rows: Sequence[Row], before: Sequence[Mapping[str, object]]
) -> tuple[list[dict[str, object]], list[Row]]:
    """Typed rows as raw openings, with what the grid does not show kept from before; and the rows they came from."""
    known = {str(o.get("mark")): o for o in before}
    found: list[dict[str, object]] = []
    kept: list[Row] = []
    for row in rows:
        if row.out or row.blank:
            continue
        opening = dict(known.get(row.was, {}))
        for field in dict.fromkeys(c.field for c in COLUMNS):
            columns = [c for c in COLUMNS if c.field == field]
            texts = [row.cells[c.name] for c in columns]
            if not any(texts):
                opening.pop(field, None)
            elif columns[0].index is not None:
                opening[field] = [_number(text) for text in texts]
            else:
                opening[field] = _number(texts[0]) if field in ("leaves", "depth") else texts[0]
        found.append(opening)
        kept.append(row)
    return found, kept


def _number(text: str) -> object:
    """A plain number as a number, anything else as it was typed, for the model to say what is wrong with it."""
    plain = text.replace(",", ".")
    return float(plain) if re.fullmatch(r"-?\d{1,9}(\.\d{1,9})?", plain) else text


def with_faults(kept: Sequence[Row], faults: Sequence[Fault]) -> list[Fault]:
    """Put each fault into the row where it can be put right; those that belong to no row come back."""
    elsewhere: list[Fault] = []
    for fault in faults:
        place = re.match(r"openings\[(\d+)\](?:\.([a-z_]+))?", fault.where)
        if place and int(place[1]) <= len(kept):
            kept[int(place[1]) - 1].faults.append((place[2] or "mark", fault.what))
        else:
            elsewhere.append(fault)
    return elsewhere
