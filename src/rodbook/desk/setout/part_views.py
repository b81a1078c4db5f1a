"""Parts: the schedule, the fronts to scale with the working of every size, and margins and gaps that can be tried out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import get_language
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Kind, Role
from rodbook.desk.platform import store
from rodbook.desk.platform.access import is_owner, refuse, who
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.history_lines import lines_for
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.planning import planner, shown_key
from rodbook.desk.platform.rendering import Kept
from rodbook.desk.platform.saving import saved_or_told
from rodbook.desk.setout.fronts import Figure, FrontView, figures_of, front_views, part_rows, tried_document
from rodbook.desk.setout.part import part_view
from rodbook.errors import InputError, Place
from rodbook.job import Book, Job
from rodbook.papers.numbers import Numbers
from rodbook.papers.parts_schedule.content import fronts_of
from rodbook.plan import Plan
from rodbook.working import number

__all__ = ["keep", "part", "show", "try_out"]

ALL_AT_ONCE = 4
"""So many fronts are drawn on one page; of more, one is chosen."""

_drawn: Kept[tuple[FrontView, ...]] = Kept(24)
"""Fronts as they were drawn, by job and book."""


@dataclass(frozen=True)
class Trial:
    """Margins and gaps of one build-up, as they stand in the book or as they are tried out.

    Parameters
    ----------
    build_up : str
    figures : tuple of Figure
    form : Form
        With what was typed and its faults.
    plan : Plan
        By the figures that are tried out; by the book where they are at fault.
    tried : bool
        Whether `plan` is another than the job's.
    book : Book
        The firm's, without what the job has of its own.
    """

    build_up: str
    figures: tuple[Figure, ...]
    form: Form
    plan: Plan
    tried: bool
    book: Book

    @property
    def query(self) -> str:
        """What is tried out, for an address."""
        return urlencode({"build_up": self.build_up, **self.form.values}) if self.tried else ""

    @property
    def fields(self) -> list[dict[str, str]]:
        """What the form's template needs."""
        return [
            {
                "name": f.name,
                "label": f.words,
                "value": self.form.typed(f.name),
                "fault": self.form.fault(f.name),
                "hint": _in_book(self.book, self.build_up, f),
            }
            for f in self.figures
        ]


def _in_book(book: Book, build_up: str, figure: Figure) -> str:
    """What the book has, and what the job has of its own where that is another."""
    value = getattr(book.build_up(build_up), figure.name)
    result = _("in the book %(value)s") % {"value": Numbers.of(book).short(value)}
    if value == figure.value:
        return result
    return f"{result}, {_('in this job %(value)s') % {'value': Numbers.of(book).short(figure.value)}}"


def _plain(figure: Figure) -> str:
    return number(figure.value).removesuffix(".0")


def _trial(page: JobPage, asked: Mapping[str, str]) -> Trial | None:
    """Try out what is asked; None where there is no front yet."""
    if page.plan is None or not (by_build_up := figures_of(page.plan)):
        return None
    name = asked.get("build_up", "")
    build_up = name if name in by_build_up else next(iter(by_build_up))
    figures = by_build_up[build_up]
    given = {f.name: asked[f.name].strip() for f in figures if f.name in asked}
    typed = {f.name: given.get(f.name, _plain(f)) for f in figures}
    if not given:
        return Trial(build_up, figures, Form(typed), page.plan, tried=False, book=page.book)
    try:
        book = _tried_book(page.book, build_up, {**_own(page.job, build_up), **given})
        plan = planner.parts(_without_own(page.job, build_up, given), book)
        _refuse_more_aside(page.plan, plan)
    except InputError as error:
        return Trial(
            build_up,
            figures,
            Form(typed, error.faults, _place(page.book, build_up)),
            page.plan,
            tried=False,
            book=page.book,
        )
    return Trial(build_up, figures, Form(typed), plan, tried=plan.book != page.plan.book, book=page.book)


def _own(job: Job, build_up: str) -> dict[str, str]:
    """Margins and gaps that the job has of its own, as they are typed."""
    return {name: number(value) for name, value in job.gaps.get(build_up, {}).items()}


def _without_own(job: Job, build_up: str, names: Iterable[str]) -> Job:
    """The job without margins and gaps of its own of these names."""
    left = {gap: value for gap, value in job.gaps.get(build_up, {}).items() if gap not in names}
    gaps = {name: own for name, own in {**job.gaps, build_up: left}.items() if own}
    return job.model_copy(update={"gaps": gaps})


def _refuse_more_aside(before: Plan, tried: Plan) -> None:
    """Refuse figures with which something stands aside that could be made before.

    Raises
    ------
    InputError
        With all that is wrong with it.
    """
    were = {(one.group, one.number) for one in before.aside}
    faults = [fault for one in tried.aside if (one.group, one.number) not in were for fault in one.faults]
    if faults:
        raise InputError(faults)


def _tried_book(book: Book, build_up: str, typed: Mapping[str, str]) -> Book:
    result = store.read_document(Kind.BOOK, tried_document(store.as_document(book), build_up, typed))
    assert isinstance(result, Book)
    return result


def _place(book: Book, build_up: str) -> Place:
    """Where a build-up stands in the book."""
    return Place(("build_ups", next(n for n, entry in enumerate(book.build_ups) if entry.name == build_up)))


def _posted(request: HttpRequest) -> dict[str, str]:
    return {name: str(value) for name, value in request.POST.items()}


