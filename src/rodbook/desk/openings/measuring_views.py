"""Measuring on site: one opening, one reading at a time, each kept as it is entered."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.dateparse import parse_datetime
from django.utils.http import urlencode
from django.utils.timezone import is_aware
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe
from pydantic import ValidationError

from rodbook.desk.models import Draft, Photo, Sent
from rodbook.desk.openings.checked import checked_so_far
from rodbook.desk.openings.drafts import ABOUT, about_of, base_of, draft_of, keep, not_in, readings_of, ready
from rodbook.desk.openings.measuring import (
    PLACES,
    Doubt,
    Place,
    after,
    before,
    doubt_of,
    first_open,
    place_named,
    places_shown,
    sketch,
)
from rodbook.desk.openings.receiving import Note, came_already, found_for, own_base, went_in
from rodbook.desk.platform import store
from rodbook.desk.platform.access import who
from rodbook.desk.platform.changes import Value
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.job_page import JobPage, job_page, read_base
from rodbook.desk.platform.saving import saved_or_told
from rodbook.errors import Fault, InputError
from rodbook.job import Book, Opening
from rodbook.job.marks import mark_faults, spoken
from rodbook.job.units import parse_length

__all__ = ["about", "begin", "marks_of", "one", "overview", "read_note"]


def marks_of(page: JobPage) -> list[str]:
    """Name every opening in its order: those of the job, then those that are only begun."""
    marks = [o.mark for o in page.job.openings]
    return marks + [d.mark for d in Draft.objects.filter(folder=page.folder) if d.mark not in marks]


def _opening(page: JobPage, mark: str) -> Opening | None:
    return next((o for o in page.job.openings if o.mark == mark), None)


@require_safe
def overview(request: HttpRequest, pk: int) -> HttpResponse:
    """Which openings there are to measure, and how far each is."""
    page = job_page(pk)
    return _overview(request, page, Form({}))


def _overview(request: HttpRequest, page: JobPage, form: Form) -> HttpResponse:
    drafts = {d.mark: not_in(_opening(page, d.mark), d.readings) for d in Draft.objects.filter(folder=page.folder)}
    entries = []
    for mark in marks_of(page):
        opening, draft = _opening(page, mark), drafts.get(mark, {})
        entries.append(
            {
                "mark": mark,
                "room": about_of(opening, draft).get("room", ""),
                "planned": opening is not None and opening.state == "planned",
                "taken": sum(place.name in readings_of(opening, draft) for place in PLACES),
                "of": len(PLACES),
                "waiting": any(place_named(name) for name in draft),
            }
        )
    context = page.context("openings", entries=entries, form=form)
    return render(request, "desk/measure_list.html", context, status=422 if form.faults else 200)


@require_POST
def begin(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin an opening that is not in the job yet; it goes in when its widths and heights are read."""
    page = job_page(pk)
    typed = {name: request.POST.get(name, "").strip() for name in ("mark", "room", "leaves")}
    try:
        opening = Opening.model_validate({"mark": typed["mark"], "room": typed["room"], "leaves": typed["leaves"] or 1})
        _refuse_taken(page, opening.mark)
    except ValueError as error:
        faults = error.faults if isinstance(error, InputError) else _begin_faults(typed)
        return _overview(request, page, Form(typed, faults))
    keep(page.folder, opening.mark, {"room": opening.room, "leaves": opening.leaves})
    return redirect("measure", pk=pk, mark=opening.mark)


def _refuse_taken(page: JobPage, mark: str) -> None:
    if any(ord(character) < 32 or character in "/\\?#%" for character in mark) or mark.strip(".") == "":
        raise InputError.at("mark", "form.not_a_mark")
    taken = [*marks_of(page), *(panel.mark for panel in page.job.panels)]
    if spoken(mark) in {spoken(known) for known in taken}:
        raise InputError.at("mark", "desk.mark_there_already", mark=mark)
    if faults := list(mark_faults([("", mark)])):
        raise InputError(faults[0].moved("mark"))


def _begin_faults(typed: Mapping[str, str]) -> list[Fault]:
    faults = []
    if not typed["mark"]:
        faults.append(Fault("mark", "form.opening_without_mark"))
    elif len(typed["mark"]) > 80:
        faults.append(Fault("mark", "form.mark_too_long"))
    if typed["leaves"] not in ("", "1", "2", "3"):
        faults.append(Fault("leaves", "form.leaves_out_of_range"))
    if len(typed["room"]) > 400:
        faults.append(Fault("room", "form.text_too_long"))
    return faults


