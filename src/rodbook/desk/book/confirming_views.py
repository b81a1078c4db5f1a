"""Figures of the book that nobody has confirmed: all of them, or those that a paper of a job rests on. Owner only."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.asking_first import PAPERS, WANTED
from rodbook.desk.platform.book_edits import Raw
from rodbook.desk.platform.book_page import BookPage, book_page, save_book
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import job_page
from rodbook.errors import InputError, Place
from rodbook.job.confirming import Figure, confirmed, unconfirmed
from rodbook.papers.common.unconfirmed import figure_rows
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under

__all__ = ["put", "show"]


@dataclass(frozen=True)
class _Asked:
    """A paper that somebody wants: of which job, what it is called in an address, and for whom it is."""

    job: int
    paper: str
    paper_for: PaperFor


def _asked(values: QueryDict) -> _Asked | None:
    job, paper = str(values.get("job", "")), str(values.get("paper", ""))
    if not (job.isascii() and job.isdecimal() and len(job) < 10) or paper not in PAPERS:
        return None
    return _Asked(int(job), paper, PAPERS[paper])


def _anyway(request: HttpRequest, asked: _Asked) -> str:
    """Where the paper is made that was asked for last, with what is not confirmed; the job's papers where none was."""
    papers = reverse("papers", kwargs={"pk": asked.job})
    wanted = str(request.session.get(WANTED, ""))
    if not wanted.startswith(f"/jobs/{asked.job}/"):
        return papers
    return f"{wanted}{'&' if '?' in wanted else '?'}anyway=yes"


def _render(request: HttpRequest, page: BookPage, asked: _Asked | None, form: Form) -> HttpResponse:
    figures: Sequence[Figure] = unconfirmed(page.book)
    job = None
    if asked is not None:
        job = job_page(asked.job)
        plan = job.whole or job.plan
        figures = not_confirmed_under(plan, asked.paper_for) if plan is not None else ()
    context = page.context(
        "book-confirm",
        rows=figure_rows(figures, page.write),
        asked=asked,
        of=job,
        form=form,
        paper_url=_anyway(request, asked) if asked else "",
    )
    return render(request, "desk/book_confirm.html", context, status=422 if form.faults else 200)


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """What waits to be confirmed, each with its value and where it comes from."""
    return _render(request, book_page(), _asked(request.GET), Form({}))


@require_POST
@needs_owner
def put(request: HttpRequest) -> HttpResponse:
    """Say of figures that they hold: those that are ticked."""
    page, asked = book_page(), _asked(request.POST)
    paths = request.POST.getlist("listed" if "all" in request.POST else "path")[:2000]

    def change(raw: Raw) -> tuple[Raw, Place]:
        if not paths:
            raise InputError.at("path", "form.nothing_ticked")
        return confirmed(raw, paths), Place()

    answer, error, _where = save_book(request, page, change)
    if error is not None:
        return _render(request, page, asked, Form({}, error.faults))
    back = reverse("book-confirm") + (f"?job={asked.job}&paper={asked.paper}" if asked else "")
    return answer or redirect(back)
