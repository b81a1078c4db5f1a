"""The workshop's order, or an enquiry where nothing is bought in: what to make, drawn so that nobody has to ring up.

Nothing on it says what anything costs.
"""

from __future__ import annotations

from pathlib import Path

from rodbook.job.models import Making
from rodbook.papers.common.cautions import DUST, FIRE, heaviest_leaf, heaviest_sheet, lifting
from rodbook.papers.common.drawn_parts import drawn_parts
from rodbook.papers.common.shared import (
    Json,
    Pictures,
    Sheetful,
    caution_rows,
    common_finish,
    edges_in_words,
    finish_in_words,
    frame,
    holes_in_words,
    parts_in_words,
    writer,
)
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["TOLERANCES", "order_content", "ordered_lines"]

TOLERANCES = (
    ("length and width of a part", "± 0.5 mm"),
    ("difference of a part's two diagonals", "1 mm at most"),
    ("place of a hole from the datum", "± 0.3 mm"),
    ("distance of a cup from the hinge edge", "± 0.2 mm"),
    ("depth of a hole", "0 to + 0.5 mm"),
    ("mitre", "± 0.1°"),
)
"""Asked for; common practice of workshops with a panel saw and a boring machine."""

_CONFIRM = (
    "that board, thickness and finish are as written, or what is offered instead;",
    "that every hole is bored on the face and at the hand drawn;",
    "the day of delivery, and how parts are packed and marked;",
    "that each part carries its mark on a face that will not be seen.",
)


def ordered_lines(plan: Plan) -> tuple[str, tuple[ScheduleLine, ...]]:
    """What is asked for, and as what: "Order" for what is bought in, "Enquiry" for everything where nothing is."""
    bought = plan.lines_made(Making.BOUGHT)
    return ("Order", bought) if bought else ("Enquiry", plan.schedule)


def order_content(plan: Plan) -> Sheetful:
    """What stands on the order or enquiry."""
    write = writer(plan)
    pictures = Pictures(write)
    name, lines = ordered_lines(plan)
    shared = common_finish(lines)
    stocks = {line.part.stock for line in lines}
    boards = [board for board in plan.book.boards if board.name in stocks]
    doors = any(line.part.kind is PartKind.DOOR for line in lines)
    workshop = plan.book.workshop(plan.job.job.workshop)
    title = "Order to a workshop" if name == "Order" else "Enquiry to a workshop"
    content: dict[str, Json] = {
        "frame": frame(
            plan,
            f"Workshop {name.lower()}",
            title=title,
            reasons=False,
            rests=not_confirmed_under(plan, PaperFor.SUPPLIER),
        ),
        "enquiry": name == "Enquiry",
        "to": [workshop.name, workshop.contact] if workshop else ["", ""],
        "rows": [_row(line, write, shared) for line in lines],
        "finish": shared,
        "total": parts_in_words(lines),
        "confirm": list(_CONFIRM),
        "tolerances": [list(row) for row in TOLERANCES],
        "not_worked_out": [[note.where, note.sentence] for note in plan.not_worked_out],
        **drawn_parts(lines, write, pictures),
        "cautions": caution_rows(
            [DUST, *lifting(write, leaf=heaviest_leaf(plan) if doors else None, sheet=heaviest_sheet(boards)), FIRE]
        ),
    }
    return Sheetful(Path(__file__).with_name("workshop-order.typ"), content, pictures.files)


def _row(line: ScheduleLine, write: Numbers, shared: str) -> Json:
    part = line.part
    return [
        line.mark,
        str(part.kind),
        str(line.quantity),
        write.mm(part.length.value),
        write.mm(part.width.value),
        write.short(part.thickness.value),
        part.stock,
        edges_in_words(part) or "none",
        holes_in_words(part) or "none",
        *([] if shared else [finish_in_words(part) or "bare"]),
    ]
