"""A job's account for the owner: priced, reckoned with, taken, and what is left; invoices; and what was put down when."""

from __future__ import annotations

import re
from decimal import Decimal

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe
from pydantic import ValidationError

from rodbook.desk.models import Revision
from rodbook.desk.platform import actuals
from rodbook.desk.platform.access import needs_owner, sees_prices, who
from rodbook.desk.platform.book_page import date_now, today, typed_of
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.learned import learned
from rodbook.desk.platform.turns import aside
from rodbook.errors import Fault, InputError, RenderError
from rodbook.job.actuals import Actuals, Invoiced
from rodbook.job.amounts import read_money
from rodbook.job.faults import faults_of
from rodbook.papers import account_pdf
from rodbook.papers.content import account_rows
from rodbook.papers.numbers import Numbers
from rodbook.plan import JobAccount, Plan, account_of, planned_for

__all__ = ["invoice", "paper", "show", "undo"]

ABOUT = ("supplier", "number", "day", "currency")
LINES = 3
"""So many lines of an invoice can be typed at once; one with more is put down in its sums (house assumption)."""

REVISIONS = 30


def _account(plan: Plan | None, kept: Actuals) -> tuple[JobAccount | None, tuple[Fault, ...]]:
    if plan is None or plan.money is None:
        return None, ()
    try:
        return account_of(plan, kept), ()
    except InputError as error:
        return None, error.faults


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """What the job was priced at, what it was reckoned to cost, what it took and what is left."""
    page = job_page(pk)
    if not sees_prices(request):
        return render(request, "desk/account.html", page.context("account"))
    return _page(request, page, Form({"day": today(), "currency": page.book.currency}))


def _page(request: HttpRequest, page: JobPage, form: Form) -> HttpResponse:
    revision, kept = actuals.actuals_now(page.folder)
    write = Numbers.of(page.book)
    found, faults = _account(page.shown, kept)
    bills = [
        {
            "mark": bill.mark, "supplier": bill.supplier, "number": bill.number, "day": write.date(bill.day),
            "lines": [(line.what, write.money(line.amount)) for line in bill.lines],
            "total": write.money(sum((line.amount for line in bill.lines), Decimal(0))),
        }
        for bill in kept.invoices
    ]  # fmt: skip
    names = [*planned_for(page.whole).costs] if page.whole is not None and page.whole.money is not None else []
    names += [line.what for bill in kept.invoices for line in bill.lines]
    context = page.context(
        "account", form=form, found=found, account_faults=faults, rows=account_rows(found, write) if found else None,
        invoices=bills, what_names=list(dict.fromkeys(names)), lines=_lines(form), after="account",
        revisions=revision.folder.revisions.all()[:REVISIONS] if revision else [],
        learned=[item.update.sentence for item in learned(page.book, date_now())], nothing=not kept.hours and not kept.invoices,
    )  # fmt: skip
    return render(request, "desk/account.html", context, status=422 if form.faults else 200)


def _lines(form: Form) -> list[dict[str, str]]:
    fields = [(f"what-{n}", f"amount-{n}") for n in range(LINES)]
    return [
        {
            "what": form.typed(what), "amount": form.typed(amount), "what_field": what, "amount_field": amount,
            "fault": form.fault(what), "amount_fault": form.fault(amount), "number": str(n),
        }
        for n, (what, amount) in enumerate(fields, 1)
    ]  # fmt: skip


def _typed_invoice(typed: dict[str, str], locale: str) -> tuple[Invoiced | None, list[Fault]]:
    """What was typed as an invoice, and what is wrong with it, by its fields."""
    faults: list[Fault] = []
    lines: list[dict[str, object]] = []
    places: list[int] = []
    for number in range(LINES):
        what, amount = typed[f"what-{number}"], typed[f"amount-{number}"]
        if not what and not amount:
            continue
        read = Decimal(0)
        try:
            read = read_money(amount, typed["currency"], locale, whose="the invoice")
        except ValueError as error:
            faults.append(Fault(f"amount-{number}", "plain.text", text=str(error)))
        if not what:
            faults.append(Fault(f"what-{number}", "desk.empty"))
        lines.append({"what": what or "x", "amount": read})
        places.append(number)
    if not places:
        faults.append(Fault("what-0", "desk.write_what_invoice_how_much"))
        lines.append({"what": "x", "amount": Decimal(0)})
    raw = {**{name: typed[name] for name in ABOUT}, "lines": lines}
    try:
        found = Invoiced.model_validate(raw)
    except ValidationError as error:
        return None, [*(_by_field(fault, places) for fault in faults_of(error, Invoiced, raw)), *faults]
    return found, faults


def _by_field(fault: Fault, places: list[int]) -> Fault:
    """A fault of a line, named after its field on the page."""
    line = re.match(r"lines\[(\d+)\]\.(what|amount)", fault.where)
    return Fault(f"{line[2]}-{places[int(line[1]) - 1]}", fault) if line else fault


@require_POST
@needs_owner
def invoice(request: HttpRequest, pk: int) -> HttpResponse:
    """Put an invoice down."""
    page = job_page(pk)
    fields = (*ABOUT, *(f"{name}-{n}" for n in range(LINES) for name in ("what", "amount")))
    typed = typed_of(request, fields)
    bill, faults = _typed_invoice(typed, page.book.locale)
    if bill is not None:
        places = {fault.where for fault in faults}
        against = actuals.invoice_faults(actuals.actuals_now(page.folder)[1], bill, page.book.currency)
        faults += [fault for fault in against if fault.where not in places]
    if bill is not None and not faults:
        try:
            revision = actuals.put_invoice(page.folder, bill, currency=page.book.currency, who=who(request))
        except InputError as error:
            faults = list(error.faults)
        else:
            messages.success(request, _("Put down: %(said)s.") % {"said": revision.said})
            return redirect("account", pk=pk)
    return _page(request, page, Form(typed, faults))


@require_POST
@needs_owner
def undo(request: HttpRequest, pk: int, number: int) -> HttpResponse:
    """Take back something that was put down or taken out."""
    page = job_page(pk)
    try:
        revision = actuals.take_back(page.folder, number, who=who(request))
    except Revision.DoesNotExist:
        raise Http404 from None
    messages.success(request, _("Done: %(said)s.") % {"said": revision.said})
    return redirect("account", pk=pk)


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The account as a paper, for the firm's own eyes."""
    page = job_page(pk)
    found, faults = _account(page.whole, actuals.actuals_now(page.folder)[1])
    if page.whole is None or found is None:
        said = "; ".join(str(fault) for fault in faults) or _("layouts and costs are not worked out yet")
        messages.error(request, _("There is no account on paper: %(why)s.") % {"why": said})
        return redirect("account", pk=pk)
    try:
        content = account_pdf(page.whole, found)
    except RenderError as error:
        messages.error(request, _("There is no account on paper: %(why)s.") % {"why": error})
        return redirect("account", pk=pk)
    reply = HttpResponse(content, content_type="application/pdf")
    reply["Content-Disposition"] = 'attachment; filename="account.pdf"'
    reply["Cache-Control"] = "no-store"  # no phone keeps prices
    return reply
