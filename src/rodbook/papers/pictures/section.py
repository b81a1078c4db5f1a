"""A level cut through a front: its hinge side, and where the leaves meet or a single leaf closes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from rodbook.job.book import AnyBuildUp, InsetBuildUp, PlainLayOnBuildUp
from rodbook.papers.drawing.dimensions import Span, chain, leader
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import (
    Asked,
    Drawing,
    Fill,
    Line,
    Mark,
    Pen,
    Point,
    Shape,
    Text,
    box_of,
    break_line,
    on_plate,
    rectangle,
)
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import Joint, Part, PartKind, SetOut, given
from rodbook.working import Measure

__all__ = ["SECTION_ROOM_MM", "Across", "across", "draw_section"]

SECTION_ROOM_MM = (172.0, 110.0)
"""Room for the cut, dimensions along its width included. [mm]"""

_WALL_MM, _LEAF_MM, _HALF_MM = 12.0, 62.0, 52.0
"""Shown of the wall beyond the trim, of a leaf at its hinge side, and of each leaf where two meet. [mm, real]"""

_LEAST_DEPTH_MM, _MOST_DEPTH_MM, _BEHIND_MM, _WORTH_CUTTING_MM = 64.0, 140.0, 16.0, 20.0
"""A lining is shown to this depth at least and at most, and so far behind what stands on it; more of it is cut off only
where that much is saved. [mm, real]"""

_BETWEEN = 9.0
"""Between the two halves of the drawing. [mm on paper]"""


@dataclass(frozen=True)
class Across:
    """A front from its side inwards. [mm, real]

    x runs from the lining's outer face towards the leaf; y from the wall's face towards the room.

    Parameters
    ----------
    lining, depth : float
        Thickness and depth of the lining.
    carrier : float
        Thickness of the hinge lining; 0 for none.
    carrier_back, carrier_front : float
        Where the hinge lining starts and ends in depth.
    leaf_x : float
        Edge of the leaf.
    leaf_back, leaf_front : float
        Its faces.
    trim_x : float
        Inner edge of the trim.
    trim, trim_thickness : float
        0 for none.
    stops : tuple of (float, float, str, Measure)
        What is dimensioned: from, to, what it is called there, and the size itself.
    sizes : mapping of str to tuple of Measure
        Sizes that are written into each thing cut through.
    front : str
        What the front is at its side: a leaf, or what there is without leaves.
    """

    lining: float
    depth: float
    carrier: float
    carrier_back: float
    carrier_front: float
    leaf_x: float
    leaf_back: float
    leaf_front: float
    trim_x: float
    trim: float
    trim_thickness: float
    stops: tuple[tuple[float, float, str, Measure], ...]
    sizes: Mapping[str, tuple[Measure, ...]]
    front: str = "leaf"


_FRONTS = (PartKind.DOOR, PartKind.DRAWER_FRONT, PartKind.FLAP)
"""What stands at the side of a front: the leaf, or what is there without leaves."""


def _part(set_out: SetOut, kind: PartKind) -> Part | None:
    return next((placed.part for placed in set_out.parts if placed.part.kind is kind), None)


def across(set_out: SetOut, build_up: AnyBuildUp) -> Across:
    """Where everything lies across a front's side.

    Parameters
    ----------
    set_out : SetOut
    build_up : AnyBuildUp
        Of that set-out.
    """
    leg = _part(set_out, PartKind.LINING_LEG)
    leaf = next(filter(None, (_part(set_out, kind) for kind in _FRONTS)), None)
    assert leg is not None
    assert leaf is not None
    trim, carrier = _part(set_out, PartKind.TRIM_LEG), _part(set_out, PartKind.HINGE_LINING)
    lining, thick = leg.thickness.value, leaf.thickness.value
    carried = carrier.thickness.value if carrier else 0.0
    deep = carrier.width.value if carrier else 0.0
    trim_width, trim_thick = (trim.width.value, trim.thickness.value) if trim else (0.0, 0.0)
    if isinstance(build_up, InsetBuildUp):
        side = set_out.dimension("margin at each side")
        leaf_x, leaf_back, leaf_front = lining + side.value, -thick, 0.0
        trim_x = lining - build_up.trim_set_back
        stops = [(lining, leaf_x, "margin", side)]
        if trim:
            bearing = set_out.dimension("bearing of the trim on the lining")
            set_back = given(build_up, build_up.trim_set_back, "trim set-back")
            stops = [(0.0, trim_x, "bearing", bearing), (trim_x, lining, "set back", set_back), *stops]
        if carrier:
            lap = set_out.dimension("lap of the leaf over the hinge lining")
            stops.append((leaf_x, lining + carried, "lap", lap))
        carrier_front = -thick
    elif isinstance(build_up, PlainLayOnBuildUp):
        lap, reveal = set_out.dimension("lap over each leg"), set_out.dimension("reveal at each side")
        leaf_x, leaf_back, leaf_front = lining - lap.value, 0.0, thick
        trim_x, carrier_front = leaf_x, 0.0
        stops = [(0.0, leaf_x, "reveal", reveal), (leaf_x, lining, "lap", lap)]
    else:
        lap, margin = set_out.dimension("lap over each leg"), set_out.dimension("margin to the trim")
        bearing = set_out.dimension("bearing of the trim on the lining")
        leaf_x, leaf_back, leaf_front = lining + carried - lap.value, 0.0, thick
        trim_x = leaf_x - margin.value
        stops = [(0.0, trim_x, "bearing", bearing), (trim_x, leaf_x, "margin", margin),
                 (leaf_x, lining + carried, "lap", lap)]  # fmt: skip
        carrier_front = 0.0
    division = _part(set_out, PartKind.DIVISION)
    sizes = {"lining": (leg.thickness, leg.width), "leaf": (leaf.thickness,)}
    sizes |= {
        name: (part.thickness, part.width)
        for name, part in (("hinge lining", carrier), ("division", division)) if part
    }  # fmt: skip
    if trim:
        sizes["trim"] = trim.width, trim.thickness
    return Across(
        lining, leg.width.value, carried, carrier_front - deep, carrier_front, leaf_x, leaf_back, leaf_front, trim_x,
        trim_width, trim_thick, tuple(stop for stop in stops if stop[1] - stop[0] > 1e-6), sizes,
        "leaf" if leaf.kind is PartKind.DOOR else str(leaf.kind),
    )  # fmt: skip


class _Sheet:
    """Collects the marks of a section; `x` turns a distance from the lining's outer face into a place on paper."""

    def __init__(self, scale: int, x: Callable[[float], float]) -> None:
        self.scale, self.x = scale, x
        self.marks: list[Mark] = []

    def y(self, real: float) -> float:
        return real / self.scale

    def box(self, x1: float, x2: float, y1: float, y2: float) -> tuple[Point, Point]:
        return (self.x(x1), self.y(y1)), (self.x(x2), self.y(y2))

    def board(self, x1: float, x2: float, y1: float, y2: float, *, angle: float, role: str, broken: str = "") -> None:
        """Something cut through: hatched, with a strong outline; `broken` names the side where it goes on."""
        shape = rectangle(*self.box(x1, x2, y1, y2), Pen.CUT, Fill.PAPER, role=role)
        a, b, c, d = shape.points
        self.marks += [Shape(shape.points, Pen.NONE, Fill.PAPER), *hatch(shape.points, angle=angle, step=2.0)]
        if not broken:
            self.marks.append(Shape(shape.points, Pen.CUT, Fill.NONE, role))
        elif broken == "far":
            self.marks += [Line((b, a, d, c), Pen.CUT, role), break_line(b, c)]
        elif broken == "back":
            self.marks += [Line((a, d, c, b), Pen.CUT, role), break_line(a, b)]
        else:
            self.marks += [Line((a, b, c, d), Pen.CUT, role), break_line(a, d)]

    def name(self, words: str, x1: float, x2: float, y1: float, y2: float, *sizes: Measure) -> None:
        """Name with its sizes in the middle, turned where it does not fit level, and left out where it fits neither way."""
        (left, top), (right, foot) = self.box(x1, x2, y1, y2)
        wide, high = abs(right - left), abs(foot - top)
        needed = text_width_mm(words, LEAST_MM) + 2.0
        if needed <= wide and high >= LEAST_MM + 1.4:
            upright = False
        elif needed <= high and wide >= LEAST_MM + 1.4:
            upright = True
        else:
            return
        middle = (left + right) / 2, (top + foot) / 2
        asks = Asked(sizes, _name_of(words, sizes), (middle,)) if sizes else None
        text = Text(*middle, words, upright=upright, role="part name", asks=asks)
        self.marks += on_plate(text, air=0.4)


