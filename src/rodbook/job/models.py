"""The job document: who for, where, and every opening as it was measured or is wanted."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints
from pydantic_core import PydanticCustomError

from rodbook.errors import Message, Unread
from rodbook.job.dates import JobDates
from rodbook.job.misread import by_tens
from rodbook.job.rows import rows_from_text
from rodbook.job.units import Millimetres

__all__ = [
    "FORMAT",
    "GREATEST_OPENING_MM",
    "LEAST_OPENING_MM",
    "Ceiling",
    "FrontRow",
    "GivenPrice",
    "Hand",
    "Job",
    "JobHeader",
    "JobOffcut",
    "Making",
    "Obstacle",
    "Opening",
    "Panel",
    "PriceExtra",
    "PriceTerms",
    "Run",
    "Source",
    "TakenPiece",
    "Text",
    "Three",
    "Word",
]

FORMAT = 1
"""Version of the job document that this code reads and writes; older ones are brought up by `versions`."""

LEAST_OPENING_MM = 150.0
"""No opening is narrower or lower: below it a leaf has no room for a cup and its plate (house assumption)."""

GREATEST_OPENING_MM = 6000.0
"""No opening is wider or taller (house assumption)."""

Text = Annotated[str, StringConstraints(strip_whitespace=True, max_length=400)]
Source = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=400)]
Word = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=80)]


class Document(BaseModel):
    """A part of a document: unknown names are faults, values never change once read."""

    model_config = ConfigDict(extra="forbid", frozen=True, str_max_length=4000)


def _plausible(value: float) -> float:
    """Refuse a reading that no opening has, and offer the likely slip (a digit lost or one too many)."""
    if LEAST_OPENING_MM <= value <= GREATEST_OPENING_MM:
        return value
    small = value < LEAST_OPENING_MM
    guess = by_tens(value)[0 if small else 1]
    likely = LEAST_OPENING_MM <= guess <= GREATEST_OPENING_MM
    answer = Message(
        "length.below_smallest_opening" if small else "length.above_largest_opening",
        value_mm=value,
        limit_mm=LEAST_OPENING_MM if small else GREATEST_OPENING_MM,
        hint=Message("value.did_you_mean_figure", value=guess) if likely else None,
    )
    raise PydanticCustomError("implausible", "no reading", {"said": answer})


Reading = Annotated[Millimetres, AfterValidator(_plausible)]
Diagonal = Annotated[Millimetres, Field(gt=LEAST_OPENING_MM, le=2 * GREATEST_OPENING_MM)]
Three = tuple[Reading, Reading, Reading]
Pair = tuple[Reading, Reading]
LeafWidth = Annotated[Millimetres, Field(ge=0, le=GREATEST_OPENING_MM)]
Share = Annotated[float, Field(gt=0, le=100, allow_inf_nan=False)]
Positive = Annotated[Millimetres, Field(gt=0)]


OwnGap = Annotated[Millimetres, Field(ge=0, le=200)]
GapName = Literal[
    "margin", "margin_top", "margin_bottom", "lap", "lap_top", "lap_bottom", "meeting_gap", "floor_clearance"
]
"""Figures of a build-up that a job may have of its own."""


class Hand(StrEnum):
    """The side that a single leaf hangs on, seen from the front."""

    LEFT = "left"
    RIGHT = "right"


class Making(StrEnum):
    """Who makes a kind of part."""

    SITE = "site-made"
    BOUGHT = "bought-in"
    CHEAPER = "cheaper"


class Obstacle(Document):
    """Something fixed near an opening that a leaf may meet as it opens: a wall, a radiator, a pipe, a shelf."""

    name: Word = Field(description="What it is, such as radiator.")
    left: Millimetres = Field(
        description="From the opening's left side to its left side; below 0 where it begins left of the opening. [mm]"
    )
    width: Positive = Field(description="Along the wall. [mm]")
    out: Positive = Field(description="How far it reaches out from the wall's face. [mm]")
    away: Annotated[Millimetres, Field(ge=0)] = Field(0, description="From the wall's face to its back. [mm]")
    bottom: Annotated[Millimetres, Field(ge=0)] = Field(0, description="Its underside above the floor. [mm]")
    top: Positive | None = Field(None, description="Its top above the floor; right up where left out. [mm]")


class Ceiling(Document):
    """A sloping ceiling in front of an opening."""

    height: Positive = Field(description="Above the finished floor, at the wall's face. [mm]")
    fall: float = Field(
        ge=-3000, le=3000, description="Fall for each metre into the room; below 0 where it rises. [mm/m]"
    )


class FrontRow(Document):
    """One row of a front that is divided in height."""

    kind: Literal["drawer", "flap", "leaves", "apron"] = Field(
        description="A drawer front, a flap that is hinged at its head, the leaves, or a fixed strip (apron)."
    )
    height: LeafWidth = Field(0, description="Of its fronts; 0 takes what the other rows leave. [mm]")
    share: Share = Field(1, description="Of what is left, in proportion to the other rows without a height.")


def _read_rows(value: object) -> object:
    """Rows may be written as a short text, as in a table's cell."""
    if not isinstance(value, str):
        return value
    try:
        return rows_from_text(value)
    except Unread as error:
        raise PydanticCustomError("rows", "no rows", {"said": error.message}) from None


