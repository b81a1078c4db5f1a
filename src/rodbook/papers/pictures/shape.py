"""An opening's shape from its readings: to scale, with what it is out of plumb, level and straight drawn larger than life."""

from __future__ import annotations

from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Anchor, Drawing, Mark, Pen, Point, Shape, Text, View, box_of, on_plate
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.drawing.spread import spread
from rodbook.papers.pictures.part_faces import short
from rodbook.survey import Shape as Outline

__all__ = ["draw_shape"]

_ROOM_MM = (60.0, 72.0)
"""Room for the opening. [mm on paper]"""

_MOST_MM = 7.0
"""What is out may be drawn so far out. [mm on paper]"""

_TIMES = (50, 20, 10, 5, 2, 1)
"""How many times larger than life what is out may be drawn."""

_MIDDLES = {"F": "AB", "R": "BC", "H": "DC", "L": "AD"}
"""Middles, and the corners that they lie between."""

_BOW_SAID_MM = 0.5
"""A middle that lies nearer to the line between its corners is not written (house assumption): it follows from them."""

_SIDES = {"left": "ALD", "right": "BRC", "floor": "AFB", "head": "DHC"}


def _ideal(shape: Outline) -> dict[str, Point]:
    """The upright opening that it would be: as wide as its floor, as high as its head's ends, or their mean where level."""
    at = {v.name: (v.x_mm, v.y_mm) for v in shape.vertices}
    wide = at["B"][0]
    left, right = at["D"][1], at["C"][1]
    if not shape.raked:
        left = right = (left + right) / 2
    ideal = {"A": (0.0, 0.0), "B": (wide, 0.0), "C": (wide, right), "D": (0.0, left)}
    for name, ends in _MIDDLES.items():
        (px, py), (qx, qy) = ideal[ends[0]], ideal[ends[1]]
        ideal[name] = ((px + qx) / 2, (py + qy) / 2)
    return ideal


def draw_shape(shape: Outline, mark: str) -> Drawing:
    """Draw a shape over the upright opening that it would be.

    Parameters
    ----------
    shape : Shape
        From the survey.
    mark : str
        Of the opening.
    """
    ideal = _ideal(shape)
    out = {v.name: (v.x_mm - ideal[v.name][0], v.y_mm - ideal[v.name][1]) for v in shape.vertices}
    straight = {
        name
        for name, ends in _MIDDLES.items()
        if name in out and all(abs(out[name][i] - sum(out[e][i] for e in ends) / 2) < _BOW_SAID_MM for i in (0, 1))
    }
    said_of = {name: place for name, place in out.items() if name not in straight}
    high = max(y for _, y in ideal.values())
    scale = fitting_scale(ideal["B"][0], high, _ROOM_MM, largest=10)
    most = max(max(abs(x), abs(y)) for x, y in out.values())
    times = next((n for n in _TIMES if most * n / scale <= _MOST_MM), 1)
    view = View(scale, up=True)
    drawn = {name: view.at(ideal[name][0] + times * x, ideal[name][1] + times * y) for name, (x, y) in out.items()}
    corners = tuple(view.at(*ideal[name]) for name in "ABCD")
    marks: list[Mark] = [
        Shape(corners, Pen.HIDDEN, role="upright and level"),
        Shape(tuple(drawn[v.name] for v in shape.vertices), Pen.CUT, role="shape"),
    ]
    marks += _figures(said_of, drawn)
    box = box_of(marks)
    words = "out of true as it is" if times == 1 else f"out of true drawn {times} times"
    marks.append(Text((box.left + box.right) / 2, box.bottom + 3.4, words, role="exaggeration"))
    marks += scale_bar(max(box.left, (box.left + box.right) / 2 - 25), box.bottom + 7.0, scale)
    text = ", ".join(
        f"{v.place} {short(round(abs(value), 1))} mm {way[value > 0]}"
        for v in shape.vertices
        if v.name in said_of
        for value, way in ((out[v.name][0], ("left", "right")), (out[v.name][1], ("low", "high")))
        if abs(value) >= _SAID_MM
    )
    title = f"Shape of {mark}, what is out of true drawn {times} times: {text or 'nothing is out of true'}"
    return Drawing.around(marks, title=title, scale=scale)


_SAID_MM = 0.05
"""Less than this is zero to the tenth."""


def _figures(out: dict[str, Point], drawn: dict[str, Point]) -> list[Mark]:
    """How far each point is out, beside it: across for the sides, up and down for floor and head."""
    marks: list[Mark] = []
    for side, names in _SIDES.items():
        across = side in ("left", "right")
        lines = [n for n in names if n in out and abs(out[n][0 if across else 1]) >= _SAID_MM]
        figures = [f"{abs(out[n][0 if across else 1]):.1f}" for n in lines]
        if across:
            reach = -2.2 if side == "left" else 2.2
            spots = spread([drawn[n][1] for n in reversed(lines)], [LEAST_MM + 1.0] * len(lines))[::-1]
            places = [(drawn[n][0] + reach, y) for n, y in zip(lines, spots, strict=True)]
        else:
            step = LEAST_MM / 2 + 1.8
            edge = max(drawn[n][1] for n in names if n in drawn) + step
            if side == "head":
                edge = min(drawn[n][1] for n in names if n in drawn) - step
            widths = [text_width_mm(figure, LEAST_MM) + 1.6 for figure in figures]
            places = [(x, edge) for x in spread([drawn[n][0] for n in lines], widths)]
        anchor: Anchor = {"left": "end", "right": "start"}.get(side, "middle")  # type: ignore[assignment]
        for (x, y), figure in zip(places, figures, strict=True):
            marks += on_plate(Text(x, y, figure, anchor=anchor, role="out of true"), air=0.3)
    return marks
