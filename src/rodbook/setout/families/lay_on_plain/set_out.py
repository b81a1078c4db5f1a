"""The family *lay-on without trim*: the leaf lies over the edges of its lining, and nothing stands round it.

Seen from above, a full lap at the left and a half lap at the right, where the next front has the other half::

      reveal| leaf 1 ============== |gap| leaf 2 ====== |gap| next front
    wall | leg's edge |               | division |        | shared leg |
"""

from __future__ import annotations

from rodbook.errors import Infeasible
from rodbook.job.book import PlainLayOnBuildUp
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.elevation import elements
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.floor import raised_foot
from rodbook.setout.hanging import heaviest, leaf_sizes, most_hinges, skin_remarks
from rodbook.setout.leaves import clear_for_lay_on
from rodbook.setout.linings import Clear
from rodbook.setout.model import SetOut
from rodbook.setout.over_edges import Laps, gap_below, over_edges
from rodbook.setout.rows.parts import with_rows
from rodbook.working import Measure

__all__ = ["clear_for_plain", "plain_laps", "set_out_plain"]


def plain_laps(build_up: PlainLayOnBuildUp, stock: Stock) -> Laps:
    """Laps from the lining's thickness.

    A full lap leaves the reveal; a half lap leaves half a meeting gap to the middle of the edge, so that two fronts with
    half laps meet over one edge with that gap between them.

    Raises
    ------
    Infeasible
        If nothing is left to lap.
    """
    thickness = thickness_of(stock.lining, "lining thickness")
    full = (thickness - given(build_up, build_up.reveal, "reveal")).named("full lap")
    side = full
    if build_up.side_lap == "half":
        side = ((thickness - given(build_up, build_up.meeting_gap, "meeting gap")) / 2).named("half lap")
    for lap in (full, side):
        if lap.value <= 0:
            raise Infeasible("setout.nothing_to_lap", kind=lap.name, lap_mm=lap, thickness_mm=thickness)
    return Laps(side, full.named("top lap"), full.named("bottom lap"))


def clear_for_plain(
    build_up: PlainLayOnBuildUp, stock: Stock, leaf: tuple[Measure, Measure], *, leaves: int, sill: bool
) -> Clear:
    """Clear size inside the linings that gives a wanted leaf. [mm]"""
    laps = plain_laps(build_up, stock)
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    width = clear_for_lay_on(leaf[0], leaves=leaves, lap=laps.side, meeting_gap=gap)
    height = leaf[1] - laps.top
    height = height - laps.bottom if sill else height + given(build_up, build_up.floor_clearance, "floor clearance")
    raised = raised_foot(build_up, 0.0, sill=sill)
    if raised is not None:
        height = height + raised
    return Clear(width, height.named("clear height"))


def set_out_plain(build_up: PlainLayOnBuildUp, stock: Stock, frame: Frame) -> SetOut:
    """Set out a front that lies on without trim.

    Parameters
    ----------
    build_up : PlainLayOnBuildUp
    stock : Stock
        What it is made from.
    frame : Frame
        Lining size, leaves, hand and sill.

    Raises
    ------
    Infeasible
        If there is no room for leaf, hinges or plates.
    """
    laps = plain_laps(build_up, stock)
    front = over_edges(build_up, stock, frame, laps)
    thickness = thickness_of(stock.lining, "lining thickness")
    reveal = Dimension.of((thickness - front.lap).named("reveal at each side"), DimensionName.REVEAL_AT_SIDE)
    over = Dimension.of((thickness - laps.top).named("reveal over the leaf"), DimensionName.REVEAL_OVER)
    under = gap_below(build_up, frame, front, laps)
    if frame.sill:
        left = (front.clear.height + laps.top + thickness - front.height).named("gap under the leaf")
        under = Dimension.of(left, DimensionName.GAP_UNDER)
    gap = Dimension.of(front.row.gap, DimensionName.MEETING_GAP)
    result = SetOut(
        build_up.name,
        build_up.family,
        frame.leaves,
        frame.width,
        frame.height,
        front.clear.width,
        front.clear.height,
        front.row.widths[0],
        front.leaf_height,
        gaps=(reveal, over, under, *((gap,) if frame.leaves > 1 else ())),
        dimensions=front.dimensions,
        leaf_mass=heaviest(front.hung),
        hinges=most_hinges(front.hung),
        parts=front.parts,
        elements=elements(front.outline),
        remarks=tuple(skin_remarks(stock)),
        leaf_sizes=leaf_sizes(front.row, front.leaf_height, front.hung),
        divisions=front.divisions,
    )
    return with_rows(build_up, stock, front.standing, result)
