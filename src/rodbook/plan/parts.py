"""A job planned as far as its parts: readings, shapes, sizes, set-out and schedule, without layouts and costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.aside import Aside, set_aside
from rodbook.job.checks import check_book, check_job
from rodbook.job.own_gaps import with_gaps
from rodbook.plan.model import Note, OpeningPlan, Plan
from rodbook.plan.stages.neighbours import neighbour_notes
from rodbook.plan.stages.openings import plan_openings
from rodbook.plan.stages.swings import front_swing
from rodbook.setout import Part, panel_part, schedule

__all__ = ["parts_of_what_is_left", "plan_parts", "planned", "said_once"]


def plan_parts(job: Job, book: Book, *, aside: Sequence[Aside] = ()) -> Plan:
    """Plan a job as far as its parts: sizes, set-out and schedule, without layouts and costs.

    Quick enough to follow every change as it is typed. Openings, panels and runs that can't be built stand aside, each with
    its sentences; what is left is planned as if the job had nothing else.

    Parameters
    ----------
    job : Job
    book : Book
    aside : sequence of Aside
        Entries of the job's document that could not even be read; the job is without them.

    Returns
    -------
    Plan
        With neither materials nor money.

    Raises
    ------
    InputError
        With every fault found in the book or in the job as a whole; or with all of what can't be built, if that leaves nothing.
    """
    return replace(parts_of_what_is_left(job, book, aside), job=job)


def parts_of_what_is_left(job: Job, book: Book, aside: Sequence[Aside]) -> Plan:
    """As `plan_parts`; the plan's job is without what stands aside."""
    if faults := check_book(book):
        raise InputError(faults)
    left, gone = job, tuple(aside)
    if faults := check_job(job, book):
        left, gone = set_aside(job, faults, gone)
    return planned(left, with_gaps(book, left), gone)


def planned(left: Job, book: Book, gone: tuple[Aside, ...]) -> Plan:
    """What is left of a job, planned as far as its parts; what can't be built goes to what stands aside already."""
    while True:
        try:
            openings, sizes, not_worked_out, remarks, runs = plan_openings(left, book)
            break
        except InputError as error:
            left, gone = set_aside(left, error.faults, gone)
    lines = schedule(_placed(left, book, openings))
    answer = said_once((*remarks, *_in_the_way(openings, book), *neighbour_notes(openings, left, book)))
    return Plan(left, book, openings, sizes, lines, (), None, (), not_worked_out, answer, runs=runs, aside=gone)


def _in_the_way(openings: Sequence[OpeningPlan], book: Book) -> list[Note]:
    """Where something stands near that keeps a leaf from opening, or leaves that meet each other.

    Single leaves and pairs that stand free are looked at when they are shown.
    """
    results: list[Note] = []
    for entry in openings:
        several = entry.set_out is not None and entry.set_out.leaves > 2
        if entry.opening.obstacles or entry.opening.ceiling or several:
            swing = front_swing(entry, book)
            results += [
                Note(entry.opening.mark, "plain.text", text=sentence) for sentence in (swing.amiss if swing else ())
            ]
    return results


def _placed(job: Job, book: Book, openings: Sequence[OpeningPlan]) -> list[tuple[str, Part, int]]:
    placed = [
        (entry.opening.mark, p.part, p.quantity) for entry in openings if entry.set_out for p in entry.set_out.parts
    ]
    own = book.build_up(job.job.build_up)
    placed += [
        (panel.mark, panel_part(panel, book.board(panel.board), finish=own.finish, coats=own.coats), panel.quantity)
        for panel in job.panels
    ]
    return placed


def said_once(remarks: Sequence[Note]) -> tuple[Note, ...]:
    """Each remark once, where it came first; two that read the same, as their figures differ by less than is said, are one."""
    first: dict[str, Note] = {}
    for note in remarks:
        first.setdefault(str(note), note)
    return tuple(first.values())
