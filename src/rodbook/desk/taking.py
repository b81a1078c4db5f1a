"""Wanted pieces that are cut: written into the job that they came from and taken off the list in the book; both or neither."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date as Date  # noqa: N812

from django.db import transaction
from django.utils.translation import gettext as _

from rodbook.desk import book_edits, store
from rodbook.desk.models import Folder, Kind
from rodbook.errors import Fault, InputError
from rodbook.plan import Plan, from_waste

__all__ = ["tick_off"]


def tick_off(folder: Folder, base: int, plan: Plan, cut: Mapping[str, str], *, who: str, day: Date) -> int:
    """Take wanted pieces off the list in the book, and write down in the job that they were cut from its waste.

    Parameters
    ----------
    folder : Folder
        The job.
    base : int
        Its revision that the page showed.
    plan : Plan
        Its layouts at that revision.
    cut : mapping of str to str
        How many of each label were cut, as typed.
    who : str
    day : date

    Returns
    -------
    int
        How many pieces that were.

    Raises
    ------
    InputError
        If pieces of this job are ticked off already, if job or list have changed since, or if a number is none.
    """
    found = {piece.label: piece for piece in from_waste(plan)}
    numbers: dict[str, int] = {}
    faults: list[Fault] = []
    for label, typed in cut.items():
        most = found[label].wanted if label in found else 0
        if label not in found:
            faults.append(Fault(label, _("this is not cut from this job any more; look at the list again")))
        elif not (typed.isascii() and typed.isdecimal() and len(typed) < 5 and int(typed) <= most):
            said = _("%(typed)r is not how many were cut; write 0 to %(most)s") % {"typed": typed[:20], "most": most}
            faults.append(Fault(label, said))
        elif int(typed):
            numbers[label] = int(typed)
    if faults:
        raise InputError(faults)
    if not numbers:
        raise InputError.at("", _("nothing was cut by this list, so nothing is ticked off"))
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest, job = store.job_now(locked)
        if job.taken:
            raise InputError.at("", _("pieces of this job are ticked off already; none is taken off the list twice"))
        if newest.number != base:
            raise InputError.at("", _("the job was changed meanwhile; look at its layouts again"))
        book_folder, book_revision, _book = store.book_now()
        book = store.read_document(Kind.BOOK, book_edits.tick_off_wanted(book_revision.document, numbers))
        taken = [
            {
                "label": label, "board": (piece := found[label]).stock, "length": piece.length, "width": piece.width,
                "number": number, "purpose": piece.purpose, "on": day.isoformat(),
            }
            for label, number in numbers.items()
        ]  # fmt: skip
        changed = store.read_job_document(store.as_document(job) | {"taken": taken}, _book)  # type: ignore[dict-item]
        store.save(locked, base, changed, who=who, book=_book)
        store.save(book_folder, book_revision.number, book, who=who)
    return sum(numbers.values())
