"""Where deeds are noted without a view having to think of it: files that leave, refusals, and who signs in."""

from __future__ import annotations

import re
from collections.abc import Callable

from django.contrib.auth import get_user_model
from django.contrib.auth.signals import user_logged_in, user_login_failed
from django.db import connections
from django.dispatch import receiver
from django.http import HttpRequest, HttpResponse

from rodbook.desk.keeping.backups import Backup, is_sealed
from rodbook.desk.models import Folder
from rodbook.desk.platform.deeds import DESK, HERE, Doing, note, note_by

__all__ = ["Noting", "note_own_backup"]

_FILE_NAME = re.compile(r'filename="?([^";]{1,200})"?')


class Noting:
    """Notes every file that leaves as one, by the head of its answer, and whoever is refused a page inside."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what comes after."""
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on, and look at the answer."""
        reply = self.get_response(request)
        match = request.resolver_match
        if match is None or request.method == "HEAD":
            return reply
        answer = reply.get("Content-Disposition", "")
        if reply.status_code == 200 and answer.startswith("attachment"):
            result = _FILE_NAME.search(answer)
            note(
                request,
                Doing.FILE_TAKEN,
                page=match.url_name,
                file=result[1] if result else "",
                job=_job(match.kwargs.get("pk")),
                prices="X-Rodbook-Barred" in reply,
            )
        elif reply.status_code == 403 and request.user.is_authenticated:
            note(request, Doing.REFUSED, page=match.url_name)
        return reply


def _job(pk: object) -> str:
    """Name of the job that a page is of; empty where it is of none."""
    result = Folder.objects.filter(pk=pk).first() if isinstance(pk, int) else None
    return result.name if result else ""


@receiver(user_logged_in)
def _signed_in(request: HttpRequest, user: object, **_: object) -> None:
    """Note whoever signed in."""
    note(request, Doing.SIGNED_IN, name=user.get_username())  # type: ignore[attr-defined]


@receiver(user_login_failed)
def _wrong(credentials: dict[str, str], request: HttpRequest | None = None, **_: object) -> None:
    """Note a wrong try; a name that nobody has is not written down, as it may be a password typed in the wrong field."""
    if request is None:
        return
    typed = credentials.get("username", "")
    known = get_user_model().objects.filter(username=typed).first()
    note(request, Doing.WRONG_PASSWORD, name=known.get_username() if known else "")


def note_own_backup(made: Backup) -> None:
    """Note a backup that the desk made by itself, in whatever thread."""
    note_by(DESK, HERE, Doing.BACKUP_MADE, file=made.path.name, length=made.length, sealed=is_sealed(made.path))
    connections.close_all()
