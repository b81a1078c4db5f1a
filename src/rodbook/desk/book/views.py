"""The firm's book: firm and saw, rates, boards and offcuts, workshops, build-ups, and its own history. Owner only."""

from __future__ import annotations

import re

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from rodbook.desk.book.entry_views import renaming, why_not_out
from rodbook.desk.book.fields import (
    RATES_LEAD,
    Field,
    build_up_form,
    plain_rates,
    rates_form,
    typed_build_up,
    typed_rates,
)
from rodbook.desk.book.uses import lost_to_jobs
from rodbook.desk.models import Revision
from rodbook.desk.platform import book_edits, shop_edits, store
from rodbook.desk.platform.access import needs_owner, who
from rodbook.desk.platform.book_edits import Raw
from rodbook.desk.platform.book_page import BookPage, book_page, date_now, renamed, save_book, today, typed_of
from rodbook.desk.platform.changes import names as changes_of
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.typed_numbers import shown_number
from rodbook.errors import Fault, InputError, Place
from rodbook.job import Board, Book, Section
from rodbook.job.book import LengthSize, SheetSize, valid_on
from rodbook.job.confirming import unconfirmed
from rodbook.money import RATE_UNITS

__all__ = [
    "boards",
    "build_up",
    "build_ups",
    "firm",
    "history",
    "offcut",
    "offcut_out",
    "price",
    "rate",
    "rates",
    "undo",
    "workshop",
    "workshop_rates",
    "workshops",
]

PAGE = 50


# --- firm and saw -------------------------------------------------------------------------------------------------

FIRM, SAW, MONEY = (
    ("name", "contact"),
    ("kerf", "edge_trim", "end_trim", "turns", "keep_from", "source"),
    ("currency", "locale"),
)


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def firm(request: HttpRequest) -> HttpResponse:
    """The firm's name and contact, its saw, its currency and numbers; on POST saved."""
    page = book_page()
    if request.method == "POST":
        typed = typed_of(request, (*FIRM, *SAW, *MONEY))
        typed["currency"] = typed["currency"].upper()
        mine, money = ({name: typed[name] for name in names} for names in (FIRM, MONEY))

        def change(raw: Raw) -> tuple[Raw, Place]:
            saw = page.plain({name: typed[name] for name in SAW}, numbers=("keep_from", "turns"))
            return book_edits.put_firm(raw, mine, saw, money), Place()

        answer, error, _ = save_book(request, page, change)
        if error:
            faults = [
                f.moved(Place(f.at.path[-1:])) if f.at.path[:1] in (("firm",), ("saw",)) else f for f in error.faults
            ]
            return _firm_page(request, page, Form(typed, faults))
        return answer or redirect("book")
    document = page.revision.document
    money = {"currency": page.book.currency, "locale": page.book.locale}
    saw = {name: shown_number(getattr(page.book.saw, name), page.book.locale) for name in SAW}
    return _firm_page(request, page, Form({**document["firm"], **saw, **money}))


def _firm_page(request: HttpRequest, page: BookPage, form: Form) -> HttpResponse:
    context = page.context("book", form=form, waiting=len(unconfirmed(page.book)))
    return render(request, "desk/book.html", context, status=422 if form.faults else 200)


# --- rates --------------------------------------------------------------------------------------------------------

RATE = ("name", "value", "since", "source")


def _per(unit: str, book: Book) -> str:
    return unit.replace("currency", book.currency).replace("/", " per ", 1).replace("m2", "m²")


@require_safe
@needs_owner
def rates(request: HttpRequest) -> HttpResponse:
    """Every rate as it stands today, its earlier and later values, and a form for a new one."""
    page = book_page()
    name = request.GET.get("rate", "")
    holds = valid_on(tuple(r for r in page.book.rates if r.name == name), date_now())
    typed = {
        "name": name,
        "value": shown_number(holds.value, page.book.locale) if holds else "",
        "since": today(),
        "source": "",
    }
    return _rates_page(request, page, Form(typed))


