"""What a basket costs through time: a line that steps on each day on which a price changed, 100 on the first."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.money import IndexDay
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Circle, Drawing, Fill, Line, Mark, Pen, Text
from rodbook.papers.numbers import Numbers

__all__ = ["draw_index"]

_WIDE, _HIGH = 108.0, 34.0
"""Width and height of the plot. [mm on paper]"""


def draw_index(days: Sequence[IndexDay], write: Numbers, title: str = "Index of what the job takes") -> Drawing:
    """Draw an index through time.

    Parameters
    ----------
    days : sequence of IndexDay
        In their order; at least two.
    write : Numbers
    title : str
    """
    first, last = days[0].day, days[-1].day
    span = max((last - first).days, 1)
    values = [float(point.index) for point in days]
    low, high = min(100.0, *values), max(100.0, *values)
    stretch = max(high - low, 4.0)

    def x(point: IndexDay) -> float:
        return (point.day - first).days / span * _WIDE

    def y(value: float) -> float:
        return _HIGH - (value - low) / stretch * _HIGH

    steps: list[tuple[float, float]] = []
    for before, point in zip((None, *days[:-1]), days, strict=True):
        if before is not None:
            steps.append((x(point), y(float(before.index))))
        steps.append((x(point), y(float(point.index))))
    marks: list[Mark] = [
        Line(((0.0, y(100.0)), (_WIDE, y(100.0))), Pen.FINE, "hundred"),
        Line(tuple(steps), Pen.CUT, "index"),
    ]
    free = -1.0
    for number, point in enumerate(days):
        marks.append(Circle(x(point), y(float(point.index)), 0.9, Pen.OUTLINE, Fill.PAPER, role="day"))
        answer = write.short(float(point.index))
        half = text_width_mm(answer, LEAST_MM) / 2
        at = min(max(x(point), half), _WIDE - half)
        if at - half > free or number == len(days) - 1:
            if number == len(days) - 1 and at - half <= free:
                continue
            marks.append(Text(at, y(float(point.index)) - 3.2, answer, bold=number == len(days) - 1, role="figure"))
            free = at + half + 1.0
    foot = _HIGH + 5.0
    marks.append(Text(0.0, foot, write.date(first), anchor="start", role="first"))
    marks.append(Text(_WIDE, foot, write.date(last), anchor="end", role="last"))
    return Drawing.around(marks, title=f"{title}: {write.short(values[0])} to {write.short(values[-1])}", scale=1)
