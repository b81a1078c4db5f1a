"""The front of one opening of a plan, drawn: for whoever looks at a plan without its papers."""

from __future__ import annotations

from rodbook.errors import InputError
from rodbook.papers.drawing.model import Drawing
from rodbook.papers.pictures.front import draw_front
from rodbook.plan import Plan

__all__ = ["draw_opening"]


def draw_opening(plan: Plan, mark: str) -> Drawing:
    """Draw the elevation of an opening's front; a notebook shows it as it is.

    Parameters
    ----------
    plan : Plan
    mark : str
        Of the opening.

    Raises
    ------
    InputError
        If there is no such opening in the plan, or it is not set out.
    """
    found = plan.opening(mark)
    if found.set_out is None:
        raise InputError.at(mark, "it is not set out, so there is nothing to draw")
    return draw_front(found.set_out, plan.book.build_up(found.set_out.build_up), mark)
