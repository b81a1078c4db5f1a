"""The crew's weeks: which kinds of part of which jobs to make and which to buy, and what one more day would earn."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Folder, Record
from rodbook.desk.platform import store
from rodbook.desk.platform.access import needs_owner, who
from rodbook.desk.platform.book_page import date_now
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, priced_paper, readable_pages
from rodbook.desk.platform.planning import planner, shown_key
from rodbook.desk.platform.rendering import Kept
from rodbook.desk.platform.turns import aside
from rodbook.desk.weeks.extra_days import FIELDS, MOST_EXTRA_DAYS, laid_in
from rodbook.desk.weeks.weeks import Weeks, answer_rows, monday, read_weeks, typed_weeks, weeks_fields
from rodbook.errors import Infeasible, InputError, RenderError
from rodbook.job import Book
from rodbook.job.numerals import as_typed
from rodbook.money import WeekDays, capacity
from rodbook.papers import weeks_pdf
from rodbook.papers.numbers import Numbers
from rodbook.plan import WeeksDecided, crew_days, days_besides, income_of, weeks_of_job, weeks_wanted

__all__ = ["paper", "put", "show", "start"]

KIND = "weeks"

type Answer = WeeksDecided | tuple[str, ...]
"""What came out, or in sentences why nothing did."""

_answers: Kept[Answer] = Kept(16)


@dataclass(frozen=True)
class Row:
    """A job in the form: its page, what stands for its days and its income, and why it can't be counted yet."""

    page: JobPage
    first: str
    last: str
    besides: str
    income: str
    waits: str

    @property
    def pk(self) -> int:
        """Its number on the desk."""
        return self.page.folder.pk

    @property
    def text(self) -> str:
        """The same, as a template puts it into a name."""
        return str(self.pk)


def _folders() -> list[Folder]:
    return list(store.jobs().order_by("pk"))


def _weeks() -> Weeks:
    """The weeks as they were last laid down."""
    kept = Record.objects.filter(kind=KIND, folder=None, struck_out=False).last()
    return read_weeks(kept.content) if kept else Weeks(monday(date_now()))


def _rows(pages: list[JobPage], weeks: Weeks, write: Numbers) -> list[Row]:
    rows = []
    for page in pages:
        pk, plan = page.folder.pk, page.whole
        besides = income = waits = ""
        if plan is None or plan.money is None:
            state = page.work.state if page.work and not page.work.over else ""
            waits = "faults" if page.plan is None else "empty" if not page.plan.schedule else state or "layouts"
        else:
            besides = write.days(days_besides(plan, people=weeks.crew))
            try:
                income = write.money(income_of(plan))
            except InputError as error:
                waits = str(error)
        rows.append(Row(page, f"first-{pk}", f"last-{pk}", besides, income, waits))
    return rows


def _own(pages: list[JobPage], weeks: Weeks) -> dict[int, tuple[int, int]]:
    """First and last week of each job by its own dates."""
    return {page.folder.pk: weeks_of_job(page.job, weeks.start, weeks.count) for page in pages}


def _of_book(book: Book, weeks: Weeks) -> tuple[float, ...]:
    """Days of the book's crew; none where it names nobody, or holidays that nobody knows."""
    try:
        return crew_days(book, weeks.start, weeks.count)
    except InputError:
        return ()


def _answer(rows: list[Row], weeks: Weeks) -> Answer:
    wanted, names = [], set[str]()
    for row in rows:
        page = row.page
        place, plan = weeks.of_job(row.pk, weeks_of_job(page.job, weeks.start, weeks.count)), page.whole
        if not place.counts or row.waits or plan is None:
            continue
        name = plan.job.job.name
        name = name if name not in names else f"{name} ({row.pk})"
        names.add(name)
        besides = days_besides(plan, people=weeks.crew) if place.besides is None else place.besides
        try:
            wanted.append(
                weeks_wanted(
                    plan,
                    name,
                    first_week=place.first,
                    last_week=place.last,
                    promised=place.promised,
                    besides=besides,
                    income=income_of(plan),
                )
            )
        except InputError as error:
            return tuple(str(fault) for fault in error.faults)
    if not wanted:
        return ()
    book = rows[0].page.book
    days = [WeekDays(there) for there in weeks.all_days(_of_book(book, weeks))]
    more, _left = laid_in(weeks.on_top, book, weeks.start, weeks.count)
    try:
        result = capacity(wanted, days, currency=book.currency, more=more, value_weeks=None)
        return WeeksDecided(date_now(), weeks.start, tuple(wanted), result)
    except Infeasible as error:
        return (str(error),)
    except InputError as error:
        return tuple(str(fault) for fault in error.faults)


