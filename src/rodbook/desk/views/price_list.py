"""A merchant's price list brought into the book: row by row what would change, and then the new prices beside the old."""

from __future__ import annotations

import json
from datetime import date as Date  # noqa: N812

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from rodbook.desk.access import needs_owner
from rodbook.desk.book_edits import put_prices
from rodbook.desk.faults import Form
from rodbook.desk.uploads import sent_list
from rodbook.desk.views.book_page import BookPage, book_page, save_book, today, typed_of
from rodbook.errors import Fault, InputError, RodbookError
from rodbook.job.files import price_rows
from rodbook.money import PriceList, price_list

__all__ = ["bring_in"]

FIELDS = ("since", "source")


def _about(typed: dict[str, str]) -> tuple[Date, list[Fault]]:
    """From which day the list holds, and what is wrong with what was typed."""
    faults, since = list[Fault](), Date.min
    try:
        since = Date.fromisoformat(typed["since"])
    except ValueError:
        faults.append(Fault("since", f"{typed['since'] or 'nothing'} is no day; write it as 2026-12-01"))
    if not typed["source"]:
        faults.append(Fault("source", "this is empty; write whose list it is and of when"))
    elif len(typed["source"]) > 400:
        faults.append(Fault("source", "this is longer than 400 letters; write whose list it is and of when"))
    return since, faults


def _looked_at(request: HttpRequest, page: BookPage, typed: dict[str, str]) -> tuple[PriceList | None, list[Fault]]:
    """The list that was sent, held against the book; and what is wrong, all at once."""
    since, faults = _about(typed)
    try:
        with sent_list(request, too_large="the list is larger than 10 MB; no price list is so long") as path:
            rows = price_rows(path)
        # where the day is missing the list is looked at for today, so that its own faults are told at once
        day = since if since != Date.min else Date.fromisoformat(today())
        found = price_list(rows, page.book, since=day, source=typed["source"])
    except InputError as error:
        return None, [*faults, *(_in_list(fault) for fault in error.faults)]
    except RodbookError as error:
        return None, [*faults, Fault("list", str(error))]
    return (None, faults) if faults else (found, [])


def _in_list(fault: Fault) -> Fault:
    """A fault of the file or of a row, to stand beside the file."""
    place = "" if fault.where in ("", "the list", "the file") else f"{fault.where}: "
    return Fault("list", f"{place}{fault.what}")


def _confirmed(typed: str) -> tuple[dict[str, str], list[tuple[str, str, str]]]:
    """What was looked at before, as the page sends it back: source and day, then stock, name and price of each.

    Raises
    ------
    InputError
        If it is something else.
    """
    try:
        raw = json.loads(typed)
        about = {name: str(raw[name]) for name in FIELDS}
        entries = [(str(stock), str(name), str(amount)) for stock, name, amount in raw["prices"]]
    except (ValueError, TypeError, KeyError, RecursionError):
        raise InputError.at("list", "this is not what was looked at; choose the file again") from None
    return about, entries


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def bring_in(request: HttpRequest) -> HttpResponse:
    """Look at a price list, saying row by row what would change; and on a second POST put the new prices in."""
    page = book_page()
    if request.method != "POST":
        return _page(request, page, Form({"since": today(), "source": ""}))
    if confirmed := request.POST.get("confirmed"):
        return _put_in(request, page, confirmed)
    typed = typed_of(request, FIELDS)
    found, faults = _looked_at(request, page, typed)
    return _page(request, page, Form({**typed, "list": ""}, faults), found)


def _put_in(request: HttpRequest, page: BookPage, confirmed: str) -> HttpResponse:
    blank = {"since": today(), "source": "", "list": ""}
    try:
        about, entries = _confirmed(confirmed)
    except InputError as error:
        return _page(request, page, Form(blank, error.faults))
    told, wrong, _where = save_book(request, page, lambda raw: put_prices(raw, entries, about))
    if wrong:
        faults = [Fault("list", f"{fault}") for fault in wrong.faults]
        return _page(request, page, Form({**about, "list": ""}, faults))
    return told or redirect("book-boards")


def _page(request: HttpRequest, page: BookPage, form: Form, found: PriceList | None = None) -> HttpResponse:
    context = page.context("book-boards", form=form, found=found, list_faults=_of_list(form))
    if found is not None:
        if not found.changes:
            messages.info(request, _("Nothing in this list would change the book."))
        write = page.write
        context["rows"] = [
            (
                change.row, change.name, change.stock,
                "" if change.before is None else write.money(change.before), write.money(change.after),
                "" if change.percent is None else f"{change.percent:+} %",
            )
            for change in found.changes
        ]  # fmt: skip
        prices = [(change.stock, change.name, str(change.after)) for change in found.changes]
        context["confirmed"] = json.dumps(
            {"since": found.since.isoformat(), "source": found.source, "prices": prices}, ensure_ascii=False
        )
        context["day"] = write.date(found.since)
    return render(request, "desk/book_price_list.html", context, status=422 if form.faults else 200)


def _of_list(form: Form) -> list[str]:
    return [fault.what for fault in form.faults if fault.where == "list"]
