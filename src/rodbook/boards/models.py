"""What is asked of the layout engine and what it answers, all of it frozen.

Lengths are millimetres on this face. Inside, cutting works on whole hundredths of a millimetre; `hundredths` is the one
place that says how a length is taken: to the nearest hundredth. What a result reports is those hundredths in mm again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from rodbook.boards.cut_tree import Board, CutDirection

__all__ = [
    "USABLE_OFFCUT_MM",
    "Bar",
    "BarPattern",
    "BarPlan",
    "Board",
    "BrokenOff",
    "CutDirection",
    "Ended",
    "Filler",
    "Layout",
    "Offcut",
    "Piece",
    "Placed",
    "Progress",
    "Saw",
    "Sheet",
    "SheetPlan",
    "Stick",
    "StickCut",
    "Unplaced",
    "hundredths",
    "millimetres",
]

USABLE_OFFCUT_MM = 100.0
"""The narrower side a free rectangle needs to count as usable. [mm] House assumption: less is hardly worth a label."""

Ended = Literal["bound", "tries", "time", "cancelled"]
"""Why a search ended: nothing better can exist, the set tries were made, time was up, or somebody called it off."""


def hundredths(length_mm: float) -> int:
    """Give a length as whole hundredths of a millimetre, to the nearest."""
    return round(length_mm * 100)


def millimetres(length_hundredths: int) -> float:
    """Give whole hundredths of a millimetre as millimetres."""
    return length_hundredths / 100


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle to be cut, so many times.

    Parameters
    ----------
    name : str
        What it is called on the layout.
    length, width : float
        Finished size; `length` runs along the sheet's length (its grain) unless the piece is turned. [mm]
    quantity : int
        How many are wanted, at least 1.
    may_turn : bool
        Whether it may be turned a quarter.
    """

    name: str
    length: float
    width: float
    quantity: int = 1
    may_turn: bool = False


@dataclass(frozen=True, slots=True)
class Filler:
    """A piece that some other job wants: cut where it costs nothing, from what would be waste.

    Parameters
    ----------
    name : str
        Unlike that of any piece of the job.
    length, width : float
        Finished size, as of a `Piece`. [mm]
    worth : Decimal
        What having one is worth, more than 0; it decides between fillers, and buys no sheet.
    quantity : int
        How many could be used, at least 1.
    may_turn : bool
        Whether it may be turned a quarter.
    """

    name: str
    length: float
    width: float
    worth: Decimal
    quantity: int = 1
    may_turn: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet that can be bought, or an offcut that lies there.

    Parameters
    ----------
    name : str
        Unlike that of any other sheet.
    length, width : float
        Raw size, edge trim included; `length` runs with the grain. [mm]
    price : Decimal
        What one costs; 0 for an offcut that is already paid for.
    quantity : int or None
        How many there are; None for as many as needed.
    """

    name: str
    length: float
    width: float
    price: Decimal
    quantity: int | None = None


@dataclass(frozen=True, slots=True)
class Saw:
    """How the saw cuts.

    Parameters
    ----------
    kerf : float
        What the blade takes away between neighbours. [mm]
    edge_trim : float
        What is taken off each of the four raw edges of a sheet first, the blade's own width included. [mm]
    max_turns : int or None
        How often the cutting direction may change on the way from the trimmed sheet to any part; None for no limit.
        With 1, strips are cut and then cut to length; with 2, what was cut to length may be trimmed to width.
    """

    kerf: float = 3.2
    edge_trim: float = 10.0
    max_turns: int | None = None


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece on a sheet.

    `x` runs along the sheet's length and `y` along its width, both from the corner of the untrimmed sheet; `length`
    is the extent along x and `width` along y as it lies, so a turned piece has its two exchanged. [mm]
    """

    name: str
    x: float
    y: float
    length: float
    width: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Offcut:
    """A rectangle left over; coordinates as in `Placed`. [mm]"""

    x: float
    y: float
    length: float
    width: float


