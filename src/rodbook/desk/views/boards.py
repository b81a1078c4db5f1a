"""Boards and lengths: how the parts lie on them, drawn to scale and stepped through cut by cut."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import get_language
from django.views.decorators.http import require_safe

from rodbook.desk.access import sees_prices
from rodbook.desk.cutting import Stock, cut_view, keeps_of, stocks_of, waste_pieces_of
from rodbook.desk.planning import content_key
from rodbook.desk.rendering import Kept
from rodbook.desk.touch import Working, Workings
from rodbook.desk.views.common import job_page
from rodbook.papers.content.shared import writer

__all__ = ["sheet", "show"]

_drawn: Kept[tuple[tuple[Stock, ...], tuple[Working, ...]]] = Kept(12)
"""Layouts as they were drawn, and the workings that they lead to, by job, book and whether prices are shown."""


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """Every layout, or the button that has them worked out."""
    page = job_page(pk)
    if page.whole is None:
        return render(request, "desk/boards.html", page.context("boards", stocks=(), after="boards"))
    whole, prices = page.whole, sees_prices(request)
    write, saw = writer(whole), whole.book.saw
    key = content_key(page.job, page.book), f"{prices} {get_language()}"

    def drawn() -> tuple[tuple[Stock, ...], tuple[Working, ...]]:
        workings = Workings(write, "w")
        return stocks_of(whole, prices=prices, workings=workings), workings.found

    stocks, workings = _drawn.get(key, drawn)
    context = page.context(
        "boards",
        stocks=stocks,
        keeps=keeps_of(whole, prices=prices),
        waste=waste_pieces_of(whole, prices=prices),
        workings=workings,
        kerf=write.short(saw.kerf),
        edge_trim=write.short(saw.edge_trim),
        turns=saw.turns,
        after="boards",
    )
    return render(request, "desk/boards.html", context)


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
