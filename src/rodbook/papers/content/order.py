"""The workshop's order, or an enquiry where nothing is bought in: what to make, drawn so that nobody has to ring up.

Nothing on it says what anything costs.
"""

from __future__ import annotations

from rodbook.job.models import Making
from rodbook.papers.content.cautions import DUST, FIRE, heaviest_leaf, heaviest_sheet, lifting
from rodbook.papers.content.shared import (
    Json,
    Pictures,
    Sheetful,
    caution_rows,
    common_finish,
    edges_in_words,
    edging_in_words,
    finish_in_words,
    frame,
    holes_in_words,
    openings_in_words,
    parts_in_words,
    writer,
)
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.corner import draw_corner
from rodbook.papers.pictures.part import WHOLE_ROOM_MM, draw_whole_part
from rodbook.papers.pictures.part_faces import depth_words, edge_word, face_words, from_datum, holes, leading_edge
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.plan import Plan
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

_PAGE_MM = 168.0
"""The whole part and its enlarged corner stand beside each other on this width. [mm]"""

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
    bored = [line for line in lines if line.part.borings]
    plain = [line for line in lines if not line.part.borings]
    content: dict[str, Json] = {
        "frame": frame(plan, f"Workshop {name.lower()}", title=title, reasons=False),
        "enquiry": name == "Enquiry",
        "to": [workshop.name, workshop.contact] if workshop else ["", ""],
        "rows": [_row(line, write, shared) for line in lines],
        "finish": shared,
        "total": parts_in_words(lines),
        "confirm": list(_CONFIRM),
        "tolerances": [list(row) for row in TOLERANCES],
        "not_worked_out": [[note.where, note.sentence] for note in plan.not_worked_out],
        "sheets": [_bored(line, write, pictures) for line in bored],
        "cards": [_plain(line, write, pictures) for line in plain],
        "cautions": caution_rows(
            [DUST, *lifting(write, leaf=heaviest_leaf(plan) if doors else None, sheet=heaviest_sheet(boards)), FIRE]
        ),
    }
    return Sheetful("workshop-order.typ", content, pictures.files)


def _row(line: ScheduleLine, write: Numbers, shared: str) -> Json:
    part = line.part
    return [
        line.mark, str(part.kind), str(line.quantity), write.mm(part.length.value), write.mm(part.width.value),
        write.short(part.thickness.value), part.stock, edges_in_words(part) or "none", holes_in_words(part) or "none",
        *([] if shared else [finish_in_words(part) or "bare"]),
    ]  # fmt: skip


def _facts(line: ScheduleLine, write: Numbers) -> list[list[str]]:
    part = line.part
    rows = [
        ["Quantity", str(line.quantity)],
        ["Size", f"{write.short_size(part.length.value, part.width.value, part.thickness.value)} mm"],
        ["Made from", part.stock],
        ["Core", f"{write.short_size(part.core[0].value, part.core[1].value)} mm, before edging" if part.core else ""],
        [
            "Cut first to",
            f"{write.short_size(part.cut_length, part.cut_width)} mm" if part.cut and part.cut != part.core else "",
        ],
        ["Grain", "along the length" if part.grain else ""],
        ["Edges seen", edges_in_words(part) or "none"],
        ["Edging", edging_in_words(part)],
        ["Ends", part.ends],
        ["Finish", finish_in_words(part) or "bare"],
        ["For", openings_in_words(line)],
    ]
    return [row for row in rows if row[1]]


def _hand(line: ScheduleLine) -> str:
    part = line.part
    if part.kind is PartKind.FLAP:
        return "hangs by its top edge"
    if part.kind is PartKind.DOOR:
        return f"{part.hand}-hand: hangs on the {part.hand}, seen from the room"
    return f"{part.hand}-hand: stands on the {part.hand}, seen from the room" if part.hand else ""


def _bored(line: ScheduleLine, write: Numbers, pictures: Pictures) -> Json:
    part = line.part
    lead = leading_edge(part)
    corner, whole = draw_corner(part, line.mark), draw_whole_part(part, line.mark)
    if corner.width + whole.width > _PAGE_MM:
        whole = draw_whole_part(part, line.mark, room=(WHOLE_ROOM_MM[0] / 2, WHOLE_ROOM_MM[1]))
    return {
        "mark": line.mark,
        "kind": str(part.kind),
        "hand": _hand(line),
        "facts": _facts(line, write),
        "face": f"Drawn {face_words(part)}. The {edge_word(part)} is on the {lead} of the drawing.",
        "whole": pictures.add(whole),
        "corner": pictures.add(corner),
        "axes": "y up from the foot" if part.datum == "foot" else "y down",
        "holes": [
            [
                str(hole.number), hole.boring.kind, write.mm(hole.boring.x.value),
                write.mm(from_datum(part, hole.boring).value),
                write.short(hole.boring.diameter), depth_words(hole.boring, write.short),
            ]
            for hole in holes(part)
        ],
    }  # fmt: skip


def _plain(line: ScheduleLine, write: Numbers, pictures: Pictures) -> Json:
    return {
        "mark": line.mark,
        "kind": str(line.part.kind),
        "hand": _hand(line),
        "facts": _facts(line, write),
        "face": f"drawn {face_words(line.part)}" if line.part.sectional else "",
        "whole": pictures.add(draw_plain_part(line.part, line.mark)),
    }
