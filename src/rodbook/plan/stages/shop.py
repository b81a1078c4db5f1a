"""The shop as a job found it: once its boards are cut, what it left there is not offered to it, and what it used up is.

So its layouts stay as they were cut, however often they are worked out again.
"""

from __future__ import annotations

from datetime import date
from typing import Literal

from rodbook.job import Book, Job
from rodbook.job.book import Offcut
from rodbook.job.models import JobOffcut
from rodbook.job.own_gaps import with_gaps
from rodbook.plan.model import Note, Plan
from rodbook.plan.stages.offcuts import kept_offcuts

__all__ = ["as_found", "moved_otherwise", "offcut_moves", "used_offcuts"]


def as_found(book: Book, job: Job) -> Book:
    """The book as this job has it: its own margins and gaps, and the offcuts in the shop from before its boards were cut.

    Parameters
    ----------
    book : Book
        As it is now.
    job : Job

    Returns
    -------
    Book
        The same one where the job has moved no offcut and has no margin or gap of its own.
    """
    book = with_gaps(book, job)
    if not job.offcuts:
        return book
    there_is = {offcut.label for board in book.boards for offcut in board.offcuts}
    there_is |= {piece.label for board in book.boards for piece in board.wanted}
    left = {(moved.board, moved.label) for moved in job.offcuts if moved.went == "in"}
    boards = []
    for board in book.boards:
        there = [offcut for offcut in board.offcuts if (board.name, offcut.label) not in left]
        there += [
            Offcut(label=moved.label, length=moved.length, width=moved.width)
            for moved in job.offcuts
            if moved.went == "out" and moved.board == board.name and moved.label not in there_is
        ]
        boards.append(board.model_copy(update={"offcuts": tuple(there)}))
    return book.model_copy(update={"boards": tuple(boards)})


def used_offcuts(plan: Plan) -> tuple[tuple[str, Offcut], ...]:
    """Offcuts from the shop that a job's own cutting uses up, each with its board.

    Parameters
    ----------
    plan : Plan
        With its layouts. A workshop gets none of them.
    """
    return tuple(
        (material.stock, offcut)
        for material in plan.materials
        if material.sheets is not None
        for offcut in plan.book.board(material.stock).offcuts
        if any(layout.sheet == offcut.label for layout in material.layouts)
    )


def offcut_moves(plan: Plan, day: date) -> tuple[JobOffcut, ...]:
    """What the boards of a job that are not put down as cut yet leave in the shop and take from it.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    day : date
        On which it would be put down.

    Returns
    -------
    tuple of JobOffcut
        With sizes to a tenth. [mm]
    """
    settled = {moved.board for moved in plan.job.offcuts}

    def move(label: str, board: str, length: float, width: float, went: Literal["in", "out"]) -> JobOffcut:
        return JobOffcut(label=label, board=board, length=round(length, 1), width=round(width, 1), went=went, on=day)

    came = [move(label, k.stock, k.length, k.width, "in") for k in kept_offcuts(plan) for label in k.labels]
    gone = [move(offcut.label, board, offcut.length, offcut.width, "out") for board, offcut in used_offcuts(plan)]
    return tuple(moved for moved in (*came, *gone) if moved.board not in settled)


def moved_otherwise(plan: Plan) -> list[Note]:
    """A remark for each offcut that was put down as left or used up, where the layouts as they are now do neither.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    """
    left = {label for kept in kept_offcuts(plan) for label in kept.labels}
    used = {offcut.label for _board, offcut in used_offcuts(plan)}
    return [
        Note(
            moved.label,
            "plan.offcut_not_left" if moved.went == "in" else "plan.offcut_not_used",
        )
        for moved in plan.job.offcuts
        if moved.label not in (left if moved.went == "in" else used)
    ]
