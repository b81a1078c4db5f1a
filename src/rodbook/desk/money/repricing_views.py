"""A job as it was priced against the prices and times of another day: what moved, what is left, what to ask for. Owner only."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.book_page import date_now, today
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.turns import aside
from rodbook.errors import Fault, InputError, RenderError
from rodbook.papers import repricing_pdf
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.index import draw_index
from rodbook.papers.repricing.content import repricing_rows
from rodbook.plan import JobRepriced, reprice_job

__all__ = ["paper", "show"]


def _asked(request: HttpRequest) -> tuple[Form, Date]:
    """The day that is asked for, today where none is."""
    typed = request.GET.get("on", "").strip() or today()
    try:
        return Form({"on": typed}), Date.fromisoformat(typed)
    except ValueError:
        fault = Fault("on", "form.not_a_day", typed=typed[:20])
        return Form({"on": typed}, [fault]), date_now()


def _found(page: JobPage, day: Date) -> tuple[JobRepriced | None, tuple[Fault, ...]]:
    if page.whole is None or page.whole.money is None:
        return None, ()
    try:
        return reprice_job(page.whole, day), ()
    except InputError as error:
        return None, error.faults


@require_safe
@needs_owner
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """What moved since the job was priced, and what that does to what it earns."""
    page = job_page(pk)
    form, day = _asked(request)
    result, why_not = (None, ()) if form.faults else _found(page, day)
    write = Numbers.of(page.book)
    index = result.index if result else ()
    picture = to_svg(draw_index(index, write, _("Index of what the job takes"))) if len(index) > 1 else ""
    context = page.context(
        "price",
        form=form,
        found=result,
        why_not=why_not,
        rows=repricing_rows(result, write) if result else None,
        picture=picture,
        then=write.date(page.job.job.date),
        now=write.date(day),
        day=day.isoformat(),
        after="price",
    )
    return render(request, "desk/repricing.html", context, status=422 if form.faults else 200)


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The same as a paper, for the firm's own eyes."""
    page = job_page(pk)
    form, day = _asked(request)
    result, faults = _found(page, day)
    faults = (*form.faults, *faults)
    if page.whole is None or result is None or form.faults:
        text = "; ".join(str(fault) for fault in faults) or _("layouts and costs are not worked out yet")
        messages.error(request, _("There is no paper of it: %(why)s.") % {"why": text})
        return redirect("re-price", pk=pk)
    try:
        content = repricing_pdf(page.whole, result)
    except RenderError as error:
        messages.error(request, _("There is no paper of it: %(why)s.") % {"why": error})
        return redirect("re-price", pk=pk)
    reply = HttpResponse(content, content_type="application/pdf")
    reply["Content-Disposition"] = 'attachment; filename="re-price.pdf"'
    reply["Cache-Control"] = "no-store"  # no phone keeps prices
    return reply
