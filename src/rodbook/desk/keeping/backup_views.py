"""Backups: how they stand, made now, and how they are made by themselves."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.contrib import messages
from django.http import FileResponse, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from rodbook.desk.keeping.backups import (
    Contents,
    Newest,
    Schedule,
    make_backup,
    name_of,
    note_made,
    read_schedule,
    write_schedule,
)
from rodbook.desk.keeping.keeper import backup_state, keeper
from rodbook.desk.models import Folder, Photo, Revision
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.deeds import Doing, note
from rodbook.desk.platform.faults import Form
from rodbook.desk.platform.turns import aside
from rodbook.errors import Fault, InputError, StoreError

__all__ = ["make", "schedule", "show"]

MOST_DIGITS = 4
NUMBERS = ("hours", "newest", "days", "weeks", "months")


def _home() -> Path:
    return Path(settings.HOME)


def _held() -> Contents:
    """What a backup would have in it now."""
    last = Revision.objects.select_related("folder").order_by("-when", "-pk").first()
    newest = None if last is None else Newest(last.folder.name, last.number, last.who, last.when.isoformat())
    return Contents(Folder.objects.count(), Revision.objects.count(), Photo.objects.count(), newest)


def _page(request: HttpRequest, form: Form | None = None) -> HttpResponse:
    state = backup_state(_home())
    known = state.schedule or Schedule("")
    if form is None:
        form = Form({"folder": known.folder, **{name: str(getattr(known, name)) for name in NUMBERS}})
    context = {
        "state": state,
        "form": form,
        "held": _held(),
        "home": _home(),
        "numbers": NUMBERS,
    }
    return render(request, "desk/backups.html", context, status=422 if form.faults else 200)


@require_safe
@needs_owner
def show(request: HttpRequest) -> HttpResponse:
    """How backups stand."""
    return _page(request)


@sensitive_post_parameters("passphrase")
@require_POST
@needs_owner
def schedule(request: HttpRequest) -> HttpResponse:
    """Keep how backups are made by themselves, or that none are."""
    typed = {name: request.POST.get(name, "").strip() for name in ("folder", *NUMBERS, "passphrase")}
    if request.POST.get("off"):
        write_schedule(_home(), None)
        note(request, Doing.BACKUPS_SET, on=False)
        keeper.fault = ""
        messages.success(request, _("No backups are made by themselves from now on."))
        return redirect("backups")
    wrong = [Fault(n, "form.not_whole") for n in NUMBERS if not typed[n].isdecimal() or len(typed[n]) > MOST_DIGITS]
    if wrong:
        return _page(request, Form({**typed, "passphrase": ""}, tuple(wrong)))
    before = read_schedule(_home())
    passphrase = typed["passphrase"] or (before.passphrase if before and request.POST.get("sealed") else "")
    try:
        hours, newest, days, weeks, months = (int(typed[name]) for name in NUMBERS)
        write_schedule(_home(), Schedule(typed["folder"], hours, newest, days, weeks, months, passphrase))
    except InputError as error:
        return _page(request, Form({**typed, "passphrase": ""}, error.faults))
    except StoreError as error:
        messages.error(request, f"{str(error)[:1].upper()}{str(error)[1:]}.")
    else:
        note(request, Doing.BACKUPS_SET, on=True, folder=typed["folder"], sealed=bool(passphrase))
        keeper.look(_home(), datetime.now(UTC))
        if not keeper.fault:
            messages.success(request, _("Backups are made by themselves while the desk runs."))
    return redirect("backups")


@require_POST
@needs_owner
@aside()
def make(request: HttpRequest) -> HttpResponseBase:
    """Make a backup now: into the folder of the schedule where there is one, else to be taken away."""
    now, known = datetime.now(UTC), read_schedule(_home())
    try:
        if known is not None and not request.POST.get("take"):
            result = make_backup(_home(), Path(known.folder) / name_of(now), passphrase=known.passphrase, now=now)
            keeper.fault = ""
            messages.success(request, _("The backup is made: %(path)s.") % {"path": result.path})
            reply: HttpResponseBase = redirect("backups")
        else:
            with tempfile.TemporaryDirectory(prefix="backup-", dir=_home()) as folder:
                sealed = known.passphrase if known else ""
                result = make_backup(_home(), Path(folder) / name_of(now), passphrase=sealed, now=now)
                taken = result.path.open("rb")  # stays readable after the folder is gone
            headers = {"Cache-Control": "no-store"}
            reply = FileResponse(taken, as_attachment=True, filename=result.path.name, headers=headers)
    except StoreError as error:
        messages.error(request, f"{str(error)[:1].upper()}{str(error)[1:]}.")
        return redirect("backups")
    note_made(_home(), result)
    note(
        request, Doing.BACKUP_MADE, file=result.path.name, length=result.length, sealed=bool(known and known.passphrase)
    )
    return reply
