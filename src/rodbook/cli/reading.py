"""The files that commands are given: jobs, and the book that they are read by."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rodbook.errors import Fault, InputError, Place
from rodbook.job import Book, Job
from rodbook.job.files import parse_book, read_book, read_job, sample_book_text

__all__ = ["book_for", "read_jobs"]


def book_for(job_path: Path, book_path: Path | None) -> tuple[Book, str]:
    """The book that was named, else `book.toml` beside the job, else the sample book."""
    if book_path is not None:
        return read_book(book_path), str(book_path)
    beside = job_path.parent / "book.toml"
    if beside.exists():
        return read_book(beside), str(beside)
    return parse_book(sample_book_text()), "the sample book (invented prices; put your own book.toml beside the job)"


def read_jobs(paths: Sequence[Path], book: Book) -> list[Job]:
    """Several job files; each fault says in which of them it stands.

    Raises
    ------
    InputError
        With the faults of all files.
    """
    results: list[Job] = []
    faults: list[Fault] = []
    for path in paths:
        try:
            results.append(read_job(path, book))
        except InputError as error:
            faults += [
                fault.moved(Place(("files", str(path), *fault.at.path), fault.at.mark)) for fault in error.faults
            ]
    if faults:
        raise InputError(faults)
    return results