class Opening(Document):
    """A hole in a wall or frame that gets a front, standing already or still to be framed."""

    mark: Word = Field(description="Its name on the plan and on every label, such as C3.")
    room: Text = Field("", description="Where it is.")
    state: Literal["standing", "planned"] = Field("standing", description="Standing already, or still to be framed.")
    leaves: int = Field(1, ge=1, le=4, description="How many doors: one to four.")
    hand: Hand = Field(
        Hand.LEFT, description="Side a single leaf (or the middle one of three) hangs on, from the front."
    )
    leaf_widths: tuple[LeafWidth, ...] | None = Field(
        None, max_length=4, description="Widths of its leaves from the left; 0 takes what the others leave. [mm]"
    )
    leaf_shares: tuple[Share, ...] | None = Field(
        None, max_length=4, description="Widths of its leaves from the left, in proportion to each other."
    )
    rows: Annotated[tuple[FrontRow, ...], BeforeValidator(_read_rows), Field(max_length=8)] = Field(
        (),
        description="Drawer fronts, flaps and leaves over each other from the floor up; leaves alone where left out.",
    )
    end_panels: Literal["none", "left", "right", "both"] = Field(
        "none", description="Planned only: sides that stand free and are closed with a panel, from the front."
    )
    build_up: Word | None = Field(None, description="Build-up from the book; the job's own where it is left out.")
    head: Literal["level", "raked"] = Field("level", description="Level, or sloping (raked).")
    sill: bool = Field(default=False, description="Whether the lining has a sill.")
    widths: Three | None = Field(None, description="Widths read level at foot, middle and head. [mm]")
    heights: Three | None = Field(None, description="Heights read plumb at left, middle and right. [mm]")
    diagonals: tuple[Diagonal, Diagonal] | None = Field(
        None, description="Foot left to head right, then foot right to head left; they show a lean. [mm]"
    )
    floor_finish: Annotated[Millimetres, Field(ge=0, le=100)] = Field(
        0, description="Standing only: thickness of a floor finish still to be laid in front of it. [mm]"
    )
    depth: Positive | None = Field(None, description="Clear depth behind the wall's face. [mm]")
    readings: dict[Word, Millimetres] = Field(
        default_factory=dict,
        max_length=60,
        description="Further readings by name, such as plumb-left, level-floor, bow-head, width-600. [mm]",
    )
    read_by: dict[Word, Word] = Field(
        default_factory=dict,
        max_length=60,
        description="Instrument by kind or name of reading, such as width = laser; tape, level and plumb line else.",
    )
    leaf: Pair | None = Field(None, description="Planned only: width and height of the leaf that is wanted. [mm]")
    clear: Pair | None = Field(None, description="Planned only: width and height wanted clear inside the linings. [mm]")
    obstacles: tuple[Obstacle, ...] = Field(
        (), max_length=20, description="What stands near and may be in a leaf's way."
    )
    ceiling: Ceiling | None = Field(None, description="A ceiling that slopes in front of it.")
    note: Text = Field("", description="Anything else that was seen.")


