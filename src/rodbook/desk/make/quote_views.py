"""Workshops' quotes of a job: typed or brought in, held line by line against the order and each other, split where it pays."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from rodbook.desk.make.quote_forms import QuoteForms, Read, lines_as_typed, quote_forms, typed_quote
from rodbook.desk.make.quotes import quote_content, quote_of
from rodbook.desk.models import Record
from rodbook.desk.platform.access import needs_owner, who
from rodbook.desk.platform.book_page import date_now
from rodbook.desk.platform.faults import Form, in_list, in_words
from rodbook.desk.platform.job_page import JobPage, job_page, priced_paper
from rodbook.desk.platform.turns import aside
from rodbook.desk.platform.uploads import asks_western, in_western, sent_list
from rodbook.errors import Fault, InputError, RenderError, RodbookError, Unread
from rodbook.job.amounts import money_example, read_money
from rodbook.job.files import price_rows
from rodbook.job.models import Making
from rodbook.money import ComparedQuote, QuoteLine, QuotesHeld, hold_quotes, quote_lines
from rodbook.money.suppliers.quote_choice import shut_out_by
from rodbook.papers import quotes_pdf
from rodbook.papers.numbers import Numbers
from rodbook.papers.quotes.content import quote_cells
from rodbook.plan import Plan
from rodbook.setout import ScheduleLine

__all__ = ["add", "bring_in", "paper", "show", "strike_out"]

KIND = "quote"


def _order(plan: Plan | None) -> tuple[ScheduleLine, ...]:
    """What is bought in; all of it where nothing is decided to be, as the enquiry asks for all."""
    if plan is None:
        return ()
    return plan.lines_made(Making.BOUGHT) or plan.schedule


def _records(page: JobPage) -> list[Record]:
    return list(Record.objects.filter(folder=page.folder, kind=KIND, struck_out=False))


def _asked(request: HttpRequest, currency: str, locale: str) -> tuple[dict[str, str], int | None, Decimal, list[Fault]]:
    """Working days until the parts are needed, and what a further workshop costs in trouble, from the address."""
    typed = {name: request.GET.get(name, "").strip() for name in ("needed", "trouble")}
    faults = []
    needed = None
    if typed["needed"]:
        if typed["needed"].isdecimal() and len(typed["needed"]) < 4:
            needed = int(typed["needed"])
        else:
            faults.append(
                Fault(
                    "needed",
                    "form.not_whole_days",
                    typed=typed["needed"],
                )
            )
    trouble = Decimal(0)
    if typed["trouble"]:
        try:
            trouble = read_money(typed["trouble"], currency, locale)
        except Unread as error:
            faults.append(Fault("trouble", error.message))
    if not 0 <= trouble < 10**9:
        values = {"typed": typed["trouble"], "own": currency, "example": money_example(locale)}
        faults.append(Fault("trouble", "form.amount_not_in_currency", **values))
        trouble = Decimal(0)
    return typed, needed, trouble, faults


@require_safe
@needs_owner
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """The quotes that came, compared."""
    page = job_page(pk)
    order, records = _order(page.shown), _records(page)
    write = Numbers.of(page.book)
    typed, needed, trouble, faults = _asked(request, page.book.currency, page.book.locale)
    context = page.context(
        "orders",
        order=order,
        records=records,
        form=Form(typed, faults),
        after="quotes",
        today=write.date(date_now()),
        query=urlencode({name: typed.get(name, "") for name in ("needed", "trouble")}),
    )
    if order and records and not faults:
        context |= _compared(page, order, records, needed, trouble, write)
    return render(request, "desk/quotes.html", context, status=422 if faults else 200)


def _compared(
    page: JobPage,
    order: Sequence[ScheduleLine],
    records: Sequence[Record],
    needed: int | None,
    trouble: Decimal,
    write: Numbers,
) -> dict[str, object]:
    quotes = [quote_of(record.content) for record in records]
    pks = {id(quote): record.pk for quote, record in zip(quotes, records, strict=True)}
    currency, today = page.book.currency, date_now()
    try:
        held = hold_quotes(order, quotes, currency=currency, day=today, needed_days=needed, trouble=trouble)
    except InputError as error:
        return {"why_not": [str(fault) for fault in error.faults]}
    shares = [
        (
            one.workshop,
            ", ".join(one.marks),
            write.money(one.parts_amount),
            write.money(one.delivery + one.top_up),
            write.money(one.amount),
        )
        for one in (held.split.orders if held.split else ())
    ]
    compared = [
        _quote_row(each, verdict.sentence, pks[id(each.quote)], write)
        for each, verdict in zip(held.compared, held.verdicts, strict=True)
    ]
    return {"compared": compared, "lines": _line_rows(held, write), "shares": shares, "split_said": held.sentence}


def _quote_row(each: ComparedQuote, verdict: str, pk: int, write: Numbers) -> dict[str, object]:
    quote = each.quote
    return {
        "pk": pk,
        "workshop": quote.workshop,
        "reference": quote.reference,
        "day": write.date(quote.day),
        "until": write.date(quote.valid_until),
        "lead": quote.lead_days,
        "as_quoted": write.money(each.as_quoted),
        "comparable": "" if each.comparable is None else write.money(each.comparable),
        "filled": ", ".join(each.filled),
        "findings": [f.sentence for f in each.findings if f is not shut_out_by(each)],
        "verdict": verdict,
        "as_ordered": not each.findings,
        "delivery": write.money(quote.delivery),
        "whole_only": quote.whole_only,
    }


def _line_rows(held: QuotesHeld, write: Numbers) -> list[tuple[str, str, int, list[tuple[str, str, bool]]]]:
    """Each line of the order with every quote's price for it, the lowest marked."""
    words = {"in a sum": _("in a sum"), "other board": _("other board")}
    return [
        (
            line.mark,
            str(line.part.kind),
            line.quantity,
            [(cell.workshop, words.get(cell.text, cell.text), cell.lowest) for cell in cells],
        )
        for line, cells in quote_cells(held.order, held.compared, write)
    ]


