"""A change of a job in money: an earlier revision against the job as it stands, for the owner, with a paper for the client."""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from rodbook.desk.models import Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.asking_first import asked_first
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.planning import Work, brought_up, planner
from rodbook.desk.platform.turns import aside
from rodbook.errors import Fault, InputError, RenderError
from rodbook.job import Job
from rodbook.money import ChangeOrder
from rodbook.papers import change_pdf
from rodbook.papers.change.content import effect_said
from rodbook.papers.numbers import Numbers
from rodbook.plan import ChangeEffect, at_day_of, change_of, effect_of_change
from rodbook.setout import PartKind

__all__ = ["paper", "show"]

LONGEST = 120


@dataclass(frozen=True)
class _Asked:
    """What is asked for: from which revision, in which words, and what is made already."""

    form: Form
    since: Revision | None
    what: str
    made: frozenset[PartKind]


def _asked(request: HttpRequest, page: JobPage) -> _Asked:
    typed = {"from": request.GET.get("from", "").strip(), "what": request.GET.get("what", "").strip()}
    made = frozenset(kind for kind in PartKind if kind.value in request.GET.getlist("made"))
    faults: list[Fault] = []
    since = None
    if "from" in request.GET:
        since = _revision(page, typed["from"])
        if since is None:
            faults.append(Fault("from", "desk.no_such_revision_before"))
        if len(typed["what"]) > LONGEST:
            faults.append(Fault("what", "form.change_too_long", most=LONGEST))
    return _Asked(Form(typed, faults), None if faults else since, typed["what"] or _("the change"), made)


def _revision(page: JobPage, number: str) -> Revision | None:
    if not number.isdecimal() or len(number) > 8 or not 0 < int(number) < page.revision.number:
        return None
    return page.folder.revisions.filter(number=int(number)).first()


def _works(page: JobPage, since: Revision, *, again: bool) -> tuple[tuple[Job, Work], ...]:
    """Layouts and costs of the job before and after, begun where nobody has; what broke off is begun anew only with `again`."""
    results = []
    for job in (at_day_of(store.job_at(page.folder, since.number)[1], page.job), page.job):
        work = None if again else planner.whole(job, page.book, start=False)
        work = work or planner.whole(job, page.book)
        assert work is not None
        results.append((job, work))
    return tuple(results)


type _Found = tuple[ChangeOrder, ChangeEffect]


def _order(
    page: JobPage, asked: _Asked, *, again: bool = True
) -> tuple[_Found | None, tuple[Fault, ...], tuple[Work, ...]]:
    """The change, or why there is none, or what is still being worked out."""
    if asked.since is None or page.plan is None:
        return None, page.faults if asked.since is not None else (), ()
    works = _works(page, asked.since, again=again)
    if waiting := tuple(work for _job, work in works if not work.over):
        return None, (), waiting
    faults = tuple(fault for _job, work in works for fault in work.faults)
    # plans are kept without prices, so each gets its own job's again
    plans = [brought_up(work.plan, job, page.book) for job, work in works if work.plan is not None]
    if len(plans) < len(works):
        return (
            None,
            faults or (Fault("", "desk.layouts_stopped"),),
            (),
        )
    try:
        order = change_of(plans[0], plans[1], what=asked.what, made=asked.made)
        return (order, effect_of_change(plans[0], plans[1], order)), (), ()
    except InputError as error:
        return None, error.faults, ()


@never_cache
@require_safe
@needs_owner
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """What an earlier revision and the job as it stands differ by, in parts, cost and price."""
    page = job_page(pk)
    asked = _asked(request, page)
    # a page that asks by itself whether it is done would else begin for ever anew what always breaks off
    result, why_not, waiting = _order(page, asked, again=not request.headers.get("HX-Request"))
    write = Numbers.of(page.book)
    kinds = sorted({line.part.kind for line in page.plan.schedule}, key=list(PartKind).index) if page.plan else []
    context = page.context(
        "price",
        form=asked.form,
        order=result,
        why_not=why_not,
        waiting=waiting,
        query=request.GET.urlencode(),
        earlier=_earlier(page),
        kinds=[(kind.value, kind in asked.made) for kind in kinds],
        since=asked.since,
        **(_figures(*result, write) if result else {}),
    )
    return render(request, "desk/change.html", context, status=422 if asked.form.faults else 200)


def _earlier(page: JobPage) -> list[tuple[int, str]]:
    """Revisions before the newest, and what each begins by saying."""
    result = page.folder.revisions.filter(number__lt=page.revision.number)[:100]
    return [(revision.number, revision.said.partition("\n")[0][:80]) for revision in result]


def _figures(order: ChangeOrder, effect: ChangeEffect, write: Numbers) -> dict[str, object]:
    price = order.price
    return {
        "sentences": [line.sentence for line in order.lines],
        "effect": effect_said(effect, write),
        "lines": [(line.name, write.money(line.cost), write.money(line.net)) for line in price.lines],
        "together": (write.money(order.cost), write.money(price.net)),
        "taxes": [(tax.name, write.money(tax.amount)) for tax in price.taxes],
        "gross": write.money(price.gross),
        "until": write.date(price.valid_until),
    }


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The change as a paper for the client."""
    page = job_page(pk)
    asked = _asked(request, page)
    if asked.since is None:
        raise Http404
    result, why_not, _waiting = _order(page, asked)
    if result is None or page.whole is None:
        text = "; ".join(str(fault) for fault in why_not) or _("it is still being worked out")
        messages.error(request, _("There is no paper of it: %(why)s.") % {"why": text})
        return redirect("change", pk=pk)
    if (first := asked_first(request, pk, page.whole, "change")) is not None:
        return first
    try:
        content = change_pdf(page.whole, result[0])
    except RenderError as error:
        messages.error(request, _("There is no paper of it: %(why)s.") % {"why": error})
        return redirect("change", pk=pk)
    reply = HttpResponse(content, content_type="application/pdf")
    reply["Content-Disposition"] = 'attachment; filename="change.pdf"'
    reply["Cache-Control"] = "no-store"  # no phone keeps prices
    return reply
