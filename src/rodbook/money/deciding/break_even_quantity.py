"""The quantity of a part at which the decision shown changes.

The job is decided anew with more and with fewer of one part, everything else as it is. Sheets come whole and set-ups and the
delivery are paid once, so neither side is a straight line in the number of parts: the quantity is searched for, not solved
for, outwards from the quantity that the job has.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812

from rodbook.errors import InputError
from rodbook.job import Book, Workshop
from rodbook.job.book import valid_on
from rodbook.job.models import Making
from rodbook.money.costs.bought import bought_costs
from rodbook.money.costs.lines import by_kind
from rodbook.money.costs.site import site_cost
from rodbook.money.costs.usage import MaterialUsage, StockTaken, shared_usage
from rodbook.money.costs.ways import way_costs
from rodbook.money.deciding.decision import MAKERS, Deciding
from rodbook.money.deciding.weighing import weighing
from rodbook.money.rates.site_rates import site_rates
from rodbook.setout import Part, PartKind, ScheduleLine

__all__ = ["ASSUMED", "LIMIT", "Turning", "most_frequent", "turning_quantity"]

STEP = 8
"""Quantities looked at grow by an eighth from one to the next, and by one at the least (house assumption)."""

LIMIT = 100
"""How far the search goes: no small firm's job has more of one part (house assumption)."""

ASSUMED = "Everything else of the job stays; sheets and lengths come whole, at the yield of the layouts as they are; one order."
"""What a turning quantity assumes."""


@dataclass(frozen=True)
class Turning:
    """How many of a part there would have to be for its kind to be made otherwise than is decided.

    Parameters
    ----------
    kind : PartKind
    mark : str
        The part that is counted up and down: the kind's most frequent one.
    quantity : int
        As many as the job has of it.
    decided : Making
        How the kind is made at that quantity.
    free : bool
        Whether there is anything to decide: it can be made either way, and the job does not say which.
    fewer, more : int, optional
        The nearest quantity below and above at which the kind is decided otherwise; None where there is none from 1 to
        `limit`.
    limit : int
        Quantities looked at: 1 up to this.
    sentence : str
    """

    kind: PartKind
    mark: str
    quantity: int
    decided: Making
    free: bool
    fewer: int | None
    more: int | None
    limit: int
    sentence: str


def most_frequent(lines: Sequence[ScheduleLine]) -> ScheduleLine:
    """The line with most parts, the first of equal ones.

    Raises
    ------
    InputError
        If there is none.
    """
    if not lines:
        raise InputError.at("turning quantity", "money.no_part_to_count_up")
    return max(lines, key=lambda line: line.quantity)


def _size(part: Part, used: MaterialUsage, book: Book, day: Date) -> StockTaken:
    """The sheet or length that more of a part would come from: what the layouts buy most of, else the cheapest for its area."""
    bought = [taken for taken in used.taken if taken.price]
    if bought:
        return replace(max(bought, key=lambda taken: taken.count), count=1)
    offered: list[StockTaken] = []
    if part.sectional:
        offered = [
            StockTaken(s.name, 1, price.amount, s.length, part.width.value)
            for s in book.section(part.stock).lengths
            if (price := valid_on(s.prices, day)) is not None
        ]
    else:
        offered = [
            StockTaken(s.name, 1, price.amount, s.length, s.width)
            for s in book.board(part.stock).sheets
            if (price := valid_on(s.prices, day)) is not None
        ]
    if not offered:
        raise InputError.at(("book", "stocks", part.stock), "money.no_size_priced", day=day)
    return min(offered, key=lambda one: float(one.price) / one.m2)


def _with(used: MaterialUsage, change_m2: float, size: StockTaken) -> MaterialUsage:
    """Usage with so much more or less of parts, in whole sheets at the yield that the layouts have."""
    there = math.fsum(taken.m2 for taken in used.taken)
    area = used.parts_m2 + change_m2
    sheets = round(change_m2 / (used.parts_m2 / there) / size.m2, 9)
    counts = {replace(taken, count=1): taken.count for taken in used.taken}
    whole = math.ceil(sheets)  # towards more: what is left of a sheet is still bought
    counts[size] = max(0, counts.get(size, 0) + whole)
    while math.fsum(one.m2 * n for one, n in counts.items()) < area:
        counts[size] += 1
    taken = tuple(replace(one, count=n) for one, n in counts.items() if n)
    cut_m = None if used.cut_m is None else used.cut_m * area / used.parts_m2
    return replace(used, taken=taken, parts_m2=area, cut_m=cut_m)


