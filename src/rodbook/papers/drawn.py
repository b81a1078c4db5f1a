"""A front or a layout of a plan, drawn: for whoever looks at a plan without its papers."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.boards import cut_list
from rodbook.errors import InputError, Message
from rodbook.papers.drawing.model import Drawing
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.pictures.front import draw_front
from rodbook.papers.pictures.layout import draw_sheet
from rodbook.plan import Plan, kept_offcuts, saw_of

__all__ = ["Drawn", "draw_layout", "draw_opening"]


@dataclass(frozen=True, repr=False)
class Drawn(Drawing):
    """A drawing that a notebook shows as a picture."""

    def __repr__(self) -> str:
        """What it shows, on one line."""
        return f"<Drawing 1:{self.scale}, {self.width:.0f} × {self.height:.0f} mm on paper>"

    def _repr_svg_(self) -> str:
        """The picture, for a notebook."""
        return to_svg(self)


def _shown(drawing: Drawing) -> Drawn:
    return Drawn(drawing.width, drawing.height, drawing.marks, drawing.title, drawing.scale)


def draw_opening(plan: Plan, mark: str) -> Drawn:
    """Draw the elevation of an opening's front; a notebook shows it as it is.

    Parameters
    ----------
    plan : Plan
    mark : str
        Of the opening.

    Returns
    -------
    Drawn
        Its `scale` and its size on paper are with it.

    Raises
    ------
    InputError
        If there is no such opening in the plan, or it is not set out.

    Examples
    --------
    >>> import rodbook
    >>> plan = rodbook.plan_job(rodbook.sample_job("stair"), rodbook.sample_book(), seconds=0.5)
    >>> rodbook.draw_opening(plan, "S1")
    <Drawing 1:20, 87 × 146 mm on paper>
    """
    result = plan.opening(mark)
    if result.set_out is None:
        raise InputError.at(mark, "papers.not_set_out")
    return _shown(draw_front(result.set_out, mark))


def draw_layout(plan: Plan, number: int) -> Drawn:
    """Draw how one layout of a sheet is cut, its cuts numbered in their order; a notebook shows it as it is.

    Parameters
    ----------
    plan : Plan
    number : int
        Of the layout over the whole job, from 1: as on the papers, and as `Plan.layouts` gives it.

    Returns
    -------
    Drawn
        As on the layouts' paper: what is worth keeping bears its label.

    Raises
    ------
    InputError
        If the plan has no layout of that number.

    Examples
    --------
    >>> import rodbook
    >>> plan = rodbook.plan_job(rodbook.sample_job("stair"), rodbook.sample_book(), seconds=0.5)
    >>> rodbook.draw_layout(plan, 1)
    <Drawing 1:10, 253 × 139 mm on paper>
    """
    layouts = list(plan.layouts())
    result = next(((material, layout) for own, material, layout in layouts if own == number), None)
    if result is None:
        hint = Message("papers.layouts_numbered", last=len(layouts)) if layouts else Message("papers.no_layouts")
        raise InputError.at(("layouts", number - 1), "papers.no_such_layout", hint=hint)
    material, layout = result
    saw, labels = saw_of(plan.book), {kept.layout: kept.label for kept in kept_offcuts(plan)}
    keep = layout.kept_offcut(plan.book.saw.keep_from)
    drawing = draw_sheet(
        layout,
        cut_list(layout, saw),
        saw,
        grain=plan.book.board(material.stock).grain,
        keep=labels.get(number, "") if keep else None,
        wanted=material.wanted_names,
    )
    return _shown(drawing)
