"""What hours of all jobs say of the book's times, offered as new values from a day; nothing is put in by itself. Owner only."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.platform import book_edits
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.book_page import BookPage, book_page, date_now, save_book, today, typed_of
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.learned import Learned, learned
from rodbook.errors import Fault, InputError, Place
from rodbook.papers.numbers import Numbers

__all__ = ["show", "take"]


def _row(result: Learned, write: Numbers, form: Form) -> dict[str, object]:
    update, offered = result.update, result.update.offered
    nine = update.rate.nine_in_ten
    mine = form.typed("name") == update.rate.name
    return {
        "name": update.rate.name,
        "unit": update.rate.unit.replace("/", " per ", 1),
        "sentence": update.sentence,
        "before": write.short(float(update.rate.value)),
        "before_nine": "" if nine is None else write.short(float(nine)),
        "weighs": f"{update.prior.entries:g}",
        "used": update.used,
        "uncounted": update.uncounted,
        "asked": result.asked,
        "offered": offered,
        "after": write.short(offered.value) if offered else "",
        "after_nine": write.short(offered.nine_in_ten or offered.value) if offered else "",
        "field": f"since-{update.rate.name.replace(' ', '-')}",
        "since": form.typed("since") if mine else today(),
        "fault": form.fault("since") if mine else "",
    }


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """Each time that hours were put down for: as the book has it, and as it would be."""
    return _page(request, book_page(), Form({}))


def _page(request: HttpRequest, page: BookPage, form: Form) -> HttpResponse:
    rows = [_row(result, page.write, form) for result in learned(page.book, date_now())]
    return render(
        request,
        "desk/book_learned.html",
        page.context("book-rates", rows=rows, form=form),
        status=422 if form.faults else 200,
    )


@require_POST
@needs_owner
def take(request: HttpRequest) -> HttpResponse:
    """Put one offered value into the book, from a day on."""
    page, typed = book_page(), typed_of(request, ("name", "since", "value"))
    result = next((item for item in learned(page.book, date_now()) if item.update.rate.name == typed["name"]), None)
    offered = result.update.offered if result else None
    if result is None or offered is None or f"{offered.value:g}" != typed["value"]:
        fault = Fault("", "desk.offer_gone")
        return _page(request, page, Form({}, [fault]))
    last = result.last.isoformat() if result.last else ""
    if typed["since"] < last and len(typed["since"]) == len(last):
        fault = Fault("since", "desk.hours_up_to_day", last=last)
        return _page(request, page, Form(typed, [fault]))
    new = {
        "name": offered.name,
        "value": f"{offered.value:g}",
        "since": typed["since"],
        "source": offered.source,
        "nine_in_ten": f"{offered.nine_in_ten:g}",
    }
    answer, wrong, where = save_book(request, page, lambda raw: book_edits.put_rate(raw, new, offered.unit))
    if wrong is not None:
        return _page(request, page, Form(typed, _since_faults(wrong, where)))
    return answer or redirect("book-rates")


def _since_faults(wrong: InputError, where: Place) -> list[Fault]:
    return [fault.moved(own) if (own := fault.at.beneath(where)) else fault for fault in wrong.faults]