@require_POST
@needs_owner
def rate(request: HttpRequest) -> HttpResponse:
    """Add a rate from a day on."""
    page, typed = book_page(), typed_of(request, RATE)
    unit = RATE_UNITS.get(typed["name"], "")
    answer, error, where = save_book(
        request, page, lambda raw: book_edits.put_rate(raw, page.plain(typed, numbers=("value",)), unit)
    )
    if error:
        return _rates_page(request, page, Form(typed, error.faults, within=where))
    return answer or redirect("book-rates")


def _rates_page(request: HttpRequest, page: BookPage, form: Form) -> HttpResponse:
    rows = []
    for name, unit in RATE_UNITS.items():
        entries = tuple(r for r in page.book.rates if r.name == name)
        holds = valid_on(entries, date_now())
        others = sorted((r for r in entries if r is not holds), key=lambda r: r.since, reverse=True)
        rows.append({"name": name, "unit": _per(unit, page.book), "holds": holds, "others": others})
    names = [(name, f"{name}, {_per(unit, page.book)}") for name, unit in RATE_UNITS.items()]
    context = page.context("book-rates", rows=rows, names=names, form=form)
    return render(request, "desk/book_rates.html", context, status=422 if form.faults else 200)


# --- boards, sections, prices, offcuts ----------------------------------------------------------------------------

PRICE, OFFCUT = ("size", "amount", "since", "price_source"), ("board", "label", "length", "width")
_SIZE = re.compile(r"(boards|sections)-([0-9]{1,4})-([0-9]{1,4})")


@require_safe
@needs_owner
def boards(request: HttpRequest) -> HttpResponse:
    """Boards and sections with their prices, and the offcuts that lie in the shop."""
    size = request.GET.get("size", "")
    return _boards_page(request, book_page(), price=Form({"size": size, "since": today()}))


@require_POST
@needs_owner
def price(request: HttpRequest) -> HttpResponse:
    """Add a price from a day on."""
    page, typed = book_page(), typed_of(request, PRICE)
    result = _SIZE.fullmatch(typed["size"])
    if not result:
        error = InputError.at("size", "form.price_of_nothing")
        return _boards_page(request, page, price=Form(typed, error.faults))
    group, size = result[1], (int(result[2]), int(result[3]))
    values = {"amount": typed["amount"], "since": typed["since"], "source": typed["price_source"]}
    answer, wrong, where = save_book(
        request, page, lambda raw: book_edits.put_price(raw, group, size, page.plain(values, money=("amount",)))
    )
    if wrong:
        faults = renamed(wrong.faults, {where / "source": "price_source"})
        return _boards_page(request, page, price=Form(typed, faults, within=where))
    return answer or redirect("book-boards")


@require_POST
@needs_owner
def offcut(request: HttpRequest) -> HttpResponse:
    """Add an offcut."""
    page, typed = book_page(), typed_of(request, OFFCUT)
    board = int(typed["board"]) if typed["board"].isdecimal() and len(typed["board"]) < 5 else 0
    values = {name: typed[name] for name in ("label", "length", "width")}
    if not 1 <= board <= len(page.book.boards):
        error = InputError.at("board", "form.board_of_offcut")
        return _boards_page(request, page, offcut=Form(typed, error.faults))
    answer, wrong, where = save_book(request, page, lambda raw: shop_edits.add_offcut(raw, board, values))
    if wrong:
        return _boards_page(request, page, offcut=Form(typed, wrong.faults, within=where))
    return answer or redirect("book-boards")


@require_POST
@needs_owner
def offcut_out(request: HttpRequest) -> HttpResponse:
    """Take an offcut out: it is used up or gone."""
    page, typed = book_page(), typed_of(request, ("board", "label"))
    board = int(typed["board"]) if typed["board"].isdecimal() and len(typed["board"]) < 5 else 0
    answer, wrong, _ = save_book(
        request, page, lambda raw: (shop_edits.take_out_offcut(raw, board, typed["label"]), Place())
    )
    if wrong:
        messages.error(request, f"{'; '.join(map(str, wrong.faults))}.")
    return answer or redirect("book-boards")


