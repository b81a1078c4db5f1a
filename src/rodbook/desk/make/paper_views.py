"""Orders and papers: what is bought in, what the firm buys itself, and every paper to take away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.http import require_safe

from rodbook.desk.platform.access import refuse, role_of
from rodbook.desk.platform.asking_first import asked_first
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.rendering import (
    BEFORE_ALL,
    is_priced,
    kept_order,
    order_pack,
    paper_file,
    papers_for,
    sheet_file,
)
from rodbook.desk.platform.roles import may_see
from rodbook.desk.platform.turns import aside
from rodbook.errors import InputError, RenderError
from rodbook.job.models import Making
from rodbook.money import bar_usage, sheet_usage
from rodbook.papers.numbers import Numbers
from rodbook.papers.registry import Kind
from rodbook.papers.registry import papers as papers_there_are
from rodbook.plan import Plan, saw_of
from rodbook.plan.analyses.unconfirmed import PaperFor

__all__ = ["file", "orders", "pack", "papers"]

TYPES = {Kind.PDF: "application/pdf", Kind.CSV: "text/csv; charset=utf-8"}


@dataclass(frozen=True)
class Bought:
    """One size of a board or section that the firm buys, or an offcut that it takes: material, name, size and count."""

    stock: str
    name: str
    size: str
    count: int
    in_shop: bool


def shopping(plan: Plan) -> list[Bought]:
    """Sheets and lengths for what is made on site, by material; offcuts that lie in the shop are marked as such."""
    saw = saw_of(plan.book)
    write = Numbers.of(plan.book)
    results: list[Bought] = []
    for material in plan.materials:
        if material.maker is not Making.SITE:
            continue
        offcuts: Sequence[str] = ()
        if material.sheets is not None:
            board = plan.book.board(material.stock)
            offcuts = [offcut.label for offcut in board.offcuts]
            usage = sheet_usage(board, material.sheets, saw, keep_from_m2=plan.book.saw.keep_from)
        elif material.lengths is not None:
            usage = bar_usage(plan.book.section(material.stock), material.lengths)
        else:
            continue
        results += [
            Bought(
                material.stock,
                taken.name,
                write.short(taken.length_mm) if usage.sectional else write.short_size(taken.length_mm, taken.width_mm),
                taken.count,
                taken.name in offcuts,
            )
            for taken in usage.taken
        ]
    return results


_HEADS = (
    lazy("Mark"),
    lazy("Kind"),
    lazy("How many"),
    lazy("Length"),
    lazy("Width"),
    lazy("Thickness"),
    lazy("Made from"),
    lazy("Edges seen"),
    lazy("Holes"),
    lazy("Finish"),
)
"""Over the columns of an order; the last only where parts differ in it."""


@require_safe
def orders(request: HttpRequest, pk: int) -> HttpResponse:
    """What goes to the workshop and what the firm buys itself; nothing on it says what anything costs."""
    page = job_page(pk)
    whole = page.shown
    order = kept_order(whole) if whole and whole.money else None
    job, book = (whole.job, whole.book) if whole else (page.job, page.book)
    workshop = book.workshop(job.job.workshop)
    listed = cast("list[list[str]]", order["rows"]) if order else []
    heads = _HEADS[: len(listed[0])] if listed else ()
    context = page.context(
        "orders",
        order=order,
        heads=heads,
        rows=[list(zip(heads, row, strict=True)) for row in listed],
        workshop=workshop,
        lead=workshop.lead_on(job.job.date) if workshop else 0,
        shopping=shopping(whole) if whole else [],
        after="orders",
    )
    return render(request, "desk/orders.html", context)


@require_safe
def papers(request: HttpRequest, pk: int) -> HttpResponse:
    """Every paper that one may have, and all of them in one pack."""
    page = job_page(pk)
    context = page.context("papers", papers=papers_for(role_of(request)), after="papers")
    return render(request, "desk/papers.html", context)


def _named(page: JobPage, file_name: str) -> str:
    job = page.job.job
    stem = slugify(f"{job.name[:60]} {job.revision[:10]}") or "job"
    return f"{stem}-{file_name}"


def _download(page: JobPage, content: bytes, kind: str, file_name: str) -> HttpResponse:
    reply = HttpResponse(content, content_type=kind)
    reply["Content-Disposition"] = f'attachment; filename="{_named(page, file_name)}"'
    return reply


@require_safe
@aside()
def file(request: HttpRequest, pk: int, name: str) -> HttpResponse:
    """One paper."""
    page = job_page(pk)
    paper = next((one for one in papers_there_are() if one.file == name), None)
    if paper is None:
        raise Http404
    if not may_see(role_of(request), *paper.shows):
        return refuse(request, _("This paper says what things cost; only the owner has it."))
    plan = page.whole if paper.whole else page.plan
    if plan is None and name != BEFORE_ALL:
        messages.error(request, _not_ready(page))
        return redirect("papers", pk=pk)
    if paper.leaves_to is PaperFor.SUPPLIER and (asked := asked_first(request, pk, plan, "order")) is not None:
        return asked
    try:
        content = paper_file(plan, name) if plan else sheet_file(page.job, page.book)
    except (RenderError, InputError) as error:
        messages.error(request, f"{str(error)[0].upper()}{str(error)[1:]}.")
        return redirect("papers", pk=pk)
    reply = _download(page, content, TYPES[paper.kind], name)
    if is_priced(paper):
        reply["Cache-Control"] = "no-store"  # no phone keeps prices
    return reply


@require_safe
@aside()
def pack(request: HttpRequest, pk: int) -> HttpResponse:
    """Every paper that one may have, in one file."""
    page = job_page(pk)
    if page.whole is None:
        messages.error(request, _not_ready(page))
        return redirect("papers", pk=pk)
    if (asked := asked_first(request, pk, page.whole, "pack")) is not None:
        return asked
    try:
        content = order_pack(page.whole, role_of(request))
    except (RenderError, InputError) as error:
        messages.error(request, _("There is no pack: %(error)s.") % {"error": error})
        return redirect("papers", pk=pk)
    reply = _download(page, content, "application/zip", "papers.zip")
    if any(is_priced(paper) for paper in papers_for(role_of(request))):
        reply["Cache-Control"] = "no-store"
    return reply


def _not_ready(page: JobPage) -> str:
    if page.plan is None:
        return "The job has faults, so this paper can't be made; put them right first."
    return "This paper needs layouts and costs; have them worked out first."
