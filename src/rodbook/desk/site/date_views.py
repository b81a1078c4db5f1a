"""Dates: who does what when, for one job or for all that are on the desk, and what is said of people, days and tasks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date as Date  # noqa: N812
from datetime import datetime, time
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from rodbook.dates import Programme
from rodbook.desk.models import Folder, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.access import can_change, is_owner, needs_owner
from rodbook.desk.platform.book_page import book_page, save_book
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, date_now, job_page, read_base
from rodbook.desk.platform.planning import Work, brought_up, dates_key, planner
from rodbook.desk.platform.saving import is_typing, saved_or_told
from rodbook.desk.platform.turns import aside
from rodbook.desk.site.calendars import EVERYBODY, Person, give_calendar, people_with_calendars
from rodbook.desk.site.drawn import drawn_dates, drawn_tasks, drawn_ticks, slips_of
from rodbook.desk.site.facts import ORDER_FIELDS, changed_order, changed_tasks, order_cards, task_ticks
from rodbook.desk.site.firm_forms import FirmForms, firm_forms, typed_firm
from rodbook.desk.site.forms import (
    days_off,
    task_places,
    tasks_of_form,
)
from rodbook.errors import Fault, InputError, Message, Place, RenderError
from rodbook.job import Book, Job
from rodbook.job.dates import MERCHANT, WEEKDAYS
from rodbook.papers import Edition
from rodbook.papers.papers import dates_pdf
from rodbook.plan import Plan
from rodbook.plan.schedule.dates import WantedDates, dates_faults, wanted_by
from rodbook.plan.schedule.facts import done_names, suppliers_of
from rodbook.plan.schedule.tasks import JobTasks, tasks_of

__all__ = ["file", "put_days", "put_done", "put_firm", "put_order", "put_tasks", "show", "start", "stop", "work"]

DAY_WORDS = {
    "mon": lazy("Monday"),
    "tue": lazy("Tuesday"),
    "wed": lazy("Wednesday"),
    "thu": lazy("Thursday"),
    "fri": lazy("Friday"),
    "sat": lazy("Saturday"),
    "sun": lazy("Sunday"),
}
TRADE_WORDS = (("", lazy("everything")), ("joinery", lazy("joinery")), ("painting", lazy("painting")))
FIRST_DAY = Date(2020, 1, 1)
"""Days are counted from it in the numbers of editions."""

MOST_LATE = 60
"""Working days by which a delivery may be taken to be late."""


@dataclass(frozen=True)
class Dated:
    """What a page of dates is about.

    Parameters
    ----------
    page : JobPage, optional
        The job; None for all jobs together.
    jobs : tuple of Job
        That are planned.
    plans : tuple of Plan
        Theirs.
    left : tuple of (Folder, str)
        Jobs that can't be planned yet, and why not.
    book : Book
    base : int
        Revision of the book.
    wanted : WantedDates
    work : Work, optional
    over : bool
        Whether all of the job is done.
    editions : dict of str to Edition
        Which states of the jobs they are, by their keys in the programme.
    older : Programme, optional
        The dates that were shown last, while the new ones are not done.
    """

    page: JobPage | None
    jobs: tuple[Job, ...]
    plans: tuple[Plan, ...]
    left: tuple[tuple[Folder, str], ...]
    book: Book
    base: int
    wanted: WantedDates
    work: Work | None
    over: bool = False
    editions: dict[str, Edition] = field(default_factory=dict)
    older: Programme | None = None

    @property
    def programme(self) -> Programme | None:
        """The dates, where they are worked out."""
        return self.work.programme if self.work else None

    @property
    def ready(self) -> bool:
        """Whether there is something to plan and somebody to do it."""
        return bool(self.plans and self.wanted.people)

    @property
    def page_url(self) -> str:
        """Of this page."""
        return self.address()

    @property
    def work_url(self) -> str:
        """Of how far the work is."""
        return self.address("work")

    @property
    def start_url(self) -> str:
        """That begins the work."""
        return self.address("start")

    @property
    def stop_url(self) -> str:
        """That stops it."""
        return self.address("stop")

    @property
    def firm_url(self) -> str:
        """That saves who works."""
        return self.address("firm")

    def address(self, what: str = "") -> str:
        """Of this page, or of something that belongs to it."""
        name = "-".join(filter(None, ("dates" if self.page else "all-dates", what)))
        return reverse(name, kwargs={"pk": self.page.folder.pk} if self.page else {})


def _dated(pk: int | None, *, start: bool = False) -> Dated:
    """Gather what a page of dates is about; begin the dates where `start` says so."""
    left: list[tuple[Folder, str]] = []
    if pk is not None:
        page: JobPage | None = job_page(pk)
        assert page is not None
        book, base = page.book, page.book_revision.number
        whole = page.whole
        jobs, plans = ([page.job], [whole]) if whole is not None and whole.money else ([], [])
        states, of_book = [page.revision] * len(jobs), page.book_revision
    else:
        page = None
        _folder, of_book, book = store.book_now()
        base = of_book.number
        jobs, plans, left, states = _all_jobs(book)
    wanted = wanted_by(book, jobs, today=date_now())
    over = page is not None and bool(plans) and _all_done(plans[0])
    start = start and bool(wanted.people) and not over
    work = planner.dates(jobs, book, wanted, plans, start=start) if plans and not over else None
    pairs = enumerate(zip(states, jobs, strict=True), 1)
    editions = {str(number): _edition(state, of_book, job) for number, (state, job) in pairs}
    dated = Dated(page, tuple(jobs), tuple(plans), tuple(left), book, base, wanted, work, over, editions)
    place = ("dates", pk or 0)
    if dated.programme is not None:
        planner.remember(place, dated.programme)
        return dated
    older = planner.remembered(place)
    return replace(dated, older=older) if isinstance(older, Programme) and not over else dated


def _edition(state: Revision, of_book: Revision, job: Job) -> Edition:
    """Which state of a job's dates it is: every save of job or book makes one, and every day where they go on from today."""
    saved = max(state.when, of_book.when)
    day = saved.astimezone().date()
    if job.dates.begun or job.dates.start is None:
        day = max(day, date_now())
    made = max(saved, datetime.combine(day, time()).astimezone())
    number = state.number + of_book.number + (day - FIRST_DAY).days
    return Edition(made, number, f"{state.folder_id} {state.folder.created.isoformat()}")


