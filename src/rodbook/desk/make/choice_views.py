"""Make or buy: what each kind of part costs either way, who makes it, and the layouts that all of it rests on."""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.make.risk import kinds_likely, size_rows, whole_likely
from rodbook.desk.platform import store
from rodbook.desk.platform.access import needs_owner, sees_prices
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.planning import planner
from rodbook.desk.platform.saving import is_typing, saved_or_told
from rodbook.errors import Fault, InputError, Place
from rodbook.job.models import Making
from rodbook.money import KindChoice, MakeOrBuy
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan
from rodbook.setout import PartKind

__all__ = ["choose", "show", "start", "stop", "work"]

AFTER = frozenset({"account", "boards", "dates", "make-or-buy", "orders", "papers", "price", "quotes"})
"""Pages that show the progress of the work, and to which one comes back from it."""

WORDS = {
    Making.CHEAPER: lazy("whichever is cheaper"),
    Making.SITE: lazy("made on site"),
    Making.BOUGHT: lazy("bought in"),
}


@dataclass(frozen=True)
class Kind:
    """One kind of part as the page shows it; amounts are empty until layouts and costs are worked out.

    Parameters
    ----------
    kind, field : str
        Its name, and the name of its field in the form.
    parts : int
    asked : str
        What is chosen.
    site, bought, hours : str
        Amounts, written out.
    decision, reason, turning : str
    choices : tuple of (str, str, bool)
        Value, word, and whether it is chosen.
    fault : str
    """

    kind: str
    field: str
    parts: int
    choices: tuple[tuple[str, str, bool], ...]
    site: str = ""
    bought: str = ""
    hours: str = ""
    decision: str = ""
    reason: str = ""
    turning: str = ""
    fault: str = ""


def _field(kind: str) -> str:
    return kind.replace(" ", "-")


def _kinds(page: JobPage, form: Form | None, asked: dict[str, str]) -> list[Kind]:
    """Every kind of part that the job has, with its figures where they are worked out."""
    whole = page.shown
    plan = page.plan if page.older is None else whole
    if plan is None:
        return []
    write = Numbers.of(page.book)
    choices = {choice.kind: choice for choice in whole.money.kinds} if whole and whole.money else {}
    turnings = {turning.kind: turning.sentence for turning in whole.turnings} if whole else {}
    results: list[Kind] = []
    for kind in PartKind:
        count = sum(line.quantity for line in plan.schedule if line.part.kind is kind)
        if not count:
            continue
        wish = asked.get(kind.value, Making.CHEAPER.value)
        options = tuple((making.value, word, making.value == wish) for making, word in WORDS.items())
        fault = form.fault(kind.value) if form else ""
        figures = _figures(choices.get(kind), write)
        results.append(
            Kind(kind.value, _field(kind.value), count, options, **figures, turning=turnings.get(kind, ""), fault=fault)
        )
    return results


def _figures(choice: KindChoice | None, write: Numbers) -> dict[str, str]:
    if choice is None:
        return {}
    return {
        "site": write.money(choice.site_amount),
        "bought": write.money(choice.bought_amount) if choice.bought_amount is not None else "can't be bought in",
        "hours": write.hours(choice.crew_hours_saved),
        "decision": WORDS[choice.decision],
        "reason": choice.reason,
    }


def _totals(money: MakeOrBuy, write: Numbers) -> list[tuple[str, str]]:
    totals = money.totals
    bought = write.money(totals.all_bought) if totals.all_bought is not None else "not possible"
    rows = [
        ("All made on site", write.money(totals.all_site)),
        ("All bought in, in one order", bought),
        ("As decided", write.money(totals.decided)),
    ]
    if totals.site_made and totals.bought_in:
        rows.append(("of that, made on site", write.money(totals.site_made)))
        rows.append(("of that, the order with its delivery", write.money(totals.bought_in)))
    rows.append(("Crew hours for what is made", write.hours(totals.crew_hours)))
    rows.append(("Crew hours saved by buying", write.hours(totals.crew_hours_saved)))
    return rows


def _openings(money: MakeOrBuy, plan: Plan, write: Numbers) -> list[tuple[str, int, str, str, str]]:
    """Openings and then panels, in the job's order."""
    order = [opening.mark for opening in plan.job.openings] + [panel.mark for panel in plan.job.panels]
    return [
        (
            cost.mark,
            cost.parts,
            write.money(cost.site),
            write.money(cost.bought) if cost.bought is not None else "not possible",
            write.money(cost.decided),
        )
        for cost in sorted(money.openings, key=lambda cost: order.index(cost.mark))
    ]


