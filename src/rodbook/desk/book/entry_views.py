"""Boards, sections, hinges, fittings and workshops put into the firm's book, changed, and taken out. Owner only."""

from __future__ import annotations

from collections.abc import Mapping

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from rodbook.desk.book.entries import (
    ENTRIES,
    MONEY,
    NUMBERS,
    Entry,
    fields_of,
    first_size,
    places,
    plain_size,
    size_of,
    values_of,
)
from rodbook.desk.book.fields import plain_rates, rates_form, typed_rates
from rodbook.desk.book.uses import entry_used, used_in_book, used_in_jobs
from rodbook.desk.platform import book_edits, store
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.book_edits import Raw
from rodbook.desk.platform.book_edits import given as given_of
from rodbook.desk.platform.book_page import BookPage, book_page, renamed, save_book, today, typed_of
from rodbook.desk.platform.faults import Form, in_words
from rodbook.desk.platform.typed_numbers import shown_number
from rodbook.errors import Fault, InputError, Place

__all__ = ["counts", "entry", "hinges", "new", "new_workshop", "out", "renaming", "size", "size_out", "why_not_out"]

LISTS = {
    "boards": ("board", "book-boards"),
    "sections": ("section", "book-boards"),
    "hinges": ("hinge", "book-hinges"),
    "fittings": ("fitting", "book-hinges"),
    "workshops": ("workshop", "book-workshops"),
    "build_ups": ("build-up", "book-build-ups"),
}
"""Lists of which an entry can be taken out: its noun, and the page that shows the list."""

NEEDED = ("boards", "hinges", "build_ups")
"""Lists that never become empty."""


def why_not_out(page: BookPage, group: str, name: str) -> str:
    """Say in a sentence why an entry can't be taken out; nothing where it can."""
    if group in NEEDED and len(getattr(page.book, group)) == 1:
        return f"{name} is the only {LISTS[group][0]} in the book; put another in first."
    uses = used_in_book(page.revision.document, group, name) + used_in_jobs(store.job_documents(), group, name)
    used = entry_used(name, uses)
    return _("%(said)s, so it stays in the book.") % {"said": in_words(used)} if used else ""


def renaming(group: str, was: str, name: str, where: Place) -> list[Fault]:
    """A fault where jobs know an entry by the name that is to be changed."""
    if not name or name == was:
        return []
    used = entry_used(was, used_in_jobs(store.job_documents(), group, was))
    return [Fault(where / "name", "desk.known_by_name", used=used)] if used else []


# --- boards, sections, hinges -------------------------------------------------------------------------------------


def _entry_of(kind: str) -> Entry:
    if kind not in ENTRIES:
        raise Http404
    return ENTRIES[kind]


def _all_of(entry: Entry) -> tuple[str, ...]:
    return tuple(spec.field for spec in (*entry.own, *entry.size))


