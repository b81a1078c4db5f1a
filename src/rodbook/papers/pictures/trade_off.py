"""The number of sizes against all the packing, as steps."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.papers.drawing.model import Circle, Drawing, Fill, Line, Mark, Pen, Text, rectangle
from rodbook.papers.pictures.part_faces import short
from rodbook.sizes import Trade

__all__ = ["draw_trade_off"]


def draw_trade_off(trades: Sequence[Trade], now: int, *, high: float = 52.0) -> Drawing:
    """Draw the number of sizes across and all the packing up, as steps; where the job stands is ringed.

    Parameters
    ----------
    trades : sequence of Trade
        At least one.
    now : int
        The number of sizes that the job has.
    high : float
        Height of the picture without its lettering. [mm on paper]
    """
    step = min(16.0, 130.0 / len(trades))
    most = max(trade.choice.packing_mm for trade in trades) or 1.0
    marks: list[Mark] = [Line(((0.0, -high - 4), (0.0, 0.0), (step * len(trades) + 2, 0.0)), Pen.FINE, "axis")]
    every = next(n for n in (1, 2, 5, 10, 20) if step * n >= 5.0)
    path: list[tuple[float, float]] = []
    for k, trade in enumerate(trades):
        y = -trade.choice.packing_mm / most * high
        path += [(k * step, y), ((k + 1) * step, y)]
        if k % every == 0 or trade.number == now:
            marks.append(Text((k + 0.5) * step, 3.2, str(trade.number), bold=trade.number == now, role="figure"))
        if trade.number == now:
            marks.append(rectangle((k * step, 0.0), ((k + 1) * step, y), Pen.NONE, Fill.TINT, role="now"))
    marks.append(Line(tuple(path), Pen.CUT, "steps"))
    for k, trade in enumerate(trades):
        y = -trade.choice.packing_mm / most * high
        if trade.number == now:
            marks += [Circle((k + 0.5) * step, y, 1.6, Pen.OUTLINE, Fill.PAPER, "now")]
    marks.append(Text(step * len(trades) + 2, 7.2, "sizes", anchor="end", role="axis"))
    marks.append(Text(-1.5, -high, f"{short(round(most, 1))} mm", anchor="end", role="figure"))
    marks.append(Text(-1.5, 0.0, "0", anchor="end", role="figure"))
    marks.append(Text(0.0, -high - 6.4, "all the packing", anchor="middle", role="axis"))
    return Drawing.around(marks, title="All the packing against the number of sizes, as steps downwards", scale=1)
