"""What a raked front has that a level one has not: unlike heights at its two sides, the slope, and packers square to it."""

from __future__ import annotations

from rodbook.papers.drawing.dimensions import Span, chain, dimension
from rodbook.papers.drawing.model import Line, Mark, Pen, Text, View, on_plate
from rodbook.papers.pictures.part_faces import short
from rodbook.setout import Body, DimensionName, PartKind, SetOut

__all__ = ["raised_mm", "raked_sides", "slope_marks"]

_FIRST, _NEXT = 6.5, 9.5
"""From the front to the first dimension line, and from one to the next. [mm]"""


def raised_mm(set_out: SetOut) -> float:
    """Floor finish and plinth under the leaves of a front without a sill. [mm]"""
    raised = (set_out.find(DimensionName.FLOOR_FINISH), set_out.find(DimensionName.PLINTH_HEIGHT))
    return sum(measure.value for measure in raised if measure is not None)


def raked_sides(set_out: SetOut, view: View, left: float, right: float) -> list[Mark]:
    """Heights of the outer leaves and of the lining at both sides, and the slope of the head.

    Parameters
    ----------
    set_out : SetOut
        Under a raked head.
    view : View
    left, right : float
        How far the front reaches. [mm, real]
    """
    assert set_out.outer_low is not None
    leaves = set_out.assembly.of(PartKind.DOOR)
    floor = max((sill.up[1] for sill in set_out.assembly.of(PartKind.LINING_SILL)), default=0.0)
    floor += raised_mm(set_out)
    marks: list[Mark] = []
    under = set_out.dimension(DimensionName.GAP_UNDER)
    for leaf, size, side in ((leaves[0], set_out.leaf_sizes[0], "left"), (leaves[-1], set_out.leaf_sizes[-1], "right")):
        edge, out = (view.x(left), -1.0) if side == "left" else (view.x(right), 1.0)
        height = size.left if side == "left" else size.right
        spans = [Span(view.y(leaf.up[0] + height.value), view.y(leaf.up[0]), short(height.value), height)]
        if leaf.up[0] > floor:
            spans.insert(0, Span(view.y(leaf.up[0]), view.y(floor), short(leaf.up[0] - floor), under))
        # The leaf's chain stands outside, where the figure of a narrow gap has room beside it.
        marks += chain("y", spans, line=edge + out * (_FIRST + _NEXT), feature=edge)
        outer = set_out.outer_low if side == set_out.falls_to else set_out.outer_height
        span = Span(view.y(outer.value), view.y(0.0), f"lining {short(outer.value)}", outer)
        marks += dimension("y", span, line=edge + out * _FIRST, feature=edge)
    return [*marks, *slope_marks(set_out, view)]


def slope_marks(set_out: SetOut, view: View) -> list[Mark]:
    """The slope in degrees under a level line from the head's higher end."""
    (head, *_) = set_out.assembly.of(PartKind.LINING_HEAD)
    x, y, inward = _high_end(head, set_out)
    reach = min(26.0, (head.across[1] - head.across[0]) / view.scale * 0.6)
    start = view.at(x, y)
    level = Line((start, (start[0] + inward * reach, start[1])), Pen.FINE, "level")
    text = Text(
        start[0] + inward * (reach + 1.0),
        start[1],
        f"{set_out.dimension(DimensionName.SLOPE).value:.1f}°",
        anchor="start" if inward > 0 else "end",
        role="slope",
    )
    return [level, *on_plate(text, air=0.4)]


def _high_end(head: Body, set_out: SetOut) -> tuple[float, float, float]:
    """The head's upper corner at its higher end, and which way is inwards."""
    x, y = max(head.outline, key=lambda corner: corner[1])
    return x, y, 1.0 if set_out.falls_to == "right" else -1.0
