"""Parts: one piece to be made, what is done to its edges and ends, and where it stands in the elevation."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from rodbook.hinges import Boring
from rodbook.job.kinds import ALL_EDGES, NO_EDGES, Edge, PartKind
from rodbook.setout.cuts import Cut
from rodbook.working import Measure

__all__ = [
    "MITRED",
    "NO_JOINTS",
    "EdgeWork",
    "Element",
    "Joint",
    "Notch",
    "Part",
    "Placed",
    "Point",
    "outline_area",
]

type Point = tuple[float, float]


class Joint(StrEnum):
    """What is done to a part where it meets another; what it is in figures stands in its `ends` and `cuts`."""

    HOUSED = "housed for the head"
    MITRED_HEAD = "mitred at the head"
    MITRED_FOOT = "mitred at the foot"
    REBATED_BACK = "rebated on the back"
    REBATED_FRONT = "rebated on the front"


NO_JOINTS: tuple[Joint, ...] = ()
MITRED = (Joint.MITRED_HEAD, Joint.MITRED_FOOT)


@dataclass(frozen=True)
class EdgeWork:
    """What is done to the seen edges of a part.

    Parameters
    ----------
    way : str
        "primed", "taped" or "lipped".
    thickness : Measure, optional
        Of what is put on. [mm]
    taken_off : bool
        Whether the core is smaller by it, so that the finished size is the part's own.
    """

    way: str
    thickness: Measure | None
    taken_off: bool


@dataclass(frozen=True)
class Notch:
    """A rectangle that is cut out of the front of an upright's foot.

    Parameters
    ----------
    deep : Measure
        Back from its front edge. [mm]
    high : Measure
        Up from its foot. [mm]
    """

    deep: Measure
    high: Measure

    @property
    def words(self) -> str:
        """As the workshop reads it."""
        return f"front of the foot cut out {self.deep.value:g} × {self.high.value:g} mm for the plinth"

    @property
    def area(self) -> float:
        """What it takes off each face. [mm2]"""
        return self.deep.value * self.high.value


@dataclass(frozen=True)
class Part:
    """One piece to be made.

    Parameters
    ----------
    kind : PartKind
    stock : str
        Board or section that it is made from, as the book calls it.
    sectional : bool
        Whether that is sold by the length.
    length, width, thickness : Measure
        Length along the grain; for legs and doors that is their height. [mm]
    grain : bool
        Whether the length must lie along the sheet.
    edges : tuple of str
        Edges that are seen: arrised, filled and finished; see `setout.edges`.
    borings : tuple of Boring
        Seen from `bored_face`.
    bored_face : str
        "back" for a leaf, "inner" for what carries it; empty without borings.
    hand : str
        "left" or "right", the side of the opening where it stands or hangs, seen from the front; empty where either
        way round is the same part.
    ends : str
        How the ends are cut, where not square.
    joints : tuple of Joint
        What its `ends` say, for whoever works with it. Square where empty and there are no `cuts`.
    joint_sizes : tuple of float
        What they are in figures, in their order: the depth of each housing, width and depth of a rebate; and what is left
        on an edge to be scribed. [mm]
    finish : str
        As ordered.
    coats : int
        Coats in that finish.
    outline : tuple of (float, float)
        Corners of its face where that is no rectangle, in a round: x across from the left, y down from the top (or, of
        what lies, from the left) end of the rectangle around it, which is `length` by `width`; seen from `bored_face`,
        or from the room. [mm]
    datum : str
        The end that borings are set from: the foot where the top slopes. Their y runs down from the top all the same.
    cuts : tuple of Cut
        Ends that are not cut square; `ends` says them in words.
    edge_work : EdgeWork, optional
        What is done to its seen edges, where they are not left raw.
    core : tuple of Measure, optional
        Length and width before its edges are lipped or taped. [mm]
    cut : tuple of Measure, optional
        Length and width that are cut out of the sheet, where those are not the finished ones. [mm]
    planed : bool
        Whether its long edges are planed or moulded as they are bought, so that only its ends want work.
    notch : Notch, optional
        What is cut out of the front of its foot; `ends` says it in words. Length and width are those of the whole board.
    """

    kind: PartKind
    stock: str
    sectional: bool
    length: Measure
    width: Measure
    thickness: Measure
    grain: bool = False
    edges: tuple[Edge, ...] = NO_EDGES
    borings: tuple[Boring, ...] = ()
    bored_face: Literal["", "back", "inner"] = ""
    hand: Literal["", "left", "right"] = ""
    ends: str = ""
    joints: tuple[Joint, ...] = ()
    finish: str = ""
    coats: int = 0
    outline: tuple[Point, ...] = ()
    datum: Literal["top", "foot"] = "top"
    cuts: tuple[Cut, ...] = ()
    edge_work: EdgeWork | None = None
    core: tuple[Measure, Measure] | None = None
    cut: tuple[Measure, Measure] | None = None
    notch: Notch | None = None
    planed: bool = False
    joint_sizes: tuple[float, ...] = ()

    @property
    def lies(self) -> bool:
        """Whether its length runs level where it stands."""
        return self.kind.facts.lies

    def along(self, edge: Edge) -> bool:
        """Whether an edge runs along the length; else it is an end."""
        return edge == "front" or edge in (("top", "bottom") if self.lies else ("left", "right"))

    @property
    def cut_length(self) -> float:
        """Length that is cut out of the sheet. [mm]"""
        return (self.cut[0] if self.cut else self.length).value

    @property
    def cut_width(self) -> float:
        """Width that is cut out of the sheet. [mm]"""
        return (self.cut[1] if self.cut else self.width).value

    @property
    def face_m2(self) -> float:
        """One face of the rectangle that it is cut from. [m2]"""
        return self.cut_length * self.cut_width * 1e-6

    @property
    def coated_m2(self) -> float:
        """Both faces and all edges. [m2]"""
        length, width, thickness = self.length.value, self.width.value, self.thickness.value
        if self.outline:
            return 2e-6 * outline_area(self.outline) + _round(self.outline) * thickness * 1e-6
        # A notch at a corner takes nothing off the way round.
        off = self.notch.area if self.notch else 0.0
        return 2e-6 * (length * width - off + length * thickness + width * thickness)

    @property
    def edge_m(self) -> float:
        """Edges that are seen and want work: long ones that are planed as bought do not. [m]"""
        if self.outline and len(self.edges) == len(ALL_EDGES) and not self.planed:
            return _round(self.outline) / 1000
        ways = [self.along(edge) for edge in self.edges]
        return (
            sum(self.length.value if long else self.width.value for long in ways if not (long and self.planed)) / 1000
        )


def outline_area(outline: tuple[Point, ...]) -> float:
    """Area inside a round of corners. [mm2]

    >>> outline_area(((0, 0), (2, 0), (2, 3), (0, 3)))
    6.0
    """
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in pairs)) / 2


def _round(outline: tuple[Point, ...]) -> float:
    return sum(math.dist(a, b) for a, b in zip(outline, (*outline[1:], outline[0]), strict=True))


@dataclass(frozen=True)
class Element:
    """A rectangle of the elevation; x from the lining's left outer face, y up from the finished floor. [mm]

    A flap has its hinges along its top, at `hinge_xs`.
    Where it is no rectangle, `outline` has its corners and the rectangle is the one around them.
    """

    kind: PartKind
    x: float
    y: float
    width: float
    height: float
    label: str = ""
    hinge_side: Literal["", "left", "right"] = ""
    hinge_ys: tuple[float, ...] = ()
    hinge_xs: tuple[float, ...] = ()
    outline: tuple[Point, ...] = ()

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners in a round."""
        if self.outline:
            return self.outline
        right, top = self.x + self.width, self.y + self.height
        return ((self.x, self.y), (right, self.y), (right, top), (self.x, top))


@dataclass(frozen=True)
class Placed:
    """A part and how many of it one opening takes."""

    part: Part
    quantity: int
