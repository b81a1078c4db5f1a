"""Pieces wanted from waste, in the firm's book: the list over all boards, put in, changed and taken out. Owner only."""

from __future__ import annotations

from collections.abc import Sequence

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from rodbook.desk.platform import shop_edits
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.book_page import BookPage, book_page, date_now, save_book, today, typed_of
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page
from rodbook.desk.platform.typed_numbers import shown_number
from rodbook.desk.platform.wanted_pieces import PartForOthers, parts_for_others, pieces_of_parts
from rodbook.errors import Fault, InputError, Place
from rodbook.plan import piece_worth

__all__ = ["of_job", "out", "put", "show"]

FIELDS = ("board", "label", "length", "width", "number", "worth", "purpose", "since")


def _typed_for(page: BookPage, label: str) -> tuple[dict[str, str], str]:
    """What the form begins with: the piece of a label to be changed, or a new one; and the label that it changes."""
    for number, board in enumerate(page.book.boards, 1):
        for piece in board.wanted:
            if piece.label == label:
                typed = {
                    "board": str(number),
                    "label": label,
                    "length": shown_number(piece.length, page.book.locale),
                    "width": shown_number(piece.width, page.book.locale),
                    "number": str(piece.number),
                    "worth": shown_number(piece.worth, page.book.locale),
                    "purpose": piece.purpose,
                    "since": piece.since.isoformat() if piece.since else "",
                }
                return typed, label
    lying = [offcut.label for board in page.book.boards for offcut in board.offcuts]
    free = shop_edits.next_wanted_label(page.revision.document, lying)
    return {"label": free, "number": "1", "since": today()}, ""


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """The list, and a form for one more or for one that is changed."""
    page = book_page()
    typed, was = _typed_for(page, request.GET.get("change", "")[:80])
    return _page(request, page, Form(typed), was)


@require_POST
@needs_owner
def put(request: HttpRequest) -> HttpResponse:
    """Put a piece on the list, or change the one that the form was opened for."""
    page, typed, was = book_page(), typed_of(request, FIELDS), request.POST.get("was", "").strip()[:80]
    board = int(typed["board"]) if typed["board"].isdecimal() and len(typed["board"]) < 5 else 0
    if not 1 <= board <= len(page.book.boards):
        error = InputError.at("board", "form.board_to_cut_from")
        return _page(request, page, Form(typed, error.faults), was)
    values = {name: value for name, value in typed.items() if name != "board"}
    answer, wrong, where = save_book(
        request,
        page,
        lambda raw: shop_edits.put_wanted(raw, board, was, page.plain(values, money=("worth",), numbers=("number",))),
    )
    if wrong:
        return _page(request, page, Form(typed, wrong.faults, within=where), was)
    return answer or redirect("book-wanted")


@require_POST
@needs_owner
def out(request: HttpRequest) -> HttpResponse:
    """Take a piece off the list: nobody wants it any more."""
    page, typed = book_page(), typed_of(request, ("label",))
    answer, wrong, _where = save_book(
        request, page, lambda raw: (shop_edits.take_out_wanted(raw, typed["label"]), Place())
    )
    if wrong:
        messages.error(request, f"{'; '.join(map(str, wrong.faults))}.")
    return answer or redirect("book-wanted")


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def of_job(request: HttpRequest, pk: int) -> HttpResponse:
    """Parts of a job that other jobs may cut from their waste: as many as are typed are put on the list."""
    page, book = job_page(pk), book_page()
    if page.whole is None:
        return redirect("boards", pk=pk)
    parts = parts_for_others(page.whole)
    if request.method != "POST":
        return _parts_page(request, page, parts, Form({}))
    typed = {part.mark: request.POST.get(f"number-{part.mark}", "").strip() for part in parts}
    try:
        pieces = pieces_of_parts(parts, typed, page.job.job, since=date_now(), document=book.revision.document)
    except InputError as error:
        return _parts_page(request, page, parts, Form({f"number-{k}": v for k, v in typed.items()}, error.faults))
    answer, wrong, _where = save_book(request, book, lambda raw: (shop_edits.put_all_wanted(raw, pieces), Place()))
    if wrong:
        typed = {f"number-{mark}": number for mark, number in typed.items()}
        return _parts_page(request, page, parts, Form(typed, wrong.faults))
    return answer or redirect("book-wanted")


def _parts_page(request: HttpRequest, page: JobPage, parts: Sequence[PartForOthers], form: Form) -> HttpResponse:
    context = page.context("boards", parts=parts, form=form, book_base=page.book_revision.number)
    return render(request, "desk/boards_wanted.html", context, status=422 if form.faults else 200)


def _page(request: HttpRequest, page: BookPage, form: Form, was: str) -> HttpResponse:
    write, day = page.write, date_now()
    rows = [
        {
            "piece": piece,
            "board": board.name,
            "size": write.short_size(piece.length, piece.width),
            "worth": write.money(piece_worth(board, piece.length, piece.width, piece.worth, day, page.book.currency)),
        }
        for board in page.book.boards
        for piece in board.wanted
    ]
    faults: tuple[Fault, ...] = form.faults
    context = page.context("book-wanted", rows=rows, form=form, was=was)
    return render(request, "desk/book_wanted.html", context, status=422 if faults else 200)