class Panel(Document):
    """A fixed rectangular panel, made to the size that is given."""

    mark: Word = Field(description="Its name on the plan and on every label.")
    room: Text = Field("", description="Where it is.")
    board: Word = Field(description="Board from the book.")
    length: Reading = Field(description="Along the board's grain, usually its height. [mm]")
    width: Reading = Field(description="Across the board's grain. [mm]")
    quantity: int = Field(1, ge=1, le=200, description="How many.")
    note: Text = Field("", description="Anything else that matters.")


class Run(Document):
    """Openings beside each other on one wall, whose trim runs on over all of them."""

    name: Word = Field(description="What it is called, such as long wall.")
    openings: tuple[Word, ...] = Field(min_length=2, max_length=60, description="Their marks, from the left.")
    piers: tuple[Positive, ...] = Field(
        min_length=1, max_length=59, description="Wall between each two of them, read level at the heads. [mm]"
    )


class TakenPiece(Document):
    """Wanted pieces that were cut from this job's waste, as they were ticked off; with these there, no more are taken."""

    label: Word = Field(description="What is written on them.")
    board: Word = Field(description="Board that they were cut from.")
    length: Positive = Field(description="Along the grain. [mm]")
    width: Positive = Field(description="Across the grain. [mm]")
    number: int = Field(ge=1, le=500, description="How many were cut.")
    purpose: Text = Field("", description="What they are for.")
    on: Date = Field(description="Day on which they were ticked off.")


class JobOffcut(Document):
    """An offcut that this job left in the shop, or used up, as it was put down once the board was cut."""

    label: Word = Field(description="What is written on it.")
    board: Word = Field(description="Board that it is of.")
    length: Positive = Field(description="Along the grain. [mm]")
    width: Positive = Field(description="Across the grain. [mm]")
    went: Literal["in", "out"] = Field(
        description="Into the shop, left by this job, or out of it, used up by this job."
    )
    on: Date = Field(description="Day on which it was put down.")


class JobHeader(Document):
    """Who the job is for, and what holds for all of it."""

    name: Word = Field(description="What the job is called on papers.")
    number: Text = Field("", description="The firm's own number for it.")
    client: Text = Field("", description="Who it is for.")
    site: Text = Field("", description="Where it is.")
    revision: Word = Field("A", description="Revision of the setting-out; goes on every paper.")
    date: Date = Field(description="Date of this revision; rates are taken as they stand on it.")
    build_up: Word = Field(description="Build-up from the book for openings that name none.")
    building: Literal["heated throughout", "heated now and then", "unheated, or new and drying out"] = Field(
        "heated throughout", description="How the building is kept: its dry and its wet season move boards."
    )
    age: Literal["new", "settled", "old"] = Field(
        "old", description="How old the building is: how far what nobody read may be out of plumb, level and straight."
    )
    workshop: Word | None = Field(None, description="Workshop from the book that is asked; its first where left out.")
    take_wanted: bool = Field(
        default=True, description="Whether pieces that the book wants are cut from what this job's sheets would waste."
    )
    note: Text = Field("", description="Anything that belongs on the summary.")


PriceShare = Annotated[Decimal, Field(ge=0, le=10, max_digits=8, allow_inf_nan=False)]
Amount = Annotated[Decimal, Field(ge=-10_000_000, le=10_000_000, max_digits=12, decimal_places=4, allow_inf_nan=False)]


class PriceExtra(Document):
    """Something that the client pays for besides the parts: measuring, fitting, taking old doors away."""

    name: Word = Field(description="As it stands on the client's paper.")
    cost: Amount = Field(Decimal(0), description="What it costs besides the crew's wages. [the book's currency]")
    hours: Annotated[Decimal, Field(ge=0, le=100_000, max_digits=10, allow_inf_nan=False)] = Field(
        Decimal(0), description="Crew hours, at the book's crew hour. [h]"
    )
    group: Text = Field("", description="For taxes that are charged on some lines only.")
    option: bool = Field(default=False, description="Whether the client may take it besides; else it is in the price.")


