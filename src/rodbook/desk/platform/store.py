"""Saving and finding documents: one function for each thing a person does, each save one short transaction.

Nothing is worked out or typeset inside a transaction, as each holds the only write lock.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from django.db import transaction
from django.db.models import F, QuerySet
from pydantic import ValidationError

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform.changes import Change, Merged, Value, changed, merged
from rodbook.errors import InputError, StoreError
from rodbook.job import Book, Job
from rodbook.job.actuals import Actuals
from rodbook.job.aside import Group, can_stand_aside, entry_of
from rodbook.job.checks import check_book, check_job
from rodbook.job.faults import faults_of
from rodbook.job.files import parse_book, sample_book_text

__all__ = [
    "Changing",
    "Document",
    "FaultTogether",
    "Kept",
    "Overtaken",
    "Saved",
    "Unreadable",
    "add_revision",
    "as_document",
    "begin_book",
    "book_now",
    "go_on_from",
    "group_of",
    "has_book",
    "head",
    "job_at",
    "job_documents",
    "job_now",
    "jobs",
    "new_folder",
    "newest_sound",
    "note",
    "put_away",
    "read_document",
    "read_job_document",
    "save",
    "the_book_folder",
    "undo",
]

type Document = dict[str, Value]
type Kept = Job | Book | Actuals
"""What is kept with revisions."""

type Changing = Callable[[Document], Mapping[str, Any] | Kept]
"""A change of a document: given it as it stood where the change begins, gives back what it becomes."""

UNLOCKED_TRIES = 3
"""So often a save is put together with what others saved without keeping them waiting; then they wait. House assumption."""


class Overtaken(Exception):  # noqa: N818  says what happened
    """Somebody saved meanwhile and both changed the same value; nothing is saved, nothing is lost."""

    def __init__(self, head: Revision, both: Merged) -> None:
        """Keep what was saved meanwhile, and what both changes put together would be."""
        super().__init__(f"{head.who} saved revision {head.number} meanwhile")
        self.head, self.both = head, both


class FaultTogether(InputError):  # noqa: N818  says what happened
    """Two changes put together are at fault where each alone was not."""


class Unreadable(StoreError):  # noqa: N818  says what happened
    """The newest revision of a document is damaged so that it is none any more."""

    def __init__(self, folder: Folder, number: int) -> None:
        """Keep which."""
        super().__init__("desk.revision_unreadable", name=folder.name, number=number)
        self.folder, self.number = folder, number


@dataclass(frozen=True)
class Saved:
    """What a save did.

    Parameters
    ----------
    revision : Revision
        The newest one; the old one where nothing had changed.
    meanwhile : Revision, optional
        What somebody else had saved since the page was opened; their changes are in it too.
    """

    revision: Revision
    meanwhile: Revision | None = None


def as_document(value: Kept) -> Document:
    """A job, a book or what a job took as the plain values that are kept; what is as the model has it by default is left out."""
    return cast("Document", value.model_dump(mode="json", exclude_defaults=True) | {"format": value.format})


def read_document(kind: str, raw: object, book: Book | None = None, *, held: tuple[Group, int] | None = None) -> Kept:
    """Read plain values into a job or a book.

    A job may be kept with openings, panels and runs that contradict themselves or the book: they stand aside in its plan.

    Parameters
    ----------
    kind : str
    raw : object
    book : Book, optional
    held : tuple of (str, int), optional
        List and number of an entry whose own faults are not let through: the one that a form shows.

    Raises
    ------
    InputError
        With every fault.
    """
    models: dict[str, type[Kept]] = {Kind.JOB: Job, Kind.BOOK: Book, Kind.ACTUALS: Actuals}
    model = models[kind]
    try:
        result = model.model_validate(raw)
    except ValidationError as error:
        raise InputError(faults_of(error, model, raw)) from None
    if isinstance(result, Actuals):
        return result
    faults = check_job(result, book) if isinstance(result, Job) else check_book(result)
    if kind == Kind.JOB:
        faults = [
            fault
            for fault in faults
            if fault.at.path != ("openings",)  # an empty job may be saved, not planned
            and (not can_stand_aside(fault) or entry_of(fault) == held)
        ]
    if faults:
        raise InputError(faults)
    return result


def group_of(document: Document, name: str) -> dict[str, Value]:
    """A group of fields of a document; empty where it has none."""
    result = document.get(name)
    return result if isinstance(result, dict) else {}


def read_job_document(raw: object, book: Book, *, held: tuple[Group, int] | None = None) -> Job:
    """Read plain values into a job, as `read_document` does; InputError with every fault."""
    result = read_document(Kind.JOB, raw, book, held=held)
    assert isinstance(result, Job)
    return result


def jobs(*, put_away: bool = False) -> QuerySet[Folder]:
    """The jobs, newest work first."""
    return Folder.objects.filter(kind=Kind.JOB, put_away=put_away)


def new_folder(kind: str, name: str, value: Kept, *, who: str, said: str, of: Folder | None = None) -> Folder:
    """Begin a document with its first revision."""
    with transaction.atomic():
        folder = Folder.objects.create(kind=kind, name=name, head=1, of=of)
        Revision.objects.create(folder=folder, number=1, document=as_document(value), text=said, who=who)
    return folder


def the_book_folder() -> Folder:
    """The firm's book; begun from the sample book where there is none yet."""
    folder = Folder.objects.filter(kind=Kind.BOOK).first()
    if folder is not None:
        return folder
    sample = parse_book(sample_book_text())
    text = "Begun from the sample book: its prices are invented, put your own in"
    return new_folder(Kind.BOOK, sample.firm.name, sample, who="Rodbook", said=text)


