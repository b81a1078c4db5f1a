"""The openings: for each one what was read, what it offers, the size that goes in, and how it is packed or framed."""

from __future__ import annotations

from pathlib import Path

from rodbook.job.readings import kind_of
from rodbook.job.rows import rows_in_text
from rodbook.papers.common.cautions import FIRE, STRUCTURE, heaviest_leaf, lifting
from rodbook.papers.common.shared import (
    Json,
    Pictures,
    Sheetful,
    caution_rows,
    frame,
    leaf_in_words,
    lining_in_words,
    marks_in_words,
    writer,
)
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.front import HUNG_KEY
from rodbook.papers.pictures.packing import draw_framed, draw_packing
from rodbook.plan import OpeningPlan, Plan
from rodbook.plan.stages.surveying import reading_called
from rodbook.setout import marks_in

__all__ = ["openings_content"]


def openings_content(plan: Plan) -> Sheetful:
    """What stands on the paper of the openings."""
    write = writer(plan)
    pictures = Pictures(write)
    content: dict[str, Json] = {
        "frame": frame(plan, "Openings", title="Openings"),
        "blocks": [_block(plan, entry, write, pictures) for entry in plan.openings],
        "hung_key": HUNG_KEY if any(entry.set_out for entry in plan.openings) else "",
        "standing": any(entry.packers for entry in plan.openings),
        "planned": any(entry.framed for entry in plan.openings),
        "cautions": caution_rows([STRUCTURE, FIRE, *lifting(write, leaf=heaviest_leaf(plan))]),
    }
    return Sheetful(Path(__file__).with_name("openings.typ"), content, pictures.files)


def _leaves(entry: OpeningPlan) -> str:
    opening = entry.opening
    if opening.rows:
        return f"{rows_in_text([row.model_dump() for row in opening.rows])}, from the floor up"
    if opening.leaves == 1:
        return f"one leaf, hung {opening.hand.value}"
    if opening.leaves == 2:
        return "a pair"
    if opening.leaves == 4:
        return "two pairs"
    return f"three leaves, the middle one hung {opening.hand.value}"


def _block(plan: Plan, entry: OpeningPlan, write: Numbers, pictures: Pictures) -> Json:
    opening = entry.opening
    picture: Json = None
    if entry.set_out and entry.packers:
        picture = pictures.add(draw_packing(entry.set_out, entry.packers, opening.mark))
    elif entry.set_out and entry.framed:
        picture = pictures.add(draw_framed(entry.set_out, entry.framed, opening.mark))
    return {
        "mark": opening.mark,
        "room": opening.room,
        "leaves": _leaves(entry),
        "sill": opening.sill,
        "note": opening.note,
        "readings": _readings(entry, write),
        "rows": _rows(plan, entry, write),
        "packers": _packers(entry, write),
        "working": _working(entry, write),
        "notes": [
            note.sentence for note in (*plan.not_worked_out, *plan.remarks, *plan.runs) if note.at.mark == opening.mark
        ],
        "worked_out": entry.set_out is not None,
        "picture": picture,
    }


def _readings(entry: OpeningPlan, write: Numbers) -> Json:
    """What was read, each row with the places that its figures were read at."""
    opening = entry.opening
    rows: list[list[str]] = []
    if opening.widths:
        rows.append(["Widths", "foot, middle, head", *map(write.mm, opening.widths)])
    if opening.heights:
        rows.append(["Heights", "left, middle, right", *map(write.mm, opening.heights)])
    if opening.diagonals:
        rows.append(["Diagonals", "foot left to head right, the other", *map(write.mm, opening.diagonals), ""])
    if opening.depth is not None:
        rows.append(["Depth", "", write.mm(opening.depth), "", ""])
    text = ""
    for name, value in opening.readings.items():
        kind = str(kind_of(name)).capitalize()
        rows.append([kind if kind != text else "", reading_called(name), write.short(value), "", ""])
        text = kind
    for name, pair in (("Leaf wanted", opening.leaf), ("Clear size wanted", opening.clear)):
        if pair:
            rows.append([name, "width, height", *map(write.mm, pair), ""])
    return [list(row) for row in rows]


def _rows(plan: Plan, entry: OpeningPlan, write: Numbers) -> Json:
    rows: list[list[str]] = []
    if entry.rectangle:
        offered = write.short_size(entry.rectangle.width.value, entry.rectangle.height.value)
        rows.append(["It offers, upright", offered])
    if entry.framed:
        rows.append(["Frame it to", write.short_size(entry.framed.width.value, entry.framed.height.value)])
    if entry.set_out:
        size = lining_in_words(entry.set_out, write)
        rows.append(["Lining" if entry.size is None else f"Lining, size {entry.size}", size])
        rows.append(["Leaf", leaf_in_words(entry.set_out, write)])
        if entry.set_out.divisions:
            places = " and ".join(write.short(place.value) for place in entry.set_out.divisions)
            rows.append(["Division", f"left face {places} from the inside of the left leg"])
        rows.append(["Its parts", marks_in_words(marks_in(plan.schedule, entry.opening.mark))])
    return [list(row) for row in rows]


def _working(entry: OpeningPlan, write: Numbers) -> Json:
    """How what an opening offers, or what it is framed to, comes about."""
    result = entry.framed or entry.rectangle
    return [write.in_working(m.working()) for m in (result.width, result.height)] if result else []


def _packers(entry: OpeningPlan, write: Numbers) -> Json:
    """Packers in rows like the readings'."""
    packers = entry.packers
    if packers is None:
        return []
    return [
        ["Packers, left", "foot, middle, head", *map(write.tenth, packers.left_mm)],
        ["Packers, right", "foot, middle, head", *map(write.tenth, packers.right_mm)],
        ["Over the head", "left, middle, right", *map(write.tenth, packers.head_mm)],
    ]