class GivenPrice(Document):
    """A price as it was given to the client."""

    on: Date = Field(description="Day on which it was given.")
    net: Amount = Field(description="Net of tax. [the book's currency]")
    gross: Amount = Field(description="With taxes. [the book's currency]")
    cost: Amount = Field(
        description="What the whole was reckoned to cost then, overhead included. [the book's currency]"
    )


class PriceTerms(Document):
    """How this job's price is made and shown; what is left out is as the book says. Seen by the owner alone."""

    lines: Literal["one sum", "by opening", "by kind of part"] = Field(
        "one sum", description="How the parts stand on the client's paper."
    )
    parts: Text = Field("", description="What the parts are called where they are one sum.")
    group: Text = Field("", description="Group of the parts, for taxes that are charged on some lines only.")
    taxes: Word | None = Field(None, description="Tax profile from the book; none is charged where it is left out.")
    margin: PriceShare | None = Field(None, description="Share of the net price that is earned, such as 0.2. [1]")
    mark_up: PriceShare | None = Field(
        None, description="Share put on all costs, such as 0.25; instead of a margin. [1]"
    )
    confidence: PriceShare | None = Field(None, description="Share of such jobs that shall not lose, such as 0.8. [1]")
    holds_days: Annotated[int, Field(ge=1, le=3650)] | None = Field(
        None, description="How long the price holds. [days]"
    )
    extras: tuple[PriceExtra, ...] = Field(
        (), max_length=100, description="What the client pays for besides the parts."
    )
    words: Text = Field("", description="A sentence or two to the client, under the price.")
    given: GivenPrice | None = Field(None, description="The price that was given, once it was.")


class Job(Document):
    """All the work for one client at one place."""

    format: Literal[1] = Field(1, description="Version of this document's layout.")
    job: JobHeader = Field(description="Who it is for, and what holds for all of it.")
    making: dict[Word, Making] = Field(
        default_factory=dict, description="Who makes each kind of part: site-made, bought-in, or cheaper (the default)."
    )
    sizes: dict[Word, Annotated[int, Field(ge=1, le=2000)]] = Field(
        default_factory=dict,
        description="How many standard sizes for the openings of each build-up; the fewest where it is left out.",
    )
    gaps: dict[Word, dict[GapName, OwnGap]] = Field(
        default_factory=dict,
        description="Margins and gaps of this job's own by build-up, in place of the book's. [mm]",
    )
    price: PriceTerms = Field(PriceTerms.model_validate({}), description="How the price is made and shown.")
    dates: JobDates = Field(JobDates.model_validate({}), description="When it is begun and wanted.")
    openings: tuple[Opening, ...] = Field((), max_length=2000, description="The openings, in the order they are met.")
    panels: tuple[Panel, ...] = Field((), max_length=500, description="Fixed panels of given size.")
    runs: tuple[Run, ...] = Field((), max_length=200, description="Openings whose trim runs on over all of them.")
    taken: tuple[TakenPiece, ...] = Field(
        (), max_length=400, description="Wanted pieces that were cut from this job's waste; no more are taken then."
    )
    offcuts: tuple[JobOffcut, ...] = Field(
        (),
        max_length=400,
        description="Offcuts that this job left in the shop or used up; its layouts stay as they were cut.",
    )

    def __repr__(self) -> str:
        """The job on one line."""
        openings, panels = len(self.openings), len(self.panels)
        counted = f"{openings} opening{'s' * (openings != 1)}, {panels} panel{'s' * (panels != 1)}"
        return f"<Job {self.job.name!r}: {counted}>"

    def build_up_of(self, opening: Opening) -> str:
        """Name of the build-up that holds for an opening."""
        return opening.build_up or self.job.build_up

    def revised(self, revision: str) -> Self:
        """The same job under another revision."""
        return self.model_copy(update={"job": self.job.model_copy(update={"revision": revision})})
