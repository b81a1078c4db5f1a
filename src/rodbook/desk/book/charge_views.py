"""A merchant's or a workshop's price list brought into the book: row by row what would change, then beside the old.

One page for both: it asks whose list it is. A blank list to fill in is had from it too.
"""

from __future__ import annotations

import json
from datetime import date as Date  # noqa: N812

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from rodbook.desk.book.charge_lists import as_confirmed, confirmed, put_charges
from rodbook.desk.models import Kind
from rodbook.desk.platform import store
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.book_edits import Raw, put_prices
from rodbook.desk.platform.book_page import BookPage, book_page, save_book, today, typed_of
from rodbook.desk.platform.faults import Form, in_list, in_words
from rodbook.desk.platform.uploads import asks_western, in_western, sent_list
from rodbook.errors import Fault, InputError, Place, RodbookError
from rodbook.job import Book
from rodbook.job.files import blank_list, price_rows
from rodbook.money import (
    ListedCharge,
    PriceList,
    WorkshopList,
    blank_charges,
    blank_prices,
    hold_charges,
    price_list,
    workshop_list,
    workshop_named,
)
from rodbook.money.suppliers.list_rows import refuse_source
from rodbook.papers.common.charges import charge_rows

__all__ = ["blank", "bring_in"]

FIELDS = ("of", "since", "source")

BLANKS = {"prices": blank_prices, "charges": blank_charges}
KINDS = {"csv": "text/csv; charset=utf-8", "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"}

type Looked = PriceList | WorkshopList


def _about(typed: dict[str, str], book: Book) -> tuple[Date, list[Fault]]:
    """From which day the list holds, and what is wrong with what was typed."""
    faults, since = list[Fault](), Date.min
    try:
        if typed["of"]:
            workshop_named(book, typed["of"])
    except InputError as error:
        faults += [Fault("of", fault) for fault in error.faults]
    try:
        since = Date.fromisoformat(typed["since"])
    except ValueError:
        faults.append(Fault("since", "form.not_a_day", typed=typed["since"][:40]))
    try:
        refuse_source(typed["source"])
    except InputError as error:
        faults += error.faults
    return since, faults


def _looked_at(request: HttpRequest, page: BookPage, typed: dict[str, str]) -> tuple[Looked | None, list[Fault]]:
    """The list that was sent, held against the book; and what is wrong, all at once."""
    since, faults = _about(typed, page.book)
    wrong = {fault.at.path for fault in faults}
    # where the day or the source is wrong the list is looked at for today, so that its own faults are told at once
    day = since if since != Date.min else Date.fromisoformat(today())
    source = _("a list") if ("source",) in wrong else typed["source"]
    try:
        with sent_list(request, too_large="desk.no_price_list_so_long") as path:
            rows = price_rows(path, western=in_western(request))
        result: Looked | None = None
        if not typed["of"]:
            result = price_list(rows, page.book, since=day, source=source)
        elif ("of",) not in wrong:
            result = workshop_list(rows, page.book, typed["of"], since=day, source=source)
    except InputError as error:
        return None, [*faults, *(in_list(fault) for fault in error.faults)]
    except RodbookError as error:
        return None, [*faults, Fault("list", error.message)]
    return (None, faults) if faults else (result, [])


def _confirmed(typed: str) -> tuple[dict[str, str], list[tuple[str, str, str]]]:
    """What was looked at before, as the page sends it back: source and day, then stock, name and price of each.

    Raises
    ------
    InputError
        If it is something else.
    """
    try:
        raw = json.loads(typed)
        about = {name: str(raw[name]) for name in ("since", "source")}
        entries = [(str(stock), str(name), str(amount)) for stock, name, amount in raw["prices"]]
    except (ValueError, TypeError, KeyError, RecursionError):
        raise InputError.at("list", "desk.list_not_looked_at") from None
    return about, entries


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def bring_in(request: HttpRequest) -> HttpResponse:
    """Look at a price list, saying row by row what would change; and on a second POST put the new prices in."""
    page = book_page()
    if request.method != "POST":
        return _page(request, page, Form({"of": request.GET.get("of", ""), "since": today(), "source": ""}))
    if sent := request.POST.get("confirmed"):
        return _put_in(request, page, sent)
    typed = typed_of(request, FIELDS)
    result, faults = _looked_at(request, page, typed)
    return _page(request, page, Form({**typed, "list": ""}, faults), result)


