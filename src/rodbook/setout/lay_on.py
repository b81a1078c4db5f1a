"""The family *lay-on within trim*: the leaf lies over the lining's edge, the trim stands round it, flush with its face.

Seen from above, at the hinge side::

    wall face |   trim   |margin| leaf ===============
    packer    | lining leg's edge      | (lap: how far the leaf lies over it)
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rodbook.errors import Infeasible, Message
from rodbook.job.book import LayOnBuildUp, PlainLayOnBuildUp
from rodbook.setout.elevation import Outline, division_places, elements
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.floor import raised_foot
from rodbook.setout.hanging import (
    Carrier,
    Frame,
    Hanging,
    LegBorings,
    Stock,
    boards_in_division,
    carrier_parts,
    division_lap,
    hang,
    heaviest,
    leaf_sizes,
    leg_borings,
    lower,
    most_hinges,
    skin_remarks,
)  # fmt: skip
from rodbook.setout.leaves import clear_for_lay_on, lay_on_leaf, leaf_parts
from rodbook.setout.linings import Clear, clear_inside, leg_rise, lining_parts
from rodbook.setout.model import PartKind, Placed, SetOut
from rodbook.setout.rows.parts import Standing, division_run, with_rows
from rodbook.setout.rows.tiers import front_word, tiers_of
from rodbook.setout.trims import trim_parts
from rodbook.setout.widths import LeafRow, leaf_row
from rodbook.working import Measure

__all__ = ["Laps", "OverEdges", "clear_for", "gap_below", "over_edges", "set_out_lay_on"]


def _carried_inside(build_up: LayOnBuildUp | PlainLayOnBuildUp, stock: Stock, clear: Measure) -> Measure:
    """Clear width between what carries the leaves: the hinge linings where there are any, else the lining itself."""
    if not build_up.hinge_lining:
        return clear
    thickness = thickness_of(stock.lining, "hinge lining thickness")
    return (clear - 2 * thickness).named("clear width between hinge linings")


def clear_for(build_up: LayOnBuildUp, stock: Stock, leaf: tuple[Measure, Measure], *, leaves: int, sill: bool) -> Clear:
    """Clear size inside the linings that gives a wanted leaf. [mm]"""
    width = clear_for_lay_on(
        leaf[0], leaves=leaves, lap=given(build_up, build_up.lap, "lap"),
        meeting_gap=given(build_up, build_up.meeting_gap, "meeting gap"),
    )  # fmt: skip
    if build_up.hinge_lining:
        thickness = thickness_of(stock.lining, "hinge lining thickness")
        width = (width.named("clear width between hinge linings") + 2 * thickness).named("clear width")
    height = leaf[1] - given(build_up, build_up.lap_top, "top lap")
    height = height - _bottom_lap(build_up) if sill else height + _floor(build_up, 0.0)
    return Clear(width, height.named("clear height"))


def _bottom_lap(build_up: LayOnBuildUp) -> Measure:
    return given(build_up, build_up.lap_bottom, "bottom lap")


def _floor(build_up: LayOnBuildUp | PlainLayOnBuildUp, floor_finish: float) -> Measure:
    """Foot of the leaf above the floor that the lining stands on, where there is no sill."""
    clearance = given(build_up, build_up.floor_clearance, "floor clearance")
    raised = raised_foot(build_up, floor_finish, sill=False)
    return clearance if raised is None else (raised + clearance).named("leaf's foot above the floor")


def gap_below(build_up: LayOnBuildUp | PlainLayOnBuildUp, frame: Frame, front: OverEdges, laps: Laps) -> Measure:
    """What is left under the leaf where there is no sill, over plinth and floor finish. [mm]"""
    raised = raised_foot(build_up, frame.floor_finish, sill=frame.sill)
    below = front.clear.height + laps.top - front.height
    return (below if raised is None else below - raised).named("gap under the leaf")


def set_out_lay_on(build_up: LayOnBuildUp, stock: Stock, frame: Frame) -> SetOut:
    """Set out a front that lies on within its trim.

    Parameters
    ----------
    build_up : LayOnBuildUp
    stock : Stock
        What it is made from; the trim's section must be there.
    frame : Frame
        Lining size, leaves, hand and sill.

    Returns
    -------
    SetOut

    Raises
    ------
    Infeasible
        If there is no room for leaf, hinges, plates or trim.
    """
    if stock.trim is None:
        raise Infeasible("book.trim_missing")
    laps = Laps(
        given(build_up, build_up.lap, "lap"), given(build_up, build_up.lap_top, "top lap"), _bottom_lap(build_up)
    )
    front = over_edges(build_up, stock, frame, laps)
    margin = given(build_up, build_up.margin, "margin")
    top, height, row = laps.top, front.height, front.row
    sight_height = front.clear.height + top + margin
    if frame.sill:
        sight_height = height + 2 * margin
    sight = ((row.block + 2 * margin).named("trim sight width"), sight_height.named("trim sight height"))
    trims = trim_parts(build_up, stock.trim, *sight, all_round=frame.sill)
    thickness = thickness_of(stock.lining, "lining thickness")
    bearing = _bearing(build_up, thickness, front.lap, margin)
    remarks = skin_remarks(stock)
    if bearing.value < build_up.trim_bearing_least:
        remarks.append(
            Message("setout.trim_bears_little", bearing_mm=bearing.value, least_mm=build_up.trim_bearing_least)
        )
    below = margin if frame.sill else gap_below(build_up, frame, front, laps)
    outline = replace(
        front.outline, trim=stock.trim.width, sight=sight,
        sight_foot=front.standing.top + margin.value - sight[1].value,
    )  # fmt: skip
    gap = row.gap
    result = SetOut(
        build_up.name, build_up.family, frame.leaves, frame.width, frame.height, front.clear.width, front.clear.height,
        row.widths[0], front.leaf_height,
        gaps=(margin.named("margin to the trim"), below.named("gap under the leaf"), *((gap,) if frame.leaves > 1 else ())),
        dimensions=(*front.dimensions, *sight, bearing), leaf_mass=heaviest(front.hung), hinges=most_hinges(front.hung),
        parts=(*front.parts, *trims), elements=elements(outline), remarks=tuple(remarks),
        leaf_sizes=leaf_sizes(row, front.leaf_height, front.hung), divisions=front.divisions,
    )  # fmt: skip
    return with_rows(build_up, stock, front.standing, result)


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


def over_edges(build_up: LayOnBuildUp | PlainLayOnBuildUp, stock: Stock, frame: Frame, laps: Laps) -> OverEdges:
    """Leaves that lie over the edges of their lining, the lining, and what carries the hinges.

    Raises
    ------
    Infeasible
        If there is no room for leaf, hinges or plates.
    """
    thickness = thickness_of(stock.lining, "lining thickness")
    clear = clear_inside(frame.width, frame.height, thickness=thickness, sill=frame.sill)
    inside = _carried_inside(build_up, stock, clear.width)
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    exact = lay_on_leaf(inside, leaves=frame.leaves, lap=laps.side, meeting_gap=gap)
    room = (inside + 2 * laps.side).named("room for the leaves")
    row = leaf_row(exact, room, leaves=frame.leaves, hand=frame.hand, gap=gap, step=build_up.step, wanted=frame.wanted)
    height = clear.height + laps.top
    height = height + laps.bottom if frame.sill else height - _floor(build_up, frame.floor_finish)
    height = height.named(front_word(build_up, frame.rows)).rounded_down(build_up.step)
    if min(*(width.value for width in row.widths), height.value) <= 0:
        raise Infeasible("setout.clear_too_small", width_mm=clear.width, height_mm=clear.height, leaves=frame.leaves)
    lap_made = ((row.block - inside) / 2).named("lap over each leg")
    depth = given(build_up, build_up.lining_depth, "lining depth")
    standing = Standing(
        tiers_of(build_up, frame.rows, height), row.block, (frame.width.value - row.block.value) / 2,
        frame.height.value - thickness.value + laps.top.value, -1 * laps.top, depth,
    )  # fmt: skip
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
            build_up, stock.leaf, stock.hinge, widths=row.widths, height=own, heights=[h.heights for h in hung],
            sides=row.sides,
        )
    )  # fmt: skip
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
    dimensions = [row.block, lap_made]
    over_division = division_lap(build_up, thickness, gap, frame.leaves)
    if over_division is not None:
        length, lowered = division_run(standing, clear.height, thickness)
        division = Carrier(PartKind.DIVISION, length, depth.named("division width"))
        placed += carrier_parts(build_up, stock, division, lower(below_head, lowered), row.sides)
        dimensions.append(over_division)
    boards = boards_in_division(over_division, frame.leaves)
    outline = Outline(
        frame, thickness.value, clear, row, own.value, boards,
        leaf_top=standing.top - (leaves.down_mm if leaves else 0.0),
        hinges=tuple(tuple(h.value for h in one.heights) for one in hung), trim=0.0, sight=None,
        hinge_lining=stock.lining.thickness if build_up.hinge_lining else 0.0, trim_joint=build_up.trim_joint,
        head_over=build_up.head_joint == "over",
    )  # fmt: skip
    return OverEdges(clear, row, height, own, lap_made, hung, tuple(placed), tuple(dimensions), outline, standing,
                     division_places(row, clear.width, thickness, boards))  # fmt: skip


def _bearing(build_up: LayOnBuildUp, thickness: Measure, lap: Measure, margin: Measure) -> Measure:
    edge = thickness
    if build_up.hinge_lining:
        edge = (2 * thickness).named("lining and hinge lining")
    return (edge - lap - margin).named("bearing of the trim on the lining")
