"""What is asked of a set-out, and what it is made from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rodbook.job.book import Board, Fitting, HingeCount, HingeType, Section
from rodbook.job.models import FrontRow
from rodbook.setout.cuts import Side
from rodbook.setout.widths import EQUAL, Wanted
from rodbook.working import Measure

__all__ = ["Frame", "Stock"]


@dataclass(frozen=True)
class Frame:
    """What is asked of a set-out.

    Parameters
    ----------
    width, height : Measure
        Outer size of the lining. [mm]
    leaves : int
        One to four.
    hand : str
        Side a single leaf, or the middle one of three, hangs on.
    sill : bool
        Whether the lining has one.
    wanted : Wanted
        Widths of the leaves, where they are not all equal.
    floor_finish : float
        Still to be laid on the floor that the lining stands on. [mm]
    rows : tuple of FrontRow
        From the floor up, where the front is divided in height.
    end_panels : str
        Sides that stand free: "none", "left", "right" or "both".
    """

    width: Measure
    height: Measure
    leaves: int
    hand: Side
    sill: bool
    wanted: Wanted = EQUAL
    floor_finish: float = 0.0
    rows: tuple[FrontRow, ...] = ()
    end_panels: Literal["none", "left", "right", "both"] = "none"


@dataclass(frozen=True)
class Stock:
    """What a build-up is made from, looked up in the book."""

    leaf: Board
    lining: Board
    trim: Section | None
    hinge: HingeType
    hinge_counts: tuple[HingeCount, ...]
    handle: Fitting | None = None
    catch: Fitting | None = None
    strip: Section | None = None
    drawer_fixing: Fitting | None = None
    apron_fixing: Fitting | None = None
    flap_stay: Fitting | None = None
    end_panel: Board | None = None
