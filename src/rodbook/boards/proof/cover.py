"""The cheapest number of each sheet that can pass a set of proven conditions, in exact whole numbers.

A condition says: each sheet of sort s is worth so much, and together the sheets must be worth at least so much.
Whatever a real plan buys passes every condition, so the cheapest purchase that passes them all costs no more
than any real plan; and it is a sum of sheet prices that can be reached.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["Condition", "Offer", "Purchase", "cheapest_cover", "cheapest_purchase"]

MOST_STEPS = 20_000
"""Purchases looked at before the answer is taken from the relaxed problem instead; a few hundred is usual."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A sort of sheet on offer: price in whole units, how many there are (None: no end)."""

    price: int
    quantity: int | None


@dataclass(frozen=True, slots=True)
class Condition:
    """Sum over sorts of ``worth[s]`` times the number bought must reach `demand`; worths are not negative."""

    worth: tuple[int, ...]
    demand: int


@dataclass(frozen=True, slots=True)
class Purchase:
    """A cost that no purchase which passes every condition is below; `numbers` bought for it where it can be had."""

    cost: int
    numbers: tuple[int, ...] | None


def cheapest_purchase(
    offers: Sequence[Offer],
    conditions: Sequence[Condition],
    step: int,
    *,
    refused: Sequence[Sequence[int]] = (),
    below: int | None = None,
) -> Purchase | None:
    """Give the cheapest purchase that passes every condition and is not part of a `refused` one.

    None where there is none, or none cheaper than `below`. Where the search would be long, the relaxed cost without
    numbers.
    """
    search = _Search(offers, conditions, step, refused)
    demands = [condition.demand for condition in conditions]
    floor = search.relaxed(0, 0, demands)
    if floor is None or (below is not None and floor >= below):
        return None
    search.best = below
    search.branch(demands)
    if search.steps > MOST_STEPS:
        return Purchase(floor, None)
    if search.numbers is None or search.best is None:
        return None
    return Purchase(search.best, search.numbers)


def cheapest_cover(offers: Sequence[Offer], conditions: Sequence[Condition], step: int) -> int | None:
    """Give the least cost, in whole price units, of a purchase that passes every condition.

    `step` divides every sum of prices. None means that no purchase passes: the sheets on offer cannot be
    enough. Where the search would be long, the relaxed cost rounded up to the next multiple of `step` is given:
    also proven, but weaker.
    """
    search = _Search(offers, conditions, step)
    floor = search.relaxed(0, 0, [condition.demand for condition in conditions])
    if floor is None:
        return None
    search.branch([condition.demand for condition in conditions])
    if search.steps > MOST_STEPS:
        return floor
    return search.best


@dataclass(slots=True)
class _Open:
    """A purchase of the sorts before `sort`, what it lacks, and the number of that sort tried now (None: not yet any)."""

    sort: int
    cost: int
    lacking: list[int]
    number: int | None = None


class _Search:
    """Depth-first over the sorts of sheet, those of best worth for their price first."""

    def __init__(
        self,
        offers: Sequence[Offer],
        conditions: Sequence[Condition],
        step: int,
        refused: Sequence[Sequence[int]] = (),
    ) -> None:
        """Put the sorts in order and, for each condition, the best use of what is left."""
        self.order = order = sorted(range(len(offers)), key=lambda s: (self._rate(offers[s], conditions, s), s))
        self.offers = [offers[s] for s in order]
        self.worths = [[condition.worth[s] for s in order] for condition in conditions]
        self.ranked = [
            sorted(
                (s for s in range(len(order)) if worth[s] > 0),
                key=lambda s, worth=worth: (Fraction(self.offers[s].price, worth[s]), s),  # type: ignore[misc]
            )
            for worth in self.worths
        ]
        self.step = step
        self.steps = 0
        self.best: int | None = None
        self.chosen = [0] * len(order)
        self.numbers: tuple[int, ...] | None = None
        self.refused = [[numbers[s] for s in order] for numbers in refused]

    @staticmethod
    def _rate(offer: Offer, conditions: Sequence[Condition], sort: int) -> Fraction:
        """Give the price of a whole job's worth of one sort, by the condition it serves best."""
        rates = [Fraction(offer.price * c.demand, c.worth[sort]) for c in conditions if c.worth[sort] and c.demand > 0]
        return min(rates, default=Fraction(10**18))

    def relaxed(self, first: int, cost: int, lacking: Sequence[int]) -> int | None:
        """Give the least cost with sheets from `first` on bought in parts; None where even that is not enough."""
        floor = Fraction(cost)
        for worth, ranked, lack in zip(self.worths, self.ranked, lacking, strict=True):
            rest, spent = lack, Fraction(cost)
            for sort in ranked:
                if rest <= 0:
                    break
                if sort < first:
                    continue
                offer = self.offers[sort]
                whole = -(-rest // worth[sort])
                if offer.quantity is None or offer.quantity >= whole:
                    spent += Fraction(offer.price * rest, worth[sort])
                    rest = 0
                else:
                    spent += offer.price * offer.quantity
                    rest -= worth[sort] * offer.quantity
            if rest > 0:
                return None
            floor = max(floor, spent)
        return -(-floor // self.step) * self.step if self.step else 0

    def branch(self, demands: list[int]) -> None:
        """Try every sensible number of each sort, most first, one sort after another."""
        open_ones = [_Open(0, 0, demands)]
        while open_ones:
            here = open_ones[-1]
            if here.number is None:
                self.steps += 1
                if self.steps > MOST_STEPS:
                    return
                here.number = self._most(here) + 1
            here.number -= 1
            if here.number < 0:
                if here.sort < len(self.offers):
                    self.chosen[here.sort] = 0
                open_ones.pop()
                continue
            self.chosen[here.sort] = here.number
            left = [
                lack - worth[here.sort] * here.number for worth, lack in zip(self.worths, here.lacking, strict=True)
            ]
            open_ones.append(_Open(here.sort + 1, here.cost + self.offers[here.sort].price * here.number, left))

    def _most(self, here: _Open) -> int:
        """Say of how many of the next sort there is any sense, -1 for none; take note of a purchase that passes."""
        sort, cost, lacking = here.sort, here.cost, here.lacking
        if all(lack <= 0 for lack in lacking) and not self._is_refused(sort):
            if self.best is None or cost < self.best:
                self.best = cost
                self.numbers = self._in_given_order(sort)
            return -1
        if sort == len(self.offers):
            return -1
        floor = self.relaxed(sort, cost, lacking)
        if floor is None or (self.best is not None and floor >= self.best):
            return -1
        offer = self.offers[sort]
        worths = [worth[sort] for worth in self.worths]
        most = max((-(-lack // w) for w, lack in zip(worths, lacking, strict=True) if w and lack > 0), default=0)
        # one more than a refused purchase has may be what makes the difference
        most = max([most, *(numbers[sort] + 1 for numbers in self.refused)])
        return most if offer.quantity is None else min(most, offer.quantity)

    def _is_refused(self, sort: int) -> bool:
        """Say whether what is chosen so far is no more than a purchase that is refused."""
        chosen = self.chosen[:sort]
        return any(all(c <= n for c, n in zip(chosen, numbers[:sort], strict=True)) for numbers in self.refused)

    def _in_given_order(self, sort: int) -> tuple[int, ...]:
        """Give the numbers chosen, sorts in the order in which they were offered."""
        numbers = [0] * len(self.order)
        for place, s in enumerate(self.order[:sort]):
            numbers[s] = self.chosen[place]
        return tuple(numbers)
