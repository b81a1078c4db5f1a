"""Puts a finished front together in three dimensions and looks for two parts in one place; shares no code with the set-out.

It reads what a set-out says of itself (sizes, parts with their hands, cuts, outlines and notches, where elements stand in the
elevation, named dimensions) and the build-up that it was made to, places every part by its own geometry, and measures how
much of each two is in the same place.

x runs to the right from the lining's left outer face, y up from the floor, z out of the lining's front edge into the room. [mm]
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import combinations, pairwise

from shapely import Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

__all__ = ["TOUCH_MM", "Clash", "Solid", "assembled", "clashes", "misplaced", "row_of_fronts"]

TOUCH_MM = 0.11
"""Parts may share this much: lengths under a slope are told to a tenth of a millimetre, up or down."""


@dataclass(frozen=True)
class Prism:
    """An outline with a thickness: seen from the room and in depth, or (`lies`) seen from above and in height."""

    outline: BaseGeometry
    low: float
    high: float
    lies: bool = False


@dataclass
class Solid:
    """One part where it stands."""

    name: str
    kind: str
    prisms: list[Prism]

    def box(self) -> tuple[float, float, float, float]:
        """Left, foot, right and top, seen from the room."""
        boxes = [
            (p.outline.bounds[0], p.low, p.outline.bounds[2], p.high) if p.lies else p.outline.bounds
            for p in self.prisms
        ]
        lows = [min(b[n] for b in boxes) for n in (0, 1)]
        return (*lows, *(max(b[n] for b in boxes) for n in (2, 3)))

    def moved(self, x: float, word: str) -> Solid:
        """The same part further to the right."""
        return Solid(
            f"{word}: {self.name}",
            self.kind,
            [Prism(affinity.translate(p.outline, x, 0), p.low, p.high, p.lies) for p in self.prisms],
        )


@dataclass(frozen=True)
class Clash:
    """Two parts in one place, and the size of what they share: across, up, in depth. [mm]"""

    one: str
    other: str
    across: float
    up: float
    deep: float

    def __str__(self) -> str:
        return f"{self.one} and {self.other} share {self.across:.1f} x {self.up:.1f} x {self.deep:.1f} mm"


# --- overlaps ---------------------------------------------------------------------------------------------------------


def _shared(a: Prism, b: Prism) -> tuple[float, float, float] | None:
    if a.lies != b.lies:
        a, b = (_boxed(p) if p.lies else p for p in (a, b))
    both = min(a.high, b.high) - max(a.low, b.low)
    if both <= TOUCH_MM or not a.outline.intersects(b.outline):
        return None
    common = a.outline.intersection(b.outline).buffer(0)  # edges along which they touch fall away
    if common.is_empty or common.buffer(-TOUCH_MM / 2, join_style="mitre").is_empty:
        return None
    left, foot, right, top = common.bounds
    return (right - left, both, top - foot) if a.lies else (right - left, top - foot, both)


def _boxed(prism: Prism) -> Prism:
    """A prism that lies, taken as the block around it."""
    left, back, right, front = prism.outline.bounds
    return Prism(box(left, prism.low, right, prism.high), back, front)


def clashes(solids: list[Solid]) -> list[Clash]:
    """Every two parts that are in one place."""
    found = []
    for one, other in combinations(solids, 2):
        a, b = one.box(), other.box()
        if a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]:
            continue
        shares = [s for p in one.prisms for q in other.prisms if (s := _shared(p, q))]
        if shares:
            found.append(Clash(one.name, other.name, *max(shares, key=math.prod)))
    return found


# --- one front --------------------------------------------------------------------------------------------------------


def _name(part) -> str:
    return f"{part.hand} {part.kind}".strip()


def _each(front, kind: str) -> list:
    """Every part of a kind, one by one."""
    return [p.part for p in front.parts if str(p.part.kind) == kind for _ in range(p.quantity)]


def _sides(parts: list) -> list[tuple[str, object]]:
    """Two parts and the sides on which they stand: what says its side, then the rest."""
    free = [side for side in ("left", "right") if side not in {p.hand for p in parts}]
    return [(p.hand or free.pop(0), p) for p in parts]


def _placed(front, kind: str) -> list:
    """Where things of a kind stand in the elevation, from the left and from the foot."""
    return sorted((e for e in front.elements if str(e.kind) == kind), key=lambda e: (e.x, e.y))


@dataclass
class _Front:
    front: object
    build_up: object
    solids: list[Solid] = field(default_factory=list)

    def __post_init__(self) -> None:
        front = self.front
        self.width = front.outer_width.value
        high, low = front.outer_height.value, front.outer_low.value if front.outer_low else front.outer_height.value
        self.left, self.right = (low, high) if front.falls_to == "left" else (high, low)
        self.slope = (self.right - self.left) / self.width
        self.stretch = math.hypot(1.0, self.slope)
        self.inset = front.family == "inset"
        leaves = [p for kind in ("door", "drawer front", "flap", "apron") for p in _each(front, kind)]
        self.leaf = leaves[0].thickness.value
        self.lining = _each(front, "lining leg")[0].thickness.value
        self.behind = -self.leaf if self.inset else 0.0  # the plane that leaves lie against

    def top(self, x: float) -> float:
        """The outer line of the head."""
        return self.left + self.slope * x

    def add(self, part, outline, back: float, front: float, name: str = "") -> None:
        """A part as an outline seen from the room, with what is notched out of its foot taken off."""
        notch = getattr(part, "notch", None)
        prisms = [Prism(outline, back, front)]
        if notch is not None:
            left, foot, right, top = outline.bounds
            line = foot + notch.high.value
            below = Prism(outline.intersection(box(left, foot, right, line)), back, front - notch.deep.value)
            prisms = [Prism(outline.intersection(box(left, line, right, top)), back, front), below]
        self.solids.append(Solid(name or _name(part), str(part.kind), prisms))

    # linings

    def upright(self, part, start: float, foot: float) -> Polygon:
        """A board that stands plumb, its top bevelled as its cuts say."""
        end, length = start + part.thickness.value, part.length.value
        left = right = foot + length
        for cut in part.cuts:
            short = part.thickness.value * math.tan(math.radians(cut.degrees.value))
            outer_left = part.hand == "left"
            if (cut.long_point == "outer face") == outer_left:
                right -= short
            else:
                left -= short
        return Polygon(((start, foot), (end, foot), (end, right), (start, left)))

    def linings(self) -> None:
        front, t = self.front, self.lining
        (head,) = _each(front, "lining head")
        sills = _each(front, "lining sill")
        housed = self.build_up.housing if self.build_up.head_joint == "housed" else 0.0
        lying = self.head(head)
        for side, leg in _sides(_each(front, "lining leg")):
            start = 0.0 if side == "left" else self.width - t
            shape = self.upright(leg, start, 0.0)
            if housed:
                inner = (t - housed, t) if side == "left" else (self.width - t, self.width - t + housed)
                left, right = inner
                groove = Polygon(
                    [
                        (left, self.top(left) - t * self.stretch),
                        (right, self.top(right) - t * self.stretch),
                        (right, self.top(right) + 1),
                        (left, self.top(left) + 1),
                    ]
                )
                shape = shape.difference(groove)
                if sills:
                    shape = shape.difference(box(inner[0], 0.0, inner[1], t))
            self.add(leg, shape, -leg.width.value, 0.0, f"{side} lining leg")
        self.add(head, lying, -head.width.value, 0.0)
        for sill in sills:
            start = (self.width - sill.length.value) / 2
            self.add(sill, box(start, 0.0, start + sill.length.value, t), -sill.width.value, 0.0)
        for side, board in _sides(_each(front, "hinge lining")):
            start = t if side == "left" else self.width - t - board.thickness.value
            (drawn,) = [e for e in _placed(front, "hinge lining") if abs(e.x - start) < 1.0]
            shape = self.upright(board, start, drawn.y)
            self.add(board, shape, self.behind - board.width.value, self.behind, f"{side} hinge lining")

    def head(self, part) -> Polygon:
        """A head with plumb ends, its length over the long points."""
        t, angle = part.thickness.value, math.atan(abs(self.slope))
        level = (part.length.value - t * math.tan(angle)) * math.cos(angle)
        a, b = (self.width - level) / 2, (self.width + level) / 2
        down = t * self.stretch
        return Polygon([(a, self.top(a) - down), (b, self.top(b) - down), (b, self.top(b)), (a, self.top(a))])

    # what stands inside

    def inside(self) -> None:
        for kind in ("division", "rail"):
            parts, drawn = _each(self.front, kind), _placed(self.front, kind)
            assert len(parts) == len(drawn), f"{len(parts)} parts and {len(drawn)} in the elevation: {kind}"
            for number, (part, at) in enumerate(zip(parts, drawn, strict=True), 1):
                wide, high = part.thickness.value, part.length.value
                if kind == "rail":
                    wide, high = high, wide
                shape = box(at.x, at.y, at.x + wide, at.y + high)
                self.add(part, shape, self.behind - part.width.value, self.behind, f"{kind} {number}")

    def plinth(self) -> None:
        if self.front.plinth_runs:
            return  # see row_of_fronts
        front = -self.build_up.plinth_set_back
        parts = _each(self.front, "plinth")
        drawn = _placed(self.front, "plinth")
        assert len(parts) == len(drawn), f"{len(parts)} plinths and {len(drawn)} in the elevation"
        # Elevations are drawn from the left; parts of one length are told together.
        rest = list(parts)
        for number, at in enumerate(drawn, 1):
            part = min(rest, key=lambda p: abs(p.length.value - at.width))
            rest.remove(part)
            shape = box(at.x, at.y, at.x + part.length.value, at.y + part.width.value)
            self.add(part, shape, front - part.thickness.value, front, f"plinth {number}")

    # leaves and rows

    def leaves(self) -> None:
        back, front = self.behind, self.behind + self.leaf
        rest = _each(self.front, "door")
        tongues = [d.value for d in self.front.dimensions if d.name == "tongue of the second leaf"]
        drawn = _placed(self.front, "door")
        for number, at in enumerate(drawn, 1):
            part = min(
                (p for p in rest if p.hand == at.hinge_side),
                key=lambda p: min(abs(p.width.value - w) for w in (at.width, *(at.width + t for t in tongues))),
            )
            rest.remove(part)
            name = f"leaf {number}"
            outline = self.leaf_outline(part, at)
            if not (tongues and self.meets(drawn, number - 1)):
                self.add(part, outline, back, front, name)
                continue
            tongue, middle = tongues[0], back + part.thickness.value / 2
            left, foot, right, top = outline.bounds
            closing_right = at.hinge_side == "left"
            edge = box(right - tongue, foot, right, top) if closing_right else box(left, foot, left + tongue, top)
            # The leaf that opens first is cut back behind; the tongue of the other lies there, cut back in front.
            second = part.width.value > at.width + 1e-6
            thin = Prism(outline.intersection(edge), *((back, middle) if second else (middle, front)))
            self.solids.append(Solid(name, "door", [Prism(outline.difference(edge), back, front), thin]))
        for kind in ("drawer front", "flap", "apron"):
            rest = _each(self.front, kind)
            for at in _placed(self.front, kind):
                part = min(rest, key=lambda p: abs(p.length.value - at.height))
                rest.remove(part)
                shape = box(at.x, at.y, at.x + part.width.value, at.y + part.length.value)
                self.add(part, shape, back, front, at.label or kind)

    @staticmethod
    def meets(drawn, n: int) -> bool:
        """Whether a leaf closes against the one beside it."""
        sides = [e.hinge_side for e in drawn]
        return sides[n : n + 2] == ["left", "right"] or (n > 0 and sides[n - 1 : n + 1] == ["left", "right"])

    @staticmethod
    def leaf_outline(part, at) -> Polygon:
        """A leaf as it is seen from the room; its own outline is seen from its back. The tongue lies at the closing edge."""
        wide, high = part.width.value, part.length.value
        own = part.outline or ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
        left = at.x if at.hinge_side == "left" else at.x + at.width - wide
        return Polygon([(left + wide - x, at.y + high - y) for x, y in own])

    def strips(self) -> None:
        if self.build_up.meeting != "cover strip":
            return
        leaves = _placed(self.front, "door")
        pairs = [(a, b) for a, b in pairwise(leaves) if (a.hinge_side, b.hinge_side) == ("left", "right")]
        for number, (part, (a, b)) in enumerate(zip(_each(self.front, "cover strip"), pairs, strict=True), 1):
            middle, half = (a.x + a.width + b.x) / 2, part.width.value / 2
            shape = box(middle - half, a.y, middle + half, a.y + part.length.value)
            start = self.behind + self.leaf
            self.add(part, shape, start, start + part.thickness.value, f"cover strip {number}")

    # what stands around

    def trims(self) -> None:
        legs, heads = _each(self.front, "trim leg"), _each(self.front, "trim head")
        drawn_legs, drawn_heads = _placed(self.front, "trim leg"), _placed(self.front, "trim head")
        if not legs:
            return
        mitred = self.build_up.trim_joint == "mitred"
        low_heads = [e for e in drawn_heads if e.y < drawn_legs[0].y + 1e-6 and len(drawn_heads) > 1]
        for side, leg in _sides(legs):
            at = drawn_legs[0 if side == "left" else -1]
            if leg.outline:
                shape = _from_corner(leg.outline, at, leg.length.value)
            else:
                runs_on = side in self.front.trim_runs
                shape = _trim_leg(leg, at, side, mitred=mitred and not runs_on, at_foot=bool(low_heads))
            self.add(leg, shape, 0.0, leg.thickness.value, f"{side} trim leg")
        if self.front.trim_runs:
            return  # its head runs on over the next opening: see row_of_fronts
        tops = [e for e in drawn_heads if e not in low_heads]
        for part, at in zip(heads, [*tops, *low_heads], strict=True):
            shape = (
                self.sloping(part, at) if part.outline else _trim_head(part, at, mitred=mitred, at_foot=at in low_heads)
            )
            self.add(part, shape, 0.0, part.thickness.value, "foot trim" if at in low_heads else "head trim")

    def sloping(self, part, at) -> Polygon:
        """A head of trim, given along its length, turned to the slope and laid where the elevation has its lower left corner."""
        angle = math.atan(self.slope)
        turned = affinity.rotate(Polygon([(y, x) for x, y in part.outline]), angle, origin=(0, 0), use_radians=True)
        left, foot, _, _ = turned.bounds
        return affinity.translate(turned, at.x - left, at.y - foot)

    def end_panels(self) -> None:
        ahead = 0.0 if self.inset else self.leaf
        for part in _each(self.front, "end panel"):
            start = -part.thickness.value if part.hand == "left" else self.width
            shape = box(start, 0.0, start + part.thickness.value, part.length.value)
            self.add(part, shape, ahead - part.width.value, ahead)


def _from_corner(outline, at, length: float) -> Polygon:
    """What stands, its outline given down from its top: its foot where the elevation has it."""
    return Polygon([(at.x + x, at.y + length - y) for x, y in outline])


def _trim_leg(part, at, side: str, *, mitred: bool, at_foot: bool) -> Polygon:
    w, foot = part.width.value, at.y - (part.width.value if mitred and at_foot else 0.0)
    top = foot + part.length.value
    outer, inner = (at.x, at.x + w) if side == "left" else (at.x + w, at.x)
    if not mitred:
        return Polygon([(outer, foot), (inner, foot), (inner, top), (outer, top)])
    return Polygon([(outer, foot), (inner, foot + (w if at_foot else 0.0)), (inner, top - w), (outer, top)])


def _trim_head(part, at, *, mitred: bool, at_foot: bool) -> Polygon:
    w, middle = part.width.value, at.x + at.width / 2
    a, b = middle - part.length.value / 2, middle + part.length.value / 2
    inner, outer = (at.y + w, at.y) if at_foot else (at.y, at.y + w)
    back = w if mitred else 0.0
    return Polygon([(a, outer), (b, outer), (b - back, inner), (a + back, inner)])


def assembled(front, build_up) -> list[Solid]:
    """Every part of a front where it stands.

    Parameters
    ----------
    front : SetOut
    build_up : AnyBuildUp
    """
    found = _Front(front, build_up)
    found.linings()
    found.inside()
    found.plinth()
    found.leaves()
    found.strips()
    found.trims()
    found.end_panels()
    return found.solids


def misplaced(front, build_up, *, within: float = 0.6) -> list[str]:
    """Parts that have another size or another place than the elevation says. [mm]

    A tongue lies behind the leaf beside it, and a mitred leg of trim is drawn between the heads: these are left out, as are
    what runs on over several openings.
    """
    found = []
    for kind in (
        "lining leg",
        "lining head",
        "lining sill",
        "hinge lining",
        "division",
        "rail",
        "plinth",
        "drawer front",
        "flap",
        "apron",
        "end panel",
        "cover strip",
        "door",
    ):
        if kind == "door" and build_up.meeting == "rebated":
            continue
        if front.falls_to and build_up.head_joint == "housed" and kind in ("lining leg", "lining head"):
            continue  # drawn to the face of the leg, where the slope goes on into the housing
        housed = build_up.housing if build_up.head_joint == "housed" and kind in ("lining head", "lining sill") else 0.0
        solids = sorted((s.box() for s in assembled(front, build_up) if s.kind == kind), key=lambda b: (b[0], b[1]))
        drawn = list(_placed(front, kind))
        if kind == "plinth" and front.plinth_runs:
            continue
        boxes = [(e.x - housed, e.y, e.x + e.width + housed, e.y + e.height) for e in drawn]
        if len(solids) != len(boxes):
            found.append(f"{len(solids)} of {kind} are made and {len(boxes)} drawn")
            continue
        for made, seen in zip(solids, boxes, strict=True):
            off = max(abs(a - b) for a, b in zip(made, seen, strict=True))
            if off > within:
                found.append(f"{kind} made {made} and drawn {seen}")
    return found


# --- fronts in a row --------------------------------------------------------------------------------------------------


def row_of_fronts(fronts, build_up, between: list[float]) -> list[Solid]:
    """Fronts beside each other with what runs on over and under them.

    Parameters
    ----------
    fronts : sequence of SetOut
        From the left.
    build_up : AnyBuildUp
    between : list of float
        From lining to lining. [mm]
    """
    starts = [0.0]
    for front, gap in zip(fronts[:-1], between, strict=True):
        starts.append(starts[-1] + front.outer_width.value + gap)
    solids = [
        solid.moved(start, f"front {n}")
        for n, (front, start) in enumerate(zip(fronts, starts, strict=True), 1)
        for solid in assembled(front, build_up)
    ]
    first = fronts[0]
    if any(front.trim_runs for front in fronts):
        sight = next(d.value for d in first.dimensions if d.name == "trim sight height")
        at = (first.outer_width.value - next(d.value for d in first.dimensions if d.name == "trim sight width")) / 2
        pieces = [p for front in fronts for p in _each(front, "trim head")]
        solids += _scarfed(pieces, at - pieces[0].width.value, sight, mitred=build_up.trim_joint == "mitred")
    if any(front.plinth_runs for front in fronts):
        x, back = _each(first, "lining leg")[0].thickness.value, -build_up.plinth_set_back
        foot = _placed(first, "plinth")[0].y
        for number, part in enumerate([p for front in fronts for p in _each(front, "plinth")], 1):
            shape = box(x, foot, x + part.length.value, foot + part.width.value)
            solids.append(Solid(f"plinth {number}", "plinth", [Prism(shape, back - part.thickness.value, back)]))
            x += part.length.value
    return solids


def _scarfed(pieces, start: float, foot: float, *, mitred: bool) -> list[Solid]:
    """Pieces of a head one after the other: each begins over the slant at which the one before it ends."""
    found, x = [], start
    for number, part in enumerate(pieces, 1):
        length, thick, wide = part.length.value, part.thickness.value, part.width.value
        slants = {cut.end: cut for cut in part.cuts if cut.through == "thickness"}
        a = [x, x]  # at the wall's face, at the room's
        b = [x + length, x + length]
        for end, points, inward in (("left", a, 1.0), ("right", b, -1.0)):
            if end in slants:
                far = thick * math.tan(math.radians(slants[end].degrees.value))
                points[0 if slants[end].long_point == "outer face" else 1] += inward * far
        plan = Polygon([(a[0], 0.0), (b[0], 0.0), (b[1], thick), (a[1], thick)])
        prisms = [Prism(plan, foot, foot + wide, lies=True)]
        if mitred and (number in (1, len(pieces))):
            prisms = _with_mitres(plan, foot, wide, thick, left=number == 1, right=number == len(pieces))
        found.append(Solid(f"head trim {number}", "trim head", prisms))
        x = b[1] if "right" in slants else b[0]
    return found


def _with_mitres(plan: Polygon, foot: float, wide: float, thick: float, *, left: bool, right: bool) -> list[Prism]:
    """A piece whose free ends are mitred: the ends seen from the room, the rest between them seen from above."""
    x0, _, x1, _ = plan.bounds
    a, b = x0 + (wide if left else 0.0), x1 - (wide if right else 0.0)
    prisms = [Prism(plan.intersection(box(a, -1, b, thick + 1)), foot, foot + wide, lies=True)]
    if left:
        prisms.append(Prism(Polygon([(x0, foot + wide), (a, foot), (a, foot + wide)]), 0.0, thick))
    if right:
        prisms.append(Prism(Polygon([(b, foot), (x1, foot + wide), (b, foot + wide)]), 0.0, thick))
    return prisms
