"""Margins and gaps that a job has of its own, in place of those of its build-ups in the book."""

from __future__ import annotations

from collections.abc import Iterator

from rodbook.errors import Fault, Place
from rodbook.job.book import Book
from rodbook.job.faults import nearest
from rodbook.job.models import Job

__all__ = ["gap_faults", "with_gaps"]


def with_gaps(book: Book, job: Job) -> Book:
    """The book with the build-ups as this job has them.

    Parameters
    ----------
    book : Book
    job : Job

    Returns
    -------
    Book
        The same one where the job has no margin or gap of its own.
    """
    if not job.gaps:
        return book
    own = {name: {str(gap): value for gap, value in gaps.items()} for name, gaps in job.gaps.items()}
    build_ups = tuple(entry.model_copy(update=own.get(entry.name, {})) for entry in book.build_ups)
    return book.model_copy(update={"build_ups": build_ups})


def gap_faults(job: Job, book: Book) -> Iterator[Fault]:
    """What no single figure tells: a build-up that is not there, or a gap that it does not have."""
    known = {entry.name: entry for entry in book.build_ups}
    for name, gaps in job.gaps.items():
        at = Place(("gaps", name))
        if name not in known:
            yield Fault(at, "job.no_build_up_in_book", name=name, hint=nearest(name, tuple(known)))
            continue
        for gap in gaps:
            if gap not in type(known[name]).model_fields:
                yield Fault(at / gap, "job.no_such_gap")
