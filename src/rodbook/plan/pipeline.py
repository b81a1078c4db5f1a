"""The stages in order: readings, shapes, sizes, parts, layouts, costs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.aside import Aside, set_aside
from rodbook.job.checks import check_book, check_job
from rodbook.job.models import Making
from rodbook.job.own_gaps import with_gaps
from rodbook.money import MakeOrBuy, make_or_buy, settle, turning_quantity
from rodbook.plan.model import Material, Note, OpeningPlan, Plan
from rodbook.plan.stages.from_waste import not_laid, with_wanted
from rodbook.plan.stages.materials import (
    Kept,
    broken_off,
    by_stock,
    lay_out_lines,
    unplaced_faults,
    unplaced_of_each,
    usage_of,
)
from rodbook.plan.stages.neighbours import neighbour_notes
from rodbook.plan.stages.openings import plan_openings
from rodbook.plan.stages.outlook import look_out, other_sizes
from rodbook.plan.stages.shop import as_found, moved_otherwise
from rodbook.plan.stages.swings import front_swing
from rodbook.setout import Part, ScheduleLine, panel_part, schedule

__all__ = ["OnStage", "make_plan", "plan_parts"]

type OnStage = Callable[[str, int, int], None]
"""Told what is being worked out, how many steps are done and how many there are."""


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
    return replace(_parts_of_what_is_left(job, book, aside), job=job)


def _parts_of_what_is_left(job: Job, book: Book, aside: Sequence[Aside]) -> Plan:
    """As `plan_parts`; the plan's job is without what stands aside."""
    if faults := check_book(book):
        raise InputError(faults)
    left, gone = job, tuple(aside)
    if faults := check_job(job, book):
        left, gone = set_aside(job, faults, gone)
    return _planned(left, with_gaps(book, left), gone)


def _planned(left: Job, book: Book, gone: tuple[Aside, ...]) -> Plan:
    """What is left of a job, planned as far as its parts; what can't be built goes to what stands aside already."""
    while True:
        try:
            openings, sizes, not_worked_out, remarks, runs = plan_openings(left, book)
            break
        except InputError as error:
            left, gone = set_aside(left, error.faults, gone)
    lines = schedule(_placed(left, book, openings))
    said = _said_once((*remarks, *_in_the_way(openings, book), *neighbour_notes(openings, left, book)))
    return Plan(left, book, openings, sizes, lines, (), None, (), not_worked_out, said, runs=runs, aside=gone)


def _in_the_way(openings: Sequence[OpeningPlan], book: Book) -> list[Note]:
    """Where something stands near that keeps a leaf from opening, or leaves that meet each other.

    Single leaves and pairs that stand free are looked at when they are shown.
    """
    found: list[Note] = []
    for entry in openings:
        several = entry.set_out is not None and entry.set_out.leaves > 2
        if entry.opening.obstacles or entry.opening.ceiling or several:
            swing = front_swing(entry, book)
            found += [
                Note(entry.opening.mark, "plain.text", text=sentence) for sentence in (swing.amiss if swing else ())
            ]
    return found