def _name_of(words: str, sizes: tuple[Measure, ...]) -> str:
    """What the sizes are that stand in a thing cut through."""
    if len(sizes) == 1:
        return ""
    return f"{words.rstrip('.0123456789 ×')}, " + (
        "width and thickness" if words.startswith("trim") else "thickness and width"
    )


def draw_section(
    set_out: SetOut, build_up: AnyBuildUp, name: str, *, packer_mm: float, packer_words: str,
    packer_asks: Asked | None = None,
) -> Drawing:  # fmt: skip
    """Draw a level cut, the room at the foot of the page.

    Parameters
    ----------
    set_out : SetOut
    build_up : AnyBuildUp
    name : str
        What it is a section of.
    packer_mm : float
        Packing drawn. [mm]
    packer_words : str
        What is written there: "packer 4 to 9.5".
    packer_asks : Asked, optional
        How that comes about.
    """
    found = across(set_out, build_up)
    wall = max(found.trim - found.trim_x, packer_mm) + _WALL_MM
    side = wall + found.leaf_x + _LEAF_MM
    paired = set_out.leaves > 1
    other = 2 * _HALF_MM if paired else side
    shown_deep = _shown_depth(found, _part(set_out, PartKind.DIVISION))
    deep = shown_deep + max(found.trim_thickness, found.leaf_front) + 14.0
    room = (SECTION_ROOM_MM[0] - _BETWEEN, SECTION_ROOM_MM[1] - 22.0)
    scale = fitting_scale(side + other, deep, room, largest=2)
    shown_to = found.leaf_x + _LEAF_MM
    sheet = _Sheet(scale, lambda real: real / scale)
    packer = (packer_mm, packer_words, packer_asks)
    _side(sheet, found, wall, shown_to, shown_deep, packer)
    marks = sheet.marks
    start = sheet.x(shown_to) + _BETWEEN
    if paired:
        marks += _meeting(set_out, found, scale, start, shown_deep)
    else:
        far = start + shown_to / scale
        closing = _Sheet(scale, lambda real: far - real / scale)
        _side(closing, found, wall, shown_to, shown_deep, packer, closing=True)
        marks += closing.marks
    box = box_of(marks)
    marks.append(
        Text(
            sheet.x(max(found.leaf_x, found.lining + found.carrier) + 8.0),
            sheet.y(-shown_deep) + 2.0,
            "inside",
            anchor="start",
            role="place",
        )
    )
    marks += scale_bar(box.left, box.bottom + 3.0, scale)
    marks.append(Text(box.right, box.bottom + 4.0, "room", anchor="end", role="place"))
    second = "meeting edge" if paired else "closing side"
    return Drawing.around(marks, title=f"Level section of {name}: hinge side and {second}", scale=scale)


