"""A plumb cut through the foot of a front: plinth, leaf, floor, and the upright behind them with its notch."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from rodbook.job.kinds import Stands, kinds_that
from rodbook.papers.drawing.dimensions import Span, chain, dimension
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import (
    Drawing,
    Fill,
    Line,
    Mark,
    Pen,
    Point,
    Shape,
    Text,
    View,
    box_of,
    break_line,
    on_plate,
)
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import Assembly, Body, DimensionName, PartKind, SetOut
from rodbook.working import Measure

__all__ = ["FOOT_ROOM_MM", "draw_foot"]

FOOT_ROOM_MM = (70.0, 62.0)
"""Room for the cut, without its dimensions. [mm]"""

_ABOVE_MM, _BEHIND_MM, _MOST_MM, _FLOOR_MM = 70.0, 60.0, 190.0, 44.0
"""Shown of what stands above the leaf's foot, behind the plinth at least and from the front at most, and of the floor before
and behind. [mm, real]"""

_STEPS_MM = (1.0, 12.0, 60.0)
"""How far beside an upright a cut may lie to meet a leaf: past its margin. [mm, real]"""

_UPRIGHTS = (*kinds_that(lambda facts: facts.gives_way), PartKind.LINING_LEG)
_FRONTS = kinds_that(lambda facts: facts.stands is Stands.FACE)


def draw_foot(set_out: SetOut, name: str) -> Drawing | None:
    """Draw a plumb cut beside the upright at the left, the room at the right; none where there is no plinth.

    Parameters
    ----------
    set_out : SetOut
    name : str
        What it is a cut through.
    """
    whole = set_out.assembly
    plinths = whole.of(PartKind.PLINTH)
    if not plinths:
        return None
    upright, x = _upright(whole)
    plinth = next(cut for body in plinths for cut in body.plumb(x))
    fronts = [(body, cut) for body in whole.of(*_FRONTS) for cut in body.plumb(x)]
    leaf, lowest = min(fronts, key=lambda result: result[1][0][1])
    top = lowest[0][1] + _ABOVE_MM
    back = max(min(z for z, _ in upright.profile()), min(plinth[0][0] - _BEHIND_MM, -_MOST_MM / 2), -_MOST_MM)
    room = max(lowest[1][0], 0.0) + _FLOOR_MM
    view = View(fitting_scale(room - back, top, FOOT_ROOM_MM, largest=2), up=True)
    marks: list[Mark] = [
        *_beyond(upright, view, back, top),
        *_floor(set_out, view, back, room),
        *_board(plinth, view, 45, "plinth"),
        *_board(_below(lowest, top), view, 135, "leaf", broken=True),
    ]
    marks += _names(view, plinth, lowest, upright, back, top, str(leaf.kind))
    marks += _dimensions(set_out, view, plinth, lowest, room)
    box = box_of(marks)
    marks += scale_bar(box.left, box.bottom + 3.0, view.scale)
    marks.append(Text(view.x(room), view.y(plinth[2][1] / 2), "room", anchor="end", role="place"))
    return Drawing.around(
        marks, title=f"Plumb section of {name} at the foot: plinth and {upright.kind}", scale=view.scale
    )


def _upright(whole: Assembly) -> tuple[Body, float]:
    """The first upright from the left that reaches down to the plinth, else the left leg; and the cut just beside it."""
    for kind in _UPRIGHTS:
        for body in sorted(whole.of(kind), key=_right):
            at = _beside(whole, body)
            if at is not None and min(y for _, y in body.profile()) < _top_of(whole):
                return body, at
    raise AssertionError("there is a plinth and a leaf to the right of the left leg")


def _beside(whole: Assembly, upright: Body) -> float | None:
    """Where a plumb cut beside an upright meets the plinth and a leaf; none where it meets them nowhere near."""
    for step in _STEPS_MM:
        x = _right(upright) + step
        if all(any(body.plumb(x) for body in whole.of(*kinds)) for kinds in ((PartKind.PLINTH,), _FRONTS)):
            return x
    return None


def _top_of(whole: Assembly) -> float:
    """Top of the plinth, a little more: what stands on it reaches down to it. [mm]"""
    return max(y for body in whole.of(PartKind.PLINTH) for _, y in body.profile()) + 1.0


def _right(body: Body) -> float:
    return max(x for prism in body.prisms for x, _ in prism.outline)


def _below(corners: Sequence[Point], top: float) -> tuple[Point, ...]:
    return tuple((z, min(y, top)) for z, y in corners)


def _on(view: View, corners: Sequence[Point]) -> tuple[Point, ...]:
    return tuple(view.at(z, y) for z, y in corners)


def _beyond(upright: Body, view: View, back: float, top: float) -> list[Mark]:
    """The upright that is seen behind the cut, broken off at its top and, where it goes on, at its back."""
    profile = [(max(z, back), min(y, top)) for z, y in upright.profile()]
    shape = Shape(_on(view, profile), Pen.OUTLINE, Fill.TINT, str(upright.kind))
    marks: list[Mark] = [shape]
    if any(y > top for _, y in upright.profile()):
        front = max(z for z, y in profile if y >= top - 1e-6)
        marks.append(break_line(view.at(back, top), view.at(front, top)))
    if min(z for z, _ in upright.profile()) < back:
        low = min(y for z, y in profile if z <= back + 1e-6)
        marks.append(break_line(view.at(back, low), view.at(back, top)))
    return marks


def _board(corners: Sequence[Point], view: View, angle: float, role: str, *, broken: bool = False) -> list[Mark]:
    """Something cut through, its top broken off where it goes on; corners from the lower left one round."""
    points = _on(view, corners)
    marks: list[Mark] = [Shape(points, Pen.NONE, Fill.PAPER), *hatch(points, angle=angle, step=2.0)]
    if not broken:
        return [*marks, Shape(points, Pen.CUT, Fill.NONE, role)]
    a, b, c, d = points
    return [*marks, Line((d, a, b, c), Pen.CUT, role), break_line(d, c)]


def _finish(set_out: SetOut) -> Measure | None:
    return set_out.find(DimensionName.FLOOR_FINISH)


def _floor(set_out: SetOut, view: View, back: float, room: float) -> list[Mark]:
    """The floor that the linings stand on, and before the plinth what is still to be laid on it."""
    start, stop, y = view.x(back) - 4.0, view.x(room), view.y(0.0)
    strip = ((start, y), (stop, y), (stop, y + 1.5), (start, y + 1.5))
    marks: list[Mark] = [*hatch(strip, step=1.2, role="floor"), Line(((start, y), (stop, y)), Pen.CUT, "floor")]
    finish = _finish(set_out)
    if finish is not None:
        level = view.y(finish.value)
        marks.append(Line(((start, level), (stop, level)), Pen.HIDDEN, "floor finish"))
    return marks


def _names(
    view: View, plinth: Sequence[Point], leaf: Sequence[Point], upright: Body, back: float, top: float, front: str
) -> list[Mark]:
    """The name of the leaf over it, and that of the upright in the middle of what is seen of it, as far as there is room."""
    over = (view.x(leaf[0][0]) + view.x(leaf[1][0])) / 2
    marks: list[Mark] = [Text(over, view.y(top) - 4.0, "leaf" if front == "door" else front, role="part name")]
    top = min(top, max(y for _, y in upright.profile()))
    face = max(z for z, y in upright.profile() if y >= top)
    notch = upright.part.notch if upright.part else None
    low, edge = (0.0, face - notch.deep.value) if notch else (plinth[2][1], face)
    (left, foot), (right, head) = view.at(back, low), view.at(edge, top)
    word = str(upright.kind)
    long, wide, high = text_width_mm(word, LEAST_MM) + 2.0, right - left, foot - head
    if min(wide, high) < LEAST_MM + 2.0 or max(wide, high) < long:
        return marks
    middle = (left + right) / 2, (foot + head) / 2
    return [*marks, *on_plate(Text(*middle, word, upright=wide < long, role="part name"), Fill.TINT, air=0.3)]


def _dimensions(set_out: SetOut, view: View, plinth: Sequence[Point], leaf: Sequence[Point], room: float) -> list[Mark]:
    """Up from the floor at the room's side: finish, plinth, gap; under it how far the plinth stands back."""
    finish = _finish(set_out)
    stops = [0.0, plinth[0][1], plinth[2][1], leaf[0][1]]
    sizes = [finish, set_out.dimension(DimensionName.PLINTH_HEIGHT), set_out.dimension(DimensionName.GAP_UNDER)]
    words = ["", "plinth ", ""]
    spans = [
        Span(view.y(b), view.y(a), f"{word}{short(b - a)}", size)
        for (a, b), word, size in zip(pairwise(stops), words, sizes, strict=True)
        if b - a > 1e-6
    ]
    edge, under = view.x(room), view.y(0.0)
    marks: list[Mark] = list(chain("y", spans[::-1], line=edge + 5.0, feature=edge))
    back = set_out.dimension(DimensionName.PLINTH_SET_BACK)
    if back.value > 0:
        span = Span(view.x(-back.value), view.x(0.0), f"set back {short(back.value)}", back)
        marks += dimension("x", span, line=under + 8.0, feature=under + 1.5)
    return marks
