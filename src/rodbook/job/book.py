"""The book: the firm's standing figures, each price and time with its source and the date from which it holds."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field

from rodbook.job.build_ups import AnyBuildUp, BuildUp, EdgeWay, InsetBuildUp, LayOnBuildUp, PlainLayOnBuildUp
from rodbook.job.build_ups.registry import when_changed
from rodbook.job.dates import FirmDates
from rodbook.job.models import Document, Source, Text, Word
from rodbook.job.units import THROUGH, Gap, HoleDepth, Millimetres, Size

__all__ = [
    "BOOK_FORMAT",
    "AnyBuildUp",
    "Board",
    "Book",
    "BuildUp",
    "EdgeWay",
    "Firm",
    "Fitting",
    "HingeCount",
    "HingeType",
    "InsetBuildUp",
    "LayOnBuildUp",
    "LengthSize",
    "Offcut",
    "PlainLayOnBuildUp",
    "Price",
    "Rate",
    "ReadingInstrument",
    "SawFigures",
    "Section",
    "SheetSize",
    "TaxLine",
    "TaxProfile",
    "WantedPiece",
    "Workshop",
    "WorkshopRates",
    "valid_on",
]

BOOK_FORMAT: Literal[2] = 2
"""Version of a book's document layout; older ones are brought up to it as they are read."""

Money = Annotated[Decimal, Field(ge=0, max_digits=12, allow_inf_nan=False)]
Number = Annotated[float, Field(ge=0, le=1e6, allow_inf_nan=False)]


_CONFIRMED = (
    "False where it comes with a sample and nobody of the firm has said that it holds; whoever types one confirms it."
)


class Price(Document):
    """A price and the date from which it holds."""

    amount: Money = Field(description="Price net of tax. [the book's currency]")
    since: Date = Field(description="Day from which it holds.")
    source: Source = Field(description="Who said so: a list, a quote, from memory.")
    confirmed: bool = Field(default=True, description=_CONFIRMED)


class Rate(Document):
    """A time or a price per unit, with its source and the date from which it holds."""

    name: Word = Field(description="What is done or bought, one of the names that the site cost knows.")
    value: Number = Field(description="How much per unit. [minutes, or the book's currency]")
    unit: Word = Field(description="Of what: minutes a part, minutes a metre, money an hour.")
    since: Date = Field(description="Day from which it holds.")
    source: Source = Field(description="Own records, a named source, common practice, or from memory.")
    nine_in_ten: Number | None = Field(
        None, description="What nine in ten stay under, where `value` is the middle; none where no spread is known."
    )
    learning: Annotated[float, Field(gt=0.5, le=1)] | None = Field(
        None, description="Each doubling of the number brings a unit's time down to this share; none where it stays."
    )
    confirmed: bool = Field(default=True, description=_CONFIRMED)


class TaxLine(Document):
    """One tax on a price."""

    name: Word = Field(description="As it stands on the client's paper.")
    percent: Annotated[Decimal, Field(ge=0, le=100, max_digits=8, allow_inf_nan=False)] = Field(
        description="Of the net price. [%]"
    )
    on: tuple[Word, ...] = Field((), description="Groups of lines that it is charged on; all where none is named.")
    note: Text = Field("", description="A sentence that the law wants on the paper.")


class TaxProfile(Document):
    """The taxes of one sort of client or work, from a day on."""

    name: Word = Field(description="What it is called: at home, abroad, a builder.")
    since: Date = Field(description="Day from which it holds.")
    source: Source = Field(description="Where the percentages come from.")
    confirmed: bool = Field(default=True, description=_CONFIRMED)
    lines: tuple[TaxLine, ...] = Field((), description="The taxes; none where none is charged.")


class SheetSize(Document):
    """One size in which a board is sold."""

    name: Word = Field(description="What the merchant's line is called here.")
    length: Size = Field(description="Along the grain. [mm]")
    width: Size = Field(description="Across the grain. [mm]")
    prices: tuple[Price, ...] = Field(min_length=1, description="What a sheet cost, and since when.")


class Offcut(Document):
    """A left-over worth keeping, measured and labelled."""

    label: Word = Field(description="What is written on it.")
    length: Size = Field(description="Along the grain. [mm]")
    width: Size = Field(description="Across the grain. [mm]")
    confirmed: bool = Field(default=True, description=_CONFIRMED)


