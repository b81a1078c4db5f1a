"""A small raked front in its wall, with what packs it out: level at the sides, square to the slope over the head."""

from __future__ import annotations

import math

from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Drawing, Fill, Line, Mark, Pen, Shape, Text, View, box_of, on_plate, rectangle
from rodbook.papers.drawing.scales import scale_bar
from rodbook.papers.drawing.spread import spread
from rodbook.papers.pictures.front import front_marks
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import SetOut
from rodbook.sizes import Packers

__all__ = ["draw_raked_packing"]

_GAP, _WALL = 2.2, 14.0
"""Gap drawn around the lining, larger than life, and the wall drawn around that. [mm on paper]"""


def _tenth(value: float) -> str:
    return short(round(value, 1))


def draw_raked_packing(set_out: SetOut, packers: Packers, mark: str, view: View) -> Drawing:
    """Draw a raked front in its opening, without its trim.

    Parameters
    ----------
    set_out : SetOut
        Under a raked head.
    packers : Packers
    mark : str
        Of the opening.
    view : View
    """
    assert set_out.outer_low is not None
    high, low = set_out.outer_height.value, set_out.outer_low.value
    left, right = (high, low) if set_out.falls_to == "right" else (low, high)
    across = view.x(set_out.outer_width.value)
    tops = view.y(left), view.y(right)
    slope = (tops[1] - tops[0]) / across
    plumb = _GAP * math.hypot(1, slope)

    def head(x: float) -> float:
        return tops[0] + slope * x

    a, b = -_GAP, across + _GAP
    roof = min(tops) - plumb - 7.0
    hole = (b, 0.0), (b, head(b) - plumb), (a, head(a) - plumb), (a, 0.0)
    wall = (a - _WALL, 0.0), (a - _WALL, roof), (b + _WALL, roof), (b + _WALL, 0.0), *hole
    marks: list[Mark] = [*hatch(wall, step=3.2, angle=60, role="wall"), Line(hole, Pen.OUTLINE, "wall")]
    marks += front_marks(set_out, view, words=False, trim=False)
    for x, out, top, figures in ((a, -1.0, tops[0], packers.left_mm), (across, 1.0, tops[1], packers.right_mm)):
        places = (-4.0, top / 2, top + 5.0)
        spots = spread(places, [LEAST_MM + 1.4] * 3, high=-1.0)
        for y, spot, figure in zip(places, spots, figures, strict=True):
            marks.append(rectangle((x, y - 1.4), (x + _GAP, y + 1.4), Pen.NONE, Fill.INK, role="packer"))
            at = a - 1.6 if out < 0 else b + 1.6
            text = Text(at, spot, _tenth(figure), anchor="end" if out < 0 else "start", role="packer figure")
            marks += on_plate(text, air=0.5)
    half = min(1.4, across / 12)
    wanted = [across * share for share in (0.12, 0.5, 0.88)]
    written = [_tenth(figure) for figure in packers.head_mm]
    spots = spread(wanted, [text_width_mm(figure, LEAST_MM) + 1.4 for figure in written], gap=0.8)
    for x, spot, words in zip(wanted, spots, written, strict=True):
        ends = (x - half, x + half)
        corners = [(e, head(e)) for e in ends] + [(e, head(e) - plumb) for e in reversed(ends)]
        marks.append(Shape(tuple(corners), Pen.NONE, Fill.INK, "packer"))
        over = min(head(spot), head(x)) - plumb - 4.0
        marks += on_plate(Text(spot, over, words, role="packer figure"), air=0.5)
    marks.append(Line(((a - _WALL, 0.0), (b + _WALL, 0.0)), Pen.CUT, "floor"))
    box = box_of(marks)
    marks += scale_bar(max(box.left, (box.left + box.right) / 2 - 25), box.bottom + 3.0, view.scale)
    sentence = ", ".join(_tenth(mm) for mm in (*packers.left_mm, *packers.right_mm, *packers.head_mm))
    return Drawing.around(marks, title=f"Packers of {mark}: {sentence} mm", scale=view.scale)