def _shown_depth(found: Across, division: Part | None) -> float:
    """How much of the lining's depth is drawn; the rest is the same all the way and is broken off."""
    reach = max(-found.carrier_back, division.width.value - found.leaf_back if division else 0.0)
    shown = min(max(_LEAST_DEPTH_MM, reach + _BEHIND_MM), _MOST_DEPTH_MM)
    return shown if found.depth - shown >= _WORTH_CUTTING_MM else found.depth


def _side(
    sheet: _Sheet, found: Across, wall: float, shown_to: float, shown_deep: float,
    packer_drawn: tuple[float, str, Asked | None], *, closing: bool = False,
) -> None:  # fmt: skip
    """Wall, packer, lining, hinge lining, trim and leaf of one side; the closing side has no figures of its own."""
    back, (packer, words, packer_asks) = -shown_deep, packer_drawn
    sheet.marks += _wall(sheet, wall, packer, back - 10.0)
    (left, top), (right, foot) = sheet.box(-packer, 0.0, back + 4.0, -8.0)
    if packer > 0:
        sheet.marks += [
            rectangle((left, top), (right, foot), Pen.OUTLINE, Fill.PAPER, role="packer"),
            Line(((left, top), (right, foot)), Pen.FINE), Line(((left, foot), (right, top)), Pen.FINE),
        ]  # fmt: skip
    sheet.board(
        0.0, found.lining, back, 0.0, angle=45, role="lining", broken="back" if shown_deep < found.depth else ""
    )
    if found.carrier:
        ends = found.lining, found.lining + found.carrier
        reach = max(found.carrier_back, back)
        broken = "back" if reach > found.carrier_back else ""
        sheet.board(*ends, reach, found.carrier_front, angle=135, role="hinge lining", broken=broken)
        size = f"hinge lining {short(found.carrier)} × {short(found.carrier_front - found.carrier_back)}"
        sheet.name(size, *ends, reach, found.carrier_front, *found.sizes["hinge lining"])
    if found.trim:
        ends = found.trim_x - found.trim, found.trim_x
        sheet.board(*ends, 0.0, found.trim_thickness, angle=135, role="trim")
        size = f"trim {short(found.trim)} × {short(found.trim_thickness)}"
        sheet.name(size, *ends, 0.0, found.trim_thickness, *found.sizes["trim"])
    sheet.board(found.leaf_x, shown_to, found.leaf_back, found.leaf_front, angle=45 if found.leaf_front else 135,
                role="leaf", broken="far")  # fmt: skip
    thickness = short(found.leaf_front - found.leaf_back)
    sheet.name(
        f"{found.front} {thickness}", found.leaf_x, shown_to, found.leaf_back, found.leaf_front, *found.sizes["leaf"]
    )
    size = f"lining {short(found.lining)} × {short(found.depth)}"
    sheet.name(size, 0.0, found.lining, back, 0.0, *found.sizes["lining"])
    if closing:
        return
    front = sheet.y(max(found.trim_thickness, found.leaf_front))
    spans = [_span(sheet, a, b, f"{what} {short(b - a)}", size) for a, b, what, size in found.stops]
    sheet.marks += chain("x", spans, line=front + 5.0, feature=sheet.y(0.0))
    if packer > 0:
        sheet.marks += chain("x", [_span(sheet, -packer, 0.0, words, packer_asks)], line=sheet.y(back - 10.0) - 4.0,
                             feature=sheet.y(back) - 1.0)  # fmt: skip


