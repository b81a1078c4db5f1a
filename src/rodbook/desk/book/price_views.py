"""Prices through time: what the firm's jobs buy, at the prices of its book, as an index with its working. Owner only."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.platform import store
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.book_page import BookPage, book_page, date_now, today
from rodbook.desk.platform.faults import Form, in_words
from rodbook.desk.platform.job_page import JobPage, priced_paper, readable_pages
from rodbook.desk.platform.planning import planner
from rodbook.desk.platform.turns import aside
from rodbook.errors import Fault, InputError, RenderError
from rodbook.money import FirmIndex, firm_basket, firm_index
from rodbook.papers import basket_pdf
from rodbook.papers.basket.content import basket_rows
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.pictures.index import draw_index
from rodbook.plan import Plan, bought_together

__all__ = ["paper", "show", "start"]


@dataclass(frozen=True)
class Jobs:
    """The jobs on the desk: those that are in the basket, and those that are not, and why."""

    pages: tuple[JobPage, ...]

    @property
    def plans(self) -> list[Plan]:
        """Of those that are in it."""
        return [whole for page in self.pages if (whole := page.whole) is not None and whole.money is not None]

    @property
    def names(self) -> list[str]:
        """Of those that are in it."""
        return [plan.job.job.name for plan in self.plans]

    @property
    def waiting(self) -> list[JobPage]:
        """Jobs that could have layouts and costs and do not have them yet."""
        return [p for p in self.pages if p.whole is None and p.plan is not None and p.plan.schedule]

    @property
    def running(self) -> bool:
        """Whether some of those are being worked out."""
        return any(page.work is not None and not page.work.over for page in self.waiting)

    @property
    def without(self) -> list[JobPage]:
        """Jobs with faults, or without parts."""
        return [page for page in self.pages if page.plan is None or not page.plan.schedule]


def _jobs() -> Jobs:
    return Jobs(tuple(readable_pages(store.jobs().order_by("pk"))))


def _day(typed: str, field: str, faults: list[Fault]) -> Date | None:
    try:
        return Date.fromisoformat(typed) if typed else None
    except ValueError:
        faults.append(Fault(field, "form.not_a_day", typed=typed[:20]))
        return None


def _asked(request: HttpRequest) -> tuple[Form, Date | None, Date]:
    """The day that is 100, and the last one; today where none is asked for."""
    typed = {name: request.GET.get(name, "").strip() for name in ("base", "until", "hours")}
    faults: list[Fault] = []
    base, until = (_day(typed[name], name, faults) for name in ("base", "until"))
    return Form({**typed, "until": typed["until"] or today()}, faults), base, until or date_now()


def _found(page: BookPage, jobs: Jobs, form: Form, base: Date | None, until: Date) -> tuple[FirmIndex | None, Form]:
    """The index, or the form with what is wrong."""
    if form.faults or not jobs.plans:
        return None, form
    try:
        bought = bought_together(jobs.plans, hours=bool(form.typed("hours")))
        return firm_index(firm_basket(page.book, bought), until, base), form
    except InputError as error:
        faults = [fault if fault.at.path == ("base",) else fault.moved("until") for fault in error.faults]
        return None, Form(form.values, faults)


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """The index of what the firm buys through time, and how it comes about."""
    page, jobs = book_page(), _jobs()
    result, form = _found(page, jobs, *_asked(request))
    write = page.write
    context = page.context(
        "book-prices",
        form=form,
        found=result,
        jobs=jobs,
        names=jobs.names,
        rows=basket_rows(result, write, len(jobs.plans)) if result else None,
        picture=_picture(result, page) if result else "",
        first=write.date(result.base) if result else "",
        last=write.date(result.last) if result else "",
        query=urlencode({name: form.typed(name) for name in ("base", "until", "hours")}),
    )
    return render(request, "desk/book_prices.html", context, status=422 if form.faults else 200)


def _picture(result: FirmIndex, page: BookPage) -> str:
    return to_svg(draw_index(result.days, page.write, _("Index of what the firm buys"))) if len(result.days) > 1 else ""


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest) -> HttpResponse:
    """The same as a paper, for the firm's own eyes."""
    page, jobs = book_page(), _jobs()
    result, form = _found(page, jobs, *_asked(request))
    text = _("no job has its layouts and costs yet")
    try:
        if result is not None:
            return priced_paper(basket_pdf(page.book, result, jobs.names, day=date_now()), "prices")
        text = _together(form.faults) or text
    except RenderError as error:
        text = str(error)
    messages.error(request, _("There is no paper of it: %(why)s.") % {"why": text})
    return redirect("book-prices")


def _together(faults: Sequence[Fault]) -> str:
    return "; ".join(map(in_words, faults))


@require_POST
@needs_owner
def start(_request: HttpRequest) -> HttpResponse:
    """Have layouts and costs worked out for every job that has none yet."""
    for page in _jobs().waiting:
        planner.whole(page.job, page.book)
    return redirect("book-prices")
