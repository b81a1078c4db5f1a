"""What a set-out consists of: parts with their sizes, edges and borings, and where each stands in the elevation."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from rodbook.hinges import Boring, MassRange
from rodbook.working import Measure

__all__ = ["ALL_EDGES", "FRONT_EDGE", "NO_EDGES", "Edge", "Element", "Part", "PartKind", "Placed", "SetOut"]

Edge = Literal["top", "bottom", "left", "right", "front"]

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
        Edges that are seen: arrised, filled and finished.
    borings : tuple of Boring
        Seen from `bored_face`.
    bored_face : str
        "back" for a leaf, "inner" for what carries it; empty without borings.
    hand : str
        "left" or "right", the side of the opening where it stands or hangs, seen from the front; empty where either
        way round is the same part.
    ends : str
        How the ends are cut, where not square.
    finish : str
        As ordered.
    coats : int
        Coats in that finish.
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
    finish: str = ""
    coats: int = 0

    @property
    def face_m2(self) -> float:
        """One face. [m2]"""
        return self.length.value * self.width.value * 1e-6

    @property
    def coated_m2(self) -> float:
        """Both faces and all four edges. [m2]"""
        length, width, thickness = self.length.value, self.width.value, self.thickness.value
        return 2e-6 * (length * width + length * thickness + width * thickness)

    @property
    def edge_m(self) -> float:
        """Edges that are seen. [m]"""
        along = {"left": self.length, "right": self.length, "front": self.length}
        return sum(along.get(edge, self.width).value for edge in self.edges) / 1000


@dataclass(frozen=True)
class Element:
    """A rectangle of the elevation; x from the lining's left outer face, y up from the finished floor. [mm]"""

    kind: PartKind
    x: float
    y: float
    width: float
    height: float
    label: str = ""
    hinge_side: Literal["", "left", "right"] = ""
    hinge_ys: tuple[float, ...] = ()


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
    remarks : tuple of str
        What somebody has to know before it is made.
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
    remarks: tuple[str, ...]

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
