"""Drawings that only the desk has: openings and sizes, sizes against packing, and a sheet as it stands after each cut."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from rodbook.boards import Board, CutList, Layout, Saw
from rodbook.boards.models import hundredths
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
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.cut_places import CutPlace, cut_places
from rodbook.papers.pictures.layout import inner_frame
from rodbook.papers.pictures.part_faces import short
from rodbook.sizes import Offer, PackerRange, StandardSize, Trade
from rodbook.working import Measure

__all__ = ["draw_cut", "draw_sizes", "draw_tradeoff", "freed_by", "svg_of", "working_lines", "written"]


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


# --- openings and sizes -----------------------------------------------------------------------------------------------

_ROOM = (190.0, 120.0)
"""Room for openings and sizes. [mm]"""

_FAR_MM = 36.0
"""Where nothing lies for so long, the picture is broken and goes on after a gap. [mm, real]"""

_BREAK, _AIR_MM = 9.0, 5.0
"""Width of such a gap [mm on paper], and what is shown around what lies beside it [mm, real]."""

_PER_MM = (3.0, 0.02)
"""Paper for each real millimetre, at most and at least."""


@dataclass(frozen=True)
class _Axis:
    """Real lengths along one edge of the picture, broken where nothing lies."""

    stretches: tuple[tuple[float, float], ...]
    per_mm: float

    def at(self, value: float) -> float:
        """Where a length comes to lie, from the axis' start. [mm on paper]"""
        place = 0.0
        for start, end in self.stretches:
            if value <= end:
                return place + (max(value, start) - start) * self.per_mm
            place += (end - start) * self.per_mm + _BREAK
        return place - _BREAK

    @property
    def length(self) -> float:
        """[mm on paper]"""
        return self.at(self.stretches[-1][1])

    @property
    def breaks(self) -> list[float]:
        """Middle of each gap. [mm on paper]"""
        return [self.at(end) + _BREAK / 2 for _, end in self.stretches[:-1]]


