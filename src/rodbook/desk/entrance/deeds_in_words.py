"""Deeds in words, made from their codes when somebody reads them."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.models import Deed
from rodbook.desk.platform.deeds import COMMAND, DESK, HERE, Doing

__all__ = ["by_whom", "from_where", "said"]

_SAID = {
    Doing.SIGNED_IN: lazy("signed in"),
    Doing.SIGNED_OUT: lazy("signed out"),
    Doing.LINK_OPENED: lazy("came in by the link that works once"),
    Doing.WRONG_PASSWORD: lazy("a wrong password, or a name that nobody has"),
    Doing.WRONG_CODE: lazy("a wrong or used code after the right password"),
    Doing.MADE_TO_WAIT: lazy("had to wait: too many tries"),
    Doing.REFUSED: lazy("asked for what their role may not have: %(page)s"),
    Doing.ACCOUNT_MADE: lazy("let %(person)s in as %(role)s"),
    Doing.ACCOUNT_SHUT: lazy("shut the account of %(person)s"),
    Doing.ACCOUNT_OPENED: lazy("opened the account of %(person)s again"),
    Doing.ROLE_CHANGED: lazy("changed the role of %(person)s from %(before)s to %(after)s"),
    Doing.PASSWORD_GIVEN: lazy("gave %(person)s another password"),
    Doing.PASSWORD_CHANGED: lazy("changed their own password"),
    Doing.SESSIONS_ENDED: lazy("signed out everywhere else: %(number)s"),
    Doing.SECOND_ON: lazy("switched their own second step on"),
    Doing.SECOND_OFF: lazy("switched the second step of %(person)s off"),
    Doing.RECOVERY_USED: lazy("came past the second step with a code from paper; left: %(left)s"),
    Doing.RECOVERY_MADE: lazy("made codes for paper anew"),
    Doing.FILE_TAKEN: lazy("took %(file)s away"),
    Doing.BACKUP_MADE: lazy("made the backup %(file)s"),
    Doing.BACKUPS_SET: lazy("set how backups are made by themselves"),
}
"""What is said of each; a name stands for a parameter."""


class _Told(dict[str, object]):
    """Parameters; one that an older line does not have is said as such."""

    def __missing__(self, key: str) -> str:
        return "?"


def said(deed: Deed) -> str:
    """Say what was done."""
    try:
        doing = Doing(deed.doing)
    except ValueError:  # of another version
        return deed.doing
    parameters: Mapping[str, object] = deed.parameters
    words = str(_SAID[doing]) % _Told(parameters)
    if doing is Doing.FILE_TAKEN:
        if parameters.get("job"):
            words = _("%(words)s, of %(job)s") % {"words": words, "job": parameters["job"]}
        if parameters.get("prices"):
            words = _("%(words)s, with prices") % {"words": words}
    if doing is Doing.BACKUP_MADE:
        sealed = parameters.get("sealed")
        words = (_("%(words)s, sealed") if sealed else _("%(words)s, not sealed")) % {"words": words}
    return words


def by_whom(deed: Deed) -> str:
    """Say who."""
    own = {DESK: _("the desk itself"), COMMAND: _("the command line"), "": _("nobody who was in")}
    return own.get(deed.who, deed.who)


def from_where(deed: Deed) -> str:
    """Say from where."""
    return _("this machine") if deed.place == HERE else deed.place
