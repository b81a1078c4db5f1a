"""The whole of a part that is bored, upright and to scale, with running dimensions from its datum."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from rodbook.papers.drawing.dimensions import Reading, Span, datum, dimension, running
from rodbook.papers.drawing.lettering import text_width_mm
from rodbook.papers.drawing.model import Drawing, Line, Mark, Pen, Shape, Text, View, box_of
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.pictures.outlines import bevel_marks, face_corners, seen_round, slope_words
from rodbook.papers.pictures.part_faces import (
    Hole,
    edge_word,
    face_words,
    from_datum,
    grain_marks,
    hole_marks,
    holes,
    leading_edge,
    seen_edge,
    short,
)
from rodbook.setout import Joint, Part

__all__ = ["WHOLE_ROOM_MM", "draw_whole_part", "label"]

WHOLE_ROOM_MM = (60.0, 222.0)
"""Room for the part itself on its page, without its dimensions. [mm]"""

_STAND_OFF, _NEXT = 8.0, 7.5
"""Between the part and its dimension lines, and from one to the next. [mm]"""


def label(part: Part, mark: str) -> str:
    """What a drawing of a part shows, in words."""
    size = f"{short(part.length.value)} by {short(part.width.value)} by {short(part.thickness.value)} mm"
    bored = f", {len(part.borings)} holes" if part.borings else ""
    return f"{part.kind} {mark}, {size}{bored}, {face_words(part)}"


def draw_whole_part(part: Part, mark: str, *, room: tuple[float, float] = WHOLE_ROOM_MM) -> Drawing:
    """Draw a bored part as a whole.

    Parameters
    ----------
    part : Part
        With borings.
    mark : str
        As on its label.
    room : tuple of float
        On paper, for the part without its dimensions. [mm]

    Returns
    -------
    Drawing
        Heights of all holes run down from the top end; overall length and width stand at the other sides.
    """
    length, width = part.length.value, part.width.value
    scale = fitting_scale(width, length, room, largest=2)
    view = View(scale)
    right, foot = view.x(width), view.y(length)
    result = holes(part)
    lead = leading_edge(part) or "right"
    outer = right + _STAND_OFF if lead == "right" else -_STAND_OFF
    other = -_STAND_OFF if lead == "right" else right + _STAND_OFF
    corners = face_corners(part, view)
    marks: list[Mark] = [Shape(corners, role="outline")]
    marks += [*_housing(part, view), *bevel_marks(part, view), *slope_words(part, view)]
    low = foot - (view.y(part.notch.high.value) if part.notch is not None else 0.0)
    marks += (
        seen_round(corners) if part.outline and len(part.edges) == 4 else _seen_edges(part, lead, right, (foot, low))
    )
    marks += hole_marks(result, lambda b: view.at(b.x.value, b.y.value), view)
    near, far_side = (right, 0.0) if lead == "right" else (0.0, right)
    if part.datum == "foot":
        marks += _from_foot(part, result, view, outer, near)
    elif part.kind.facts.gridded:
        marks += _grid(part, result, view, lead, outer)
    else:
        readings = [
            Reading(view.y(h.boring.y.value), short(h.boring.y.value), str(h.number), h.boring.y) for h in result
        ]
        marks += running("y", 0.0, readings, line=outer, feature=near, low=-4.0)
        marks += datum(0.0, 0.0)
    marks += _heights(part, view, lead, far_side, other)
    under = foot + _STAND_OFF + (2.0 if part.datum == "foot" else 0.0)
    if part.notch is not None:
        marks += _notch(part, view, lead, outer + (_NEXT if lead == "right" else -_NEXT), under)
        under += _NEXT
    marks += dimension("x", Span(0.0, right, short(width), part.width), line=under, feature=foot, bold=True)
    marks += _edge_name(part, result, view, lead, right)
    if part.grain:
        marks += grain_marks(right / 2 + 1.5, foot * 0.56, min(24.0, foot / 6), upright=True)
    below = box_of(marks).bottom + 5.0
    marks += scale_bar(box_of(marks).left, below, scale)
    return Drawing.around(marks, title=label(part, mark), scale=scale)


def _grid(part: Part, results: tuple[Hole, ...], view: View, lead: str, line: float) -> list[Mark]:
    """Holes in rows and columns: each height once, beside the part, and each place across from the leading edge, over it."""
    zero = 0.0 if lead == "left" else view.x(part.width.value)
    heights = {round(h.boring.y.value, 3): h.boring.y for h in results}
    places = {
        round(across.value, 3): across
        for across in (h.boring.x if lead == "left" else h.boring.in_from or part.width - h.boring.x for h in results)
    }
    rows = [Reading(view.y(y), short(y), of=heights[y]) for y in sorted(heights)]
    columns = [
        Reading(view.x(x) if lead == "left" else zero - view.x(x), short(x), of=places[x]) for x in sorted(places)
    ]
    room = {"low": -1.0} if lead == "left" else {"high": zero + 1.0}
    return [
        *running("y", 0.0, rows, line=line, feature=zero, low=-2.0),
        *running("x", zero, columns, line=-_STAND_OFF, feature=0.0, **room),
        *(mark for mark in datum(zero, 0.0) if not isinstance(mark, Text)),
    ]


def _from_foot(part: Part, results: tuple[Hole, ...], view: View, line: float, feature: float) -> list[Mark]:
    """Heights of all holes, running up from the foot."""
    foot = view.y(part.length.value)
    heights = [(hole, from_datum(part, hole.boring)) for hole in reversed(results)]
    readings = [Reading(view.y(h.boring.y.value), short(up.value), str(h.number), up) for h, up in heights]
    under = [replace(mark, y=foot + 4.1) if isinstance(mark, Text) else mark for mark in datum(0.0, foot)]
    return [*running("y", foot, readings, line=line, feature=feature, low=-4.0), *under]


def _heights(part: Part, view: View, lead: str, feature: float, line: float) -> list[Mark]:
    """The length; under a slope the height of each side, that of the leading edge the further out."""
    foot = view.y(part.length.value)
    if not part.outline:
        span = Span(0.0, foot, short(part.length.value), part.length)
        return list(dimension("y", span, line=line, feature=feature, bold=True))
    (_, top_left), (_, top_right) = part.outline[:2]
    sides = {"left": top_left, "right": top_right}
    closing = "right" if lead == "left" else "left"
    out = 1.0 if line > feature else -1.0
    marks: list[Mark] = []
    for side, at in ((closing, line), (lead, line + out * _NEXT)):
        height = part.length.value - sides[side]
        span = Span(view.y(sides[side]), foot, short(height), part.length if sides[side] == 0 else None)
        marks += dimension("y", span, line=at, feature=feature, bold=True)
    return marks


def _notch(part: Part, view: View, lead: str, beside: float, under: float) -> list[Mark]:
    """How deep and how high the foot is cut out: under it and beside it."""
    assert part.notch is not None
    right, foot = view.x(part.width.value), view.y(part.length.value)
    deep, high = view.x(part.notch.deep.value), view.y(part.notch.high.value)
    ends, edge = ((0.0, deep), 0.0) if lead == "left" else ((right - deep, right), right)
    across = Span(*ends, short(part.notch.deep.value), part.notch.deep)
    up = Span(foot - high, foot, short(part.notch.high.value), part.notch.high)
    return [
        *dimension("x", across, line=under, feature=foot),
        *dimension("y", up, line=beside, feature=edge),
    ]


def _housing(part: Part, view: View) -> list[Mark]:
    """The shoulder of a housing for the head, as deep as the head is thick: linings are of one board."""
    if Joint.HOUSED not in part.joints:
        return []
    y = view.y(part.thickness.value)
    return [Line(((0.0, y), (view.x(part.width.value), y)), Pen.HIDDEN, "housing")]


def _seen_edges(part: Part, lead: str, right: float, feet: tuple[float, float]) -> list[Mark]:
    """Marks on edges that are seen; the front one ends at the second foot, where that is cut out."""
    foot, low = feet
    ends = {
        "top": ((0.0, 0.0), (right, 0.0), (0.0, -1.0)),
        "bottom": ((0.0, foot), (right, foot), (0.0, 1.0)),
        "left": ((0.0, 0.0), (0.0, foot), (-1.0, 0.0)),
        "right": ((right, 0.0), (right, foot), (1.0, 0.0)),
    }
    x = 0.0 if lead == "left" else right
    front = ((x, 0.0), (x, low), ends[lead][2])
    marks: list[Mark] = []
    for edge in part.edges:
        marks += seen_edge(*(front if edge == "front" else ends[edge]))
    return marks


def _edge_name(part: Part, results: tuple[Hole, ...], view: View, lead: str, right: float) -> list[Mark]:
    """The name of the leading edge, beside it, in the longest stretch without holes."""
    stops = [view.y(hole.boring.y.value) for hole in results]
    gaps = [(round(b - a, 1), -(a + b) / 2) for a, b in pairwise(stops)]
    word = edge_word(part)
    room, middle = max(gaps, default=(0.0, 0.0))
    if room < text_width_mm(word, 2.5) + 6:
        return []
    # Clear of the V that may stand at the same height; what hangs below turned figures looks to the right.
    x = right + 4.6 if lead == "right" else -5.2
    return [Text(x, -middle, word, upright=True, role="edge name")]