class WantedPiece(Document):
    """A piece that other work or the shop wants: cut from what a job's sheets would leave as waste, never from a sheet more."""

    label: Word = Field(description="What is written on it.")
    length: Size = Field(description="Along the grain. [mm]")
    width: Size = Field(description="Across the grain. [mm]")
    number: int = Field(1, ge=1, le=500, description="How many are still wanted.")
    worth: Annotated[Money, Field(gt=0)] | None = Field(
        None, description="What having one is worth; what its area costs as sold where left out. [the book's currency]"
    )
    purpose: Text = Field(
        "", description="What it is for: a jig, a shelf for the shop, a job; one of that very name does not cut it."
    )
    since: Date | None = Field(None, description="Day since which it is wanted.")


class Board(Document):
    """Sheet material: what it is, how heavy, in which sizes, the offcuts of it that lie in the shop and the pieces wanted."""

    name: Word = Field(description="What it is called in build-ups and on orders.")
    thickness: Size = Field(description="Nominal thickness. [mm]")
    density_low: float = Field(ge=100, le=2000, description="Light end of its density. [kg/m3]")
    density_high: float = Field(ge=100, le=2000, description="Heavy end of its density. [kg/m3]")
    grain: bool = Field(default=False, description="Whether parts must keep their length along the sheet.")
    moves_as: Literal["MDF", "particleboard", "plywood"] | None = Field(
        None, description="Material whose movement with damp it follows; not worked out where left out."
    )
    source: Source = Field(description="Where density and thickness come from.")
    sheets: tuple[SheetSize, ...] = Field(min_length=1, description="Sizes in which it is sold.")
    offcuts: tuple[Offcut, ...] = Field((), description="Offcuts that lie in the shop, used first.")
    wanted: tuple[WantedPiece, ...] = Field(
        (), max_length=200, description="Pieces of it that are wanted elsewhere, cut from what would be waste."
    )


class LengthSize(Document):
    """One length in which a section is sold."""

    name: Word = Field(description="What the merchant's line is called here.")
    length: Size = Field(description="As sold. [mm]")
    prices: tuple[Price, ...] = Field(min_length=1, description="What a length cost, and since when.")


class Section(Document):
    """Sectional material: trim and the like, sold by the length."""

    name: Word = Field(description="What it is called in build-ups and on orders.")
    width: Size = Field(description="Face width. [mm]")
    thickness: Size = Field(description="Thickness. [mm]")
    density_low: float = Field(ge=100, le=2000, description="Light end of its density. [kg/m3]")
    density_high: float = Field(ge=100, le=2000, description="Heavy end of its density. [kg/m3]")
    edges: Literal["planed", "sawn"] = Field(
        "planed",
        description="Its long edges as bought: planed or moulded, so that they want no work, or sawn, as of strips that are"
        " ripped from sheets. House assumption where it says nothing: planed.",
    )
    source: Source = Field(description="Where density and section come from.")
    lengths: tuple[LengthSize, ...] = Field(min_length=1, description="Lengths in which it is sold.")

    @property
    def planed(self) -> bool:
        """Whether its long edges want no work."""
        return self.edges == "planed"


class HingeType(Document):
    """Where a cup hinge wants its holes."""

    name: Word = Field(description="What it is called in build-ups.")
    cup_diameter: Size = Field(description="Cup boring. [mm]")
    cup_depth: Size = Field(description="Depth of the cup boring. [mm]")
    cup_edge: Gap = Field(description="From the leaf's edge to the edge of the cup. [mm]")
    pilot_spacing: Gap = Field(0, description="Between the two screw pilots beside a cup; 0 for none. [mm]")
    pilot_set_in: Gap = Field(0, description="Pilots stand this much further from the leaf's edge than the cup. [mm]")
    pilot_diameter: Gap = Field(0, description="Screw pilots. [mm]")
    pilot_depth: Gap = Field(0, description="Screw pilots. [mm]")
    plate_set_back: Size = Field(description="From the front edge of the carrying part to the plate holes. [mm]")
    plate_spacing: Size = Field(description="Between the two holes of a plate. [mm]")
    plate_diameter: Size = Field(description="Plate holes. [mm]")
    plate_depth: Size = Field(description="Plate holes. [mm]")
    source: Source = Field(description="Where these figures come from.")


class HingeCount(Document):
    """How many hinges a leaf up to this height and this mass gets."""

    hinges: int = Field(ge=2, le=8, description="How many.")
    height: Size = Field(description="Up to this leaf height. [mm]")
    mass: float = Field(gt=0, le=200, description="Up to this leaf mass. [kg]")


