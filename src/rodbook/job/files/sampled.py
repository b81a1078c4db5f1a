"""The samples, read: to try things out with."""

from __future__ import annotations

from rodbook.job.book import Book
from rodbook.job.files.documents import parse_book, parse_job
from rodbook.job.files.samples import sample_book_text, sample_text
from rodbook.job.models import Job

__all__ = ["sample_book", "sample_job"]


def sample_book() -> Book:
    """The book that all sample jobs go with; all of it is invented."""
    return parse_book(sample_book_text())


def sample_job(name: str = "converted-store") -> Job:
    """A sample job.

    Parameters
    ----------
    name : str
        One of `sample_names`.

    Raises
    ------
    StoreError
        If there is no sample of that name.
    """
    return parse_job(sample_text(name), sample_book())
