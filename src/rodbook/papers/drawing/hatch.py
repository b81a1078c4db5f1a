"""Hatching: parallel lines inside an outline."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rodbook.papers.drawing.model import Line, Pen, Point

__all__ = ["hatch"]


def hatch(
    outline: Sequence[Point], *, step: float = 1.8, angle: float = 45.0, pen: Pen = Pen.HATCH, role: str = "hatch"
) -> tuple[Line, ...]:
    """Parallel lines inside a closed outline, hollows left free.

    Parameters
    ----------
    outline : sequence of tuple
        Corners, in order; crossing itself is allowed and leaves the doubled part free. [mm on paper]
    step : float
        Between two lines. [mm on paper]
    angle : float
        Of the lines from level, rising to the right. [degrees]
    pen : Pen
    role : str

    Notes
    -----
    Each line is cut where it meets the outline; what lies between the first and second cut, third and fourth, is inside.
    Lines lie on one grid over the whole page, so that neighbours hatched alike match up.
    """
    turn = math.radians(angle)
    cos, sin = math.cos(turn), math.sin(turn)
    # u along the hatch lines, v across them; the page's y runs down.
    turned = [(x * cos - y * sin, x * sin + y * cos) for x, y in outline]
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    results: list[Line] = []
    for n in range(math.floor(low / step) + 1, math.ceil(high / step)):
        v = n * step
        cuts: list[float] = []
        for (u1, v1), (u2, v2) in zip(turned, [*turned[1:], turned[0]], strict=True):
            if (v1 <= v) != (v2 <= v):
                cuts.append(u1 + (v - v1) / (v2 - v1) * (u2 - u1))
        cuts.sort()
        for a, b in zip(cuts[::2], cuts[1::2], strict=True):
            if b - a > 0.05:
                ends = tuple((u * cos + v * sin, v * cos - u * sin) for u in (a, b))
                results.append(Line(ends, pen, role))
    return tuple(results)
