"""The shape of one opening: what all its readings together say, how sure that is, and how its lining is packed."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from rodbook.desk.openings.checked import checked_so_far
from rodbook.desk.openings.drafts import about_of, draft_of, readings_of
from rodbook.desk.openings.measuring_views import marks_of
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.live_drawings import Working
from rodbook.desk.platform.pictures import svg_of, working_lines
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.shape import draw_shape
from rodbook.papers.survey.content import (
    cut_back_rows,
    fit_rows,
    head_rows,
    largest_front,
    packer_rows,
    place_rows,
    spare_readings,
)
from rodbook.survey import Survey

__all__ = ["first", "show"]


@dataclass(frozen=True)
class Packing:
    """How the lining is packed: rows of the sides, rows of head and foot, and where to cut back."""

    sides: list[list[str]]
    head: list[list[str]]
    cuts: list[str]


@dataclass(frozen=True)
class Listed:
    """An opening with a shape, and whether a reading of it stands out."""

    mark: str
    amiss: bool


def _listed(page: JobPage) -> list[Listed]:
    """Every opening that may have a shape: those that stand, in the job's order, then those that are only begun."""
    amiss = {e.opening.mark for e in page.plan.openings if e.survey and e.survey.suspects} if page.plan else set()
    planned = {o.mark for o in page.job.openings if o.state == "planned"}
    return [Listed(mark, mark in amiss) for mark in marks_of(page) if mark not in planned]


@require_safe
def first(request: HttpRequest, pk: int) -> HttpResponse:
    """The first opening of which a reading stands out, else the first; a sentence where there are none."""
    page = job_page(pk)
    listed = _listed(page)
    if listed:
        return redirect("shape", pk=pk, mark=next((one.mark for one in listed if one.amiss), listed[0].mark))
    return render(request, "desk/shape.html", page.context("openings", mark="", listed=(), checked=None))


@require_safe
def show(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """The shape as it follows from what is read so far; packers as the job stands."""
    page = job_page(pk)
    if mark not in marks_of(page):
        raise Http404
    opening = next((o for o in page.job.openings if o.mark == mark), None)
    draft = draft_of(page.folder, mark, opening)
    checked = checked_so_far(
        opening, about_of(opening, draft), readings_of(opening, draft), page.book, page.job.job.age
    )
    write = Numbers.of(page.book)
    survey = checked.survey if checked else None
    context = page.context(
        "openings",
        mark=mark,
        listed=_listed(page),
        checked=checked,
        rows=fit_rows(survey, write) if survey else (),
        svg=svg_of(draw_shape(survey.shape, mark), write) if survey else "",
        packing=_packing(page, mark, write),
        waiting=bool(draft),
        places=place_rows(survey.shape, write) if survey else (),
        spare=spare_readings(survey.shape) if survey else "",
        front=_front(survey, write),
        helps=checked.helps if checked else None,
    )
    return render(request, "desk/shape.html", context)


def _front(survey: Survey | None, write: Numbers) -> list[tuple[Working, str]]:
    """The largest front that goes in upright: each size with its working and its standard error."""
    result = largest_front(survey.shape) if survey else []
    return [
        (Working(f"front-{n}", m.name, write.tenth(m.value), working_lines([m], write)), write.tenth(error))
        for n, (m, error) in enumerate(result)
    ]


def _packing(page: JobPage, mark: str, write: Numbers) -> Packing | None:
    entry = next((e for e in page.plan.openings if e.opening.mark == mark), None) if page.plan else None
    if entry is None or entry.wall is None:
        return None
    return Packing(packer_rows(entry.wall, write), head_rows(entry.wall, write), cut_back_rows(entry, page.book))
