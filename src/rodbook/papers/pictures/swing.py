"""The leaves of a front seen from above as they open: closed, open, all that they sweep, and what stands near."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.hinges.swing import Obstacle
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM
from rodbook.papers.drawing.model import Drawing, Fill, Line, Mark, Pen, Point, Shape, Text, View, box_of, on_plate
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.plan import FrontSwing, LeafSwing

__all__ = ["draw_swing"]

_ROOM_MM = (160.0, 75.0)
"""Room for all that is swept. [mm on paper]"""

_WALL_MM, _WALL_BESIDE_MM = 120.0, 220.0
"""Wall that is drawn: its thickness, and so much to each side of the opening. [mm]"""


def draw_swing(front: FrontSwing, width_mm: float, mark: str) -> Drawing:
    """Draw the leaves of a front as they open, from above.

    Parameters
    ----------
    front : FrontSwing
    width_mm : float
        Of the opening, from side to side. [mm]
    mark : str
        Of the opening.
    """
    near = _apart(front)
    points = [p for leaf in front.leaves for p in leaf.picture.swept] + [p for o in near for p in o.outline]
    left = min(-_WALL_BESIDE_MM, *(x for x, _ in points))
    right = max(width_mm + _WALL_BESIDE_MM, *(x for x, _ in points))
    scale = fitting_scale(right - left, max(y for _, y in points) + _WALL_MM, _ROOM_MM, largest=5)
    view = View(scale, up=True)
    marks: list[Mark] = []
    for a, b in ((left, 0.0), (width_mm, right)):
        wall = ((a, 0.0), (b, 0.0), (b, -_WALL_MM), (a, -_WALL_MM))
        marks += hatch(_on(view, wall), step=2.6, angle=60, role="wall")
        marks.append(Line((view.at(a, 0.0), view.at(b, 0.0)), Pen.CUT, "wall"))
    marks += [Line((view.at(x, 0.0), view.at(x, -_WALL_MM)), Pen.CUT, "wall") for x in (0.0, width_mm)]
    for leaf in front.leaves:
        marks.append(Shape(_on(view, leaf.picture.swept), Pen.SWING, Fill.NONE, "swept"))
    frame = dict.fromkeys(o for leaf in front.leaves for o in leaf.picture.obstacles if o.own)
    marks += [Shape(_on(view, outline), Pen.FINE, Fill.PAPER, "frame") for outline in (o.outline for o in frame)]
    for obstacle in near:
        marks.append(Shape(_on(view, obstacle.outline), Pen.OUTLINE, Fill.PAPER, "obstacle"))
        marks += hatch(_on(view, obstacle.outline), step=1.6, angle=30, role="obstacle")
    for leaf in front.leaves:
        marks.append(Shape(_on(view, leaf.picture.closed), Pen.OUTLINE, Fill.PAPER, "closed leaf"))
        marks.append(Shape(_on(view, leaf.picture.opened), Pen.HIDDEN, Fill.TINT, "open leaf"))
    for obstacle in near:
        box = box_of([Shape(_on(view, obstacle.outline))])
        across, down = (box.left + box.right) / 2, (box.top + box.bottom) / 2
        marks += on_plate(Text(across, down + LEAST_MM / 2, obstacle.name.removeprefix("the "), role="obstacle name"))
    for leaf in front.leaves:
        x, y = _on_the_leaf(leaf)
        marks += on_plate(
            Text(view.x(x), view.y(y) + LEAST_MM / 2, f"{leaf.swing.free_deg:.0f}°", bold=True, role="angle")
        )
    box = box_of(marks)
    marks += scale_bar(box.left, box.bottom + 3.0, scale)
    return Drawing.around(marks, title=f"How the leaves of {mark} open: {' '.join(front.sentences)}", scale=scale)


def _on(view: View, outline: Sequence[Point]) -> tuple[Point, ...]:
    return tuple(view.at(x, y) for x, y in outline)


def _apart(front: FrontSwing) -> list[Obstacle]:
    """What stands near, without the front's own lining and trim."""
    result = dict.fromkeys(o for leaf in front.leaves for o in leaf.picture.obstacles)
    return [obstacle for obstacle in result if not obstacle.own]


def _on_the_leaf(leaf: LeafSwing) -> Point:
    """A point of the open leaf nearer to its free edge than to its hinges: the middle of its third quarter."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = leaf.picture.opened[:4]
    return 0.175 * (ax + bx) + 0.325 * (cx + dx), 0.175 * (ay + by) + 0.325 * (cy + dy)
