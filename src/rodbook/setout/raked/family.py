"""Either family under a *raked head*: leaves with an angled top edge, legs of unlike height, a sloping head.

Seen from the room (a single, the higher side at the left)::

    | `-.__           lining head, its thickness square to the slope
    |`-.__ `-.__
    | |   `-.__ `|    margin over the leaf, square to the slope
    | |  leaf  |||
    |_|________|||    the foot is level: heights of hinges are set from it

The widths are those of a level head. Heights are taken from the sloping line at the edges of each leaf.
"""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import Infeasible, Message
from rodbook.job.book import InsetBuildUp, LayOnBuildUp
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.floor import raised_foot
from rodbook.setout.hanging import Stock, skin_remarks
from rodbook.setout.leaves import hinge_sides, inset_leaf, lay_on_leaf, leaf_block
from rodbook.setout.model import SetOut
from rodbook.setout.raked.elements import raked_elements
from rodbook.setout.raked.leaves import RakedLeaf, hang_raked, raked_leaf_parts
from rodbook.setout.raked.line import RakedFrame, SlopingLine
from rodbook.setout.raked.linings import RakedLining, raked_carriers, raked_linings
from rodbook.setout.raked.trims import RakedSight, raked_trims
from rodbook.working import Measure

__all__ = ["set_out_raked"]

type _Raked = InsetBuildUp | LayOnBuildUp

MOST_LEAVES = 2
"""Under a raked head a front has one leaf or a pair: a middle leaf would need a division cut to the slope."""


@dataclass(frozen=True)
class _Across:
    """Widths of a front and where its leaves stand. [mm]"""

    width: Measure
    gap: Measure
    block: Measure
    first: Measure
    edge: Measure
    lap: Measure | None


def set_out_raked(build_up: _Raked, stock: Stock, frame: RakedFrame) -> SetOut:
    """Set out a front under a raked head.

    Parameters
    ----------
    build_up : InsetBuildUp or LayOnBuildUp
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
    across = _across(build_up, stock, frame, thickness)
    top = _leaf_line(build_up, under)
    foot = _leaf_foot(build_up, floor, frame.floor_finish, sill=frame.sill)
    leaves, remarks = _leaves(build_up, stock, frame, across, top, foot)
    lining = RakedLining(build_up, stock, frame, outer, under, thickness, floor)
    placed = [*raked_leaf_parts(build_up, stock, leaves)]
    placed += raked_linings(lining, leaves, foot)
    placed += raked_carriers(lining, leaves, foot)
    sight = _sight(build_up, stock, frame, across, under, top, thickness, foot)
    dimensions = [outer.degrees, outer.fall, across.block]
    if across.lap is not None:
        dimensions.append(across.lap)
    elif build_up.hinge_lining:
        dimensions.append((thickness_of(stock.lining, "hinge lining thickness") - across.edge)
                          .named("lap of the leaf over the hinge lining"))  # fmt: skip
    if sight is not None and stock.trim is not None:
        trims, more = raked_trims(build_up, stock.trim, sight, outer, sill=frame.sill)
        placed += trims
        remarks += more
        dimensions += [sight.width, sight.left, sight.right, _bearing(build_up, thickness, across)]
    gaps = [across.edge if across.lap is None else given(build_up, build_up.margin, "margin to the trim")]
    gaps += _gaps_over(build_up, under, leaves)
    gaps.append(_under(build_up, sill=frame.sill))
    if frame.leaves > 1:
        gaps.append(across.gap)
    biggest = max(leaves, key=lambda leaf: leaf.length.value)
    high, low = (frame.left, frame.right) if outer.falls_to == "right" else (frame.right, frame.left)
    clear_height = under.at(thickness if outer.falls_to == "right" else frame.width - thickness, "clear height")
    clear = (frame.width - 2 * thickness).named("clear width")
    sizes = tuple(leaf.size for leaf in leaves)
    return SetOut(
        build_up.name, build_up.family, frame.leaves, frame.width, high, clear,
        (clear_height - floor if floor else clear_height).named("clear height at the higher side"), across.width,
        biggest.length, gaps=tuple(gaps), dimensions=tuple(dimensions),
        leaf_mass=max((s.mass for s in sizes), key=lambda m: m.high),
        hinges=max(s.hinges for s in sizes), parts=tuple(placed),
        elements=raked_elements(lining, leaves, foot, sight, stock), remarks=(*skin_remarks(stock), *remarks),
        leaf_sizes=sizes, outer_low=low, falls_to=outer.falls_to,
    )  # fmt: skip


def _across(build_up: _Raked, stock: Stock, frame: RakedFrame, thickness: Measure) -> _Across:
    clear = (frame.width - 2 * thickness).named("clear width")
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    lap: Measure | None = None
    if isinstance(build_up, InsetBuildUp):
        exact = inset_leaf(
            clear, leaves=frame.leaves, margins=given(build_up, build_up.margin, "margin"), meeting_gap=gap
        )
        inside = clear
    else:
        inside = clear
        if build_up.hinge_lining:
            carried = thickness_of(stock.lining, "hinge lining thickness")
            inside = (clear - 2 * carried).named("clear width between hinge linings")
        exact = lay_on_leaf(inside, leaves=frame.leaves, lap=given(build_up, build_up.lap, "lap"), meeting_gap=gap)
    width = exact.rounded_down(build_up.step)
    if width.value <= 0:
        raise Infeasible("setout.clear_width_too_small", width_mm=clear, leaves=frame.leaves)
    block = leaf_block(width, leaves=frame.leaves, meeting_gap=gap)
    if isinstance(build_up, LayOnBuildUp):
        lap = ((block - inside) / 2).named("lap over each leg")
    edge = ((clear - block) / 2).named("margin at each side")
    return _Across(width, gap, block, ((frame.width - block) / 2).named("first leaf from the lining's face"), edge, lap)


def _leaf_line(build_up: _Raked, under: SlopingLine) -> SlopingLine:
    """The line of the leaves' tops before they are rounded."""
    name = "top line of the leaves at the lining's left face"
    if isinstance(build_up, InsetBuildUp):
        return under.lowered(given(build_up, build_up.margin_top, "top margin"), name)
    return under.raised(given(build_up, build_up.lap_top, "top lap"), name)


