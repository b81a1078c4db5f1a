"""The stages in order: readings, shapes, sizes, parts, layouts, costs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.job.aside import Aside, set_aside
from rodbook.job.models import Making
from rodbook.money import MakeOrBuy, make_or_buy, settle, turning_quantity
from rodbook.plan.model import Material, Plan
from rodbook.plan.parts import parts_of_what_is_left, plan_parts, planned, said_once
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
from rodbook.plan.stages.outlook import look_out, other_sizes
from rodbook.plan.stages.shop import as_found, moved_otherwise
from rodbook.setout import ScheduleLine

__all__ = ["OnStage", "make_plan"]

type OnStage = Callable[[str, int, int], None]
"""Told what is being worked out, how many steps are done and how many there are."""


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
        As in `rodbook.plan.parts.plan_parts`.
    """
    tell = on_stage or (lambda _what, _done, _total: None)
    tell("sizes and set-out", 0, 3)
    book = as_found(book, job)
    parts = parts_of_what_is_left(job, book, aside)
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
    remarks = said_once((*parts.remarks, *broken_off(materials)))
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
        parts = planned(left, book, gone)


def _by_maker(
    lines: Sequence[ScheduleLine],
    common: tuple[Material, ...],
    money: MakeOrBuy,
    job: Job,
    book: Book,
    *,
    seconds: float,
    seed: int,
    kept: Kept | None,
) -> tuple[Material, ...]:
    """Layouts for each maker's own parts; the common ones serve where one maker has the whole board and its offcuts."""
    results: list[Material] = []
    for maker in (Making.SITE, Making.BOUGHT):
        mine = [line for line in lines if money.maker_of(line.part.kind) is maker]
        for (stock, sectional), members in by_stock(mine).items():
            whole = next(m for m in common if m.stock == stock)
            all_mine = len(members) == sum(line.part.stock == stock for line in lines)
            has_offcuts = not sectional and bool(book.board(stock).offcuts)
            if all_mine and (maker is Making.SITE or not has_offcuts):
                results.append(replace(whole, maker=maker))
            else:
                results += lay_out_lines(members, job, book, maker, seconds=seconds, seed=seed, kept=kept)
    return tuple(results)
