"""What was saved when, by whom, and what changed; taking a change back; two revisions side by side."""

from __future__ import annotations

import json

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk import store
from rodbook.desk.access import is_owner, refuse, sees_prices, who
from rodbook.desk.changes import in_words
from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.privacy import changes_price, keep_price, said_to
from rodbook.desk.renaming import follow, renamed
from rodbook.desk.saving import saved_or_told
from rodbook.desk.views.common import job_page, read_base
from rodbook.errors import InputError
from rodbook.job import Job

__all__ = ["compare", "settle", "show", "undo"]

PAGE = 50


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """Every revision, newest first."""
    page = job_page(pk)
    revisions = Paginator(page.folder.revisions.all(), PAGE).get_page(request.GET.get("page"))
    for revision in revisions:
        revision.said = said_to(revision.said, sees_prices=sees_prices(request))
    return render(request, "desk/history.html", page.context("history", revisions=revisions))


@require_safe
def compare(request: HttpRequest, pk: int) -> HttpResponse:
    """What changed between two revisions."""
    page = job_page(pk)
    numbers = [request.GET.get("from", ""), request.GET.get("to", "")]
    if not all(n.isdecimal() and len(n) < 9 for n in numbers):
        messages.error(request, _("Choose two revisions to compare."))
        return redirect("history", pk=pk)
    try:
        old, new = (page.folder.revisions.get(number=int(n)) for n in numbers)
    except Revision.DoesNotExist:
        raise Http404 from None
    said = said_to("\n".join(in_words(old.document, new.document)), sees_prices=sees_prices(request)).splitlines()
    return render(request, "desk/compare.html", page.context("history", old=old, new=new, said=said))


@require_POST
def settle(request: HttpRequest, pk: int) -> HttpResponse:
    """Save what two people's changes put together are, where one has decided which of the clashing values stands."""
    folder = get_object_or_404(Folder, pk=pk, kind__in=(Kind.JOB, Kind.BOOK))
    if folder.kind == Kind.BOOK and not is_owner(request):
        return refuse(request, _("Only the owner changes the book."))
    book = store.book_now()[2]
    try:
        value = store.read_document(folder.kind, json.loads(request.POST.get("document", "null")), book)
        if isinstance(value, Job) and not sees_prices(request):
            value = keep_price(value, store.job_now(folder)[1])
    except (ValueError, RecursionError) as error:
        messages.error(request, _("This can't be saved: %(error)s.") % {"error": error})
    else:
        if (told := saved_or_told(request, folder, read_base(request), value, book)) is not None:
            return told
    return redirect("jobs") if folder.kind == Kind.BOOK else redirect("job", pk=pk)


def _priced(folder: Folder, number: int) -> bool:
    documents = list(folder.revisions.filter(number__in=(number - 1, number)).values_list("document", flat=True))
    return len(documents) == 2 and changes_price(*documents)


@require_POST
def undo(request: HttpRequest, pk: int, number: int) -> HttpResponse:
    """Take one revision back."""
    page = job_page(pk)
    if not sees_prices(request) and _priced(page.folder, number):
        return refuse(request, _("This revision changed how the job is priced; only the owner takes it back."))
    try:
        saved = store.undo(page.folder, number, who=who(request), book=page.book)
    except store.Overtaken as error:
        clashes = "; ".join(clash.where for clash in error.both.clashes[:4])
        messages.error(
            request,
            _(
                "Revision %(number)s can't be taken back alone: later ones changed the same (%(clashes)s). Take those back first."
            )
            % {"number": number, "clashes": clashes},
        )
    except Revision.DoesNotExist:
        raise Http404 from None
    except InputError as error:
        messages.error(
            request,
            _("Revision %(number)s can't be taken back: %(error)s.") % {"number": number, "error": error.faults[0]},
        )
    else:
        now = store.job_now(page.folder)[1]
        follow(page.folder, renamed(page.job.openings, now.openings), now)
        messages.success(
            request,
            _("Revision %(number)s is taken back; that is revision %(number_too)s.")
            % {"number": number, "number_too": saved.revision.number},
        )
    return redirect("history", pk=pk)
