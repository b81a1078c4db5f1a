"""A job against itself and against the book that it uses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault, Place
from rodbook.job.book import (
    Book,
    valid_on,
)
from rodbook.job.checks.book import check_book
from rodbook.job.checks.openings import check_opening
from rodbook.job.checks.read import JobParts
from rodbook.job.checks.runs import run_faults
from rodbook.job.checks.words import Sort, duplicates, unknown_name, unprintable
from rodbook.job.dates import JobDates, OrderTerms
from rodbook.job.faults import nearest
from rodbook.job.kinds import PartKind
from rodbook.job.marks import mark_faults
from rodbook.job.models import Job, JobOffcut, PriceTerms, TakenPiece
from rodbook.job.own_gaps import gap_faults, with_gaps
from rodbook.job.readings import (
    INSTRUMENT_NAMES,
)

__all__ = ["PART_KINDS", "check_job", "check_job_parts"]

PART_KINDS = tuple(str(kind) for kind in PartKind)
"""The kinds of part there are, in the order in which they are listed."""


YEARS = range(1990, 2091)
"""Years in which something of a job can be done, the same as those in which a programme can begin."""


def _price_faults(price: PriceTerms) -> Iterator[Fault]:
    at = Place(("price",))
    if price.margin is not None and price.mark_up is not None:
        yield Fault(at / "mark_up", "job.margin_and_mark_up")
    if price.margin is not None and price.margin >= 1:
        yield Fault(at / "margin", "job.margin_too_high", margin=price.margin)
    if price.confidence is not None and not Decimal("0.01") <= price.confidence <= Decimal("0.99"):
        yield Fault(at / "confidence", "job.confidence_out_of_range", confidence=price.confidence)
    names = Counter((extra.name, extra.option) for extra in price.extras)
    for number, extra in enumerate(price.extras):
        if names[(extra.name, extra.option)] > 1:
            yield Fault(at / "extras" / number / "name", "name.twice", name=extra.name)


def _book_names(parts: JobParts, book: Book) -> Iterator[Fault]:
    build_ups = {b.name: b for b in book.build_ups}
    header, taxes = Place(("job",)), Place(("price", "taxes"))
    if parts.build_up is not None:
        yield from unknown_name(header / "build_up", Sort.BUILD_UP, parts.build_up, list(build_ups))
    if parts.workshop is not None:
        yield from unknown_name(header / "workshop", Sort.WORKSHOP, parts.workshop, [w.name for w in book.workshops])
    if parts.price.taxes is not None:
        yield from unknown_name(taxes, Sort.TAXES, parts.price.taxes, list({t.name: 0 for t in book.taxes}))
    for name in parts.sizes:
        yield from unknown_name(Place(("sizes", name)), Sort.BUILD_UP, name, list(build_ups))
    for number, opening in parts.openings.read.items():
        at = _entry("openings", number, opening.mark)
        if opening.build_up is not None:
            yield from unknown_name(at / "build_up", Sort.BUILD_UP, opening.build_up, list(build_ups))
        instruments = list(dict.fromkeys((*INSTRUMENT_NAMES, *(entry.name for entry in book.instruments))))
        for name, by in opening.read_by.items():
            yield from unknown_name(at / "read_by" / name, Sort.INSTRUMENT, by, instruments)
        build_up = build_ups.get(opening.build_up or parts.build_up or "")
        if build_up and opening.depth is not None and opening.depth < build_up.lining_depth:
            yield Fault(
                at / "depth",
                "job.opening_too_shallow",
                depth_mm=opening.depth,
                build_up=build_up.name,
                lining_mm=build_up.lining_depth,
            )
    boards = [b.name for b in book.boards]
    for number, panel in parts.panels.read.items():
        yield from unknown_name(_entry("panels", number, panel.mark) / "board", Sort.BOARD, panel.board, boards)


def _entry(group: str, number: int, name: str | None = "") -> Place:
    """The place of an entry, by its number from 1."""
    return Place((group, number - 1), name or "")


def _unpriced(day: Date, book: Book) -> Iterator[Fault]:
    for board in book.boards:
        for size in board.sheets:
            if valid_on(size.prices, day) is None:
                yield Fault(Place(("book", "boards", board.name)), "book.no_price_holds", name=size.name, day=day)
    for section in book.sections:
        for length in section.lengths:
            if valid_on(length.prices, day) is None:
                yield Fault(Place(("book", "sections", section.name)), "book.no_price_holds", name=length.name, day=day)


def check_job_parts(parts: JobParts, book: Book | None) -> list[Fault]:
    """Every fault that no single field can tell, in as much of a job as could be read."""
    faults: list[Fault] = []
    if parts.header is not None:
        faults += unprintable(parts.header, Place(("job",)))
    for kind in parts.making:
        if kind not in PART_KINDS:
            faults.append(
                Fault(Place(("making", kind)), "job.no_kind_of_part", kind=kind, hint=nearest(kind, PART_KINDS))
            )
    for number, opening in parts.openings.read.items():
        at = _entry("openings", number, opening.mark)
        faults += check_opening(opening, at)
        faults += unprintable(opening, at)
    for number, panel in parts.panels.read.items():
        faults += unprintable(panel, _entry("panels", number, panel.mark))
    groups = (("openings", parts.openings.names), ("panels", parts.panels.names))
    faults += mark_faults((_entry(group, n), mark) for group, names in groups for n, mark in names.items())
    faults += _price_faults(parts.price)
    faults += duplicates([(_entry("runs", n), name) for n, name in parts.runs.names.items()], "name")
    faults += run_faults(
        parts.runs.read,
        {o.mark: o for o in parts.openings.read.values()},
        {b.name: b for b in book.build_ups} if book else {},
        parts.build_up,
        unread=set(parts.openings.known()),
    )
    for number, run in parts.runs.read.items():
        faults += unprintable(run, _entry("runs", number, run.name))
    if book is not None:
        faults += _book_names(parts, book)
        faults += _unpriced(parts.date, book) if parts.date is not None else ()
    return faults


def _job_dates_faults(dates: JobDates) -> Iterator[Fault]:
    at = Place(("dates",))
    if dates.start and dates.by and dates.by < dates.start:
        yield Fault(at / "by", "job.wanted_before_start", by=dates.by, start=dates.start)
    yield from duplicates(((at / "tasks" / n, one.name) for n, one in enumerate(dates.tasks)), "name")
    for number, terms in enumerate(dates.tasks):
        task = at / "tasks" / number
        if terms.name in terms.after:
            yield Fault(task / "after", "job.task_waits_for_itself", name=terms.name)
        if terms.done is not None and terms.done.year not in YEARS:
            yield _no_year(task / "done", terms.done)
        yield from unprintable(terms, task)
    yield from duplicates(((at / "orders" / n, one.supplier) for n, one in enumerate(dates.orders)), "supplier")
    for number, order in enumerate(dates.orders):
        yield from _order_faults(order, at / "orders" / number)


def _order_faults(order: OrderTerms, at: Place) -> Iterator[Fault]:
    if order.ordered is None and order.came is None:
        yield Fault(at / "ordered", "job.order_without_day", supplier=order.supplier)
    for name, day in (("promised", order.promised), ("came", order.came)):
        if order.ordered and day and day < order.ordered:
            yield Fault(at / name, "job.before_order", day=day, ordered=order.ordered)
    for name, day in (("ordered", order.ordered), ("promised", order.promised), ("came", order.came)):
        if day is not None and day.year not in YEARS:
            yield _no_year(at / name, day)
    yield from unprintable(order, at)


def _no_year(at: Place, day: Date) -> Fault:
    return Fault(at, "job.day_out_of_range", day=day, first_year=YEARS[0], last_year=YEARS[-1])


def _labelled_faults(name: str, entries: Sequence[TakenPiece | JobOffcut]) -> Iterator[Fault]:
    """Faults of what was cut besides the job's own parts: each label stands once."""
    yield from duplicates(((_entry(name, n), piece.label) for n, piece in enumerate(entries, 1)), "label")
    for number, piece in enumerate(entries, 1):
        yield from unprintable(piece, _entry(name, number, piece.label))


def own_gaps(job: Job, book: Book) -> list[Fault]:
    """What is wrong with a job's own margins and gaps; what the book's checks say of them is told at their place in the job."""
    if not job.gaps or (faults := list(gap_faults(job, book))):
        return faults if job.gaps else []
    before = set(check_book(book))
    return [_in_gaps(fault, book) for fault in check_book(with_gaps(book, job)) if fault not in before]


def _in_gaps(fault: Fault, book: Book) -> Fault:
    """A fault of a build-up, at the place where the job has its own figure."""
    for number, entry in enumerate(book.build_ups):
        within = fault.at.beneath(Place(("build_ups", number)))
        if within is not None:
            return fault.moved(Place(("gaps", entry.name, *within.path)))
    return fault


def check_job(job: Job, book: Book | None) -> list[Fault]:
    """Every fault in a job that no single field can tell, against the book where one is given."""
    faults = [*check_job_parts(JobParts.of(job), book), *_job_dates_faults(job.dates)]
    if book is not None:
        faults += own_gaps(job, book)
    faults += [*_labelled_faults("taken", job.taken), *_labelled_faults("offcuts", job.offcuts)]
    if not job.openings and not job.panels:
        faults.append(Fault("openings", "job.empty"))
    return faults
