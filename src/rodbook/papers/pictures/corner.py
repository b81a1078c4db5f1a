"""The top hinge of a bored part, enlarged: what is set at the drill, with a section through the hole."""

from __future__ import annotations

from collections.abc import Callable

from rodbook.job.units import Depth
from rodbook.papers.drawing.dimensions import Reading, Span, chain, dimension, leader, running
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.model import Asked, Drawing, Fill, Line, Mark, Pen, Shape, Text, View, box_of, break_line
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.pictures.part import label
from rodbook.papers.pictures.part_faces import (
    Hole,
    edge_word,
    first_hinge,
    from_datum,
    hole_marks,
    holes,
    last_hinge,
    leading_edge,
    left_group,
    short,
)
from rodbook.setout import Part, PartKind
from rodbook.working import Measure

__all__ = ["draw_corner"]

_AIR_MM = 24.0
"""Shown below the last hole. [mm of the part]"""

_WORDS_MM = 18.6
"""Room beside the holes for their words. [mm on paper]"""

_BELOW_MM = 46.0
"""What is shown more below the holes of a front that is alike from both sides, for their words. [mm]"""

_TWO_LINES_MM = 9.0
"""From the words of one sort of hole to those of the next, where holes stand close. [mm on paper]"""

_ROOM_MM = (50.0, 90.0)
"""Room on paper for what is shown, without its dimensions. [mm]"""


def draw_corner(part: Part, mark: str) -> Drawing:
    """Draw the hinge corner of a bored part that is next to its datum: the top one, or the lowest where the foot is it.

    Parameters
    ----------
    part : Part
        With borings and a hand.
    mark : str

    Returns
    -------
    Drawing
        Distances in from the leading edge above it, heights from the top end beside it, and under it a section.
    """
    foot = part.datum == "foot"
    group = first_hinge(holes(part)) if not foot else last_hinge(holes(part))
    if part.kind.facts.alike:
        group = left_group(holes(part))
    if part.kind is PartKind.END_PANEL:
        group = group[:1] if part.hand == "left" else group[-1:]
    lead = leading_edge(part) or "right"
    width = part.width.value
    inward = [_from_edge(hole, lead, width) for hole in group]
    reach = max(d + hole.boring.diameter / 2 for d, hole in zip(inward, group, strict=True))
    down = max(from_datum(part, hole.boring).value for hole in group) + _AIR_MM
    if part.kind.facts.alike:
        down += _BELOW_MM
    scale = fitting_scale(min(width, reach + 2 * _WORDS_MM), down, _ROOM_MM, largest=2)
    across = min(width, reach + _WORDS_MM * scale)
    view = View(scale, up=foot)
    high = view.y(down)
    sign = 1.0 if lead == "left" else -1.0
    edge = 0.0

    def x_of(distance: float) -> float:
        return edge + sign * distance / scale

    def y_of(hole: Hole) -> float:
        return view.y(from_datum(part, hole.boring).value)

    far = x_of(across)
    whole = across >= width
    marks: list[Mark] = [Line(((far, 0.0), (edge, 0.0), (edge, high)), Pen.OUTLINE, "outline")]
    marks.append(Line(((far, 0.0), (far, high)), Pen.OUTLINE) if whole else break_line((far, 0.0), (far, high)))
    marks.append(break_line((edge, high), (far, high)))
    marks += hole_marks(
        group, lambda b: (x_of(_distance(b.x.value, lead, width)), view.y(from_datum(part, b).value)), view
    )
    line = edge - sign * 6.0
    rows = [
        Reading(y_of(h), short(from_datum(part, h.boring).value), str(h.number), from_datum(part, h.boring))
        for h in group
    ]
    marks += running("y", 0.0, rows, line=line, feature=edge, low=None if foot else -2.0, high=2.0 if foot else None)
    columns = {round(d, 3): _inward(hole, part, lead) for d, hole in zip(inward, group, strict=True)}
    places = [Reading(x_of(d), short(d), of=columns[d]) for d in sorted(columns)]
    marks += running("x", edge, places, line=6.0 if foot else -6.0, feature=0.0)
    beside = min((row.at for row in rows), key=abs) / 2
    if part.kind.facts.alike:
        beside = (max(row.at for row in rows) + high) / 2
    marks.append(Text(edge - sign * 2.8, beside, edge_word(part), upright=True, role="edge name"))
    beyond = x_of(reach) if abs(far - x_of(reach)) >= _WORDS_MM - 0.6 else far
    marks += _words(group, x_of, y_of, sign, beyond, lead, part)
    below = box_of(marks).bottom + 6.0 if foot else high + 8.0
    marks += _section(part, group, lead, x_of, view, top=below, far=far, whole=whole)
    left = box_of(marks).left
    marks += scale_bar(left, box_of(marks).bottom + 4.0, scale)
    end = "Lowest" if foot else "Top"
    thing = "hinge" if group[0].boring.kind in ("cup", "pilot", "plate") else "hole"
    return Drawing.around(marks, title=f"{end} {thing} of {label(part, mark)}, enlarged", scale=scale)


