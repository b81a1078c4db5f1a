"""How parts lie on a sheet or a length, with the cuts numbered in the order in which they are made."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from rodbook.boards import USABLE_OFFCUT_MM, BarPattern, CutList, Layout, Offcut, Placed, Saw
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import (
    Asked,
    Circle,
    Drawing,
    Fill,
    Line,
    Mark,
    Pen,
    Text,
    View,
    arrow,
    box_of,
    on_plate,
    rectangle,
)
from rodbook.papers.drawing.scales import fitting_scale, scale_bar
from rodbook.papers.drawing.spread import spread
from rodbook.papers.pictures.cut_places import CutPlace, cut_places
from rodbook.papers.pictures.part_faces import short
from rodbook.working import Measure

__all__ = ["LENGTH_ROOM_MM", "SHEET_ROOM_MM", "draw_length", "draw_sheet", "inner_frame"]

SHEET_ROOM_MM = (250.0, 123.0)
"""Room for a sheet on its page. [mm]"""

LENGTH_ROOM_MM = 250.0
"""Room for a length. [mm]"""

_RING = 2.15
"""Radius of the ring around a cut's number. [mm]"""

_AWAY = 3.4
"""From the sheet's edge to the middle of the rings outside it. [mm]"""

_INSET = 0.8
"""Between the two outlines of a piece wanted elsewhere. [mm]"""

_STRIP = 9.0
"""Height at which a length is drawn; across it is not to scale. [mm]"""


def _ring(x: float, y: float, number: int) -> tuple[Mark, ...]:
    radius = max(_RING, text_width_mm(str(number), LEAST_MM) / 2 + 0.4)
    return (
        Circle(x, y, radius, Pen.FINE, Fill.PAPER, "cut ring"),
        Text(x, y, str(number), bold=True, role=f"cut {number}"),
    )


type Sizes = Mapping[str, tuple[Measure, ...]]
"""Length and width of each part with their working, by its mark."""


def _asked(sizes: Sizes | None, name: str, x: float, y: float) -> Asked | None:
    """What a part says when it is touched; the place tells it from others like it."""
    if not sizes or name not in sizes:
        return None
    words = "length and width" if len(sizes[name]) > 1 else "length"
    return Asked(sizes[name], f"{name}, {words}", ((x, y),))


def draw_sheet(
    layout: Layout,
    cuts: CutList,
    saw: Saw,
    *,
    grain: bool,
    sizes: Sizes | None = None,
    keep: str | None = "",
    wanted: Collection[str] = (),
) -> Drawing:
    """Draw one sheet.

    Parameters
    ----------
    layout : Layout
    cuts : CutList
        Of that layout.
    saw : Saw
    grain : bool
        Whether the board has a grain; it runs along the sheet.
    sizes : mapping of str to tuple of Measure, optional
        Length and width of each part, by its mark.
    keep : str, optional
        What is to be written on the offcut that is kept; None where none is.
    wanted : collection of str, optional
        Names of pieces that are none of the job's own: they are cut from what would be waste.

    Returns
    -------
    Drawing
        Parts with mark and size, cuts with their numbers, offcuts hatched, raw edges as broken lines; what is wanted
        elsewhere has a second, broken outline within its own.
    """
    scale = fitting_scale(layout.length, layout.width, SHEET_ROOM_MM, largest=2)
    view = View(scale)
    corner = view.at(layout.length, layout.width)
    marks: list[Mark] = [rectangle((0.0, 0.0), corner, Pen.HIDDEN, role="raw edge")]
    for offcut in layout.offcuts:
        kept = f"keep {keep}" if keep else "offcut, keep"
        is_kept = keep is not None and offcut == layout.largest_offcut
        marks += _offcut(offcut, view, kept if is_kept else "offcut")
    outside: list[tuple[float, str]] = []
    for placed in layout.placed:
        ends = view.at(placed.x, placed.y), view.at(placed.x + placed.length, placed.y + placed.width)
        of_job = placed.name not in wanted
        marks.append(rectangle(*ends, Pen.OUTLINE, Fill.PAPER, role="piece" if of_job else "wanted"))
        marks += [] if of_job else inner_frame(*ends)
    for placed in layout.placed:
        label = _label(placed, view, sizes, role="wanted" if placed.name in wanted else "piece")
        marks += label
        if not label:
            outside.append((view.x(placed.x + placed.length / 2), placed.name))
            marks.append(
                Circle(
                    view.x(placed.x + placed.length / 2),
                    view.y(placed.y + placed.width / 2),
                    0.5,
                    Pen.NONE,
                    Fill.INK,
                    "pointer",
                )
            )
    places = cut_places(layout, cuts, saw)
    marks += [_cut_line(place, view) for place in places]
    marks += _numbers(places, layout, view)
    marks += _outside_labels(outside, layout, view, sizes)
    foot = box_of(marks).bottom
    marks += scale_bar(0.0, foot + 2.4, scale)
    if grain:
        y = foot + 4.0
        middle = corner[0] - 12.0
        marks.append(Text(middle - 14.0, y, "grain", anchor="end", role="grain"))
        marks += [*arrow((middle + 12.0, y), (middle, y)), *arrow((middle - 12.0, y), (middle, y))]
    return Drawing.around(marks, title=_title(layout, wanted), scale=scale)


