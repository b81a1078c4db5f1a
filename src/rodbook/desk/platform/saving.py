"""Saving from a page: what is said afterwards, and what is shown where somebody else was quicker."""

from __future__ import annotations

import json

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.access import role_of, who
from rodbook.desk.platform.history_lines import faults_for, lines_for
from rodbook.desk.platform.roles import may_see_at, seen_part
from rodbook.job import Book

__all__ = ["is_typing", "saved_or_told"]

MOST_NAMED = 2
"""So many changes are named when something is saved; of more it says how many (house assumption)."""


def is_typing(request: HttpRequest) -> bool:
    """Whether something is typed or ticked on the page that asks and not saved yet: then it is not taken away."""
    return request.headers.get("X-Rodbook-Typing") == "yes"


def _what(request: HttpRequest, revision: Revision) -> str:
    """Which revision was saved, of what, and what is new in it, as far as they see it."""
    lines = lines_for(role_of(request), revision)
    named = "; ".join(lines[:MOST_NAMED])
    if more := len(lines) - MOST_NAMED if len(lines) > MOST_NAMED else 0:
        named += _("; and %(more)s more") % {"more": more}
    text = _("Saved as revision %(number)s.") % {"number": revision.number}
    where = {Kind.BOOK: _("The book"), Kind.JOB: _("The job")}.get(Kind(revision.folder.kind), "")
    return f"{text} {where}: {named}." if named and where else text


def saved_or_told(
    request: HttpRequest, folder: Folder, base: int, change: store.Changing, book: Book | None
) -> HttpResponse | None:
    """Save a change of a document; None where it is saved, else a page that says what happened and keeps what was typed.

    Parameters
    ----------
    request : HttpRequest
    folder : Folder
    base : int
        Revision that the form was filled in on.
    change : callable
        See `store.save`: made to the document as that revision has it.
    book : Book, optional
        What a job is checked against.

    Raises
    ------
    InputError
        If the change itself is at fault.
    """
    try:
        saved = store.save(folder, base, change, who=who(request), book=book)
    except store.Overtaken as error:
        role, kind = role_of(request), folder.kind
        context = {
            "folder": folder,
            "head": error.head,
            "said": lines_for(role, error.head),
            "typed": json.dumps(seen_part(role, kind, error.both.document)),
            "clashes": [clash for clash in error.both.clashes if may_see_at(role, kind, clash.path)],
        }
        return render(request, "desk/overtaken.html", context, status=409)
    except Revision.DoesNotExist:
        messages.error(
            request, _("This page was too old to be saved: look at what stands here now and change it again.")
        )
        return None
    except store.FaultTogether as error:
        sentence = "; ".join(faults_for(role_of(request), folder.kind, error.faults))
        messages.error(
            request,
            _("Put together with what somebody else saved meanwhile it would be at fault: %(sentence)s.")
            % {"sentence": sentence},
        )
        return None
    if saved.meanwhile is not None:
        changed = "; ".join(lines_for(role_of(request), saved.meanwhile))
        messages.info(
            request,
            _("%(who)s saved meanwhile: %(changed)s. Both changes stand.")
            % {"who": saved.meanwhile.who, "changed": changed},
        )
    messages.success(request, _what(request, saved.revision))
    return None
