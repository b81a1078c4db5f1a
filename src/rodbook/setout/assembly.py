"""Where every part of a front stands, in three dimensions: named bodies made of prisms.

A set-out carries it (`SetOut.assembly`), and whoever asks where something stands asks it: an elevation looks at it from the
room, a level or a plumb section cuts through it, what a leaf may strike stands in it::

    x  to the right from the lining's left outer face
    y  up from the floor that the linings stand on
    z  from the lining's front edge into the room; what stands behind it is below zero
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rodbook.job.kinds import Edge, PartKind, Stands
from rodbook.late import late_library
from rodbook.setout.cuts import Side
from rodbook.setout.outlines import beyond, bounds, met_by
from rodbook.setout.parts import Element, Part, Placed, Point, outline_area

if TYPE_CHECKING:
    import shapely
    from shapely.geometry.base import BaseGeometry
else:
    shapely = late_library("shapely")

__all__ = ["Assembly", "Body", "Joinery", "Pieces", "Prism", "assemble"]


@dataclass(frozen=True)
class Joinery:
    """How the parts of a front go together.

    Parameters
    ----------
    within : bool
        Whether the leaves stand within the lining, flush with its front edge; else they lie on that edge.
    housing : float
        How deep head and sill are let into the legs; 0 where they are not. [mm]
    mitred : bool
        Whether the corners of the trim are mitred.
    plinth_set_back : float
        Of a plinth behind the lining's front edge. [mm]
    """

    within: bool
    housing: float
    mitred: bool
    plinth_set_back: float


@dataclass(frozen=True)
class Pieces:
    """What a front is put together from: its parts, where they stand in the elevation, and how they go together."""

    parts: tuple[Placed, ...]
    elements: tuple[Element, ...]
    outer_width: float
    trim_runs: tuple[Side, ...]
    tongue: float
    joinery: Joinery


@dataclass(frozen=True)
class Prism:
    """An outline seen from the room, from `back` to `front` in depth. [mm]"""

    outline: tuple[Point, ...]
    back: float
    front: float

    @property
    def volume(self) -> float:
        """[mm3]"""
        return outline_area(self.outline) * (self.front - self.back)


@dataclass(frozen=True)
class Body:
    """One part where it stands.

    Parameters
    ----------
    kind : PartKind
    label : str
        Where the elevation has one: "leaf 1".
    side : str
        Where it stands at one side of a front, or hangs from one: "left" or "right"; else empty.
    part : Part, optional
        None of what runs on from the opening beside it.
    prisms : tuple of Prism
    hinge_ys, hinge_xs : tuple of float
        Heights of a leaf's hinges; of a flap, which has them along its top, how far from the left. [mm]
    """

    kind: PartKind
    label: str
    side: Literal["", "left", "right"]
    part: Part | None
    prisms: tuple[Prism, ...]
    hinge_ys: tuple[float, ...] = ()
    hinge_xs: tuple[float, ...] = ()

    @property
    def stock(self) -> str:
        """Board or section that it is made from; empty where the part belongs to the front beside it."""
        return self.part.stock if self.part else ""

    @property
    def seen_edges(self) -> tuple[Edge, ...]:
        """Its edges that are seen, and finished."""
        return self.part.edges if self.part else ()

    @property
    def across(self) -> tuple[float, float]:
        """Its left and its right end. [mm]"""
        xs = [x for prism in self.prisms for x, _ in prism.outline]
        return min(xs), max(xs)

    @property
    def up(self) -> tuple[float, float]:
        """Its foot and its top. [mm]"""
        ys = [y for prism in self.prisms for _, y in prism.outline]
        return min(ys), max(ys)

    @property
    def deep(self) -> tuple[float, float]:
        """Its back and its front. [mm]"""
        return min(prism.back for prism in self.prisms), max(prism.front for prism in self.prisms)

    @property
    def outline(self) -> tuple[Point, ...]:
        """All of it as it is projected on the front, in a round. [mm]"""
        return _around([prism.outline for prism in self.prisms])

    @property
    def face_outline(self) -> tuple[Point, ...]:
        """What it has at its very front, in a round: of a leaf without the tongue behind another. [mm]"""
        front = self.deep[1]
        return _around([prism.outline for prism in self.prisms if prism.front == front])

    @property
    def face(self) -> tuple[float, float, float, float]:
        """Left, foot, right and top of what it has at its very front: of a leaf without the tongue behind another. [mm]"""
        front = self.deep[1]
        corners = [corner for prism in self.prisms if prism.front == front for corner in prism.outline]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return min(xs), min(ys), max(xs), max(ys)

    def level(self, y: float) -> tuple[tuple[Point, ...], ...]:
        """What a level cut meets of it: rectangles, x across and z into the room. [mm]"""
        return tuple(
            _rectangle(start, prism.back, end, prism.front)
            for prism in self.prisms
            for start, end in met_by(prism.outline, 1, y)
        )

    def plumb(self, x: float) -> tuple[tuple[Point, ...], ...]:
        """What a plumb cut across the front meets of it: rectangles, z across and y up. [mm]"""
        return tuple(
            _rectangle(prism.back, low, prism.front, high)
            for prism in self.prisms
            for low, high in met_by(prism.outline, 0, x)
        )

    def profile(self) -> tuple[Point, ...]:
        """What is seen of it from the side, z across and y up. [mm]"""
        return _around(
            [
                _rectangle(prism.back, foot, prism.front, top)
                for prism in self.prisms
                for _, foot, _, top in (bounds(prism.outline),)
            ]
        )


def _around(pieces: list[tuple[Point, ...]]) -> tuple[Point, ...]:
    """The outline of pieces that hang together."""
    if len(pieces) == 1:
        return pieces[0]
    (whole,) = _polygons(shapely.unary_union([shapely.Polygon(piece) for piece in pieces]))
    return _round(whole)


def _round(polygon: shapely.Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in polygon.exterior.coords[:-1])


@dataclass(frozen=True)
class Assembly:
    """All bodies of a front, in the order of its elevation, back to front."""

    bodies: tuple[Body, ...]

    def of(self, *kinds: PartKind) -> tuple[Body, ...]:
        """Bodies of some kinds."""
        return tuple(body for body in self.bodies if body.kind in kinds)

    @property
    def geometry(self) -> tuple[object, ...]:
        """What makes two fronts stand alike, however their sizes came about."""
        return tuple((body.kind, body.side, body.prisms, body.hinge_ys, body.hinge_xs) for body in self.bodies)


def _polygons(shape: BaseGeometry) -> list[shapely.Polygon]:
    parts = getattr(shape, "geoms", [shape])
    return [piece for piece in parts if isinstance(piece, shapely.Polygon) and piece.area > 0]


def _rectangle(left: float, foot: float, right: float, top: float) -> tuple[Point, ...]:
    return ((left, foot), (right, foot), (right, top), (left, top))


def assemble(pieces: Pieces) -> Assembly:
    """Put a front together.

    Parameters
    ----------
    pieces : Pieces
        Of a front of any family, level or raked; trims and plinths that run on are taken as far as the elevation has them.
    """
    pool = [p.part for p in pieces.parts for _ in range(p.quantity)]
    bodies: list[Body] = []
    for element in pieces.elements:
        side = _side(element, pieces)
        part = _taken(element, side, pool, pieces.tongue)
        back, front = _depth(pieces, element.kind, part)
        outline = _corners(pieces, element, part)
        if element.kind is PartKind.DOOR and pieces.tongue and part is not None:
            prisms = _rebated(outline, element, part, pieces, (back, front))
        elif element.kind is PartKind.LINING_LEG and pieces.joinery.housing:
            prisms = [(piece, back, front) for piece in _housed(pieces, outline)]
        else:
            prisms = [(outline, back, front)]
        if part is not None and part.notch is not None:
            prisms = [one for prism in prisms for one in _notched(prism, part.notch.deep.value, part.notch.high.value)]
        bodies.append(
            Body(
                element.kind,
                element.label,
                side,
                part,
                tuple(Prism(*one) for one in prisms),
                element.hinge_ys,
                element.hinge_xs,
            )
        )
    return Assembly(tuple(bodies))


type _Piece = tuple[tuple[Point, ...], float, float]


def _side(element: Element, pieces: Pieces) -> Literal["", "left", "right"]:
    """Where something stands at a side of a front; of a leaf, where it hangs."""
    if element.kind.facts.at_side:
        return "left" if element.x + element.width / 2 < pieces.outer_width / 2 else "right"
    return element.hinge_side


def _taken(element: Element, side: str, pool: list[Part], tongue: float) -> Part | None:
    """The part that a thing of the elevation is: of its kind and side, and of its size where they differ in that."""
    mine = [p for p in pool if p.kind is element.kind and (not side or p.hand in ("", side))]
    if not mine:
        return None
    result = min(mine, key=lambda part: _misfit(element, part, tongue))
    pool.remove(result)
    return result


def _misfit(element: Element, part: Part, tongue: float) -> float:
    """How far a part is from the size that something has in the elevation. [mm]"""
    if element.kind is PartKind.DOOR:
        wide = part.width.value - element.width
        return min(abs(wide), abs(wide - tongue)) + abs(part.length.value - element.height)
    if element.kind.facts.stands is Stands.FACE:
        return abs(part.length.value - element.height)
    return abs(part.length.value - element.width) if element.kind is PartKind.PLINTH else 0.0


def _depth(pieces: Pieces, kind: PartKind, part: Part | None) -> tuple[float, float]:
    """Back and front of a kind of part. [mm]"""
    sizes = {p.part.kind: p.part for p in pieces.parts}
    leaf = next(own.thickness.value for kind, own in sizes.items() if kind.facts.stands is Stands.FACE)
    behind, ahead = (-leaf, 0.0) if pieces.joinery.within else (0.0, leaf)
    stands = kind.facts.stands
    if stands is Stands.AHEAD:
        return 0.0, sizes[PartKind.TRIM_LEG].thickness.value
    if stands is Stands.SET_BACK:
        # Of a plinth that runs on, another front has the part; it is of the linings' board.
        front = -pieces.joinery.plinth_set_back
        return front - sizes[PartKind.LINING_LEG].thickness.value, front
    assert part is not None, f"only trims and plinths run on, and a {kind} has its part"
    if stands is Stands.FACE:
        return behind, ahead
    if stands is Stands.OVER_FACE:
        return ahead, ahead + part.thickness.value
    front = {Stands.BESIDE: ahead, Stands.BEHIND: behind}.get(stands, 0.0)
    return front - part.width.value, front


def _corners(pieces: Pieces, element: Element, part: Part | None) -> tuple[Point, ...]:
    """Outline in the elevation as it is made: heads and sills reach into housings, mitred trims meet on the bisector."""
    lining = element.kind.facts.stands is Stands.FLUSH
    if lining and element.kind.facts.lies and pieces.joinery.housing:
        return _lengthened(element, pieces.joinery.housing)
    if element.kind.facts.stands is Stands.AHEAD and not element.outline and pieces.joinery.mitred:
        return _mitred(element, pieces)
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


def _mitred(element: Element, pieces: Pieces) -> tuple[Point, ...]:
    """A piece of level trim with its mitres, where the elevation has legs between heads. [mm]"""
    legs = [e for e in pieces.elements if e.kind is PartKind.TRIM_LEG]
    heads = [e for e in pieces.elements if e.kind is PartKind.TRIM_HEAD]
    x1, x2, y1, y2 = element.x, element.x + element.width, element.y, element.y + element.height
    middle = pieces.outer_width / 2
    if element.kind is PartKind.TRIM_LEG:
        left = x1 < middle
        if ("left" if left else "right") in pieces.trim_runs:
            return element.corners
        over = sum(h.height for h in heads if h.y >= y2 - 1e-6)
        under = sum(h.height for h in heads if h.y + h.height <= y1 + 1e-6)
        outer, inner = (x1, x2) if left else (x2, x1)
        return ((outer, y1 - under), (inner, y1), (inner, y2), (outer, y2 + over))
    back = [0.0 if side in pieces.trim_runs else leg.width for side, leg in zip(("left", "right"), legs, strict=True)]
    inner, outer = (y1, y2) if y1 >= legs[0].y + legs[0].height - 1e-6 else (y2, y1)
    return ((x1 + back[0], inner), (x2 - back[1], inner), (x2, outer), (x1, outer))


def _housed(pieces: Pieces, leg: tuple[Point, ...]) -> list[tuple[Point, ...]]:
    """A leg with the housings for head and sill taken out of it."""
    shape: BaseGeometry = shapely.Polygon(leg)
    for element in (e for e in pieces.elements if e.kind is PartKind.LINING_HEAD):
        low, far, high, near = _lengthened(element, pieces.joinery.housing)
        # Nothing of the leg stays over the head: the two end in one line.
        shape = shape.difference(shapely.Polygon((low, far, (high[0], high[1] + _OVER), (near[0], near[1] + _OVER))))
    for element in (e for e in pieces.elements if e.kind is PartKind.LINING_SILL):
        shape = shape.difference(shapely.Polygon(_lengthened(element, pieces.joinery.housing)))
    return [_round(piece) for piece in _polygons(shape)]


_OVER = 1.0


def _rebated(
    outline: tuple[Point, ...], element: Element, part: Part, pieces: Pieces, faces: tuple[float, float]
) -> list[_Piece]:
    """A leaf in two: its edge that meets another is half as deep, at the back where it is the tongue, else at the front."""
    back, front = faces
    tongue = pieces.tongue
    at = [d for d in pieces.elements if d.kind is PartKind.DOOR and d is not element]
    right = element.hinge_side == "left"
    edge = element.x + element.width if right else element.x
    meets = any(
        abs((d.x if right else d.x + d.width) - edge) < tongue and d.hinge_side != element.hinge_side for d in at
    )
    if not meets:
        return [(outline, back, front)]
    left, _, far, _ = bounds(outline)
    line = far - tongue if right else left + tongue
    second = part.width.value > element.width + 1e-6
    middle = back + part.thickness.value / 2
    ends = (back, middle) if second else (middle, front)
    return [(beyond(outline, 0, line, more=not right), back, front), (beyond(outline, 0, line, more=right), *ends)]


def _notched(piece: _Piece, deep: float, high: float) -> list[_Piece]:
    """A piece with the front of its foot taken off."""
    outline, back, front = piece
    line = bounds(outline)[1] + high
    results = [
        (beyond(outline, 1, line, more=True), back, front),
        (beyond(outline, 1, line, more=False), back, front - deep),
    ]
    return [one for one in results if one[0]]
