"""Where every part of a front stands, in three dimensions: named bodies made of prisms.

Derived from the set-out itself: each thing of the elevation has its part and its depth, and what is cut out of it. Sections
are cuts through it::

    x  to the right from the lining's left outer face
    y  up from the floor that the linings stand on
    z  from the lining's front edge into the room; what stands behind it is below nought
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from rodbook.job.book import AnyBuildUp, InsetBuildUp
from rodbook.setout.model import Element, Part, PartKind, Point, SetOut

__all__ = ["Assembly", "Body", "Prism", "assemble"]


@dataclass(frozen=True)
class Prism:
    """An outline seen from the room, from `back` to `front` in depth. [mm]"""

    outline: tuple[Point, ...]
    back: float
    front: float

    @property
    def volume(self) -> float:
        """[mm3]"""
        return float(Polygon(self.outline).area) * (self.front - self.back)


@dataclass(frozen=True)
class Body:
    """One part where it stands.

    Parameters
    ----------
    kind : PartKind
    label : str
        Where the elevation has one: "leaf 1".
    part : Part, optional
        None of what runs on from the opening beside it.
    prisms : tuple of Prism
    """

    kind: PartKind
    label: str
    part: Part | None
    prisms: tuple[Prism, ...]

    def plumb(self, x: float) -> tuple[tuple[Point, ...], ...]:
        """What a plumb cut across the front meets of it: rectangles, z across and y up. [mm]"""
        found = []
        for prism in self.prisms:
            along = Polygon(prism.outline)
            left, foot, right, top = along.bounds
            if not left < x < right:
                continue
            line = along.intersection(box(x - _THIN, foot, x + _THIN, top))
            for piece in _polygons(line):
                _, low, _, high = piece.bounds
                found.append(_rectangle(prism.back, low, prism.front, high))
        return tuple(found)

    def profile(self) -> tuple[Point, ...]:
        """What is seen of it from the side, z across and y up. [mm]"""
        seen: BaseGeometry = Polygon()
        for prism in self.prisms:
            _, foot, _, top = Polygon(prism.outline).bounds
            seen = seen.union(box(prism.back, foot, prism.front, top))
        (outline,) = _polygons(seen)
        return tuple((float(z), float(y)) for z, y in outline.exterior.coords[:-1])


_THIN = 1e-3


@dataclass(frozen=True)
class Assembly:
    """All bodies of a front, in the order of its elevation, back to front."""

    bodies: tuple[Body, ...]

    def of(self, *kinds: PartKind) -> tuple[Body, ...]:
        """Bodies of some kinds."""
        return tuple(body for body in self.bodies if body.kind in kinds)


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    parts = getattr(shape, "geoms", [shape])
    return [piece for piece in parts if isinstance(piece, Polygon) and piece.area > 0]


def _rectangle(left: float, foot: float, right: float, top: float) -> tuple[Point, ...]:
    return ((left, foot), (right, foot), (right, top), (left, top))


_LEAVES = (PartKind.DOOR, PartKind.DRAWER_FRONT, PartKind.FLAP, PartKind.APRON)
_TRIMS = (PartKind.TRIM_LEG, PartKind.TRIM_HEAD)
_INSIDE = (PartKind.HINGE_LINING, PartKind.DIVISION, PartKind.RAIL)


def assemble(build_up: AnyBuildUp, result: SetOut) -> Assembly:
    """Put a front together.

    Parameters
    ----------
    build_up : AnyBuildUp
        That it was set out to.
    result : SetOut
        Of any family, level or raked; trims and plinths that run on are taken as far as the elevation has them.
    """
    pool = [p.part for p in result.parts for _ in range(p.quantity)]
    bodies: list[Body] = []
    heads = [e for e in result.elements if e.kind is PartKind.LINING_HEAD]
    tongue = next((d.value for d in result.dimensions if d.name == "tongue of the second leaf"), 0.0)
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    for element in result.elements:
        part = _taken(element, result, pool, tongue)
        back, front = _depth(build_up, result, element.kind, part)
        outline = Polygon(_corners(build_up, result, element, part))
        if element.kind is PartKind.DOOR and tongue and part is not None:
            prisms = _rebated(outline, element, part, doors, tongue, (back, front))
        elif element.kind is PartKind.LINING_LEG and build_up.head_joint == "housed":
            prisms = [(piece, back, front) for piece in _polygons(_housed(build_up, result, outline, heads))]
        else:
            prisms = [(outline, back, front)]
        if part is not None and part.notch is not None:
            prisms = [one for prism in prisms for one in _notched(prism, part.notch.deep.value, part.notch.high.value)]
        bodies.append(Body(element.kind, element.label, part, tuple(_prism(*one) for one in prisms)))
    return Assembly(tuple(bodies))


type _Piece = tuple[Polygon, float, float]


def _prism(outline: Polygon, back: float, front: float) -> Prism:
    return Prism(tuple((float(x), float(y)) for x, y in outline.exterior.coords[:-1]), back, front)


_SIDED = (PartKind.LINING_LEG, PartKind.HINGE_LINING, PartKind.TRIM_LEG, PartKind.END_PANEL)


def _taken(element: Element, result: SetOut, pool: list[Part], tongue: float) -> Part | None:
    """The part that a thing of the elevation is: of its kind and side, and of its size where they differ in that."""
    side: str = element.hinge_side
    if element.kind in _SIDED:
        side = "left" if element.x + element.width / 2 < result.outer_width.value / 2 else "right"
    mine = [p for p in pool if p.kind is element.kind and (not side or p.hand in ("", side))]
    if not mine:
        return None
    found = min(mine, key=lambda part: _misfit(element, part, tongue))
    pool.remove(found)
    return found


def _misfit(element: Element, part: Part, tongue: float) -> float:
    """How far a part is from the size that something has in the elevation. [mm]"""
    if element.kind is PartKind.DOOR:
        wide = part.width.value - element.width
        return min(abs(wide), abs(wide - tongue)) + abs(part.length.value - element.height)
    if element.kind in _LEAVES:
        return abs(part.length.value - element.height)
    return abs(part.length.value - element.width) if element.kind is PartKind.PLINTH else 0.0


def _depth(build_up: AnyBuildUp, result: SetOut, kind: PartKind, part: Part | None) -> tuple[float, float]:
    """Back and front of a kind of part. [mm]"""
    sizes = {p.part.kind: p.part for p in result.parts}
    leaf = next(sizes[one].thickness.value for one in _LEAVES if one in sizes)
    inset = isinstance(build_up, InsetBuildUp)
    behind, ahead = (-leaf, 0.0) if inset else (0.0, leaf)
    if kind in _TRIMS:
        return 0.0, sizes[PartKind.TRIM_LEG].thickness.value
    if kind is PartKind.PLINTH:
        # Of a plinth that runs on, another front has the part; it is of the linings' board.
        front = -build_up.plinth_set_back
        return front - sizes[PartKind.LINING_LEG].thickness.value, front
    assert part is not None, f"only trims and plinths run on, and a {kind} has its part"
    if kind in _LEAVES:
        return behind, behind + leaf
    if kind is PartKind.STRIP:
        return behind + leaf, behind + leaf + part.thickness.value
    front = {PartKind.END_PANEL: ahead, **dict.fromkeys(_INSIDE, behind)}.get(kind, 0.0)
    return front - part.width.value, front


def _corners(build_up: AnyBuildUp, result: SetOut, element: Element, part: Part | None) -> tuple[Point, ...]:
    """Outline in the elevation as it is made: heads and sills reach into housings, mitred trims meet on the bisector."""
    if element.kind in (PartKind.LINING_HEAD, PartKind.LINING_SILL) and build_up.head_joint == "housed":
        return _lengthened(element, build_up.housing)
    if element.kind in _TRIMS and not element.outline and build_up.trim_joint == "mitred":
        return _mitred(element, result)
    if element.kind is PartKind.DOOR and part is not None:
        more = part.width.value - element.width
        if more > 0:
            return _widened(element, more)
    return element.corners


def _lengthened(element: Element, by: float) -> tuple[Point, ...]:
    """A level or sloping board, longer at both ends. [mm]"""
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = element.corners
    low, high = (y2 - y1) / (x2 - x1) * by, (y3 - y4) / (x3 - x4) * by
    return ((x1 - by, y1 - low), (x2 + by, y2 + low), (x3 + by, y3 + high), (x4 - by, y4 - high))


def _widened(element: Element, by: float) -> tuple[Point, ...]:
    """A leaf with a tongue at its closing edge, its top carried on. [mm]"""
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = element.corners
    rise = (y3 - y4) / (x3 - x4) * by
    if element.hinge_side == "left":
        return ((x1, y1), (x2 + by, y2), (x3 + by, y3 + rise), (x4, y4))
    return ((x1 - by, y1), (x2, y2), (x3, y3), (x4 - by, y4 - rise))


def _mitred(element: Element, result: SetOut) -> tuple[Point, ...]:
    """A piece of level trim with its mitres, where the elevation has legs between heads. [mm]"""
    legs = [e for e in result.elements if e.kind is PartKind.TRIM_LEG]
    heads = [e for e in result.elements if e.kind is PartKind.TRIM_HEAD]
    x1, x2, y1, y2 = element.x, element.x + element.width, element.y, element.y + element.height
    middle = result.outer_width.value / 2
    if element.kind is PartKind.TRIM_LEG:
        left = x1 < middle
        if ("left" if left else "right") in result.trim_runs:
            return element.corners
        over = sum(h.height for h in heads if h.y >= y2 - 1e-6)
        under = sum(h.height for h in heads if h.y + h.height <= y1 + 1e-6)
        outer, inner = (x1, x2) if left else (x2, x1)
        return ((outer, y1 - under), (inner, y1), (inner, y2), (outer, y2 + over))
    back = [0.0 if side in result.trim_runs else leg.width for side, leg in zip(("left", "right"), legs, strict=True)]
    inner, outer = (y1, y2) if y1 >= legs[0].y + legs[0].height - 1e-6 else (y2, y1)
    return ((x1 + back[0], inner), (x2 - back[1], inner), (x2, outer), (x1, outer))


def _housed(build_up: AnyBuildUp, result: SetOut, leg: Polygon, heads: Sequence[Element]) -> BaseGeometry:
    """A leg with the housings for head and sill taken out of it."""
    shape: BaseGeometry = leg
    for element in heads:
        low, far, high, near = _lengthened(element, build_up.housing)
        # Nothing of the leg stays over the head: the two end in one line.
        shape = shape.difference(Polygon((low, far, (high[0], high[1] + _OVER), (near[0], near[1] + _OVER))))
    for element in (e for e in result.elements if e.kind is PartKind.LINING_SILL):
        shape = shape.difference(Polygon(_lengthened(element, build_up.housing)))
    return shape


_OVER = 1.0


def _rebated(
    outline: Polygon, element: Element, part: Part, doors: Sequence[Element], tongue: float, faces: tuple[float, float]
) -> list[_Piece]:
    """A leaf in two: its edge that meets another is half as deep, at the back where it is the tongue, else at the front."""
    back, front = faces
    at = [d for d in doors if d is not element]
    right = element.hinge_side == "left"
    edge = element.x + element.width if right else element.x
    meets = any(
        abs((d.x if right else d.x + d.width) - edge) < tongue and d.hinge_side != element.hinge_side for d in at
    )
    if not meets:
        return [(outline, back, front)]
    x1, foot, x2, top = outline.bounds
    thin = box(x2 - tongue, foot, x2, top) if right else box(x1, foot, x1 + tongue, top)
    second = part.width.value > element.width + 1e-6
    middle = back + part.thickness.value / 2
    found = [(piece, back, front) for piece in _polygons(outline.difference(thin))]
    ends = (back, middle) if second else (middle, front)
    return [*found, *((piece, *ends) for piece in _polygons(outline.intersection(thin)))]


def _notched(piece: _Piece, deep: float, high: float) -> list[_Piece]:
    """A piece with the front of its foot taken off."""
    outline, back, front = piece
    left, foot, right, top = outline.bounds
    line = foot + high
    above = [(p, back, front) for p in _polygons(outline.intersection(box(left, line, right, top)))]
    below = [(p, back, front - deep) for p in _polygons(outline.intersection(box(left, foot, right, line)))]
    return [*above, *below]
