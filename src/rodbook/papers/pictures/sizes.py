"""Openings as points and standard sizes as the corners that they reach to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Asked, Circle, Drawing, Fill, Line, Mark, Pen, Text, rectangle
from rodbook.papers.drawing.spread import spread
from rodbook.papers.pictures.part_faces import short
from rodbook.sizes import Offer, PackerRange, StandardSize
from rodbook.working import Measure

__all__ = ["draw_sizes"]

_ROOM = (190.0, 120.0)
"""Room for openings and sizes on a page of the desk. [mm]"""

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
    results: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if results and low - results[-1][1] <= _FAR_MM:
            results[-1] = (results[-1][0], max(results[-1][1], high))
        else:
            results.append((low, high))
    return tuple((low - _AIR_MM, high + _AIR_MM) for low, high in results)


def _per_mm(stretches: Sequence[tuple[float, float]], room: float) -> float:
    real = sum(high - low for low, high in stretches)
    return (room - _BREAK * (len(stretches) - 1)) / real


def draw_sizes(
    offers: Sequence[Offer],
    sizes: Sequence[tuple[int, StandardSize]],
    packers: Mapping[str, PackerRange],
    *,
    offered: Mapping[str, tuple[Measure, ...]] | None = None,
    linings: Mapping[int, tuple[Measure, Measure]] | None = None,
    room: tuple[float, float] = _ROOM,
) -> Drawing:
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
    room : tuple of float
        What there is for it without its lettering, across and up. [mm on paper]
    """
    offered, linings = offered or {}, linings or {}
    reach = {number: _reach(size, packers[size.openings[0]]) for number, size in sizes}
    across = _stretches([(size.width, reach[n][0]) for n, size in sizes])
    up = _stretches([(size.height, reach[n][1]) for n, size in sizes])
    scale = min(_per_mm(across, room[0]), _per_mm(up, room[1]), _PER_MM[0])
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
        title=f"{len(offers)} openings as points, and {count} as corners",
        scale=1,
    )


def _reach(size: StandardSize, packers: PackerRange) -> tuple[float, float]:
    """The widest and the highest opening that a size can be packed into. [mm]"""
    return size.width + 2 * packers.side_most, size.height + packers.head_most


def _axes(
    x: _Axis, y: _Axis, numbered: Sequence[tuple[int, StandardSize]], linings: Mapping[int, tuple[Measure, Measure]]
) -> list[Mark]:
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
    for result, axis, horizontal in ((across, x, True), (up, y, False)):
        values = sorted(result)
        sides = [text_width_mm(short(v), LEAST_MM) if horizontal else LEAST_MM for v in values]
        spots = spread([axis.at(v) for v in values], sides, gap=1.5)
        for value, spot in zip(values, spots, strict=True):
            at, measure = axis.at(value), result[value]
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
    return {", ".join(result): place for place, result in names.items()}


def _point_name(
    names: str, place: tuple[float, float], taken: list[tuple[float, float, float, float]], asks: Asked | None
) -> list[Mark]:
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
