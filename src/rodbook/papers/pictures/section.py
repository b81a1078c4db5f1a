"""A level cut through a front: its hinge side, and where the leaves meet or a single leaf closes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from rodbook.job.book import AnyBuildUp
from rodbook.late import late_library
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
from rodbook.papers.pictures.across import Across, Board, Meeting, across, meeting
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import Body, DimensionName, PartKind, SetOut
from rodbook.working import Measure

if TYPE_CHECKING:
    import shapely
else:
    shapely = late_library("shapely")

__all__ = ["SECTION_ROOM_MM", "draw_section"]

SECTION_ROOM_MM = (172.0, 110.0)
"""Room for the cut, dimensions along its width included. [mm]"""

_WALL_MM, _LEAF_MM, _HALF_MM = 12.0, 62.0, 52.0
"""Shown of the wall beyond the trim, of a leaf at its hinge side, and of each leaf where two meet. [mm, real]"""

_LEAST_DEPTH_MM, _MOST_DEPTH_MM, _BEHIND_MM, _WORTH_CUTTING_MM = 64.0, 140.0, 16.0, 20.0
"""A lining is shown to this depth at least and at most, and so far behind what stands on it; more of it is cut off only
where that much is saved. [mm, real]"""

_BETWEEN = 9.0
"""Between the two halves of the drawing. [mm on paper]"""


class _Sheet:
    """Collects the marks of a section; `x` turns a distance from the lining's outer face into a place on paper."""

    def __init__(self, scale: int, x: Callable[[float], float]) -> None:
        self.scale, self.x = scale, x
        self.marks: list[Mark] = []

    def y(self, real: float) -> float:
        return real / self.scale

    def box(self, x1: float, x2: float, y1: float, y2: float) -> tuple[Point, Point]:
        return (self.x(x1), self.y(y1)), (self.x(x2), self.y(y2))

    def board(self, board: Board, *, angle: float, role: str, broken: str = "") -> None:
        """Something cut through: hatched, with a strong outline; `broken` names the side where it goes on."""
        around = self.box(board.near, board.far, board.back, board.front)
        shape = rectangle(*around, Pen.CUT, Fill.PAPER, role=role)
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

    def name(self, words: str, board: Board, *sizes: Measure, are: str = "") -> None:
        """Name with its sizes in the middle, turned where it does not fit level, and left out where it fits neither way.

        `are` says what the sizes are, where there is more than one.
        """
        (left, top), (right, foot) = self.box(board.near, board.far, board.back, board.front)
        wide, high = abs(right - left), abs(foot - top)
        needed = text_width_mm(words, LEAST_MM) + 2.0
        if needed <= wide and high >= LEAST_MM + 1.4:
            upright = False
        elif needed <= high and wide >= LEAST_MM + 1.4:
            upright = True
        else:
            return
        middle = (left + right) / 2, (top + foot) / 2
        asks = Asked(sizes, are, (middle,)) if sizes else None
        text = Text(*middle, words, upright=upright, role="part name", asks=asks)
        self.marks += on_plate(text, air=0.4)


