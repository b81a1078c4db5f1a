"""What the leaves hang on: hinge heights carried over to legs, hinge linings and divisions, and those parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.errors import Infeasible, Message
from rodbook.hinges import Boring, MassRange, board_mass, hinge_count, hinge_heights, plate_borings
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Stock
from rodbook.setout.cuts import Side
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.family import family_of
from rodbook.setout.model import LeafSize, Part, Placed
from rodbook.setout.widths import LeafRow
from rodbook.working import Measure

__all__ = [
    "Carrier",
    "Hanging",
    "LegBorings",
    "boards_in_division",
    "carrier_parts",
    "division_lap",
    "hang",
    "heaviest",
    "leaf_sizes",
    "leg_borings",
    "lower",
    "most_hinges",
    "skin_remarks",
]

type LegBorings = dict[Literal["left", "right"], tuple[Boring, ...]]
"""Plate holes of each leg of a lining."""

LEAST_LEAF_MM = 120.0
"""A narrower leaf has no room for a cup on one side and a hand on the other (house assumption)."""

COMFORTABLE_LEAF_MM = 20.0
"""A leaf thinner than this wants care at the cup: the drill's point easily comes through at 18 mm (common practice)."""


@dataclass(frozen=True)
class Hanging:
    """How a leaf hangs: mass, count and heights from its top. [kg, mm]"""

    mass: MassRange
    heights: tuple[Measure, ...]


@dataclass(frozen=True)
class Carrier:
    """A second part that carries plates: hinge linings at the sides, or a division between leaves. [mm]"""

    kind: PartKind
    length: Measure
    width: Measure
    further_back: Measure | None = None


def hang(build_up: AnyBuildUp, stock: Stock, width: Measure, height: Measure) -> Hanging:
    """Count and place the hinges of a leaf of this size.

    Raises
    ------
    Infeasible
        If the leaf is too narrow, or the book's table or its height does not allow it.
    """
    board = stock.leaf
    if width.value < LEAST_LEAF_MM:
        raise Infeasible("setout.leaf_too_narrow", width_mm=width, least_mm=LEAST_LEAF_MM)
    mass = board_mass(
        height.value, width.value, board.thickness, density_kg_per_m3=(board.density_low, board.density_high)
    )
    count = hinge_count(height.value, mass.high, table=stock.hinge_counts)
    heights = hinge_heights(
        height,
        count,
        from_top=Measure(build_up.hinge_from_top, "top hinge down", source="book"),
        from_bottom=Measure(build_up.hinge_from_bottom, "bottom hinge up", source="book"),
        step=build_up.step,
    )
    return Hanging(mass, heights)


def leg_borings(
    stock: Stock,
    heights_below_head: Sequence[Sequence[Measure]],
    sides: Sequence[Side],
    *,
    width: Measure,
    rise: Measure | None,
    further_back: Measure | None,
) -> LegBorings:
    """Plate holes in the legs of a lining that itself carries the leaves, by side.

    Heights of each leaf are below the head's underside; `rise` is how far the leg's top end stands above it. [mm]
    """
    if not heights_below_head:
        return {}
    outer = {"left": sides[0] == "left", "right": sides[-1] == "right"}

    def on_part(side: Side) -> list[Measure]:
        heights = heights_below_head[0 if side == "left" else -1]
        return [h if rise is None else (h + rise).named("hinge from the leg's top end") for h in heights]

    return {
        side: plate_borings(stock.hinge, on_part(side), width, front=side, further_back=further_back)
        if outer[side]
        else ()
        for side in ("left", "right")
    }