class Fitting(Document):
    """A handle, a catch, a stay for flaps or what holds a fixed front, and where it wants its holes."""

    name: Word = Field(description="What it is called in build-ups.")
    sort: Literal["handle", "knob", "push-to-open", "magnetic catch", "roller catch", "front fixing", "flap stay"] = (
        Field(description="What it is.")
    )
    holes: Annotated[int, Field(ge=1, le=2)] = Field(1, description="Holes in the leaf, two stand one above the other.")
    spacing: Gap = Field(0, description="Between two holes. [mm]")
    diameter: Gap = Field(description="Of the holes in the leaf; 0 where it is only screwed on. [mm]")
    depth: HoleDepth = Field(THROUGH, description="Of the holes in the leaf: through, or so deep. [mm]")
    from_edge: Size = Field(
        description="From the leaf's closing edge to the middle of the holes; of a front fixing or a stay from each side. [mm]"
    )
    place: Size = Field(
        description="Its middle: a handle's or a fixing's above the foot of the front, a catch's or a stay's below its top. [mm]"
    )
    head_diameter: Gap = Field(0, description="Hole for a catch in the head's underside; 0 for none. [mm]")
    head_depth: Gap = Field(0, description="Its depth. [mm]")
    head_set_back: Gap = Field(
        0, description="Behind the leaf, or behind the head's front edge where leaves lie on. [mm]"
    )
    leg_diameter: Gap = Field(0, description="Holes for a stay in what stands beside the flap; 0 for none. [mm]")
    leg_depth: Gap = Field(0, description="Their depth. [mm]")
    leg_set_back: Gap = Field(0, description="Behind the flap, or behind the front edge where it lies on. [mm]")
    leg_down: Annotated[Millimetres, Field(ge=0, le=2000)] = Field(
        0, description="Their middle below the flap's top. [mm]"
    )
    source: Source = Field(description="Where these figures come from.")


class SawFigures(Document):
    """What the firm's saw takes off."""

    kerf: Gap = Field(description="Width of cut. [mm]")
    edge_trim: Gap = Field(description="Taken off each raw edge of a sheet. [mm]")
    end_trim: Gap = Field(
        10.0, description="Taken off each raw end of a length to square it, kerf and all. Common practice: 10. [mm]"
    )
    keep_from: Annotated[float, Field(ge=0, le=10, allow_inf_nan=False)] = Field(
        0.1, description="Area from which an offcut is worth a label; less is waste. House assumption. [m2]"
    )
    turns: Annotated[int, Field(ge=1, le=9)] | None = Field(
        None,
        description="How often the cutting direction may turn on the way to a part; as often as it pays where left out.",
    )
    source: Source = Field(description="Where these figures come from.")


class WorkshopRates(Document):
    """What a workshop charges, from a day on."""

    since: Date = Field(description="Day from which the rates hold.")
    source: Source = Field(description="A quote, a list, or from memory.")
    set_up: Money = Field(description="For each distinct part. [currency]")
    part: Money = Field(description="For each part: handling and labelling. [currency]")
    board_m2: dict[Word, Money] = Field(description="Board cut to size, by board. [currency/m2]")
    section_m: dict[Word, Money] = Field(default_factory=dict, description="Section cut to length. [currency/m]")
    edge_m: Money = Field(description="Edges arrised, filled and sanded. [currency/m]")
    boring: Money = Field(description="For each hole, a cup with its pilots counting as one. [currency]")
    coat_m2: Money = Field(description="One coat, all faces counted. [currency/m2]")
    delivery: Money = Field(description="For the order. [currency]")
    least_order: Money = Field(Decimal(0), description="Least charge for an order before delivery. [currency]")
    lead_days: Annotated[int, Field(ge=0, le=365)] | None = Field(
        None, description="Working days from order to delivery from that day on; the workshop's own where left out."
    )
    confirmed: bool = Field(default=True, description=_CONFIRMED)


class Workshop(Document):
    """A workshop that makes parts to order."""

    name: Word = Field(description="What it is called.")
    contact: Text = Field("", description="Who to ask for.")
    lead_days: int = Field(ge=0, le=365, description="Working days from order to delivery.")
    rates: tuple[WorkshopRates, ...] = Field(min_length=1, description="What it charges, and since when.")

    def lead_on(self, day: Date) -> int:
        """Working days from order to delivery on a day: those of the rates that hold then, else its own. [days]"""
        rates = valid_on(self.rates, day)
        return self.lead_days if rates is None or rates.lead_days is None else rates.lead_days


class Firm(Document):
    """Whose book this is."""

    name: Word = Field(description="On every paper.")
    contact: Text = Field("", description="Telephone or address for the papers.")
    confirmed: bool = Field(default=True, description=_CONFIRMED)


