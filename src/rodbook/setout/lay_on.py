"""The family *lay-on within trim*: the leaf lies over the lining's edge, the trim stands round it, flush with its face.

Seen from above, at the hinge side::

    wall face |   trim   |margin| leaf ===============
    packer    | lining leg's edge      | (lap: how far the leaf lies over it)
"""

from __future__ import annotations

from rodbook.errors import Infeasible
from rodbook.job.book import LayOnBuildUp
from rodbook.setout.elevation import Outline, elements
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.hanging import Carrier, Frame, LegBorings, Stock, carrier_parts, hang, leg_borings, skin_remarks
from rodbook.setout.leaves import clear_for_lay_on, hinge_sides, lay_on_leaf, leaf_block, leaf_parts
from rodbook.setout.linings import Clear, clear_inside, leg_rise, lining_parts
from rodbook.setout.model import PartKind, Placed, SetOut
from rodbook.setout.trims import trim_parts
from rodbook.working import Measure

__all__ = ["clear_for", "set_out_lay_on"]


def _carried_inside(build_up: LayOnBuildUp, stock: Stock, clear: Measure) -> Measure:
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
    height = height - _bottom_lap(build_up) if sill else height + _floor(build_up)
    return Clear(width, height.named("clear height"))


def _bottom_lap(build_up: LayOnBuildUp) -> Measure:
    return given(build_up, build_up.lap_bottom, "bottom lap")


def _floor(build_up: LayOnBuildUp) -> Measure:
    return given(build_up, build_up.floor_clearance, "floor clearance")


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
        raise Infeasible("a leaf that lies on within trim needs the trim's section")
    thickness = thickness_of(stock.lining, "lining thickness")
    clear = clear_inside(frame.width, frame.height, thickness=thickness, sill=frame.sill)
    carried_inside = _carried_inside(build_up, stock, clear.width)
    gap, lap = given(build_up, build_up.meeting_gap, "meeting gap"), given(build_up, build_up.lap, "lap")
    top = given(build_up, build_up.lap_top, "top lap")
    width = lay_on_leaf(carried_inside, leaves=frame.leaves, lap=lap, meeting_gap=gap).rounded_down(build_up.step)
    height = clear.height + top
    height = height + _bottom_lap(build_up) if frame.sill else height - _floor(build_up)
    height = height.named("leaf height").rounded_down(build_up.step)
    if min(width.value, height.value) <= 0:
        raise Infeasible(f"the linings leave {clear.width} by {clear.height} mm, too little for {frame.leaves} leaves")
    block = leaf_block(width, leaves=frame.leaves, meeting_gap=gap)
    lap_made = ((block - carried_inside) / 2).named("lap over each leg")

    hanging = hang(build_up, stock, width, height)
    sides = hinge_sides(frame.leaves, frame.hand)
    below_head = [(h - top).named("hinge below the head's underside") for h in hanging.heights]
    depth = given(build_up, build_up.lining_depth, "lining depth")
    placed: list[Placed] = list(
        leaf_parts(build_up, stock.leaf, stock.hinge, width=width, height=height, heights=hanging.heights, sides=sides)
    )
    carried: tuple[Placed, ...] = ()
    bores: LegBorings = {}
    if build_up.hinge_lining:
        across = depth.named("hinge lining width")
        if build_up.hinge_lining_width is not None:
            across = given(build_up, build_up.hinge_lining_width, "hinge lining width")
        carrier = Carrier(PartKind.HINGE_LINING, clear.height.named("hinge lining length"), across)
        carried = carrier_parts(build_up, stock, carrier, below_head, sides)
    else:
        bores = leg_borings(
            stock, below_head, sides, width=depth, rise=leg_rise(build_up, thickness), further_back=None
        )
    placed += lining_parts(build_up, stock.lining, clear, thickness=thickness, sill=frame.sill, leg_borings=bores)
    placed += carried
    dimensions = [block, lap_made]
    if frame.leaves == 3:
        division = Carrier(PartKind.DIVISION, clear.height.named("division length"), depth.named("division width"))
        placed += carrier_parts(build_up, stock, division, below_head, sides)
        dimensions.append(((thickness - gap) / 2).named("lap of the leaf over the division"))

    margin = given(build_up, build_up.margin, "margin")
    sight_height = clear.height + top + margin
    if frame.sill:
        sight_height = height + 2 * margin
    sight = ((block + 2 * margin).named("trim sight width"), sight_height.named("trim sight height"))
    placed += trim_parts(build_up, stock.trim, *sight, all_round=frame.sill)
    bearing = _bearing(build_up, thickness, lap_made, margin)
    dimensions += [*sight, bearing]
    remarks = skin_remarks(stock)
    if bearing.value < build_up.trim_bearing_least:
        remarks.append(
            f"The trim bears only {bearing} mm on the lining's edge, less than {build_up.trim_bearing_least:g} mm: "
            "fix it to the wall and the packers."
        )
    leaf_top = frame.height.value - thickness.value + top.value
    below = margin if frame.sill else (clear.height + top - height)
    outline = Outline(
        frame, thickness.value, clear, width.value, height.value, gap.value, sides, leaf_top=leaf_top,
        hinges=tuple(h.value for h in hanging.heights), trim=stock.trim.width, sight=sight,
        hinge_lining=stock.lining.thickness if build_up.hinge_lining else 0.0, trim_joint=build_up.trim_joint,
        sight_foot=leaf_top + margin.value - sight[1].value,
    )  # fmt: skip
    return SetOut(
        build_up.name, build_up.family, frame.leaves, frame.width, frame.height, clear.width, clear.height, width, height,
        gaps=(margin.named("margin to the trim"), below.named("gap under the leaf"), *((gap,) if frame.leaves > 1 else ())),
        dimensions=tuple(dimensions), leaf_mass=hanging.mass, hinges=len(hanging.heights), parts=tuple(placed),
        elements=elements(outline), remarks=tuple(remarks),
    )  # fmt: skip


def _bearing(build_up: LayOnBuildUp, thickness: Measure, lap: Measure, margin: Measure) -> Measure:
    edge = thickness
    if build_up.hinge_lining:
        edge = (2 * thickness).named("lining and hinge lining")
    return (edge - lap - margin).named("bearing of the trim on the lining")