def _boards_page(
    request: HttpRequest, page: BookPage, *, price: Form | None = None, offcut: Form | None = None
) -> HttpResponse:
    write = page.write
    stocks, sizes = [], []
    groups: tuple[tuple[str, tuple[Board | Section, ...]], ...] = (
        ("boards", page.book.boards),
        ("sections", page.book.sections),
    )
    for group, entries in groups:
        for number, entry in enumerate(entries, 1):
            rows = []
            sold: tuple[SheetSize | LengthSize, ...] = entry.sheets if isinstance(entry, Board) else entry.lengths
            for at, size in enumerate(sold, 1):
                holds = valid_on(size.prices, date_now())
                others = sorted((p for p in size.prices if p is not holds), key=lambda p: p.since, reverse=True)
                key = f"{group}-{number}-{at}"
                sizes.append((key, size.name))
                rows.append({"key": key, "size": size, "holds": holds, "others": others})
            low, high = write.short(entry.density_low), write.short(entry.density_high)
            stocks.append({"number": number, "group": group, "entry": entry, "rows": rows, "density": f"{low}–{high}"})
    forms = {"price": price or Form({"since": today()}), "offcut": offcut or Form({})}
    context = page.context("book-boards", stocks=stocks, sizes=sizes, **forms)
    faulty = any(form.faults for form in forms.values())
    return render(request, "desk/book_boards.html", context, status=422 if faulty else 200)


# --- workshops ----------------------------------------------------------------------------------------------------

WORKSHOP = ("name", "contact", "lead_days")


@require_safe
@needs_owner
def workshops(request: HttpRequest) -> HttpResponse:
    """The workshops that may be asked."""
    page = book_page()
    shops = [(shop, shop.lead_on(date_now())) for shop in page.book.workshops]
    return render(request, "desk/book_workshops.html", page.context("book-workshops", shops=shops))


