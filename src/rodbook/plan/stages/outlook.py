"""Make or buy with its spread, joined to a plan: how likely each way is what, where the answer turns, what sizes cost.

Kept apart from the plan's own figures, which are straight lines: here every rate that the book gives a spread varies.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from decimal import Decimal

from rodbook.job import Book, Job
from rodbook.job.models import Making
from rodbook.money import (
    Deciding,
    KindChances,
    MakeOrBuy,
    MaterialUsage,
    Sway,
    TurningPoints,
    Way,
    Weighing,
    chances,
    difference_of,
    set_up_of_a_size,
    sways,
    turning_points,
    weighing,
)
from rodbook.money.deciding.simulation import Drawn
from rodbook.plan.model import KindOutlook, Outlook, Plan, SizesCost
from rodbook.setout import PartKind

__all__ = ["look_out", "other_sizes"]

DRAWS = 8_192
"""Draws for a plan: a power of two; one in ten and nine in ten then stand to about a hundredth of their width."""

MOST_STANDING = 100
"""Sizes are counted out only for so many standing openings: with more it takes as long as the layouts (house assumption)."""

type Kinds = Mapping[PartKind, Way]


def look_out(
    parts: Plan,
    usage: Sequence[MaterialUsage],
    money: MakeOrBuy,
    others: Sequence[tuple[str, Plan]] = (),
    *,
    draws: int = DRAWS,
    seed: int = 0,
) -> Outlook:
    """Weigh the ways of making every kind of part of a job.

    Parameters
    ----------
    parts : Plan
        As far as its parts.
    usage : sequence of MaterialUsage
        Sheets and lengths if all of it were made on site.
    money : MakeOrBuy
        What was decided.
    others : sequence of str and Plan
        The same job in other numbers of sizes, with what each is called.
    draws, seed : int
    """
    job, book = parts.job, parts.book
    workshop = book.workshop(job.job.workshop)
    given = (parts.schedule, usage, book, job.job.date, workshop, job.making)
    weighed = weighing(*given)
    result = chances(*given, draws=draws, seed=seed)
    decided = {c.kind: Way.SITE if c.decision is Making.SITE else Way.BOUGHT for c in money.kinds}
    known = next((one for one in (result.best, *result.pure) if dict(one.mixture) == decided), None)
    likely = known or Drawn(weighed, draws, seed, book.currency).likely(decided)
    best = dict(result.best.mixture)
    turning, of_kinds = turning_points(Deciding(weighed, job.making), currency=book.currency)
    kinds = tuple(_of_kind(weighed, entry, best, book, of_kinds[entry.kind]) for entry in result.kinds)
    both = {kind: ways for kind, ways in weighed.ways.items() if Way.SITE in ways and Way.BOUGHT in ways}
    difference, moved = _between(weighed, tuple(both), {}, book) if both else (None, ())
    sizes = tuple(_sizes(weighed, decided, what, plan) for what, plan in others)
    return Outlook(result, likely, kinds, turning, difference, moved, sizes, tuple(usage))


def _between(
    weighed: Weighing, kinds: Sequence[PartKind], beside: Kinds, book: Book
) -> tuple[Decimal, tuple[Sway, ...]]:
    """All on site against bought finished, for some kinds."""
    site, bought = dict.fromkeys(kinds, Way.SITE), dict.fromkeys(kinds, Way.BOUGHT)
    return (
        difference_of(weighed, site, bought, currency=book.currency, beside=beside),
        sways(weighed, site, bought, currency=book.currency, beside=beside),
    )


def _of_kind(weighed: Weighing, entry: KindChances, best: Kinds, book: Book, turning: TurningPoints) -> KindOutlook:
    ways = weighed.ways[entry.kind]
    if Way.SITE not in ways or Way.BOUGHT not in ways:
        return KindOutlook(entry.kind, entry, turning, None, ())
    beside = {kind: way for kind, way in best.items() if kind != entry.kind}
    return KindOutlook(entry.kind, entry, turning, *_between(weighed, (entry.kind,), beside, book))


def _sizes(weighed: Weighing, decided: Kinds, what: str, plan: Plan) -> SizesCost:
    distinct = Counter(line.part.kind for line in plan.schedule if line.part.kind in decided)
    set_ups = set_up_of_a_size(weighed, decided, distinct, currency=plan.book.currency)
    return SizesCost(what, len(plan.sizes.sizes) if plan.sizes else 0, distinct.total(), set_ups)


def other_sizes(job: Job, plan: Plan) -> list[tuple[str, Job]]:
    """The same job in the fewest sizes, as it is, and with a size for each opening; empty where that says nothing."""
    standing = [entry for entry in plan.openings if entry.size is not None]
    if not 2 <= len(standing) <= MOST_STANDING:
        return []
    own = {entry.build_up: len(standing) for entry in standing}
    return [
        ("as few as can be", job.model_copy(update={"sizes": {}})),
        ("as the job has them", job),
        ("each opening its own", job.model_copy(update={"sizes": own})),
    ]
