"""What a job's cut boards give the shop and take from it: written into the job and into the book, both or neither.

Wanted pieces that are cut leave the book's list; offcuts that are kept come into the book, those used up leave it.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import asdict, dataclass
from datetime import date as Date  # noqa: N812
from typing import Literal

from django.db import transaction
from django.utils.translation import gettext as _

from rodbook.desk import shop_edits, store
from rodbook.desk.models import Folder, Kind
from rodbook.errors import Fault, InputError
from rodbook.job.book import Offcut
from rodbook.plan import Plan, from_waste, kept_offcuts, used_offcuts

__all__ = ["OffcutMove", "offcut_moves", "put_away", "take_none", "tick_off", "wanted_open"]


@dataclass(frozen=True)
class OffcutMove:
    """An offcut that cutting a board brings into the shop, or takes out of it.

    Parameters
    ----------
    label : str
    board : str
    length, width : float
        To a tenth. [mm]
    went : str
        "in" or "out".
    """

    label: str
    board: str
    length: float
    width: float
    went: Literal["in", "out"]


def offcut_moves(plan: Plan) -> tuple[OffcutMove, ...]:
    """What the boards of a job that are not put down as cut yet leave in the shop and take from it.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    """
    settled = {moved.board for moved in plan.job.offcuts}
    came = [
        OffcutMove(label, kept.stock, round(kept.length, 1), round(kept.width, 1), "in")
        for kept in kept_offcuts(plan)
        for label in kept.labels
    ]
    gone = [OffcutMove(offcut.label, board, offcut.length, offcut.width, "out") for board, offcut in used_offcuts(plan)]
    return tuple(move for move in (*came, *gone) if move.board not in settled)


def wanted_open(plan: Plan) -> bool:
    """Whether it is not said yet which pieces wanted elsewhere were cut from a job's waste."""
    return not plan.job.taken and bool(from_waste(plan))


def take_none(folder: Folder, base: int, *, who: str) -> None:
    """Write down in a job that no wanted piece was cut from its waste: its layouts then show none.

    Parameters
    ----------
    folder : Folder
        The job.
    base : int
        Its revision that the page showed.
    who : str

    Raises
    ------
    InputError
        If the job was changed since.
    """
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest, job = store.job_now(locked)
        if newest.number != base:
            raise InputError.at("", _("the job was changed meanwhile; look at its layouts again"))
        changed = job.model_copy(update={"job": job.job.model_copy(update={"take_wanted": False})})
        store.save(locked, base, changed, who=who, book=store.book_now()[2])


def put_away(folder: Folder, base: int, plan: Plan, labels: Collection[str], *, who: str, day: Date) -> tuple[int, int]:
    """Put kept offcuts into the book and take those used up out of it, and write both down in the job.

    Parameters
    ----------
    folder : Folder
        The job.
    base : int
        Its revision that the page showed.
    plan : Plan
        Its layouts at that revision.
    labels : collection of str
        Of the offcuts that are kept and those that are used up.
    who : str
    day : date

    Returns
    -------
    (int, int)
        How many came into the shop, and how many left it.

    Raises
    ------
    InputError
        If a label is none of this job's that can be put down, if it is not said yet which wanted pieces were cut, or if job or
        book have changed since.
    """
    if wanted_open(plan):
        raise InputError.at(
            "", _("say first which of the pieces wanted elsewhere were cut: what is left over goes by that")
        )
    moves = {move.label: move for move in offcut_moves(plan)}
    unknown = [label for label in dict.fromkeys(labels) if label not in moves]
    if unknown:
        said = _("this job neither leaves it nor uses it up, or it was put down already; look at the layouts again")
        raise InputError([Fault(label, said) for label in unknown])
    if not labels:
        raise InputError.at(
            "", _("no offcut was chosen; choose those that lie in the shop now, and those that are used up")
        )
    chosen = [move for move in moves.values() if move.label in labels]
    came = [move for move in chosen if move.went == "in"]
    with transaction.atomic():
        locked = Folder.objects.select_for_update().get(pk=folder.pk)
        newest, job = store.job_now(locked)
        if newest.number != base:
            raise InputError.at("", _("the job was changed meanwhile; look at its layouts again"))
        book_folder, book_revision, found = store.book_now()
        offcuts = [(m.board, Offcut(label=m.label, length=m.length, width=m.width)) for m in came]
        moved = shop_edits.move_offcuts(book_revision.document, offcuts, [m.label for m in chosen if m.went == "out"])
        book = store.read_document(Kind.BOOK, moved)
        put_down = [moved.model_dump(mode="json") for moved in job.offcuts]
        put_down += [{**asdict(move), "on": day.isoformat()} for move in chosen]
        changed = store.read_job_document(store.as_document(job) | {"offcuts": put_down}, found)  # type: ignore[dict-item]
        store.save(locked, base, changed, who=who, book=found)
        store.save(book_folder, book_revision.number, book, who=who)
    return len(came), len(chosen) - len(came)


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
        book = store.read_document(Kind.BOOK, shop_edits.tick_off_wanted(book_revision.document, numbers))
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
