"""The crew's weeks side by side: a column for the days there are, hatched as far as they are used, and what one more earns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from decimal import Decimal

from babel.dates import format_date

from rodbook.money import WeekUse
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Drawing, Fill, Line, Mark, Pen, Text, rectangle
from rodbook.papers.numbers import Numbers

__all__ = ["draw_weeks"]

_WIDE, _HIGH = 250.0, 34.0
"""Most that the columns take together, and height of the fullest. [mm on paper]"""

_PITCH, _SHARE = 30.0, 0.62
"""Most from one column to the next, and how much of it a column takes. [mm on paper; 1]"""


def draw_weeks(uses: Sequence[WeekUse], start: Date, write: Numbers, title: str = "The crew’s weeks") -> Drawing:
    """Draw the weeks.

    Parameters
    ----------
    uses : sequence of WeekUse
        At least one, in their order.
    start : date
        Monday of the first.
    write : Numbers
    title : str
    """
    pitch = min(_PITCH, _WIDE / len(uses))
    most = max(max(use.days, use.used) for use in uses) or 1.0
    marks: list[Mark] = [Line(((0.0, _HIGH), (pitch * len(uses), _HIGH)), Pen.CUT, "ground")]
    days = [_day(use, start, write) for use in uses]
    every = math.ceil((max(text_width_mm(day, LEAST_MM) for day in days) + 1.0) / pitch)
    for number, (use, day) in enumerate(zip(uses, days, strict=True)):
        marks += _week(use, number * pitch, pitch, most, write)
        if number % every == 0:
            marks.append(Text((number + 0.5) * pitch, _HIGH + 6.8, day, role="day"))
    marks += _key(_HIGH + 12.4)
    text = ", ".join(f"{use.week}: {use.used:.1f} of {use.days:g}" for use in uses)
    return Drawing.around(marks, title=f"{title}, crew days used of those there are: {text}", scale=1)


def _day(use: WeekUse, start: Date, write: Numbers) -> str:
    return str(format_date(start + timedelta(weeks=use.week - 1), "d MMM", locale=write.locale))


def _week(use: WeekUse, left: float, pitch: float, most: float, write: Numbers) -> list[Mark]:
    """One column with its week under it, and over it the days used and what one more would earn."""
    margin = pitch * (1 - _SHARE) / 2
    middle, low, high = left + pitch / 2, left + margin, left + pitch - margin
    there, used = _HIGH - use.days / most * _HIGH, _HIGH - min(use.used, use.days) / most * _HIGH
    marks: list[Mark] = []
    if use.days > 0:
        marks.append(rectangle((low, there), (high, _HIGH), Pen.OUTLINE, Fill.PAPER, role="there"))
    if _HIGH - used > 0.2:
        box = rectangle((low, used), (high, _HIGH), Pen.OUTLINE, Fill.TINT, role="used")
        marks += [box, *hatch(box.points, step=1.4, role="used")]
    top = min(there, _HIGH) - 2.4
    worth = use.one_more_day
    if worth is not None and worth > 0:
        text = f"+{write.whole_money(worth.quantize(Decimal(1)))}"
        if text_width_mm(text, LEAST_MM) < pitch - 0.6:
            marks.append(Text(middle, top - 3.8, text, bold=True, role="worth"))
    figure = f"{use.used:.1f} of {use.days:g}"
    figure = figure if text_width_mm(figure, LEAST_MM) < pitch - 0.6 else f"{use.used:.1f}"
    return [
        *marks,
        Text(middle, top, figure, role="figure"),
        Text(middle, _HIGH + 3.0, str(use.week), bold=True, role="week"),
    ]


def _key(top: float) -> list[Mark]:
    wide, words = 7.0, ("crew days used", "still free", "in bold over them: what one more day would earn")
    box = rectangle((0.0, top - 1.8), (wide, top + 1.8), Pen.OUTLINE, Fill.TINT, role="key")
    second = wide + 6.0 + text_width_mm(words[0], LEAST_MM)
    third = second + wide + 6.0 + text_width_mm(words[1], LEAST_MM)
    return [
        box,
        *hatch(box.points, step=1.4, role="key"),
        Text(wide + 2.0, top, words[0], anchor="start", role="key"),
        rectangle((second, top - 1.8), (second + wide, top + 1.8), Pen.OUTLINE, Fill.PAPER, role="key"),
        Text(second + wide + 2.0, top, words[1], anchor="start", role="key"),
        Text(third + 2.0, top, words[2], anchor="start", role="key"),
    ]
