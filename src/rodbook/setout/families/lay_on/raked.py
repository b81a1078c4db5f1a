"""A front that lies on within its trim, under a raked head: the trim's margin follows the slope."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.job.book import LayOnBuildUp
from rodbook.setout.asked import Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.families.lay_on.set_out import bearing
from rodbook.setout.figures import given
from rodbook.setout.leaves import lay_on_leaf
from rodbook.setout.model import SetOut
from rodbook.setout.over_edges import carried_inside
from rodbook.setout.raked.leaves import RakedLeaf
from rodbook.setout.raked.line import RakedFrame, SlopingLine
from rodbook.setout.raked.rules import Across, Opening, RakedRules, SightLine
from rodbook.setout.raked.set_out import LEAF_LINE, SIGHT_LINE, set_out_raked
from rodbook.working import Measure

__all__ = ["set_out_lay_on_raked"]


def _opening(build_up: LayOnBuildUp, stock: Stock, clear: Measure, leaves: int) -> Opening:
    inside = carried_inside(build_up, stock, clear)
    lap, gap = given(build_up, build_up.lap, "lap"), given(build_up, build_up.meeting_gap, "meeting gap")
    return Opening(lay_on_leaf(inside, leaves=leaves, lap=lap, meeting_gap=gap), inside)


def _top(build_up: LayOnBuildUp, under: SlopingLine) -> SlopingLine:
    return under.raised(given(build_up, build_up.lap_top, "top lap"), LEAF_LINE)


def _foot(build_up: LayOnBuildUp, floor: Measure) -> Measure:
    return floor - given(build_up, build_up.lap_bottom, "bottom lap")


def _under(build_up: LayOnBuildUp) -> Measure:
    return given(build_up, build_up.margin, "margin")


def _side(build_up: LayOnBuildUp, _across: Across) -> Dimension:
    return Dimension.of(given(build_up, build_up.margin, "margin to the trim"), DimensionName.MARGIN_TO_TRIM)


def _over(build_up: LayOnBuildUp, _under: SlopingLine, _leaves: Sequence[RakedLeaf]) -> list[Dimension]:
    gap = given(build_up, build_up.margin, "margin").named("gap over the leaf")
    return [Dimension.of(gap, DimensionName.GAP_OVER)]


def _sight(
    build_up: LayOnBuildUp,
    frame: RakedFrame,
    across: Across,
    _under: SlopingLine,
    top: SlopingLine,
    _thickness: Measure,
    foot: Measure,
) -> SightLine:
    margin = given(build_up, build_up.margin, "margin")
    width = (across.block + 2 * margin).named("trim sight width")
    base = (foot - margin).named("foot of the trim's sight") if frame.sill else None
    return SightLine(width, top.raised(margin, SIGHT_LINE), base)


def _bearing(build_up: LayOnBuildUp, thickness: Measure, across: Across) -> Measure:
    assert across.lap is not None, "a leaf that lies on has its lap"
    return bearing(build_up, thickness, across.lap, given(build_up, build_up.margin, "margin"))


RULES = RakedRules(_opening, _top, _foot, _under, _side, _over, _sight, _bearing, needs_trim=True)


def set_out_lay_on_raked(build_up: LayOnBuildUp, stock: Stock, frame: RakedFrame) -> SetOut:
    """Set out a front that lies on within its trim, under a raked head.

    Raises
    ------
    Infeasible
        If there is no room for it, or no trim.
    """
    return set_out_raked(RULES, build_up, stock, frame)
