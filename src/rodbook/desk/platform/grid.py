"""The grids of openings and of panels: entries of a job as rows of typed text, and typed rows as entries again. Pure."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.platform.faults import in_words
from rodbook.errors import Fault
from rodbook.job.files.tables import word_of
from rodbook.job.numerals import as_typed, number_or_none
from rodbook.job.proposals import with_leaves_proposed
from rodbook.job.rows import rows_in_text

__all__ = [
    "COLUMNS",
    "OBSTACLES",
    "OPENINGS",
    "PANELS",
    "RUNS",
    "Column",
    "Grid",
    "Row",
    "raw_openings",
    "rows_of",
    "rows_typed",
    "several",
    "uses_more",
    "with_faults",
]

MOST_ROWS = 600
"""A grid longer than this is a list to import."""


@dataclass(frozen=True)
class Column:
    """One column: its name in the form, the word over it, and where its value stands in an opening.

    Parameters
    ----------
    name, word, field : str
    index : int, optional
        Which value of the field, where it has several.
    choices : tuple of str
        What may stand in it, where that is one of a few words.
    size : int
        Characters that show.
    listed : str
        List of the book whose names may stand in it.
    nothing : str
        What it means that nothing is chosen from that list.
    more : bool
        Whether it is one of the columns that show only when they are asked for or used.
    many : bool
        Whether several are typed into it, one after the other.
    """

    name: str
    word: str
    field: str
    index: int | None = None
    choices: tuple[str, ...] = ()
    size: int = 5
    listed: str = ""
    nothing: str = ""
    more: bool = False
    many: bool = False

    @property
    def decimal(self) -> bool:
        """Whether a length is typed into it, so that a phone shows its keys for figures."""
        return self.index is not None or self.field in _LENGTHS


COLUMNS = (
    Column("mark", lazy("mark"), "mark"),
    Column("room", lazy("room"), "room", size=14),
    Column("state", lazy("stands"), "state", choices=("standing", "planned")),
    Column("leaves", lazy("leaves"), "leaves", choices=("", "1", "2", "3", "4"), nothing=lazy("by width")),
    Column("hand", lazy("hung on"), "hand", choices=("left", "right")),
    Column("wf", lazy("width at foot"), "widths", 0),
    Column("wm", lazy("width at middle"), "widths", 1),
    Column("wh", lazy("width at head"), "widths", 2),
    Column("hl", lazy("height at left"), "heights", 0),
    Column("hm", lazy("height at middle"), "heights", 1),
    Column("hr", lazy("height at right"), "heights", 2),
    Column("dr", lazy("diagonal foot left to head right"), "diagonals", 0),
    Column("dl", lazy("diagonal foot right to head left"), "diagonals", 1),
    Column("depth", lazy("depth"), "depth"),
    Column("lw", lazy("leaf width wanted"), "leaf", 0),
    Column("lh", lazy("leaf height wanted"), "leaf", 1),
    Column("note", lazy("note"), "note", size=16),
    Column("cw", lazy("clear width wanted"), "clear", 0, more=True),
    Column("ch", lazy("clear height wanted"), "clear", 1, more=True),
    Column("head", lazy("head"), "head", choices=("level", "raked"), more=True),
    Column("rows", lazy("rows from the floor up"), "rows", size=22, more=True),
    Column("ends", lazy("end panels"), "end_panels", choices=("none", "left", "right", "both"), more=True),
    Column("sill", lazy("sill"), "sill", choices=("no", "yes"), more=True),
    Column("finish", lazy("floor finish to come"), "floor_finish", more=True),
    Column("build", lazy("build-up"), "build_up", listed="build_ups", nothing=lazy("the job's own"), more=True),
)
"""In the order in which an opening is measured; what few openings need comes last."""

_DEFAULTS = {
    "state": "standing",
    "leaves": "1",
    "hand": "left",
    "head": "level",
    "sill": "no",
    "ends": "none",
    "quantity": "1",
}


@dataclass(frozen=True)
class Grid:
    """A grid: the list of the job that it shows, its columns, and what its fields' names begin with."""

    name: str
    columns: tuple[Column, ...]
    prefix: str

    @property
    def defaults(self) -> dict[str, str]:
        """What stands in a new row."""
        return {c.name: _DEFAULTS[c.name] for c in self.columns if c.name in _DEFAULTS and "" not in c.choices}


OPENINGS = Grid("openings", COLUMNS, "r")
PANELS = Grid(
    "panels",
    (
        Column("mark", lazy("mark"), "mark"),
        Column("room", lazy("room"), "room", size=14),
        Column("board", lazy("board"), "board", listed="boards", nothing=lazy("choose")),
        Column("length", lazy("length along the grain"), "length"),
        Column("width", lazy("width"), "width"),
        Column("quantity", lazy("how many"), "quantity", size=3),
        Column("note", lazy("note"), "note", size=16),
    ),
    "p",
)
"""Fixed panels, made to the size that is given."""


OBSTACLES = Grid(
    "obstacles",
    (
        Column("mark", lazy("what it is"), "name", size=12),
        Column("left", lazy("left"), "left"),
        Column("width", lazy("width"), "width"),
        Column("reach", lazy("reach"), "out"),
        Column("away", lazy("back, from the wall"), "away"),
        Column("bottom", lazy("underside, above the floor"), "bottom"),
        Column("top", lazy("top, above the floor"), "top"),
    ),
    "n",
)
"""What stands near an opening and may be in a leaf's way."""


