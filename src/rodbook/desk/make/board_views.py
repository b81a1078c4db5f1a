"""Boards and lengths: how the parts lie on them, drawn to scale and stepped through cut by cut."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import get_language
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.make.cutting import Stock, cut_view, keeps_of, stocks_of, used_of, waste_pieces_of
from rodbook.desk.make.offcut_ledger import put_away, take_none, tick_off, wanted_open
from rodbook.desk.platform.access import needs_owner, sees_prices, who
from rodbook.desk.platform.job_page import JobPage, date_now, job_page, read_base
from rodbook.desk.platform.live_drawings import Working, Workings
from rodbook.desk.platform.planning import shown_key
from rodbook.desk.platform.rendering import Kept
from rodbook.errors import InputError
from rodbook.papers.common.shared import writer
from rodbook.plan import offcut_moves

__all__ = ["offcuts", "sheet", "show", "taken"]

MOST_LABELS = 1000
"""More than a form has; what is sent beyond is not read."""

_drawn: Kept[tuple[tuple[Stock, ...], tuple[Working, ...]]] = Kept(12)
"""Layouts as they were drawn, and the workings that they lead to, by job, book and whether prices are shown."""


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """Every layout, or the button that has them worked out."""
    page = job_page(pk)
    whole, prices = page.shown, sees_prices(request)
    if whole is None:
        return render(request, "desk/boards.html", page.context("boards", stocks=(), after="boards"))
    acted_on = page.whole is not None  # an older plan is to be read alone
    write, saw = writer(whole), whole.book.saw
    key = shown_key(whole.job, whole.book), f"{prices} {get_language()}"

    def drawn() -> tuple[tuple[Stock, ...], tuple[Working, ...]]:
        workings = Workings(write, "w")
        return stocks_of(whole, prices=prices, workings=workings), workings.found

    stocks, workings = _drawn.get(key, drawn)
    context = page.context(
        "boards",
        stocks=stocks,
        keeps=keeps_of(whole, prices=prices),
        waste=waste_pieces_of(whole, prices=prices) if acted_on else (),
        moves=[
            (move, write.short_size(move.length, move.width))
            for move in (offcut_moves(whole, date_now()) if acted_on else ())
        ],
        wanted_open=wanted_open(whole),
        used=used_of(whole),
        workings=workings,
        kerf=write.short(saw.kerf),
        edge_trim=write.short(saw.edge_trim),
        end_trim=write.short(page.book.saw.end_trim) if any(stock.lengths for stock in stocks) else "",
        turns=saw.turns,
        after="boards",
    )
    return render(request, "desk/boards.html", context)


@require_POST
@needs_owner
def taken(request: HttpRequest, pk: int) -> HttpResponse:
    """Tick wanted pieces off as cut: they leave the list in the book, and the job keeps what came out of its waste."""
    page = job_page(pk)
    labels, numbers = request.POST.getlist("label"), request.POST.getlist("number")
    if len(labels) != len(numbers):
        messages.error(
            request, _("Nothing is ticked off: the list came in without all its numbers; load the page again.")
        )
        return redirect("boards", pk=pk)
    typed = {label: number.strip() for label, number in zip(labels, numbers, strict=True)}
    if page.job.taken:
        messages.error(request, _("Pieces of this job are ticked off already; none is taken off the list twice."))
    elif page.whole is None:
        messages.error(request, _("The layouts have changed since: work them out and look at the list again."))
    elif "none" in request.POST:
        return _none_taken(request, page)
    else:
        try:
            count = tick_off(page.folder, read_base(request), page.whole, typed, who=who(request), day=date_now())
        except InputError as error:
            text = "; ".join(str(fault) for fault in error.faults)
            messages.error(request, _("Nothing is ticked off: %(said)s.") % {"said": text})
        else:
            messages.success(request, _("%(count)s pieces are ticked off the book’s list.") % {"count": count})
            job_page(pk, start=True)
    return redirect("boards", pk=pk)


def _none_taken(request: HttpRequest, page: JobPage) -> HttpResponse:
    try:
        take_none(page.folder, read_base(request), who=who(request))
    except InputError as error:
        messages.error(request, f"{'; '.join(map(str, error.faults))}.")
    else:
        messages.success(request, _("No piece wanted elsewhere is cut from this job; the list stays as it is."))
        job_page(page.folder.pk, start=True)
    return redirect("boards", pk=page.folder.pk)


@require_POST
@needs_owner
def offcuts(request: HttpRequest, pk: int) -> HttpResponse:
    """Once boards are cut: put the offcuts that are kept into the book, and take those used up out of it."""
    page, labels = job_page(pk), request.POST.getlist("label")[:MOST_LABELS]
    if page.whole is None:
        messages.error(request, _("The layouts have changed since: work them out and look at the offcuts again."))
        return redirect("boards", pk=pk)
    try:
        came, gone = put_away(page.folder, read_base(request), page.whole, labels, who=who(request), day=date_now())
    except InputError as error:
        text = "; ".join(str(fault) for fault in error.faults)
        messages.error(request, _("The book stays as it was: %(said)s.") % {"said": text})
    else:
        done = [_("%(came)s offcuts are in the book now") % {"came": came}] if came else []
        done += [_("%(gone)s used up are out of it") % {"gone": gone}] if gone else []
        messages.success(request, ", ".join(done) + ".")
        job_page(pk, start=True)
    return redirect("boards", pk=pk)


@require_safe
def sheet(request: HttpRequest, pk: int, number: int) -> HttpResponse:
    """One layout at one of its cuts: the fragment alone for a page that steps through it."""
    page = job_page(pk)
    if page.whole is None:
        return redirect("boards", pk=pk)
    asked = request.GET.get("cut", "1")
    at = int(asked) if asked.isascii() and asked.isdecimal() and len(asked) < 6 else 1
    view = cut_view(page.whole, number, at)
    if view is None:
        raise Http404
    name = "desk/_cut.html" if request.headers.get("HX-Request") else "desk/board_sheet.html"
    return render(request, name, page.context("boards", view=view))
