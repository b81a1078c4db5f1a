"""The list of jobs, and how a job begins."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from rodbook.desk.keeping.keeper import backup_state
from rodbook.desk.models import Folder, Kind
from rodbook.desk.platform import store
from rodbook.desk.platform.access import is_owner, who
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.uploads import asks_western, in_western
from rodbook.errors import InputError, Place
from rodbook.job.files import parse_book, parse_job, parse_job_bytes, sample_book_text, sample_names, sample_text

__all__ = ["from_sample", "index", "new", "put_away"]

SAMPLES = {
    "converted-store": lazy("A corridor of cupboards in a converted store: 14 openings that stand, out of square."),
    "timber-house": lazy("Wardrobes and linen cupboards in a timber-framed house, still to be framed."),
    "galley": lazy("A galley in a houseboat: drawers, flaps, an apron and an end panel."),
    "stair": lazy("Three raked fronts under a stair, and a panel."),
}


@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """The jobs, newest work first; samples are offered while there is none."""
    folders = list(store.jobs())
    away = list(store.jobs(put_away=True)) if request.GET.get("put-away") else []
    return render(
        request,
        "desk/jobs.html",
        {
            "folders": folders,
            "away": away,
            "away_count": store.jobs(put_away=True).count(),
            "backup": backup_state(Path(settings.HOME)) if folders and is_owner(request) else None,
            "samples": [(name, SAMPLES[name]) for name in sample_names() if name in SAMPLES],
        },
    )


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Begin an empty job, or one from a job file."""
    book = store.book_now()[2]
    form = Form(request.POST)
    if request.method == "POST":
        try:
            if upload := request.FILES.get("file"):
                if upload.size is None or upload.size > 5 * 1024 * 1024:
                    raise InputError.at("file", "desk.job_file_too_large")
                job = parse_job_bytes(upload.read(), book, where="file", western=in_western(request))
                text = f"Read from the file {upload.name}"
            else:
                today = datetime.now().astimezone().date().isoformat()
                header = {
                    k: v
                    for k in ("name", "number", "client", "site", "build_up")
                    if (v := request.POST.get(k, "").strip())
                }
                raw = {"format": 1, "job": {"date": today, "revision": "A", **header}}
                job = store.read_job_document(raw, book)
                text = "Begun"
        except InputError as error:
            form = Form(request.POST, error.faults, within=Place(("job",)))
        else:
            folder = store.new_folder(Kind.JOB, job.job.name, job, who=who(request), said=text)
            return redirect("openings" if not job.openings else "job", pk=folder.pk)
    return render(
        request,
        "desk/job_new.html",
        {"form": form, "book": book, "asks_western": asks_western(form.faults)},
        status=422 if form.faults else 200,
    )


@require_POST
def from_sample(request: HttpRequest) -> HttpResponse:
    """Begin with one of the sample jobs."""
    name = request.POST.get("sample", "")
    if name not in sample_names():
        messages.error(request, _("There is no such sample."))
        return redirect("jobs")
    book = store.book_now()[2]
    job = parse_job(sample_text(name), parse_book(sample_book_text()))
    if job.job.workshop not in (None, *(shop.name for shop in book.workshops)):
        job = job.model_copy(update={"job": job.job.model_copy(update={"workshop": None})})
    try:
        job = store.read_job_document(store.as_document(job), book)
    except InputError as error:
        messages.error(request, _("The sample does not go with this book: %(fault)s.") % {"fault": error.faults[0]})
        return redirect("jobs")
    folder = store.new_folder(
        Kind.JOB, job.job.name, job, who=who(request), said="Begun from a sample; all of it invented"
    )
    return redirect("job", pk=folder.pk)


@require_POST
def put_away(request: HttpRequest, pk: int) -> HttpResponse:
    """Take a finished job off the list, or bring it back."""
    folder = get_object_or_404(Folder, pk=pk, kind=Kind.JOB)
    store.put_away(folder, away=not folder.put_away)
    messages.success(
        request,
        _("%(name)s is %(away)s.")
        % {"name": folder.name, "away": _("back on the list") if folder.put_away else _("put away")},
    )
    return redirect("jobs")
