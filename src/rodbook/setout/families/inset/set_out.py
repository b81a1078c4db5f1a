"""The family *inset*: the leaf stands within its lining, flush with the lining's front edge.

Seen from above, at the hinge side::

    wall | packer | lining leg |margin|  leaf ======
                  |            |------ hinge lining (where there is one), behind the leaf
"""

from __future__ import annotations

from rodbook.errors import Infeasible
from rodbook.job.book import InsetBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.elevation import Outline, division_places, elements
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.floor import raised_foot
from rodbook.setout.hanging import (
    Carrier,
    LegBorings,
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
)
from rodbook.setout.leaves import clear_for_inset, inset_leaf, leaf_parts
from rodbook.setout.linings import Clear, clear_inside, leg_rise, lining_parts
from rodbook.setout.model import Placed, SetOut
from rodbook.setout.rows.parts import Standing, division_run, with_rows
from rodbook.setout.rows.tiers import front_word, tiers_of
from rodbook.setout.trims import trim_parts
from rodbook.setout.widths import leaf_row
from rodbook.working import Measure

__all__ = ["clear_for", "set_out_inset"]


def clear_for(
    build_up: InsetBuildUp,
    stock: Stock,  # noqa: ARG001 - other families ask it
    leaf: tuple[Measure, Measure],
    *,
    leaves: int,
    sill: bool,
) -> Clear:
    """Clear size inside the linings that gives a wanted leaf. [mm]"""
    width = clear_for_inset(
        leaf[0],
        leaves=leaves,
        margins=given(build_up, build_up.margin, "margin"),
        meeting_gap=given(build_up, build_up.meeting_gap, "meeting gap"),
    )
    height = leaf[1] + given(build_up, build_up.margin_top, "top margin") + _foot(build_up, sill=sill)
    raised = raised_foot(build_up, 0.0, sill=sill)
    if raised is not None:
        height = height + raised
    return Clear(width, height.named("clear height"))


def _foot(build_up: InsetBuildUp, *, sill: bool) -> Measure:
    if sill:
        return given(build_up, build_up.margin_bottom, "bottom margin")
    return given(build_up, build_up.floor_clearance, "floor clearance")