def _decided(book: Book) -> tuple[list[JobPage], list[Row], Weeks, Answer]:
    """Every job, its row in the form, the weeks as they are laid down, and what is decided in them."""
    weeks = _weeks()
    pages = readable_pages(_folders())
    rows = _rows(pages, weeks, Numbers.of(book))
    keys = "".join(f"{shown_key(p.job, p.book)}{p.job.price!r}{p.job.dates!r}{bool(p.whole)}" for p in pages)
    return pages, rows, weeks, _answers.get((keys, repr(weeks)), lambda: _answer(rows, weeks))


def _render(request: HttpRequest, *, form: Form | None = None) -> HttpResponse:
    book = store.book_now()[2]
    write = Numbers.of(book)
    pages, rows, weeks, answer = _decided(book)
    shown = form or Form(weeks_fields(weeks, _own(pages, weeks), book.locale))
    count = weeks.count if form is None or not form.typed("count").isdecimal() else min(int(form.typed("count")), 26)
    usual = weeks.usual(_of_book(book, weeks))
    context = {
        "rows": rows,
        "form": shown,
        "currency": book.currency,
        "named": [one.name for one in book.dates.crew],
        "day_fields": [
            (n, f"days-{n}", as_typed(usual[n - 1], book.locale) if n <= len(usual) else "")
            for n in range(1, count + 1)
        ],
        "on_top": _extra_days_rows(shown),
        "on_top_left": laid_in(weeks.on_top, book, weeks.start, weeks.count)[1],
        "answered": answer_rows(answer.answer, weeks, write) if isinstance(answer, WeeksDecided) else None,
        "why_not": () if isinstance(answer, WeeksDecided) else answer,
        "waiting": any(row.waits == "layouts" for row in rows),
        "running": any(row.waits in ("waiting", "running") for row in rows),
    }
    return render(request, "desk/weeks.html", context, status=422 if form and form.faults else 200)


def _extra_days_rows(form: Form) -> list[dict[str, object]]:
    """Lines of the form for hired hands and overtime: those that say something, and one more."""
    filled = [n for n in range(1, MOST_EXTRA_DAYS + 1) if any(form.typed(f"more-{what}-{n}") for what in FIELDS)]
    lines = range(1, min(max(filled, default=0) + 1, MOST_EXTRA_DAYS) + 1)
    return [{"number": n, **{what: f"more-{what}-{n}" for what in FIELDS}} for n in lines]


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """The weeks, and what to make and what to buy in them."""
    return _render(request)


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest) -> HttpResponse:
    """What is decided in the weeks as a paper, for the firm's own eyes."""
    book = store.book_now()[2]
    answer = _decided(book)[3]
    try:
        if isinstance(answer, WeeksDecided):
            return priced_paper(weeks_pdf(book, replace(answer, day=date_now())), "weeks")
        text = "; ".join(answer) or _("no job has its layouts and costs yet")
    except RenderError as error:
        text = str(error)
    messages.error(
        request, _("There is no paper of it: %(why)s.") % {"why": f"{text[:1].lower()}{text[1:]}".rstrip(".")}
    )
    return redirect("weeks")


@require_POST
@needs_owner
def put(request: HttpRequest) -> HttpResponse:
    """Lay the weeks down."""
    pks = [folder.pk for folder in _folders()]
    book = store.book_now()[2]
    weeks, typed, faults = typed_weeks(
        request.POST, pks, date_now(), len(book.dates.crew), currency=book.currency, locale=book.locale
    )
    if faults:
        return _render(request, form=Form(typed, faults))
    Record.objects.create(kind=KIND, content=weeks.as_content(), who=who(request))
    return redirect("weeks")


@require_POST
@needs_owner
def start(_request: HttpRequest) -> HttpResponse:
    """Have layouts and costs worked out for every job that has none yet."""
    for page in readable_pages(_folders()):
        if page.plan is not None and page.plan.schedule and page.whole is None:
            planner.whole(page.job, page.book)
    return redirect("weeks")