class ReadingInstrument(Document):
    """What openings are read with, and how far a reading may be out."""

    name: Word = Field(description="Such as tape, laser, level, plumb; jobs name it so.")
    error: Annotated[Millimetres, Field(gt=0, lt=100)] = Field(
        description="Standard error that every reading has: two in three are within it. [mm]"
    )
    error_per_metre: Annotated[float, Field(ge=0, lt=100)] = Field(
        0, description="What it grows by for each metre read over. [mm/m]"
    )
    source: Source = Field(description="Own trials, a named source, common practice, or from memory.")


class BuildingAge(Document):
    """How far sides, floors and heads of buildings of an age are out, for what is not read."""

    name: Literal["new", "settled", "old"] = Field(description="As jobs say it.")
    plumb_per_metre: Annotated[float, Field(gt=0, lt=100)] = Field(
        description="Standard error of a side taken as plumb: two in three are within it. [mm/m]"
    )
    level_per_metre: Annotated[float, Field(gt=0, lt=100)] = Field(
        description="Standard error of a floor or head taken as level. [mm/m]"
    )
    bow_per_metre: Annotated[float, Field(gt=0, lt=100)] = Field(
        description="Standard error of the middle of a side, floor or head taken as straight. [mm/m]"
    )
    ripple: Annotated[Millimetres, Field(ge=0, lt=100)] = Field(
        0.5, description="Standard error of any place between those that were read. [mm]"
    )
    source: Source = Field(description="Own openings, a named source, common practice, or from memory.")


class Book(Document):
    """The firm's standing figures."""

    format: Literal[2] = Field(BOOK_FORMAT, description="Version of this document's layout.")
    firm: Firm
    currency: Annotated[str, Field(pattern="^[A-Z]{3}$")] = Field(description="ISO 4217 code of every price in it.")
    locale: Word = Field("en", description="How numbers and money are written on papers, such as en or de_AT.")
    saw: SawFigures
    boards: tuple[Board, ...] = Field(min_length=1)
    sections: tuple[Section, ...] = ()
    hinges: tuple[HingeType, ...] = Field(min_length=1)
    hinge_counts: tuple[HingeCount, ...] = Field(min_length=1)
    fittings: tuple[Fitting, ...] = ()
    hinge_counts_source: Source = Field(description="Where the table of counts comes from.")
    build_ups: tuple[BuildUp, ...] = Field(min_length=1)
    rates: tuple[Rate, ...] = Field(min_length=1)
    workshops: tuple[Workshop, ...] = ()
    taxes: tuple[TaxProfile, ...] = ()
    dates: FirmDates = Field(FirmDates.model_validate({}), description="Who works, and on which days.")
    instruments: tuple[ReadingInstrument, ...] = Field(
        (), description="Standard errors of what openings are read with, where they differ from the usual ones."
    )
    ages: tuple[BuildingAge, ...] = Field(
        (), description="What buildings of an age are like, where that differs from the usual figures."
    )

    def __repr__(self) -> str:
        """The book on one line."""
        counted = f"{len(self.boards)} boards, {len(self.build_ups)} build-ups, {len(self.rates)} rates"
        return f"<Book of {self.firm.name!r}: {counted}>"

    def board(self, name: str) -> Board:
        """The board of that name; the checks have made sure that there is one."""
        return next(b for b in self.boards if b.name == name)

    def section(self, name: str) -> Section:
        """The section of that name."""
        return next(s for s in self.sections if s.name == name)

    def hinge(self, name: str) -> HingeType:
        """The hinge of that name."""
        return next(h for h in self.hinges if h.name == name)

    def fitting(self, name: str | None) -> Fitting | None:
        """The handle or catch of that name; none where none is named."""
        return next((f for f in self.fittings if f.name == name), None) if name is not None else None

    def build_up(self, name: str) -> AnyBuildUp:
        """The build-up of that name."""
        return next(b for b in self.build_ups if b.name == name)

    def workshop(self, name: str | None) -> Workshop | None:
        """The workshop of that name, the first where none is named, none where the book has none."""
        if name is None:
            return self.workshops[0] if self.workshops else None
        return next(w for w in self.workshops if w.name == name)


when_changed(lambda: Book.model_rebuild(force=True))


def valid_on[T: (Price, Rate, TaxProfile, WorkshopRates)](entries: tuple[T, ...], day: Date) -> T | None:
    """The entry that holds on a day: the latest that began on it or before; none where all begin later."""
    begun = [entry for entry in entries if entry.since <= day]
    return max(begun, key=lambda entry: entry.since) if begun else None