def _all_done(plan: Plan) -> bool:
    if not plan.job.dates.begun:
        return False
    result = tasks_of(plan, key="1", people=1)
    return len(done_names(result, plan.job)) == len(result.named)


def _all_jobs(book: Book) -> tuple[list[Job], list[Plan], list[tuple[Folder, str]], list[Revision]]:
    jobs: list[Job] = []
    states: list[Revision] = []
    plans: list[Plan] = []
    left: list[tuple[Folder, str]] = []
    for folder in store.jobs():
        try:
            state, job = store.job_now(folder)
        except store.Unreadable:
            left.append((folder, _("its newest revision is damaged")))
            continue
        work = planner.whole(job, book, start=False)
        if work is not None and work.plan is not None and work.plan.money is not None:
            jobs.append(job)
            states.append(state)
            plans.append(brought_up(work.plan, job, book))
            if missing := ", ".join(one.name for one in work.plan.missing):
                left.append((folder, _("without what stands aside: %(marks)s") % {"marks": missing}))
        else:
            left.append((folder, _("its layouts and costs are not worked out")))
    return jobs, plans, left, states


@dataclass(frozen=True)
class Forms:
    """Forms as they were filled in wrongly; those that are None are as the documents fill them in."""

    days: Form | None = None
    tasks: Form | None = None
    firm: FirmForms | None = None
    facts: Form | None = None
    base: int | None = None

    @property
    def status(self) -> int:
        """Of the answer."""
        return 422 if self.days or self.tasks or self.firm or self.facts else 200


def _late(request: HttpRequest, dated: Dated) -> tuple[str, str, list[str]]:
    """By how many days deliveries are taken to be late, what is wrong with that, and what it moves."""
    typed = request.GET.get("late", "").strip() or str(dated.wanted.late_days)
    if dated.programme is None:
        return typed, "", []
    if not (typed.isascii() and typed.isdecimal() and len(typed) < 4 and int(typed) <= MOST_LATE):
        text = _("%(typed)s working days won’t do; from 0 to %(most)s are taken.")
        return typed, text % {"typed": typed, "most": MOST_LATE}, []
    key = dates_key(dated.jobs, dated.book, dated.wanted)
    return typed, "", slips_of(key, dated.programme, int(typed), dated.book.locale)


