"""Sizes: openings and standard sizes in one picture, what sets each size, and how many sizes against how much packing."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import get_language
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.platform import store
from rodbook.desk.platform.faults import in_words
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.live_drawings import Working
from rodbook.desk.platform.planning import shown_key
from rodbook.desk.platform.rendering import Kept
from rodbook.desk.platform.saving import saved_or_told
from rodbook.desk.setout.sizes import ahead_tables, framed_rows, picture_of, size_rows, trade_tables
from rodbook.errors import InputError
from rodbook.papers.common.shared import writer
from rodbook.plan import Ahead
from rodbook.plan import frame_ahead as look_ahead

__all__ = ["choose", "frame_ahead", "show", "trade_off"]

AT_ONCE = 100
"""With up to so many standing openings the trade-off comes with the page; it takes a while with more."""

_drawn: Kept[tuple[str, tuple[Working, ...]]] = Kept(24)
"""Pictures of openings and sizes as they were drawn, by job and book."""

_ahead: Kept[tuple[Ahead, ...]] = Kept(16)
"""Leaves that were looked for, by job and book."""


def _context(page: JobPage, *, weighed: bool) -> dict[str, object]:
    plan = page.plan
    if plan is None:
        return page.context("sizes", rows=(), framed=())
    rows = size_rows(plan)
    picture, workings = _drawn.get((shown_key(page.job, page.book), get_language()), lambda: picture_of(plan))
    return page.context(
        "sizes",
        ahead=None,
        rows=rows,
        framed=framed_rows(plan),
        picture=picture,
        workings=workings,
        packing=writer(plan).tenth(plan.sizes.packing_mm) if plan.sizes else "",
        proven=plan.sizes is not None and plan.sizes.proven,
        fewest=plan.sizes.fewest if plan.sizes else 0,
        trades=trade_tables(plan) if weighed and rows else (),
        weighed=weighed,
    )


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """The sizes."""
    page = job_page(pk)
    standing = sum(1 for entry in page.plan.openings if entry.size is not None) if page.plan else 0
    return render(request, "desk/sizes.html", _context(page, weighed=standing <= AT_ONCE))


@require_safe
def trade_off(request: HttpRequest, pk: int) -> HttpResponse:
    """The trade-off, however long it takes: a fragment, or the page with it."""
    context = _context(job_page(pk), weighed=True)
    name = "desk/_trade_off.html" if request.headers.get("HX-Request") else "desk/sizes.html"
    return render(request, name, context)


@require_safe
def frame_ahead(request: HttpRequest, pk: int) -> HttpResponse:
    """Leaves near the wanted ones that waste less board: a fragment, or the page with it."""
    page = job_page(pk)
    context = _context(page, weighed=False)
    if page.plan is not None:
        result = _ahead.get((shown_key(page.job, page.book), get_language()), lambda: look_ahead(page.job, page.book))
        context["ahead"] = ahead_tables(page.plan, result)
    name = "desk/_frame_ahead.html" if request.headers.get("HX-Request") else "desk/sizes.html"
    return render(request, name, context)


@require_POST
def choose(request: HttpRequest, pk: int) -> HttpResponse:
    """Save how many sizes the openings of a build-up are to have: a number, or nothing for the fewest."""
    page = job_page(pk)
    build_up, number = request.POST.get("build_up", ""), request.POST.get("number", "").strip()

    def chosen(began: store.Document) -> store.Document:
        sizes = {name: n for name, n in store.group_of(began, "sizes").items() if name != build_up}
        return began | {"sizes": sizes | ({build_up: int(number) if number.isdecimal() else number} if number else {})}

    try:
        answer = saved_or_told(request, page.folder, read_base(request), chosen, page.book)
    except InputError as error:
        messages.error(request, "; ".join(map(in_words, error.faults)))
        answer = None
    return answer or redirect("sizes", pk=pk)