RUNS = Grid(
    "runs",
    (
        Column("mark", lazy("what it is called"), "name", size=14),
        Column("openings", lazy("openings, from the left"), "openings", size=24, many=True),
        Column("piers", lazy("wall between each two"), "piers", size=18, many=True),
    ),
    "t",
)
"""Openings beside each other whose trim runs on over all of them."""


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


def _text(value: object, locale: str) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return (
            rows_in_text(value)
            if any(isinstance(each, dict) for each in value)
            else "; ".join(_text(each, locale) for each in value)
        )
    return as_typed(value, locale) if isinstance(value, float) else str(value)


def rows_of(
    openings: Sequence[Mapping[str, object]], grid: Grid = OPENINGS, *, blank: int = 2, locale: str = "en"
) -> list[Row]:
    """A job's openings (or panels) as rows, and some blank ones.

    Parameters
    ----------
    openings : sequence of mapping
        As they are kept.
    grid : Grid
    blank : int
        How many rows to add.
    locale : str
        The book's, by which sizes are written.
    """
    rows = []
    for number, opening in enumerate(openings):
        cells = {}
        for column in grid.columns:
            value = opening.get(column.field)
            if column.index is not None:
                value = value[column.index] if isinstance(value, list | tuple) else None
            cells[column.name] = _text(value, locale) or _DEFAULTS.get(column.name, "")
        rows.append(Row(number, cells.get("mark", ""), cells, out=False, faults=[]))
    return rows + [Row(len(rows) + k, "", dict(grid.defaults), out=False, faults=[]) for k in range(blank)]


def rows_typed(form: Mapping[str, str], grid: Grid = OPENINGS) -> list[Row]:
    """Rows of a form that came back, in their order; a column that the form does not have has no cell."""
    p = grid.prefix
    numbers = sorted({int(m[1]) for key in form if (m := re.fullmatch(rf"{p}(\d{{1,4}})-mark", key))})[:MOST_ROWS]
    return [
        Row(
            number,
            form.get(f"{p}{number}-was", "").strip(),
            {c.name: form[key].strip()[:400] for c in grid.columns if (key := f"{p}{number}-{c.name}") in form},
            out=f"{p}{number}-out" in form,
            faults=[],
        )
        for number in numbers
    ]


def uses_more(rows: Sequence[Row]) -> bool:
    """Whether anything stands, or is at fault, in a column that shows only when it is asked for."""
    more = [c for c in COLUMNS if c.more]
    return any(
        row.cells.get(c.name, "") not in ("", _DEFAULTS.get(c.name)) or any(field == c.field for field, _ in row.faults)
        for row in rows
        for c in more
    )


def raw_openings(
    rows: Sequence[Row], before: Sequence[Mapping[str, object]], grid: Grid = OPENINGS
) -> tuple[list[dict[str, object]], list[Row]]:
    """Typed rows as raw openings (or panels), with what the grid does not show kept from before; and the rows they came from."""
    key = grid.columns[0].field
    known = {str(o.get(key)): o for o in before}
    results: list[dict[str, object]] = []
    kept: list[Row] = []
    for row in rows:
        if row.out or row.blank:
            continue
        opening = dict(known.get(row.was, {}))
        for field in dict.fromkeys(c.field for c in grid.columns):
            columns = [c for c in grid.columns if c.field == field]
            if any(c.name not in row.cells for c in columns):
                continue
            texts = [row.cells[c.name] for c in columns]
            if not any(texts):
                opening.pop(field, None)
            elif columns[0].many:
                opening[field] = [_meant(field, text) for text in several(texts[0])]
            elif columns[0].index is not None:
                opening[field] = [_number(text) for text in texts]
            else:
                opening[field] = _meant(field, texts[0])
        if grid is OPENINGS and (not row.was or "leaves" in row.cells):
            opening = with_leaves_proposed(opening)
        results.append(opening)
        kept.append(row)
    return results, kept


def _meant(field: str, text: str) -> object:
    """What a cell means: a number, a word that also a list may use for it, or the text itself."""
    word = word_of(field, text)
    return _number(word) if isinstance(word, str) and field in _NUMBERS else word


def several(text: str) -> list[str]:
    """What was typed one after the other: semicolons part it, or commas where there are none.

    >>> several("C1, C2, C3"), several("310,5; 305")
    (['C1', 'C2', 'C3'], ['310,5', '305'])
    """
    return [part.strip() for part in text.split(";" if ";" in text else ",") if part.strip()]


_LENGTHS = frozenset({"piers", "floor_finish", "depth", "length", "width", "left", "out", "away", "bottom", "top"})
_NUMBERS = _LENGTHS | {"leaves", "quantity"}


def _number(text: str) -> object:
    """A plain number as a number, anything else as it was typed, for the model to say what is wrong with it."""
    if len(text) > 20 or (plain := number_or_none(text, None)) is None:
        return text
    return float(plain)


def with_faults(kept: Sequence[Row], faults: Sequence[Fault], grid: Grid = OPENINGS) -> list[Fault]:
    """Put each fault into the row where it can be put right; those that belong to no row come back."""
    elsewhere: list[Fault] = []
    for fault in faults:
        match fault.at.path:
            case (grid.name, int(number), *steps) if number < len(kept):
                field = next((step for step in steps if isinstance(step, str)), "mark")
                kept[number].faults.append((field, in_words(fault)))
            case _:
                elsewhere.append(fault)
    return elsewhere
