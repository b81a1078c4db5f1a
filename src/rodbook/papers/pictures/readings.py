"""Where an opening is read: every reading of the survey sheet by its number, on an opening seen from the front."""

from __future__ import annotations

from rodbook.papers.drawing.model import Circle, Drawing, Fill, Line, Mark, Pen, Shape, Text

__all__ = ["draw_readings"]

_WIDE, _HIGH = 54.0, 66.0
"""The opening that is drawn, to no scale. [mm on paper]"""

_TICK = 1.2


def draw_readings(*, raked: bool) -> Drawing:
    """Draw the places of readings 1 to 19, numbered as on the survey sheet.

    Parameters
    ----------
    raked : bool
        Whether the head slopes.
    """
    right = _HIGH - 16.0 if raked else _HIGH
    top = [-_HIGH, -right]

    def head(x: float) -> float:
        return top[0] + (top[1] - top[0]) * x / _WIDE

    low = max(top)
    marks: list[Mark] = [Shape(((0, 0), (_WIDE, 0), (_WIDE, top[1]), (0, top[0])), Pen.CUT, role="opening")]
    marks.append(Line(((-14.0, 0.0), (_WIDE + 14.0, 0.0)), Pen.OUTLINE, "floor"))
    for number, y in ((1, -9.0), (2, low / 2), (3, low + 9.0)):
        marks += _stretch(number, (0, y), (_WIDE, y), 0.3)
    for number, x in ((4, 9.0), (5, _WIDE / 2), (6, _WIDE - 9.0)):
        marks += _stretch(number, (x, 0), (x, head(x)), 0.7)
    marks += _stretch(7, (0, 0), (_WIDE, top[1]), 0.24)
    marks += _stretch(8, (_WIDE, 0), (0, top[0]), 0.24)
    marks += _stretch(9, (_WIDE + 1.5, -1.5), (_WIDE + 12, -12), 0.75)
    dashed: tuple[tuple[int, tuple[float, float], tuple[float, float], float], ...] = (
        (10, (-5.0, 0.0), (-5.0, top[0]), 0.86),
        (11, (_WIDE + 5.0, 0.0), (_WIDE + 5.0, top[1]), 0.86),
        (12, (0.0, 5.0), (_WIDE, 5.0), 0.2),
        (13, (0.0, top[0] - 5.0), (_WIDE, top[0] - 5.0), 0.2),
        (14, (-11.0, 0.0), (-11.0, top[0]), 0.5),
        (15, (_WIDE + 11.0, -20.0), (_WIDE + 11.0, top[1]), 0.5),
        (16, (0.0, top[0] - 11.0), (_WIDE, top[0] - 11.0), 0.6),
        (17, (0.0, 11.0), (_WIDE, 11.0), 0.6),
        (18, (-5.0, 0.0), (-5.0, low / 2), 0.66),
        (19, (_WIDE + 5.0, 0.0), (_WIDE + 5.0, low / 2), 0.66),
    )
    for number, a, b, share in dashed:
        marks += _stretch(number, a, b, share, pen=Pen.HIDDEN)
    title = (
        "Where each reading is taken: 1 to 3 widths, 4 to 6 heights, 7 and 8 diagonals, 9 depth; 10, 11, 18 and 19 plumb of the "
        "sides, 12 and 13 level of floor and head, 14 to 17 bows of the sides, the head and the floor"
    )
    return Drawing.around(marks, title=title, scale=1)


def _stretch(
    number: int, a: tuple[float, float], b: tuple[float, float], share: float, *, pen: Pen = Pen.FINE
) -> list[Mark]:
    """A line with end ticks, and its number in a ring on it."""
    (ax, ay), (bx, by) = a, b
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    nx, ny = -(by - ay) / length * _TICK, (bx - ax) / length * _TICK
    x, y = ax + (bx - ax) * share, ay + (by - ay) * share
    marks: list[Mark] = [Line((a, b), pen, "reading")]
    marks += [Line(((x0 - nx, y0 - ny), (x0 + nx, y0 + ny)), Pen.FINE, "reading") for x0, y0 in (a, b)]
    marks.append(Circle(x, y, 2.7, Pen.FINE, Fill.PAPER, "number"))
    marks.append(Text(x, y, str(number), bold=True, role="number"))
    return marks
