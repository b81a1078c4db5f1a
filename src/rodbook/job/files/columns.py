"""The columns of a table of openings: what they are called, what else people call them, and which field each fills."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rodbook.job.readings import USUAL

__all__ = ["COLUMNS", "Column", "column_of"]


@dataclass(frozen=True)
class Column:
    """One column of a table of openings.

    Parameters
    ----------
    label : str
        Its heading, and its name in a fault.
    field : str
        The field of the opening that it fills.
    index : int or str, optional
        Which value of that field, for fields of several values: its number, or its name.
    also : tuple of str
        What else its heading may be.
    """

    label: str
    field: str
    index: int | str | None = None
    also: tuple[str, ...] = ()

    @property
    def is_length(self) -> bool:
        """Whether its cells are lengths."""
        return self.index is not None or self.field in ("depth", "floor_finish")


def _readings(what: str, field: str, places: tuple[tuple[str, ...], ...]) -> list[Column]:
    """Columns of three readings: each by its place, before or after, and by its number from the foot or the left."""
    return [
        Column(
            f"{what} {names[0]}",
            field,
            index,
            tuple(f"{what} {name}" for name in (*names[1:], str(index + 1)))
            + tuple(f"{name} {what}" for name in names),
        )
        for index, names in enumerate(places)
    ]


def _further() -> list[Column]:
    """Columns of further readings, their words in either order."""
    results = []
    for name in USUAL:
        words = name.split("-")
        also = {" ".join([*words[1:], words[0]])}
        if words[0] in ("plumb", "level"):
            also |= {f"{' '.join(words[1:])} out of {words[0]}", f"out of {words[0]} {' '.join(words[1:])}"}
        if words[1] in ("left", "right") and len(words) == 2:
            also |= {f"{words[0]} {words[1]} side", f"{words[1]} side {words[0]}"}
        results.append(Column(" ".join(words), "readings", name, tuple(sorted(also))))
    return results


_FOOT_TO_HEAD = (("foot", "bottom"), ("middle", "centre", "center"), ("head", "top"))
_LEFT_TO_RIGHT = (("left",), ("middle", "centre", "center"), ("right",))

COLUMNS: tuple[Column, ...] = (
    Column("mark", "mark", also=("opening", "name", "opening mark", "mark of opening")),
    Column("room", "room", also=("place", "where")),
    Column("state", "state"),
    Column("leaves", "leaves", also=("doors", "number of leaves", "number of doors")),
    Column("hand", "hand", also=("hinged on", "hung on", "hangs on", "hinge side")),
    Column("build-up", "build_up", also=("buildup",)),
    Column("head", "head", also=("head shape", "shape of head")),
    Column("rows", "rows", also=("rows from the floor", "rows from the floor up", "rows of the front")),
    Column("end panels", "end_panels", also=("end panel", "free sides")),
    Column("sill", "sill", also=("with sill", "has sill")),
    *_readings("width", "widths", _FOOT_TO_HEAD),
    *_readings("height", "heights", _LEFT_TO_RIGHT),
    Column("diagonal foot left", "diagonals", 0, ("diagonal 1", "diagonal foot left to head right")),
    Column("diagonal foot right", "diagonals", 1, ("diagonal 2", "diagonal foot right to head left")),
    Column("depth", "depth", also=("clear depth",)),
    *_further(),
    Column("leaf width", "leaf", 0, ("door width",)),
    Column("leaf height", "leaf", 1, ("door height",)),
    Column("clear width", "clear", 0),
    Column("clear height", "clear", 1),
    Column("floor finish", "floor_finish", also=("floor finish to come", "floor to come")),
    Column("note", "note", also=("notes", "remark", "remarks", "comment", "comments")),
)
"""Every column there may be, in the order in which they are written."""

_FILLERS = frozenset({"at", "the", "from", "mm"})


def _plain(heading: str) -> str:
    """A heading without what makes no difference: case, marks between words, small words, and mm.

    >>> _plain(" Width_at the foot (mm)")
    'width foot'
    """
    words = re.sub(r"[\s_\-.:,()\[\]/]+", " ", heading.casefold()).split()
    return " ".join(word for word in words if word not in _FILLERS)


_BY_HEADING = {_plain(name): column for column in COLUMNS for name in (column.label, *column.also)}


def column_of(heading: object) -> Column | None:
    """The column that a heading means, if it means one.

    >>> column_of("Foot width").label
    'width foot'
    """
    return _BY_HEADING.get(_plain(heading)) if isinstance(heading, str) else None
