"""What the drawings of a part have in common: which face is shown, which edge leads, which holes there are."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.hinges import Boring
from rodbook.papers.drawing.lettering import LEAST_MM
from rodbook.papers.drawing.model import Circle, Line, Mark, Pen, Point, Text, View, arrow, cross
from rodbook.setout import Joint, Part, PartKind
from rodbook.working import Measure

__all__ = [
    "Hole",
    "Mitres",
    "depth_words",
    "edge_word",
    "face_words",
    "first_hinge",
    "from_datum",
    "grain_marks",
    "hole_marks",
    "holes",
    "last_hinge",
    "leading_edge",
    "left_group",
    "marks_on",
    "mitres",
    "seen_edge",
    "short",
]

type Side = Literal["left", "right"]


def short(value: float) -> str:
    """A length as a drawing carries it: no more decimals than it has.

    >>> short(417.0), short(22.5), short(-0.0)
    ('417', '22.5', '0')
    """
    text = f"{value + 0.0:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


@dataclass(frozen=True)
class Hole:
    """A boring with its number in the table, counted from the top end."""

    number: int
    boring: Boring


@dataclass(frozen=True)
class Mitres:
    """Which ends of a part are mitred."""

    head: bool
    foot: bool


def depth_words(boring: Boring, written: Callable[[float], str]) -> str:
    """How deep a hole is, in a table: a figure, or that it goes right through."""
    return boring.depth if isinstance(boring.depth, str) else written(boring.depth)


def holes(part: Part) -> tuple[Hole, ...]:
    """The borings of a part in the order of the table: from the top end down, then from the left."""
    ordered = sorted(part.borings, key=lambda b: (round(b.y.value, 3), round(b.x.value, 3)))
    return tuple(Hole(n, boring) for n, boring in enumerate(ordered, 1))


def from_datum(part: Part, boring: Boring) -> Measure:
    """How far a boring is from the end that borings are set from: down from the top, or up from the foot. [mm]"""
    if part.datum == "top":
        return boring.y
    return (part.length - boring.y).named("up from the foot")


def first_hinge(results: Sequence[Hole]) -> tuple[Hole, ...]:
    """The holes of the topmost hinge: a cup and its pilots, or the two holes of a plate."""
    hinges = _of_hinges(results)
    cups = [hole for hole in hinges if hole.boring.kind == "cup"]
    if not cups:
        return tuple(hinges[:2])
    size = len(hinges) // len(cups)
    return tuple(hinges[:size])


def left_group(results: Sequence[Hole]) -> tuple[Hole, ...]:
    """The holes next to the left edge: a hinge of a flap, else those one above the other."""
    hinges = _of_hinges(results)
    cups = [hole for hole in hinges if hole.boring.kind == "cup"]
    across = sorted(hinges, key=lambda hole: hole.boring.x.value)
    if cups:
        return tuple(across[: len(hinges) // len(cups)])
    return tuple(hole for hole in across if abs(hole.boring.x.value - across[0].boring.x.value) < 1e-6)


def _of_hinges(results: Sequence[Hole]) -> Sequence[Hole]:
    """Without the holes of handles and catches, unless there are no others."""
    return [hole for hole in results if hole.boring.kind in ("cup", "pilot", "plate")] or results


def last_hinge(results: Sequence[Hole]) -> tuple[Hole, ...]:
    """The holes of the lowest hinge."""
    return tuple(_of_hinges(results)[-len(first_hinge(results)) :])


def leading_edge(part: Part) -> Side | None:
    """The edge that the borings are set from, as it is seen on the bored face: hinge edge or front edge.

    A leaf is seen from the back, so one that hangs on the left has its hinge edge on the right. What carries a leaf is
    seen from inside the opening, where the left-hand part has the room, and so its front edge, on the left.
    """
    if part.borings and part.kind.facts.alike:
        return "left"
    if part.borings and part.kind.facts.carries == "above":
        return "right"
    if not part.borings or not part.hand:
        return None
    if part.kind is PartKind.DOOR:
        return "right" if part.hand == "left" else "left"
    return part.hand


def edge_word(part: Part) -> str:
    """What the leading edge is called."""
    if part.kind.facts.alike:
        return "left edge"
    return "hinge edge" if part.kind is PartKind.DOOR else "front edge"


def face_words(part: Part) -> str:
    """Which face a drawing shows."""
    if part.bored_face == "back":
        return "seen from the back, the bored face"
    if part.bored_face and part.kind.facts.carries == "above":
        return "its underside, the bored face, with its left end at the top"
    if part.bored_face:
        return "seen from inside the opening, the bored face"
    if part.sectional:
        return "seen from the front"
    return "either face"


def mitres(part: Part) -> Mitres:
    """Which ends are mitred: by its cuts, or where it has none by its joints."""
    if part.cuts:
        ends = {cut.end for cut in part.cuts if cut.through == "face"}
        return Mitres(head=bool(ends & {"top", "left"}), foot=bool(ends & {"foot", "right"}))
    return Mitres(head=Joint.MITRED_HEAD in part.joints, foot=Joint.MITRED_FOOT in part.joints)


def marks_on(reach: float, every: float = 60.0) -> int:
    """How many Vs an edge of this length gets. [mm on paper]"""
    return max(1, round(reach / every))


def seen_edge(start: Point, end: Point, outward: Point, *, every: float = 60.0) -> tuple[Mark, ...]:
    """A pencilled V along an edge that is seen, its point on the edge; more than one on a long edge.

    Parameters
    ----------
    start, end : tuple of float
        Ends of the edge on paper. [mm]
    outward : tuple of float
        Unit step away from the part.
    every : float
        A V for each such stretch. [mm on paper]
    """
    (x1, y1), (x2, y2) = start, end
    reach = abs(x2 - x1) + abs(y2 - y1)
    count = marks_on(reach, every)
    high, half = 2.0, 0.9
    (ox, oy) = outward
    marks: list[Mark] = []
    for n in range(count):
        share = (n + 0.5) / count
        x, y = x1 + share * (x2 - x1) + ox * 0.25, y1 + share * (y2 - y1) + oy * 0.25
        wings = [(x + ox * high + side * oy * half, y + oy * high + side * ox * half) for side in (-1, 1)]
        marks.append(Line((wings[0], (x, y), wings[1]), Pen.OUTLINE, "seen edge"))
    return tuple(marks)


def hole_marks(results: Sequence[Hole], place: Callable[[Boring], Point], view: View) -> tuple[Mark, ...]:
    """Holes at their place and size, each with a cross through its centre."""
    marks: list[Mark] = []
    for hole in results:
        x, y = place(hole.boring)
        radius = hole.boring.diameter / 2 / view.scale
        marks.append(Circle(x, y, radius, Pen.OUTLINE if radius > 0.5 else Pen.FINE, role=f"hole {hole.number}"))
        marks += cross(x, y, max(radius + 0.6, 0.9))
    return tuple(marks)


def grain_marks(x: float, y: float, reach: float, *, upright: bool) -> tuple[Mark, ...]:
    """A double arrow along the grain with the word beside it."""
    half = reach / 2
    ends = ((x, y - half), (x, y + half)) if upright else ((x - half, y), (x + half, y))
    word = (
        Text(x - LEAST_MM, y, "grain", upright=True, role="grain")
        if upright
        else Text(x, y - LEAST_MM, "grain", role="grain")
    )
    return (*arrow(ends[0], (x, y)), *arrow(ends[1], (x, y)), word)
