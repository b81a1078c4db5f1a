"""What the build-ups of every family have, and what a family's own model says to the checks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import Field

from rodbook.errors import Fault, Place
from rodbook.job.models import Document, Source, Text, Word
from rodbook.job.units import Gap, Millimetres, Size

__all__ = ["BuildUpBase", "EdgeWay"]

EdgeWay = Literal["raw", "primed", "taped", "lipped"]
"""What is done to an edge that is seen."""


class BuildUpBase(Document):
    """The figures that a build-up of any family has.

    A family's model adds its own fields; `family` is a word of its own, with one value. One without hinge linings says so
    in class variables.
    """

    if TYPE_CHECKING:

        @property
        def family(self) -> str:
            """What the family is called in a book."""

        @property
        def hinge_lining(self) -> bool:
            """Whether a second lining carries the plates."""

        @property
        def hinge_lining_width(self) -> float | None:
            """Its width, where it is not as wide as there is room. [mm]"""

    name: Word = Field(description="What jobs call it.")
    leaf_board: Word = Field(description="Board of the leaves.")
    lining_board: Word = Field(description="Board of the linings.")
    lining_depth: Size = Field(description="Front to back of the linings. [mm]")
    head_joint: Literal["between", "over", "housed"] = Field(
        "between", description="Head between the legs, over them, or housed into them."
    )
    housing: Gap = Field(0, description="Depth of the housing where the head is housed. [mm]")
    trim: Word | None = Field(None, description="Section of the trim; none where there is none.")
    trim_joint: Literal["mitred", "butted"] = Field(
        "mitred", description="Corners of the trim; butted: head over legs."
    )
    meeting_gap: Gap = Field(description="Between two leaves. [mm]")
    floor_clearance: Gap = Field(description="Under a leaf where there is no sill. [mm]")
    plinth: Gap = Field(0, description="Height of a plinth under the leaves, where there is no sill. [mm]")
    plinth_set_back: Gap = Field(0, description="How far the plinth stands back from the lining's front edge. [mm]")
    at_plinth: Literal["notched", "stood on", "bays"] = Field(
        "notched",
        description="Hinge linings and divisions at the plinth: notched for it (common practice), stood on it, or it in bays.",
    )
    hinge: Word = Field(description="Hinge from the book.")
    hinge_from_top: Size = Field(description="Top of the leaf to the first hinge. [mm]")
    hinge_from_bottom: Size = Field(description="Bottom of the leaf to the last hinge. [mm]")
    step: Annotated[Millimetres, Field(gt=0, le=5)] = Field(
        description="The workshop makes to this step; leaves are rounded down to it so that no gap falls below its least. [mm]"
    )
    packer_least: Gap = Field(description="Thinnest packing at each side. [mm]")
    packer_most: Gap = Field(description="Thickest packing at each side. [mm]")
    packer_wanted: Gap = Field(description="Packing at each side of openings still to be framed. [mm]")
    head_packer_least: Gap = Field(description="Thinnest packing over the head. [mm]")
    head_packer_most: Gap = Field(description="Thickest packing over the head. [mm]")
    head_packer_wanted: Gap = Field(description="Packing over the head of openings still to be framed. [mm]")
    reveal_board: Gap = Field(0, description="Board on each face of a planned opening before the lining goes in. [mm]")
    floor_to_come: Gap = Field(0, description="Floor still to come when a planned opening is framed. [mm]")
    finish: Text = Field("", description="What the parts are ordered with: primed, lacquered, bare.")
    coats: int = Field(0, ge=0, le=6, description="Coats in that finish.")
    meeting: Literal["plain", "rebated", "cover strip"] = Field("plain", description="Edges where two leaves meet.")
    meeting_rebate: Gap = Field(0, description="How far one leaf lies over the other where they are rebated. [mm]")
    cover_strip: Word | None = Field(None, description="Section of the strip over the meeting gap.")
    handle: Word | None = Field(None, description="Handle or knob from the book.")
    catch: Word | None = Field(None, description="Catch from the book.")
    drawer_fixing: Word | None = Field(None, description="Fixing of drawer fronts, from the book's fittings.")
    flap_stay: Word | None = Field(None, description="Stay of flaps, from the book's fittings; one at each side.")
    row_rails: bool = Field(default=False, description="A rail behind each gap between rows of a divided front.")
    apron_top: Gap = Field(0, description="Height of a fixed strip over the leaves; 0 for none. [mm]")
    apron_bottom: Gap = Field(0, description="Height of a fixed strip under the leaves; 0 for none. [mm]")
    apron_fixing: Word | None = Field(None, description="Fixing of aprons, from the book's fittings.")
    end_panel_board: Word | None = Field(None, description="Board of end panels; that of the leaves where left out.")
    end_panel_scribe: Gap = Field(0, description="Left on an end panel's back edge, to be scribed to the wall. [mm]")
    film: Annotated[float, Field(ge=0, le=500, allow_inf_nan=False)] = Field(
        0, description="Dry film of one coat; each coat closes a gap by it once from either side. [µm]"
    )
    leaf_edge: EdgeWay = Field("raw", description="What is done to the edges of the leaves.")
    leaf_edge_thickness: Gap = Field(0, description="Of the lipping or tape on the leaves. [mm]")
    lining_edge: EdgeWay = Field("raw", description="What is done to the front edges of the linings.")
    lining_edge_thickness: Gap = Field(0, description="Of the lipping or tape on the linings. [mm]")
    edging_taken_off: bool = Field(
        default=True, description="The core is cut smaller by the lipping or tape, so that the finished size stays."
    )
    machining: Gap = Field(0, description="Boards are cut larger by this and machined to size. [mm]")
    gap_least: Gap = Field(0, description="Least gap that may be seen once all is finished. [mm]")
    source: Source = Field(description="Where these figures come from.")

    def own_faults(self, at: Place, lining_mm: float | None) -> Iterator[Fault]:  # noqa: ARG002
        """What no single field can tell, and only this family asks.

        Parameters
        ----------
        at : Place
            Where the build-up stands in its document.
        lining_mm : float, optional
            Thickness of its lining; none where the board is not known. [mm]
        """
        yield from ()
