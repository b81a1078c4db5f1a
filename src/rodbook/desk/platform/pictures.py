"""Drawings that only the desk has: a sheet as it stands after each cut; and drawings made ready for a page."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace

from django.utils.translation import gettext as _

from rodbook.boards import Board, CutList, Layout, Saw
from rodbook.boards.models import hundredths
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import (
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
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.cut_places import CutPlace, cut_places
from rodbook.papers.pictures.layout import inner_frame
from rodbook.working import Measure

__all__ = ["draw_cut", "freed_by", "svg_of", "working_lines", "written"]


def svg_of(drawing: Drawing, write: Numbers) -> str:
    """A drawing as a picture for a page: figures as the book's locale writes them, one image to those who hear it."""
    return to_svg(written(drawing, write)).replace("<svg ", '<svg role="img" ', 1)


def written(drawing: Drawing, write: Numbers) -> Drawing:
    """A drawing with its figures as the book's locale writes them."""
    if write.in_working("0.5") == "0.5":
        return drawing
    marks = (replace(m, content=write.in_working(m.content)) if isinstance(m, Text) else m for m in drawing.marks)
    return replace(drawing, marks=tuple(marks), title=write.in_working(drawing.title))


def working_lines(measures: Iterable[Measure], write: Numbers) -> tuple[str, ...]:
    """The lines of the working of several sizes, given values first, none twice, as the book's locale writes them."""
    lines = tuple(dict.fromkeys(line for measure in measures for line in measure.trail()))
    return lines if write.in_working("0.5") == "0.5" else tuple(map(write.in_working, lines))


# --- a sheet, cut by cut -----------------------------------------------------------------------------------------------

_SHEET_ROOM = (250.0, 123.0)
_RING = 2.4


def freed_by(layout: Layout, saw: Saw) -> list[tuple[Board, tuple[tuple[str, Board], ...]]]:
    """For each cut of a layout's list, in order: the board that is on the saw, and what the cut sets free with its label.

    The first four cuts take off the raw edges where the saw is set to; they set nothing free.
    """
    sheet = Board("cut", 0.0, 0.0, layout.length, layout.width)
    results: list[tuple[Board, tuple[tuple[str, Board], ...]]] = [(sheet, ())] * (4 if hundredths(saw.edge_trim) else 0)
    waiting = [("", layout.tree)] if layout.tree.use == "cut" else []
    while waiting:
        label, board = waiting.pop(0)
        names = [f"{label}.{n}".removeprefix(".") for n in range(1, len(board.parts) + 1)]
        last = board.parts[-1]
        across = board.cut == "across"
        ends = (
            (last.x + last.length, board.x + board.length) if across else (last.y + last.width, board.y + board.width)
        )
        flush = hundredths(ends[0]) == hundredths(ends[1])
        named = list(zip(names, board.parts, strict=True))
        cuts = len(named) - flush
        for k in range(cuts):
            free = named[k:] if flush and k == cuts - 1 else named[k : k + 1]
            results.append((board, tuple(free)))
        waiting = [(name, part) for name, part in named if part.use == "cut"] + waiting
    return results


