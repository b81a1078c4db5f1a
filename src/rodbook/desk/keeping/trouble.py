"""What the disk or the database refuses, told in a sentence: a full disk, one that is only read, a damaged page."""

from __future__ import annotations

import errno
import logging
import sqlite3
from collections.abc import Callable
from enum import StrEnum

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.utils.translation import gettext as _

from rodbook.desk.keeping.damage_views import damaged
from rodbook.desk.platform.errors import bare
from rodbook.desk.platform.store import Unreadable

__all__ = ["Trouble", "TroubleKind", "kind_of"]

_log = logging.getLogger(__name__)


class TroubleKind(StrEnum):
    """What is refused."""

    FULL = "full"
    READ_ONLY = "read-only"
    DAMAGED = "damaged"


_OF_DATABASE = {
    sqlite3.SQLITE_FULL: TroubleKind.FULL,
    sqlite3.SQLITE_READONLY: TroubleKind.READ_ONLY,
    sqlite3.SQLITE_CANTOPEN: TroubleKind.READ_ONLY,
    sqlite3.SQLITE_PERM: TroubleKind.READ_ONLY,
    sqlite3.SQLITE_CORRUPT: TroubleKind.DAMAGED,
    sqlite3.SQLITE_NOTADB: TroubleKind.DAMAGED,
}
_OF_SYSTEM = {
    errno.ENOSPC: TroubleKind.FULL,
    errno.EDQUOT: TroubleKind.FULL,
    errno.EROFS: TroubleKind.READ_ONLY,
}


def kind_of(error: BaseException | None) -> TroubleKind | None:
    """Say what kind of trouble lies behind an error, by the codes of database and system; None where it is another.

    Examples
    --------
    >>> kind_of(OSError(errno.ENOSPC, "anything")), kind_of(ValueError("disk full"))
    (<TroubleKind.FULL: 'full'>, None)
    """
    while error is not None:
        code = getattr(error, "sqlite_errorcode", None)
        if isinstance(code, int) and (code & 0xFF) in _OF_DATABASE:
            return _OF_DATABASE[code & 0xFF]
        if isinstance(error, OSError) and error.errno in _OF_SYSTEM:
            return _OF_SYSTEM[error.errno]
        error = error.__cause__ or error.__context__
    return None


def sentence(kind: TroubleKind) -> str:
    """Say what is wrong and what to do."""
    if kind is TroubleKind.FULL:
        return _(
            "The disk is full, so nothing was saved; what was saved before stands. Make room on it, then go back and try again: "
            "what you typed is still on the page before this one."
        )
    if kind is TroubleKind.READ_ONLY:
        return _(
            "The desk's folder can't be written, so nothing was saved; what was saved before stands. See whether its disk is "
            "there and may be written, then go back and try again."
        )
    return _(
        "The desk's database is damaged where this page reads it. Other pages go on. Run rodbook desk-check on the desk's "
        "machine: it names what is damaged, and which backup brings it back."
    )


class Trouble:
    """Turns what disk and database refuse into a page that says so."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what comes after."""
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on; what the layers below meet themselves (a session that can't be kept) is told too."""
        try:
            return self.get_response(request)
        except Exception as error:
            reply = self.process_exception(request, error)
            if reply is None:
                raise
            return reply

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """Answer for an error of these kinds."""
        if isinstance(error, Unreadable):
            _log.error("damaged on %s: %s", request.path, error)
            return damaged(request, error)
        kind = kind_of(error)
        if kind is None:
            return None
        _log.error("%s on %s: %s", kind, request.path, error)
        status = 507 if kind is TroubleKind.FULL else 503
        if "json" in request.headers.get("Accept", ""):  # a phone keeps what it sent, tells why, and sends it again
            return JsonResponse({"state": "later", "said": sentence(kind)}, status=status)
        return bare(_("Not saved") if kind is not TroubleKind.DAMAGED else _("Damaged"), sentence(kind), status)
