"""A part without borings, lying along the page, with its end enlarged."""

from __future__ import annotations

from rodbook.papers.drawing.dimensions import Span, dimension
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import (
    Drawing,
    Line,
    Mark,
    Pen,
    Point,
    Shape,
    Text,
    box_of,
    break_line,
    moved,
    rectangle,
)
from rodbook.papers.drawing.scales import fitting_scale, scale_bar, scale_text
from rodbook.papers.pictures.outlines import lying_corners
from rodbook.papers.pictures.part import label
from rodbook.papers.pictures.part_faces import Mitres, grain_marks, marks_on, mitres, seen_edge, short
from rodbook.papers.pictures.slants import slanting_ends
from rodbook.setout import Joint, Part, PartKind

__all__ = ["PLAIN_ROOM_MM", "draw_plain_part"]

PLAIN_ROOM_MM = (105.0, 34.0)
"""Room for the part itself, beside its enlarged end. [mm]"""

_END_ROOM_MM = (28.0, 30.0)
"""Room for the enlarged end's face, and for its section below. [mm]"""

_WIDEST_END_MM = 160.0
"""A wider part has its width on the whole view and only a corner of its section enlarged."""

_CROPPED_MM = 60.0
"""How much of the width that corner shows."""

MITRE = 45.0
"""A mitre of a square corner, which every trim's end is drawn with unless its cuts say otherwise. [degrees]"""


def draw_plain_part(part: Part, mark: str) -> Drawing:
    """Draw a part without borings.

    Parameters
    ----------
    part : Part
    mark : str

    Returns
    -------
    Drawing
        The whole part with its length, and beside it the end with width, thickness and mitre.
    """
    length, width = part.length.value, part.width.value
    scale = fitting_scale(length, width, PLAIN_ROOM_MM, largest=2)
    long, wide = length / scale, width / scale
    cut, outer_up = mitres(part), _outer_up(part)
    corners = lying_corners(part, scale) or _corners(long, wide, cut, outer_up=outer_up)
    marks: list[Mark] = [Shape(corners, role="outline")]
    marks += _edges(part, long, wide)
    marks += _names(part, long, wide, cut, outer_up=outer_up)
    if Joint.HOUSED in part.joints:
        shoulder = part.thickness.value / scale
        marks.append(Line(((shoulder, 0.0), (shoulder, wide)), Pen.HIDDEN, "housing"))
    if part.grain and wide > 8:
        marks += grain_marks(long / 2, wide / 2 + 2, min(26.0, long / 3), upright=False)
    line = wide + 9.0
    if part.notch is not None:
        marks += _notch(part, scale, long, wide, line)
        line += 7.0
    marks += dimension("x", Span(0.0, long, short(length), part.length), line=line, feature=wide, bold=True)
    if width > _WIDEST_END_MM:
        line = box_of(marks).right + 4.0
        marks += dimension("y", Span(0.0, wide, short(width), part.width), line=line, feature=long, bold=True)
    marks += scale_bar(0.0, box_of(marks).bottom + 4.0, scale)
    ends = (
        slanting_ends(part) if any(c.degrees.value != MITRE for c in part.cuts) else _end(part, cut, outer_up=outer_up)
    )
    box, beside = box_of(marks), box_of(ends)
    marks += moved(ends, box.right + 10.0 - beside.left, box.top - beside.top)
    return Drawing.around(marks, title=label(part, mark), scale=scale)


def _outer_up(part: Part) -> bool:
    """Whether a trim's outer edge lies at the top: a left-hand leg laid on its side has it at the bottom."""
    return not (part.kind is PartKind.TRIM_LEG and part.hand == "left")


def _corners(long: float, wide: float, cut: Mitres, *, outer_up: bool) -> tuple[Point, ...]:
    """The outline, mitres cut back along the inner edge."""
    start, stop = (wide if cut.head else 0.0), (wide if cut.foot else 0.0)
    if outer_up:
        return (0.0, 0.0), (long, 0.0), (long - stop, wide), (start, wide)
    return (start, 0.0), (long - stop, 0.0), (long, wide), (0.0, wide)


def _notch(part: Part, scale: int, long: float, wide: float, line: float) -> list[Mark]:
    """How high and how deep the foot is cut out, at the right end under the part and beside it."""
    assert part.notch is not None
    high, deep = part.notch.high.value / scale, part.notch.deep.value / scale
    up = Span(long - high, long, short(part.notch.high.value), part.notch.high)
    across = Span(wide - deep, wide, short(part.notch.deep.value), part.notch.deep)
    return [
        *dimension("x", up, line=line, feature=wide),
        *dimension("y", across, line=long + 12.0, feature=long),
    ]


