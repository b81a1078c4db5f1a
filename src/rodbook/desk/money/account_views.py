"""A job's account for the owner: priced, reckoned with, taken, and what is left; invoices; and what was put down when."""

from __future__ import annotations

from decimal import Decimal

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Revision
from rodbook.desk.money.invoice_forms import InvoiceForm, InvoiceLines, add_invoice_faults, typed_invoice
from rodbook.desk.platform import actuals
from rodbook.desk.platform.access import needs_owner, sees_prices, who
from rodbook.desk.platform.book_page import date_now, today
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.learned import learned
from rodbook.desk.platform.turns import aside
from rodbook.desk.platform.typed_forms import TypedFormSet
from rodbook.errors import Fault, InputError, RenderError
from rodbook.job.actuals import Actuals
from rodbook.papers import account_pdf
from rodbook.papers.account.content import account_rows
from rodbook.papers.numbers import Numbers
from rodbook.plan import JobAccount, Plan, account_of, planned_for

__all__ = ["invoice", "paper", "show", "undo"]

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
    return _page(request, page, InvoiceForm(initial={"day": today(), "currency": page.book.currency}), _lines(page))


def _lines(page: JobPage, posted: QueryDict | None = None) -> TypedFormSet:
    """The lines of an invoice, empty or as they were sent."""
    currency = page.book.currency if posted is None else posted.get("currency", "").strip()
    return InvoiceLines(posted, prefix="line", form_kwargs={"currency": currency, "locale": page.book.locale})


def _page(request: HttpRequest, page: JobPage, form: InvoiceForm, lines: TypedFormSet) -> HttpResponse:
    revision, kept = actuals.actuals_now(page.folder)
    write = Numbers.of(page.book)
    result, faults = _account(page.shown, kept)
    bills = [
        {
            "mark": bill.mark,
            "supplier": bill.supplier,
            "number": bill.number,
            "day": write.date(bill.day),
            "lines": [(line.what, write.money(line.amount)) for line in bill.lines],
            "total": write.money(sum((line.amount for line in bill.lines), Decimal(0))),
        }
        for bill in kept.invoices
    ]
    names = [*planned_for(page.whole).costs] if page.whole is not None and page.whole.money is not None else []
    names += [line.what for bill in kept.invoices for line in bill.lines]
    context = page.context(
        "account",
        form=form,
        found=result,
        account_faults=faults,
        rows=account_rows(result, write) if result else None,
        invoices=bills,
        what_names=list(dict.fromkeys(names)),
        lines=lines,
        first=form.first or lines.first,
        after="account",
        revisions=revision.folder.revisions.all()[:REVISIONS] if revision else [],
        learned=[item.update.sentence for item in learned(page.book, date_now())],
        nothing=not kept.hours and not kept.invoices,
    )
    return render(request, "desk/account.html", context, status=422 if form.is_bound else 200)


@require_POST
@needs_owner
def invoice(request: HttpRequest, pk: int) -> HttpResponse:
    """Put an invoice down."""
    page = job_page(pk)
    form = InvoiceForm(request.POST)
    lines = _lines(page, request.POST)
    bill = typed_invoice(form, lines)
    if bill is not None:
        kept = actuals.actuals_now(page.folder)[1]
        add_invoice_faults(form, lines, actuals.invoice_faults(kept, bill, page.book.currency))
    if bill is not None and not (form.errors or lines.is_at_fault):
        try:
            revision = actuals.put_invoice(page.folder, bill, currency=page.book.currency, who=who(request))
        except InputError as error:
            add_invoice_faults(form, lines, error.faults)
        else:
            messages.success(request, _("Put down: %(said)s.") % {"said": revision.said})
            return redirect("account", pk=pk)
    return _page(request, page, form, lines)


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
    result, faults = _account(page.whole, actuals.actuals_now(page.folder)[1])
    if page.whole is None or result is None:
        text = "; ".join(str(fault) for fault in faults) or _("layouts and costs are not worked out yet")
        messages.error(request, _("There is no account on paper: %(why)s.") % {"why": text})
        return redirect("account", pk=pk)
    try:
        content = account_pdf(page.whole, result)
    except RenderError as error:
        messages.error(request, _("There is no account on paper: %(why)s.") % {"why": error})
        return redirect("account", pk=pk)
    reply = HttpResponse(content, content_type="application/pdf")
    reply["Content-Disposition"] = 'attachment; filename="account.pdf"'
    reply["Cache-Control"] = "no-store"  # no phone keeps prices
    return reply