def has_book() -> bool:
    """Whether the firm's book is begun."""
    return Folder.objects.filter(kind=Kind.BOOK).exists()


def begin_book(book: Book, *, who: str) -> Folder:
    """Begin the firm's book under its own name; the one that stands where somebody was quicker."""
    text = "Begun: figures of the sample are marked until they are confirmed"
    return Folder.objects.filter(kind=Kind.BOOK).first() or new_folder(
        Kind.BOOK, book.firm.name, book, who=who, said=text
    )


def head(folder: Folder) -> Revision:
    """The newest revision of a document.

    Raises
    ------
    Unreadable
        If it is damaged so that it can't be read.
    """
    revision = folder.revisions.latest("number")
    if not revision.readable:
        raise Unreadable(folder, revision.number)
    return revision


def _document(folder: Folder, number: int) -> Document:
    """A document as it stood at a revision; Unreadable where that is damaged."""
    revision = folder.revisions.get(number=number)
    if not revision.readable:
        raise Unreadable(folder, number)
    return cast("Document", revision.document)


def _stands[K: Kept](folder: Folder, model: type[K]) -> tuple[Revision, K]:
    """The newest revision, and the document in it."""
    revision = head(folder)
    return revision, _read(folder, revision, model)


def _read[K: Kept](folder: Folder, revision: Revision, model: type[K]) -> K:
    """The document in a revision; Unreadable where it is damaged."""
    try:
        return cast("K", model.model_validate(revision.document))
    except ValidationError:
        if revision.seal == revision.sealed():
            raise  # it is what was saved; the fault is not damage
        raise Unreadable(folder, revision.number) from None


def newest_sound(folder: Folder) -> Revision | None:
    """The newest revision that is what was saved, by its seal, and can be read; None where there is none."""
    for number in folder.revisions.order_by("-number").values_list("number", flat=True):
        revision = folder.revisions.get(number=number)
        try:
            read_document(folder.kind, revision.document, book_now()[2] if folder.kind == Kind.JOB else None)
        except InputError:
            continue
        if revision.seal == revision.sealed():
            return revision
    return None


def go_on_from(folder: Folder, number: int, *, who: str) -> Revision:
    """Go on from an earlier revision where the newest is damaged: a new revision with its document; nothing is thrown away.

    Raises
    ------
    InputError
        If the newest is sound, or the one that is named is not.
    Revision.DoesNotExist
        If there is none of that number.
    """
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest, sound = locked.revisions.latest("number"), locked.revisions.get(number=number)
        if newest.readable and newest.seal == newest.sealed():
            raise InputError.at("", "desk.revision_is_newest", number=newest.number)
        if not sound.readable or sound.seal != sound.sealed():
            raise InputError.at("", "desk.revision_not_saved_either", number=number)
        text = f"Gone on from revision {number}: what was saved after it is damaged"
        return add_revision(locked, newest, sound.document, who, text=text, changes=())


def book_now() -> tuple[Folder, Revision, Book]:
    """The firm's book as it stands."""
    folder = the_book_folder()
    return folder, *_stands(folder, Book)


def job_now(folder: Folder) -> tuple[Revision, Job]:
    """A job as it stands."""
    return _stands(folder, Job)


def job_documents() -> list[tuple[str, Document]]:
    """Every job as it stands, put away or not: its name and its plain values."""
    newest = Revision.objects.filter(folder__kind=Kind.JOB, number=F("folder__head"))
    result = newest.order_by("folder__name").values_list("folder__name", "document")
    return [(name, document) for name, document in result if isinstance(document, dict)]


def job_at(folder: Folder, number: int) -> tuple[Revision, Job]:
    """A job as it stood at a revision.

    Raises
    ------
    Revision.DoesNotExist
        If there is no such revision.
    """
    revision = folder.revisions.get(number=number)
    return revision, _read(folder, revision, Job)


