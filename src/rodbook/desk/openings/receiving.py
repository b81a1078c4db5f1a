"""Readings as they come in: each known by a key, taken once however often it is sent, and put into the job when it can be.

A phone without signal keeps what is typed and sends it later, in order. An answer that is lost on its way leads to the same
reading being sent again; its key tells that it is here already.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db import IntegrityError
from django.utils.translation import gettext as _

from rodbook.desk.models import Folder, Revision, Role, Sent
from rodbook.desk.openings.drafts import ABOUT as ABOUT_FIELDS
from rodbook.desk.openings.drafts import (
    Ready,
    about_of,
    base_of,
    draft_of,
    drop_overtaken,
    keep,
    readings_of,
    ready,
    settle,
)
from rodbook.desk.openings.measuring import Place, doubt_of
from rodbook.desk.platform import store
from rodbook.desk.platform.history_lines import lines_for
from rodbook.errors import InputError
from rodbook.job import Book, Job, Opening
from rodbook.job.units import parse_length
from rodbook.working import number

__all__ = ["Answer", "Note", "came_already", "found_for", "own_base", "receive", "went_in"]


@dataclass(frozen=True)
class Note:
    """A reading as the phone sends it.

    Parameters
    ----------
    key : UUID
        Made by the phone, one for each reading that is typed.
    device : str
        Which phone.
    mark : str
        The opening.
    place : Place
    typed : str
        As typed, or the offer that was chosen.
    base : int
        Revision that the page showed when it was typed.
    sure : bool
        Whether `typed` is the answer to a question whether it was meant.
    choice : str
        Where two people read the same: ``mine``, ``theirs``, or nothing while that has not been asked.
    when : datetime, optional
        By the phone's clock.
    """

    key: UUID
    device: str
    mark: str
    place: Place
    typed: str
    base: int
    sure: bool = False
    choice: str = ""
    when: datetime | None = None


@dataclass(frozen=True)
class Answer:
    """What became of a reading.

    Parameters
    ----------
    state : str
        ``kept``, ``asks`` (it stands out), ``clash`` (somebody else changed the same), or ``refused``.
    said : str
        Whole sentences.
    offers : tuple of str
        What may be meant, where it asks.
    """

    state: str
    said: str
    offers: tuple[str, ...] = ()


def came_already(key: UUID | None) -> Sent | None:
    """The note that a reading with this key came in before; None where it did not."""
    return Sent.objects.filter(key=key).first() if key else None


def own_base(folder: Folder, note: Note) -> int:
    """Revision to compare with: what this same phone saved at this place after it showed the page clashes with nothing."""
    own = Sent.objects.filter(folder=folder, device=note.device, mark=note.mark, place=note.place.name)
    return max([note.base, *own.values_list("revision", flat=True)])


def found_for(
    folder: Folder, head: int, job: Job, book: Book, mark: str, draft: Mapping[str, object], base: int
) -> tuple[Ready, int]:
    """What of a draft can go in, worked out on the revision that its readings were taken on, and that revision."""
    began = job
    if base != head:
        try:
            began = store.job_at(folder, base)[1]
        except Revision.DoesNotExist:
            base = head
    return ready(began, book, mark, draft), base


def went_in(folder: Folder, mark: str, fields: tuple[str, ...]) -> None:
    """Clear up after a save: what stands in the job leaves the draft, and its notes say with which revision it went in."""
    revision, now = store.job_now(folder)
    if not any(o.mark == mark for o in now.openings):
        return
    settle(folder, mark, fields, ABOUT_FIELDS)
    waiting = Sent.objects.filter(folder=folder, mark=mark, revision=0)
    pks = [sent.pk for sent in waiting if sent.place.split("-")[0] in fields]
    Sent.objects.filter(pk__in=pks).update(revision=revision.number)


def _opening(job: Job, mark: str) -> Opening | None:
    return next((o for o in job.openings if o.mark == mark), None)


def receive(folder: Folder, head: Revision, job: Job, book: Book, note: Note, *, who: str) -> Answer:
    """Take a reading in.

    Parameters
    ----------
    folder : Folder
    head : Revision
        The newest.
    job : Job
        As it stands.
    book : Book
    note : Note
    who : str
        Name for the revision.
    """
    opening = _opening(job, note.mark)
    base = own_base(folder, note)
    earlier = came_already(note.key)
    if earlier is None:
        answer = _taken(folder, job, note, base, who)
        if answer is not None:
            return answer
    elif note.choice == "theirs":
        drop_overtaken(folder, note.mark, opening, head.number)
        return Answer("kept", _("%(mark)s: left as it was saved meanwhile.") % {"mark": note.mark})
    draft = draft_of(folder, note.mark, opening)
    base = head.number if note.choice == "mine" else base_of(folder, note.mark, base)
    result, base = found_for(folder, head.number, job, book, note.mark, draft, base)
    if result.job is None:
        return Answer("kept", " ".join(f"{note.mark}: {sentence}." for sentence in result.faults))
    ready_job = result.job  # made from the job as it stood at `base`
    try:
        saved = store.save(folder, base, lambda _began: ready_job, who=who, book=book)
    except store.Overtaken as error:
        return _clash(error)
    except InputError as error:
        sentence = "; ".join(str(fault) for fault in error.faults)
        return Answer(
            "kept", _("%(mark)s: kept, and not in the job yet: %(why)s.") % {"mark": note.mark, "why": sentence}
        )
    went_in(folder, note.mark, result.fields)
    if saved.meanwhile is not None and saved.meanwhile.who != who:
        changed = "; ".join(lines_for(Role.READER, saved.meanwhile))
        return Answer(
            "kept",
            _("%(who)s saved meanwhile: %(changed)s. Both changes stand.")
            % {"who": saved.meanwhile.who, "changed": changed},
        )
    return Answer("kept", "")


def _taken(folder: Folder, job: Job, note: Note, base: int, who: str) -> Answer | None:
    """Keep a reading that has not come before; an answer where it can't be kept as it is."""
    opening = _opening(job, note.mark)
    draft = draft_of(folder, note.mark, opening)
    try:
        value = parse_length(note.typed)
    except ValueError as error:
        return Answer("refused", f"{note.mark}, {note.place.words}: {error}.")
    readings = readings_of(opening, draft)
    others = {name: known for name, known in readings.items() if name != note.place.name}
    doubt = doubt_of(note.place, value, others, raked=about_of(opening, draft).get("head") == "raked")
    if doubt is not None and not (note.sure and value in doubt.offers):
        offers = tuple(number(offer).removesuffix(".0") for offer in doubt.offers)
        return Answer("asks" if offers else "refused", f"{note.mark}: {doubt.why}.", offers)
    sent = Sent(
        key=note.key,
        folder=folder,
        device=note.device,
        mark=note.mark,
        place=note.place.name,
        value=value,
        typed=note.when,
        who=who,
    )
    try:
        keep(folder, note.mark, {note.place.name: value}, base=base, opening=opening, sent=sent)
    except IntegrityError:  # the same key came in twice at once, and the other was quicker
        if came_already(note.key) is None:
            raise
    return None


def _clash(error: store.Overtaken) -> Answer:
    listed = "; ".join(_("%(where)s: %(theirs)s there, %(mine)s here") % vars(c) for c in error.both.clashes)
    return Answer(
        "clash",
        _(
            "%(who)s saved revision %(number)s meanwhile and you both read the same: %(listed)s. "
            "Yours is kept beside it, and not in the job yet."
        )
        % {"who": error.head.who, "number": error.head.number, "listed": listed},
    )