def _leaf_foot(build_up: _Raked, floor: Measure | None, floor_finish: float, *, sill: bool) -> Measure:
    """Foot of the leaves above the finished floor."""
    name = "leaf's foot above the floor"
    if not sill or floor is None:
        clearance = given(build_up, build_up.floor_clearance, "floor clearance")
        raised = raised_foot(build_up, floor_finish, sill=False)
        return (clearance if raised is None else raised + clearance).named(name)
    if isinstance(build_up, InsetBuildUp):
        return (floor + given(build_up, build_up.margin_bottom, "bottom margin")).named(name)
    return (floor - given(build_up, build_up.lap_bottom, "bottom lap")).named(name)


def _under(build_up: _Raked, *, sill: bool) -> Measure:
    if not sill:
        return given(build_up, build_up.floor_clearance, "floor clearance").named("gap under the leaf")
    if isinstance(build_up, InsetBuildUp):
        return given(build_up, build_up.margin_bottom, "bottom margin").named("gap under the leaf")
    return given(build_up, build_up.margin, "margin").named("gap under the leaf")


def _leaves(
    build_up: _Raked, stock: Stock, frame: RakedFrame, across: _Across, top: SlopingLine, foot: Measure
) -> tuple[list[RakedLeaf], list[Message]]:  # fmt: skip
    found: list[RakedLeaf] = []
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
        leaf, said = hang_raked(build_up, stock, number, side, start, across.width, heights[0], heights[1], foot)
        found.append(leaf)
        remarks += said
    return found, remarks


def _gaps_over(build_up: _Raked, under: SlopingLine, leaves: list[RakedLeaf]) -> list[Measure]:
    """What is seen over each corner of the leaves once they are rounded, square to the slope; within trim it is the margin."""
    if not isinstance(build_up, InsetBuildUp):
        return [given(build_up, build_up.margin, "margin").named("gap over the leaf")]
    found: list[Measure] = []
    for leaf in leaves:
        for end, x, height in (("left", leaf.x, leaf.size.left), ("right", leaf.far, leaf.size.right)):
            head = under.at(x, f"head over that corner of leaf {leaf.number}")
            plumb = head - leaf.foot - height
            name = f"gap over leaf {leaf.number}, {end}" if len(leaves) > 1 else f"gap over the leaf, {end}"
            found.append(under.square(plumb).named(name))
    return found


def _sight(
    build_up: _Raked, stock: Stock, frame: RakedFrame, across: _Across, under: SlopingLine,
    top: SlopingLine, thickness: Measure, foot: Measure,
) -> RakedSight | None:  # fmt: skip
    """Inside of the trim."""
    if stock.trim is None:
        if isinstance(build_up, LayOnBuildUp):
            raise Infeasible("book.trim_missing")
        return None
    name = "trim sight line at the lining's left face"
    if isinstance(build_up, InsetBuildUp):
        set_back = given(build_up, build_up.trim_set_back, "trim set-back")
        width = (frame.width - 2 * thickness + 2 * set_back).named("trim sight width")
        line = under.raised(set_back, name)
        base = (thickness - set_back).named("foot of the trim's sight") if frame.sill else None
    else:
        margin = given(build_up, build_up.margin, "margin")
        width = (across.block + 2 * margin).named("trim sight width")
        line = top.raised(margin, name)
        base = (foot - margin).named("foot of the trim's sight") if frame.sill else None
    start = ((frame.width - width) / 2).named("trim's sight from the lining's face")
    left, right = line.at(start, "trim sight height, left"), line.at(start + width, "trim sight height, right")
    if base is not None:
        left, right = (left - base).named("trim sight height, left"), (right - base).named("trim sight height, right")
    return RakedSight(start, width, left, right, base)


def _bearing(build_up: _Raked, thickness: Measure, across: _Across) -> Measure:
    name = "bearing of the trim on the lining"
    if isinstance(build_up, InsetBuildUp):
        return (thickness - given(build_up, build_up.trim_set_back, "trim set-back")).named(name)
    assert across.lap is not None
    edge = (2 * thickness).named("lining and hinge lining") if build_up.hinge_lining else thickness
    return (edge - across.lap - given(build_up, build_up.margin, "margin")).named(name)