class _Search:
    """Decides a job anew with another quantity of one of its parts; what that does not touch is worked out once."""

    def __init__(
        self,
        lines: Sequence[ScheduleLine],
        usage: Sequence[MaterialUsage],
        book: Book,
        day: Date,
        workshop: Workshop | None,
        making: Mapping[str, Making],
    ) -> None:
        self.lines, self.usage, self.book, self.day, self.workshop = lines, usage, book, day, workshop
        self.rates = site_rates(book, day)
        self.now = Deciding(weighing(lines, usage, book, day, workshop, {}), making)

    def maker(self, line: ScheduleLine, quantity: int) -> Making:
        """Who makes the line's kind if there are so many of its part."""
        many = replace(line, quantity=quantity, openings=((line.mark, quantity),))
        change = line.part.face_m2 * (quantity - line.quantity)
        lines = [many if each is line else each for each in self.lines]
        touched = {one.part.kind for one in lines if one.part.stock == line.part.stock}
        usage = [
            _with(used, change, _size(line.part, used, self.book, self.day)) if used.stock == line.part.stock else used
            for used in self.usage
        ]
        shares = shared_usage(lines, usage, self.book.currency)
        members = {kind: own for kind, own in by_kind(lines).items() if kind in touched}
        site = {kind: site_cost(own, shares[kind], self.rates) for kind, own in members.items()}
        bought, _ = bought_costs(
            [one for own in members.values() for one in own], self.workshop, self.day, currency=self.book.currency
        )
        ways = {kind: way_costs(site[kind], bought[kind], own) for kind, own in members.items()}
        return MAKERS[self.now.with_ways(ways).decide()[line.part.kind]]

    def nearest(self, line: ScheduleLine, maker: Making, *, up: bool, limit: int) -> int | None:
        """The nearest quantity found at which the line's kind is made otherwise.

        Looked for in steps that grow with the quantity, see `STEP`; where one of them turns, it is gone back to the first
        that does.
        """
        last, now = line.quantity, line.quantity
        end = limit if up else 1
        while now != end:
            step = max(1, now // STEP)
            now = min(end, now + step) if up else max(end, now - step)
            if self.maker(line, now) is not maker:
                towards = 1 if up else -1
                return next(
                    n for n in range(last + towards, now + towards, towards) if self.maker(line, n) is not maker
                )
            last = now
        return None


def turning_quantity(
    lines: Sequence[ScheduleLine],
    usage: Sequence[MaterialUsage],
    book: Book,
    day: Date,
    workshop: Workshop | None,
    making: Mapping[str, Making],
    *,
    limit: int = LIMIT,
) -> tuple[Turning, ...]:
    """For each kind, how many of its most frequent part there would have to be for it to be made otherwise.

    Parameters
    ----------
    lines, usage, book, day, workshop, making
        As for `make_or_buy`.
    limit : int
        Last quantity looked at.

    Returns
    -------
    tuple of Turning
        Kinds in the order in which they are listed. At the quantity given the kind is decided otherwise, and with one less
        on the way there as in the job.

    Raises
    ------
    InputError
        If rates or prices are missing, or usage does not agree with the lines.
    """
    search = _Search(lines, usage, book, day, workshop, making)
    decided, free = search.now.decide(), set(search.now.free)
    results: list[Turning] = []
    for kind in decided:
        line = most_frequent([line for line in lines if line.part.kind is kind])
        maker = MAKERS[decided[kind]]
        fewer = more = None
        if kind in free:
            fewer = search.nearest(line, maker, up=False, limit=limit)
            more = search.nearest(line, maker, up=True, limit=max(limit, line.quantity))
        answer = _sentence(line, maker, fewer, more, limit, free=kind in free)
        results.append(Turning(kind, line.mark, line.quantity, maker, kind in free, fewer, more, limit, answer))
    return tuple(results)


def _sentence(line: ScheduleLine, maker: Making, fewer: int | None, more: int | None, limit: int, *, free: bool) -> str:
    start = f"{line.mark}, {line.quantity} in this job, is {maker}"
    if not free:
        return f"{start}; there is nothing to decide, so no quantity turns it."
    other = Making.BOUGHT if maker is Making.SITE else Making.SITE
    turns = [f"with {n} of it {other}" for n in (fewer, more) if n is not None]
    if not turns:
        return f"{start}, and at every quantity looked at from 1 to {max(limit, line.quantity)}."
    return f"{start}; {' and '.join(turns)}."
