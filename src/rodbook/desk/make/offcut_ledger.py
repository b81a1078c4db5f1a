"""What a job's cut boards give the shop and take from it: written into the job and into the book, both or neither.

Wanted pieces that are cut leave the book's list; offcuts that are kept come into the book, those used up leave it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import date as Date  # noqa: N812

from django.db import transaction

from rodbook.desk.models import Folder
from rodbook.desk.platform import shop_edits, store
from rodbook.desk.platform.book_edits import Raw
from rodbook.desk.platform.changes import Value
from rodbook.errors import Fault, InputError
from rodbook.job import Job
from rodbook.job.book import Offcut
from rodbook.plan import Plan, from_waste, offcut_moves

__all__ = ["put_away", "take_none", "tick_off", "wanted_open"]


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
        locked, number, _job = _locked(folder)
        _check_same(number, base)
        store.save(
            locked,
            base,
            lambda began: began | {"job": {**store.group_of(began, "job"), "take_wanted": False}},
            who=who,
            book=store.book_now()[2],
        )


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
            "",
            "desk.pieces_cut_first",
        )
    moves = {move.label: move for move in offcut_moves(plan, day)}
    unknown = [label for label in dict.fromkeys(labels) if label not in moves]
    if unknown:
        raise InputError([Fault(label, "desk.piece_neither_left_nor_used") for label in unknown])
    if not labels:
        raise InputError.at(
            "",
            "form.no_offcut_chosen",
        )
    chosen = [move for move in moves.values() if move.label in labels]
    came = [(m.board, Offcut(label=m.label, length=m.length, width=m.width)) for m in chosen if m.went == "in"]
    gone = [move.label for move in chosen if move.went == "out"]
    with transaction.atomic():
        locked, number, job = _locked(folder)
        _check_same(number, base)
        put_down = [moved.model_dump(mode="json") for moved in (*job.offcuts, *chosen)]
        _save_both(locked, base, {"offcuts": put_down}, lambda raw: shop_edits.move_offcuts(raw, came, gone), who=who)
    return len(came), len(gone)


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
    results = {piece.label: piece for piece in from_waste(plan)}
    numbers: dict[str, int] = {}
    faults: list[Fault] = []
    for label, typed in cut.items():
        most = results[label].wanted if label in results else 0
        if label not in results:
            faults.append(Fault(label, "desk.piece_not_cut_any_more"))
        elif not (typed.isascii() and typed.isdecimal() and len(typed) < 5 and int(typed) <= most):
            faults.append(Fault(label, "form.not_how_many_cut", typed=typed[:20], most=most))
        elif int(typed):
            numbers[label] = int(typed)
    if faults:
        raise InputError(faults)
    if not numbers:
        raise InputError.at("", "form.nothing_cut")
    taken: list[Value] = [
        {
            "label": label,
            "board": (piece := results[label]).stock,
            "length": piece.length,
            "width": piece.width,
            "number": number,
            "purpose": piece.purpose,
            "on": day.isoformat(),
        }
        for label, number in numbers.items()
    ]
    with transaction.atomic():
        locked, number, job = _locked(folder)
        if job.taken:
            raise InputError.at("", "desk.pieces_ticked_already")
        _check_same(number, base)
        _save_both(locked, base, {"taken": taken}, lambda raw: shop_edits.tick_off_wanted(raw, numbers), who=who)
    return sum(numbers.values())


def _locked(folder: Folder) -> tuple[Folder, int, Job]:
    """The job's folder, locked, the number of its newest revision, and the job."""
    locked = Folder.objects.select_for_update().get(pk=folder.pk)
    newest, job = store.job_now(locked)
    return locked, newest.number, job


def _check_same(number: int, base: int) -> None:
    if number != base:
        raise InputError.at("", "desk.job_changed_meanwhile")


def _save_both(
    locked: Folder, base: int, put_down: Mapping[str, Sequence[Value]], edit: Callable[[Raw], Raw], *, who: str
) -> None:
    """Write lists down in the job, and an edit into the book."""
    book_folder, revision, before = store.book_now()
    store.save(locked, base, lambda began: began | {k: list(v) for k, v in put_down.items()}, who=who, book=before)
    store.save(book_folder, revision.number, edit, who=who)