def _span(sheet: _Sheet, a: float, b: float, figure: str, of: Measure | Asked | None) -> Span:
    ends = sorted((sheet.x(a), sheet.x(b)))
    return Span(ends[0], ends[1], figure, of)


def _wall(sheet: _Sheet, wall: float, packer: float, back: float) -> list[Mark]:
    """The wall or the timber that the lining is fixed to, going on at its far side and its back."""
    a, b = sheet.box(-wall, -packer, back, 0.0)
    corners = rectangle(a, b).points
    marks: list[Mark] = [*hatch(corners, step=4.2, angle=60, role="wall"),
                         Line((corners[1], corners[2], corners[3]), Pen.OUTLINE, "wall"),
                         break_line(corners[0], corners[3]), break_line(corners[0], corners[1])]  # fmt: skip
    middle = (sheet.x(-wall) + sheet.x(-packer)) / 2
    return [*marks, *on_plate(Text(middle, sheet.y(back / 2), "wall or frame", upright=True, role="part name"))]


def _tongue(set_out: SetOut) -> Measure | None:
    """Width of the second leaf's tongue, where the meeting edges are rebated."""
    return next((m for m in set_out.dimensions if m.name == "tongue of the second leaf"), None)


def _rebated(
    sheet: _Sheet, set_out: SetOut, ends: tuple[tuple[float, float], tuple[float, float]], faces: tuple[float, float],
    tongue: Measure,
) -> list[Mark]:  # fmt: skip
    """Two leaves whose edges lie over each other, each half as deep there; the first to open has the front half."""
    (start, left), (right, stop) = ends
    back, front = faces
    middle = (back + front) / 2
    first = next(
        p.part.hand for p in set_out.parts if p.part.kind is PartKind.DOOR and Joint.REBATED_BACK in p.part.joints
    )  # fmt: skip
    reach = tongue.value
    if first == "left":
        one = (
            (start, front),
            (left, front),
            (left, middle),
            (left - reach, middle),
            (left - reach, back),
            (start, back),
        )
        other = (
            (stop, front),
            (right, front),
            (right, middle),
            (right - reach, middle),
            (right - reach, back),
            (stop, back),
        )
    else:
        one = (
            (start, front),
            (left, front),
            (left, middle),
            (left + reach, middle),
            (left + reach, back),
            (start, back),
        )
        other = (
            (stop, front),
            (right, front),
            (right, middle),
            (right + reach, middle),
            (right + reach, back),
            (stop, back),
        )
    marks: list[Mark] = []
    for corners, angle in ((one, 135), (other, 45)):
        points = tuple((sheet.x(x), sheet.y(y)) for x, y in corners)
        marks += [
            Shape(points, Pen.NONE, Fill.PAPER),
            *hatch(points, angle=angle, step=2.0),
            Line(points, Pen.CUT, "leaf"),
        ]
        marks.append(break_line(points[0], points[-1]))
    return marks


