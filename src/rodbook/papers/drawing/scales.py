"""Which scale a drawing is made to, and the bar that lets a reader check a print."""

from __future__ import annotations

from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Fill, Line, Mark, Pen, Text, rectangle

__all__ = ["SCALES", "fitting_scale", "scale_bar", "scale_text"]

SCALES = (1, 2, 5, 10, 20, 50, 100)
"""The n of each scale 1:n that drawings are made to (ISO 5455)."""

_BAR_MM = {1: 50, 2: 100, 5: 200, 10: 500, 20: 1000, 50: 2000, 100: 5000}
"""What the bar stands for at each scale: 40 to 50 mm on paper. [mm]"""


def fitting_scale(width_mm: float, height_mm: float, room: tuple[float, float], *, largest: int = 1) -> int:
    """The n of the largest scale 1:n at which something fits its room; the smallest of the list where none does.

    Parameters
    ----------
    width_mm, height_mm : float
        Of the thing itself. [mm]
    room : tuple of float
        Width and height on paper. [mm]
    largest : int
        The n of the largest scale allowed.

    Examples
    --------
    >>> fitting_scale(2020, 417, (262, 120))
    10
    """
    for scale in SCALES:
        if scale >= largest and width_mm <= room[0] * scale and height_mm <= room[1] * scale:
            return scale
    return SCALES[-1]


def scale_text(scale: int) -> str:
    """How a scale is written."""
    return "full size, 1:1" if scale == 1 else f"scale 1:{scale}"


def scale_bar(left: float, top: float, scale: int) -> tuple[Mark, ...]:
    """A bar in four fields with its length in millimetres and the scale in words beside it.

    Parameters
    ----------
    left, top : float
        Corner of the bar on paper; the lettering stands under it. [mm]
    scale : int
    """
    real = _BAR_MM[scale]
    width, thick = real / scale, 1.2
    marks: list[Mark] = []
    for n in range(4):
        fill = Fill.INK if n % 2 == 0 else Fill.PAPER
        marks.append(
            rectangle(
                (left + n * width / 4, top), (left + (n + 1) * width / 4, top + thick), Pen.FINE, fill, role="scale bar"
            )
        )
    marks += [Line(((x, top - 0.8), (x, top + thick)), Pen.FINE) for x in (left, left + width)]
    under = top + thick + LEAST_MM / 2 + 1.2
    ends = (("0", left, "start"), (f"{real} mm", left + width, "end"))
    marks += [Text(x, under, label, anchor=anchor, role="scale bar") for label, x, anchor in ends]  # type: ignore[arg-type]
    between = width - text_width_mm("0", LEAST_MM) - text_width_mm(f"{real} mm", LEAST_MM) - 2
    words = scale_text(scale)
    if text_width_mm(words, LEAST_MM) > between:
        words = f"1:{scale}"
    if text_width_mm(words, LEAST_MM) > between:
        marks.append(Text(left, under + LEAST_MM + 1.6, words, anchor="start", role="scale"))
    else:
        middle = left + text_width_mm("0", LEAST_MM) + 1 + between / 2
        marks.append(Text(middle, under, words, role="scale"))
    return tuple(marks)
