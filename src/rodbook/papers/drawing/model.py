"""The drawing model: lines, shapes, circles and lettering in millimetres on paper, y downwards.

A drawing is data. `svg` turns it into a picture; tests read its marks directly.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Literal

from rodbook.papers.drawing.lettering import LEAST_MM, font_size_mm, text_width_mm
from rodbook.working import Measure

__all__ = [
    "Anchor",
    "Asked",
    "Box",
    "Circle",
    "Drawing",
    "Fill",
    "Line",
    "Mark",
    "Pen",
    "Shape",
    "Text",
    "View",
    "arrow",
    "box_of",
    "boxes_of_text",
    "break_line",
    "cross",
    "moved",
    "on_plate",
    "rectangle",
]

type Point = tuple[float, float]
type Anchor = Literal["start", "middle", "end"]


class Pen(StrEnum):
    """What a line means; `svg` gives each its weight and dashes."""

    CUT = "cut"
    OUTLINE = "outline"
    FINE = "fine"
    HIDDEN = "hidden"
    CENTRE = "centre"
    DIMENSION = "dimension"
    HATCH = "hatch"
    SWING = "swing"
    NONE = "none"


class Fill(StrEnum):
    """What a shape is filled with."""

    NONE = "none"
    PAPER = "paper"
    TINT = "tint"
    INK = "ink"
    ACCENT = "accent"


@dataclass(frozen=True)
class Asked:
    """What a mark has to say for itself where a drawing can be touched; nothing of it is seen on paper.

    Parameters
    ----------
    measures : tuple of Measure
        What it shows, with their working.
    words : str
        What it is; the first measure's own name where empty.
    ends : tuple of Point
        Both ends of the stretch that it measures, or one point that tells it from others like it. [mm on paper]
    lines : tuple of str
        The working in words, where it is not the measures' own.
    """

    measures: tuple[Measure, ...]
    words: str = ""
    ends: tuple[Point, ...] = ()
    lines: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """What it is."""
        return self.words or self.measures[0].name


@dataclass(frozen=True)
class Line:
    """A stroke through points; `role` says what it is for."""

    points: tuple[Point, ...]
    pen: Pen = Pen.OUTLINE
    role: str = ""


@dataclass(frozen=True)
class Shape:
    """A closed outline."""

    points: tuple[Point, ...]
    pen: Pen = Pen.OUTLINE
    fill: Fill = Fill.NONE
    role: str = ""


@dataclass(frozen=True)
class Circle:
    """A circle."""

    x: float
    y: float
    radius: float
    pen: Pen = Pen.OUTLINE
    fill: Fill = Fill.NONE
    role: str = ""
    asks: Asked | None = None


@dataclass(frozen=True)
class Text:
    """One line of lettering.

    Parameters
    ----------
    x, y : float
        The anchor, on the middle of the capitals' height. [mm]
    content : str
    height : float
        Of the capitals. [mm]
    anchor : str
    upright : bool
        Read from the right: turned a quarter against the clock.
    bold : bool
    accent : bool
        In the accent colour; never the only thing that tells one text from another.
    role : str
    asks : Asked, optional
        What it says when it is touched.
    """

    x: float
    y: float
    content: str
    height: float = LEAST_MM
    anchor: Anchor = "middle"
    upright: bool = False
    bold: bool = False
    accent: bool = False
    role: str = ""
    asks: Asked | None = None


type Mark = Line | Shape | Circle | Text


@dataclass(frozen=True)
class Box:
    """An upright rectangle on paper. [mm]"""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """[mm]"""
        return self.right - self.left

    @property
    def height(self) -> float:
        """[mm]"""
        return self.bottom - self.top

    def overlaps(self, other: Box, *, slack: float = 1e-6) -> bool:
        """Whether two boxes share more than an edge."""
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )

    def around(self, other: Box) -> Box:
        """The box around both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


@dataclass(frozen=True)
class View:
    """Where real millimetres come to lie on paper.

    Parameters
    ----------
    scale : int
        The n of 1:n.
    left, top : float
        Where the real origin lies on paper. [mm]
    up : bool
        Whether the real y runs upwards, as heights above a floor do.
    """

    scale: int
    left: float = 0.0
    top: float = 0.0
    up: bool = False

    def x(self, real: float) -> float:
        """[mm on paper]"""
        return self.left + real / self.scale

    def y(self, real: float) -> float:
        """[mm on paper]"""
        return self.top + (-real if self.up else real) / self.scale

    def at(self, x: float, y: float) -> Point:
        """A point on paper."""
        return self.x(x), self.y(y)