@require_safe
@needs_owner
@aside()
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The comparison as a paper, for the firm's own eyes."""
    page = job_page(pk)
    order, records = _order(page.whole), _records(page)
    _typed, needed, trouble, faults = _asked(request, page.book.currency, page.book.locale)
    text = _("no quote has come in yet") if order else _("layouts and costs are not worked out yet")
    try:
        if page.whole is not None and order and records and not faults:
            held = hold_quotes(
                order,
                [quote_of(record.content) for record in records],
                currency=page.book.currency,
                day=date_now(),
                needed_days=needed,
                trouble=trouble,
            )
            return priced_paper(quotes_pdf(page.whole, held), f"{slugify(page.job.job.name[:60]) or 'job'}-quotes")
        text = "; ".join(map(in_words, faults)) or text
    except (InputError, RenderError) as error:
        text = str(error)
    messages.error(request, _("There is no paper of it: %(why)s.") % {"why": text.rstrip(".")})
    return redirect("quotes", pk=pk)


def _form_page(
    request: HttpRequest, page: JobPage, typed: QuoteForms, *, looked_at: bool = False, faults: Sequence[Fault] = ()
) -> HttpResponse:
    context = page.context(
        "orders",
        form=typed.head,
        lines=typed.lines,
        lumps=typed.lumps,
        first="" if faults else typed.first,
        order=_order(page.whole),
        looked_at=looked_at,
        asks_western=asks_western(faults),
        list_faults=[in_words(fault) for fault in faults],
        workshops=[workshop.name for workshop in page.book.workshops],
        after="quotes",
    )
    return render(request, "desk/quote.html", context, status=422 if typed.is_bound or faults else 200)


def _read(page: JobPage) -> Read:
    ordered = {line.mark: line for line in _order(page.whole)}
    return Read(page.book.currency, page.book.locale, ordered)


def _begun(page: JobPage, lines: Sequence[QuoteLine] = ()) -> QuoteForms:
    """The forms as they begin: the order's marks, with what a list says of them."""
    workshop = page.book.workshop(page.job.job.workshop)
    head = {
        "day": date_now().isoformat(),
        "currency": page.book.currency,
        "lead_days": str(workshop.lead_on(date_now())) if workshop else "",
    }
    return quote_forms(_read(page), head=head, lines=lines_as_typed(lines, _order(page.whole), page.book.locale))


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def add(request: HttpRequest, pk: int) -> HttpResponse:
    """A quote to be typed in, or what was typed, kept."""
    page = job_page(pk)
    if request.method != "POST":
        return _form_page(request, page, _begun(page))
    typed = quote_forms(_read(page), request.POST)
    quote = typed_quote(typed)
    if quote is None:
        return _form_page(request, page, typed)
    Record.objects.create(folder=page.folder, kind=KIND, content=quote_content(quote), who=who(request))
    messages.success(request, _("The quote of %(name)s is kept.") % {"name": quote.workshop})
    return redirect("quotes", pk=pk)


@require_POST
@needs_owner
def bring_in(request: HttpRequest, pk: int) -> HttpResponse:
    """Look at a list from a workshop: its lines are put into the form, where the rest is typed and all of it kept."""
    page = job_page(pk)
    ordered = {line.mark: line.quantity for line in _order(page.whole)}
    try:
        with sent_list(request, too_large="desk.no_quote_so_long") as path:
            rows = price_rows(path, western=in_western(request))
        lines = quote_lines(rows, ordered, page.book.currency, page.book.locale)
    except InputError as error:
        faults = [in_list(fault) for fault in error.faults]
        return _form_page(request, page, _begun(page), faults=faults)
    except RodbookError as error:
        return _form_page(request, page, _begun(page), faults=[Fault("list", error.message)])
    return _form_page(request, page, _begun(page, lines), looked_at=True)


@require_POST
@needs_owner
def strike_out(request: HttpRequest, pk: int, number: int) -> HttpResponse:
    """Strike a quote out; it is kept, and compared no longer."""
    page = job_page(pk)
    record = get_object_or_404(Record, pk=number, folder=page.folder, kind=KIND)
    record.struck_out = True
    record.save(update_fields=["struck_out"])
    messages.success(request, _("The quote of %(name)s is struck out.") % {"name": record.content["workshop"]})
    return redirect("quotes", pk=pk)