def _own(entry: Entry, typed: Mapping[str, str]) -> dict[str, str]:
    return {spec.place: typed[spec.field] for spec in entry.own}


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def new(request: HttpRequest, kind: str) -> HttpResponse:
    """Put one more board, section or hinge in; a board or section with the first size in which it is sold."""
    about, page = _entry_of(kind), book_page()
    form = Form({"since": today()})
    if request.method == "POST":
        typed = typed_of(request, _all_of(about))

        def change(raw: Raw) -> tuple[Raw, Place]:
            plain = page.plain(typed, money=MONEY, numbers=NUMBERS)
            whole: dict[str, object] = {name: value for name, value in _own(about, plain).items() if value}
            if about.size:
                whole[book_edits.SIZES[kind]] = [size_of(plain, about.size)]
            return book_edits.add_entry(raw, kind, whole)

        answer, error, where = save_book(request, page, change)
        if error is None:
            return answer or redirect(about.back)
        form = Form(typed, renamed(error.faults, places(about, where, first_size(about))), within=where)
    context = page.context(
        about.back,
        about=about,
        form=form,
        fields=fields_of(about.own, form, page.book.currency),
        size_fields=fields_of(about.size, form, page.book.currency),
    )
    return render(request, "desk/book_new.html", context, status=422 if form.faults else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def entry(request: HttpRequest, kind: str, number: int) -> HttpResponse:
    """One board, section or hinge; on POST its own figures are saved."""
    about, page = _entry_of(kind), book_page()
    if request.method != "POST":
        return _entry_page(request, page, about, number)
    typed, was = typed_of(request, tuple(spec.field for spec in about.own)), request.POST.get("was", "")
    where = Place((kind, number - 1))
    faults = renaming(kind, was, typed["name"], where)
    answer, error = None, InputError(faults) if faults else None
    if error is None:
        answer, error, _ = save_book(
            request,
            page,
            lambda raw: book_edits.put_entry(raw, kind, number, was, _own(about, page.plain(typed, numbers=NUMBERS))),
        )
    if error:
        return _entry_page(request, page, about, number, own=Form(typed, error.faults, within=where), was=was)
    return answer or redirect(about.back)


def _entry_page(
    request: HttpRequest,
    page: BookPage,
    about: Entry,
    number: int,
    *,
    own: Form | None = None,
    size: Form | None = None,
    was: str = "",
    changing: str = "",
) -> HttpResponse:
    entries = getattr(page.book, about.group)
    if not 1 <= number <= len(entries):
        raise Http404
    result = entries[number - 1]
    sizes = getattr(result, book_edits.SIZES[about.group]) if about.size else ()
    changing = changing or request.GET.get("size", "")
    sold = next((s for s in sizes if s.name == changing), None)
    specs = plain_size(about) if sold else about.size
    if size is None and sold:
        size = Form(values_of(sold, specs, page.book.locale))
    forms = {
        "own": own or Form(values_of(result, about.own, page.book.locale)),
        "size": size or Form({"since": today()}),
    }
    context = page.context(
        about.back,
        about=about,
        found=result,
        number=number,
        was=was or result.name,
        why_not=why_not_out(page, about.group, result.name),
        sizes=sizes,
        changing=sold.name if sold else "",
        form=forms["own"],
        size_form=forms["size"],
        fields=fields_of(about.own, forms["own"], page.book.currency),
        kind=about.group,
        size_fields=fields_of(specs, forms["size"], page.book.currency),
    )
    faulty = any(form.faults for form in forms.values())
    return render(request, "desk/book_entry.html", context, status=422 if faulty else 200)


@require_POST
@needs_owner
def size(request: HttpRequest, kind: str, number: int) -> HttpResponse:
    """One more size in which a board or section is sold, or another name and size for one of them."""
    about, page = _entry_of(kind), book_page()
    if not about.size:
        raise Http404
    typed, was = typed_of(request, tuple(spec.field for spec in about.size)), request.POST.get("was", "")
    changing = request.POST.get("size", "")
    plain = {spec.place: typed[spec.field] for spec in plain_size(about)}

    def change(raw: Raw) -> tuple[Raw, Place]:
        if changing:
            return book_edits.put_size(raw, kind, number, was, changing, plain)
        return book_edits.add_size(raw, kind, number, was, size_of(page.plain(typed, money=MONEY), about.size))

    answer, error, where = save_book(request, page, change)
    if error:
        form = Form(typed, renamed(error.faults, places(about, where)), within=where)
        return _entry_page(request, page, about, number, size=form, changing=changing)
    return answer or redirect("book-entry", kind=kind, number=number)


@require_POST
@needs_owner
def size_out(request: HttpRequest, kind: str, number: int) -> HttpResponse:
    """Take a size out that is not sold any more."""
    about, page, typed = _entry_of(kind), book_page(), typed_of(request, ("was", "size"))
    if not about.size:
        raise Http404
    answer, error, _ = save_book(
        request, page, lambda raw: book_edits.take_out_size(raw, kind, number, typed["was"], typed["size"])
    )
    if error:
        messages.error(request, f"{'; '.join(map(in_words, error.faults))}.")
    return answer or redirect("book-entry", kind=kind, number=number)


@require_POST
@needs_owner
def out(request: HttpRequest, kind: str, number: int) -> HttpResponse:
    """Take an entry out of its list, where nothing uses it."""
    if kind not in LISTS:
        raise Http404
    page, was = book_page(), request.POST.get("was", "")
    if answer := why_not_out(page, kind, was):
        messages.error(request, answer)
        return redirect(LISTS[kind][1])
    notes, error, _ = save_book(request, page, lambda raw: book_edits.take_out_entry(raw, kind, number, was))
    if error:
        messages.error(request, f"{'; '.join(map(in_words, error.faults))}.")
    return notes or redirect(LISTS[kind][1])


# --- hinges and how many ------------------------------------------------------------------------------------------

COUNT = ("hinges", "height", "mass")
MOST_COUNTS = 7
"""Two to eight hinges."""


@require_safe
@needs_owner
def hinges(request: HttpRequest) -> HttpResponse:
    """The hinges, and how many a leaf gets by its height and mass."""
    page = book_page()
    typed = {
        f"count-{n}-{name}": shown_number(getattr(count, name), page.book.locale)
        for n, count in enumerate(page.book.hinge_counts, 1)
        for name in COUNT
    }
    return _hinges_page(request, page, Form({**typed, "counts_source": page.book.hinge_counts_source}))


@require_POST
@needs_owner
def counts(request: HttpRequest) -> HttpResponse:
    """Save the table of hinge counts."""
    page = book_page()
    names = tuple(f"count-{n}-{name}" for n in range(1, MOST_COUNTS + 1) for name in COUNT)
    typed = typed_of(request, (*names, "counts_source"))
    rows = [{name: typed[f"count-{n}-{name}"] for name in COUNT} for n in range(1, MOST_COUNTS + 1)]

    def change(raw: Raw) -> tuple[Raw, Place]:
        plain = page.plain(typed, numbers=[name for name in names if not name.endswith("-height")])
        rows = [{name: plain[f"count-{n}-{name}"] for name in COUNT} for n in range(1, MOST_COUNTS + 1)]
        return book_edits.put_counts(raw, rows, typed["counts_source"]), Place()

    answer, error, _ = save_book(request, page, change)
    if error is None:
        return answer or redirect("book-hinges")
    filled = [n for n, row in enumerate(rows, 1) if any(row.values())]
    fields = {Place(("hinge_counts", at, name)): f"count-{n}-{name}" for at, n in enumerate(filled) for name in COUNT}
    fields[Place(("hinge_counts_source",))] = "counts_source"
    return _hinges_page(request, page, Form(typed, renamed(error.faults, fields)))


def _hinges_page(request: HttpRequest, page: BookPage, form: Form) -> HttpResponse:
    labels = {"hinges": _("hinges"), "height": _("up to this height, mm"), "mass": _("up to this mass, kg")}
    rows = [
        [
            {
                "field": f"count-{n}-{name}",
                "label": labels[name],
                "value": form.typed(f"count-{n}-{name}"),
                "fault": form.fault(f"count-{n}-{name}"),
            }
            for name in COUNT
        ]
        for n in range(1, MOST_COUNTS + 1)
    ]
    context = page.context("book-hinges", form=form, rows=rows, labels=labels.values())
    return render(request, "desk/book_hinges.html", context, status=422 if form.faults else 200)


# --- a new workshop -----------------------------------------------------------------------------------------------

WORKSHOP = ("name", "contact", "lead_days")


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def new_workshop(request: HttpRequest) -> HttpResponse:
    """Put one more workshop in, with what it charges."""
    page = book_page()
    form = Form({"since": today()})
    if request.method == "POST":
        plain, _boards, _sections, every = typed_rates(request.POST, page.book)
        about = typed_of(request, WORKSHOP)
        given = {name: value for name, value in about.items() if value}

        def change(raw: Raw) -> tuple[Raw, Place]:
            plain, boards, sections, _every = typed_rates(plain_rates(request.POST, page.book), page.book)
            rates = {**given_of(plain), "board_m2": given_of(boards), "section_m": given_of(sections)}
            return book_edits.add_entry(raw, "workshops", {**given, "rates": [rates]})

        answer, error, where = save_book(request, page, change)
        if error is None:
            return answer or redirect("book-workshops")
        at = where / "rates" / 0
        names = {at / name: name for name in plain}
        names |= {at / "board_m2" / b.name: f"board-{n}" for n, b in enumerate(page.book.boards, 1)}
        names |= {at / "section_m" / s.name: f"section-{n}" for n, s in enumerate(page.book.sections, 1)}
        form = Form({**every, **about}, renamed(error.faults, names), within=where)
    fields = rates_form(None, page.book, form, since=today())
    context = page.context("book-workshops", form=form, fields=fields)
    return render(request, "desk/book_workshop_new.html", context, status=422 if form.faults else 200)
