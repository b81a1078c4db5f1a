"""What each standing opening offers, how sure that is, what it rests on, and which reading would make it surer."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rodbook.errors import Infeasible
from rodbook.job import Book
from rodbook.plan.model import OpeningPlan
from rodbook.plan.stages.surveying import helps_most
from rodbook.survey import Assumption, Helps, Shape, UprightFront, upright_front

__all__ = ["Offered", "offered"]

WITHIN = 1.96
"""Standard errors within which 95 of 100 lie."""


@dataclass(frozen=True)
class Offered:
    """What one opening offers to a lining that stands upright in it.

    Parameters
    ----------
    width_mm, height_mm : float
        Of the largest upright front; under a raked head the height of its lower leg. [mm]
    width_within_mm, height_within_mm : float
        95 times in 100 they are within this. [mm]
    assumed : tuple of Assumption
        What they rest on beside the readings.
    helps : Helps, optional
        The reading that would make them surest; None where none would gain much.
    """

    width_mm: float
    height_mm: float
    width_within_mm: float
    height_within_mm: float
    assumed: tuple[Assumption, ...]
    helps: Helps | None


def offered(entry: OpeningPlan, book: Book) -> Offered | None:
    """What an opening offers; None where it does not stand or nothing upright fits.

    Parameters
    ----------
    entry : OpeningPlan
    book : Book
        For its instruments.
    """
    if entry.survey is None:
        return None
    shape = entry.survey.shape
    front = _front(shape)
    if front is None:
        return None
    width, height = front.width.value, front.height.value
    if entry.rectangle is not None:
        width, height = entry.rectangle.width.value, entry.rectangle.height.value
    return Offered(
        width,
        height,
        WITHIN * front.width_error_mm,
        WITHIN * max(front.left_height_error_mm, front.right_height_error_mm),
        shape.assumed,
        helps_most(entry.opening, entry.survey, book),
    )


@lru_cache(maxsize=2048)
def _front(shape: Shape) -> UprightFront | None:
    try:
        return upright_front(shape, head="raked" if shape.raked else "level")
    except Infeasible:
        return None