def _title(layout: Layout, wanted: Collection[str]) -> str:
    more = sum(placed.name in wanted for placed in layout.placed)
    elsewhere = f", {more} pieces wanted elsewhere" if more else ""
    return (
        f"Layout of {layout.sheet}, {short(layout.length)} by {short(layout.width)} mm: "
        f"{len(layout.placed) - more} parts{elsewhere}, {len(layout.offcuts)} offcuts"
    )


def inner_frame(corner: tuple[float, float], other: tuple[float, float]) -> list[Mark]:
    """A broken outline within a piece's own, which says, in black and white too, that it is none of the job's parts."""
    (left, top), (right, bottom) = corner, other
    inset = min(_INSET, (right - left) / 4, (bottom - top) / 4)
    return [
        rectangle((left + inset, top + inset), (right - inset, bottom - inset), Pen.HIDDEN, role="wanted elsewhere")
    ]


def _cut_line(place: CutPlace, view: View) -> Line:
    if place.direction == "along":
        ends = view.at(place.start, place.at), view.at(place.end, place.at)
    else:
        ends = view.at(place.at, place.start), view.at(place.at, place.end)
    return Line(ends, Pen.HIDDEN if place.trim else Pen.DIMENSION, f"cut line {place.number}")


def _numbers(places: Iterable[CutPlace], layout: Layout, view: View) -> list[Mark]:
    """Numbers outside the sheet for cuts that reach its edge, on the line itself for the others."""
    marks: list[Mark] = []
    left: list[tuple[float, int]] = []
    over: list[tuple[float, int]] = []
    first_x, first_y = layout.tree.x, layout.tree.y
    for place in places:
        if place.direction == "along" and place.start <= first_x + 1e-6:
            left.append((view.y(place.at), place.number))
        elif place.direction == "across" and place.start <= first_y + 1e-6:
            over.append((view.x(place.at), place.number))
        elif place.direction == "along":
            marks += _ring(view.x(place.start) + 3.2, view.y(place.at), place.number)
        else:
            room = view.y(place.end) - view.y(place.start)
            marks += _ring(view.x(place.at), view.y(place.start) + min(3.2, room / 2), place.number)
    for lineup, upright in ((left, True), (over, False)):
        spots = spread([at for at, _ in lineup], [2 * _RING + 0.7] * len(lineup), gap=0.2)
        for (at, number), spot in zip(lineup, spots, strict=True):
            near, far = (-0.2, at), (-_AWAY + _RING, spot)
            ends = (near, far) if upright else (near[::-1], far[::-1])
            marks.append(Line(ends, Pen.DIMENSION))
            marks += _ring(*((-_AWAY, spot) if upright else (spot, -_AWAY)), number)
    return marks


def _lines_that_fit(candidates: Iterable[tuple[str, ...]], wide: float, high: float) -> tuple[str, ...]:
    """The fullest label that fits a room."""
    for lines in candidates:
        if (
            max(text_width_mm(line, LEAST_MM, bold=True) for line in lines) <= wide - 1.6
            and len(lines) * (LEAST_MM + 1.5) <= high - 0.2
        ):
            return lines
    return ()


def _label(placed: Placed, view: View, sizes: Sizes | None, *, role: str) -> list[Mark]:
    """Mark and size inside a part, turned where that is how they fit; nothing where they do not fit at all."""
    size = f"{short(placed.length)} × {short(placed.width)}"
    if placed.turned:
        size = f"{short(placed.width)} × {short(placed.length)} turned"
    frame = 2 * _INSET if role == "wanted" else 0.0
    wide, high = placed.length / view.scale - frame, placed.width / view.scale - frame
    full = ((f"{placed.name} · {size}",), (placed.name, size))
    short_of = ((placed.name, size.removesuffix(" turned")), (placed.name,))
    lines: tuple[str, ...] = ()
    upright = False
    for candidates in (full, short_of):
        for turned, room in ((False, (wide, high)), (True, (high, wide))):
            if not lines:
                lines, upright = _lines_that_fit(candidates, *room), turned
    x, y = view.at(placed.x + placed.length / 2, placed.y + placed.width / 2)
    marks: list[Mark] = []
    for n, line in enumerate(lines):
        step = (n - (len(lines) - 1) / 2) * (LEAST_MM + 1.6)
        place = (x + step, y) if upright else (x, y + step)
        asks = _asked(sizes, placed.name, x, y)
        marks.append(Text(*place, line, upright=upright, bold=n == 0, role=role, asks=asks))
    return marks


