"""What a plan consists of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from html import escape
from typing import TYPE_CHECKING

from rodbook.errors import InputError, Message, Note
from rodbook.working import number

if TYPE_CHECKING:  # what a plan holds is loaded by whoever works it out
    from rodbook.boards import BarPlan, Layout, SheetPlan
    from rodbook.job import Book, Job, Opening, Panel
    from rodbook.job.aside import Aside
    from rodbook.job.models import Making
    from rodbook.money import Chances, KindChances, Likely, MakeOrBuy, MaterialUsage, Sway, Turning, TurningPoints
    from rodbook.setout import PartKind, RakedFrame, ScheduleLine, SetOut
    from rodbook.sizes import FramedSize, Packers, SizeChoice
    from rodbook.survey import FrontFit, Survey, UprightRectangle

__all__ = [
    "KindOutlook",
    "Material",
    "Note",
    "OpeningPlan",
    "Outlook",
    "Plan",
    "RakedFit",
    "SizesCost",
    "Wanted",
]


@dataclass(frozen=True)
class RakedFit:
    """The lining that goes into a raked opening.

    Parameters
    ----------
    frame : RakedFrame
    packers : Packers
        At the sides read level, over the head square to its slope.
    remarks : tuple of Message
        What has to be said of the readings.
    """

    frame: RakedFrame
    packers: Packers
    remarks: tuple[Message, ...]


@dataclass(frozen=True, repr=False)
class OpeningPlan:
    """One opening, all the way from its readings to its parts.

    Parameters
    ----------
    opening : Opening
    build_up : str
    rectangle : UprightRectangle, optional
        What it offers, where it stands already and has a level head.
    size : int, optional
        Number of its standard size, counted from 1 over the whole job.
    packers : Packers, optional
        Where it stands already.
    framed : FramedSize, optional
        Where it is still to be framed.
    raked : RakedFit, optional
        Where it stands already and its head is raked.
    survey : Survey, optional
        Its shape, and readings to take again, where it stands already.
    wall : FrontFit, optional
        Its lining in that shape: packers at every fixing, and where the structure must be cut back.
    set_out : SetOut, optional
        None where its geometry is not worked out yet; `Plan.not_worked_out` says why.
    """

    opening: Opening
    build_up: str
    rectangle: UprightRectangle | None = None
    size: int | None = None
    packers: Packers | None = None
    framed: FramedSize | None = None
    raked: RakedFit | None = None
    survey: Survey | None = None
    wall: FrontFit | None = None
    set_out: SetOut | None = None

    def __repr__(self) -> str:
        """The opening on one line: its mark, and its lining's outer size where it is set out."""
        if self.set_out is None:
            return f"<OpeningPlan {self.opening.mark!r}: not set out>"
        size = f"{number(self.set_out.outer_width.value)} × {number(self.set_out.outer_height.value)} mm outside"
        return f"<OpeningPlan {self.opening.mark!r}: {self.build_up}, {size}, {len(self.set_out.parts)} parts>"


@dataclass(frozen=True)
class Wanted:
    """A piece that may be cut from what would be waste, as the layouts were asked for it.

    Parameters
    ----------
    name : str
        What it is called on the layouts: its label, unlike any mark of the job's own parts.
    label : str
        What is written on it.
    length, width : float
        [mm]
    number : int
        How many could be used.
    worth : Decimal
        Of one; zero where it is ticked off already. [currency]
    weight : Decimal
        What one counts against the others.
    purpose : str
        What it is for.
    """

    name: str
    label: str
    length: float
    width: float
    number: int
    worth: Decimal
    weight: Decimal
    purpose: str = ""


