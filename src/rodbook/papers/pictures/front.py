"""An opening's front as seen from the room: trim, lining, leaves, the side each hangs on, and the gaps."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from rodbook.job.kinds import Stands, kinds_that
from rodbook.papers.drawing.dimensions import Reading, Span, chain, dimension, running
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import (
    Asked,
    Circle,
    Drawing,
    Fill,
    Line,
    Mark,
    Pen,
    Shape,
    Text,
    View,
    box_of,
    on_plate,
    rectangle,
)
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.pictures.part_faces import from_datum, short
from rodbook.papers.pictures.raked import raised_mm, raked_sides
from rodbook.setout import Body, DimensionName, Part, PartKind, SetOut, Surround, family_named
from rodbook.working import Measure

__all__ = ["FRONT_ROOM_MM", "HUNG_KEY", "draw_front", "front_marks"]

FRONT_ROOM_MM = (104.0, 118.0)
"""Room for the front itself, without its dimensions. [mm]"""

HUNG_KEY = (
    "Two broken lines meet at the side a leaf hangs on, seen from the room; the small black blocks on that side are "
    "its hinges, and the circles beside them the holes in its back. A flap's broken lines meet at its top edge."
)
"""The convention for the hinge side, in words."""

_FIRST, _NEXT = 6.5, 9.5
"""From the front to the first dimension line, and from one to the next. [mm]"""

_LEAST_RING = 0.22
"""Radius at which a small hole is drawn at least. [mm]"""


_FIXED = kinds_that(lambda facts: facts.alike)
"""What a front divided in height has besides leaves."""


def _of(set_out: SetOut, *kinds: PartKind) -> list[Body]:
    return [body for body in set_out.assembly.bodies if body.kind in kinds]


def front_marks(set_out: SetOut, view: View, *, words: bool = True, trim: bool = True) -> tuple[Mark, ...]:
    """The front without dimensions.

    Parameters
    ----------
    set_out : SetOut
    view : View
        With y upwards from the finished floor.
    words : bool
        Whether leaves say their name and the side they hang on; a small front has no room for it.
    trim : bool
        Whether its trim is drawn; it would hide the packers.
    """
    marks: list[Mark] = []
    for body in set_out.assembly.bodies:
        if body.kind.facts.stands in (Stands.FACE, Stands.OVER_FACE, Stands.AHEAD):
            continue
        marks.append(_seen(body, view, Pen.FINE, Fill.PAPER))
    if trim:
        pieces = _of(set_out, PartKind.TRIM_LEG, PartKind.TRIM_HEAD)
        marks += [_seen(piece, view, Pen.OUTLINE, Fill.PAPER) for piece in pieces]
    leaves = _of(set_out, PartKind.DOOR)
    marks += [_seen(leaf, view, Pen.OUTLINE, Fill.TINT) for leaf in leaves]
    for leaf in leaves:
        marks += _hung(leaf, view, words=words)
    for front in _of(set_out, *_FIXED):
        marks.append(_seen(front, view, Pen.OUTLINE, Fill.TINT))
        marks += _row_marks(front, view, words=words)
    marks += [_seen(strip, view, Pen.OUTLINE, Fill.PAPER) for strip in _of(set_out, PartKind.STRIP)]
    for rail in _of(set_out, PartKind.RAIL):
        for y in rail.up:
            marks.append(Line((view.at(rail.across[0], y), view.at(rail.across[1], y)), Pen.HIDDEN, "rail"))
    for division in _of(set_out, PartKind.DIVISION):
        for x in division.across:
            ends = view.at(x, division.up[0]), view.at(x, division.up[1])
            marks.append(Line(ends, Pen.HIDDEN, "division"))
    return tuple(marks)


def _seen(body: Body, view: View, pen: Pen, fill: Fill) -> Shape:
    """A part as it is seen from the room; of a leaf its face alone, as what is behind another is not."""
    corners = body.face_outline if body.kind.facts.stands is Stands.FACE else body.outline
    return Shape(tuple(view.at(*corner) for corner in corners), pen, fill, str(body.kind))


def _hung(leaf: Body, view: View, *, words: bool) -> list[Mark]:
    """The side a leaf hangs on: broken lines that meet there, its hinges, and the words."""
    near, foot, far, _ = leaf.face
    inward = 1.0
    if leaf.side == "right":
        near, far, inward = far, near, -1.0
    middle = view.at(near, (foot + _top(leaf, near)) / 2)
    ends = view.at(far, foot), view.at(far, _top(leaf, far))
    marks: list[Mark] = [Line((ends[0], middle, ends[1]), Pen.SWING, "swing")]
    for height in leaf.hinge_ys:
        x, y = view.at(near, height)
        marks.append(rectangle((x, y - 1.1), (x + inward * 0.9, y + 1.1), Pen.NONE, Fill.INK, role="hinge"))
    if not words:
        return marks
    return [*marks, *_leaf_words(leaf, view)]


def _row_marks(front: Body, view: View, *, words: bool) -> list[Mark]:
    """A flap's broken lines meet at its head, where its hinges are; what it is stands in a front where there is room."""
    marks: list[Mark] = []
    left, foot, right, top = front.face
    if front.kind is PartKind.FLAP:
        middle = view.at((left + right) / 2, top)
        marks.append(Line((view.at(left, foot), middle, view.at(right, foot)), Pen.SWING, "swing"))
        for at in front.hinge_xs:
            x, y = view.at(at, top)
            marks.append(rectangle((x - 1.1, y), (x + 1.1, y + 0.9), Pen.NONE, Fill.INK, role="hinge"))
    wide, high = (right - left) / view.scale, (top - foot) / view.scale
    if not words or high < LEAST_MM + 1.4 or wide < text_width_mm(front.label, LEAST_MM) + 2.4:
        return marks
    # A handle lies in the middle of a drawer front, and at the foot of a flap.
    across, up = (0.5, 0.3) if front.kind is PartKind.FLAP else (0.23, 0.5)
    middle = view.at(left + (right - left) * across, foot + (top - foot) * up)
    return [*marks, *on_plate(Text(*middle, front.label, role="leaf"), Fill.TINT, air=0.3)]