def _tasks(dated: Dated) -> JobTasks | None:
    if dated.page is None or not dated.plans:
        return None
    try:
        return tasks_of(dated.plans[0], key="1", people=max(1, len(dated.wanted.people)))
    except InputError:
        return None


def _facts(request: HttpRequest, dated: Dated, result: JobTasks, key: str, form: Form | None) -> dict[str, object]:
    """What is ordered, come and done, as the page has it; `form` is one that was filled in wrongly."""
    page, locale = dated.page, dated.book.locale
    assert page is not None
    form, today = form or Form({}), date_now()
    cards: list[dict[str, object]] = []
    for card in order_cards(result, page.job, today, locale):
        wrong = form.typed("supplier") == card.supplier
        typed = {name: form.typed(name, value) for name, value in card.fields.items()} if wrong else card.fields
        cards.append(
            {
                "number": card.number,
                "supplier": card.supplier,
                "state": card.state,
                "told": card.told,
                "fields": typed,
                "faults": {name: form.fault(name) for name in ORDER_FIELDS} if wrong else {},
            }
        )
    ticks = task_ticks(result, page.job, locale)
    return {
        "cards": cards,
        "facts": form,
        "tick_list": drawn_ticks(key, ticks, may_change=can_change(request)),
        "done_count": sum(bool(tick.told) for tick in ticks),
        "tick_count": len(ticks),
        "day_typed": form.typed("day", today),
        "day_fault": form.fault("day"),
        "order_url": reverse("dates-order", kwargs={"pk": page.folder.pk}),
        "done_url": reverse("dates-done", kwargs={"pk": page.folder.pk}),
    }


def _firm_forms(book: Book, posted: QueryDict | None = None) -> FirmForms:
    return firm_forms(book.dates, [MERCHANT, *(shop.name for shop in book.workshops)], TRADE_WORDS, posted)


def _render(request: HttpRequest, dated: Dated, forms: Forms | None = None) -> HttpResponse:
    forms = forms or Forms()
    programme = dated.programme
    key = dates_key(dated.jobs, dated.book, dated.wanted)
    shown = programme or dated.older
    kept_by = key if programme is not None else f"older {id(dated.older)} {key}"
    drawn = drawn_dates(kept_by, shown, dated.book) if shown is not None else None
    late, late_fault, slips = _late(request, dated)
    result = _tasks(dated)
    named = result.named if result else ()
    firm = forms.firm or _firm_forms(dated.book)
    context: dict[str, object] = {
        "dated": dated,
        "drawn": drawn,
        "view": drawn.view if drawn else None,
        "after": "dates",
        "late": late,
        "late_fault": late_fault,
        "slips": slips,
        "files": dated.address("file") if programme else "",
        "forms": forms,
        "firm": firm.firm,
        "people": firm.people,
        "supplier_rows": firm.suppliers,
        "firm_is_wrong": firm.firm.is_bound,
        "week": [(day, DAY_WORDS[day], day in (firm.firm["days"].value() or ())) for day in WEEKDAYS],
        "crew": [(one.name, ", ".join(one.trades), days_off(one.off)) for one in dated.book.dates.crew],
        "calendars": _calendars(dated),
    }
    if dated.page is None:
        return render(request, "desk/all_dates.html", context, status=forms.status)
    page = dated.page
    days = forms.days or Form({"start": str(page.job.dates.start or ""), "by": str(page.job.dates.by or "")})
    context |= {
        "days": days,
        "tasks": forms.tasks or Form({}),
        "base": page.revision.number if forms.base is None else forms.base,
        "start_typed": days.typed("start"),
        "start_fault": days.fault("start"),
        "by_typed": days.typed("by"),
        "by_fault": days.fault("by"),
        "task_list": drawn_tasks(
            key, page.job, named, forms.tasks, may_change=can_change(request), locale=dated.book.locale
        )
        if named
        else "",
    }
    if result is not None:
        context |= _facts(request, dated, result, key, forms.facts)
    return render(request, "desk/dates.html", page.context("dates", **context), status=forms.status)


