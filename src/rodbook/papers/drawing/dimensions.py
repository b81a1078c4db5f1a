"""Dimension lines: single, in a chain, and running from one datum, their figures kept clear of each other.

Everything here is in millimetres on paper. `Axis` ``"x"`` measures across the page, ``"y"`` down it; `line` is where the
dimension line stands on the other axis, and `feature` is where the measured edge ends, from which the thin extension
lines start. Figures stand on the side of the dimension line that looks away from the feature.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Asked, Circle, Fill, Line, Mark, Pen, Point, Shape, Text
from rodbook.papers.drawing.spread import spread
from rodbook.working import Measure

__all__ = ["Reading", "Span", "chain", "datum", "dimension", "leader", "running"]

type Axis = Literal["x", "y"]

TICK = 1.1
"""Half the slanting stroke at each end of a dimension. [mm]"""

PITCH = LEAST_MM + 1.1
"""Least distance of two lines of figures. [mm]"""

EXTENSION_GAP = 1.0
"""Between the drawn edge and its extension line. [mm]"""


@dataclass(frozen=True)
class Span:
    """A stretch that is dimensioned, from `start` to `end` along the axis, with its figure. [mm on paper]

    `of` is the size that it shows, where that has a working.
    """

    start: float
    end: float
    figure: str
    of: Measure | Asked | None = None


@dataclass(frozen=True)
class Reading:
    """A place at a running distance from the datum; `hole` is the number of a boring, if it is one. [mm on paper]

    `of` is the distance, where that has a working.
    """

    at: float
    figure: str
    hole: str = ""
    of: Measure | None = None


def _point(axis: Axis, along: float, across: float) -> Point:
    return (along, across) if axis == "x" else (across, along)


def _tick(axis: Axis, along: float, line: float) -> Line:
    x, y = _point(axis, along, line)
    return Line(((x - TICK, y + TICK), (x + TICK, y - TICK)), Pen.DIMENSION)


def _extension(axis: Axis, along: float, feature: float, line: float) -> Line:
    away = 1.0 if line > feature else -1.0
    start, end = feature + away * EXTENSION_GAP, line + away * TICK
    return Line((_point(axis, along, start), _point(axis, along, end)), Pen.DIMENSION)


def _figure(axis: Axis, along: float, across: float, span: Span, *, line: float, bold: bool = False) -> Text:
    x, y = _point(axis, along, across)
    asks = None
    if span.of is not None:
        asked = Asked((span.of,)) if isinstance(span.of, Measure) else span.of
        asks = replace(asked, ends=(_point(axis, span.start, line), _point(axis, span.end, line)))
    return Text(x, y, span.figure, upright=axis == "y", bold=bold, role="figure", asks=asks)


def dimension(axis: Axis, span: Span, *, line: float, feature: float, bold: bool = False) -> tuple[Mark, ...]:
    """One dimension, its figure beside the middle of the line."""
    return chain(axis, [span], line=line, feature=feature, bold=bold)


def chain(
    axis: Axis,
    spans: Sequence[Span],
    *,
    line: float,
    feature: float,
    low: float | None = None,
    high: float | None = None,
    bold: bool = False,
) -> tuple[Mark, ...]:
    """Dimensions end to end on one line.

    A figure with room stands beside its own stretch; the others stand further out, spread along the line, each with a
    thin leader to the stretch it belongs to.

    Parameters
    ----------
    axis : str
    spans : sequence of Span
    line : float
        Where the dimension line stands.
    feature : float
        Where the measured edge ends.
    low, high : float, optional
        Ends of the room for figures that had to move.
    bold : bool
    """
    away = 1.0 if line > feature else -1.0
    ends = sorted({round(p, 4) for span in spans for p in (span.start, span.end)})
    marks: list[Mark] = [_extension(axis, p, feature, line) for p in ends]
    marks.append(Line((_point(axis, ends[0], line), _point(axis, ends[-1], line)), Pen.DIMENSION))
    marks += [_tick(axis, p, line) for p in ends]
    near = line + away * (LEAST_MM / 2 + 1.0)
    # Turned figures are read from the right, so what hangs below the line looks to the right.
    if (axis == "x" and away < 0) or (axis == "y" and away < 0):
        near -= 0.6
    far = near + away * (LEAST_MM + 2.6)
    crowded: list[Span] = []
    for span in spans:
        room = abs(span.end - span.start) - 1.2
        if text_width_mm(span.figure, LEAST_MM, bold=bold) <= room:
            marks.append(_figure(axis, (span.start + span.end) / 2, near, span, line=line, bold=bold))
        else:
            crowded.append(span)
    middles = [(span.start + span.end) / 2 for span in crowded]
    widths = [text_width_mm(span.figure, LEAST_MM, bold=bold) for span in crowded]
    lone = len(crowded) == len(spans) == 1
    for span, middle, at in zip(crowded, middles, spread(middles, widths, gap=1.6, low=low, high=high), strict=True):
        out = near if lone else far
        if not lone:
            edge = out - away * (LEAST_MM / 2 + 0.5)
            marks.append(Line((_point(axis, middle, line), _point(axis, at, edge)), Pen.DIMENSION))
        marks.append(_figure(axis, at, out, span, line=line, bold=bold))
    return tuple(marks)


def running(
    axis: Axis,
    zero: float,
    readings: Sequence[Reading],
    *,
    line: float,
    feature: float,
    low: float | None = None,
    high: float | None = None,
) -> tuple[Mark, ...]:
    """Running dimensions: every figure is the distance from the datum, which carries a small ring and a zero.

    Figures down the page lie level, one under the other, with the hole's number in a ring before them; figures across
    the page are turned and read from the right.

    Parameters
    ----------
    axis : str
    zero : float
        The datum along the axis.
    readings : sequence of Reading
    line : float
        Where the dimension line stands.
    feature : float
        Where the drawn edge ends.
    low, high : float, optional
        Ends of the room for the figures.
    """
    away = 1.0 if line > feature else -1.0
    places = [Reading(zero, "0"), *readings]
    pitch = [PITCH + 1.5 if reading.hole else PITCH for reading in places]
    spots = spread([r.at for r in places], pitch, low=low, high=high)
    far = max((r.at for r in places), key=lambda at: abs(at - zero))
    marks: list[Mark] = [Line((_point(axis, zero, line), _point(axis, far, line)), Pen.DIMENSION)]
    ring_x, ring_y = _point(axis, zero, line)
    elbow, out = line + away * 1.6, line + away * 4.6
    for reading, spot in zip(places, spots, strict=True):
        marks.append(_extension(axis, reading.at, feature, line))
        if reading.at != zero:
            marks.append(_tick(axis, reading.at, line))
        path = [(reading.at, line), (reading.at, elbow), (spot, out - away * 0.6)]
        marks.append(Line(tuple(_point(axis, a, b) for a, b in path), Pen.DIMENSION))
        asks = None
        if reading.of is not None:
            ends = _point(axis, zero, line), _point(axis, reading.at, line)
            asks = Asked((reading.of,), f"hole {reading.hole}, {reading.of.name}" if reading.hole else "", ends)
        marks += _running_figure(axis, spot, out, away, reading, asks)
    marks.append(Circle(ring_x, ring_y, 0.9, Pen.DIMENSION, Fill.PAPER, "origin"))
    return tuple(marks)


def _running_figure(
    axis: Axis, spot: float, out: float, away: float, reading: Reading, asks: Asked | None
) -> list[Mark]:
    marks: list[Mark] = []
    step = 0.0
    if reading.hole:
        radius = max(2.1, text_width_mm(reading.hole, LEAST_MM) / 2 + 0.7)
        x, y = _point(axis, spot, out + away * (radius - 0.6))
        marks += [
            Circle(x, y, min(radius, 2.5), Pen.FINE, Fill.PAPER, "hole number"),
            Text(x, y, reading.hole, role="hole number", asks=asks),
        ]
        step = 2 * radius
    x, y = _point(axis, spot, out + away * (step + 0.4))
    if axis == "y":
        marks.append(Text(x, y, reading.figure, anchor="start" if away > 0 else "end", role="figure", asks=asks))
    else:
        # Turned text runs up the page.
        anchor: Literal["start", "end"] = "end" if away > 0 else "start"
        marks.append(Text(x, y, reading.figure, anchor=anchor, upright=True, role="figure", asks=asks))
    return marks


def datum(x: float, y: float) -> tuple[Mark, ...]:
    """The datum's mark: a quartered ring on the corner, with the word above it."""
    r = 1.5
    arc = 0.5523 * r
    quarters = []
    for sx, sy in ((1, -1), (-1, 1)):
        steps = [(x + sx * px, y + sy * py) for px, py in _quarter(r, arc)]
        quarters.append(Shape(((x, y), *steps), Pen.NONE, Fill.INK, "datum"))
    word = Text(x - r, y - r - 2.6, "datum", anchor="start", bold=True, role="datum")
    return (Circle(x, y, r, Pen.FINE, Fill.PAPER, "datum"), *quarters, word)


def _quarter(r: float, pull: float) -> list[Point]:
    """Points of a quarter circle from (r, 0) to (0, r), by its cubic curve."""
    results: list[Point] = []
    for n in range(9):
        t = n / 8
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3
        results.append((a * r + b * r + c * pull, b * pull + c * r + d * r))
    return results


def leader(
    tip: Point, elbow: Point, words: Sequence[str], *, toward: Literal["left", "right"], asks: Asked | None = None
) -> tuple[Mark, ...]:
    """A thin line from a thing to words beside it, one line under the other."""
    side = -1.0 if toward == "left" else 1.0
    x, y = elbow
    anchor: Literal["start", "end"] = "end" if toward == "left" else "start"
    marks: list[Mark] = [Line((tip, elbow, (x + side * 1.2, y)), Pen.DIMENSION)]
    marks += [
        Text(x + side * 1.6, y + n * (PITCH + 0.4), line, anchor=anchor, role="note", asks=asks)
        for n, line in enumerate(words)
    ]
    return tuple(marks)
