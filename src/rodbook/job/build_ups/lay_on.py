"""The family *lay-on within trim*, as a book writes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from rodbook.errors import Fault, Place
from rodbook.job.build_ups.base import BuildUpBase
from rodbook.job.units import Gap, Size

__all__ = ["LayOnBuildUp"]


class LayOnBuildUp(BuildUpBase):
    """The leaf lies over the lining's edge; the trim stands round it, flush with its face."""

    family: Literal["lay-on within trim"] = Field(description="Says that this is a lay-on build-up.")
    lap: Gap = Field(description="How far the leaf lies over the edge of each leg. [mm]")
    lap_top: Gap = Field(description="How far the leaf lies over the head's edge. [mm]")
    lap_bottom: Gap = Field(0, description="How far the leaf lies over the sill's edge, where there is one. [mm]")
    margin: Gap = Field(description="Between leaf and trim, all round. [mm]")
    hinge_lining: bool = Field(
        default=False, description="A second lining, flush at the front, that carries the plates."
    )
    hinge_lining_width: Size | None = Field(None, description="Its width; else the lining's depth. [mm]")
    trim_bearing_least: Gap = Field(0, description="Least bearing of the trim on the lining's edge. [mm]")

    def own_faults(self, at: Place, lining_mm: float | None) -> Iterator[Fault]:
        """Trim has to be there, and an edge as wide as what laps it."""
        if self.trim is None:
            yield Fault(at / "trim", "book.trim_missing")
        if lining_mm and self.lap > lining_mm:
            yield Fault(at / "lap", "book.lap_over_lining", value_mm=self.lap, lining_mm=lining_mm)
