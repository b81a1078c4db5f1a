"""Offcuts that a job leaves and that are worth keeping: their labels for the shop, and what they are worth."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from rodbook.job import Board
from rodbook.job.book import valid_on
from rodbook.job.models import Making
from rodbook.money import rounded
from rodbook.plan.model import Plan

__all__ = ["OFFCUT_SHARE", "KeptOffcut", "area_price", "kept_offcuts", "offcut_worth"]

OFFCUT_SHARE = Decimal("0.5")
"""What an offcut is worth, as a share of its area's price as sold: it may wait long for a use, and needs room and sorting.
House assumption."""

SAME_MM = 0.06
"""Sizes that differ by less are the same, as they are put down in tenths. [mm]"""

_LABEL = re.compile(r"(.*?)([0-9]+)")


@dataclass(frozen=True)
class KeptOffcut:
    """The largest usable offcut of one layout where it is worth a label, once for each sheet that is cut so.

    Parameters
    ----------
    layout : int
        Number of the layout over the whole job, from 1.
    stock : str
        Board.
    labels : tuple of str
        One for each: as it was put into the shop, or free in the book.
    length, width : float
        [mm]
    worth : Decimal
        Of one. [currency]
    """

    layout: int
    stock: str
    labels: tuple[str, ...]
    length: float
    width: float
    worth: Decimal

    @property
    def label(self) -> str:
        """The labels in a few characters: O-18, or O-18 to O-23 where they follow on each other."""
        if len(self.labels) < 3 or not self._follow_on:
            return ", ".join(self.labels)
        return f"{self.labels[0]} to {self.labels[-1]}"

    @property
    def _follow_on(self) -> bool:
        results = [_LABEL.fullmatch(label) for label in self.labels]
        numbers = [(one[1], int(one[2])) for one in results if one]
        return numbers == [(numbers[0][0], numbers[0][1] + step) for step in range(len(results))]


def area_price(board: Board, length_mm: float, width_mm: float, day: date) -> Decimal:
    """What a piece's area costs in the size that is cheapest for its area, not rounded.

    Parameters
    ----------
    board : Board
    length_mm, width_mm : float
        [mm]
    day : date
        Whose prices hold.

    Returns
    -------
    Decimal
        Zero where no price holds on that day.
    """
    rates = [
        Decimal(price.amount) / (Decimal(str(size.length)) * Decimal(str(size.width)))
        for size in board.sheets
        if (price := valid_on(size.prices, day)) is not None
    ]
    return min(rates, default=Decimal(0)) * Decimal(str(length_mm)) * Decimal(str(width_mm))


def offcut_worth(board: Board, length_mm: float, width_mm: float, day: date, currency: str) -> Decimal:
    """What an offcut is worth: half of what its area costs in the size that is cheapest for its area.

    Parameters
    ----------
    board : Board
    length_mm, width_mm : float
        [mm]
    day : date
        Whose prices hold.
    currency : str

    Returns
    -------
    Decimal
        Zero where no price holds on that day.
    """
    return rounded(OFFCUT_SHARE * area_price(board, length_mm, width_mm, day), currency)


def kept_offcuts(plan: Plan) -> tuple[KeptOffcut, ...]:
    """Offcuts of what is made on site that are worth keeping; a workshop keeps its own.

    Of a board whose offcuts were put into the shop or used up already, those alone that were put there, by their labels.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    """
    labels, settled = _Labels(plan), {moved.board for moved in plan.job.offcuts}
    results: list[KeptOffcut] = []
    for number, material, layout in plan.layouts():
        keep = layout.kept_offcut(plan.book.saw.keep_from)
        if keep is None or material.maker is not Making.SITE:
            continue
        worth = offcut_worth(
            plan.book.board(material.stock), keep.length, keep.width, plan.job.job.date, plan.book.currency
        )
        known = labels.of(material.stock, keep.length, keep.width, layout.count)
        written = known if material.stock in settled else labels.next(layout.count)
        if written:
            results.append(KeptOffcut(number, material.stock, written, keep.length, keep.width, worth))
    return tuple(results)


class _Labels:
    """Labels of a job's offcuts: those put down already, and the numbers that follow on the highest in the book."""

    def __init__(self, plan: Plan) -> None:
        book = plan.book
        self.left = [moved for moved in plan.job.offcuts if moved.went == "in"]
        lying = [offcut.label for board in book.boards for offcut in board.offcuts]
        lying += [moved.label for moved in plan.job.offcuts]
        known = [result for label in lying if (result := _LABEL.fullmatch(label))]
        last = max(known, key=lambda result: int(result[2]), default=None)
        self.used = {piece.label.casefold() for board in book.boards for piece in board.wanted}
        self.before, self.at, self.digits = ("O-", 0, 1) if last is None else (last[1], int(last[2]), len(last[2]))

    def of(self, stock: str, length_mm: float, width_mm: float, count: int) -> tuple[str, ...]:
        """So many of a size that were put into the shop, each given once."""
        same = [
            moved
            for moved in self.left
            if moved.board == stock
            and abs(moved.length - length_mm) < SAME_MM
            and abs(moved.width - width_mm) < SAME_MM
        ][:count]
        self.left = [moved for moved in self.left if moved not in same]
        return tuple(moved.label for moved in same)

    def next(self, count: int) -> tuple[str, ...]:
        results: list[str] = []
        while len(results) < count:
            self.at += 1
            label = f"{self.before}{self.at:0{self.digits}d}"
            results += [] if label.casefold() in self.used else [label]
        return tuple(results)
