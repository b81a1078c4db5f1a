"""A document whose newest revision is damaged: said to whoever opens it, and the owner goes on from the newest sound one."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.access import is_owner, needs_owner, who
from rodbook.errors import InputError

__all__ = ["damaged", "go_on"]


def damaged(request: HttpRequest, error: store.Unreadable) -> HttpResponse:
    """Say which document can't be read, and from which revision its owner can go on."""
    owner = hasattr(request, "user") and is_owner(request)
    try:
        sound = store.newest_sound(error.folder) if owner else None
    except store.Unreadable as other:  # a job is read with the book, so the book comes first
        error = other
        sound = store.newest_sound(error.folder)
    context = {"folder": error.folder, "number": error.number, "sound": sound, "owner": owner}
    return render(request, "desk/damaged.html", context, status=503)


@require_POST
@needs_owner
def go_on(request: HttpRequest, pk: int) -> HttpResponse:
    """Go on from an earlier revision."""
    folder = get_object_or_404(Folder, pk=pk, kind__in=(Kind.JOB, Kind.BOOK))
    number = request.POST.get("number", "")
    if not (number.isascii() and number.isdecimal() and len(number) < 10):
        raise Http404
    try:
        revision = store.go_on_from(folder, int(number), who=who(request))
    except Revision.DoesNotExist:
        raise Http404 from None
    except InputError as error:
        messages.error(request, f"{str(error)[:1].upper()}{str(error)[1:]}.")
    else:
        text = _("Gone on from revision %(number)s, as revision %(now)s. What was saved after it is kept as it is.")
        messages.success(request, text % {"number": number, "now": revision.number})
    return redirect("book") if folder.kind == Kind.BOOK else redirect("job", pk=pk)