def draw_cut(
    layout: Layout, cuts: CutList, saw: Saw, made: int, *, grain: bool, wanted: Collection[str] = ()
) -> Drawing:
    """Draw a sheet after so many cuts, with the next one marked.

    Parameters
    ----------
    layout : Layout
    cuts : CutList
        Of that layout.
    saw : Saw
    made : int
        How many cuts are made; with all of them made none is marked.
    grain : bool
        Whether the board has a grain; it runs along the sheet.
    wanted : collection of str, optional
        Names of pieces that are none of the job's own.
    """
    scale = fitting_scale(layout.length, layout.width, _SHEET_ROOM, largest=2)
    view = View(scale)
    places, freed = cut_places(layout, cuts, saw), freed_by(layout, saw)
    marks: list[Mark] = [_outline(Board("cut", 0.0, 0.0, layout.length, layout.width), view, Pen.HIDDEN, "raw edge")]
    if made >= len(freed) - len([f for f in freed if f[1]]):
        marks.append(_outline(layout.tree, view, Pen.OUTLINE, "sheet"))
    on_saw = freed[made][0] if made < len(freed) else None
    if on_saw is not None:
        marks.append(_outline(on_saw, view, Pen.NONE, "on the saw", Fill.TINT))
    marks += [Line(_ends(place, view), Pen.HIDDEN, "cut to come") for place in places[made + 1 :] if not place.trim]
    taken_up = [board for board, _ in freed[: made + 1]]
    for _board, free in freed[:made]:
        for label, board in free:
            named = board.use != "cut" or board not in taken_up
            marks += _freed(label, board, view, named=named, elsewhere=board.name in wanted)
    if on_saw is not None:
        marks.append(_outline(on_saw, view, Pen.CUT, "on the saw"))
        marks += _next_cut(places[made], view)
    foot = box_of(marks).bottom
    marks += scale_bar(0.0, foot + 2.4, scale)
    if grain:
        middle, y = view.x(layout.length) - 12.0, foot + 4.0
        marks.append(Text(middle - 14.0, y, "grain", anchor="end", role="grain"))
        marks += [*arrow((middle + 12.0, y), (middle, y)), *arrow((middle - 12.0, y), (middle, y))]
    title = _("%(sheet)s after %(made)s of %(all)s cuts") % {"sheet": layout.sheet, "made": made, "all": len(places)}
    if on_saw:
        title += _(", the next one marked")
    return Drawing.around(marks, title=title, scale=scale)


def _outline(board: Board, view: View, pen: Pen, role: str, fill: Fill = Fill.NONE) -> Mark:
    ends = view.at(board.x, board.y), view.at(board.x + board.length, board.y + board.width)
    return rectangle(*ends, pen, fill, role=role)


def _ends(place: CutPlace, view: View) -> tuple[tuple[float, float], tuple[float, float]]:
    if place.direction == "along":
        return view.at(place.start, place.at), view.at(place.end, place.at)
    return view.at(place.at, place.start), view.at(place.at, place.end)


def _next_cut(place: CutPlace, view: View) -> list[Mark]:
    """A heavy line with arrows from both sides, and its number in a ring."""
    (ax, ay), (bx, by) = _ends(place, view)
    reach = 3.0
    dx, dy = (reach, 0.0) if place.direction == "along" else (0.0, reach)
    marks: list[Mark] = [
        Line(((ax - dx, ay - dy), (bx + dx, by + dy)), Pen.CUT, "next cut"),
        *arrow((ax, ay), (ax - 2 * dx, ay - 2 * dy)),
        *arrow((bx, by), (bx + 2 * dx, by + 2 * dy)),
    ]
    x, y = ax - 2 * dx - (_RING if dx else 0), ay - 2 * dy - (_RING if dy else 0)
    radius = max(_RING, text_width_mm(str(place.number), LEAST_MM, bold=True) / 2 + 0.6)
    marks += [
        Circle(x, y, radius, Pen.OUTLINE, Fill.PAPER, "next cut"),
        Text(x, y, str(place.number), bold=True, role="next cut"),
    ]
    return marks


def _freed(label: str, board: Board, view: View, *, named: bool, elsewhere: bool) -> list[Mark]:
    """What a cut has set free: a piece with its mark, a board still to be cut with its number, an offcut hatched.

    A piece wanted elsewhere has a second outline.
    """
    ends = view.at(board.x, board.y), view.at(board.x + board.length, board.y + board.width)
    shape = rectangle(*ends, Pen.OUTLINE, Fill.PAPER if board.use == "piece" else Fill.NONE, role=board.use)
    marks: list[Mark] = [shape, *(inner_frame(*ends) if elsewhere else [])]
    if board.use == "offcut":
        marks = [*hatch(shape.points, step=2.4), shape]
    if not named:
        return marks
    words = board.name if board.use == "piece" else f"board {label}" if board.use == "cut" else label
    wide, high = board.length / view.scale, board.width / view.scale
    room = text_width_mm(words, LEAST_MM, bold=True) + 1.4
    upright = room > wide
    if (high if upright else wide) < room or (wide if upright else high) < LEAST_MM + 1.0:
        return marks
    x, y = view.at(board.x + board.length / 2, board.y + board.width / 2)
    return [*marks, *on_plate(Text(x, y, words, upright=upright, bold=True, role=board.use), air=0.4)]