def _meeting(set_out: SetOut, found: Across, scale: int, start: float, shown_deep: float) -> list[Mark]:
    """Where the first two leaves meet, with the division behind them where there is one."""
    meeting = set_out.dimension("meeting gap")
    gap = meeting.value
    sheet = _Sheet(scale, lambda real: start + real / scale)
    ends = (0.0, _HALF_MM - gap / 2), (_HALF_MM + gap / 2, 2 * _HALF_MM)
    faces = found.leaf_back, found.leaf_front
    thickness = short(found.leaf_front - found.leaf_back)
    division = _part(set_out, PartKind.DIVISION)
    if division is not None:
        thick = division.thickness.value
        boards = 2 if set_out.leaves == 4 else 1
        back = max(found.leaf_back - division.width.value, -shown_deep)
        broken = "back" if back > found.leaf_back - division.width.value else ""
        for n in range(boards):
            near = _HALF_MM - boards * thick / 2 + n * thick
            around = near, near + thick, back, found.leaf_back
            sheet.board(*around, angle=45 if n == 0 else 135, role="division", broken=broken)
            sheet.name(f"division {short(thick)} × {short(division.width.value)}", *around, *found.sizes["division"])
        place = set_out.divisions[0]  # as on the elevation: its left face, from the inside of the left-hand leg
        tip = sheet.x(_HALF_MM - boards * thick / 2), sheet.y(back)
        words = (f"left face {short(place.value)}", "from the left leg")
        sheet.marks += leader(
            tip, (tip[0] - 2.0, tip[1] - 7.0), words, toward="left", asks=Asked((place,), ends=(tip,))
        )
    tongue = _tongue(set_out)
    if tongue is None:
        sheet.board(*ends[0], *faces, angle=135, role="leaf", broken="near")
        sheet.board(*ends[1], *faces, angle=45, role="leaf", broken="far")
    else:
        sheet.marks += _rebated(sheet, set_out, ends, faces, tongue)
    for pair in ends:
        sheet.name(f"leaf {thickness}", *pair, *faces, *found.sizes["leaf"])
    strip = _part(set_out, PartKind.STRIP)
    outermost = max(found.trim_thickness, found.leaf_front)
    if strip is not None:
        half = strip.width.value / 2
        around = _HALF_MM - half, _HALF_MM + half, found.leaf_front, found.leaf_front + strip.thickness.value
        sheet.board(*around, angle=60, role="cover strip")
        outermost = max(outermost, around[3])
    front = sheet.y(outermost)
    span = _span(sheet, ends[0][1], ends[1][0], f"meeting gap {short(gap)}", meeting)
    return [*sheet.marks, *chain("x", [span], line=front + 5.0, feature=sheet.y(found.leaf_front))]
