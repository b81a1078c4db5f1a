"""Leaves under a raked head: their outline, and hinges whose cups keep clear of the slope, all set from the foot."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.errors import Infeasible, Message
from rodbook.hinges import board_mass, cup_borings, hinge_count, hinge_heights
from rodbook.job.book import AnyBuildUp, HingeType
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Stock
from rodbook.setout.cuts import Cut, Side, cut_words
from rodbook.setout.edges import seen_edges
from rodbook.setout.figures import thickness_of
from rodbook.setout.hanging import LEAST_LEAF_MM
from rodbook.setout.model import LeafSize, Part, Placed, Point
from rodbook.working import Measure, greatest

__all__ = ["SLOPE_CLEAR_MM", "RakedLeaf", "hang_raked", "lowest_first_hinge", "raked_leaf_parts"]

SLOPE_CLEAR_MM = 10.0
"""A hole in a leaf keeps at least this far from its sloping edge (house assumption: less breaks out in board)."""

LEAST_SIDE_MM = 60.0
"""The low side of a leaf is at least this high: a leaf that runs out to a point breaks there (house assumption)."""


@dataclass(frozen=True)
class RakedLeaf:
    """A leaf with an angled top edge.

    Parameters
    ----------
    number : int
        From the left.
    x, far : Measure
        Its edges, from the lining's left outer face. [mm]
    length : Measure
        Of its higher side. [mm]
    size : LeafSize
    ups : tuple of Measure
        Hinge centres above its foot, the highest first. [mm]
    foot : Measure
        Above the finished floor. [mm]
    """

    number: int
    x: Measure
    far: Measure
    length: Measure
    size: LeafSize
    ups: tuple[Measure, ...]
    foot: Measure


def lowest_first_hinge(hinge: HingeType, fall: float, *, hung_high: bool) -> float:
    r"""How far below its side's top corner the first hinge has to be for all its holes to keep clear of the slope. [mm]

    Parameters
    ----------
    hinge : HingeType
    fall : float
        Of the leaf's top, for each mm of width. [mm/mm]
    hung_high : bool
        Whether the hinges are on the higher side, from where the top edge falls away over the cups.

    Notes
    -----
    A hole of radius r at depth y below the corner and d from the hinge edge is (y - s d) / sqrt(1 + s^2) from the edge,
    with s the fall, taken negative where the leaf hangs on its lower side.
    """
    slope = fall if hung_high else -fall
    stretch = math.hypot(1, fall)
    cup = hinge.cup_edge + hinge.cup_diameter / 2
    wanted = slope * cup + (hinge.cup_diameter / 2 + SLOPE_CLEAR_MM) * stretch
    if hinge.pilot_spacing:
        set_in = cup + hinge.pilot_set_in
        pilot = slope * set_in + (hinge.pilot_diameter / 2 + SLOPE_CLEAR_MM) * stretch
        wanted = max(wanted, pilot + hinge.pilot_spacing / 2)
    return wanted


def hang_raked(
    build_up: AnyBuildUp,
    stock: Stock,
    number: int,
    side: Side,
    x: Measure,
    width: Measure,
    left: Measure,
    right: Measure,
    foot: Measure,
) -> tuple[RakedLeaf, list[Message]]:
    """Count and place the hinges of a leaf.

    Returns
    -------
    tuple
        The leaf, and what has to be said of it.

    Raises
    ------
    Infeasible
        If it is too narrow, runs out to a point, or has no room for its hinges.
    """
    if width.value < LEAST_LEAF_MM:
        raise Infeasible("setout.leaf_too_narrow", width_mm=width, least_mm=LEAST_LEAF_MM)
    low = min(left.value, right.value)
    if low < LEAST_SIDE_MM:
        raise Infeasible("setout.raked_leaf_too_low", leaf=number, low_mm=low, least_mm=LEAST_SIDE_MM)
    hung, other = (left, right) if side == "left" else (right, left)
    board = stock.leaf
    mass = board_mass(
        (left.value + right.value) / 2,
        width.value,
        board.thickness,
        density_kg_per_m3=(board.density_low, board.density_high),
    )
    count = hinge_count(hung.value, mass.high, table=stock.hinge_counts)
    fall = abs(left.value - right.value) / width.value
    needed = lowest_first_hinge(stock.hinge, fall, hung_high=hung.value >= other.value)
    from_top = Measure(build_up.hinge_from_top, "top hinge down", source="book")
    remarks: list[Message] = []
    if needed > build_up.hinge_from_top:
        clear = Measure(needed, "top hinge down, clear of the slope", source=f"{SLOPE_CLEAR_MM:g} mm from hole to edge")
        from_top = clear.rounded_up(build_up.step)
        remarks.append(
            Message(
                "setout.top_hinge_lower", leaf=number, down_mm=from_top.value, instead_of_mm=build_up.hinge_from_top
            )
        )
    downs = hinge_heights(
        hung,
        count,
        from_top=from_top,
        from_bottom=Measure(build_up.hinge_from_bottom, "bottom hinge up", source="book"),
        step=build_up.step,
    )
    ups = tuple((hung - down).named(f"hinge {n} above the leaf's foot") for n, down in enumerate(downs, 1))
    size = LeafSize(side, width, left, right, count, mass)
    far = (x + width).named(f"far edge of leaf {number}")
    length = greatest(left, right, name="leaf length, high side") if left.value != right.value else left
    return RakedLeaf(number, x, far, length, size, ups, foot), remarks


def leaf_outline(leaf: RakedLeaf, *, from_back: bool) -> tuple[Point, ...]:
    """Corners of a leaf in the rectangle around it, y down. [mm]"""
    left, right, width = leaf.size.left.value, leaf.size.right.value, leaf.size.width.value
    if from_back:
        left, right = right, left
    high = max(left, right)
    return ((0.0, high - left), (width, high - right), (width, high), (0.0, high))


def raked_leaf_parts(build_up: AnyBuildUp, stock: Stock, leaves: Sequence[RakedLeaf]) -> tuple[Placed, ...]:
    """The leaves as parts, each of its own outline."""
    placed: list[Placed] = []
    for leaf in leaves:
        size = leaf.size
        seen_from_back: Side = "right" if size.side == "left" else "left"
        downs = [(leaf.length - up).named("hinge below the high corner") for up in leaf.ups]
        angle = math.degrees(math.atan(abs(size.left.value - size.right.value) / size.width.value))
        cuts: tuple[Cut, ...] = ()
        if size.sloping:
            high = "left" if size.left.value > size.right.value else "right"
            degrees = Measure(angle, "slope of the leaf's top", "°", source="from its two heights and its width")
            edge = "hinge edge" if high == size.side else "closing edge"
            cuts = (Cut("top", degrees, "face", edge),)
        part = Part(
            PartKind.DOOR,
            stock.leaf.name,
            sectional=False,
            length=leaf.length,
            width=size.width,
            thickness=thickness_of(stock.leaf, "leaf thickness"),
            grain=stock.leaf.grain,
            edges=seen_edges(PartKind.DOOR),
            borings=cup_borings(stock.hinge, downs, size.width, edge=seen_from_back),
            bored_face="back",
            hand=size.side,
            ends=_ends(leaf, cuts),
            finish=build_up.finish,
            coats=build_up.coats,
            outline=leaf_outline(leaf, from_back=True) if size.sloping else (),
            datum="foot" if size.sloping else "top",
            cuts=cuts,
        )
        placed.append(Placed(part, 1))
    return tuple(placed)


def _ends(leaf: RakedLeaf, cuts: tuple[Cut, ...]) -> str:
    if not cuts:
        return ""
    size = leaf.size
    hung, other = (size.left, size.right) if size.side == "left" else (size.right, size.left)
    return f"{cut_words(cuts)}; {hung} mm high at the hinge edge, {other} mm at the closing edge"
