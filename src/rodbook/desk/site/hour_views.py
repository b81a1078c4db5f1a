"""Hours on a job: what was done, how long, put down with two taps on a phone. No price stands here; makers put hours down."""

from __future__ import annotations

import uuid

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from rodbook.desk.platform import actuals
from rodbook.desk.platform.access import is_owner, refuse, who
from rodbook.desk.platform.book_page import date_now, today, typed_of
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.learned import learned
from rodbook.errors import InputError
from rodbook.papers.numbers import Numbers
from rodbook.plan import tasks_of

__all__ = ["out", "show", "sure"]

FIELDS = ("task", "person", "day", "hours", "done", "key")
FIRST = 6
"""So many tasks stand open; the others are behind a word (house assumption)."""

STEPS = (("0.25", "¼"), ("0.5", "½"), ("1", "1"), ("1.5", "1½"), ("2", "2"), ("3", "3"), ("4", "4"), ("8", "8"))
"""Times that one tap puts down. [h]"""

LATEST = 40
"""So many entries are shown."""


@require_http_methods(["GET", "HEAD", "POST"])
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """Put hours down, and what was put down so far."""
    page = job_page(pk)
    if request.method != "POST":
        person = request.session.get("works_as") or (who(request) if request.user.is_authenticated else "")
        typed = {"person": str(person), "day": today(), "task": request.GET.get("task", "")}
        return _page(request, page, Form(typed))
    typed = typed_of(request, FIELDS)
    typed["hours"] = request.POST.get("tapped", "").strip() or typed["hours"]
    try:
        entry = actuals.hours_of(typed, page.book.locale)
        if entry.day > date_now():
            raise InputError.at("day", "form.still_to_come", day=entry.day)
    except InputError as error:
        return _page(request, page, Form(typed, error.faults))
    request.session["works_as"] = entry.person
    revision = actuals.put_hours(page.folder, entry, who=who(request))
    messages.success(request, _("Put down: %(said)s.") % {"said": revision.said})
    return redirect("hours", pk=pk)


def _page(request: HttpRequest, page: JobPage, form: Form) -> HttpResponse:
    _revision, kept = actuals.actuals_now(page.folder)
    write = Numbers.of(page.book)
    tasks = tasks_of(page.book, page.whole)
    known = [task.name for task in tasks]
    own = [name for name in dict.fromkeys(e.task for e in kept.hours) if name not in known]
    chosen = form.typed("task")
    asked = {
        question.mark: question.sentence
        for result in learned(page.book, date_now())
        for question in result.asked
        if question.job.pk == page.folder.pk
    }
    latest = sorted(kept.hours, key=lambda e: (e.day, len(e.mark), e.mark), reverse=True)[:LATEST]
    entries = [
        {
            "mark": e.mark,
            "day": write.date(e.day),
            "person": e.person,
            "task": e.task,
            "hours": write.short(float(e.hours)),
            "done": "" if e.done is None else write.short(float(e.done)),
            "asked": asked.get(e.mark, ""),
        }
        for e in latest
    ]
    context = page.context(
        "hours",
        form=form,
        first=tasks[:FIRST],
        more=tasks[FIRST:],
        own=own,
        chosen=chosen,
        steps=STEPS,
        entries=entries,
        example_hours=1.5,
        more_open=chosen in [task.name for task in tasks[FIRST:]],
        key=str(uuid.uuid4()),
        total=write.short(float(sum((e.hours for e in kept.hours), start=0))),
        people=sorted({e.person for e in kept.hours}),
        questions=sum(1 for e in entries if e["asked"]),
        count=len(kept.hours),
    )
    return render(request, "desk/hours.html", context, status=422 if form.faults else 200)


@require_POST
def sure(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """Say of hours that look wrong that they are right."""
    page = job_page(pk)
    actuals.say_sure(page.folder, mark, who=who(request))
    messages.success(request, _("It counts from now on."))
    return redirect("hours", pk=pk)


@require_POST
def out(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """Take hours out, or an invoice, which is the owner's."""
    page = job_page(pk)
    if not mark.startswith("H") and not is_owner(request):
        return refuse(request, _("Only the owner changes invoices."))
    actuals.take_out(page.folder, mark, who=who(request))
    messages.success(request, _("Taken out."))
    return redirect("hours" if mark.startswith("H") else "account", pk=pk)
