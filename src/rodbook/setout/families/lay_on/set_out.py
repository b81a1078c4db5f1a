"""The family *lay-on within trim*: the leaf lies over the lining's edge, the trim stands round it, flush with its face.

Seen from above, at the hinge side::

    wall face |   trim   |margin| leaf ===============
    packer    | lining leg's edge      | (lap: how far the leaf lies over it)
"""

from __future__ import annotations

from dataclasses import replace

from rodbook.errors import Infeasible, Message
from rodbook.job.book import LayOnBuildUp
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.elevation import elements
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.hanging import (
    heaviest,
    leaf_sizes,
    most_hinges,
    skin_remarks,
)
from rodbook.setout.leaves import clear_for_lay_on
from rodbook.setout.linings import Clear
from rodbook.setout.model import SetOut
from rodbook.setout.over_edges import Laps, floor_under, gap_below, over_edges
from rodbook.setout.rows.parts import with_rows
from rodbook.setout.trims import trim_parts
from rodbook.working import Measure

__all__ = ["bearing", "clear_for", "set_out_lay_on"]


def clear_for(build_up: LayOnBuildUp, stock: Stock, leaf: tuple[Measure, Measure], *, leaves: int, sill: bool) -> Clear:
    """Clear size inside the linings that gives a wanted leaf. [mm]"""
    width = clear_for_lay_on(
        leaf[0],
        leaves=leaves,
        lap=given(build_up, build_up.lap, "lap"),
        meeting_gap=given(build_up, build_up.meeting_gap, "meeting gap"),
    )
    if build_up.hinge_lining:
        thickness = thickness_of(stock.lining, "hinge lining thickness")
        width = (width.named("clear width between hinge linings") + 2 * thickness).named("clear width")
    height = leaf[1] - given(build_up, build_up.lap_top, "top lap")
    height = height - _bottom_lap(build_up) if sill else height + floor_under(build_up, 0.0)
    return Clear(width, height.named("clear height"))


def _bottom_lap(build_up: LayOnBuildUp) -> Measure:
    return given(build_up, build_up.lap_bottom, "bottom lap")


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
    sight = (
        Dimension.of((row.block + 2 * margin).named("trim sight width"), DimensionName.SIGHT_WIDTH),
        Dimension.of(sight_height.named("trim sight height"), DimensionName.SIGHT_HEIGHT),
    )
    trims = trim_parts(build_up, stock.trim, *sight, all_round=frame.sill)
    thickness = thickness_of(stock.lining, "lining thickness")
    bears = Dimension.of(bearing(build_up, thickness, front.lap, margin), DimensionName.BEARING)
    remarks = skin_remarks(stock)
    if bears.value < build_up.trim_bearing_least:
        remarks.append(
            Message("setout.trim_bears_little", bearing_mm=bears.value, least_mm=build_up.trim_bearing_least)
        )
    below = gap_below(build_up, frame, front, laps)
    if frame.sill:
        below = Dimension.of(margin.named("gap under the leaf"), DimensionName.GAP_UNDER)
    outline = replace(
        front.outline,
        trim=stock.trim.width,
        sight=sight,
        sight_foot=front.standing.top + margin.value - sight[1].value,
    )
    gap = row.gap
    result = SetOut(
        build_up.name,
        build_up.family,
        frame.leaves,
        frame.width,
        frame.height,
        front.clear.width,
        front.clear.height,
        row.widths[0],
        front.leaf_height,
        gaps=(
            Dimension.of(margin.named("margin to the trim"), DimensionName.MARGIN_TO_TRIM),
            below,
            *((Dimension.of(gap, DimensionName.MEETING_GAP),) if frame.leaves > 1 else ()),
        ),
        dimensions=(*front.dimensions, *sight, bears),
        leaf_mass=heaviest(front.hung),
        hinges=most_hinges(front.hung),
        parts=(*front.parts, *trims),
        elements=elements(outline),
        remarks=tuple(remarks),
        leaf_sizes=leaf_sizes(row, front.leaf_height, front.hung),
        divisions=front.divisions,
    )
    return with_rows(build_up, stock, front.standing, result)


def bearing(build_up: LayOnBuildUp, thickness: Measure, lap: Measure, margin: Measure) -> Measure:
    """Bearing of the trim on the edges of lining and hinge lining, beside the leaf's lap and its margin. [mm]"""
    edge = thickness
    if build_up.hinge_lining:
        edge = (2 * thickness).named("lining and hinge lining")
    return (edge - lap - margin).named("bearing of the trim on the lining")
