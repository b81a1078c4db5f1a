"""What the page of one part shows: its face to scale, its top hinge enlarged, and the working of every size. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.desk.platform.live_drawings import Room, Working, Workings, live_svg
from rodbook.papers.common.shared import edges_in_words, edging_in_words, finish_in_words, openings_in_words, writer
from rodbook.papers.pictures.corner import draw_corner
from rodbook.papers.pictures.part import WHOLE_ROOM_MM, draw_whole_part
from rodbook.papers.pictures.part_faces import face_words, short
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.plan import Plan
from rodbook.setout import ScheduleLine

__all__ = ["PartView", "part_view"]

_FACE_ROOM, _CORNER_ROOM, _PLAIN_ROOM = Room(493, 1105), Room(340, 578), Room(578, 459)
"""What the style sheet gives them on a phone that is 390 wide."""


@dataclass(frozen=True)
class PartView:
    """A part: its mark, kind and size, what there is to know, its drawings, and the workings that they lead to."""

    mark: str
    kind: str
    size: str
    facts: tuple[tuple[str, str], ...]
    drawings: tuple[tuple[str, str, str], ...]
    workings: tuple[Working, ...]
    before: str
    after: str


def part_view(plan: Plan, mark: str) -> PartView | None:
    """The part of that mark; None where there is none."""
    marks = [line.mark for line in plan.schedule]
    if mark not in marks:
        return None
    at = marks.index(mark)
    line, write = plan.schedule[at], writer(plan)
    part, workings = line.part, Workings(write, "w")
    for measure in (part.length, part.width, part.thickness):
        workings.ask(measure)
    if part.borings:
        drawn = [
            ("face", "The whole part", draw_whole_part(part, mark, room=WHOLE_ROOM_MM), _FACE_ROOM),
            (
                "corner",
                f"The {'lowest' if part.datum == 'foot' else 'top'} hinge, enlarged",
                draw_corner(part, mark),
                _CORNER_ROOM,
            ),
        ]
    else:
        drawn = [("section", "The part and its end", draw_plain_part(part, mark), _PLAIN_ROOM)]
    drawings = tuple((look, words, live_svg(drawing, write, workings, room)) for look, words, drawing, room in drawn)
    return PartView(
        mark,
        str(part.kind),
        write.short_size(part.length.value, part.width.value, part.thickness.value),
        _facts(line),
        drawings,
        workings.found,
        marks[at - 1] if at else "",
        marks[at + 1] if at + 1 < len(marks) else "",
    )


def _facts(line: ScheduleLine) -> tuple[tuple[str, str], ...]:
    part = line.part
    seen = edges_in_words(part)
    rows = (
        ("From", part.stock),
        ("Number", str(line.quantity)),
        ("For", openings_in_words(line)),
        ("Stands or hangs on the", part.hand),
        ("Edges that are seen", seen),
        ("Edging", edging_in_words(part)),
        ("Core before edging", f"{short(part.core[0].value)} × {short(part.core[1].value)}" if part.core else ""),
        (
            "Cut first to",
            f"{short(part.cut_length)} × {short(part.cut_width)}" if part.cut and part.cut != part.core else "",
        ),
        ("Ends", part.ends),
        ("Finish", finish_in_words(part)),
        ("Drawn", face_words(part)),
    )
    return tuple(row for row in rows if row[1])