def _number(asked: Mapping[str, str], name: str) -> int:
    """A number in an address; zero where there is none."""
    text = asked.get(name, "")
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 6 else 0


def _context(page: JobPage, trial: Trial | None, front: int) -> dict[str, object]:
    """What the page shows; of many fronts only the one that is asked for."""
    if trial is None:
        return page.context("parts", trial=None, rows=part_rows(page.plan) if page.plan else ())
    names = [result.name for result in fronts_of(trial.plan)]
    only = None if len(names) <= ALL_AT_ONCE else (front if 1 <= front <= len(names) else 1)
    before = page.plan if trial.tried else None
    was = shown_key(page.job, page.book) if before else ""
    key = shown_key(page.job, trial.plan.book), f"{only} {was} {get_language()}"
    return page.context(
        "parts",
        trial=trial,
        build_ups=list(figures_of(page.plan)) if page.plan else [],
        names=list(enumerate(names, 1)) if only else [],
        only=only,
        fronts=_drawn.get(key, lambda: front_views(trial.plan, before=before, only=only)),
        rows=part_rows(trial.plan, before),
        query=trial.query,
    )


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """The parts, by the book or by what the address tries out."""
    page = job_page(pk)
    asked = {name: str(value) for name, value in request.GET.items()}
    return render(request, "desk/parts.html", _context(page, _trial(page, asked), _number(asked, "front")))


@require_safe
def part(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """One part, drawn with the working of every dimension."""
    page = job_page(pk)
    view = part_view(page.plan, mark) if page.plan else None
    if view is None:
        raise Http404
    return render(request, "desk/part.html", page.context("parts", view=view))


@require_POST
def try_out(request: HttpRequest, pk: int) -> HttpResponse:
    """Show what other margins and gaps would give; nothing is saved."""
    page = job_page(pk)
    asked = _posted(request)
    trial = _trial(page, asked)
    if trial is None:
        return redirect("parts", pk=pk)
    context = _context(page, trial, _number(asked, "front"))
    wrong = bool(trial.form.faults)
    if not request.headers.get("HX-Request"):
        return render(request, "desk/parts.html", context, status=422 if wrong else 200)
    if wrong:
        reply = render(request, "desk/_figures.html", context, status=422)
        reply["HX-Retarget"], reply["HX-Reswap"] = "#figures", "outerHTML"
        return reply
    return render(request, "desk/_set_out.html", {**context, "form_too": "had_fault" in asked})


@require_POST
def keep(request: HttpRequest, pk: int) -> HttpResponse:
    """Save margins and gaps: in the firm's book, where they hold for every job from then on, or for this job alone."""
    page = job_page(pk)
    for_job = request.POST.get("for") == "job"
    if not for_job and not is_owner(request):
        return refuse(request, _("Only the owner changes the book; keep the figures for this job instead."))
    base = read_base(request)
    asked = _posted(request)
    trial = _trial(page, asked)
    if trial is None:
        return redirect("parts", pk=pk)
    if trial.form.faults:
        return render(request, "desk/parts.html", _context(page, trial, _number(asked, "front")), status=422)
    typed = {name: text for name, text in trial.form.values.items() if name in asked}
    kept = _keep_for_job if for_job else _keep_in_book
    return kept(request, page, base, trial, typed) or redirect("parts", pk=pk)


def _keep_for_job(
    request: HttpRequest, page: JobPage, _base: int, trial: Trial, typed: Mapping[str, str]
) -> HttpResponse | None:
    """Keep figures for this job alone; what is as the book has it is none of the job's own."""
    tried, in_book = trial.plan.book.build_up(trial.build_up), page.book.build_up(trial.build_up)
    own = {name: getattr(tried, name) for name in typed if getattr(tried, name) != getattr(in_book, name)}

    def kept(began: store.Document) -> store.Kept:
        others = _without_own(store.read_job_document(began, page.book), trial.build_up, typed)
        gaps = {name: {str(gap): value for gap, value in result.items()} for name, result in others.gaps.items()}
        if own:
            gaps[trial.build_up] = {**gaps.get(trial.build_up, {}), **own}
        return others.model_copy(update={"gaps": gaps})

    return saved_or_told(request, page.folder, _job_base(request, page), kept, page.book)


def _job_base(request: HttpRequest, page: JobPage) -> int:
    """Revision of the job that the form was filled in on."""
    base = request.POST.get("job_base", "")
    return int(base) if base.isascii() and base.isdecimal() and len(base) < 9 else page.revision.number


def _keep_in_book(
    request: HttpRequest, page: JobPage, base: int, trial: Trial, typed: Mapping[str, str]
) -> HttpResponse | None:
    """Keep figures in the book; the job has none of its own of them any more, and its history says what changed in the book."""
    folder = store.the_book_folder()
    before = store.head(folder).number
    answer = saved_or_told(request, folder, base, lambda began: tried_document(began, trial.build_up, typed), None)
    if answer is not None:
        return answer
    saved = store.head(folder)
    if _without_own(page.job, trial.build_up, typed) != page.job:
        answer = saved_or_told(
            request,
            page.folder,
            _job_base(request, page),
            lambda began: _without_own(store.read_job_document(began, page.book), trial.build_up, typed),
            page.book,
        )
    if saved.number != before:
        lines = "; ".join(lines_for(Role.OWNER, saved))
        store.note(page.folder, f"In the firm's book, revision {saved.number}: {lines}", who=who(request))
    return answer
