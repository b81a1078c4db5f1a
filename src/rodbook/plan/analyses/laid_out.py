"""A job's parts laid out as if all were made on site: what make or buy, its chances and a later price start from."""

from __future__ import annotations

from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.models import Making
from rodbook.money import Chances, MaterialUsage, Rejects, chances
from rodbook.plan.parts import plan_parts
from rodbook.plan.stages.materials import Kept, lay_out_lines, unplaced_faults, usage_of
from rodbook.setout import ScheduleLine

__all__ = ["job_chances", "laid_out"]


def laid_out(
    job: Job, book: Book, *, seconds: float = 10.0, seed: int = 0, kept: Kept | None = None
) -> tuple[tuple[ScheduleLine, ...], tuple[MaterialUsage, ...]]:
    """A job's parts, and what they take of each board and section if all are made on site.

    Parameters
    ----------
    job : Job
    book : Book
    seconds : float
        Limit for the layouts of each board. [s]
    seed : int
    kept : Kept, optional
        Layouts known from earlier plans; new ones are added.

    Raises
    ------
    InputError
        With every fault found in the job, the book, or in what can't be built as asked.
    """
    parts = plan_parts(job, book)
    if parts.missing:
        raise InputError([fault for one in parts.missing for fault in one.faults])
    lines = parts.schedule
    materials = lay_out_lines(
        lines, job, book, Making.SITE, seconds=seconds, seed=seed, kept=kept, on_board=lambda _stock: None
    )
    if faults := unplaced_faults(materials, lines):
        raise InputError(faults)
    return lines, usage_of(materials, book)


def job_chances(
    job: Job,
    book: Book,
    *,
    draws: int = 10_000,
    seed: int = 0,
    kept: Kept | None = None,
    rejects: Rejects | None = None,
) -> Chances:
    """Make or buy of a job with its spread, by its own workshop and day.

    Parameters
    ----------
    job : Job
    book : Book
    draws, seed : int
        As for `rodbook.money.deciding.risk`.
    kept : Kept, optional
        Layouts known from earlier plans.
    rejects : callable, optional
        Share of rejects by kind and way; the book's where it is left out.
    """
    lines, usage = laid_out(job, book, kept=kept)
    workshop = book.workshop(job.job.workshop)
    return chances(lines, usage, book, job.job.date, workshop, job.making, draws=draws, seed=seed, rejects=rejects)