def _row_borings(set_out: SetOut, view: View) -> list[Mark]:
    """The holes in the backs of drawer fronts, flaps and aprons, seen through them; both sides are alike."""
    marks: list[Mark] = []
    for front in _of(set_out, *_FIXED):
        for bore in front.part.borings if front.part else ():
            x, y = view.at(front.across[1] - bore.x.value, front.up[1] - bore.y.value)
            radius = max(bore.diameter / 2 / view.scale, _LEAST_RING)
            marks.append(Circle(x, y, radius, Pen.FINE, role=f"boring {bore.kind}"))
    return marks


def _borings(set_out: SetOut, view: View) -> list[Mark]:
    """The holes in the back of each leaf, seen through it from the room."""
    marks: list[Mark] = []
    for leaf in _of(set_out, PartKind.DOOR):
        hinge, part = 0, leaf.part
        assert part is not None, "a leaf has its part"
        for bore in part.borings:
            # Borings are given as they are seen from the back, and from the edge of the tongue where there is one.
            x, y = view.at(leaf.across[1] - bore.x.value, leaf.up[1] - bore.y.value)
            asks = None
            if bore.kind == "cup":
                hinge, inward = hinge + 1, bore.in_from or bore.x
                words = f"hinge {hinge}: cup from the leaf's {part.datum}, and from its hinge edge"
                asks = Asked((from_datum(part, bore), inward), words, ((x, y),))
            radius = max(bore.diameter / 2 / view.scale, _LEAST_RING)
            marks.append(Circle(x, y, radius, Pen.FINE, role=f"boring {bore.kind}", asks=asks))
    return marks


def _top(leaf: Body, x: float) -> float:
    """Height of a leaf's corner at one of its sides."""
    return max(b for a, b in leaf.face_outline if abs(a - x) < 1e-6)


def _leaf_words(leaf: Body, view: View) -> list[Mark]:
    """Which leaf it is and the side it hangs on: level, turned, turned in one line, or not at all, as there is room."""
    pitch = LEAST_MM + 1.6
    left, foot, right, top = leaf.face
    wide, high = (right - left) / view.scale, (top - foot) / view.scale
    pair = (leaf.label, f"hung {leaf.side}")
    lines: tuple[str, ...] = pair
    longest = max(text_width_mm(word, LEAST_MM) for word in pair)
    upright = longest > wide - 2.4
    if upright and wide < 2 * pitch + 0.4:
        lines = (", ".join(pair),)
        longest = text_width_mm(lines[0], LEAST_MM)
    if upright and (wide < pitch or high < longest + 4.0):
        return []
    x, y = view.at((left + right) / 2, foot + (top - foot) * (0.30 if high > 2 * longest or not upright else 0.5))
    marks: list[Mark] = []
    for n, word in enumerate(lines):
        step = (n - (len(lines) - 1) / 2) * pitch
        place = (x + step, y) if upright else (x, y + step)
        marks += on_plate(Text(*place, word, upright=upright, role="leaf"), Fill.TINT, air=0.3)
    return marks


