"""What moves the difference between making and buying: a bar for each thing, the longest on top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.money import Sway
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Drawing, Fill, Line, Mark, Pen, Text, rectangle
from rodbook.papers.numbers import Numbers

__all__ = ["MOST_BARS", "SwayWords", "draw_sways"]

MOST_BARS = 8
"""Bars drawn; what moves the answer less is in the table beside the drawing."""

_WIDE, _BAR, _ROW = 108.0, 3.6, 10.4
"""Width of the plot, height of a bar, and from one bar to the next. [mm on paper]"""


@dataclass(frozen=True)
class SwayWords:
    """What the drawing says besides names and figures, so that it can be said in another language."""

    title: str = "What moves what buying saves"
    now: str = "as the book has it"
    turns: str = "left of here making is cheaper"
    low: str = "where it is low"
    high: str = "where it is high"


def draw_sways(difference: Decimal, results: Sequence[Sway], write: Numbers, words: SwayWords | None = None) -> Drawing:
    """Draw how far each thing moves what buying saves, all others staying.

    Parameters
    ----------
    difference : Decimal
        Cost bought less cost made, as the book has it. [currency]
    results : sequence of Sway
        The most first; at least one.
    write : Numbers
    words : SwayWords, optional
    """
    answer = words or SwayWords()
    bars = results[:MOST_BARS]
    saved = float(-difference)
    ends = [(float(-sway.low), float(-sway.high)) for sway in bars]
    values = [saved, *(value for pair in ends for value in pair)]
    low, high = min(values), max(values)
    if low <= 0.25 * high or high <= 0.25 * low:  # zero is near enough to be shown
        low, high = min(low, 0.0), max(high, 0.0)
        air = 0.06 * (high - low)  # zero is not drawn on the names' edge
        low, high = (low - air if low == 0.0 else low), (high + air if high == 0.0 else high)
    stretch = (high - low) or 1.0

    def at(value: float) -> float:
        return (value - low) / stretch * _WIDE

    foot = len(bars) * _ROW
    marks: list[Mark] = [Line(((0.0, foot + 1.6), (_WIDE, foot + 1.6)), Pen.FINE, "axis")]
    for row, (sway, (at_low, at_high)) in enumerate(zip(bars, ends, strict=True)):
        marks += _bar(sway, (at(at_low), at(at_high)), at(saved), row * _ROW, write)
    marks.append(Line(((at(saved), -1.0), (at(saved), foot + 3.2)), Pen.DIMENSION, "now"))
    marks.append(_under(at(saved), foot + 6.4, f"{write.whole_money(-difference)} {answer.now}", "now"))
    below = foot + 11.0
    if low <= 0.0 <= high:
        marks.append(Line(((at(0.0), -1.0), (at(0.0), foot + 7.6)), Pen.CUT, "turns"))
        marks.append(_under(at(0.0), below, f"{write.whole_money(Decimal(0))}: {answer.turns}", "turns"))
        below += 4.6
    marks += _key(below, answer)
    return Drawing.around(marks, title=f"{answer.title}: {', '.join(sway.name for sway in bars)}", scale=1)


def _bar(sway: Sway, ends: tuple[float, float], now: float, top: float, write: Numbers) -> list[Mark]:
    """Its name and figures over the bar, what is low hatched and what is high plain."""
    low, high = sorted((-sway.low, -sway.high))
    figures = f"{write.whole_money(low)} … {write.whole_money(high)}"
    room = _WIDE - text_width_mm(figures, LEAST_MM) - 3.0
    name = _shortened(sway.name, room)
    y = top + 4.4
    first = rectangle((min(ends[0], now), y), (max(ends[0], now), y + _BAR), Pen.OUTLINE, Fill.PAPER, role="low")
    second = rectangle((min(ends[1], now), y), (max(ends[1], now), y + _BAR), Pen.OUTLINE, Fill.TINT, role="high")
    return [
        Text(0.0, top + 1.6, name, anchor="start", role="name"),
        Text(_WIDE, top + 1.6, figures, anchor="end", bold=sway.turns, role="figure"),
        second,
        first,
        *(hatch(first.points, step=1.1, angle=45, role="low") if abs(ends[0] - now) > 0.6 else ()),
    ]


def _shortened(name: str, room: float) -> str:
    if text_width_mm(name, LEAST_MM) <= room:
        return name
    while name and text_width_mm(f"{name}…", LEAST_MM) > room:
        name = name[:-1]
    return f"{name.rstrip(' ,')}…"


def _under(x: float, y: float, content: str, role: str) -> Text:
    """Lettering under the axis that stays over its width."""
    half = text_width_mm(content, LEAST_MM) / 2
    return Text(min(max(x, half), _WIDE - half), y, content, role=role)


def _key(top: float, answer: SwayWords) -> list[Mark]:
    wide = 7.0
    second = wide + 5.0 + text_width_mm(answer.low, LEAST_MM) + 3.0
    box = rectangle((0.0, top - 1.8), (wide, top + 1.8), Pen.OUTLINE, Fill.PAPER, role="key")
    return [
        box,
        *hatch(box.points, step=1.1, angle=45, role="key"),
        Text(wide + 2.0, top, answer.low, anchor="start", role="key"),
        rectangle((second, top - 1.8), (second + wide, top + 1.8), Pen.OUTLINE, Fill.TINT, role="key"),
        Text(second + wide + 2.0, top, answer.high, anchor="start", role="key"),
    ]