@require_safe
def show(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """The programme, of a job or of all."""
    return _render(request, _dated(pk))


# --- the work on them ---------------------------------------------------------------------------------------------


def _fragment(request: HttpRequest, dated: Dated) -> HttpResponse:
    reply = render(request, "desk/_dates_work.html", {"dated": dated})
    if dated.programme is not None and not is_typing(request):
        reply["HX-Redirect"] = dated.address()
    return reply


@never_cache
@require_safe
def work(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """How far the dates are: the fragment alone for a page that asks again and again, else back to the page."""
    dated = _dated(pk)
    return _fragment(request, dated) if request.headers.get("HX-Request") else redirect(dated.address())


@require_POST
def start(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """Begin them."""
    dated = _dated(pk, start=True)
    return _fragment(request, dated) if request.headers.get("HX-Request") else redirect(dated.address())


@require_POST
def stop(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """Stop them."""
    dated = _dated(pk)
    if dated.work is not None:
        planner.stop(dated.work.key)
    return _fragment(request, _dated(pk)) if request.headers.get("HX-Request") else redirect(dated.address())


# --- files --------------------------------------------------------------------------------------------------------


def _calendars(dated: Dated) -> list[Person]:
    """Everybody whose calendar can be taken."""
    if dated.programme is None:
        return []
    return people_with_calendars(dated.programme, dated.page.folder if dated.page else None, timezone.now())


@require_safe
@aside()
def file(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """The paper, the calendar of all, or the calendar of one person."""
    dated = _dated(pk)
    if dated.programme is None:
        return redirect(dated.address())
    name = request.GET.get("name", "")
    people = {person.file: person for person in _calendars(dated)}
    if name == "dates.pdf":
        try:
            content, kind = dates_pdf(dated.programme, dated.plans), "application/pdf"
        except RenderError as error:
            return _render(request, dated, Forms(days=Form({}, [Fault("", error.message)])))
    elif name == EVERYBODY or name in people:
        folder = dated.page.folder if dated.page else None
        content = give_calendar(dated.programme, dated.editions, folder, people.get(name), timezone.now())
        kind = "text/calendar; charset=utf-8"
    else:
        raise Http404
    reply = HttpResponse(content, content_type=kind)
    stem = slugify(dated.jobs[0].job.name[:60]) or "job" if dated.page else "all-jobs"
    reply["Content-Disposition"] = f'attachment; filename="{stem}-{name}"'
    return reply


# --- what is said of days, tasks and people -----------------------------------------------------------------------


def _put_job(
    request: HttpRequest, dated: Dated, changed: dict[str, Any]
) -> tuple[HttpResponse | None, Sequence[Fault]]:
    """Save what is said of dates in the job, as it was when the form was opened."""
    page = dated.page
    assert page is not None

    def said(began: store.Document) -> store.Kept:
        kept = store.group_of(began, "dates") | changed
        raw = began | {"dates": {name: value for name, value in kept.items() if value}}
        job = store.read_job_document(raw, page.book)
        if ("tasks" in changed or "orders" in changed) and dated.plans:
            before = set(dates_faults(dated.plans, dated.wanted))
            plan = replace(dated.plans[0], job=job)
            if more := [fault for fault in dates_faults([plan], dated.wanted) if fault not in before]:
                raise InputError(more)
        return job

    try:
        answer = saved_or_told(request, page.folder, read_base(request), said, page.book)
    except InputError as error:
        return None, error.faults
    if answer is None:
        _dated(page.folder.pk, start=True)
    return answer or redirect("dates", pk=page.folder.pk), ()


@require_POST
def put_days(request: HttpRequest, pk: int) -> HttpResponse:
    """Save when a job is begun and wanted."""
    dated = _dated(pk)
    typed = {name: request.POST.get(name, "").strip() for name in ("start", "by")}
    answer, faults = _put_job(request, dated, dict(typed))
    if answer is None:
        return _render(
            request, dated, Forms(days=Form(typed, faults, within=Place(("dates",))), base=read_base(request))
        )
    return answer


@require_POST
def put_tasks(request: HttpRequest, pk: int) -> HttpResponse:
    """Save how long tasks take and what they wait for besides."""
    dated = _dated(pk)
    result = _tasks(dated)
    named = result.named if result else ()
    fields = [f"{what}-{n}" for n in range(1, len(named) + 1) for what in ("hours", "after")]
    typed = {name: request.POST.get(name, "").strip() for name in fields}
    try:
        assert dated.page is not None
        changed = {"tasks": tasks_of_form(typed, named, dated.page.job, dated.book.locale)}
    except InputError as error:
        answer, faults = None, tuple(error.faults)
    else:
        answer, wrong = _put_job(request, dated, changed)
        faults = tuple(task_places(wrong, named, typed))
    if answer is None:
        return _render(request, dated, Forms(tasks=Form(typed, faults), base=read_base(request)))
    return answer


@require_POST
def put_order(request: HttpRequest, pk: int) -> HttpResponse:
    """Save that something was ordered or has come, or take that back."""
    dated = _dated(pk)
    page, result = dated.page, _tasks(dated)
    assert page is not None
    typed = {name: request.POST.get(name, "").strip() for name in ("supplier", *ORDER_FIELDS)}
    act = request.POST.get("act", "")
    answer: HttpResponse | None = None
    faults: Sequence[Fault] = ()
    if result is None or typed["supplier"] not in suppliers_of(result) or act not in ("ordered", "came", "back"):
        faults = [Fault("", "desk.nothing_ordered_there")]
    else:
        try:
            answer, wrong = _put_job(request, dated, {"orders": changed_order(page.job, typed["supplier"], act, typed)})
            faults = [_at_field(fault, act) for fault in wrong]
        except InputError as error:
            faults = error.faults
    if answer is None:
        shown = {name: value for name, value in typed.items() if value or name == act}
        return _render(request, dated, Forms(facts=Form(shown, faults), base=read_base(request)))
    return answer


def _at_field(fault: Fault, act: str) -> Fault:
    """A fault of an order at its field, so far as it has one; else of what was said last."""
    field = fault.at.path[-1] if fault.at.path else ""
    return fault.moved(str(field) if field in ORDER_FIELDS else act if act in ORDER_FIELDS else "")


@require_POST
def put_done(request: HttpRequest, pk: int) -> HttpResponse:
    """Save which tasks are done."""
    dated = _dated(pk)
    page, result = dated.page, _tasks(dated)
    assert page is not None
    typed = {"day": request.POST.get("day", "").strip()}
    answer: HttpResponse | None = None
    faults: Sequence[Fault] = ()
    if result is None:
        faults = [Fault("", "desk.job_without_tasks")]
    else:
        names = [one.name for n, one in enumerate(result.named, 1) if f"done-{n}" in request.POST]
        try:
            answer, wrong = _put_job(request, dated, {"tasks": changed_tasks(result, page.job, names, typed["day"])})
            faults = [_of_day(fault) for fault in wrong]
        except InputError as error:
            faults = error.faults
    if answer is None:
        return _render(request, dated, Forms(facts=Form(typed, faults), base=read_base(request)))
    return answer


def _of_day(fault: Fault) -> Fault:
    """A fault of a task at the field of the day, the task said before it."""
    match fault.at.path:
        case (*_, "tasks", str(name)):
            return Fault("day", "desk.task_said", task=name, said=Message(fault))
        case _:
            return fault.moved("day")


def _with_others(firm: dict[str, Any], raw: dict[str, Any], shown: set[str]) -> dict[str, Any]:
    """The firm's dates with what the book says of suppliers that the form did not show; a name that stays keeps its mark."""
    kept = [one for one in raw.get("dates", {}).get("suppliers", ()) if one["supplier"] not in shown]
    marked = [one["name"] for one in raw.get("dates", {}).get("crew", ()) if one.get("confirmed") is False]
    crew = [{**one, "confirmed": False} if one["name"] in marked else one for one in firm["crew"]]
    return {**firm, "crew": crew, "suppliers": [*kept, *firm["suppliers"]]}


@require_POST
@needs_owner
def put_firm(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """Save who works and on which days."""
    assert is_owner(request)
    page = book_page()
    typed = _firm_forms(page.book, request.POST)
    firm = typed_firm(typed)
    if firm is None:
        return _render(request, _dated(pk), Forms(firm=typed))
    answer, wrong, _where = save_book(
        request, page, lambda raw: ({**raw, "dates": _with_others(firm, raw, typed.shown)}, Place())
    )
    if wrong is not None:
        typed.firm.add_faults(wrong.faults)
        return _render(request, _dated(pk), Forms(firm=typed))
    dated = _dated(pk, start=True)
    return answer or redirect(dated.address())