def draw_front(set_out: SetOut, name: str, *, room: tuple[float, float] = FRONT_ROOM_MM) -> Drawing:
    """Draw the elevation of a front with what is seen dimensioned.

    Parameters
    ----------
    set_out : SetOut
    name : str
        What it is a front of.
    room : tuple of float
        On paper, for the front alone. [mm]
    """
    bodies = set_out.assembly.bodies
    left, right = min(body.across[0] for body in bodies), max(body.across[1] for body in bodies)
    top, foot = max(body.up[1] for body in bodies), min(0.0, *(body.up[0] for body in bodies))
    scale = fitting_scale(right - left, top - foot, room, largest=5)
    view = View(scale, 0.0, 0.0, up=True)
    sill = bool(_of(set_out, PartKind.LINING_SILL))
    marks: list[Mark] = [*front_marks(set_out, view), *_borings(set_out, view), *_row_borings(set_out, view)]
    if not sill:
        marks += _floor(view, left, right)
    below = view.y(foot) + (1.6 if not sill else 0.0)
    marks += _across(set_out, view, below, left, right)
    if set_out.falls_to:
        marks += raked_sides(set_out, view, left, right)
    else:
        marks += _up(set_out, view, left, right, foot, top)
    box = box_of(marks)
    marks += scale_bar(box.left, box.bottom + 4.0, scale)
    words = f"Front of {name}: {_counted(set_out)}"
    return Drawing.around(marks, title=f"{words}, seen from the room", scale=scale)


def _counted(set_out: SetOut) -> str:
    """The leaves of a front, and its rows from the floor up where it is divided."""
    leaves = f"{set_out.leaves} leaves" if set_out.leaves > 1 else "one leaf"
    if not set_out.rows:
        return leaves
    texts = [
        leaves if row.kind == "leaves" else {"drawer": "drawer front"}.get(row.kind, row.kind) for row in set_out.rows
    ]
    return f"{', '.join(texts)} from the floor up"


def _floor(view: View, left: float, right: float) -> list[Mark]:
    """The finished floor: a strong line with a strip of hatching under it."""
    start, stop, y = view.x(left) - 4.0, view.x(right) + 4.0, view.y(0.0)
    strip = ((start, y), (stop, y), (stop, y + 1.5), (start, y + 1.5))
    return [*hatch(strip, step=1.2, role="floor"), Line(((start, y), (stop, y)), Pen.CUT, "floor")]


def _surround(set_out: SetOut) -> Surround:
    """What the leaves are seen between."""
    return family_named(set_out.family).surround


def _boundaries(set_out: SetOut) -> tuple[float, float]:
    """What the leaves are seen between: the trim where they lie on within it, else the lining."""
    if _surround(set_out) is Surround.NOTHING:
        return 0.0, set_out.outer_width.value
    kind = PartKind.TRIM_LEG if _surround(set_out) is Surround.TRIM else PartKind.LINING_LEG
    left, right = _of(set_out, kind)
    return left.across[1], right.across[0]


def _beside(set_out: SetOut, *, over: bool = False) -> Measure:
    """The gap between the leaves and what they are seen between, at the sides or over them."""
    around = _surround(set_out)
    return set_out.dimension(around.over if over else around.beside)


def _spans(stops: Sequence[float], sizes: Sequence[Measure], place: View, *, up: bool) -> list[Span]:
    """A span from each stop to the next, with the size that it shows."""
    results: list[Span] = []
    for (a, b), size in zip(pairwise(stops), sizes, strict=True):
        if b - a > 1e-6:
            ends = sorted((place.y(a), place.y(b)) if up else (place.x(a), place.x(b)))
            results.append(Span(ends[0], ends[1], short(b - a), size))
    return results


def _placed(set_out: SetOut, kind: PartKind) -> Part:
    return next(placed.part for placed in set_out.parts if placed.part.kind is kind)


def _over_the_trim(set_out: SetOut) -> tuple[Measure, Measure]:
    """Width and height over the trim, from the sight size inside it."""
    trim = _placed(set_out, PartKind.TRIM_LEG).width
    rails = len(_of(set_out, PartKind.TRIM_HEAD))
    width = _width_over_the_trim(set_out)
    height = set_out.dimension(DimensionName.SIGHT_HEIGHT) + (trim if rails == 1 else 2 * trim)
    return width, height.named("height over the trim")


def _width_over_the_trim(set_out: SetOut) -> Measure:
    trim = _placed(set_out, PartKind.TRIM_LEG).width
    return (set_out.dimension(DimensionName.SIGHT_WIDTH) + 2 * trim).named("width over the trim")


