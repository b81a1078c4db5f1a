"""A drawing as SVG: one millimetre of the drawing is one user unit, and the picture says its size in millimetres."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from rodbook.papers.drawing.lettering import FONT, font_size_mm
from rodbook.papers.drawing.model import Circle, Drawing, Fill, Line, Mark, Pen, Shape, Text

__all__ = ["ACCENT", "INK", "TINT", "svg_marks", "svg_words", "to_svg"]

INK = "#211e1b"
"""Pencil black."""

ACCENT = "#93301f"
"""Carpenter's-pencil red; prints as a dark grey, 8:1 against white paper."""

TINT = "#f1ede6"
"""The paler side of a planed board; prints as almost nothing, so nothing depends on it."""

_PENS: dict[Pen, tuple[float, str, str]] = {
    Pen.CUT: (0.5, INK, ""),
    Pen.OUTLINE: (0.35, INK, ""),
    Pen.FINE: (0.18, INK, ""),
    Pen.HIDDEN: (0.18, INK, "1.6 0.9"),
    Pen.CENTRE: (0.13, INK, "2.4 0.7 0.5 0.7"),
    Pen.DIMENSION: (0.18, ACCENT, ""),
    Pen.HATCH: (0.13, INK, ""),
    Pen.SWING: (0.18, ACCENT, "2.2 1.1"),
}
"""Width, colour and dashes of each pen. [mm] House choice; ISO 128 pairs a thick line with one of half its width."""

_FILLS = {Fill.NONE: "none", Fill.PAPER: "#ffffff", Fill.TINT: TINT, Fill.INK: INK, Fill.ACCENT: ACCENT}

_NOT_XML = re.compile("[^\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def _n(value: float) -> str:
    """A length with as many decimals as a printer can follow."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _stroke(pen: Pen) -> str:
    if pen is Pen.NONE:
        return 'stroke="none"'
    width, colour, dashes = _PENS[pen]
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'stroke="{colour}" stroke-width="{_n(width)}" stroke-linejoin="round" stroke-linecap="butt"{dashed}'


def _role(role: str) -> str:
    return f" data-role={quoteattr(_NOT_XML.sub(' ', role))}" if role else ""


def _points(points: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _text(mark: Text) -> str:
    """Lettering stands on a baseline half its height under the anchor; turned text turns about the anchor."""
    x, y = _n(mark.x), _n(mark.y + mark.height / 2)
    turn = f' transform="rotate(-90 {_n(mark.x)} {_n(mark.y)})"' if mark.upright else ""
    weight = ' font-weight="600"' if mark.bold else ""
    content = escape(_NOT_XML.sub(" ", mark.content))
    return (
        f'<text x="{x}" y="{y}" font-family="{FONT}" font-size="{_n(font_size_mm(mark.height))}"{weight} '
        f'text-anchor="{mark.anchor}" fill="{ACCENT if mark.accent else INK}"{turn}{_role(mark.role)}>{content}</text>'
    )


def _mark(mark: Mark) -> str:
    match mark:
        case Text():
            return _text(mark)
        case Line():
            return _together([mark])
        case Shape():
            fill = _FILLS[mark.fill]
            return f'<polygon points="{_points(mark.points)}" fill="{fill}" {_stroke(mark.pen)}{_role(mark.role)}/>'
        case Circle():
            centre = f'cx="{_n(mark.x)}" cy="{_n(mark.y)}" r="{_n(mark.radius)}"'
            return f'<circle {centre} fill="{_FILLS[mark.fill]}" {_stroke(mark.pen)}{_role(mark.role)}/>'


def _together(lines: Sequence[Line]) -> str:
    """Lines of one pen and role that follow on each other, as one path: far quicker to typeset than each by itself."""
    steps = " ".join("M" + " L".join(f"{_n(x)} {_n(y)}" for x, y in line.points) for line in lines)
    return f'<path d="{steps}" fill="none" {_stroke(lines[0].pen)}{_role(lines[0].role)}/>'


def _bodies(marks: Sequence[Mark]) -> Iterator[str]:
    for (is_line, _, _), group in groupby(
        marks, key=lambda m: (True, m.pen, m.role) if isinstance(m, Line) else (False, None, "")
    ):
        if is_line:
            yield _together([mark for mark in group if isinstance(mark, Line)])
        else:
            yield from map(_mark, group)


def svg_marks(marks: Sequence[Mark]) -> str:
    """Marks as elements of an SVG document."""
    return "\n".join(_bodies(marks))


def svg_words(words: str) -> str:
    """Words as they may stand in an SVG document, between quotes too."""
    return escape(_NOT_XML.sub(" ", words), {'"': "&quot;"})


def to_svg(drawing: Drawing) -> str:
    """Render a drawing.

    Parameters
    ----------
    drawing : Drawing

    Returns
    -------
    str
        An SVG document; text in it is escaped and stays text.
    """
    width, height = _n(drawing.width), _n(drawing.height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">\n<title>{escape(_NOT_XML.sub(" ", drawing.title))}</title>\n'
        f"{svg_marks(drawing.marks)}\n</svg>\n"
    )