def _put_in(request: HttpRequest, page: BookPage, sent: str) -> HttpResponse:
    blank = {"of": "", "since": today(), "source": "", "list": ""}
    try:
        if (charges := confirmed(sent)) is not None:
            return _put_charges(request, page, blank, *charges)
        about, entries = _confirmed(sent)
    except InputError as error:
        return _page(request, page, Form(blank, error.faults))
    answer, wrong, _where = save_book(request, page, lambda raw: put_prices(raw, entries, about))
    if wrong:
        faults = [in_list(fault) for fault in wrong.faults]
        return _page(request, page, Form({**blank, **about}, faults))
    return answer or redirect("book-boards")


def _put_charges(
    request: HttpRequest,
    page: BookPage,
    blank: dict[str, str],
    workshop: str,
    source: str,
    listed: tuple[ListedCharge, ...],
) -> HttpResponse:
    """Put a workshop's charges into the book as it was when they were looked at."""

    def change(raw: Raw) -> tuple[Raw, Place]:
        was = store.read_document(Kind.BOOK, raw)
        assert isinstance(was, Book), "the book's document is a book"
        result = hold_charges(listed, was, workshop, source=source)
        return put_charges(raw, result.workshop, result.sets), Place()

    answer, wrong, _where = save_book(request, page, change)
    if wrong:
        faults = [in_list(fault) for fault in wrong.faults]
        return _page(request, page, Form({**blank, "of": workshop, "source": source}, faults))
    number = next((n for n, shop in enumerate(page.book.workshops, 1) if shop.name == workshop), 0)
    return answer or (redirect("book-workshop", number=number) if number else redirect("book-workshops"))


def _page(request: HttpRequest, page: BookPage, form: Form, result: Looked | None = None) -> HttpResponse:
    shops = [shop.name for shop in page.book.workshops]
    kept = form.typed("of")
    context = page.context(
        "book-workshops" if kept else "book-boards",
        form=form,
        found=result,
        list_faults=_of_list(form),
        shops=shops,
        asks_western=asks_western(form.faults),
    )
    if result is not None:
        if not result.changes:
            messages.info(request, _("Nothing in this list would change the book."))
        context |= _charges(page, result) if isinstance(result, WorkshopList) else _prices(page, result)
    return render(request, "desk/book_price_list.html", context, status=422 if form.faults else 200)


def _prices(page: BookPage, result: PriceList) -> dict[str, object]:
    write = page.write
    rows = [
        (
            change.row,
            change.name,
            change.stock,
            "" if change.before is None else write.money(change.before),
            write.money(change.after),
            "" if change.percent is None else write.in_hundred(change.percent, signed=True),
        )
        for change in result.changes
    ]
    prices = [(change.stock, change.name, str(change.after)) for change in result.changes]
    about = {"since": result.since.isoformat(), "source": result.source, "prices": prices}
    return {"rows": rows, "confirmed": json.dumps(about, ensure_ascii=False), "day": write.date(result.since)}


def _charges(page: BookPage, result: WorkshopList) -> dict[str, object]:
    number = next(n for n, shop in enumerate(page.book.workshops, 1) if shop.name == result.workshop)
    return {"charged": charge_rows(result, page.write), "number": number, "confirmed": as_confirmed(result)}


def _of_list(form: Form) -> list[str]:
    return [in_words(fault) for fault in form.faults if fault.at.path == ("list",)]


@require_safe
@needs_owner
def blank(_request: HttpRequest, name: str, kind: str) -> HttpResponse:
    """A blank list to be filled in: a merchant's prices, or a workshop's charges."""
    if name not in BLANKS or kind not in KINDS:
        raise Http404
    reply = HttpResponse(blank_list(BLANKS[name](book_page().book), kind), content_type=KINDS[kind])
    reply["Content-Disposition"] = f'attachment; filename="{name}.{kind}"'
    return reply
