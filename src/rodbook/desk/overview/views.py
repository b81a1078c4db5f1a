"""A job's first page: where it stands, its header, its file."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Kind
from rodbook.desk.platform import store
from rodbook.desk.platform.access import role_of, sees_prices
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import job_page, read_base
from rodbook.desk.platform.roles import seen_part
from rodbook.desk.platform.saving import saved_or_told
from rodbook.errors import InputError, Place
from rodbook.job import Job
from rodbook.job.files import write_job

__all__ = ["export", "header", "show"]

FIELDS = (
    "name",
    "number",
    "client",
    "site",
    "revision",
    "date",
    "build_up",
    "workshop",
    "building",
    "age",
    "take_wanted",
    "note",
)


BUILDINGS = (
    ("heated throughout", lazy("heated throughout")),
    ("heated now and then", lazy("heated now and then")),
    ("unheated, or new and drying out", lazy("unheated, or new and drying out")),
)
"""How a building may be kept, and what it is called on the page."""

AGES = (
    ("old", lazy("old: out of plumb and level as old houses are")),
    ("settled", lazy("settled: some decades old")),
    ("new", lazy("new: framed or plastered in the last few years")),
)
"""How old a building may be, and what that is called on the page."""

LABELS = {
    "name": (lazy("What it is called"), "text"),
    "number": (lazy("Your number for it"), "text"),
    "client": (lazy("Who it is for"), "text"),
    "site": (lazy("Where it is"), "text"),
    "revision": (lazy("Revision on the papers"), "text"),
    "date": (lazy("Date: prices are taken as they stand on it"), "date"),
    "note": (lazy("Note for the summary"), "text"),
}


def _fields(form: Form) -> list[dict[str, str]]:
    return [
        {"name": name, "label": label, "kind": kind, "value": form.typed(name), "fault": form.fault(name)}
        for name, (label, kind) in LABELS.items()
    ]


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """Where the job stands."""
    page = job_page(pk)
    header_now = store.as_document(page.job)["job"]
    assert isinstance(header_now, dict)
    form = Form({field: str(header_now.get(field, "")) for field in FIELDS})
    return render(
        request, "desk/job.html", page.context("job", form=form, fields=_fields(form), buildings=BUILDINGS, ages=AGES)
    )


@require_POST
def header(request: HttpRequest, pk: int) -> HttpResponse:
    """Save the header."""
    page = job_page(pk)
    typed = {field: request.POST.get(field, "").strip() for field in FIELDS}
    header_typed: store.Document = {field: value for field, value in typed.items() if value}
    base = read_base(request)
    try:
        answer = saved_or_told(request, page.folder, base, lambda began: began | {"job": header_typed}, page.book)
    except InputError as error:
        form = Form(typed, error.faults, within=Place(("job",)))
        return render(
            request,
            "desk/job.html",
            page.context("job", form=form, fields=_fields(form), buildings=BUILDINGS, ages=AGES, base=base),
            status=422,
        )
    return answer or redirect("job", pk=pk)


@require_safe
def export(request: HttpRequest, pk: int) -> HttpResponse:
    """The job as a file that the command line reads; how it is priced is in it for those who see prices."""
    page = job_page(pk)
    job = Job.model_validate(seen_part(role_of(request), Kind.JOB, store.as_document(page.job)))
    reply = HttpResponse(write_job(job), content_type="application/toml; charset=utf-8")
    name = slugify(page.job.job.name)[:60] or "job"
    reply["Content-Disposition"] = f'attachment; filename="{name}.toml"'
    if sees_prices(request):
        reply["Cache-Control"] = "no-store"
    return reply
