"""Parts and holes as tables for a spreadsheet or a machine: UTF-8, commas, a decimal point whatever the locale."""

from __future__ import annotations

from rodbook.job.files.separated import safe_text, text_from_rows
from rodbook.papers.common.shared import edges_in_words, finish_in_words
from rodbook.papers.pictures.part_faces import depth_words, face_words, holes
from rodbook.plan import Plan
from rodbook.setout import ScheduleLine
from rodbook.working import number

__all__ = ["BORING_COLUMNS", "NOT_IN_IT", "PART_COLUMNS", "borings_csv", "parts_csv"]

PART_COLUMNS = (
    "mark",
    "kind",
    "quantity",
    "length mm",
    "width mm",
    "thickness mm",
    "stock",
    "edges seen",
    "hand",
    "ends",
    "finish",
    "openings",
)
"""Columns of the parts."""

BORING_COLUMNS = (
    "mark",
    "quantity",
    "hole",
    "kind",
    "x mm",
    "y mm",
    "diameter mm",
    "depth mm",
    "drawn",
)
"""Columns of the holes; their depth is a number or "through"; x runs right and y down from the top left
corner of the face drawn."""

NOT_IN_IT = "not in this list"
"""What stands instead of a part's mark where an opening or a panel stands aside."""


def _part_row(line: ScheduleLine) -> list[str]:
    part = line.part
    words = (part.stock, edges_in_words(part), part.hand, part.ends, finish_in_words(part))
    openings = "; ".join(mark if n == 1 else f"{mark} ({n})" for mark, n in line.openings)
    sizes = (number(measure.value) for measure in (part.length, part.width, part.thickness))
    return [
        safe_text(line.mark),
        str(part.kind),
        str(line.quantity),
        *sizes,
        *map(safe_text, words),
        safe_text(openings),
    ]


def _missing(plan: Plan, columns: tuple[str, ...], at: str) -> list[list[str]]:
    """A line for what stands aside, so that nobody takes a list for the whole of the job."""
    return [
        [NOT_IN_IT if column == columns[0] else safe_text(one.name) if column == at else "" for column in columns]
        for one in plan.missing
    ]


def parts_csv(plan: Plan) -> str:
    """Every distinct part of a plan, one a line; after them a line for each opening or panel that stands aside."""
    rows = [*map(_part_row, plan.schedule), *_missing(plan, PART_COLUMNS, "openings")]
    return text_from_rows([PART_COLUMNS, *rows], ",")


def borings_csv(plan: Plan) -> str:
    """Every hole of every distinct part, one a line, in the order of the drawings; then what stands aside, one a line."""
    rows = [
        [
            safe_text(line.mark),
            str(line.quantity),
            str(hole.number),
            hole.boring.kind,
            number(hole.boring.x.value),
            number(hole.boring.y.value),
            number(hole.boring.diameter),
            depth_words(hole.boring, number),
            face_words(line.part),
        ]
        for line in plan.schedule
        for hole in holes(line.part)
    ]
    return text_from_rows([BORING_COLUMNS, *rows, *_missing(plan, BORING_COLUMNS, "drawn")], ",")
