"""The corners of a part's face on paper, upright or lying, and its seen edges where they are not square."""

from __future__ import annotations

import math

from rodbook.papers.drawing.model import Line, Mark, Pen, Point, Text, View
from rodbook.papers.pictures.part_faces import leading_edge, marks_on
from rodbook.setout import Part

__all__ = ["bevel_marks", "face_corners", "lying_corners", "notched_corners", "seen_round", "slope_words"]


def bevel_marks(part: Part, view: View) -> list[Mark]:
    """Of a board that stands with its top bevelled: where its shorter face ends, as a broken line, and the angle."""
    marks: list[Mark] = []
    for cut in part.cuts:
        if cut.through == "thickness" and cut.end == "top":
            y = view.y(part.thickness.value * math.tan(math.radians(cut.degrees.value)))
            marks.append(Line(((0.0, y), (view.x(part.width.value), y)), Pen.HIDDEN, "bevel"))
            marks.append(Text(view.x(part.width.value) / 2, -2.6, f"{cut.degrees.value:.1f}°", role="angle"))
    return marks


def slope_words(part: Part, view: View) -> list[Mark]:
    """The angle of a sloping top edge, under its middle."""
    if not part.outline or not part.cuts:
        return []
    (x1, y1), (x2, y2) = part.outline[:2]
    x, y = view.at((x1 + x2) / 2, (y1 + y2) / 2)
    return [Text(x, y + 5.5, f"{part.cuts[0].degrees.value:.1f}°", role="angle")]


def face_corners(part: Part, view: View) -> tuple[Point, ...]:
    """Corners of a part that stands upright, from the top left one round."""
    width, length = part.width.value, part.length.value
    corners = part.outline or ((0.0, 0.0), (width, 0.0), (width, length), (0.0, length))
    if part.notch is not None:
        corners = notched_corners(part, left=leading_edge(part) == "left")
    return tuple(view.at(x, y) for x, y in corners)


def notched_corners(part: Part, *, left: bool) -> tuple[Point, ...]:
    """Corners of an upright whose foot is cut out at its front edge, from the top left one round; y down. [mm, real]"""
    assert part.notch is not None
    width, length = part.width.value, part.length.value
    deep, high = part.notch.deep.value, length - part.notch.high.value
    if left:
        return ((0.0, 0.0), (width, 0.0), (width, length), (deep, length), (deep, high), (0.0, high))
    return ((0.0, 0.0), (width, 0.0), (width, high), (width - deep, high), (width - deep, length), (0.0, length))


def lying_corners(part: Part, scale: int) -> tuple[Point, ...]:
    """Corners of a part that is laid along the page, its top (or left) end to the left."""
    corners = notched_corners(part, left=True) if part.notch is not None else part.outline
    return tuple((y / scale, (part.width.value - x) / scale) for x, y in corners)


def seen_round(corners: tuple[Point, ...], *, every: float = 60.0) -> tuple[Mark, ...]:
    """A pencilled V on every edge of an outline, its point on the edge; more than one on a long edge."""
    middle = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    marks: list[Mark] = []
    for (x1, y1), (x2, y2) in zip(corners, (*corners[1:], corners[0]), strict=True):
        reach = math.hypot(x2 - x1, y2 - y1)
        if reach < 1.0:
            continue
        ux, uy = (x2 - x1) / reach, (y2 - y1) / reach
        ox, oy = uy, -ux
        if (x1 - middle[0]) * ox + (y1 - middle[1]) * oy < 0:
            ox, oy = -ox, -oy
        count = marks_on(reach, every)
        for n in range(count):
            at = (n + 0.5) / count * reach
            x, y = x1 + ux * at + ox * 0.25, y1 + uy * at + oy * 0.25
            wings = [(x + ox * 2.0 + side * ux * 0.9, y + oy * 2.0 + side * uy * 0.9) for side in (-1, 1)]
            marks.append(Line((wings[0], (x, y), wings[1]), Pen.OUTLINE, "seen edge"))
    return tuple(marks)
