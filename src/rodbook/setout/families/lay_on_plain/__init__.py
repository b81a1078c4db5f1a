"""The family *lay-on without trim*: what it says of itself."""

from __future__ import annotations

from rodbook.job.book import PlainLayOnBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.dimensions import DimensionName
from rodbook.setout.families.lay_on_plain.set_out import clear_for_plain, set_out_plain
from rodbook.setout.family import Edge, Family, Span, Surround
from rodbook.setout.figures import given
from rodbook.setout.model import SetOut
from rodbook.working import Measure

__all__ = ["LAY_ON_PLAIN"]


def _asked(build_up: PlainLayOnBuildUp, gap: DimensionName) -> Measure | None:
    """The reveal stands round the leaf; beside a half lap it is what the lap leaves, and asked of nobody."""
    if build_up.side_lap == "half" and gap is DimensionName.REVEAL_AT_SIDE:
        return None
    return given(build_up, build_up.reveal, "reveal")


def _across(_build_up: PlainLayOnBuildUp, front: SetOut) -> tuple[Span, ...]:
    wall, lining = Edge(PartKind.LINING_LEG, inner=False), Edge(PartKind.LINING_LEG, inner=True)
    leaf = Edge(PartKind.DOOR, inner=False)
    return (
        Span("reveal", wall, leaf, front.dimension(DimensionName.REVEAL_AT_SIDE)),
        Span("lap", leaf, lining, front.dimension(DimensionName.LAP_ON_LEG)),
    )


LAY_ON_PLAIN = Family(
    PlainLayOnBuildUp,
    set_out_plain,
    clear_for_plain,
    within=False,
    surround=Surround.NOTHING,
    asked=_asked,
    across=_across,
    divides_pair=lambda build_up: build_up.middle_division,
    shares_edge=lambda build_up: build_up.side_lap == "half",
)
