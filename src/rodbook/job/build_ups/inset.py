"""The family *inset*, as a book writes it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from rodbook.job.build_ups.base import BuildUpBase
from rodbook.job.units import Gap, Size

__all__ = ["InsetBuildUp"]


class InsetBuildUp(BuildUpBase):
    """The leaf stands within its lining, flush with the lining's front edge."""

    family: Literal["inset"] = Field(description="Says that this is an inset build-up.")
    margin: Gap = Field(description="Between leaf and lining at the sides. [mm]")
    margin_top: Gap = Field(description="Between leaf and head. [mm]")
    margin_bottom: Gap = Field(description="Between leaf and sill, where there is one. [mm]")
    hinge_lining: bool = Field(default=False, description="A second lining behind the leaf that carries the plates.")
    hinge_lining_width: Size | None = Field(None, description="Its width; else down to the lining's back. [mm]")
    trim_set_back: Gap = Field(0, description="How far the trim stands back from the lining's face. [mm]")
