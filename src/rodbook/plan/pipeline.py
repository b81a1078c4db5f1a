"""The stages in order: readings, shapes, sizes, parts, layouts, costs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.checks import check_book, check_job
from rodbook.job.models import Making
from rodbook.money import MakeOrBuy, make_or_buy, settle
from rodbook.plan.from_waste import not_laid, with_wanted
from rodbook.plan.materials import Kept, broken_off, by_stock, cut_short, lay_out_lines, unplaced_faults, usage_of
from rodbook.plan.model import Material, Note, OpeningPlan, Plan
from rodbook.plan.openings import plan_openings
from rodbook.plan.outlook import look_out, other_sizes
from rodbook.plan.shop import as_found, moved_otherwise
from rodbook.plan.swings import front_swing
from rodbook.plan.turnings import turnings_of
from rodbook.setout import Part, ScheduleLine, panel_part, schedule

__all__ = ["OnStage", "make_plan", "plan_parts"]

type OnStage = Callable[[str, int, int], None]
"""Told what is being worked out, how many steps are done and how many there are."""


def plan_parts(job: Job, book: Book) -> Plan:
    """Plan a job as far as its parts: sizes, set-out and schedule, without layouts and costs.

    Quick enough to follow every change as it is typed.

    Parameters
    ----------
    job : Job
    book : Book

    Returns
    -------
    Plan
        With neither materials nor money.

    Raises
    ------
    InputError
        With every fault found in the job, the book, or in what can't be built as asked.
    """
    faults = check_book(book) or check_job(job, book)
    if faults:
        raise InputError(faults)
    openings, sizes, not_worked_out, remarks, runs = plan_openings(job, book)
    lines = schedule(_placed(job, book, openings))
    remarks = (*remarks, *_in_the_way(openings, book))
    return Plan(job, book, openings, sizes, lines, (), None, (), not_worked_out, _said_once(remarks), runs=runs)


def _in_the_way(openings: Sequence[OpeningPlan], book: Book) -> list[Note]:
    """Where something stands near that keeps a leaf from opening; fronts that stand free are looked at when they are shown."""
    found: list[Note] = []
    for entry in openings:
        if entry.opening.obstacles or entry.opening.ceiling:
            swing = front_swing(entry, book)
            found += [Note(entry.opening.mark, sentence) for sentence in (swing.amiss if swing else ())]
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
) -> Plan:
    """Plan a job by a book, all the way.

    Parameters
    ----------
    job : Job
    book : Book
    seconds : float
        Limit for the layouts of each board. [s]
    seed : int
        Where the layouts' search starts. The same job, book, limit and seed give the same plan, on any machine: the search
        ends by the work that it counted. Only where the clock reaches the limit before may it differ; a remark says so.
    kept : Kept, optional
        Layouts known from earlier plans; new ones are added.
    on_stage : OnStage, optional
        Told of progress.
    outlook : bool
        Whether make or buy is worked out with its spread too, which takes about a second more.

    Returns
    -------
    Plan

    Raises
    ------
    InputError
        With every fault found in the job, the book, or in what can't be built as asked.
    """
    tell = on_stage or (lambda _what, _done, _total: None)
    tell("sizes and set-out", 0, 3)
    book = as_found(book, job)
    parts = plan_parts(job, book)
    lines = parts.schedule
    if not lines:
        return parts
    boards = len(by_stock(lines))
    done = [0]

    def on_board(stock: str) -> None:
        tell(f"layouts: {stock}", 1 + done[0], 3 + boards)
        done[0] += 1

    common = lay_out_lines(lines, job, book, Making.SITE, seconds=seconds, seed=seed, kept=kept, on_board=on_board)
    faults = unplaced_faults(common, lines)
    if faults:
        raise InputError(faults)
    tell("make or buy", 1 + boards, 3 + boards)
    workshop = book.workshop(job.job.workshop)
    compared = make_or_buy(lines, usage_of(common, book), book, job.job.date, workshop, job.making)
    tell("layouts for each maker", 2 + boards, 3 + boards)
    materials = _by_maker(lines, common, compared, job, book, seconds=seconds, seed=seed, kept=kept)
    own = [m for m in materials if m.maker is Making.SITE]
    money = settle(compared, lines, usage_of(own, book), book, workshop)
    remarks = _said_once((*parts.remarks, *cut_short(materials), *broken_off(materials)))
    materials = with_wanted(materials, lines, job, book, money, kept=kept)
    remarks = (*remarks, *not_laid(materials, job))
    plan = replace(parts, materials=materials, money=money, turnings=turnings_of(lines, book, job), remarks=remarks)
    plan = replace(plan, remarks=(*remarks, *moved_otherwise(plan)))
    if not outlook:
        return plan
    tell("make or buy with its spread", 2 + boards, 3 + boards)
    others = [(what, plan_parts(other, book)) for what, other in other_sizes(job, parts)]
    return replace(plan, outlook=look_out(parts, usage_of(common, book), money, others, seed=seed))


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