def _render(
    request: HttpRequest,
    page: JobPage,
    *,
    form: Form | None = None,
    asked: dict[str, str] | None = None,
    base: int | None = None,
) -> HttpResponse:
    chosen = {kind: making.value for kind, making in page.job.making.items()} if asked is None else asked
    write = Numbers.of(page.book)
    whole: Plan | None = page.shown
    money = whole.money if whole else None
    outlook = whole.outlook if whole else None
    sizes, sizes_said = size_rows(outlook, write) if outlook else ([], "")
    context = page.context(
        "make-or-buy",
        likely=whole_likely(outlook, write) if outlook else None,
        kinds_likely=kinds_likely(whole, outlook, write) if whole and outlook else [],
        sizes_cost=sizes,
        sizes_said=sizes_said,
        kinds=_kinds(page, form, chosen),
        form=form,
        base=page.revision.number if base is None else base,
        money=money,
        workshop=page.book.workshop(page.job.job.workshop),
        day=write.date(page.job.job.date),
        totals=_totals(money, write) if money else [],
        openings=_openings(money, whole, write) if whole and money else [],
        after="make-or-buy",
    )
    return render(request, "desk/money.html", context, status=422 if form and form.faults else 200)


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """What each kind costs either way, for the owner; a sentence for anybody else."""
    page = job_page(pk)
    if not sees_prices(request):
        return render(request, "desk/money.html", page.context("make-or-buy"))
    return _render(request, page)


@require_POST
@needs_owner
def choose(request: HttpRequest, pk: int) -> HttpResponse:
    """Save who makes each kind of part, and work the costs out anew."""
    page = job_page(pk)
    base = read_base(request)
    asked = {kind.value: typed for kind in PartKind if (typed := request.POST.get(_field(kind.value), "").strip())}

    def chosen(began: store.Document) -> store.Kept:
        kept = {kind: making for kind, making in store.group_of(began, "making").items() if kind not in asked}
        wishes = {kind: wish for kind, wish in asked.items() if wish != Making.CHEAPER}
        job = store.read_job_document({**began, "making": kept | wishes}, page.book)
        if faults := _not_to_be_bought(page, asked):
            raise InputError(faults)
        return job

    try:
        answer = saved_or_told(request, page.folder, base, chosen, page.book)
    except InputError as error:
        return _render(request, page, form=Form(asked, error.faults, within=Place(("making",))), asked=asked, base=base)
    if answer is not None:
        return answer
    job_page(pk, start=True)
    return redirect("make-or-buy", pk=pk)


def _not_to_be_bought(page: JobPage, asked: dict[str, str]) -> list[Fault]:
    """What is wanted bought in and can't be, as far as it is known already."""
    money = page.whole.money if page.whole else None
    return [
        Fault(("making", choice.kind.value), "money.cant_be_bought", why_not=choice.bought.why_not)
        for choice in (money.kinds if money else ())
        if choice.bought.amount is None and asked.get(choice.kind.value) == Making.BOUGHT
    ]


# --- the work on layouts and costs --------------------------------------------------------------------------------


def _after(request: HttpRequest) -> str:
    """The page that one comes from; make or buy where it is none of those that show the work."""
    name = request.POST.get("after") or request.GET.get("after", "")
    return name if name in AFTER else "make-or-buy"


def _fragment(request: HttpRequest, page: JobPage) -> HttpResponse:
    """How far they are; where they are done the browser goes on to the page that shows them, or offers it."""
    reply = render(request, "desk/_work.html", page.context("work", after=_after(request)))
    if page.whole is not None and not is_typing(request):
        reply["HX-Redirect"] = reverse(_after(request), kwargs={"pk": page.folder.pk})
    return reply


@never_cache
@require_safe
def work(request: HttpRequest, pk: int) -> HttpResponse:
    """How far layouts and costs are: the fragment alone for a page that asks again and again, else back to the page."""
    page = job_page(pk)
    if not request.headers.get("HX-Request"):
        return redirect(_after(request), pk=pk)
    return _fragment(request, page)


@require_POST
def start(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin layouts and costs."""
    page = job_page(pk, start=True)
    if page.plan is None:
        messages.error(request, _("The job has faults; put them right first."))
    if request.headers.get("HX-Request"):
        return _fragment(request, page)
    return redirect(_after(request), pk=pk)


@require_POST
def stop(request: HttpRequest, pk: int) -> HttpResponse:
    """Stop them."""
    page = job_page(pk)
    if page.work is not None:
        planner.stop(page.work.key)
    if request.headers.get("HX-Request"):
        return _fragment(request, job_page(pk))
    return redirect(_after(request), pk=pk)
