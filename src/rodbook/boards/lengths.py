"""The face of the layout engine for lengths: check what was asked, search, check what was found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from time import monotonic

from rodbook.boards.asked.inputs import check_lengths_input
from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.asked.reasons import bars_ran_out, no_bar_fits
from rodbook.boards.bars.first import BarsCut
from rodbook.boards.bars.patterns import BarKind
from rodbook.boards.bars.search import BarAnswer, solve_bars
from rodbook.boards.checks.lengths import check_bar_plan
from rodbook.boards.models import (
    Bar,
    BarPattern,
    BarPlan,
    Stick,
    StickCut,
    Unplaced,
    hundredths,
    millimetres,
    squared,
)
from rodbook.boards.proof.words import proof_in_words
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.steps import Steps
from rodbook.errors import RodbookError

__all__ = ["cut_lengths"]


def cut_lengths(
    pieces: Sequence[Stick],
    bars: Sequence[Bar],
    kerf: float = 3.2,
    seconds: float = 5.0,
    seed: int = 0,
    effort: float | None = None,
) -> BarPlan:
    """Cut sticks from bars as cheaply as is found, with a proven bound beside the cost.

    Parameters
    ----------
    pieces : sequence of Stick
        What is wanted; 100 000 sticks in all at the most.
    bars : sequence of Bar
        What there is to cut from.
    kerf : float
        What the blade takes away between neighbours; none is lost at a bar's end but its `end_trim`. [mm]
    seconds : float
        When to stop looking; the first plan is always finished. Infinite where only `effort` ends the search. [s]
    seed : int
        Where the search's choices start. The same inputs and seed give the same plan, unless the clock ends the search.
    effort : float or None
        How much to do: seconds of work counted by its steps; see `lay_out`. [s]

    Returns
    -------
    BarPlan
        Of the plans found the one with fewest sticks missing, then least cost, then the longest single remainder.

    Raises
    ------
    InputError
        If anything given is wrong; with every fault.
    RodbookError
        If not even the first plan passes the independent check, which is an error of Rodbook's own; see `lay_out`.

    Examples
    --------
    >>> from decimal import Decimal
    >>> plan = cut_lengths([Stick("leg", 2010, quantity=28)], [Bar("6 m", 6000, price=Decimal("31.20"))])
    >>> plan.cost, plan.proven, [(pattern.count, len(pattern.cuts)) for pattern in plan.patterns]
    (Decimal('436.80'), True, [(14, 2)])
    """
    clock = Clock(seconds, monotonic(), effort, now=monotonic)
    check_lengths_input(pieces, bars, kerf=kerf, seconds=seconds, seed=seed, effort=effort)
    job = _job_of(pieces, bars, kerf)

    def checked(answer: BarAnswer) -> BarPlan:
        """Put names to what was found and check it."""
        plan = _plan_of(job, answer, pieces, bars)
        faults = check_bar_plan(plan, pieces, bars, kerf)
        if faults:
            raise RodbookError("boards.cutting_not_valid", faults=faults[:5])
        return plan

    if not job.lengths:
        return checked(BarAnswer(BarsCut((), (), 0, 0), 0, 0, "bound"))
    steps = Steps()
    answer = solve_bars(job.bars, job.lengths, job.wanted, seed=seed, clock=clock)
    plan = steps.tried("check", None, lambda: checked(answer))
    if plan is None:
        plain = solve_bars(job.bars, job.lengths, job.wanted, seed=seed, clock=clock, plain=True)
        plan = checked(replace(plain, broken_off=(*answer.broken_off, *plain.broken_off)))
    return replace(plan, broken_off=(*plan.broken_off, *steps.broken_off))


@dataclass(frozen=True, slots=True)
class _Job:
    """What is wanted of each length that fits a bar, kerf-enlarged and longest first; ``sticks[k]`` have length k."""

    lengths: tuple[int, ...]
    wanted: tuple[int, ...]
    sticks: tuple[tuple[int, ...], ...]
    too_long: tuple[int, ...]
    bars: tuple[BarKind, ...]
    kerf: int
    scale: PriceScale
    step: int


def _job_of(sticks: Sequence[Stick], bars: Sequence[Bar], kerf_mm: float) -> _Job:
    """Turn a checked job into whole numbers; prices in steps that divide them all."""
    kerf = hundredths(kerf_mm)
    scale = PriceScale.of(bar.price for bar in bars)
    units = [scale.units(bar.price) for bar in bars]
    step = max(1, PriceScale.common_step(units))
    usable = [max(0, hundredths(bar.length) - sum(squared(bar))) + kerf for bar in bars]
    longest = max(usable, default=0)
    results: dict[int, list[int]] = {}
    for number, stick in enumerate(sticks):
        results.setdefault(hundredths(stick.length) + kerf, []).append(number)
    lengths = tuple(sorted((length for length in results if length <= longest), reverse=True))
    return _Job(
        lengths=lengths,
        wanted=tuple(sum(sticks[n].quantity for n in results[length]) for length in lengths),
        sticks=tuple(tuple(results[length]) for length in lengths),
        too_long=tuple(n for length, numbers in results.items() if length > longest for n in numbers),
        bars=tuple(
            BarKind(length, price // step, bar.quantity) for length, bar, price in zip(usable, bars, units, strict=True)
        ),
        kerf=kerf,
        scale=scale,
        step=step,
    )


def _plan_of(job: _Job, answer: BarAnswer, sticks: Sequence[Stick], bars: Sequence[Bar]) -> BarPlan:
    """Put names to the sticks and say what could not be had."""
    queues = [[[n, sticks[n].quantity] for n in reversed(numbers)] for numbers in job.sticks]

    def take(k: int) -> int:
        number = queues[k][-1][0]
        queues[k][-1][1] -= 1
        if not queues[k][-1][1]:
            queues[k].pop()
        return int(number)

    results: Counter[tuple[int, tuple[int, ...]]] = Counter()
    for cutting in answer.plan.cuttings:
        for _ in range(cutting.count):
            results[cutting.bar, tuple(take(k) for k, n in enumerate(cutting.cuts) for _ in range(n))] += 1
    patterns = [
        _pattern_of(job, bars[b], [sticks[n] for n in numbers], count) for (b, numbers), count in results.items()
    ]
    unplaced = [Unplaced(sticks[n].name, sticks[n].quantity, no_bar_fits(sticks[n], bars)) for n in job.too_long]
    unplaced += [
        Unplaced(sticks[n].name, number, bars_ran_out(sticks[n], bars))
        for queue in queues
        for n, number in reversed(queue)
    ]
    return BarPlan(
        patterns=tuple(sorted(patterns, key=lambda pattern: -pattern.price)),
        cost=job.scale.price(answer.plan.cost * job.step),
        bound=job.scale.price(answer.bound * job.step),
        proven=answer.plan.cost == answer.bound and not any(answer.plan.missing),
        unplaced=tuple(unplaced),
        tries=answer.tries,
        ended=answer.ended,
        proof=proof_in_words(
            job.scale.price(answer.plan.cost * job.step),
            job.scale.price(answer.bound * job.step),
            [bar.price for bar in bars],
            noun="bar",
            ran_out=any(answer.plan.missing),
            anything=bool(patterns),
        ),
        broken_off=answer.broken_off,
    )


def _pattern_of(job: _Job, bar: Bar, sticks: Sequence[Stick], count: int) -> BarPattern:
    """Show one bar, its sticks one after another from its squared end."""
    start, end = squared(bar)
    position, cuts = start, []
    for stick in sticks:
        length = hundredths(stick.length)
        cuts.append(StickCut(stick.name, millimetres(position), millimetres(length)))
        position += length + job.kerf
    whole = hundredths(bar.length)
    return BarPattern(
        bar=bar.name,
        length=millimetres(whole),
        price=bar.price,
        count=count,
        cuts=tuple(cuts),
        remainder=millimetres(max(0, whole - end - position)),
        start=millimetres(start),
        end=millimetres(end),
    )
