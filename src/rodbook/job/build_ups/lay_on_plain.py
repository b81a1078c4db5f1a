"""The family *lay-on without trim*, as a book writes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar, Literal

from pydantic import Field

from rodbook.errors import Fault, Place
from rodbook.job.build_ups.base import BuildUpBase
from rodbook.job.units import Gap

__all__ = ["PlainLayOnBuildUp"]


class PlainLayOnBuildUp(BuildUpBase):
    """The leaf lies over the edges of its lining, with no trim around it; half a lap shares an edge with its neighbour."""

    family: Literal["lay-on without trim"] = Field(description="Says that no trim stands round the leaf.")
    side_lap: Literal["full", "half"] = Field(
        "full", description="Full: over all of a leg's edge but the reveal. Half: the next front laps the other half."
    )
    reveal: Gap = Field(0, description="What stays to be seen of an edge that is lapped in full. [mm]")
    middle_division: bool = Field(
        default=False, description="A division behind the meeting gap of a pair, lapped half by each leaf."
    )

    hinge_lining: ClassVar[bool] = False
    hinge_lining_width: ClassVar[None] = None

    def own_faults(self, at: Place, lining_mm: float | None) -> Iterator[Fault]:
        """No trim is there, and something is left to lap."""
        if self.trim is not None:
            yield Fault(at / "trim", "book.trim_of_plain_leaf")
        if lining_mm and self.reveal >= lining_mm:
            yield Fault(at / "reveal", "book.nothing_to_lap", value_mm=self.reveal, edge_mm=lining_mm)
        if lining_mm and self.meeting_gap >= lining_mm and (self.side_lap == "half" or self.middle_division):
            yield Fault(at / "meeting_gap", "book.nothing_to_lap_by_half", value_mm=self.meeting_gap, edge_mm=lining_mm)
