"""An inset front under a raked head: margins to the sloping lining, square to the slope."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.job.book import InsetBuildUp
from rodbook.setout.asked import Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.figures import given
from rodbook.setout.leaves import inset_leaf
from rodbook.setout.model import SetOut
from rodbook.setout.raked.leaves import RakedLeaf
from rodbook.setout.raked.line import RakedFrame, SlopingLine
from rodbook.setout.raked.rules import Across, Opening, RakedRules, SightLine
from rodbook.setout.raked.set_out import LEAF_LINE, SIGHT_LINE, set_out_raked
from rodbook.working import Measure

__all__ = ["set_out_inset_raked"]


def _opening(build_up: InsetBuildUp, _stock: Stock, clear: Measure, leaves: int) -> Opening:
    margins = given(build_up, build_up.margin, "margin")
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    return Opening(inset_leaf(clear, leaves=leaves, margins=margins, meeting_gap=gap), None)


def _top(build_up: InsetBuildUp, under: SlopingLine) -> SlopingLine:
    return under.lowered(given(build_up, build_up.margin_top, "top margin"), LEAF_LINE)


def _foot(build_up: InsetBuildUp, floor: Measure) -> Measure:
    return floor + given(build_up, build_up.margin_bottom, "bottom margin")


def _under(build_up: InsetBuildUp) -> Measure:
    return given(build_up, build_up.margin_bottom, "bottom margin")


def _side(_build_up: InsetBuildUp, across: Across) -> Dimension:
    return Dimension.of(across.edge, DimensionName.MARGIN_AT_SIDE)


def _over(_build_up: InsetBuildUp, under: SlopingLine, leaves: Sequence[RakedLeaf]) -> list[Dimension]:
    results: list[Dimension] = []
    for leaf in leaves:
        for end, x, height in (("left", leaf.x, leaf.size.left), ("right", leaf.far, leaf.size.right)):
            head = under.at(x, f"head over that corner of leaf {leaf.number}")
            plumb = head - leaf.foot - height
            name = f"gap over leaf {leaf.number}, {end}" if len(leaves) > 1 else f"gap over the leaf, {end}"
            results.append(Dimension.of(under.square(plumb).named(name), DimensionName.GAP_OVER))
    return results


def _sight(
    build_up: InsetBuildUp,
    frame: RakedFrame,
    _across: Across,
    under: SlopingLine,
    _top: SlopingLine,
    thickness: Measure,
    _foot: Measure,
) -> SightLine:
    set_back = given(build_up, build_up.trim_set_back, "trim set-back")
    width = (frame.width - 2 * thickness + 2 * set_back).named("trim sight width")
    base = (thickness - set_back).named("foot of the trim's sight") if frame.sill else None
    return SightLine(width, under.raised(set_back, SIGHT_LINE), base)


def _bearing(build_up: InsetBuildUp, thickness: Measure, _across: Across) -> Measure:
    return thickness - given(build_up, build_up.trim_set_back, "trim set-back")


RULES = RakedRules(_opening, _top, _foot, _under, _side, _over, _sight, _bearing)


def set_out_inset_raked(build_up: InsetBuildUp, stock: Stock, frame: RakedFrame) -> SetOut:
    """Set out an inset front under a raked head.

    Raises
    ------
    Infeasible
        If there is no room for it.
    """
    return set_out_raked(RULES, build_up, stock, frame)