def _offcut(offcut: Offcut, view: View, word: str) -> list[Mark]:
    """Hatched; with its size where it is worth keeping and there is room."""
    shape = rectangle(
        view.at(offcut.x, offcut.y), view.at(offcut.x + offcut.length, offcut.y + offcut.width), Pen.FINE, role="offcut"
    )
    marks: list[Mark] = [*hatch(shape.points, step=2.4), shape]
    if min(offcut.length, offcut.width) < USABLE_OFFCUT_MM:
        return marks
    size = f"{short(offcut.length)} × {short(offcut.width)}"
    wide, high = offcut.length / view.scale, offcut.width / view.scale
    candidates = ((f"{word} {size}",), (word, size), (size,))
    level, turned = _lines_that_fit(candidates, wide, high), _lines_that_fit(candidates, high, wide)
    lines, upright = (level, False) if level else (turned, True)
    x, y = view.at(offcut.x + offcut.length / 2, offcut.y + offcut.width / 2)
    for n, line in enumerate(lines):
        step = (n - (len(lines) - 1) / 2) * (LEAST_MM + 1.6)
        place = (x + step, y) if upright else (x, y + step)
        marks += on_plate(Text(*place, line, upright=upright, role="offcut"), air=0.5)
    return marks


def _outside_labels(labels: list[tuple[float, str]], layout: Layout, view: View, sizes: Sizes | None) -> list[Mark]:
    """Marks of parts too small for lettering, in a row under the sheet, each with a line to its part's column."""
    if not labels:
        return []
    foot = view.y(layout.width)
    widths = [text_width_mm(name, LEAST_MM) for _, name in labels]
    spots = spread([x for x, _ in labels], widths, gap=2.0, low=0.0)
    marks: list[Mark] = []
    for (x, name), spot in zip(labels, spots, strict=True):
        marks.append(Line(((x, foot + 0.4), (spot, foot + 3.0)), Pen.DIMENSION))
        marks.append(Text(spot, foot + 5.0, name, role="piece", asks=_asked(sizes, name, spot, foot)))
    return marks


def draw_length(pattern: BarPattern, sizes: Sizes | None = None) -> Drawing:
    """Draw one way of cutting a length: to scale along it, not across.

    Parameters
    ----------
    pattern : BarPattern
    sizes : mapping of str to tuple of Measure, optional
        Length of each part, by its mark.

    Returns
    -------
    Drawing
        Parts with mark and length in the order in which they are cut, cuts numbered, the first of them square off the raw end
        at the left; the rest hatched as far as the raw end at the right.
    """
    scale = fitting_scale(pattern.length, 1.0, (LENGTH_ROOM_MM, _STRIP), largest=5)
    view = View(scale)
    end = view.x(pattern.length)
    marks: list[Mark] = [rectangle((0.0, 0.0), (end, _STRIP), Pen.HIDDEN, role="raw edge")]
    rings: list[tuple[float, int]] = [(view.x(pattern.start), 1)] if pattern.start else []
    for number, cut in enumerate(pattern.cuts, len(rings) + 1):
        start, stop = view.x(cut.position), view.x(cut.position + cut.length)
        marks.append(rectangle((start, 0.0), (stop, _STRIP), Pen.OUTLINE, Fill.PAPER, role="piece"))
        lines = _lines_that_fit(
            ((f"{cut.name} · {short(cut.length)}",), (cut.name, short(cut.length)), (cut.name,)), stop - start, _STRIP
        )
        for n, line in enumerate(lines):
            step = (n - (len(lines) - 1) / 2) * (LEAST_MM + 1.4)
            middle = (start + stop) / 2
            asks = _asked(sizes, cut.name, middle, 0.0)
            marks.append(Text(middle, _STRIP / 2 + step, line, bold=n == 0, role="piece", asks=asks))
        if cut.position + cut.length < pattern.length - 1e-6:
            rings.append((stop, number))
    if pattern.remainder > 1e-6:
        far = pattern.length - pattern.end
        marks += _rest(view.x(far - pattern.remainder), view.x(far), pattern.remainder)
    spots = spread([x for x, _ in rings], [2 * _RING + 0.6] * len(rings))
    for (x, number), spot in zip(rings, spots, strict=True):
        marks.append(Line(((x, -0.2), (spot, -_AWAY + _RING)), Pen.DIMENSION))
        marks += _ring(spot, -_AWAY, number)
    marks += scale_bar(0.0, _STRIP + 2.2, scale)
    names = ", ".join(cut.name for cut in pattern.cuts)
    return Drawing.around(marks, title=f"{pattern.bar} cut into {names}", scale=scale)


def _rest(start: float, end: float, remainder: float) -> list[Mark]:
    shape = rectangle((start, 0.0), (end, _STRIP), Pen.FINE, role="offcut")
    marks: list[Mark] = [*hatch(shape.points, step=2.0), shape]
    words = f"rest {short(remainder)}"
    if text_width_mm(words, LEAST_MM) + 2 <= end - start:
        marks += on_plate(Text((start + end) / 2, _STRIP / 2, words, role="offcut"), air=0.5)
    return marks
