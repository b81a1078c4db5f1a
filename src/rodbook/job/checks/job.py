"""A job against itself and against the book that it uses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from rodbook.errors import Fault
from rodbook.job.book import (
    Book,
    standing_on,
)
from rodbook.job.checks.book import check_book
from rodbook.job.checks.openings import check_opening
from rodbook.job.checks.read import JobParts
from rodbook.job.checks.runs import run_faults
from rodbook.job.checks.words import duplicates, in_brackets, unknown_name, unprintable
from rodbook.job.dates import JobDates, OrderTerms
from rodbook.job.faults import nearest, one_line
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
    if price.margin is not None and price.mark_up is not None:
        yield Fault("price.mark_up", "job.margin_too_which_says_same")
    if price.margin is not None and price.margin >= 1:
        yield Fault("price.margin", "job.margin_leaves_nothing_cost", margin=price.margin)
    if price.confidence is not None and not Decimal("0.01") <= price.confidence <= Decimal("0.99"):
        yield Fault("price.confidence", "job.out_range", confidence=price.confidence)
    names = Counter((extra.name, extra.option) for extra in price.extras)
    for number, extra in enumerate(price.extras, 1):
        if names[(extra.name, extra.option)] > 1:
            yield Fault(f"price.extras[{number}].name", "job.stands_here_twice", name=extra.name)


def _book_names(parts: JobParts, book: Book) -> Iterator[Fault]:
    build_ups = {b.name: b for b in book.build_ups}
    if parts.build_up is not None:
        yield from unknown_name("job.build_up", "build-up", parts.build_up, list(build_ups))
    if parts.workshop is not None:
        yield from unknown_name("job.workshop", "workshop", parts.workshop, [w.name for w in book.workshops])
    if parts.price.taxes is not None:
        yield from unknown_name("price.taxes", "tax profile", parts.price.taxes, list({t.name: 0 for t in book.taxes}))
    for name in parts.sizes:
        yield from unknown_name(f"sizes.{one_line(name, 60)}", "build-up", name, list(build_ups))
    for number, opening in parts.openings.read.items():
        where, mark = f"openings[{number}]", in_brackets(opening.mark)
        if opening.build_up is not None:
            yield from unknown_name(f"{where}.build_up{mark}", "build-up", opening.build_up, list(build_ups))
        instruments = list(dict.fromkeys((*INSTRUMENT_NAMES, *(entry.name for entry in book.instruments))))
        for name, by in opening.read_by.items():
            yield from unknown_name(f"{where}.read_by.{one_line(name, 60)}{mark}", "instrument", by, instruments)
        build_up = build_ups.get(opening.build_up or parts.build_up or "")
        if build_up and opening.depth is not None and opening.depth < build_up.lining_depth:
            yield Fault(
                f"{where}.depth{mark}",
                "job.mm_less_than_linings_depth",
                depth=opening.depth,
                name=build_up.name,
                lining_depth=build_up.lining_depth,
            )
    if parts.price.taxes is not None:
        profiles = list(dict.fromkeys(profile.name for profile in book.taxes))
        yield from unknown_name("price.taxes", "tax profile", parts.price.taxes, profiles)
    boards = [b.name for b in book.boards]
    for number, panel in parts.panels.read.items():
        yield from unknown_name(f"panels[{number}].board{in_brackets(panel.mark)}", "board", panel.board, boards)


def _unpriced(day: Date, book: Book) -> Iterator[Fault]:
    for board in book.boards:
        for size in board.sheets:
            if standing_on(size.prices, day) is None:
                yield Fault(f"book, board {board.name!r}", "job.no_price_holds", name=size.name, day=day)
    for section in book.sections:
        for length in section.lengths:
            if standing_on(length.prices, day) is None:
                yield Fault(f"book, section {section.name!r}", "job.no_price_holds", name=length.name, day=day)


def check_job_parts(parts: JobParts, book: Book | None) -> list[Fault]:
    """Every fault that no single field can tell, in as much of a job as could be read."""
    faults: list[Fault] = []
    if parts.header is not None:
        faults += unprintable(parts.header, "job")
    for kind in parts.making:
        if kind not in PART_KINDS:
            faults.append(
                Fault(f"making.{one_line(kind, 60)}", "job.no_kind_part", kind=kind, kind_2=nearest(kind, PART_KINDS))
            )
    for number, opening in parts.openings.read.items():
        where, mark = f"openings[{number}]", in_brackets(opening.mark)
        faults += [Fault(fault.where + mark, fault) for fault in check_opening(opening, where)]
        faults += unprintable(opening, where, mark)
    for number, panel in parts.panels.read.items():
        faults += unprintable(panel, f"panels[{number}]", in_brackets(panel.mark))
    marks = [(f"openings[{n}]", mark) for n, mark in parts.openings.names.items()]
    faults += mark_faults(marks + [(f"panels[{n}]", mark) for n, mark in parts.panels.names.items()])
    faults += _price_faults(parts.price)
    faults += duplicates([(f"runs[{n}]", name) for n, name in parts.runs.names.items()], "name")
    faults += run_faults(
        parts.runs.read, {o.mark: o for o in parts.openings.read.values()},
        {b.name: b for b in book.build_ups} if book else {}, parts.build_up, unread=set(parts.openings.known()),
    )  # fmt: skip
    for number, run in parts.runs.read.items():
        faults += unprintable(run, f"runs[{number}]", in_brackets(run.name))
    if book is not None:
        faults += _book_names(parts, book)
        faults += _unpriced(parts.date, book) if parts.date is not None else ()
    return faults


def _job_dates_faults(dates: JobDates) -> Iterator[Fault]:
    if dates.start and dates.by and dates.by < dates.start:
        yield Fault("dates.by", "job.before_start", by=dates.by, start=dates.start)
    yield from duplicates(((f"dates.tasks[{n}]", one.name) for n, one in enumerate(dates.tasks, 1)), "name")
    for number, terms in enumerate(dates.tasks, 1):
        if terms.name in terms.after:
            yield Fault(f"dates.tasks[{number}].after", "job.cant_wait_itself", name=terms.name)
        if terms.done is not None and terms.done.year not in YEARS:
            yield Fault(f"dates.tasks[{number}].done", "plain.text", text=_no_year(terms.done))
        yield from unprintable(terms, f"dates.tasks[{number}]")
    yield from duplicates(((f"dates.orders[{n}]", one.supplier) for n, one in enumerate(dates.orders, 1)), "supplier")
    for number, order in enumerate(dates.orders, 1):
        yield from _order_faults(order, f"dates.orders[{number}]")


def _order_faults(order: OrderTerms, where: str) -> Iterator[Fault]:
    if order.ordered is None and order.came is None:
        yield Fault(f"{where}.ordered", "job.no_day_given", supplier=order.supplier)
    if order.ordered and order.promised and order.promised < order.ordered:
        yield Fault(f"{where}.promised", "job.before_ordered", promised=order.promised, ordered=order.ordered)
    if order.ordered and order.came and order.came < order.ordered:
        yield Fault(f"{where}.came", "job.before_ordered_2", came=order.came, ordered=order.ordered)
    for name, day in (("ordered", order.ordered), ("promised", order.promised), ("came", order.came)):
        if day is not None and day.year not in YEARS:
            yield Fault(f"{where}.{name}", "plain.text", text=_no_year(day))
    yield from unprintable(order, where)


def _no_year(day: Date) -> str:
    return f"{day} is not a day of a job; from {YEARS[0]} to {YEARS[-1]} is taken"


def _labelled_faults(name: str, entries: Sequence[TakenPiece | JobOffcut]) -> Iterator[Fault]:
    """Faults of what was cut besides the job's own parts: each label stands once."""
    yield from duplicates(((f"{name}[{n}]", piece.label) for n, piece in enumerate(entries, 1)), "label")
    for number, piece in enumerate(entries, 1):
        yield from unprintable(piece, f"{name}[{number}]", in_brackets(piece.label))


def own_gaps(job: Job, book: Book) -> list[Fault]:
    """What is wrong with a job's own margins and gaps; what the book's checks say of them is told at their place in the job."""
    if not job.gaps or (faults := list(gap_faults(job, book))):
        return faults if job.gaps else []
    before = set(check_book(book))
    names = {f"build_ups[{n}]": entry.name for n, entry in enumerate(book.build_ups, 1)}
    found = []
    for fault in check_book(with_gaps(book, job)):
        place, _, field = fault.where.partition(" (")[0].partition(".")
        if fault not in before:
            found.append(Fault(f"gaps.{names.get(place, place)}.{field}", fault))
    return found


def check_job(job: Job, book: Book | None) -> list[Fault]:
    """Every fault in a job that no single field can tell, against the book where one is given."""
    faults = [*check_job_parts(JobParts.of(job), book), *_job_dates_faults(job.dates)]
    if book is not None:
        faults += own_gaps(job, book)
    faults += [*_labelled_faults("taken", job.taken), *_labelled_faults("offcuts", job.offcuts)]
    if not job.openings and not job.panels:
        said = "the job has neither openings nor panels; add one, or import a list of them"
        faults.append(Fault("openings", "plain.text", text=said))
    return faults
