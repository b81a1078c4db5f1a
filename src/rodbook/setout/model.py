"""What a set-out consists of: parts with their sizes, edges and borings, and where each stands in the elevation."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from rodbook.errors import Message
from rodbook.hinges import Boring, MassRange
from rodbook.setout.cuts import Cut
from rodbook.working import Measure

__all__ = [
    "ALL_EDGES", "FRONT_EDGE", "LYING", "NO_EDGES", "Edge", "EdgeWork", "Element", "LeafSize", "Notch", "Part", "PartKind",
    "Placed", "RowSize", "SeenGap", "SetOut", "outline_area",
]  # fmt: skip

type Point = tuple[float, float]

Edge = Literal["top", "bottom", "left", "right", "front"]
"""Of the part where it stands; `setout.edges` says which are seen."""

ALL_EDGES: tuple[Edge, ...] = ("top", "bottom", "left", "right")
FRONT_EDGE: tuple[Edge, ...] = ("front",)
NO_EDGES: tuple[Edge, ...] = ()


class PartKind(StrEnum):
    """The kinds of part, in the order in which they are listed."""

    DOOR = "door"
    LINING_LEG = "lining leg"
    LINING_HEAD = "lining head"
    LINING_SILL = "lining sill"
    HINGE_LINING = "hinge lining"
    DIVISION = "division"
    TRIM_LEG = "trim leg"
    TRIM_HEAD = "trim head"
    PANEL = "panel"
    STRIP = "cover strip"
    PLINTH = "plinth"
    DRAWER_FRONT = "drawer front"
    FLAP = "flap"
    APRON = "apron"
    RAIL = "rail"
    END_PANEL = "end panel"


class Joint(StrEnum):
    """What is done to a part where it meets another; what it is in figures stands in its `ends` and `cuts`."""

    HOUSED = "housed for the head"
    MITRED_HEAD = "mitred at the head"
    MITRED_FOOT = "mitred at the foot"
    REBATED_BACK = "rebated on the back"
    REBATED_FRONT = "rebated on the front"


NO_JOINTS: tuple[Joint, ...] = ()
MITRED = (Joint.MITRED_HEAD, Joint.MITRED_FOOT)

LYING = (PartKind.LINING_HEAD, PartKind.LINING_SILL, PartKind.TRIM_HEAD, PartKind.PLINTH, PartKind.RAIL)
"""Kinds whose length runs level where they stand."""


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
class SeenGap:
    """A gap three times over: as it was asked for, as the rounded parts make it, and as it is seen once all is finished. [mm]"""

    name: str
    asked: Measure | None
    made: Measure
    seen: Measure


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

    @property
    def lies(self) -> bool:
        """Whether its length runs level where it stands."""
        return self.kind in LYING

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
class LeafSize:
    """One leaf of a front, from the left.

    Parameters
    ----------
    side : str
        Where it hangs, seen from the front.
    width : Measure
        [mm]
    left, right : Measure
        Heights of its two sides, seen from the front. [mm]
    hinges : int
    mass : MassRange
        [kg]
    """

    side: Literal["left", "right"]
    width: Measure
    left: Measure
    right: Measure
    hinges: int
    mass: MassRange

    @property
    def sloping(self) -> bool:
        """Whether its top slopes."""
        return self.left.value != self.right.value


@dataclass(frozen=True)
class RowSize:
    """One row of a front that is divided in height, from the floor up.

    Parameters
    ----------
    kind : str
        "drawer", "flap", "leaves" or "apron".
    width, height : Measure
        Over the row. [mm]
    foot : float
        Above the floor that the lining stands on. [mm]
    hinges : int
        Of a flap.
    mass : MassRange, optional
        Of what is no leaf. [kg]
    moment_nm : float
        Of a flap held level, at its heaviest. [N m]
    """

    kind: Literal["drawer", "flap", "leaves", "apron"]
    width: Measure
    height: Measure
    foot: float
    hinges: int = 0
    mass: MassRange | None = None
    moment_nm: float = 0.0


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


@dataclass(frozen=True)
class SetOut:
    """Everything that follows from one size and one build-up.

    Parameters
    ----------
    build_up, family : str
    outer_width, outer_height : Measure
        Of the lining. [mm]
    clear_width, clear_height : Measure
        Inside the linings. [mm]
    leaf_width, leaf_height : Measure
        One leaf. [mm]
    gaps : tuple of Measure
        What is seen between leaf, lining, trim and floor once the leaves are rounded: each named. [mm]
    dimensions : tuple of Measure
        Everything else that is worth asking about: laps, bearings, sight sizes. [mm]
    leaf_mass : MassRange
        [kg]
    hinges : int
        For each leaf.
    parts : tuple of Placed
    elements : tuple of Element
        The elevation, back to front.
    remarks : tuple of Message
        What somebody has to know before it is made.
    leaf_sizes : tuple of LeafSize
        Each leaf, from the left.
    outer_low : Measure, optional
        Under a raked head: outer height of the lining at its lower side, `outer_height` being that at its higher one. [mm]
    falls_to : str
        The lower side of a raked head; empty for a level one.
    seen : tuple of SeenGap
        The gaps with rounding, film and edging in them.
    trim_runs : tuple of str
        Sides on which the trim runs on over the next opening.
    plinth_runs : tuple of str
        Sides on which the plinth runs on under the next opening.
    rows : tuple of RowSize
        Where the front is divided in height, from the floor up; `leaves` is 0 where none of them is of leaves.
    divisions : tuple of Measure
        Left face of each board of the division between leaves, from the inside of the left-hand leg. [mm]
    """

    build_up: str
    family: str
    leaves: int
    outer_width: Measure
    outer_height: Measure
    clear_width: Measure
    clear_height: Measure
    leaf_width: Measure
    leaf_height: Measure
    gaps: tuple[Measure, ...]
    dimensions: tuple[Measure, ...]
    leaf_mass: MassRange
    hinges: int
    parts: tuple[Placed, ...]
    elements: tuple[Element, ...]
    remarks: tuple[Message, ...]
    leaf_sizes: tuple[LeafSize, ...] = ()
    outer_low: Measure | None = None
    falls_to: Literal["", "left", "right"] = ""
    seen: tuple[SeenGap, ...] = ()
    trim_runs: tuple[Literal["left", "right"], ...] = ()
    plinth_runs: tuple[Literal["left", "right"], ...] = ()
    rows: tuple[RowSize, ...] = ()
    divisions: tuple[Measure, ...] = ()

    def dimension(self, name: str) -> Measure:
        """The gap or dimension of that name.

        Raises
        ------
        KeyError
            If there is none.
        """
        for measure in (*self.gaps, *self.dimensions):
            if measure.name == name:
                return measure
        raise KeyError(name)