def carrier_parts(
    build_up: AnyBuildUp,
    stock: Stock,
    carrier: Carrier,
    heights_below_head: Sequence[Sequence[Measure]],
    sides: Sequence[Side],
) -> tuple[Placed, ...]:
    """Hinge linings (two), or the division between leaves, with the plate holes that the leaves ask for.

    A carrier runs from the head's underside down, so hinge heights below the head are heights on it. Of three leaves the
    middle one hangs on the division; of four the two in the middle hang on two boards that stand back to back, as plate
    holes from both faces would meet in one; behind a pair it carries nothing.
    """
    if carrier.length.value <= 0 or carrier.width.value <= stock.hinge.plate_set_back:
        raise Infeasible(
            "setout.no_room_for_plate",
            part=carrier.kind,
            width_mm=carrier.width,
            in_mm=stock.hinge.plate_set_back,
        )
    thickness = Measure(stock.lining.thickness, f"{carrier.kind} thickness", source="book")

    def part(leaf: int | None, front: Side) -> Part:
        bores = (
            ()
            if leaf is None
            else plate_borings(
                stock.hinge, heights_below_head[leaf], carrier.width, front=front, further_back=carrier.further_back
            )
        )
        return Part(
            carrier.kind,
            stock.lining.name,
            sectional=False,
            length=carrier.length,
            width=carrier.width,
            thickness=thickness,
            grain=stock.lining.grain,
            edges=seen_edges(carrier.kind),
            borings=bores,
            bored_face="inner" if bores else "",
            hand=front if bores else "",
            finish=build_up.finish,
            coats=build_up.coats,
        )

    if carrier.kind is PartKind.DIVISION:
        # A leaf hung on its left sees a left-hand part: the face of the division that looks towards it.
        inner = [n for n in range(len(sides)) if 0 < n < len(sides) - 1]
        return tuple(Placed(part(n, sides[n]), 1) for n in inner) or (Placed(part(None, "left"), 1),)
    outer: dict[Side, int | None] = {
        "left": 0 if sides[0] == "left" else None,
        "right": len(sides) - 1 if sides[-1] == "right" else None,
    }
    if not heights_below_head:
        outer = {"left": None, "right": None}
    return tuple(Placed(part(leaf, side), 1) for side, leaf in outer.items())


def lower(heights_below_head: Sequence[Sequence[Measure]], by: Measure | None) -> list[list[Measure]]:
    """Heights on a part whose top end stands below the head's underside. [mm]"""
    if by is None:
        return [list(heights) for heights in heights_below_head]
    return [[(h - by).named("hinge from the part's top end") for h in heights] for heights in heights_below_head]


def division_lap(build_up: AnyBuildUp, thickness: Measure, gap: Measure, leaves: int) -> Dimension | None:
    """How far a leaf lies over the division beside it; none where the front has no division. [mm]"""
    key = DimensionName.LAP_ON_DIVISION
    if leaves == 4:
        return Dimension.of(((2 * thickness - gap) / 2).named(key), key)
    if leaves == 3 or (leaves == 2 and family_of(build_up).divides_pair(build_up)):
        return Dimension.of(((thickness - gap) / 2).named(key), key)
    return None


def boards_in_division(lap: Measure | None, leaves: int) -> int:
    """How many boards the division is made of."""
    if lap is None:
        return 0
    return 2 if leaves == 4 else 1


def heaviest(hung: Sequence[Hanging]) -> MassRange:
    """Mass of the heaviest leaf. [kg]"""
    return max((one.mass for one in hung), key=lambda mass: mass.high, default=MassRange(0.0, 0.0))


def most_hinges(hung: Sequence[Hanging]) -> int:
    """Hinges of the leaf that has the most."""
    return max((len(one.heights) for one in hung), default=0)


def leaf_sizes(row: LeafRow, height: Measure, hung: Sequence[Hanging]) -> tuple[LeafSize, ...]:
    """Each leaf of a level front; none where no row is of leaves."""
    if not hung:
        return ()
    return tuple(
        LeafSize(side, width, height, height, len(one.heights), one.mass)
        for side, width, one in zip(row.sides, row.widths, hung, strict=True)
    )


def skin_remarks(stock: Stock) -> list[Message]:
    """What has to be said of the board that is left under a cup."""
    left = stock.leaf.thickness - stock.hinge.cup_depth
    if left <= 0:
        raise Infeasible("setout.cup_through_leaf", cup_mm=stock.hinge.cup_depth, thickness_mm=stock.leaf.thickness)
    if stock.leaf.thickness < COMFORTABLE_LEAF_MM:
        return [Message("setout.thin_under_cup", left_mm=left)]
    return []