def set_out_inset(build_up: InsetBuildUp, stock: Stock, frame: Frame) -> SetOut:
    """Set out an inset front.

    Parameters
    ----------
    build_up : InsetBuildUp
    stock : Stock
        What it is made from.
    frame : Frame
        Lining size, leaves, hand and sill.

    Returns
    -------
    SetOut

    Raises
    ------
    Infeasible
        If there is no room for leaf, hinges or plates.
    """
    thickness = thickness_of(stock.lining, "lining thickness")
    clear = clear_inside(frame.width, frame.height, thickness=thickness, sill=frame.sill)
    margin = given(build_up, build_up.margin, "margin")
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    top, foot = given(build_up, build_up.margin_top, "top margin"), _foot(build_up, sill=frame.sill)
    raised = raised_foot(build_up, frame.floor_finish, sill=frame.sill)
    usable = clear.height if raised is None else clear.height - raised
    exact = inset_leaf(clear.width, leaves=frame.leaves, margins=margin, meeting_gap=gap)
    room = (clear.width - 2 * margin).named("room for the leaves")
    row = leaf_row(exact, room, leaves=frame.leaves, hand=frame.hand, gap=gap, step=build_up.step, wanted=frame.wanted)
    height = (usable - top - foot).named(front_word(build_up, frame.rows)).rounded_down(build_up.step)
    if min(*(w.value for w in row.widths), height.value) <= 0:
        raise Infeasible("setout.clear_too_small", width_mm=clear.width, height_mm=clear.height, leaves=frame.leaves)
    block = row.block
    side = Dimension.of(((clear.width - block) / 2).named("margin at each side"), DimensionName.MARGIN_AT_SIDE)
    below = Dimension.of((usable - top - height).named("gap under the leaf"), DimensionName.GAP_UNDER)

    leaf_thickness = thickness_of(stock.leaf, "leaf thickness")
    depth = given(build_up, build_up.lining_depth, "lining depth")
    behind = (depth - leaf_thickness).named("depth behind the leaf")
    standing = Standing(
        tiers_of(build_up, frame.rows, height),
        block,
        (frame.width.value - block.value) / 2,
        frame.height.value - thickness.value - top.value,
        top,
        behind,
    )
    leaves = standing.tiers.leaves
    own = leaves.height if leaves else height
    over = top if leaves is None or leaves.down is None else top + leaves.down
    hung = [hang(build_up, stock, width, own) for width in row.widths] if leaves else []
    sides = row.sides
    below_head = [[(h + over).named("hinge below the head's underside") for h in one.heights] for one in hung]
    dimensions: list[Measure] = [block]
    placed: list[Placed] = list(
        leaf_parts(
            build_up,
            stock.leaf,
            stock.hinge,
            widths=row.widths,
            height=own,
            heights=[h.heights for h in hung],
            sides=sides,
        )
    )
    if build_up.hinge_lining:
        across = _hinge_lining_width(build_up, behind)
        carrier = Carrier(PartKind.HINGE_LINING, clear.height.named("hinge lining length"), across)
        bores: LegBorings = {}
        carried = carrier_parts(build_up, stock, carrier, below_head, sides)
        lap = (thickness_of(stock.lining, "hinge lining thickness") - side).named(
            "lap of the leaf over the hinge lining"
        )
        dimensions.append(Dimension.of(lap, DimensionName.LAP_ON_HINGE_LINING))
    else:
        bores = leg_borings(
            stock, below_head, sides, width=depth, rise=leg_rise(build_up, thickness), further_back=leaf_thickness
        )
        carried = ()
    placed += lining_parts(build_up, stock.lining, clear, thickness=thickness, sill=frame.sill, leg_borings=bores)
    placed += carried
    over_division = division_lap(build_up, thickness, gap, frame.leaves)
    if over_division is not None:
        length, lowered = division_run(standing, clear.height, thickness)
        division = Carrier(PartKind.DIVISION, length, behind.named("division width"))
        placed += carrier_parts(build_up, stock, division, lower(below_head, lowered), sides)
        dimensions.append(over_division)
    boards = boards_in_division(over_division, frame.leaves)
    remarks = skin_remarks(stock)
    sight = None
    if stock.trim is not None:
        set_back = given(build_up, build_up.trim_set_back, "trim set-back")
        sight = (
            Dimension.of((clear.width + 2 * set_back).named("trim sight width"), DimensionName.SIGHT_WIDTH),
            Dimension.of(
                (clear.height + (2 if frame.sill else 1) * set_back).named("trim sight height"),
                DimensionName.SIGHT_HEIGHT,
            ),
        )
        placed += trim_parts(build_up, stock.trim, *sight, all_round=frame.sill)
        bearing = Dimension.of((thickness - set_back).named("bearing of the trim on the lining"), DimensionName.BEARING)
        dimensions += [*sight, bearing]
    outline = Outline(
        frame,
        thickness.value,
        clear,
        row,
        own.value,
        boards,
        leaf_top=standing.top - (leaves.down_mm if leaves else 0.0),
        hinges=tuple(tuple(h.value for h in one.heights) for one in hung),
        trim=(stock.trim.width if stock.trim else 0.0),
        sight=sight,
        hinge_lining=stock.lining.thickness if build_up.hinge_lining else 0.0,
        trim_joint=build_up.trim_joint,
        head_over=build_up.head_joint == "over",
        sight_foot=thickness.value - build_up.trim_set_back if frame.sill else 0.0,
    )
    result = SetOut(
        build_up.name,
        build_up.family,
        frame.leaves,
        frame.width,
        frame.height,
        clear.width,
        clear.height,
        row.widths[0],
        own,
        gaps=(
            side,
            Dimension.of(top.named("gap over the leaf"), DimensionName.GAP_OVER),
            below,
            *((Dimension.of(gap, DimensionName.MEETING_GAP),) if frame.leaves > 1 else ()),
        ),
        dimensions=tuple(dimensions),
        leaf_mass=heaviest(hung),
        hinges=most_hinges(hung),
        parts=tuple(placed),
        elements=elements(outline),
        remarks=tuple(remarks),
        leaf_sizes=leaf_sizes(row, own, hung),
        divisions=division_places(row, clear.width, thickness, boards),
    )
    return with_rows(build_up, stock, standing, result)


def _hinge_lining_width(build_up: InsetBuildUp, behind: Measure) -> Measure:
    if build_up.hinge_lining_width is None:
        return behind.named("hinge lining width")
    if build_up.hinge_lining_width > behind.value:
        raise Infeasible("setout.hinge_lining_too_wide", width_mm=build_up.hinge_lining_width, behind_mm=behind)
    return given(build_up, build_up.hinge_lining_width, "hinge lining width")
