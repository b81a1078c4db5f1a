"""What was saved when, by whom, and what changed; taking a change back; two revisions side by side."""

from __future__ import annotations

import json

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.access import is_owner, refuse, role_of, who
from rodbook.desk.platform.history_lines import faults_for, lines_between, lines_for
from rodbook.desk.platform.job_page import job_page, read_base
from rodbook.desk.platform.renaming import follow, renamed
from rodbook.desk.platform.roles import seen_by, with_hidden_of
from rodbook.desk.platform.saving import saved_or_told
from rodbook.errors import InputError

__all__ = ["compare", "settle", "show", "undo"]

PAGE = 50


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """Every revision, newest first."""
    page = job_page(pk)
    revisions = Paginator(page.folder.revisions.all(), PAGE).get_page(request.GET.get("page"))
    role = role_of(request)
    lines = [(revision, lines_for(role, revision)) for revision in revisions]
    return render(request, "desk/history.html", page.context("history", revisions=revisions, told=lines))


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
    if broken := [one.number for one in (old, new) if not one.readable]:
        messages.error(request, _("Revision %(number)s is damaged and can't be compared.") % {"number": broken[0]})
        return redirect("history", pk=pk)
    answer = lines_between(role_of(request), Kind.JOB, old.document, new.document)
    return render(request, "desk/compare.html", page.context("history", old=old, new=new, said=answer))


@require_POST
def settle(request: HttpRequest, pk: int) -> HttpResponse:
    """Save what two people's changes put together are, where one has decided which of the clashing values stands."""
    folder = get_object_or_404(Folder, pk=pk, kind__in=(Kind.JOB, Kind.BOOK))
    if folder.kind == Kind.BOOK and not is_owner(request):
        return refuse(request, _("Only the owner changes the book."))
    book = store.book_now()[2]
    try:
        raw = json.loads(request.POST.get("document", "null"))
        if isinstance(raw, dict):
            answer = saved_or_told(
                request,
                folder,
                read_base(request),
                lambda began: with_hidden_of(role_of(request), folder.kind, raw, began),
                book,
            )
            if answer is not None:
                return answer
        else:
            store.read_document(folder.kind, raw, book)  # says what is wrong with it
    except InputError as error:
        why = "; ".join(faults_for(role_of(request), folder.kind, error.faults))
        messages.error(request, _("This can't be saved: %(error)s.") % {"error": why})
    except (ValueError, RecursionError) as error:
        messages.error(request, _("This can't be saved: %(error)s.") % {"error": error})
    return redirect("jobs") if folder.kind == Kind.BOOK else redirect("job", pk=pk)


def _hidden(request: HttpRequest, folder: Folder, number: int) -> bool:
    """Whether a revision changed what whoever asks does not see."""
    revision = folder.revisions.filter(number=number).first()
    return revision is not None and seen_by(role_of(request), folder.kind, revision.changed())[1]


@require_POST
def undo(request: HttpRequest, pk: int, number: int) -> HttpResponse:
    """Take one revision back."""
    page = job_page(pk)
    if _hidden(request, page.folder, number):
        return refuse(request, _("This revision changed how the job is priced; only the owner takes it back."))
    try:
        saved = store.undo(page.folder, number, who=who(request), book=page.book)
    except store.Overtaken as error:
        clashes = "; ".join(clash.where for clash in error.both.clashes)
        messages.error(
            request,
            _(
                "Revision %(number)s can't be taken back alone: later ones changed the same (%(clashes)s). Take those back first."
            )
            % {"number": number, "clashes": clashes},
        )
    except Revision.DoesNotExist:
        raise Http404 from None
    except store.Unreadable as error:
        messages.error(
            request, _("Revision %(number)s is damaged, so nothing can be taken back by it.") % {"number": error.number}
        )
    except InputError as error:
        text = "; ".join(faults_for(role_of(request), page.folder.kind, error.faults))
        messages.error(
            request,
            _("Revision %(number)s can't be taken back: %(error)s.") % {"number": number, "error": text},
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
