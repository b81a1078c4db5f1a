"""Parts drawn for whoever makes them: a page for each that is bored, with its table of holes, a card for each that is not."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.papers.common.shared import (
    Json,
    Pictures,
    edges_in_words,
    edging_in_words,
    finish_in_words,
    openings_in_words,
)
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.corner import draw_corner
from rodbook.papers.pictures.part import WHOLE_ROOM_MM, draw_whole_part
from rodbook.papers.pictures.part_faces import depth_words, edge_word, face_words, from_datum, holes, leading_edge
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["drawn_parts"]

_PAGE_MM = 168.0
"""The whole part and its enlarged corner stand beside each other on this width. [mm]"""


def drawn_parts(lines: Sequence[ScheduleLine], write: Numbers, pictures: Pictures) -> dict[str, Json]:
    """Parts with their drawings, the same whoever makes them.

    Parameters
    ----------
    lines : sequence of ScheduleLine
    write : Numbers
    pictures : Pictures
        Where the drawings are kept.
    """
    return {
        "sheets": [_bored(line, write, pictures) for line in lines if line.part.borings],
        "cards": [_plain(line, write, pictures) for line in lines if not line.part.borings],
    }


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
                str(hole.number),
                hole.boring.kind,
                write.mm(hole.boring.x.value),
                write.mm(from_datum(part, hole.boring).value),
                write.short(hole.boring.diameter),
                depth_words(hole.boring, write.short),
            ]
            for hole in holes(part)
        ],
    }


def _plain(line: ScheduleLine, write: Numbers, pictures: Pictures) -> Json:
    return {
        "mark": line.mark,
        "kind": str(line.part.kind),
        "hand": _hand(line),
        "facts": _facts(line, write),
        "face": f"drawn {face_words(line.part)}" if line.part.sectional else "",
        "whole": pictures.add(draw_plain_part(line.part, line.mark)),
    }
