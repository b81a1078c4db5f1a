"""What a set-out consists of: parts with their sizes, edges and borings, and where each stands in three dimensions."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from rodbook.errors import Message
from rodbook.hinges import MassRange
from rodbook.setout.assembly import Assembly, Joinery, Pieces, assemble
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.parts import (
    MITRED,
    NO_JOINTS,
    EdgeWork,
    Element,
    Joint,
    Notch,
    Part,
    Placed,
    Point,
    outline_area,
)
from rodbook.working import Measure

__all__ = [
    "MITRED",
    "NO_JOINTS",
    "EdgeWork",
    "Element",
    "Joint",
    "LeafSize",
    "Notch",
    "Part",
    "Placed",
    "Point",
    "RowSize",
    "SeenGap",
    "SetOut",
    "outline_area",
]


@dataclass(frozen=True)
class SeenGap:
    """A gap three times over: as it was asked for, as the rounded parts make it, and as it is seen once all is finished. [mm]"""

    key: DimensionName
    name: str
    asked: Measure | None
    made: Measure
    seen: Measure


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
    gaps : tuple of Dimension
        What is seen between leaf, lining, trim and floor once the leaves are rounded: each named. [mm]
    dimensions : tuple of Measure
        Everything else that is worth asking about: laps, bearings, sight sizes; those that something rests on are
        `Dimension` with a key. [mm]
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
    joinery : Joinery, optional
        How its parts go together; none while it is still being set out.
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
    gaps: tuple[Dimension, ...]
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
    joinery: Joinery | None = None

    @cached_property
    def assembly(self) -> Assembly:
        """Every part where it stands, in three dimensions: what sections, elevations, swings and clashes are taken from."""
        assert self.joinery is not None, "a set-out is put together once it is whole"
        tongue = self.find(DimensionName.TONGUE)
        return assemble(
            Pieces(
                self.parts,
                self.elements,
                self.outer_width.value,
                self.trim_runs,
                tongue.value if tongue else 0.0,
                self.joinery,
            )
        )

    def find(self, key: DimensionName) -> Measure | None:
        """The gap or dimension of that key, the first where there are several; none where there is none."""
        keyed = (m for m in (*self.gaps, *self.dimensions) if isinstance(m, Dimension))
        return next((m for m in keyed if m.key == key), None)

    def dimension(self, key: DimensionName) -> Measure:
        """The gap or dimension of that key.

        Raises
        ------
        KeyError
            If there is none.
        """
        result = self.find(key)
        if result is None:
            raise KeyError(key)
        return result