def draw_section(
    set_out: SetOut,
    build_up: AnyBuildUp,
    name: str,
    *,
    packer_mm: float,
    packer_words: str,
    packer_asks: Asked | None = None,
) -> Drawing:
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
    result = across(set_out, build_up)
    wall = _wall_wide(result, packer_mm)
    side = wall + result.leaf.near + _LEAF_MM
    paired = set_out.leaves > 1
    other = 2 * _HALF_MM if paired else side
    shown_deep = _shown_depth(result, set_out)
    deep = shown_deep + result.ahead + 14.0
    room = (SECTION_ROOM_MM[0] - _BETWEEN, SECTION_ROOM_MM[1] - 22.0)
    scale = fitting_scale(side + other, deep, room, largest=2)
    shown_to = result.leaf.near + _LEAF_MM
    sheet = _Sheet(scale, lambda real: real / scale)
    packer = (packer_mm, packer_words, packer_asks)
    _side(sheet, result, wall, shown_to, shown_deep, packer)
    marks = sheet.marks
    start = sheet.x(shown_to) + _BETWEEN
    if paired:
        marks += _meeting(set_out, scale, start, shown_deep)
    else:
        far = start + shown_to / scale
        closing = _Sheet(scale, lambda real: far - real / scale)
        beyond = across(set_out, build_up, "right")
        _side(closing, beyond, _wall_wide(beyond, packer_mm), shown_to, shown_deep, packer, closing=True)
        marks += closing.marks
    box = box_of(marks)
    marks.append(
        Text(
            sheet.x(max(result.leaf.near, (result.carrier or result.lining).far) + 8.0),
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


def _wall_wide(result: Across, packer_mm: float) -> float:
    """How much of the wall is drawn: past the trim and the packing."""
    return max(-result.trim.near if result.trim else 0.0, packer_mm) + _WALL_MM


def _shown_depth(result: Across, set_out: SetOut) -> float:
    """How much of the lining's depth is drawn; the rest is the same all the way and is broken off."""
    behind = [body.deep[0] for body in set_out.assembly.of(PartKind.DIVISION)]
    reach = max(-result.carrier.back if result.carrier else 0.0, *(-back for back in behind), 0.0)
    shown = min(max(_LEAST_DEPTH_MM, reach + _BEHIND_MM), _MOST_DEPTH_MM)
    depth = -result.lining.back
    return shown if depth - shown >= _WORTH_CUTTING_MM else depth


def _side(
    sheet: _Sheet,
    result: Across,
    wall: float,
    shown_to: float,
    shown_deep: float,
    packer_drawn: tuple[float, str, Asked | None],
    *,
    closing: bool = False,
) -> None:
    """Wall, packer, lining, hinge lining, trim and leaf of one side; the closing side has no figures of its own."""
    back, (packer, words, packer_asks) = -shown_deep, packer_drawn
    sheet.marks += _wall(sheet, wall, packer, back - 10.0)
    (left, top), (right, foot) = sheet.box(-packer, 0.0, back + 4.0, -8.0)
    if packer > 0:
        sheet.marks += [
            rectangle((left, top), (right, foot), Pen.OUTLINE, Fill.PAPER, role="packer"),
            Line(((left, top), (right, foot)), Pen.FINE),
            Line(((left, foot), (right, top)), Pen.FINE),
        ]
    leg = _cut_off(result.lining, back)
    sheet.board(leg, angle=45, role="lining", broken="back" if leg.back > result.lining.back else "")
    if result.carrier:
        carrier = _cut_off(result.carrier, back)
        sheet.board(
            carrier, angle=135, role="hinge lining", broken="back" if carrier.back > result.carrier.back else ""
        )
        _sized(sheet, "hinge lining", carrier)
    if result.trim:
        trim = result.trim
        sheet.board(trim, angle=135, role="trim")
        words_of = f"trim {short(trim.width.value)} × {short(trim.thickness.value)}"
        sheet.name(words_of, trim, trim.width, trim.thickness, are="trim, width and thickness")
    leaf = replace(result.leaf, far=shown_to)
    sheet.board(leaf, angle=45 if leaf.front else 135, role="leaf", broken="far")
    kind = leaf.body.kind
    front = "leaf" if kind is PartKind.DOOR else str(kind)
    sheet.name(f"{front} {short(leaf.thickness.value)}", leaf, leaf.thickness)
    _sized(sheet, "lining", leg)
    if closing:
        return
    front_line = sheet.y(result.ahead)
    spans = [_span(sheet, a, b, f"{what} {short(b - a)}", size) for a, b, what, size in result.stops]
    sheet.marks += chain("x", spans, line=front_line + 5.0, feature=sheet.y(0.0))
    if packer > 0:
        sheet.marks += chain(
            "x",
            [_span(sheet, -packer, 0.0, words, packer_asks)],
            line=sheet.y(back - 10.0) - 4.0,
            feature=sheet.y(back) - 1.0,
        )


def _cut_off(board: Board, back: float) -> Board:
    """A board as far back as is drawn."""
    return replace(board, back=max(board.back, back))


def _sized(sheet: _Sheet, word: str, board: Board) -> None:
    """The name of an upright board with its thickness and its width, front to back."""
    words = f"{word} {short(board.thickness.value)} × {short(board.width.value)}"
    sheet.name(words, board, board.thickness, board.width, are=f"{word}, thickness and width")


def _span(sheet: _Sheet, a: float, b: float, figure: str, of: Measure | Asked | None) -> Span:
    ends = sorted((sheet.x(a), sheet.x(b)))
    return Span(ends[0], ends[1], figure, of)


def _wall(sheet: _Sheet, wall: float, packer: float, back: float) -> list[Mark]:
    """The wall or the timber that the lining is fixed to, going on at its far side and its back."""
    a, b = sheet.box(-wall, -packer, back, 0.0)
    corners = rectangle(a, b).points
    marks: list[Mark] = [
        *hatch(corners, step=4.2, angle=60, role="wall"),
        Line((corners[1], corners[2], corners[3]), Pen.OUTLINE, "wall"),
        break_line(corners[0], corners[3]),
        break_line(corners[0], corners[1]),
    ]
    middle = (sheet.x(-wall) + sheet.x(-packer)) / 2
    return [*marks, *on_plate(Text(middle, sheet.y(back / 2), "wall or frame", upright=True, role="part name"))]


def _leaf_cut(sheet: _Sheet, met: Meeting, leaf: Body, ends: tuple[float, float], *, angle: float, broken: str) -> None:
    """A leaf cut through beside its gap, its tongue or its rebate with it; `broken` names the end where it goes on."""
    pieces = [
        shapely.box(x1 - met.middle, z1, x2 - met.middle, z2) for (x1, z1), _, (x2, z2), _ in leaf.level(met.height)
    ]
    around = shapely.unary_union(pieces).intersection(shapely.box(min(ends), -_FAR_MM, max(ends), _FAR_MM))
    assert isinstance(around, shapely.Polygon)
    corners = [(float(x), float(z)) for x, z in shapely.orient_polygons(around).exterior.coords[:-1]]
    gone = ends[0] if broken == "near" else ends[1]
    at = next(n for n, (x, _) in enumerate(corners) if x == gone and corners[n - 1][0] == gone)
    open_line = [*corners[at:], *corners[:at]]
    points = tuple((sheet.x(x + _HALF_MM), sheet.y(z)) for x, z in open_line)
    sheet.marks += [
        Shape(points, Pen.NONE, Fill.PAPER),
        *hatch(points, angle=angle, step=2.0),
        Line(points, Pen.CUT, "leaf"),
        break_line(points[0], points[-1]),
    ]


_FAR_MM = 1000.0
"""Further than anything of a front stands before or behind the lining's front edge. [mm]"""


def _meeting(set_out: SetOut, scale: int, start: float, shown_deep: float) -> list[Mark]:
    """Where two leaves meet, with the division behind them where there is one."""
    gap, met = set_out.dimension(DimensionName.MEETING_GAP), meeting(set_out)
    sheet = _Sheet(scale, lambda real: start + real / scale)
    for number, board in enumerate(met.divisions):
        shown = _cut_off(replace(board, near=board.near + _HALF_MM, far=board.far + _HALF_MM), -shown_deep)
        sheet.board(
            shown, angle=45 if number == 0 else 135, role="division", broken="back" if shown.back > board.back else ""
        )
        _sized(sheet, "division", shown)
        if number == 0:
            place = set_out.divisions[0]  # as on the elevation: its left face, from the inside of the left-hand leg
            tip = sheet.x(shown.near), sheet.y(shown.back)
            words = (f"left face {short(place.value)}", "from the left leg")
            sheet.marks += leader(
                tip, (tip[0] - 2.0, tip[1] - 7.0), words, toward="left", asks=Asked((place,), ends=(tip,))
            )
    one, other = met.leaves
    _leaf_cut(sheet, met, one, (-_HALF_MM, _HALF_MM), angle=135, broken="near")
    _leaf_cut(sheet, met, other, (-_HALF_MM, _HALF_MM), angle=45, broken="far")
    edges = one.face[2] - met.middle + _HALF_MM, other.face[0] - met.middle + _HALF_MM
    for leaf, (near, far) in ((one, (0.0, edges[0])), (other, (edges[1], 2 * _HALF_MM))):
        board = Board(near, far, *leaf.deep, leaf)
        sheet.name(f"leaf {short(board.thickness.value)}", board, board.thickness)
    outermost = max(body.deep[1] for body in set_out.assembly.of(PartKind.DOOR, PartKind.TRIM_LEG))
    if met.strip is not None:
        strip = replace(met.strip, near=met.strip.near + _HALF_MM, far=met.strip.far + _HALF_MM)
        sheet.board(strip, angle=60, role="cover strip")
        outermost = max(outermost, strip.front)
    span = _span(sheet, *edges, f"meeting gap {short(edges[1] - edges[0])}", gap)
    return [*sheet.marks, *chain("x", [span], line=sheet.y(outermost) + 5.0, feature=sheet.y(one.deep[1]))]
