"""Who did what, when and from where: sign-ins, accounts, and what left the desk. Kept as codes; sentences are made last.

What was changed in a document is not here: each revision says that itself.
"""

from __future__ import annotations

import logging
from datetime import datetime, timedelta
from enum import StrEnum

from django.conf import settings
from django.contrib.auth.models import AbstractUser
from django.db import DatabaseError, transaction
from django.db.models import F
from django.http import HttpRequest
from django.utils import timezone

from rodbook.desk.models import Deed
from rodbook.desk.platform.turnstile import place_of

__all__ = [
    "COMMAND",
    "DESK",
    "HERE",
    "KEPT",
    "MOST_OF_STRANGERS",
    "OF_STRANGERS",
    "Doing",
    "forget_old",
    "note",
    "note_by",
]

KEPT = timedelta(days=730)
"""How long a deed is kept. House assumption."""

MOST_OF_STRANGERS = 10_000
"""So many wrong tries and refusals are kept; the oldest give way, and nothing else does. House assumption."""

TOGETHER = timedelta(hours=1)
"""The same wrong try or refusal again within this time is counted in one line. House assumption."""

DESK, COMMAND, HERE = "the desk", "the command line", "this machine"
"""Who and where, of what the desk does by itself or is told by its command line; no account has a name with a space."""

_log = logging.getLogger(__name__)


class Doing(StrEnum):
    """What was done."""

    SIGNED_IN = "signed-in"
    SIGNED_OUT = "signed-out"
    LINK_OPENED = "link-opened"
    WRONG_PASSWORD = "wrong-password"  # noqa: S105  a code
    WRONG_CODE = "wrong-code"
    MADE_TO_WAIT = "made-to-wait"
    REFUSED = "refused"
    ACCOUNT_MADE = "account-made"
    ACCOUNT_SHUT = "account-shut"
    ACCOUNT_OPENED = "account-opened"
    ROLE_CHANGED = "role-changed"
    PASSWORD_GIVEN = "password-given"  # noqa: S105  a code
    PASSWORD_CHANGED = "password-changed"  # noqa: S105  a code
    SESSIONS_ENDED = "sessions-ended"
    SECOND_ON = "second-on"
    SECOND_OFF = "second-off"
    RECOVERY_USED = "recovery-used"
    RECOVERY_MADE = "recovery-made"
    FILE_TAKEN = "file-taken"
    BACKUP_MADE = "backup-made"
    BACKUPS_SET = "backups-set"


OF_STRANGERS = frozenset({Doing.WRONG_PASSWORD, Doing.WRONG_CODE, Doing.MADE_TO_WAIT, Doing.REFUSED})
"""What somebody can bring about again and again; it is counted together and held to a number."""


def note(request: HttpRequest, doing: Doing, *, name: str = "", **parameters: object) -> None:
    """Write down what somebody did.

    Parameters
    ----------
    request : HttpRequest
        Whose place, and whose name where none is given.
    doing : Doing
    name : str
        Who, where the request does not know it yet.
    **parameters
        What the sentence needs: plain values, never a password, a code or a price.
    """
    note_by(name or _name(request), place_of(request.META.get("REMOTE_ADDR", "")), doing, **parameters)


def _name(request: HttpRequest) -> str:
    user = getattr(request, "user", None)
    if settings.SHARED and isinstance(user, AbstractUser):
        return str(user.get_username())
    return "" if settings.SHARED else "this desk"


def note_by(name: str, place: str, doing: Doing, **parameters: object) -> None:
    """Write down what was done without a page; see `note`.

    What can't be written down is told in the log, and stops nobody.
    """
    try:
        with transaction.atomic():
            _keep(name[:150], place[:64], doing, parameters)
    except DatabaseError:
        _log.exception("%s by %s from %s could not be written down", doing, name, place)


def _keep(name: str, place: str, doing: Doing, parameters: dict[str, object]) -> None:
    now = timezone.now()
    if doing not in OF_STRANGERS:
        Deed.objects.create(who=name, place=place, doing=doing.value, parameters=parameters, when=now)
        if doing in (Doing.SIGNED_IN, Doing.LINK_OPENED):
            forget_old(now)
        return
    same = Deed.objects.filter(
        who=name, place=place, doing=doing.value, parameters=parameters, began__gt=now - TOGETHER
    ).order_by("-pk")
    last = same.first()
    if last is not None:
        Deed.objects.filter(pk=last.pk).update(times=F("times") + 1, when=now)
        return
    Deed.objects.create(who=name, place=place, doing=doing.value, parameters=parameters, when=now)
    kinds = [kind.value for kind in OF_STRANGERS]
    over = Deed.objects.filter(doing__in=kinds).order_by("-pk").values_list("pk", flat=True)[MOST_OF_STRANGERS:]
    if first := next(iter(over), None):
        Deed.objects.filter(doing__in=kinds, pk__lte=first).delete()


def forget_old(now: datetime) -> int:
    """Forget what is older than is kept; whoever comes in sets it going. Gives how many lines went."""
    return int(Deed.objects.filter(when__lt=now - KEPT).delete()[0])