def _stretches(spans: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    found: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if found and low - found[-1][1] <= _FAR_MM:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return tuple((low - _AIR_MM, high + _AIR_MM) for low, high in found)


def _per_mm(stretches: Sequence[tuple[float, float]], room: float) -> float:
    real = sum(high - low for low, high in stretches)
    return (room - _BREAK * (len(stretches) - 1)) / real


def draw_sizes(
    offers: Sequence[Offer], sizes: Sequence[tuple[int, StandardSize]], packers: Mapping[str, PackerRange], *,
    offered: Mapping[str, tuple[Measure, ...]] | None = None, linings: Mapping[int, tuple[Measure, Measure]] | None = None,
) -> Drawing:  # fmt: skip
    """Draw openings as points, width across and height up, and each size as the corner that it reaches to.

    Parameters
    ----------
    offers : sequence of Offer
        What the openings offer.
    sizes : sequence of (int, StandardSize)
        With their numbers.
    packers : mapping of str to PackerRange
        By opening; they say how far a size can be packed out.
    offered : mapping of str to tuple of Measure, optional
        Width and height of each opening with their working, by its name.
    linings : mapping of int to tuple of Measure, optional
        Width and height of each lining with their working, by the size's number.
    """
    offered, linings = offered or {}, linings or {}
    reach = {number: _reach(size, packers[size.openings[0]]) for number, size in sizes}
    across = _stretches([(size.width, reach[n][0]) for n, size in sizes])
    up = _stretches([(size.height, reach[n][1]) for n, size in sizes])
    scale = min(_per_mm(across, _ROOM[0]), _per_mm(up, _ROOM[1]), _PER_MM[0])
    x, y = _Axis(across, max(scale, _PER_MM[1])), _Axis(up, max(scale, _PER_MM[1]))
    marks: list[Mark] = _axes(x, y, sizes, linings)
    for number, size in sizes:
        left, foot = x.at(size.width), -y.at(size.height)
        right, top = x.at(reach[number][0]), -y.at(reach[number][1])
        marks.append(rectangle((left, foot), (right, top), Pen.HIDDEN, Fill.TINT, role="reach"))
        marks.append(Line(((left, top), (left, foot), (right, foot)), Pen.CUT, "size"))
    points = {offer.name: (x.at(offer.width), -y.at(offer.height)) for offer in offers}
    marks += [Circle(px, py, 0.9, Pen.NONE, Fill.INK, "opening") for px, py in points.values()]
    taken = [(px - 0.9, py - 0.9, px + 0.9, py + 0.9) for px, py in points.values()]
    for number, size in sizes:
        asks = Asked(linings[number], f"size {number}, lining, width and height") if number in linings else None
        marks.append(replace(_size_name(number, x.at(size.width), -y.at(size.height), taken), asks=asks))
    for names, place in _alike(points).items():
        alike = names.split(", ")
        sizes_of = tuple(measure for name in alike for measure in offered.get(name, ()))
        word = "opening" if len(alike) == 1 else "openings"
        marks += _point_name(
            names, place, taken, Asked(sizes_of, f"{word} {names}, width and height") if sizes_of else None
        )
    count = f"{len(sizes)} sizes" if len(sizes) != 1 else "one size"
    return Drawing.around(
        marks,
        title=_("%(openings)s openings as points, and %(sizes)s as corners")
        % {"openings": len(offers), "sizes": count},
        scale=1,
    )


def _reach(size: StandardSize, packers: PackerRange) -> tuple[float, float]:
    """The widest and the highest opening that a size can be packed into. [mm]"""
    return size.width + 2 * packers.side_most, size.height + packers.head_most


def _axes(
    x: _Axis, y: _Axis, numbered: Sequence[tuple[int, StandardSize]], linings: Mapping[int, tuple[Measure, Measure]]
) -> list[Mark]:  # fmt: skip
    marks: list[Mark] = []
    for axis, horizontal in ((x, True), (y, False)):
        place = 0.0
        for start, end in axis.stretches:
            stop = place + (end - start) * axis.per_mm
            ends = ((place, 0.0), (stop, 0.0)) if horizontal else ((0.0, -place), (0.0, -stop))
            marks.append(Line(ends, Pen.FINE, "axis"))
            place = stop + _BREAK
        for middle in axis.breaks:
            for side in (-0.9, 0.9):
                at = middle + side
                ends = ((at - 0.8, 2.0), (at + 0.8, -2.0)) if horizontal else ((-2.0, -at + 0.8), (2.0, -at - 0.8))
                marks.append(Line(ends, Pen.FINE, "break"))
    across = {size.width: linings[n][0] if n in linings else None for n, size in numbered}
    up = {size.height: linings[n][1] if n in linings else None for n, size in numbered}
    for found, axis, horizontal in ((across, x, True), (up, y, False)):
        values = sorted(found)
        sides = [text_width_mm(short(v), LEAST_MM) if horizontal else LEAST_MM for v in values]
        spots = spread([axis.at(v) for v in values], sides, gap=1.5)
        for value, spot in zip(values, spots, strict=True):
            at, measure = axis.at(value), found[value]
            asks = Asked((measure,)) if measure else None
            if horizontal:
                marks.append(Line(((at, 0.0), (at, 1.6), (spot, 3.2)), Pen.DIMENSION, "tick"))
                marks.append(Text(spot, 5.2, short(value), role="figure", asks=asks))
            else:
                marks.append(Line(((0.0, -at), (-1.6, -at), (-3.2, -spot)), Pen.DIMENSION, "tick"))
                marks.append(Text(-4.0, -spot, short(value), anchor="end", role="figure", asks=asks))
    marks.append(Text(x.length, 9.6, "width, mm", anchor="end", role="axis"))
    marks.append(Text(0.0, -y.length - 3.6, "height, mm", anchor="middle", role="axis"))
    return marks


def _size_name(number: int, left: float, foot: float, taken: list[tuple[float, float, float, float]]) -> Text:
    name = Text(left + 1.4, foot + 2.8, f"size {number}", anchor="start", bold=True, role="size")
    taken.append((name.x - 0.5, name.y - 1.8, name.x + text_width_mm(name.content, LEAST_MM, bold=True), name.y + 1.8))
    return name


def _alike(points: Mapping[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    """Names of the openings at each point, written together."""
    names: dict[tuple[float, float], list[str]] = {}
    for name, (px, py) in points.items():
        names.setdefault((round(px, 2), round(py, 2)), []).append(name)
    return {", ".join(found): place for place, found in names.items()}


def _point_name(
    names: str, place: tuple[float, float], taken: list[tuple[float, float, float, float]], asks: Asked | None
) -> list[Mark]:  # fmt: skip
    """A name beside its point, wherever there is room around it; with a thin line where that is further away.

    Name and point can be touched as one where they stand together, else each by itself.
    """
    (px, py), wide, high = place, text_width_mm(names, LEAST_MM), LEAST_MM + 0.6
    for away in (1.6, 4.2, 7.4, 11.0, 15.0):
        for dx, dy in ((1, 0), (0, -1), (-1, 0), (0, 1), (0.8, -0.8), (-0.8, -0.8), (0.8, 0.8), (-0.8, 0.8)):
            cx, cy = px + dx * (away + wide / 2), py + dy * (away + high / 2)
            box = (cx - wide / 2 - 0.3, cy - high / 2, cx + wide / 2 + 0.3, cy + high / 2)
            if any(box[0] < t[2] and t[0] < box[2] and box[1] < t[3] and t[1] < box[3] for t in taken):
                continue
            taken.append(box)
            marks: list[Mark] = [Text(cx, cy, names, role="opening", asks=asks)]
            if asks:
                alone = replace(asks, ends=(place,)) if away > 5 else asks
                marks.insert(0, Circle(px, py, 0.9, Pen.NONE, role="point", asks=alone))
            if away > 2:
                end = cx - dx * wide / 2 if dx else cx, cy - dy * high / 2
                marks.insert(0, Line(((px, py), end), Pen.DIMENSION, "leader"))
            return marks
    return [Text(px + 1.6, py, names, anchor="start", role="opening", asks=asks)]


def draw_tradeoff(trades: Sequence[Trade], now: int) -> Drawing:
    """Draw the number of sizes across and all the packing up, as steps; where the job stands is ringed.

    Parameters
    ----------
    trades : sequence of Trade
        At least one.
    now : int
        The number of sizes that the job has.
    """
    step, high = min(16.0, 130.0 / len(trades)), 52.0
    most = max(trade.choice.packing_mm for trade in trades) or 1.0
    marks: list[Mark] = [Line(((0.0, -high - 4), (0.0, 0.0), (step * len(trades) + 2, 0.0)), Pen.FINE, "axis")]
    every = next(n for n in (1, 2, 5, 10, 20) if step * n >= 5.0)
    path: list[tuple[float, float]] = []
    for k, trade in enumerate(trades):
        y = -trade.choice.packing_mm / most * high
        path += [(k * step, y), ((k + 1) * step, y)]
        if k % every == 0 or trade.number == now:
            marks.append(Text((k + 0.5) * step, 3.2, str(trade.number), bold=trade.number == now, role="figure"))
        if trade.number == now:
            marks.append(rectangle((k * step, 0.0), ((k + 1) * step, y), Pen.NONE, Fill.TINT, role="now"))
    marks.append(Line(tuple(path), Pen.CUT, "steps"))
    for k, trade in enumerate(trades):
        y = -trade.choice.packing_mm / most * high
        if trade.number == now:
            marks += [Circle((k + 0.5) * step, y, 1.6, Pen.OUTLINE, Fill.PAPER, "now")]
    marks.append(Text(step * len(trades) + 2, 7.2, "sizes", anchor="end", role="axis"))
    marks.append(Text(-1.5, -high, f"{short(round(most, 1))} mm", anchor="end", role="figure"))
    marks.append(Text(-1.5, 0.0, "0", anchor="end", role="figure"))
    marks.append(Text(0.0, -high - 6.4, _("all the packing"), anchor="middle", role="axis"))
    return Drawing.around(marks, title=_("All the packing against the number of sizes, as steps downwards"), scale=1)


# --- a sheet, cut by cut -----------------------------------------------------------------------------------------------

_SHEET_ROOM = (250.0, 123.0)
_RING = 2.4


def freed_by(layout: Layout, saw: Saw) -> list[tuple[Board, tuple[tuple[str, Board], ...]]]:
    """For each cut of a layout's list, in order: the board that is on the saw, and what the cut sets free with its label.

    The first four cuts take off the raw edges where the saw is set to; they set nothing free.
    """
    sheet = Board("cut", 0.0, 0.0, layout.length, layout.width)
    found: list[tuple[Board, tuple[tuple[str, Board], ...]]] = [(sheet, ())] * (4 if hundredths(saw.edge_trim) else 0)
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
            found.append((board, tuple(free)))
        waiting = [(name, part) for name, part in named if part.use == "cut"] + waiting
    return found


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
        *arrow((ax, ay), (ax - 2 * dx, ay - 2 * dy)), *arrow((bx, by), (bx + 2 * dx, by + 2 * dy)),
    ]  # fmt: skip
    x, y = ax - 2 * dx - (_RING if dx else 0), ay - 2 * dy - (_RING if dy else 0)
    radius = max(_RING, text_width_mm(str(place.number), LEAST_MM, bold=True) / 2 + 0.6)
    marks += [Circle(x, y, radius, Pen.OUTLINE, Fill.PAPER, "next cut"),
              Text(x, y, str(place.number), bold=True, role="next cut")]  # fmt: skip
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
