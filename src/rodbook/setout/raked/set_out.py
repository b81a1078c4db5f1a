"""A front of any family under a *raked head*: leaves with an angled top edge, legs of unlike height, a sloping head.

Seen from the room (a single, the higher side at the left)::

    | `-.__           lining head, its thickness square to the slope
    |`-.__ `-.__
    | |   `-.__ `|    margin over the leaf, square to the slope
    | |  leaf  |||
    |_|________|||    the foot is level: heights of hinges are set from it

The widths are those of a level head. Heights are taken from the sloping line at the edges of each leaf.
"""

from __future__ import annotations

from rodbook.errors import Infeasible, Message
from rodbook.job.build_ups import BuildUpBase
from rodbook.setout.asked import Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.floor import raised_foot
from rodbook.setout.hanging import skin_remarks
from rodbook.setout.leaves import hinge_sides, leaf_block
from rodbook.setout.model import SetOut
from rodbook.setout.raked.elements import raked_elements
from rodbook.setout.raked.leaves import RakedLeaf, hang_raked, raked_leaf_parts
from rodbook.setout.raked.line import RakedFrame, SlopingLine
from rodbook.setout.raked.linings import RakedLining, raked_carriers, raked_linings
from rodbook.setout.raked.rules import Across, RakedRules
from rodbook.setout.raked.trims import RakedSight, raked_trims
from rodbook.working import Measure

__all__ = ["LEAF_LINE", "SIGHT_LINE", "set_out_raked"]

LEAF_LINE = "top line of the leaves at the lining's left face"
SIGHT_LINE = "trim sight line at the lining's left face"
"""What these lines are called in a working."""

MOST_LEAVES = 2
"""Under a raked head a front has one leaf or a pair: a middle leaf would need a division cut to the slope."""


def set_out_raked[M: BuildUpBase](rules: RakedRules[M], build_up: M, stock: Stock, frame: RakedFrame) -> SetOut:
    """Set out a front under a raked head.

    Parameters
    ----------
    rules : RakedRules
        Of the build-up's family.
    build_up : BuildUpBase
    stock : Stock
        What it is made from.
    frame : RakedFrame
        Lining size at both sides, leaves, hand and sill.

    Returns
    -------
    SetOut

    Raises
    ------
    Infeasible
        If there is no room for leaves, hinges, plates or trim.
    InputError
        If the head is steeper than any.
    """
    if frame.leaves > MOST_LEAVES:
        raise Infeasible("setout.leaves_under_raked_head", leaves=frame.leaves)
    thickness = thickness_of(stock.lining, "lining thickness")
    outer = SlopingLine.over(frame)
    under = outer.lowered(thickness, "underside of the head at the lining's left face")
    floor = thickness if frame.sill else None
    across = _across(rules, build_up, stock, frame, thickness)
    top = rules.top(build_up, under)
    foot = _leaf_foot(rules, build_up, floor, frame.floor_finish, sill=frame.sill)
    leaves, remarks = _leaves(build_up, stock, frame, across, top, foot)
    lining = RakedLining(build_up, stock, frame, outer, under, thickness, floor)
    placed = [*raked_leaf_parts(build_up, stock, leaves)]
    placed += raked_linings(lining, leaves, foot)
    placed += raked_carriers(lining, leaves, foot)
    sight = _sight(rules, build_up, stock, frame, across, under, top, thickness, foot)
    dimensions: list[Measure] = [Dimension.of(outer.degrees, DimensionName.SLOPE), outer.fall, across.block]
    if across.lap is not None:
        dimensions.append(Dimension.of(across.lap, DimensionName.LAP_ON_LEG))
    elif build_up.hinge_lining:
        lap = thickness_of(stock.lining, "hinge lining thickness") - across.edge
        name = DimensionName.LAP_ON_HINGE_LINING
        dimensions.append(Dimension.of(lap.named(name), name))
    if sight is not None and stock.trim is not None:
        trims, more = raked_trims(build_up, stock.trim, sight, outer, sill=frame.sill)
        placed += trims
        remarks += more
        bearing = rules.bearing(build_up, thickness, across).named(DimensionName.BEARING)
        dimensions += [
            Dimension.of(sight.width, DimensionName.SIGHT_WIDTH),
            sight.left,
            sight.right,
            Dimension.of(bearing, DimensionName.BEARING),
        ]
    gaps = [
        rules.side(build_up, across),
        *rules.over(build_up, under, leaves),
        _under(rules, build_up, sill=frame.sill),
    ]
    if frame.leaves > 1:
        gaps.append(Dimension.of(across.gap, DimensionName.MEETING_GAP))
    biggest = max(leaves, key=lambda leaf: leaf.length.value)
    high, low = (frame.left, frame.right) if outer.falls_to == "right" else (frame.right, frame.left)
    clear_height = under.at(thickness if outer.falls_to == "right" else frame.width - thickness, "clear height")
    clear = (frame.width - 2 * thickness).named("clear width")
    sizes = tuple(leaf.size for leaf in leaves)
    return SetOut(
        build_up.name,
        build_up.family,
        frame.leaves,
        frame.width,
        high,
        clear,
        (clear_height - floor if floor else clear_height).named("clear height at the higher side"),
        across.width,
        biggest.length,
        gaps=tuple(gaps),
        dimensions=tuple(dimensions),
        leaf_mass=max((s.mass for s in sizes), key=lambda m: m.high),
        hinges=max(s.hinges for s in sizes),
        parts=tuple(placed),
        elements=raked_elements(lining, leaves, foot, sight, stock),
        remarks=(*skin_remarks(stock), *remarks),
        leaf_sizes=sizes,
        outer_low=low,
        falls_to=outer.falls_to,
    )


