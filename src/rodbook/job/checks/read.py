"""As much of a document as could be read, for the checks: all of a sound one, the sound parts of any other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812

from pydantic import BaseModel

from rodbook.job.book import (
    Board,
    Book,
    BuildUp,
    Fitting,
    HingeCount,
    HingeType,
    Rate,
    Section,
    Workshop,
)
from rodbook.job.models import Job, JobHeader, Opening, Panel, PriceTerms, Run

__all__ = ["BookParts", "Entries", "JobParts"]


@dataclass(frozen=True)
class Entries[T]:
    """The entries of one list that could be read, by their number from 1, and the names of all that have one."""

    read: Mapping[int, T] = field(default_factory=dict)
    names: Mapping[int, str] = field(default_factory=dict)

    def known(self) -> list[str]:
        """Every name, whether its entry could be read or not."""
        return list(self.names.values())

    def named(self) -> Mapping[str, T]:
        """The entries that could be read, by name; of two with one name the first."""
        return {self.names[n]: entry for n, entry in reversed(list(self.read.items())) if n in self.names}


def _entries[T: BaseModel](entries: Iterable[T], key: str = "name") -> Entries[T]:
    read = dict(enumerate(entries, 1))
    return Entries(read, {n: getattr(entry, key) for n, entry in read.items()})


@dataclass(frozen=True)
class JobParts:
    """As much of a job as could be read: all of a sound one, the sound parts of any other."""

    header: JobHeader | None = None
    build_up: str | None = None
    workshop: str | None = None
    date: Date | None = None
    making: Sequence[str] = ()
    sizes: Sequence[str] = ()
    price: PriceTerms = field(default_factory=lambda: PriceTerms.model_validate({}))
    openings: Entries[Opening] = field(default_factory=Entries)
    panels: Entries[Panel] = field(default_factory=Entries)
    runs: Entries[Run] = field(default_factory=Entries)

    @classmethod
    def of(cls, job: Job) -> JobParts:
        """All the parts of a job that was read."""
        return cls(
            job.job,
            job.job.build_up,
            job.job.workshop,
            job.job.date,
            tuple(job.making),
            tuple(job.sizes),
            job.price,
            _entries(job.openings, "mark"),
            _entries(job.panels, "mark"),
            _entries(job.runs),
        )


@dataclass(frozen=True)
class BookParts:
    """As much of a book as could be read."""

    currency: str | None = None
    locale: str | None = None
    boards: Entries[Board] = field(default_factory=Entries)
    sections: Entries[Section] = field(default_factory=Entries)
    hinges: Entries[HingeType] = field(default_factory=Entries)
    build_ups: Entries[BuildUp] = field(default_factory=Entries)
    workshops: Entries[Workshop] = field(default_factory=Entries)
    rates: Entries[Rate] = field(default_factory=Entries)
    hinge_counts: Sequence[HingeCount] = ()
    fittings: Entries[Fitting] = field(default_factory=Entries)

    @classmethod
    def of(cls, book: Book) -> BookParts:
        """All the parts of a book that was read."""
        return cls(
            book.currency,
            book.locale,
            _entries(book.boards),
            _entries(book.sections),
            _entries(book.hinges),
            _entries(book.build_ups),
            _entries(book.workshops),
            _entries(book.rates),
            book.hinge_counts,
            fittings=_entries(book.fittings),
        )