def save(folder: Folder, base: int, change: Changing, *, who: str, book: Book | None = None) -> Saved:
    """Save a change of a document as a new revision: the one way to do so.

    The change is made to the document as it stood where whoever makes it saw it, so it holds nothing of what others saved
    since; what they saved is put together with it, and neither takes the other back.

    Parameters
    ----------
    folder : Folder
    base : int
        Number of the revision that the change is made to: what the form showed.
    change : callable
        Given the document as it stood then, its own to change, gives back what it becomes; checked here.
    who : str
    book : Book, optional
        What a job is checked against.

    Returns
    -------
    Saved

    Raises
    ------
    Overtaken
        If somebody else changed one of the same values since `base`.
    FaultTogether
        If the two changes put together are at fault where each alone was not.
    InputError
        If the change is at fault.
    Revision.DoesNotExist
        If there is no such revision.
    """
    began = _document(folder, base)
    made = change(copy.deepcopy(began))
    document = as_document(made if isinstance(made, Job | Book | Actuals) else read_document(folder.kind, made, book))
    for _ in range(UNLOCKED_TRIES):
        newest = head(folder)
        put = _put_together(folder.kind, base, began, document, newest, book)
        with transaction.atomic():
            locked = Folder.objects.select_for_update().get(pk=folder.pk)
            if locked.revisions.order_by("-number").values_list("number", flat=True).first() == newest.number:
                return _added(locked, newest, put, who)
    with transaction.atomic():  # others were quicker each time: hold the lock, so that nobody is
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest = head(locked)
        return _added(locked, newest, _put_together(locked.kind, base, began, document, newest, book), who)


@dataclass(frozen=True)
class _PutTogether:
    """A document as it is to be saved, what is new in it, and what somebody else had saved meanwhile."""

    document: Document
    changes: Sequence[Change]
    meanwhile: Revision | None


def _put_together(
    kind: str, base: int, began: Document, mine: Document, newest: Revision, book: Book | None
) -> _PutTogether:
    """Put a change together with what others saved since `base`; raises as `save` does."""
    document, meanwhile = mine, None
    if newest.number != base:
        meanwhile = newest
        both = merged(began, newest.document, mine)
        if both.clashes:
            raise Overtaken(newest, both)
        try:
            document = as_document(read_document(kind, both.document, book))
        except InputError as error:
            raise FaultTogether(error.faults) from None
    return _PutTogether(document, changed(newest.document, document), meanwhile)


def _added(locked: Folder, newest: Revision, put: _PutTogether, who: str) -> Saved:
    """Add it to a folder that is locked, where anything is new in it."""
    if not put.changes:
        return Saved(newest, put.meanwhile)
    return Saved(add_revision(locked, newest, put.document, who, changes=put.changes), put.meanwhile)


def add_revision(
    locked: Folder,
    newest: Revision,
    document: Document,
    who: str,
    *,
    text: str = "",
    changes: Sequence[Change] | None = None,
    undoes: int | None = None,
) -> Revision:
    """Add a revision to a folder that is locked, and let the folder follow it."""
    kept = None if changes is None else [change.kept() for change in changes]
    revision = Revision.objects.create(
        folder=locked, number=newest.number + 1, document=document, text=text, changes=kept, who=who, undoes=undoes
    )
    locked.head = revision.number
    header = cast("dict[str, Any]", document.get("job") or document.get("firm") or {})
    locked.name = str(header.get("name", locked.name))[:120]
    locked.save(update_fields=["head", "name", "touched"])
    return revision


def note(folder: Folder, text: str, *, who: str) -> Revision:
    """Add a revision that changes nothing in the document, so that its history says what was done elsewhere from it."""
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest = head(locked)
        return add_revision(locked, newest, newest.document, who, text=text)


def undo(
    folder: Folder,
    number: int,
    *,
    who: str,
    book: Book | None = None,
    check: Callable[[Document, Document], None] | None = None,
) -> Saved:
    """Take one revision back, keeping what was saved after it.

    Parameters
    ----------
    folder : Folder
    number : int
        The revision.
    who : str
    book : Book, optional
        What a job is checked against.
    check : callable, optional
        Told the document as it stands and as it would be; raises InputError where that can't be.

    Raises
    ------
    Overtaken
        If a later revision changed the same values.
    InputError
        If there is nothing before it, or if what comes out is at fault.
    """
    if number < 2:
        raise InputError.at("", "desk.first_revision")
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest = head(locked)
        wrong, before = (_document(locked, n) for n in (number, number - 1))
        both = merged(wrong, newest.document, before)
        if both.clashes:
            raise Overtaken(newest, both)
        document = as_document(read_document(locked.kind, both.document, book))
        if check is not None:
            check(newest.document, document)
        changes = changed(newest.document, document)
        if not changes:
            return Saved(newest)
        revision = add_revision(locked, newest, document, who, changes=changes, undoes=number)
    return Saved(revision)


def put_away(folder: Folder, *, away: bool) -> None:
    """Take a finished job off the list, or bring it back."""
    Folder.objects.filter(pk=folder.pk).update(put_away=away)