def _across(set_out: SetOut, view: View, below: float, left: float, right: float) -> list[Mark]:
    """Margins, leaves and gaps in a row; under it the lining, and the front over its trim."""
    leaves = _of(set_out, PartKind.DOOR) or _of(set_out, *_FIXED)[:1]
    start, stop = _boundaries(set_out)
    stops = [start, *(x for leaf in leaves for x in (leaf.face[0], leaf.face[2])), stop]
    margin = _beside(set_out)
    sizes = [margin, set_out.leaf_sizes[0].width if set_out.leaf_sizes else set_out.leaf_width]
    for size in set_out.leaf_sizes[1:]:
        sizes += [set_out.dimension(DimensionName.MEETING_GAP), size.width]
    sizes.append(margin)
    marks: list[Mark] = list(
        chain(
            "x",
            _spans(stops, sizes, view, up=False),
            line=below + _FIRST,
            feature=below,
            low=view.x(0.0) + 0.8,
            high=view.x(set_out.outer_width.value) - 0.8,
        )
    )
    line = below + _FIRST + _NEXT + 2.0
    outer = set_out.outer_width.value
    divisions = _divisions(set_out, view, line, below)
    if divisions:
        marks += divisions
        line += _NEXT + 5.0
    lining = Span(view.x(0.0), view.x(outer), f"lining {short(outer)}", set_out.outer_width)
    marks += dimension("x", lining, line=line, feature=below)
    panels = set_out.find(DimensionName.OVER_END_PANELS)
    if panels is not None:
        span = Span(view.x(left), view.x(right), f"over the end panels {short(right - left)}", panels)
        marks += dimension("x", span, line=line + _NEXT - 2.0, feature=below)
    elif left < 0:
        span = Span(view.x(left), view.x(right), f"over the trim {short(right - left)}", _width_over_the_trim(set_out))
        marks += dimension("x", span, line=line + _NEXT - 2.0, feature=below)
    return marks


def _divisions(set_out: SetOut, view: View, line: float, feature: float) -> tuple[Mark, ...]:
    """Where the boards of a division stand: their left faces, running from the inside of the left-hand leg."""
    if not set_out.divisions:
        return ()
    zero = view.x((set_out.outer_width.value - set_out.clear_width.value) / 2)
    readings = [Reading(zero + view.x(m.value), short(m.value), of=m) for m in set_out.divisions]
    name = Text(readings[-1].at + 7.0, line + 3.4, "division, left face", anchor="start", role="dimension name")
    return (*running("x", zero, readings, line=line, feature=feature), name)


def _up(set_out: SetOut, view: View, left: float, right: float, foot: float, top: float) -> list[Mark]:
    """Gaps and leaf on the left; the lining, and the front over its trim, on the right."""
    heads, sills = _of(set_out, PartKind.LINING_HEAD), _of(set_out, PartKind.LINING_SILL)
    under = sills[0].up[1] if sills else 0.0
    over = heads[0].up[0]
    if _surround(set_out) is Surround.NOTHING:
        over, under = set_out.outer_height.value, 0.0
    if _surround(set_out) is Surround.TRIM:
        trims = _of(set_out, PartKind.TRIM_HEAD)
        over = max(t.up[0] for t in trims)
        if sills:
            under = min(t.up[1] for t in trims)
    if not sills:
        under += raised_mm(set_out)
    rows = [(row.foot, row.height) for row in set_out.rows] or [
        (leaf.face[1], set_out.leaf_height) for leaf in _of(set_out, PartKind.DOOR)[:1]
    ]
    stops = [under, *(y for foot, high in rows for y in (foot, foot + high.value)), over]
    sizes = [set_out.dimension(DimensionName.GAP_UNDER), rows[0][1]]
    for _, high in rows[1:]:
        sizes += [set_out.dimension(DimensionName.ROW_GAP), high]
    sizes.append(_beside(set_out, over=True))
    marks: list[Mark] = list(
        chain("y", _spans(stops, sizes, view, up=True), line=view.x(left) - _FIRST, feature=view.x(left))
    )
    outer, edge = set_out.outer_height.value, view.x(right)
    lining = Span(view.y(outer), view.y(0.0), f"lining {short(outer)}", set_out.outer_height)
    marks += dimension("y", lining, line=edge + _FIRST, feature=edge)
    if top > outer:
        high = _over_the_trim(set_out)[1]
        span = Span(view.y(top), view.y(foot), f"over the trim {short(top - foot)}", high)
        marks += dimension("y", span, line=edge + _FIRST + _NEXT - 2.0, feature=edge)
    return marks