def _place(request: HttpRequest, readings: Mapping[str, float]) -> Place:
    asked = request.POST.get("reading") or request.GET.get("reading") or ""
    return place_named(asked) or first_open(readings)


def read_note(request: HttpRequest, mark: str, place: Place) -> Note | None:
    """A reading with the key that the phone gave it; None where there is no key, as without scripts."""
    try:
        key = UUID(request.POST.get("key", ""))
    except ValueError:
        return None
    typed = (request.POST.get("sure") or request.POST.get("value", "")).strip()
    when = None
    with suppress(ValueError):
        when = parse_datetime(request.POST.get("at", ""))
    return Note(
        key,
        request.POST.get("device", "")[:40],
        mark,
        place,
        typed,
        read_base(request),
        "sure" in request.POST,
        request.POST.get("choice", ""),
        when if when is not None and is_aware(when) else None,
    )


def _there(pk: int, mark: str, place: Place) -> str:
    return f"{reverse('measure', kwargs={'pk': pk, 'mark': mark})}?{urlencode({'reading': place.name})}"


def _fragment(
    request: HttpRequest,
    page: JobPage,
    mark: str,
    place: Place,
    *,
    typed: str = "",
    fault: str = "",
    doubt: Doubt | None = None,
    form: Form | None = None,
    base: int | None = None,
) -> HttpResponse:
    """Render the whole page, or only its working part where htmx asks."""
    opening, draft = _opening(page, mark), draft_of(page.folder, mark, _opening(page, mark))
    readings, known = readings_of(opening, draft), about_of(opening, draft)
    raked = known.get("head") == "raked"
    marks = marks_of(page)
    at = marks.index(mark)
    waiting = ready(page.job, page.book, mark, draft)
    context = page.bare_context(
        "openings",
        mark=mark,
        opening=opening,
        place=place,
        previous=before(place),
        following=after(place),
        places=[(p, readings.get(p.name), p.name in draft) for p in places_shown(readings, place)],
        checked=checked_so_far(opening, known, readings, page.book, page.job.job.age),
        sketch=sketch(readings, place, raked=raked),
        value=typed,
        kept=readings.get(place.name),
        fault=fault,
        doubt=doubt,
        in_the_way=waiting.faults,
        unfinished=any(place_named(name) for name in draft) and not waiting.faults,
        form=form or Form(known),
        about=known,
        opening_before=marks[at - 1] if at else "",
        opening_after=marks[at + 1] if at + 1 < len(marks) else "",
        number=at + 1,
        count=len(marks),
        base=page.revision.number if base is None else base,
        photos=Photo.objects.filter(folder=page.folder, mark=mark),
    )
    piece = getattr(request, "htmx", False)
    template = "desk/_measure.html" if piece else "desk/measure.html"
    return render(
        request, template, {**context, "piece": piece}, status=422 if fault or (form and form.faults) else 200
    )