@dataclass(frozen=True, repr=False)
class Material:
    """How the parts of one board or section lie on sheets or lengths, for one maker.

    Parameters
    ----------
    stock : str
        Board or section.
    maker : Making
        SITE or BOUGHT.
    sheets : SheetPlan, optional
        For a board.
    lengths : BarPlan, optional
        For a section.
    filled : SheetPlan, optional
        The same layouts with pieces wanted elsewhere cut from what they leave; none where nothing is. Costs and bounds go by
        `sheets`, what is sawn goes by this.
    wanted : tuple of Wanted
        What could be cut so.
    """

    stock: str
    maker: Making
    sheets: SheetPlan | None = None
    lengths: BarPlan | None = None
    filled: SheetPlan | None = None
    wanted: tuple[Wanted, ...] = ()

    def __repr__(self) -> str:
        """The board or section on one line."""
        cut = self.layouts if self.lengths is None else self.lengths.patterns
        many, what = sum(one.count for one in cut), "sheet" if self.lengths is None else "length"
        counted = f"{many} {what}{'s' * (many != 1)} in {len(cut)} layout{'s' * (len(cut) != 1)}"
        return f"<Material {self.stock!r}, {self.maker.value}: {counted}>"

    @property
    def layouts(self) -> tuple[Layout, ...]:
        """How its sheets are sawn; none of a section."""
        result = self.filled or self.sheets
        return result.layouts if result else ()

    @property
    def wanted_names(self) -> frozenset[str]:
        """What on its layouts is none of the job's own parts."""
        return frozenset(wanted.name for wanted in self.wanted)


@dataclass(frozen=True)
class KindOutlook:
    """One kind of part: its ways, and what decides between making it and buying it.

    Parameters
    ----------
    kind : PartKind
    chances : KindChances
        The other kinds being made as in the cheapest mixture.
    turning : TurningPoints
        Where the decision on this kind turns.
    difference : Decimal, optional
        Mean cost of all of it bought finished less all on site, the others being made as in the cheapest mixture; None where
        it can't be bought. [currency]
    sways : tuple of Sway
        What moves that difference, the most first.
    """

    kind: PartKind
    chances: KindChances
    turning: TurningPoints
    difference: Decimal | None
    sways: tuple[Sway, ...]


@dataclass(frozen=True)
class SizesCost:
    """What the number of standard sizes costs in set-ups.

    Parameters
    ----------
    what : str
        Which number of sizes is looked at.
    sizes, distinct : int
        Standard sizes, and distinct parts that follow from them.
    set_ups : Decimal
        What setting up for those parts comes to, each made as decided. [currency]
    """

    what: str
    sizes: int
    distinct: int
    set_ups: Decimal


@dataclass(frozen=True)
class Outlook:
    """Make or buy of a whole job with its spread.

    Parameters
    ----------
    chances : Chances
    decided : Likely
        The whole job, each kind made as it was decided.
    kinds : tuple of KindOutlook
    turning : TurningPoints
        Where the decision on the job turns.
    difference : Decimal, optional
        Mean cost of everything bought that can be less everything on site; None where nothing can. [currency]
    sways : tuple of Sway
        What moves that difference.
    sizes : tuple of SizesCost
        Fewest sizes, as the job has them, and each opening its own; empty where no two openings stand, or too many.
    usage : tuple of MaterialUsage
        Sheets and lengths if all of it were made on site: what a price on another day and other jobs' weeks start from.
    """

    chances: Chances
    decided: Likely
    kinds: tuple[KindOutlook, ...]
    turning: TurningPoints
    difference: Decimal | None
    sways: tuple[Sway, ...]
    sizes: tuple[SizesCost, ...]
    usage: tuple[MaterialUsage, ...] = ()

    def of_kind(self, kind: PartKind) -> KindOutlook:
        """The outlook of a kind; KeyError where the job has no part of it."""
        for result in self.kinds:
            if result.kind == kind:
                return result
        raise KeyError(kind)