def _edges(part: Part, long: float, wide: float) -> list[Mark]:
    """Edges that are seen; the front edge of a part without hand lies at the bottom."""
    low = long * (1.0 - part.notch.high.value / part.length.value) if part.notch is not None else long
    over, under = ((0.0, 0.0), (long, 0.0), (0.0, -1.0)), ((0.0, wide), (low, wide), (0.0, 1.0))
    start, stop = ((0.0, 0.0), (0.0, wide), (-1.0, 0.0)), ((long, 0.0), (long, wide), (1.0, 0.0))
    if part.lies:
        places = {"front": under, "top": over, "bottom": under, "left": start, "right": stop}
    else:
        places = {"front": under, "left": under, "right": over, "top": start, "bottom": stop}
    return [mark for edge in part.edges for mark in seen_edge(*places[edge])]


def _names(part: Part, long: float, wide: float, cut: Mitres, *, outer_up: bool) -> list[Mark]:
    """Edges and ends by name, outside the part; ends clear of the edges' names where these are longer than the part."""
    over, under = -3.4, wide + 3.6
    names: list[tuple[float, str]] = []
    if cut.head:
        outer, inner = (over, under) if outer_up else (under, over)
        points = "long points" if cut.foot else "long point"
        names = [(outer, f"outer edge, to the {points}"), (inner, "inner edge")]
    elif "front" in part.edges:
        names = [(under, "front edge")]
    # To the right of the first V, if there is one, and of a mitre's corner.
    start = max(wide if cut.head else 0.0, _first_v(long)) + 2.4
    marks: list[Mark] = [Text(start, y, word, anchor="start", role="edge name") for y, word in names]
    reach = max((start + text_width_mm(word, LEAST_MM) for _, word in names), default=0.0)
    if part.kind.facts.drawn_lying and (cut.head != cut.foot or part.hand or part.ends):
        marks.append(Text(-4.6, wide / 2, "top", upright=True, role="end name"))
        marks.append(Text(max(long, reach) + 4.0, wide / 2, "foot", upright=True, role="end name"))
    return marks


def _first_v(long: float) -> float:
    """Where the first V on a long edge stands."""
    return long / (2 * marks_on(long))


def _end(part: Part, cut: Mitres, *, outer_up: bool) -> tuple[Mark, ...]:
    """One end enlarged: the face with its mitre, where there is one, and the section."""
    width, thick = part.width.value, part.thickness.value
    tall = min(width, _CROPPED_MM) if width > _WIDEST_END_MM else width
    shown = width * 1.9 if cut.head else thick
    scale = fitting_scale(shown, tall, _END_ROOM_MM, largest=2)
    wide, high, deep = width / scale, tall / scale, thick / scale
    marks: list[Mark] = []
    left = 0.0
    if cut.head:
        reach = wide * 1.9
        top, foot = ((0.0, 0.0), (wide, wide)) if outer_up else ((wide, 0.0), (0.0, wide))
        marks.append(Line(((reach, top[1]), top, foot, (reach, foot[1])), Pen.OUTLINE))
        marks.append(break_line((reach, 0.0), (reach, wide)))
        marks.append(Text(wide * 1.45, wide / 2, "45°", role="angle"))
        left = reach + 6.0
    right = left + deep
    section = rectangle((left, 0.0), (right, high), Pen.CUT, role="section")
    marks += hatch(section.points)
    if tall < width:
        marks += [
            Line(((left, 0.0), (left, high), (right, high), (right, 0.0)), Pen.CUT, "section"),
            break_line((left, 0.0), (right, 0.0)),
        ]
    else:
        marks += [section, *dimension("y", Span(0.0, high, short(width), part.width), line=right + 5.0, feature=right)]
    marks += dimension("x", Span(left, right, short(thick), part.thickness), line=high + 5.0, feature=high)
    box = box_of(marks)
    # Under a mitred end, beside a square one, which stands higher than it is wide.
    x, y = (box.left, box.bottom + 4.0) if cut.head else (box.right + 4.0, high / 2)
    marks.append(Text(x, y, f"end, {scale_text(scale)}", anchor="start", role="scale"))
    return tuple(marks)
