"""Do the holes in one part leave enough wood between them, to its edges and faces, to lippings and to cut-outs?

The general check: name everything that is bored or cut, and it lists the pairs that come too near, each with its distance
and with what would be right. Frame as in `solids`: x from the left edge and y from the top edge, seen from the inner face.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Literal

from rodbook.errors import Fault, InputError, Message
from rodbook.hinges.solids import Box, Cylinder, Solid, clear_distance
from rodbook.job.units import THROUGH, Depth

__all__ = ["Clash", "CutOut", "EdgeHole", "FaceHole", "Least", "Lipping", "PartSize", "clashes"]

type Edge = Literal["left", "right", "top", "bottom"]


@dataclass(frozen=True)
class PartSize:
    """The part that is bored. [mm]"""

    width: float
    length: float
    thickness: float


@dataclass(frozen=True)
class FaceHole:
    """A hole in a face: a cup, a pilot, a plate hole, a shelf pin.

    Parameters
    ----------
    name : str
    x, y : float
        Centre, from the left and the top edge, **seen from the inner face** for holes in either face. [mm]
    diameter : float
        [mm]
    depth : float or "through"
        To the end of the drill's point; or right through the part, out of its other face. [mm]
    face : str
        "inner" or "outer".
    """

    name: str
    x: float
    y: float
    diameter: float
    depth: Depth
    face: Literal["inner", "outer"] = "inner"

    @property
    def through(self) -> bool:
        """Whether both its ends are meant to be open."""
        return self.depth == THROUGH

    def solid(self, part: PartSize) -> Cylinder:
        """The hole as a body in the part."""
        depth = part.thickness if isinstance(self.depth, str) else self.depth
        if self.face == "inner":
            return Cylinder((self.x, self.y, 0.0), 2, 1, self.diameter / 2, depth)
        return Cylinder((self.x, self.y, part.thickness), 2, -1, self.diameter / 2, depth)


@dataclass(frozen=True)
class EdgeHole:
    """A hole in an edge: a dowel, a lock's bolt, a cable.

    Parameters
    ----------
    name : str
    edge : str
        "left", "right", "top" or "bottom".
    along : float
        Centre: down from the top on a left or right edge, in from the left on a top or bottom one. [mm]
    from_face : float
        Centre from the inner face. [mm]
    diameter, depth : float
        [mm]
    """

    name: str
    edge: Edge
    along: float
    from_face: float
    diameter: float
    depth: float

    def solid(self, part: PartSize) -> Cylinder:
        """The hole as a body in the part."""
        radius = self.diameter / 2
        if self.edge in {"left", "right"}:
            x, way = (0.0, 1) if self.edge == "left" else (part.width, -1)
            return Cylinder((x, self.along, self.from_face), 0, way, radius, self.depth)
        y, way = (0.0, 1) if self.edge == "top" else (part.length, -1)
        return Cylinder((self.along, y, self.from_face), 1, way, radius, self.depth)


@dataclass(frozen=True)
class CutOut:
    """A squared cut: the pocket of a lock, a rebate, a groove.

    Parameters
    ----------
    name : str
    x, y, z : tuple of float
        From and to, in the part's frame. [mm]
    """

    name: str
    x: tuple[float, float]
    y: tuple[float, float]
    z: tuple[float, float]

    def solid(self, _part: PartSize) -> Box:
        """The cut as a body in the part."""
        return Box((self.x[0], self.y[0], self.z[0]), (self.x[1], self.y[1], self.z[1]))


@dataclass(frozen=True)
class Lipping:
    """A strip of solid timber glued to an edge; a hole must not cut its glue line. [mm]"""

    edge: Edge
    thickness: float

    @property
    def name(self) -> str:
        """What it is called in the list of clashes."""
        return f"the glue line of the {self.edge} lipping"

    def solid(self, part: PartSize) -> Box:
        """The glue line, a sheet without thickness."""
        t, w, h = self.thickness, part.width, part.length
        at = {"left": (t, t), "right": (w - t, w - t), "top": (0.0, w), "bottom": (0.0, w)}[self.edge]
        up = {"left": (0.0, h), "right": (0.0, h), "top": (t, t), "bottom": (h - t, h - t)}[self.edge]
        return Box((at[0], up[0], 0.0), (at[1], up[1], part.thickness))


@dataclass(frozen=True)
class Least:
    """Least wood that is left, all house assumptions. [mm]

    Parameters
    ----------
    between : float
        Two holes or cuts.
    to_edge : float
        A hole in a face to the part's edges; 3 mm is the least common boring distance of a cup (common practice).
    to_face : float
        Any hole to the face that it must not come through, or to the faces beside it.
    to_glue_line : float
        A hole to a lipping's glue line.
    """

    between: float = 3.0
    to_edge: float = 3.0
    to_face: float = 2.0
    to_glue_line: float = 1.0


@dataclass(frozen=True)
class Clash:
    """Two things that come too near.

    Parameters
    ----------
    first, second : str
        Their names.
    distance_mm : float
        Wood left between them; zero where they meet, below zero beyond an edge or a face. [mm]
    least_mm : float
        What it would have to be. [mm]
    remedy : Message
        What would be right.
    """

    first: str
    second: str
    distance_mm: float
    least_mm: float
    remedy: Message

    @property
    def message(self) -> Message:
        """What is wrong, by how much, and what would be right."""
        values = {"first": self.first, "second": self.second, "least_mm": self.least_mm, "remedy": self.remedy}
        if self.distance_mm <= 0:
            return Message("hinges.runs_into", **values)
        return Message("hinges.too_near", distance_mm=self.distance_mm, **values)

    def __str__(self) -> str:
        """In English, on one line."""
        return str(self.message)


type Body = FaceHole | EdgeHole | CutOut


def clashes(
    part: PartSize,
    bodies: Sequence[Body],
    *,
    lippings: Sequence[Lipping] = (),
    least: Least | None = None,
    may_meet: Iterable[tuple[str, str]] = (),
) -> tuple[Clash, ...]:
    """Find everything in a part that comes too near to something else.

    Parameters
    ----------
    part : PartSize
    bodies : sequence of FaceHole, EdgeHole or CutOut
        Names have to differ.
    lippings : sequence of Lipping
    least : Least, optional
        House assumptions where none is given.
    may_meet : iterable of pairs of names
        Pairs that are meant to meet, such as a bolt's hole and its barrel's.

    Returns
    -------
    tuple of Clash
        The nearest first; empty where all is well.

    Raises
    ------
    InputError
        If a size is not positive or a name comes twice; every fault at once.

    Examples
    --------
    >>> part = PartSize(width=450, length=1800, thickness=18)
    >>> cup = FaceHole("cup 1", x=22.5, y=100, diameter=35, depth=13)
    >>> dowel = EdgeHole("dowel 1", "left", along=110, from_face=9, diameter=8, depth=30)
    >>> for clash in clashes(part, [cup, dowel]):
    ...     print(clash)
    cup 1 runs into dowel 1; there have to be 3 mm: move one by 14.5 mm, or bore less deep
    """
    least = least or Least()
    _check(part, bodies, lippings)
    fine = {frozenset(pair) for pair in may_meet}
    solids = [(body, body.solid(part)) for body in bodies]
    results: list[Clash] = []
    for (a, one), (b, other) in combinations(solids, 2):
        gap = _gap(one, other, least.between)
        if gap < least.between and frozenset((a.name, b.name)) not in fine:
            results.append(_meeting(a.name, one, b.name, other, gap, least.between))
    for lipping in lippings:
        line = lipping.solid(part)
        for body, solid in solids:
            gap = _gap(solid, line, least.to_glue_line)
            if gap < least.to_glue_line and not isinstance(body, EdgeHole):
                results.append(_meeting(body.name, solid, lipping.name, line, gap, least.to_glue_line))
    for body, solid in solids:
        if isinstance(solid, Cylinder):
            results += _to_outside(body, solid, part, least)
    return tuple(
        sorted((c for c in results if c.distance_mm < c.least_mm - 1e-6), key=lambda c: c.distance_mm - c.least_mm)
    )


def _meeting(first: str, one: Solid, second: str, other: Solid, gap: float, least: float) -> Clash:
    """A clash of two bodies, with how far one would have to move sideways: far enough to clear the other's axis."""
    if gap > 0:
        return Clash(first, second, gap, least, Message("hinges.move_one", by_mm=least - gap))
    (axis_a, radius_a), (axis_b, radius_b) = _axis(one), _axis(other)
    move = least + radius_a + radius_b - clear_distance(axis_a, axis_b)
    return Clash(first, second, 0.0, least, Message("hinges.move_one_or_bore_less", by_mm=move))