@dataclass(frozen=True, repr=False)
class Plan:
    """Everything that follows from a job and a book.

    Parameters
    ----------
    job : Job
    book : Book
    openings : tuple of OpeningPlan
        In the job's order, without those that stand aside.
    sizes : SizeChoice, optional
        Standard sizes of the openings that stand; None where none stands.
    schedule : tuple of ScheduleLine
        Distinct parts.
    materials : tuple of Material
    money : MakeOrBuy, optional
        None where there are no parts.
    turnings : tuple of Turning
        For each kind of part, how many of it there would have to be for it to be made otherwise.
    not_worked_out : tuple of Note
        What this version does not work out yet.
    remarks : tuple of Note
        What somebody has to know before it is made.
    outlook : Outlook, optional
        Make or buy with its spread, where that was asked for.
    runs : tuple of Note
        Trims and plinths that run on over several openings, each at the first of them.
    aside : tuple of Aside
        Openings, panels and runs that can't be built as asked, in the job's order; nothing else in the plan has them in it.
    """

    job: Job
    book: Book
    openings: tuple[OpeningPlan, ...]
    sizes: SizeChoice | None
    schedule: tuple[ScheduleLine, ...]
    materials: tuple[Material, ...]
    money: MakeOrBuy | None
    turnings: tuple[Turning, ...]
    not_worked_out: tuple[Note, ...]
    remarks: tuple[Note, ...]
    outlook: Outlook | None = None
    runs: tuple[Note, ...] = ()
    aside: tuple[Aside, ...] = ()

    def opening(self, mark: str) -> OpeningPlan:
        """One opening by its mark.

        Raises
        ------
        InputError
            If there is none of that mark in the plan.
        """
        result = next((one for one in self.openings if one.opening.mark == mark), None)
        if result is None:
            aside = next((one for one in self.aside if one.mark == mark), None)
            if aside:
                raise InputError.at(mark, "plan.opening_aside")
            raise InputError.at(mark, "plan.unknown_opening", marks=[one.opening.mark for one in self.openings])
        return result

    @property
    def parts(self) -> list[dict[str, object]]:
        """Each distinct part as a record: mark, kind, quantity, size in mm, stock, edges, finish, openings."""
        return [
            {
                "mark": line.mark,
                "kind": line.part.kind.value,
                "quantity": line.quantity,
                "length_mm": line.part.length.value,
                "width_mm": line.part.width.value,
                "thickness_mm": line.part.thickness.value,
                "stock": line.part.stock,
                "edges": ", ".join(line.part.edges),
                "finish": line.part.finish,
                "openings": ", ".join(mark for mark, _ in line.openings),
            }
            for line in self.schedule
        ]

    def __repr__(self) -> str:
        """The plan on one line."""
        parts = sum(line.quantity for line in self.schedule)
        return f"<Plan {self.job.job.name!r}: {len(self.openings)} openings, {parts} parts, {len(self.aside)} aside>"

    def _repr_html_(self) -> str:
        """Its parts as a table, for a notebook."""
        records = self.parts
        heads = "".join(f"<th>{escape(name)}</th>" for name in (records[0] if records else ()))
        rows = "".join(
            "<tr>" + "".join(f"<td>{escape(str(value))}</td>" for value in record.values()) + "</tr>"
            for record in records
        )
        return f"<p>{escape(repr(self))}</p><table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"

    @property
    def panels(self) -> tuple[Panel, ...]:
        """The job's panels, without those that stand aside."""
        gone = {one.mark for one in self.aside if one.group == "panels"}
        return tuple(panel for panel in self.job.panels if panel.mark not in gone)

    @property
    def missing(self) -> tuple[Aside, ...]:
        """Openings and panels that stand aside: no total, no order and no price has them in it."""
        return tuple(one for one in self.aside if one.group != "runs")

    def layouts(self) -> Iterator[tuple[int, Material, Layout]]:
        """Every layout of sheets as it is sawn, with its number over the whole job, from 1."""
        listed = ((material, layout) for material in self.materials for layout in material.layouts)
        for count, (material, layout) in enumerate(listed, 1):
            yield count, material, layout

    def lines_made(self, maker: Making) -> tuple[ScheduleLine, ...]:
        """Lines of the schedule that this maker makes.

        Parameters
        ----------
        maker : Making
            SITE or BOUGHT.
        """
        if self.money is None:
            return ()
        return tuple(line for line in self.schedule if self.money.maker_of(line.part.kind) is maker)
