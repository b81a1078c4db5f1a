"""The shape of one opening: what all its readings together say, how sure that is, and how its lining is packed."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from rodbook.desk.checked import checked_so_far
from rodbook.desk.drafts import about_of, draft_of, readings_of
from rodbook.desk.pictures import svg_of
from rodbook.desk.views.common import JobPage, job_page
from rodbook.desk.views.measuring import marks_of
from rodbook.papers.content.survey import cut_back_rows, fit_rows, head_rows, packer_rows
from rodbook.papers.draw_shape import draw_shape
from rodbook.papers.numbers import Numbers

__all__ = ["show"]


@dataclass(frozen=True)
class Packing:
    """How the lining is packed: rows of the sides, rows of head and foot, and where to cut back."""

    sides: list[list[str]]
    head: list[list[str]]
    cuts: list[str]


@require_safe
def show(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """The shape as it follows from what is read so far; packers as the job stands."""
    page = job_page(pk)
    if mark not in marks_of(page):
        raise Http404
    opening = next((o for o in page.job.openings if o.mark == mark), None)
    draft = draft_of(page.folder, mark, opening)
    checked = checked_so_far(opening, about_of(opening, draft), readings_of(opening, draft), page.book)
    write = Numbers(page.book.locale, page.book.currency)
    survey = checked.survey if checked else None
    context = page.context(
        "openings", mark=mark, checked=checked, rows=fit_rows(survey, write) if survey else (),
        svg=svg_of(draw_shape(survey.shape, mark), write) if survey else "", packing=_packing(page, mark, write),
        waiting=bool(draft),
    )  # fmt: skip
    return render(request, "desk/shape.html", context)


def _packing(page: JobPage, mark: str, write: Numbers) -> Packing | None:
    entry = next((e for e in page.plan.openings if e.opening.mark == mark), None) if page.plan else None
    if entry is None or entry.wall is None:
        return None
    return Packing(packer_rows(entry.wall, write), head_rows(entry.wall, write), cut_back_rows(entry))
