"""Ends that are cut to an angle, enlarged: each with the angle that the saw is set to, and the section between them."""

from __future__ import annotations

import math

from rodbook.papers.drawing.dimensions import Span, dimension
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM
from rodbook.papers.drawing.model import Line, Mark, Pen, Text, box_of, break_line, moved, rectangle
from rodbook.papers.drawing.scales import fitting_scale, scale_text
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import Cut, Part, PartKind

__all__ = ["slanting_ends"]

_HIGH_MM = 16.0
"""Height of an enlarged end. [mm on paper]"""

_REACH_MM = 9.0
"""Shown of the part beyond its slant. [mm on paper]"""


def slanting_ends(part: Part) -> tuple[Mark, ...]:
    """Every end that is not cut square, side by side, and the section.

    An end mitred across the face shows the face, one bevelled through the thickness shows the edge. The cut is drawn as
    it lies on the saw: a square end would stand upright.
    """
    marks: list[Mark] = []
    left = 0.0
    scales: set[int] = set()
    for cut in part.cuts:
        drawn, scale = _end(part, cut)
        scales.add(scale)
        box = box_of(drawn)
        marks += moved(drawn, left - box.left, -box.top)
        left += box.width + 6.0
    section = _section(part)
    box = box_of(section)
    marks += moved(section, left - box.left, 0.0)
    foot = box_of(marks)
    words = f"ends, {', '.join(scale_text(scale) for scale in sorted(scales))}"
    marks.append(Text(foot.left, foot.bottom + 4.0, words, anchor="start", role="scale"))
    return tuple(marks)


def _upper(part: Part, cut: Cut) -> bool:
    """Whether the long point lies at the top of the drawing, in which the part lies with its top end to the left."""
    if cut.through == "thickness":
        return cut.long_point in ("outer face", "upper face")
    if part.kind is PartKind.TRIM_LEG:
        return (cut.long_point == "outer edge") != (part.hand == "left")
    return cut.long_point in ("outer edge", "upper edge")


def _end(part: Part, cut: Cut) -> tuple[list[Mark], int]:
    face = cut.through == "face"
    high_mm = part.width.value if face else part.thickness.value
    slant = high_mm * math.tan(math.radians(cut.degrees.value))
    scale = fitting_scale(slant + 1.0, high_mm, (32.0, _HIGH_MM), largest=1)
    high, run = high_mm / scale, slant / scale
    ends_left = cut.end in ("top", "left")
    reach = run + _REACH_MM
    upper = _upper(part, cut)
    start, stop = (0.0, run) if upper else (run, 0.0)
    points = [(reach, 0.0), (start, 0.0), (stop, high), (reach, high)]
    if not ends_left:
        points = [(reach - x, y) for x, y in points]
    far = points[0][0]
    marks: list[Mark] = [Line(tuple(points), Pen.OUTLINE, "end"), break_line((far, 0.0), (far, high))]
    if not face:
        corners = tuple(points)
        marks = [*hatch(corners), *marks]
    middle = reach / 2
    names = {"top": "top", "foot": "foot", "left": "left end", "right": "right end"}
    marks.append(Text(middle, high + LEAST_MM, f"{cut.degrees.value:.1f}°", bold=True, role="angle"))
    marks.append(Text(middle, high + 2 * LEAST_MM + 1.4, names[cut.end], role="end name"))
    if not face:
        up = "upper face up" if part.kind is PartKind.LINING_HEAD else "outer face up"
        for row, words in enumerate(("on edge,", up)):
            marks.append(Text(middle, high + (3 + row) * (LEAST_MM + 1.4) - 1.4, words, role="end name"))
    return marks, scale


def _section(part: Part) -> list[Mark]:
    scale = fitting_scale(part.thickness.value, min(part.width.value, 80.0), (12.0, _HIGH_MM), largest=2)
    tall = min(part.width.value, 80.0)
    high, deep = tall / scale, part.thickness.value / scale
    shape = rectangle((0.0, 0.0), (deep, high), Pen.CUT, role="section")
    marks: list[Mark] = [*hatch(shape.points)]
    if tall < part.width.value:
        marks += [
            Line(((0.0, 0.0), (0.0, high), (deep, high), (deep, 0.0)), Pen.CUT, "section"),
            break_line((0.0, 0.0), (deep, 0.0)),
        ]
    else:
        marks.append(shape)
    marks += dimension("y", Span(0.0, high, short(part.width.value), part.width), line=deep + 5.0, feature=deep)
    marks += dimension("x", Span(0.0, deep, short(part.thickness.value), part.thickness), line=high + 5.0, feature=high)
    return marks
