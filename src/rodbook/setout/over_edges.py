"""Leaves that lie over the edges of their lining, whatever stands round them: what the lay-on families share."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.elevation import Outline, division_places
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.floor import raised_foot
from rodbook.setout.hanging import (
    Carrier,
    Hanging,
    LegBorings,
    boards_in_division,
    carrier_parts,
    division_lap,
    hang,
    leg_borings,
    lower,
)
from rodbook.setout.leaves import lay_on_leaf, leaf_parts
from rodbook.setout.linings import Clear, clear_inside, leg_rise, lining_parts
from rodbook.setout.model import Placed
from rodbook.setout.rows.parts import Standing, division_run
from rodbook.setout.rows.tiers import front_word, tiers_of
from rodbook.setout.widths import LeafRow, leaf_row
from rodbook.working import Measure

__all__ = ["Laps", "OverEdges", "carried_inside", "floor_under", "gap_below", "over_edges"]


def floor_under(build_up: AnyBuildUp, floor_finish: float) -> Measure:
    """Foot of the leaf above the floor that the lining stands on, where there is no sill."""
    clearance = given(build_up, build_up.floor_clearance, "floor clearance")
    raised = raised_foot(build_up, floor_finish, sill=False)
    return clearance if raised is None else (raised + clearance).named("leaf's foot above the floor")


def gap_below(build_up: AnyBuildUp, frame: Frame, front: OverEdges, laps: Laps) -> Dimension:
    """What is left under the leaf where there is no sill, over plinth and floor finish. [mm]"""
    raised = raised_foot(build_up, frame.floor_finish, sill=frame.sill)
    below = front.clear.height + laps.top - front.height
    below = (below if raised is None else below - raised).named("gap under the leaf")
    return Dimension.of(below, DimensionName.GAP_UNDER)


@dataclass(frozen=True)
class Laps:
    """How far a leaf lies over the edges around it: of the legs, of the head, and of the sill where there is one. [mm]"""

    side: Measure
    top: Measure
    bottom: Measure


@dataclass(frozen=True)
class OverEdges:
    """All of a front that lies over its lining's edges, but for what stands around it; `height` is that of the whole front."""

    clear: Clear
    row: LeafRow
    height: Measure
    leaf_height: Measure
    lap: Measure
    hung: tuple[Hanging, ...]
    parts: tuple[Placed, ...]
    dimensions: tuple[Measure, ...]
    outline: Outline
    standing: Standing
    divisions: tuple[Measure, ...]


def over_edges(build_up: AnyBuildUp, stock: Stock, frame: Frame, laps: Laps) -> OverEdges:
    """Leaves that lie over the edges of their lining, the lining, and what carries the hinges.

    Raises
    ------
    Infeasible
        If there is no room for leaf, hinges or plates.
    """
    thickness = thickness_of(stock.lining, "lining thickness")
    clear = clear_inside(frame.width, frame.height, thickness=thickness, sill=frame.sill)
    inside = carried_inside(build_up, stock, clear.width)
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    exact = lay_on_leaf(inside, leaves=frame.leaves, lap=laps.side, meeting_gap=gap)
    room = (inside + 2 * laps.side).named("room for the leaves")
    row = leaf_row(exact, room, leaves=frame.leaves, hand=frame.hand, gap=gap, step=build_up.step, wanted=frame.wanted)
    height = clear.height + laps.top
    height = height + laps.bottom if frame.sill else height - floor_under(build_up, frame.floor_finish)
    height = height.named(front_word(build_up, frame.rows)).rounded_down(build_up.step)
    if min(*(width.value for width in row.widths), height.value) <= 0:
        raise Infeasible("setout.clear_too_small", width_mm=clear.width, height_mm=clear.height, leaves=frame.leaves)
    lap_made = Dimension.of(((row.block - inside) / 2).named("lap over each leg"), DimensionName.LAP_ON_LEG)
    depth = given(build_up, build_up.lining_depth, "lining depth")
    standing = Standing(
        tiers_of(build_up, frame.rows, height),
        row.block,
        (frame.width.value - row.block.value) / 2,
        frame.height.value - thickness.value + laps.top.value,
        -1 * laps.top,
        depth,
    )
    leaves = standing.tiers.leaves
    own = leaves.height if leaves else height
    hung = tuple(hang(build_up, stock, width, own) for width in row.widths) if leaves else ()
    below_head = [
        [(h if leaves is None or leaves.down is None else h + leaves.down) - laps.top for h in one.heights]
        for one in hung
    ]
    below_head = [[h.named("hinge below the head's underside") for h in heights] for heights in below_head]
    placed: list[Placed] = list(
        leaf_parts(
            build_up,
            stock.leaf,
            stock.hinge,
            widths=row.widths,
            height=own,
            heights=[h.heights for h in hung],
            sides=row.sides,
        )
    )
    carried: tuple[Placed, ...] = ()
    bores: LegBorings = {}
    if build_up.hinge_lining:
        across = depth.named("hinge lining width")
        if build_up.hinge_lining_width is not None:
            across = given(build_up, build_up.hinge_lining_width, "hinge lining width")
        carrier = Carrier(PartKind.HINGE_LINING, clear.height.named("hinge lining length"), across)
        carried = carrier_parts(build_up, stock, carrier, below_head, row.sides)
    else:
        bores = leg_borings(
            stock, below_head, row.sides, width=depth, rise=leg_rise(build_up, thickness), further_back=None
        )
    placed += lining_parts(build_up, stock.lining, clear, thickness=thickness, sill=frame.sill, leg_borings=bores)
    placed += carried
    dimensions: list[Measure] = [row.block, lap_made]
    over_division = division_lap(build_up, thickness, gap, frame.leaves)
    if over_division is not None:
        length, lowered = division_run(standing, clear.height, thickness)
        division = Carrier(PartKind.DIVISION, length, depth.named("division width"))
        placed += carrier_parts(build_up, stock, division, lower(below_head, lowered), row.sides)
        dimensions.append(over_division)
    boards = boards_in_division(over_division, frame.leaves)
    outline = Outline(
        frame,
        thickness.value,
        clear,
        row,
        own.value,
        boards,
        leaf_top=standing.top - (leaves.down_mm if leaves else 0.0),
        hinges=tuple(tuple(h.value for h in one.heights) for one in hung),
        trim=0.0,
        sight=None,
        hinge_lining=stock.lining.thickness if build_up.hinge_lining else 0.0,
        trim_joint=build_up.trim_joint,
        head_over=build_up.head_joint == "over",
    )
    return OverEdges(
        clear,
        row,
        height,
        own,
        lap_made,
        hung,
        tuple(placed),
        tuple(dimensions),
        outline,
        standing,
        division_places(row, clear.width, thickness, boards),
    )


def carried_inside(build_up: AnyBuildUp, stock: Stock, clear: Measure) -> Measure:
    """Clear width between what carries the leaves: the hinge linings where there are any, else the lining itself."""
    if not build_up.hinge_lining:
        return clear
    thickness = thickness_of(stock.lining, "hinge lining thickness")
    return (clear - 2 * thickness).named("clear width between hinge linings")