@dataclass(frozen=True, slots=True)
class Layout:
    """One way of cutting a sheet, and how many sheets are cut that way.

    Attributes
    ----------
    sheet : str
        Name of the sheet.
    length, width : float
        Its raw size. [mm]
    price : Decimal
        What one such sheet costs.
    count : int
        How many are cut alike.
    placed : tuple of Placed
        The pieces.
    tree : Board
        The cuts, from the trimmed sheet down.
    offcuts : tuple of Offcut
        Every rectangle left over.
    largest_offcut : Offcut or None
        The one of greatest area among those at least `USABLE_OFFCUT_MM` wide; None where there is none.
    """

    sheet: str
    length: float
    width: float
    price: Decimal
    count: int
    placed: tuple[Placed, ...]
    tree: Board
    offcuts: tuple[Offcut, ...]
    largest_offcut: Offcut | None

    def kept_offcut(self, least_m2: float) -> Offcut | None:
        """Give the largest usable offcut where it has at least this area, else None. [m2]"""
        keep = self.largest_offcut
        return keep if keep is not None and keep.length * keep.width * 1e-6 >= least_m2 else None


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Pieces that could not be had from the sheets or bars, and why, in a sentence."""

    name: str
    quantity: int
    reason: str


SearchStep = Literal[
    "bound", "quick", "patterns", "mending", "refilling", "tidying", "values", "mixing", "check", "fillers"
]
"""A step of a search beside its first plan: what nothing costs less than, more quick plans, mixing patterns, taking sheets
apart, making the end tidy; of lengths, valuing sticks and mixing patterns; and, once the plan is found, checking it and filling
its waste."""


@dataclass(frozen=True, slots=True)
class BrokenOff:
    """A later step of a search that failed: which one, and what it failed with. The best plan by then stands."""

    step: SearchStep
    error: str


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """The answer of `lay_out`.

    Attributes
    ----------
    layouts : tuple of Layout
        Dearest sheet first.
    cost : Decimal
        What the sheets used cost.
    bound : Decimal
        Proven: no layout of the pieces placed here can cost less.
    proven : bool
        `cost` equals `bound`, and no piece is left over merely because sheets ran out.
    unplaced : tuple of Unplaced
        What fits no sheet or ran out of sheets; empty when all is placed.
    tries : int
        How many complete layouts were tried.
    ended : str
        Why the search ended; after ``time`` and ``cancelled`` the result may differ from run to run.
    proof : str
        What is proven, in a sentence: ``9 sheets; 8 is impossible.``
    fillers_worth : Decimal
        What the fillers that are among the placed pieces are worth together.
    broken_off : tuple of BrokenOff
        Steps that failed by a fault of Rodbook's own; what stands was found by the others.
    """

    layouts: tuple[Layout, ...]
    cost: Decimal
    bound: Decimal
    proven: bool
    unplaced: tuple[Unplaced, ...]
    tries: int
    ended: Ended
    proof: str = ""
    fillers_worth: Decimal = Decimal(0)
    broken_off: tuple[BrokenOff, ...] = ()


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search is: tries done of those set, the best cost so far (None before the first) and the bound."""

    done: int
    of: int
    cost: Decimal | None
    bound: Decimal


OnProgress = Callable[[Progress], None]


@dataclass(frozen=True, slots=True)
class Stick:
    """A length to be cut from bars, so many times.

    Parameters
    ----------
    name : str
        What it is called on the cutting list.
    length : float
        Finished length. [mm]
    quantity : int
        How many are wanted, at least 1.
    """

    name: str
    length: float
    quantity: int = 1


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar that can be bought, or one that lies there.

    Parameters
    ----------
    name : str
        Unlike that of any other bar.
    length : float
        From end to end. [mm]
    price : Decimal
        What one costs; 0 for one already paid for.
    quantity : int or None
        How many there are; None for as many as needed.
    end_trim : float
        Taken off each raw end to square it, kerf and all; 0 where its length is what can be used. [mm]
    raw_ends : int
        Ends that are not square yet: 2 as sold; 1 of what was left of a bar, whose cut end is square; 0.
    """

    name: str
    length: float
    price: Decimal
    quantity: int | None = None
    end_trim: float = 0.0
    raw_ends: int = 2


@dataclass(frozen=True, slots=True)
class StickCut:
    """A stick on a bar: it starts `position` from the bar's end and is `length` long. [mm]"""

    name: str
    position: float
    length: float


@dataclass(frozen=True, slots=True)
class BarPattern:
    """One way of cutting a bar, and how many bars are cut that way.

    `start` is taken off one end before its first stick, and `end` off the other, which lies beyond the `remainder`: what is
    left of one between square ends. [mm]
    """

    bar: str
    length: float
    price: Decimal
    count: int
    cuts: tuple[StickCut, ...]
    remainder: float
    start: float = 0.0
    end: float = 0.0


@dataclass(frozen=True, slots=True)
class BarPlan:
    """The answer of `cut_lengths`; the fields mean what they mean in `SheetPlan`."""

    patterns: tuple[BarPattern, ...]
    cost: Decimal
    bound: Decimal
    proven: bool
    unplaced: tuple[Unplaced, ...]
    tries: int
    ended: Ended
    proof: str = ""
    broken_off: tuple[BrokenOff, ...] = ()


def squared(bar: Bar) -> tuple[int, int]:
    """What is taken off a bar's two ends: its square end goes to the stop. [hundredths of a mm]

    >>> squared(Bar("4.4 m", 4400, Decimal(1), end_trim=10)), squared(Bar("rest", 900, Decimal(0), 1, end_trim=10, raw_ends=1))
    ((1000, 1000), (0, 1000))
    """
    trim = hundredths(bar.end_trim)
    return (trim if bar.raw_ends > 1 else 0), (trim if bar.raw_ends else 0)
