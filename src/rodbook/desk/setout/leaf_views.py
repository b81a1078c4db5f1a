"""Leaves: how they open, what they hang on and what damp does to them; and what stands near an opening."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from rodbook.desk.platform import store
from rodbook.desk.platform.changes import Value
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.grid import OBSTACLES, Row, raw_openings, rows_of, rows_typed, with_faults
from rodbook.desk.platform.grid_rows import drawn_rows
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.saving import saved_or_told
from rodbook.desk.platform.typed_numbers import shown_number
from rodbook.desk.setout.leaves import leaves_view, near_of, standing_leaves
from rodbook.errors import Fault, InputError, Place
from rodbook.job.numerals import number_or_none
from rodbook.papers.leaves.content import hinge_rows

__all__ = ["one", "show"]

CEILING = ("height", "fall")


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """The leaves of the first opening, or a sentence where there are none."""
    page = job_page(pk)
    listed = standing_leaves(page.plan) if page.plan else ()
    if listed:
        return redirect("leaves-of", pk=pk, mark=next((s.mark for s in listed if s.amiss), listed[0].mark))
    return render(request, "desk/leaves.html", page.context("parts", listed=(), view=None))


@require_http_methods(["GET", "HEAD", "POST"])
def one(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """The leaves of one opening, or save what stands near it."""
    page = job_page(pk)
    documents = _openings(store.as_document(page.job))
    at = next((n for n, o in enumerate(documents) if o.get("mark") == mark), None)
    if at is None:
        raise Http404
    ceiling = documents[at].get("ceiling")
    kept = ceiling if isinstance(ceiling, dict) else {}
    rows = rows_of(near_of(documents[at]), OBSTACLES, locale=page.book.locale)
    form = Form({name: shown_number(kept.get(name), page.book.locale) for name in CEILING})
    elsewhere: list[Fault] = []
    if request.method == "POST":
        rows, form, elsewhere, answer = _save(request, page, mark)
        if answer is not None:
            return answer
    wrong = bool(elsewhere) or bool(form.faults) or any(row.faults for row in rows)
    context = page.context(
        "parts",
        listed=standing_leaves(page.plan) if page.plan else (),
        view=leaves_view(page.plan, mark) if page.plan else None,
        mark=mark,
        hinges=hinge_rows(page.plan) if page.plan else (),
        drawn=drawn_rows(rows, OBSTACLES),
        columns=OBSTACLES.columns,
        form=form,
        elsewhere=elsewhere,
        ceiling_faults={name: form.fault(name) for name in CEILING},
        base=read_base(request) if request.method == "POST" else page.revision.number,
        near_open=wrong or bool(kept) or any(not row.blank for row in rows),
    )
    return render(request, "desk/leaves.html", context, status=422 if wrong else 200)


def _openings(document: store.Document) -> list[dict[str, Value]]:
    return [dict(o) for o in cast("list[dict[str, Value]]", document.get("openings", []))]


def _save(request: HttpRequest, page: JobPage, mark: str) -> tuple[list[Row], Form, list[Fault], HttpResponse | None]:
    """Save what was typed; the answer, or rows and form with their faults."""
    rows = rows_typed(request.POST, OBSTACLES)
    typed = {name: request.POST.get(name, "").strip()[:40] for name in CEILING}
    raw, kept, at = list[dict[str, object]](), list[Row](), 0

    def as_typed(began: store.Document) -> store.Kept:
        nonlocal raw, kept, at
        documents = _openings(began)
        at = next((n for n, o in enumerate(documents) if o.get("mark") == mark), -1)
        if at < 0:
            raise InputError.at("", "desk.not_in_job_yet")
        raw, kept = raw_openings(rows, near_of(documents[at]), OBSTACLES)
        documents[at] = {**documents[at], "obstacles": cast("Value", raw), "ceiling": _ceiling(typed, page.book.locale)}
        document = {**began, "openings": cast("Value", documents)}
        return store.read_job_document(document, page.book, held=("openings", at + 1))

    try:
        answer = saved_or_told(request, page.folder, read_base(request), as_typed, page.book)
    except InputError as error:
        opening = Place(("openings", at))
        faults = [f.moved(own) if (own := f.at.beneath(opening)) else f for f in error.faults]
        elsewhere = with_faults(kept, faults, OBSTACLES)
        ceiling = Place(("ceiling",))
        form = Form(typed, [f for f in elsewhere if f.at.beneath(ceiling)], within=ceiling)
        return rows, form, [f for f in elsewhere if not f.at.beneath(ceiling)], None
    if answer is None and not raw:
        messages.info(request, _("Nothing stands near %(mark)s as far as the job knows.") % {"mark": mark})
    return rows, Form(typed), [], answer or redirect("leaves-of", pk=page.folder.pk, mark=mark)


def _ceiling(typed: Mapping[str, str], locale: str) -> Value:
    """A ceiling as it was typed; none where nothing was."""
    if not any(typed.values()):
        return None
    results = {name: value for name, value in typed.items() if value}
    fall = number_or_none(results.get("fall", ""), locale)
    return {**results, **({} if fall is None else {"fall": float(fall)})}