def _axis(solid: Solid) -> tuple[Solid, float]:
    """A hole as its axis and its radius; anything else as itself."""
    return (replace(solid, radius=0.0), solid.radius) if isinstance(solid, Cylinder) else (solid, 0.0)


def _gap(one: Solid, other: Solid, wanted: float) -> float:
    """Distance, or a cheap "far enough" where the bodies' reaches say so."""
    low_a, high_a = _reach(one)
    low_b, high_b = _reach(other)
    apart = max(max(lb - ha, la - hb) for la, ha, lb, hb in zip(low_a, high_a, low_b, high_b, strict=True))
    return apart if apart >= wanted else clear_distance(one, other)


def _reach(solid: Solid) -> tuple[tuple[float, ...], tuple[float, ...]]:
    far = 1e6
    low: list[float] = []
    high: list[float] = []
    for i in range(3):
        for sign, into in ((-1, low), (1, high)):
            point = list(solid.middle)
            point[i] = sign * far
            into.append(solid.nearest((point[0], point[1], point[2]))[i])
    return tuple(low), tuple(high)


def _goes_through(body: Body) -> bool:
    return isinstance(body, FaceHole) and body.through


def _to_outside(body: Body, hole: Cylinder, part: PartSize, least: Least) -> list[Clash]:
    """Distances to the part's own edges and faces, those excepted where the hole opens."""
    size = (part.width, part.length, part.thickness)
    names = (
        ("the left edge", "the right edge"),
        ("the top edge", "the bottom edge"),
        ("the inner face", "the outer face"),
    )
    low, high = _reach(hole)
    results = []
    for i in range(3):
        wanted = least.to_face if i == 2 else least.to_edge
        for end, gap in enumerate((low[i], size[i] - high[i])):
            mouth = i == hole.axis and (_goes_through(body) or (end == 0) == (hole.way == 1))
            if gap >= wanted or mouth:
                continue
            remedy = Message("hinges.bore_less_deep" if i == hole.axis else "hinges.move_in", by_mm=wanted - gap)
            results.append(Clash(body.name, names[i][end], gap, wanted, remedy))
    return results


def _check(part: PartSize, bodies: Sequence[Body], lippings: Sequence[Lipping]) -> None:
    faults = [
        Fault("part", "hinges.not_above_zero", what=what, value_mm=value)
        for what, value in (("width", part.width), ("length", part.length), ("thickness", part.thickness))
        if value <= 0
    ]
    seen: set[str] = set()
    for body in bodies:
        if body.name in seen:
            faults.append(Fault(body.name, "hinges.two_holes_of_one_name"))
        seen.add(body.name)
        if not isinstance(body, CutOut) and (
            body.diameter <= 0 or (not isinstance(body.depth, str) and body.depth <= 0)
        ):
            faults.append(Fault(body.name, "hinges.hole_without_size"))
        if isinstance(body, CutOut) and not all(a < b for a, b in (body.x, body.y, body.z)):
            faults.append(Fault(body.name, "hinges.sides_out_of_order"))
    faults += [
        Fault(lipping.name, "hinges.lipping_out_of_range")
        for lipping in lippings
        if not 0 < lipping.thickness < min(part.width, part.length)
    ]
    if faults:
        raise InputError(faults)