@dataclass(frozen=True)
class Drawing:
    """A picture of a given size on paper.

    Parameters
    ----------
    width, height : float
        [mm]
    marks : tuple of Mark
        Back to front.
    title : str
        What it shows, in words, for those who cannot see it.
    scale : int
        The n of its main scale 1:n.
    """

    width: float
    height: float
    marks: tuple[Mark, ...]
    title: str
    scale: int

    @classmethod
    def around(cls, marks: Iterable[Mark], *, title: str, scale: int, air: float = 1.0) -> Drawing:
        """A drawing just large enough for its marks, moved so that they start at its corner."""
        kept = tuple(marks)
        box = box_of(kept)
        shifted = moved(kept, air - box.left, air - box.top)
        return cls(box.width + 2 * air, box.height + 2 * air, shifted, title, scale)


def _text_box(text: Text) -> Box:
    width = text_width_mm(text.content, text.height, bold=text.bold)
    before = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
    # Capitals and figures; what hangs below the line is a fifth of the font size.
    up, down = text.height / 2, text.height / 2 + 0.2 * font_size_mm(text.height)
    if text.upright:
        return Box(text.x - up, text.y - (width - before), text.x + down, text.y + before)
    return Box(text.x - before, text.y - up, text.x - before + width, text.y + down)


def _box(mark: Mark) -> Box:
    if isinstance(mark, Text):
        return _text_box(mark)
    if isinstance(mark, Circle):
        return Box(mark.x - mark.radius, mark.y - mark.radius, mark.x + mark.radius, mark.y + mark.radius)
    xs, ys = [x for x, _ in mark.points], [y for _, y in mark.points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def box_of(marks: Iterable[Mark]) -> Box:
    """The box around marks, lettering included."""
    boxes = [_box(mark) for mark in marks]
    assert boxes, "there is nothing to draw"
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def boxes_of_text(marks: Iterable[Mark]) -> list[tuple[str, Box]]:
    """What is lettered and the room that it takes."""
    return [(mark.content, _text_box(mark)) for mark in marks if isinstance(mark, Text)]


def moved(marks: Iterable[Mark], right: float, down: float) -> tuple[Mark, ...]:
    """The same marks elsewhere. [mm]"""
    results: list[Mark] = []
    for mark in marks:
        if isinstance(mark, Text | Circle):
            asks = mark.asks
            if asks and asks.ends:
                asks = replace(asks, ends=tuple((x + right, y + down) for x, y in asks.ends))
            results.append(replace(mark, x=mark.x + right, y=mark.y + down, asks=asks))
        else:
            results.append(replace(mark, points=tuple([(x + right, y + down) for x, y in mark.points])))
    return tuple(results)


def rectangle(a: Point, b: Point, pen: Pen = Pen.OUTLINE, fill: Fill = Fill.NONE, *, role: str = "") -> Shape:
    """A rectangle between two corners."""
    (x1, y1), (x2, y2) = a, b
    return Shape(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), pen, fill, role)


def on_plate(text: Text, fill: Fill = Fill.PAPER, *, air: float = 0.6) -> tuple[Shape, Text]:
    """Lettering with a plain ground behind it, for places with lines or hatching."""
    box = _text_box(text)
    corners = (box.left - air, box.top - air), (box.right + air, box.bottom + air)
    return rectangle(*corners, Pen.NONE, fill, role="plate"), text


def cross(x: float, y: float, reach: float, pen: Pen = Pen.CENTRE) -> tuple[Line, Line]:
    """Two short lines through a centre."""
    return Line(((x - reach, y), (x + reach, y)), pen), Line(((x, y - reach), (x, y + reach)), pen)


def arrow(tip: Point, tail: Point, *, size: float = 1.8, pen: Pen = Pen.DIMENSION) -> tuple[Mark, ...]:
    """A line from tail to tip with a slim head at the tip."""
    (x, y), (u, v) = tip, tail
    reach = ((x - u) ** 2 + (y - v) ** 2) ** 0.5
    if reach == 0:
        return ()
    dx, dy = (x - u) / reach * size, (y - v) / reach * size
    head = Shape(
        ((x, y), (x - dx - dy / 4, y - dy + dx / 4), (x - dx + dy / 4, y - dy - dx / 4)), Pen.NONE, Fill.ACCENT
    )
    return Line((tail, (x - dx, y - dy)), pen), head


def break_line(start: Point, end: Point, pen: Pen = Pen.FINE) -> Line:
    """A straight line with one zigzag in its middle: here the part goes on."""
    (x1, y1), (x2, y2) = start, end
    reach = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    if reach == 0:
        return Line((start, end), pen, "break")
    along, across = ((x2 - x1) / reach, (y2 - y1) / reach), ((y1 - y2) / reach, (x2 - x1) / reach)

    def at(forward: float, aside: float) -> Point:
        return (
            (x1 + x2) / 2 + forward * along[0] + aside * across[0],
            (y1 + y2) / 2 + forward * along[1] + aside * across[1],
        )

    zigzag: Sequence[Point] = (at(-1.6, 0), at(-0.7, 1.6), at(0.7, -1.6), at(1.6, 0))
    return Line((start, *zigzag, end), pen, "break")
