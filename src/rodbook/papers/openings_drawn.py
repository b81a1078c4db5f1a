"""The front of one opening of a plan, drawn: for whoever looks at a plan without its papers."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.errors import InputError
from rodbook.papers.drawing.model import Drawing
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.pictures.front import draw_front
from rodbook.plan import Plan

__all__ = ["OpeningDrawn", "draw_opening"]


@dataclass(frozen=True, repr=False)
class OpeningDrawn(Drawing):
    """A drawing that a notebook shows as a picture."""

    def __repr__(self) -> str:
        """What it shows, on one line."""
        return f"<Drawing 1:{self.scale}, {self.width:.0f} × {self.height:.0f} mm on paper>"

    def _repr_svg_(self) -> str:
        return to_svg(self)


def draw_opening(plan: Plan, mark: str) -> OpeningDrawn:
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
    drawn = draw_front(found.set_out, plan.book.build_up(found.set_out.build_up), mark)
    return OpeningDrawn(drawn.width, drawn.height, drawn.marks, drawn.title, drawn.scale)
