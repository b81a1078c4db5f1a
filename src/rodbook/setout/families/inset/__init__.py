"""The family *inset*: what it says of itself."""

from __future__ import annotations

from rodbook.job.book import InsetBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.dimensions import DimensionName
from rodbook.setout.families.inset.raked import set_out_inset_raked
from rodbook.setout.families.inset.set_out import clear_for, set_out_inset
from rodbook.setout.family import Edge, Family, Span, Surround
from rodbook.setout.figures import given
from rodbook.setout.model import SetOut
from rodbook.working import Measure

__all__ = ["INSET"]


def _asked(build_up: InsetBuildUp, gap: DimensionName) -> Measure | None:
    if gap is DimensionName.GAP_UNDER:
        return given(build_up, build_up.margin_bottom, "bottom margin")
    if gap is DimensionName.GAP_OVER:
        return given(build_up, build_up.margin_top, "top margin")
    return given(build_up, build_up.margin, "margin")


def _across(build_up: InsetBuildUp, front: SetOut) -> tuple[Span, ...]:
    wall, lining = Edge(PartKind.LINING_LEG, inner=False), Edge(PartKind.LINING_LEG, inner=True)
    leaf, trim = Edge(PartKind.DOOR, inner=False), Edge(PartKind.TRIM_LEG, inner=True)
    results = [Span("margin", lining, leaf, front.dimension(DimensionName.MARGIN_AT_SIDE))]
    bearing, lap = front.find(DimensionName.BEARING), front.find(DimensionName.LAP_ON_HINGE_LINING)
    if bearing is not None:
        set_back = given(build_up, build_up.trim_set_back, "trim set-back")
        results = [Span("bearing", wall, trim, bearing), Span("set back", trim, lining, set_back), *results]
    if lap is not None:
        results.append(Span("lap", leaf, Edge(PartKind.HINGE_LINING, inner=True), lap))
    return tuple(results)


INSET = Family(
    InsetBuildUp,
    set_out_inset,
    clear_for,
    within=True,
    surround=Surround.LINING,
    asked=_asked,
    across=_across,
    set_out_raked=set_out_inset_raked,
)