@require_http_methods(["GET", "HEAD", "POST"])
def one(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """One opening; a POST is one reading, kept at once and asked about where it stands out."""
    page = job_page(pk)
    if mark not in marks_of(page):
        raise Http404
    opening, draft = _opening(page, mark), draft_of(page.folder, mark, _opening(page, mark))
    readings = readings_of(opening, draft)
    place = _place(request, readings)
    if request.method != "POST":
        return _fragment(request, page, mark, place)
    note = read_note(request, mark, place)
    if note is not None and came_already(note.key) is not None:
        return _next(request, page, mark, place)
    base = own_base(page.folder, note) if note else read_base(request)
    typed = (request.POST.get("sure") or request.POST.get("value", "")).strip()
    if not typed and place.name in readings:
        return _next(request, page, mark, place)
    try:
        value = parse_length(typed)
    except ValueError as error:
        return _fragment(
            request, page, mark, place, typed=typed, fault=f"{str(error)[:1].upper()}{str(error)[1:]}.", base=base
        )
    raked = about_of(opening, draft).get("head") == "raked"
    others = {name: known for name, known in readings.items() if name != place.name}
    doubt = doubt_of(place, value, others, raked=raked)
    if doubt is not None and ("sure" not in request.POST or value not in doubt.offers):
        return _fragment(request, page, mark, place, typed=typed, doubt=doubt, base=base)
    sent = (
        None
        if note is None
        else Sent(
            key=note.key,
            folder=page.folder,
            device=note.device,
            mark=mark,
            place=place.name,
            value=value,
            typed=note.when,
            who=who(request),
        )
    )
    draft = keep(page.folder, mark, {place.name: value}, base=base, opening=opening, sent=sent)
    if (answer := _put_in(request, page, mark, draft, base)) is not None:
        return answer
    return _next(request, page, mark, place)


def _put_in(
    request: HttpRequest, page: JobPage, mark: str, draft: Mapping[str, object], base: int
) -> HttpResponse | None:
    """Save what of a draft is complete; a page to show instead where somebody else changed the same."""
    base = base_of(page.folder, mark, base)
    result, base = found_for(page.folder, page.revision.number, page.job, page.book, mark, draft, base)
    if result.job is None:
        return None
    ready_job = result.job  # made from the job as it stood at `base`
    answer = saved_or_told(request, page.folder, base, lambda _began: ready_job, page.book)
    if answer is not None:
        if getattr(request, "htmx", False):
            answer["HX-Retarget"], answer["HX-Reswap"] = "body", "innerHTML"
        return answer
    went_in(page.folder, mark, result.fields)
    return None


def _next(request: HttpRequest, page: JobPage, mark: str, place: Place) -> HttpResponse:
    following = after(place) or place
    if getattr(request, "htmx", False):
        return _fragment(request, job_page(page.folder.pk), mark, following)
    return redirect(_there(page.folder.pk, mark, following))


def _seen_beside(mark: str, given: Mapping[str, str], book: Book) -> store.Changing:
    """The change that puts down what is seen beside the readings of one opening."""

    def put_down(began: store.Document) -> store.Kept:
        listed = began.get("openings")
        document: list[Value] = [
            {**{k: v for k, v in entry.items() if k not in ABOUT}, **given} if entry.get("mark") == mark else entry
            for entry in (listed if isinstance(listed, list) else [])
            if isinstance(entry, dict)
        ]
        number = next(
            (n for n, entry in enumerate(document, 1) if isinstance(entry, dict) and entry.get("mark") == mark), 0
        )
        return store.read_job_document({**began, "openings": document}, book, held=("openings", number))

    return put_down


@require_POST
def about(request: HttpRequest, pk: int, mark: str) -> HttpResponse:
    """What is seen beside the readings: room, leaves, hand, shape of the head, note."""
    page = job_page(pk)
    if mark not in marks_of(page):
        raise Http404
    opening, draft = _opening(page, mark), draft_of(page.folder, mark, _opening(page, mark))
    readings = readings_of(opening, draft)
    place = _place(request, readings)
    typed = {name: request.POST.get(name, "").strip() for name in ABOUT}
    given = {name: text for name, text in typed.items() if text}
    base = read_base(request)
    try:
        Opening.model_validate({"mark": mark, **given})
        if opening is not None:
            change = _seen_beside(mark, given, page.book)
            if (answer := saved_or_told(request, page.folder, base, change, page.book)) is not None:
                return answer
        else:
            draft = keep(page.folder, mark, typed)
            messages.success(request, _("Kept."))
    except ValueError as error:
        form = Form(typed, _about_faults(error, mark))
        return _fragment(request, page, mark, place, form=form, base=base)
    if not draft:
        return redirect(_there(pk, mark, place))
    fresh = job_page(pk)
    if (
        answer := _put_in(
            request, fresh, mark, draft_of(page.folder, mark, _opening(fresh, mark)), fresh.revision.number
        )
    ) is not None:
        return answer
    return redirect(_there(pk, mark, place))


def _about_faults(error: ValueError, mark: str) -> list[Fault]:
    """Faults with the field as their place."""
    if isinstance(error, InputError):
        results = [
            (fault.at.path[-1] if fault.at.mark == mark and fault.at.path else "", fault) for fault in error.faults
        ]
        return [fault.moved(str(name)) if name in ABOUT else fault for name, fault in results]
    errors = error.errors() if isinstance(error, ValidationError) else []
    return [Fault(str(entry["loc"][0]), "form.wont_do", typed=entry["input"]) for entry in errors]