def _workshop_page(
    request: HttpRequest, page: BookPage, number: int, *, about: Form | None = None, rates: Form | None = None
) -> HttpResponse:
    if not 1 <= number <= len(page.book.workshops):
        raise Http404
    shop = page.book.workshops[number - 1]
    raw = page.revision.document["workshops"][number - 1]
    latest = max(shop.rates, key=lambda r: r.since)
    about = about or Form({name: str(raw.get(name, "")) for name in WORKSHOP})
    fields: list[Field] = rates_form(latest, page.book, rates, since=today())
    earlier = sorted(shop.rates, key=lambda r: r.since, reverse=True)
    context = page.context(
        "book-workshops",
        shop=shop,
        number=number,
        about=about,
        fields=fields,
        rates_form=rates,
        earlier=earlier,
        was=shop.name,
        kind="workshops",
        why_not=why_not_out(page, "workshops", shop.name),
    )
    faulty = any(form.faults for form in (about, rates) if form)
    return render(request, "desk/book_workshop.html", context, status=422 if faulty else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def workshop(request: HttpRequest, number: int) -> HttpResponse:
    """One workshop; on POST its name, contact and lead time are saved."""
    page = book_page()
    if request.method != "POST":
        return _workshop_page(request, page, number)
    typed, was, where = typed_of(request, WORKSHOP), request.POST.get("was", ""), Place(("workshops", number - 1))
    faults = renaming("workshops", was, typed["name"], where)
    answer, error = None, InputError(faults) if faults else None
    if error is None:
        answer, error, _ = save_book(
            request,
            page,
            lambda raw: book_edits.put_entry(raw, "workshops", number, was, page.plain(typed, numbers=("lead_days",))),
        )
    if error:
        return _workshop_page(request, page, number, about=Form(typed, error.faults, within=where))
    return answer or redirect("book-workshop", number=number)


@require_POST
@needs_owner
def workshop_rates(request: HttpRequest, number: int) -> HttpResponse:
    """Add a workshop's rates from a day on."""
    page = book_page()
    typed = typed_rates(request.POST, page.book)[-1]

    def change(raw: Raw) -> tuple[Raw, Place]:
        values, per_board, per_section, _typed = typed_rates(plain_rates(request.POST, page.book), page.book)
        return book_edits.put_workshop_rates(raw, number, values, per_board, per_section)

    answer, error, where = save_book(request, page, change)
    if error:
        return _workshop_page(
            request, page, number, rates=Form(typed, _by_field(error, where, page.book), within=where)
        )
    return answer or redirect("book-workshop", number=number)


def _by_field(error: InputError, where: Place, book: Book) -> list[Fault]:
    """Faults of prices by board or section, named after the fields of the form."""
    names = {where / "board_m2" / b.name: f"board-{n}" for n, b in enumerate(book.boards, 1)}
    names |= {where / "section_m" / s.name: f"section-{n}" for n, s in enumerate(book.sections, 1)}
    names[where / "lead_days"] = RATES_LEAD
    return renamed(error.faults, names)


# --- build-ups ----------------------------------------------------------------------------------------------------


@require_safe
@needs_owner
def build_ups(request: HttpRequest) -> HttpResponse:
    """The ways of building a front."""
    return render(request, "desk/book_build_ups.html", book_page().context("book-build-ups"))


@require_http_methods(["GET", "HEAD", "POST"])
@needs_owner
def build_up(request: HttpRequest, number: int) -> HttpResponse:
    """One way of building a front; on POST saved, or saved as one more under another name."""
    page = book_page()
    if not 1 <= number <= len(page.book.build_ups):
        raise Http404
    entry = page.book.build_ups[number - 1]
    form: Form | None = None
    if request.method == "POST":
        typed = typed_build_up(request.POST, entry)
        name = request.POST.get("name", "").strip()
        as_new, where = "as_new" in request.POST, Place(("build_ups", number - 1))
        called = name if "rename" in request.POST else entry.name
        faults = renaming("build_ups", entry.name, called, where)

        def change(raw: Raw) -> tuple[Raw, Place]:
            plain = page.plain(typed, numbers=("film", "coats"))
            if as_new:
                return book_edits.copy_build_up(raw, plain, name, entry.family)
            return book_edits.put_build_up(raw, number, entry.name, called, plain)

        answer, error = None, InputError(faults) if faults else None
        if error is None:
            answer, error, where = save_book(request, page, change)
        if error is None:
            return answer or redirect("book-build-ups")
        form = Form({**typed, "name": name}, error.faults, within=where)
    context = page.context(
        "book-build-ups",
        entry=entry,
        number=number,
        form=form,
        groups=build_up_form(entry, page.book, form),
        was=entry.name,
        kind="build_ups",
        why_not=why_not_out(page, "build_ups", entry.name),
    )
    return render(request, "desk/book_build_up.html", context, status=422 if form else 200)


# --- history ------------------------------------------------------------------------------------------------------


@require_safe
@needs_owner
def history(request: HttpRequest) -> HttpResponse:
    """Every revision of the book, newest first, or only those that changed an entry of that name."""
    page = book_page()
    of = request.GET.get("of", "").strip()[:80]
    result = (
        [one for one in page.folder.revisions.all() if changes_of(one.changed(), of)]
        if of
        else page.folder.revisions.all()
    )
    revisions = Paginator(result, PAGE).get_page(request.GET.get("page"))
    return render(request, "desk/book_history.html", page.context("book-history", revisions=revisions, of=of))


def _keeps_what_jobs_use(old: store.Document, new: store.Document) -> None:
    if answer := lost_to_jobs(store.job_documents(), old, new):
        raise InputError.at("", "desk.entries_used", entries=answer)


@require_POST
@needs_owner
def undo(request: HttpRequest, number: int) -> HttpResponse:
    """Take one revision of the book back."""
    page = book_page()
    try:
        saved = store.undo(page.folder, number, who=who(request), check=_keeps_what_jobs_use)
    except store.Overtaken as error:
        clashes = "; ".join(clash.where for clash in error.both.clashes)
        text = f"Revision {number} can't be taken back alone: later ones changed the same ({clashes})."
        messages.error(request, text)
    except Revision.DoesNotExist:
        raise Http404 from None
    except InputError as error:
        messages.error(
            request,
            _("Revision %(number)s can't be taken back: %(error)s.")
            % {"number": number, "error": "; ".join(map(str, error.faults))},
        )
    else:
        messages.success(
            request,
            _("Revision %(number)s is taken back; that is revision %(number_too)s.")
            % {"number": number, "number_too": saved.revision.number},
        )
    return redirect("book-history")
