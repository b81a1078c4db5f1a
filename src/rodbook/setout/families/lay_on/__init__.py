"""The family *lay-on within trim*: what it says of itself."""

from __future__ import annotations

from rodbook.job.book import LayOnBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.dimensions import DimensionName
from rodbook.setout.families.lay_on.raked import set_out_lay_on_raked
from rodbook.setout.families.lay_on.set_out import clear_for, set_out_lay_on
from rodbook.setout.family import Edge, Family, Span, Surround
from rodbook.setout.figures import given
from rodbook.setout.model import SetOut
from rodbook.working import Measure

__all__ = ["LAY_ON"]


def _asked(build_up: LayOnBuildUp, _gap: DimensionName) -> Measure | None:
    return given(build_up, build_up.margin, "margin")


def _across(build_up: LayOnBuildUp, front: SetOut) -> tuple[Span, ...]:
    carrier = Edge(PartKind.HINGE_LINING if build_up.hinge_lining else PartKind.LINING_LEG, inner=True)
    wall, trim, leaf = (
        Edge(PartKind.LINING_LEG, inner=False),
        Edge(PartKind.TRIM_LEG, inner=True),
        Edge(PartKind.DOOR, inner=False),
    )
    return (
        Span("bearing", wall, trim, front.dimension(DimensionName.BEARING)),
        Span("margin", trim, leaf, front.dimension(DimensionName.MARGIN_TO_TRIM)),
        Span("lap", leaf, carrier, front.dimension(DimensionName.LAP_ON_LEG)),
    )


def _head_bearing(build_up: LayOnBuildUp, _at_side: float, lining: float) -> float:
    return lining - build_up.lap_top - build_up.margin


LAY_ON = Family(
    LayOnBuildUp,
    set_out_lay_on,
    clear_for,
    within=False,
    surround=Surround.TRIM,
    asked=_asked,
    across=_across,
    set_out_raked=set_out_lay_on_raked,
    head_bearing=_head_bearing,
)