def _distance(x: float, lead: str, width: float) -> float:
    return x if lead == "left" else width - x


def _from_edge(hole: Hole, lead: str, width: float) -> float:
    return _distance(hole.boring.x.value, lead, width)


def _inward(hole: Hole, part: Part, lead: str) -> Measure:
    """How far a hole stands from the leading edge."""
    boring = hole.boring
    if boring.in_from is not None:
        return boring.in_from
    return boring.x if lead == "left" else (part.width - boring.x).named(f"from the {edge_word(part)}")


def _bore(hole: Hole, part: Part) -> tuple[Measure, Measure]:
    """Diameter and depth of a hole; one right through is as deep as the part is thick."""
    kind, source = hole.boring.kind, "the book's figures of the hinge"
    across = Measure(hole.boring.diameter, f"{kind} diameter", source=source)
    if isinstance(hole.boring.depth, str):
        return across, part.thickness.named(f"{kind} depth, right through")
    return across, Measure(hole.boring.depth, f"{kind} depth", source=source)


def _words(
    group: tuple[Hole, ...],
    x_of: Callable[[float], float],
    y_of: Callable[[Hole], float],
    sign: float,
    beyond: float,
    lead: str,
    part: Part,
) -> list[Mark]:
    """Kind, diameter and depth of each sort of hole, beside the holes where there is room, else beyond the part."""
    sorts: dict[tuple[str, float, Depth], Hole] = {}
    for hole in group:
        sorts[(hole.boring.kind, hole.boring.diameter, hole.boring.depth)] = hole
    marks: list[Mark] = []
    places: dict[tuple[str, float, Depth], float] = {}
    free = -1e9
    for sort in sorted(sorts, key=lambda sort: y_of(sorts[sort])):
        places[sort] = max(y_of(sorts[sort]), free)
        free = places[sort] + _TWO_LINES_MM
    for (kind, diameter, depth), hole in sorts.items():
        y = y_of(hole)
        tip = x_of(_from_edge(hole, lead, part.width.value) + diameter / 2)
        words = (f"{kind} Ø{short(diameter)}", depth if isinstance(depth, str) else f"{short(depth)} deep")
        at = places[kind, diameter, depth]
        marks += leader(
            (tip, y),
            (beyond + sign * 0.6, at),
            words,
            toward="right" if sign > 0 else "left",
            asks=Asked(_bore(hole, part), f"{kind}, diameter and depth", ((tip, y),)),
        )
    return marks


def _section(
    part: Part,
    group: tuple[Hole, ...],
    lead: str,
    x_of: Callable[[float], float],
    view: View,
    *,
    top: float,
    far: float,
    whole: bool,
) -> list[Mark]:
    """A cut through the widest hole, the bored face up."""
    widest = max(group, key=lambda hole: hole.boring.diameter)
    middle = _from_edge(widest, lead, part.width.value)
    thick, deep = part.thickness.value / view.scale, widest.boring.depth_in(part.thickness.value) / view.scale
    near_x, far_x = x_of(middle - widest.boring.diameter / 2), x_of(middle + widest.boring.diameter / 2)
    edge, foot = x_of(0.0), top + thick
    sign = 1.0 if far > edge else -1.0
    outline = (
        (edge, top),
        (near_x, top),
        (near_x, top + deep),
        (far_x, top + deep),
        (far_x, top),
        (far, top),
        (far, foot),
        (edge, foot),
    )
    marks: list[Mark] = [*hatch(outline), Shape(outline, Pen.NONE, Fill.NONE, "section")]
    if widest.boring.through:
        marks += [Line(((edge, y), (near_x, y)), Pen.CUT) for y in (top, foot)]
        marks += [Line(((far_x, y), (far, y)), Pen.CUT) for y in (top, foot)]
        marks += [Line(((x, top), (x, foot)), Pen.CUT) for x in (edge, near_x, far_x)]
    else:
        marks.append(Line(outline[:6], Pen.CUT))
        marks.append(Line((outline[0], outline[7], outline[6]), Pen.CUT))
    marks.append(Line(((far, top), (far, foot)), Pen.CUT if whole else Pen.FINE))
    marks.append(Text((edge + far) / 2, top - 2.4, "bored face", role="note"))
    beside = edge - sign * 5.0
    across, depth = _bore(widest, part)
    if not widest.boring.through:
        marks += dimension("y", Span(top, top + deep, short(depth.value), depth), line=beside, feature=edge)
    marks += dimension(
        "y", Span(top, foot, short(part.thickness.value), part.thickness), line=beside - sign * 6.0, feature=edge
    )
    if widest.boring.kind == "cup":
        cup_edge = (_inward(widest, part, lead) - across / 2).named(f"edge of the cup from the {edge_word(part)}")
        spans = [Span(edge, near_x, short(cup_edge.value), cup_edge), Span(near_x, far_x, short(across.value), across)]
        ordered = [Span(min(s.start, s.end), max(s.start, s.end), s.figure, s.of) for s in spans]
        marks += chain("x", ordered, line=foot + 5.0, feature=foot)
    return marks
