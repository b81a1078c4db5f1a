"""Hinges and plates that a job takes: how many of each arm and of each height, from every leaf and flap by itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.job import Book
from rodbook.plan.analyses.leaf_checks import plate_for
from rodbook.plan.model import OpeningPlan
from rodbook.setout import hangings

__all__ = ["HingeLot", "hinges_bought"]


@dataclass(frozen=True)
class HingeLot:
    """So many hinges of one kind with one arm, and as many plates of one height.

    Parameters
    ----------
    hinge : str
        As the book calls it.
    arm : str
    plate_mm : float
        Height of the plate. [mm]
    number : int
        Of hinges, and of plates with them.
    openings : tuple of str
        Marks of the fronts that take them.
    """

    hinge: str
    arm: str
    plate_mm: float
    number: int
    openings: tuple[str, ...]


def hinges_bought(openings: Sequence[OpeningPlan], book: Book) -> tuple[HingeLot, ...]:
    """What all fronts of a job take together.

    Parameters
    ----------
    openings : sequence of OpeningPlan
    book : Book

    Returns
    -------
    tuple of HingeLot
        By hinge, arm and height of plate.
    """
    numbers: Counter[tuple[str, str, float]] = Counter()
    marks: dict[tuple[str, str, float], dict[str, None]] = {}
    for entry in openings:
        if entry.set_out is None:
            continue
        hinge = book.hinge(book.build_up(entry.build_up).hinge)
        for hanging in hangings(entry.set_out):
            fit = plate_for(hanging, hinge)
            key = (hinge.name, fit.arm.name, fit.plate_height_mm)
            numbers[key] += hanging.hinges
            marks.setdefault(key, {})[entry.opening.mark] = None
    return tuple(HingeLot(*key, numbers[key], tuple(marks[key])) for key in sorted(numbers))