def _across[M: BuildUpBase](
    rules: RakedRules[M], build_up: M, stock: Stock, frame: RakedFrame, thickness: Measure
) -> Across:
    clear = (frame.width - 2 * thickness).named("clear width")
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    opening = rules.opening(build_up, stock, clear, frame.leaves)
    width = opening.exact.rounded_down(build_up.step)
    if width.value <= 0:
        raise Infeasible("setout.clear_width_too_small", width_mm=clear, leaves=frame.leaves)
    block = leaf_block(width, leaves=frame.leaves, meeting_gap=gap)
    lap = None if opening.lapped is None else ((block - opening.lapped) / 2).named("lap over each leg")
    edge = ((clear - block) / 2).named("margin at each side")
    return Across(width, gap, block, ((frame.width - block) / 2).named("first leaf from the lining's face"), edge, lap)


def _leaf_foot[M: BuildUpBase](
    rules: RakedRules[M], build_up: M, floor: Measure | None, floor_finish: float, *, sill: bool
) -> Measure:
    """Foot of the leaves above the finished floor."""
    name = "leaf's foot above the floor"
    if not sill or floor is None:
        clearance = given(build_up, build_up.floor_clearance, "floor clearance")
        raised = raised_foot(build_up, floor_finish, sill=False)
        return (clearance if raised is None else raised + clearance).named(name)
    return rules.foot(build_up, floor).named(name)


def _under[M: BuildUpBase](rules: RakedRules[M], build_up: M, *, sill: bool) -> Dimension:
    under = rules.under(build_up) if sill else given(build_up, build_up.floor_clearance, "floor clearance")
    return Dimension.of(under.named("gap under the leaf"), DimensionName.GAP_UNDER)


def _leaves(
    build_up: BuildUpBase, stock: Stock, frame: RakedFrame, across: Across, top: SlopingLine, foot: Measure
) -> tuple[list[RakedLeaf], list[Message]]:
    results: list[RakedLeaf] = []
    remarks: list[Message] = []
    for number, side in enumerate(hinge_sides(frame.leaves, frame.hand), 1):
        start = across.first
        if number > 1:
            start = (start + across.width + across.gap).named(f"leaf {number} from the lining's face")
        heights = []
        for end, x in (("left", start), ("right", (start + across.width).named(f"far edge of leaf {number}"))):
            line = top.at(x, f"top of leaf {number} above the floor at its {end}")
            exact = (line - foot).named(
                f"height of leaf {number} at its {end}" if frame.leaves > 1 else f"leaf height, {end}"
            )
            heights.append(exact.rounded_down(build_up.step))
        leaf, answer = hang_raked(build_up, stock, number, side, start, across.width, heights[0], heights[1], foot)
        results.append(leaf)
        remarks += answer
    return results, remarks


def _sight[M: BuildUpBase](
    rules: RakedRules[M],
    build_up: M,
    stock: Stock,
    frame: RakedFrame,
    across: Across,
    under: SlopingLine,
    top: SlopingLine,
    thickness: Measure,
    foot: Measure,
) -> RakedSight | None:
    """Inside of the trim."""
    if stock.trim is None:
        if rules.needs_trim:
            raise Infeasible("book.trim_missing")
        return None
    result = rules.sight(build_up, frame, across, under, top, thickness, foot)
    width, line, base = result.width, result.line, result.base
    start = ((frame.width - width) / 2).named("trim's sight from the lining's face")
    left, right = line.at(start, "trim sight height, left"), line.at(start + width, "trim sight height, right")
    if base is not None:
        left, right = (left - base).named("trim sight height, left"), (right - base).named("trim sight height, right")
    return RakedSight(start, width, left, right, base)
