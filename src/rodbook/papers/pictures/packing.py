"""A small front in its wall, with what packs it out written where it goes; or the framed size with its spacers."""

from __future__ import annotations

from rodbook.papers.drawing.dimensions import Span, dimension
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Drawing, Fill, Line, Mark, Pen, Shape, Text, View, box_of, on_plate, rectangle
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.drawing.spread import spread
from rodbook.papers.pictures.front import front_marks
from rodbook.papers.pictures.part_faces import short
from rodbook.papers.pictures.raked_packing import draw_raked_packing
from rodbook.setout import PartKind, SetOut
from rodbook.sizes import FramedSize, Packers

__all__ = ["draw_framed", "draw_packing"]

_ROOM_MM = (36.0, 46.0)
"""Room for the lining. [mm]"""

_GAP, _WALL = 2.2, 14.0
"""Gap drawn around the lining, larger than life, and the wall drawn around that. [mm on paper]"""


def _tenth(value: float) -> str:
    """A packer to the tenth of a millimetre: nobody cuts them finer."""
    return short(round(value, 1))


def _view(set_out: SetOut) -> View:
    scale = fitting_scale(set_out.outer_width.value, set_out.outer_height.value, _ROOM_MM, largest=10)
    return View(scale, up=True)


def draw_packing(set_out: SetOut, packers: Packers, mark: str) -> Drawing:
    """Draw a front in its opening with the packers at foot, middle and head, and over the head.

    Parameters
    ----------
    set_out : SetOut
    packers : Packers
    mark : str
        Of the opening.
    """
    if set_out.falls_to:
        return draw_raked_packing(set_out, packers, mark, _view(set_out))
    view = _view(set_out)
    right, top = view.x(set_out.outer_width.value), view.y(set_out.outer_height.value)
    hole = (-_GAP, top - _GAP, right + _GAP)
    places = (-4.0, top / 2, top + 4.0)
    pitch = LEAST_MM + 1.4
    spots = spread(places, [pitch] * 3, high=-1.0)
    roof = min(hole[1] - LEAST_MM - 5.0, min(spots) - pitch)
    wall = (
        (-_GAP - _WALL, 0.0),
        (-_GAP - _WALL, roof),
        (right + _GAP + _WALL, roof),
        (right + _GAP + _WALL, 0.0),
        (hole[2], 0.0),
        (hole[2], hole[1]),
        (hole[0], hole[1]),
        (hole[0], 0.0),
    )
    marks: list[Mark] = [
        *hatch(wall, step=3.2, angle=60, role="wall"),
        Line((wall[4], wall[5], wall[6], wall[7]), Pen.OUTLINE, "wall"),
    ]
    marks += front_marks(set_out, view, words=False, trim=False)
    for y, spot, left_mm, right_mm in zip(places, spots, packers.left_mm, packers.right_mm, strict=True):
        for x, side, figure in ((-_GAP, -1.0, left_mm), (right, 1.0, right_mm)):
            marks.append(rectangle((x, y - 1.4), (x + _GAP, y + 1.4), Pen.NONE, Fill.INK, role="packer"))
            at = -_GAP - 1.6 if side < 0 else right + _GAP + 1.6
            text = Text(at, spot, _tenth(figure), anchor="end" if side < 0 else "start", role="packer figure")
            marks += on_plate(text, air=0.5)
    marks += _over_head(packers, right, top)
    marks.append(Line(((-_GAP - _WALL, 0.0), (right + _GAP + _WALL, 0.0)), Pen.CUT, "floor"))
    box = box_of(marks)
    marks += scale_bar(max(box.left, (box.left + box.right) / 2 - 25), box.bottom + 3.0, view.scale)
    figures = ", ".join(_tenth(mm) for mm in (*packers.left_mm, *packers.right_mm, *packers.head_mm))
    return Drawing.around(marks, title=f"Packers of {mark}: {figures} mm", scale=view.scale)


def _over_head(packers: Packers, right: float, top: float) -> list[Mark]:
    marks: list[Mark] = []
    figures = [_tenth(mm) for mm in packers.head_mm]
    widths = [text_width_mm(figure, LEAST_MM) + 1.4 for figure in figures]
    half = min(1.4, right / 12)
    wanted = [2.0 * half, right / 2, right - 2.0 * half]
    spots = spread(wanted, widths, gap=0.8)
    for x, spot, figure in zip(wanted, spots, figures, strict=True):
        marks.append(rectangle((x - half, top - _GAP), (x + half, top), Pen.NONE, Fill.INK, role="packer"))
        marks += on_plate(Text(spot, top - _GAP - 1.4 - LEAST_MM / 2 - 0.8, figure, role="packer figure"), air=0.5)
    return marks


def draw_framed(set_out: SetOut, framed: FramedSize, mark: str) -> Drawing:
    """Draw a front in the timbers that are to be framed around it, with the two spacers.

    Parameters
    ----------
    set_out : SetOut
    framed : FramedSize
    mark : str
        Of the opening.
    """
    view = _view(set_out)
    right, top = view.x(set_out.outer_width.value), view.y(set_out.outer_height.value)
    timber = 5.0
    foot = 2.4
    panels = {panel.side: panel for panel in set_out.assembly.of(PartKind.END_PANEL)}
    free_left, free_right = "left" in panels, "right" in panels
    left_at = view.x(panels["left"].across[0]) if free_left else -_GAP
    right_at = view.x(panels["right"].across[1]) if free_right else right + _GAP
    inner = (left_at, top - _GAP, right_at)
    marks: list[Mark] = []
    timbers = [((inner[0] - timber, inner[1] - timber), (inner[2] + timber, inner[1]))]
    if not free_left:
        timbers.append(((inner[0] - timber, inner[1]), (inner[0], foot)))
    if not free_right:
        timbers.append(((inner[2], inner[1]), (inner[2] + timber, foot)))
    for a, b in timbers:
        shape: Shape = rectangle(a, b, Pen.OUTLINE, Fill.NONE, role="timber")
        marks += [*hatch(shape.points, step=2.2, angle=60, role="timber"), shape]
    marks += front_marks(set_out, view, words=False, trim=False)
    marks.append(Line(((inner[0] - timber, foot), (inner[2] + timber, foot)), Pen.CUT, "structural floor"))
    marks.append(Line(((inner[0], 0.0), (inner[2], 0.0)), Pen.FINE, "finished floor"))
    width, height = (f"{short(m.value)}" for m in framed.spacers)
    marks += dimension(
        "x",
        Span(inner[0], inner[2], f"spacer {width}"),
        line=inner[1] - timber - 5.0,
        feature=inner[1] - timber,
        bold=True,
    )
    marks += dimension(
        "y",
        Span(inner[1], foot, f"spacer {height}"),
        line=inner[0] - timber - 5.0,
        feature=inner[0] - timber,
        bold=True,
    )
    box = box_of(marks)
    marks += scale_bar(box.left, box.bottom + 3.0, view.scale)
    title = f"Framed size of {mark}: {width} by {height} mm between the timbers"
    return Drawing.around(marks, title=title, scale=view.scale)
