"""What hours of all jobs say of the book's times: what is known before, what was seen, what would follow, and what is asked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.desk.models import Folder
from rodbook.desk.platform.actuals import all_actuals
from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.actuals import Hours
from rodbook.money import RateUpdate, SiteRate, TimeEntry, rate_update, site_rates
from rodbook.money.rates.names import Counted, counted_in

__all__ = ["Asked", "Learned", "learned"]


@dataclass(frozen=True)
class Asked:
    """Hours that look wrong until somebody says that they are right."""

    job: Folder
    mark: str
    sentence: str


@dataclass(frozen=True)
class Learned:
    """What is said of one time of the book.

    Parameters
    ----------
    update : RateUpdate
    asked : tuple of Asked
    last : date, optional
        Day of the last hours that were looked at; a new value can hold from then on.
    """

    update: RateUpdate
    asked: tuple[Asked, ...]
    last: Date | None


def learned(book: Book, day: Date) -> list[Learned]:
    """Every time of the book that hours were put down for since it holds, by all jobs together.

    Hours of the day from which a time holds, and of earlier days, are taken to be known in it already: a value that was taken
    over from hours is not updated by the same hours again.
    """
    try:
        rates = site_rates(book, day).all()
    except InputError:
        return []
    put_down: dict[str, list[tuple[Folder, Hours]]] = {}
    for job, actuals in all_actuals():
        for entry in actuals.hours:
            rate = rates.get(entry.task)
            if rate and rate.value and counted_in(rate.unit) == Counted.MINUTES and entry.day > rate.since:
                put_down.setdefault(entry.task, []).append((job, entry))
    return [_learned(rates[name], put_down[name], day) for name in rates if name in put_down]


def _learned(rate: SiteRate, put_down: list[tuple[Folder, Hours]], day: Date) -> Learned:
    entries = [TimeEntry(e.day, e.person, e.task, e.hours * 60, e.done) for _, e in put_down]
    sure = [number for number, (_, e) in enumerate(put_down, 1) if e.sure]
    update = rate_update(rate, entries, day=day, confirmed=sure)
    asked = tuple(
        Asked(put_down[question.number - 1][0], put_down[question.number - 1][1].mark, question.sentence)
        for question in update.questions
    )
    return Learned(update, asked, max(e.day for _, e in put_down))