def make_plan(
    job: Job,
    book: Book,
    *,
    seconds: float = 10.0,
    seed: int = 0,
    kept: Kept | None = None,
    on_stage: OnStage | None = None,
    outlook: bool = False,
    aside: Sequence[Aside] = (),
) -> Plan:
    """Plan a job by a book, all the way.

    Parameters
    ----------
    job : Job
    book : Book
    seconds : float
        About what the layouts of each board may take on an ordinary machine. [s]
    seed : int
        Where the layouts' search starts. The same job, book, `seconds` and seed give the same plan, on any machine and under
        any load: every search ends by the work that it counted, never by the clock.
    kept : Kept, optional
        Layouts known from earlier plans; new ones are added.
    on_stage : OnStage, optional
        Told of progress.
    outlook : bool
        Whether make or buy is worked out with its spread too, which takes about a second more.
    aside : sequence of Aside
        Entries of the job's document that could not even be read; the job is without them.

    Returns
    -------
    Plan

    Raises
    ------
    InputError
        As in `plan_parts`.
    """
    tell = on_stage or (lambda _what, _done, _total: None)
    tell("sizes and set-out", 0, 3)
    book = as_found(book, job)
    parts = _parts_of_what_is_left(job, book, aside)
    boards = len(by_stock(parts.schedule))
    done = [0]

    def on_board(stock: str) -> None:
        tell(f"layouts: {stock}", 1 + min(done[0], boards - 1), 3 + boards)
        done[0] += 1

    parts, common = _laid(parts, seconds=seconds, seed=seed, kept=kept, on_board=on_board)
    lines = parts.schedule
    if not lines:
        return replace(parts, job=job)
    whole, job = job, parts.job
    tell("make or buy", 1 + boards, 3 + boards)
    workshop = book.workshop(job.job.workshop)
    compared = make_or_buy(lines, usage_of(common, book), book, job.job.date, workshop, job.making)
    tell("layouts for each maker", 2 + boards, 3 + boards)
    materials = _by_maker(lines, common, compared, job, book, seconds=seconds, seed=seed, kept=kept)
    own = [m for m in materials if m.maker is Making.SITE]
    money = settle(compared, lines, usage_of(own, book), book, workshop)
    remarks = _said_once((*parts.remarks, *broken_off(materials)))
    materials = with_wanted(materials, lines, job, book, money, kept=kept)
    remarks = (*remarks, *not_laid(materials, job))
    turnings = turning_quantity(lines, usage_of(common, book), book, job.job.date, workshop, job.making)
    plan = replace(parts, materials=materials, money=money, turnings=turnings, remarks=remarks)
    plan = replace(plan, job=whole, remarks=(*remarks, *moved_otherwise(plan)))
    if not outlook:
        return plan
    tell("make or buy with its spread", 2 + boards, 3 + boards)
    others = [(what, plan_parts(other, book)) for what, other in other_sizes(job, parts)]
    others = [(what, other) for what, other in others if not other.aside]  # else it is not the same work
    return replace(plan, outlook=look_out(parts, usage_of(common, book), money, others, seed=seed))


def _laid(
    parts: Plan, *, seconds: float, seed: int, kept: Kept | None, on_board: Callable[[str], None]
) -> tuple[Plan, tuple[Material, ...]]:
    """All parts laid out as if made on site; what takes a part that no sheet or length can give stands aside first.

    Raises
    ------
    InputError
        If that leaves nothing.
    """
    while True:
        job, book, lines = parts.job, parts.book, parts.schedule
        common = lay_out_lines(lines, job, book, Making.SITE, seconds=seconds, seed=seed, kept=kept, on_board=on_board)
        if not (unplaced := unplaced_faults(common, lines)):
            return parts, common
        try:
            left, gone = set_aside(job, unplaced_of_each(common, lines, job), parts.aside)
        except InputError:
            raise InputError(unplaced) from None
        parts = _planned(left, book, gone)


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


def _by_maker(
    lines: Sequence[ScheduleLine], common: tuple[Material, ...], money: MakeOrBuy, job: Job, book: Book, *,
    seconds: float, seed: int, kept: Kept | None,
) -> tuple[Material, ...]:  # fmt: skip
    """Layouts for each maker's own parts; the common ones serve where one maker has the whole board and its offcuts."""
    found: list[Material] = []
    for maker in (Making.SITE, Making.BOUGHT):
        mine = [line for line in lines if money.maker_of(line.part.kind) is maker]
        for (stock, sectional), members in by_stock(mine).items():
            whole = next(m for m in common if m.stock == stock)
            all_mine = len(members) == sum(line.part.stock == stock for line in lines)
            has_offcuts = not sectional and bool(book.board(stock).offcuts)
            if all_mine and (maker is Making.SITE or not has_offcuts):
                found.append(replace(whole, maker=maker))
            else:
                found += lay_out_lines(members, job, book, maker, seconds=seconds, seed=seed, kept=kept)
    return tuple(found)


def _said_once(remarks: Sequence[Note]) -> tuple[Note, ...]:
    return tuple(dict.fromkeys(remarks))
