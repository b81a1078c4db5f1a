"""Look for a cheap way to cut sticks from bars and prove how cheap it can be at the least.

Plans made in one go come first. Where they do not reach the bound, patterns are mixed: all there are, where
they are few, and then the cheapest mix is the cheapest plan; else those that the values of the sticks ask for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil
from operator import mul

import numpy as np

from rodbook.boards.bars.first import BarsCut, assembled, first_plans
from rodbook.boards.bars.patterns import (
    MOST_PATTERNS,
    BarKind,
    Mix,
    Pattern,
    Values,
    all_patterns,
    best_mix,
    fewest_missing,
    grow,
)
from rodbook.boards.models import BrokenOff, Ended
from rodbook.boards.proof.cover import Condition, Offer, cheapest_cover
from rodbook.boards.proof.weights import scales
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.steps import Steps

__all__ = ["BarAnswer", "solve_bars"]

LARGEST_EXACT = 2**40
"""Costs above this, in price steps, are beyond the solver's fineness; only exact reckoning counts as proof there."""

MOST_LENGTHS_MIXED = 60
"""Beyond so many different lengths, mixing patterns takes long and finds nothing better."""

SOLVER_SLACK = 1e-6
"""By how much, relatively, the solver's own bound is taken to be too high before it is rounded up."""


@dataclass(frozen=True, slots=True)
class BarAnswer:
    """The best plan, its bound in price steps, how many plans were made and why the search ended."""

    plan: BarsCut
    bound: int
    tries: int
    ended: Ended
    broken_off: tuple[BrokenOff, ...] = ()


def solve_bars(
    bars: Sequence[BarKind],
    lengths: Sequence[int],
    wanted: Sequence[int],
    *,
    seed: int,
    clock: Clock,
    plain: bool = False,
) -> BarAnswer:
    """Find a plan for so many sticks of each length, longest first; each must fit some bar.

    `plain`: only the plans made in one go. A later step that fails is named in the answer, and what was found without it
    stands.
    """
    steps = Steps()
    plans = first_plans(bars, lengths, wanted, seed=seed, out_of_time=clock.out_of_time)
    best = min(plans, key=lambda plan: plan.score)
    bound = steps.tried("bound", None, lambda: _bound(bars, lengths, wanted, None))
    first = BarAnswer(best, bound or 0, len(plans), "bound", tuple(steps.broken_off))
    if not any(best.missing) and best.cost == bound:
        return first
    if plain:
        return replace(first, ended="tries", bound=first.bound if not any(best.missing) else 0)
    patterns = list({(c.bar, c.cuts): None for plan in plans for c in plan.cuttings})
    undived = BarAnswer(best, bound or 0, 0, "tries")
    dived = steps.tried("values", undived, lambda: _dive(bars, lengths, wanted, best, bound, patterns, seed, clock))
    stands, tries = dived.plan, len(plans) + dived.tries
    if not any(stands.missing) and stands.cost == dived.bound:
        return BarAnswer(stands, dived.bound, tries, "bound", tuple(steps.broken_off))
    search = _Mixing(bars, lengths, wanted, stands, clock)
    steps.tried("mixing", None, lambda: search.run(patterns))
    best = search.best
    placed = [q - m for q, m in zip(wanted, best.missing, strict=True)]
    least = max(dived.bound if not any(best.missing) else 0, min(search.proven, best.cost))
    least = max(least, steps.tried("bound", 0, lambda: _bound(bars, lengths, placed, search.values) or 0))
    ended: Ended = "bound" if best.cost == least and not any(best.missing) else "tries"
    ended = "time" if clock.struck() else ended
    return BarAnswer(best, least, tries + search.tries, ended, tuple(steps.broken_off))


def _dive(
    bars: Sequence[BarKind],
    lengths: Sequence[int],
    wanted: Sequence[int],
    best: BarsCut,
    bound: int | None,
    patterns: Sequence[Pattern],
    seed: int,
    clock: Clock,
) -> BarAnswer:
    """Value sticks, raise the bound by that, and dive for a plan that reaches it."""
    from rodbook.boards.warm import ready

    nothing = BarAnswer(best, bound or 0, 0, "tries")
    if any(best.missing) or not ready(clock):
        return nothing

    from rodbook.boards.bars.closing import close_gap
    from rodbook.boards.bars.dive import MOST_DIVES, BarDive

    dive = BarDive(bars, lengths, wanted, clock)
    for pattern in patterns:
        dive.add(pattern)
    seen: list[Values] = []

    def note(values: Values) -> bool:
        seen.append(values)
        return False

    solved = dive.relax(wanted, [bar.quantity for bar in bars], note)
    if seen:
        bound = max(bound or 0, _bound(bars, lengths, wanted, seen[-1]) or 0)
    rng, tries = np.random.default_rng(seed), 0
    while solved is not None and bound is not None and best.cost > bound and tries < MOST_DIVES:
        if clock.out_of_time():
            break
        tries += 1
        used = dive.dive(best.cost - 1 if tries == 1 else bound, rng, solved, sure=tries == 1)
        if used is not None:
            plan = assembled(bars, lengths, used, best.missing)
            best = min(best, plan, key=lambda p: p.score)
    priced = all(bar.price for bar in bars if bar.quantity != 0)
    while bound and seen and priced and bound < best.cost <= LARGEST_EXACT and not clock.out_of_time():
        inside = dive.inside([bar.price / dive.top for bar in bars])
        by = [seen[-1]] if inside is None else [inside, seen[-1]]
        mix = close_gap(dive, by, [(c.bar, c.cuts) for c in best.cuttings], bound, best.cost)
        if mix is None:
            break
        tries += 1
        used = _without_surplus(mix.used, lengths, wanted)
        if used is not None:
            best = min(best, assembled(bars, lengths, used, best.missing), key=lambda p: p.score)
        risen = _purchase(bars, max(bound, _proven_by(mix)))
        if risen is None or risen == bound:
            break
        bound = risen
    return BarAnswer(best, bound or 0, tries, "tries")


def _purchase(bars: Sequence[BarKind], least: int) -> int | None:
    """Give the least sum, no less than this, that bars can cost together."""
    prices = Condition(tuple(bar.price for bar in bars), least)
    return cheapest_cover([Offer(bar.price, bar.quantity) for bar in bars], [prices], 1)


class _Mixing:
    """Mixes patterns to better plans and to a better bound.

    `best` is the best plan known, `values` those of the sticks where they were found, and `proven` a cost that every
    plan with the same sticks missing has at the least, as far as it is no dearer than `best`.
    """

    def __init__(
        self,
        bars: Sequence[BarKind],
        lengths: Sequence[int],
        wanted: Sequence[int],
        best: BarsCut,
        clock: Clock,
    ) -> None:
        """Start from the best of the plans made in one go."""
        self.bars, self.lengths, self.wanted, self.best = bars, lengths, wanted, best
        self.clock = clock
        self.values: Values | None = None
        self.proven = self.tries = 0

    def run(self, patterns: list[Pattern]) -> None:
        """Mix known patterns and those the values of sticks ask for; then, where they are few, all there are."""
        complete = _every_pattern(self.bars, self.lengths, self.wanted)
        missing = self._fewest_missing(complete or patterns)
        if missing != self.best.missing and complete:
            patterns = list(complete)
        placed = [q - m for q, m in zip(self.wanted, missing, strict=True)]
        self.values = grow(self.bars, patterns, self.lengths, placed, self.clock)
        if len(self.lengths) > MOST_LENGTHS_MIXED:
            return
        self._mix(patterns, placed, missing)
        if complete is None or self.best.missing != missing:
            return
        if (
            self.best.cost > (_bound(self.bars, self.lengths, placed, self.values) or 0)
            and not self.clock.out_of_time()
        ):
            known = self.best.cost
            mix = self._mix(complete, placed, missing)
            self.proven = 0 if mix is None else min(known, _proven_by(mix))

    def _fewest_missing(self, patterns: Sequence[Pattern]) -> tuple[int, ...]:
        """Say which sticks must be missing, with these patterns, if fewer than in the best plan can be."""
        missing = self.best.missing
        if any(missing):
            fewest = fewest_missing(self.bars, patterns, self.wanted, clock=self.clock)
            if fewest is not None and sum(fewest) < sum(missing):
                return tuple(fewest)
        return missing

    def _mix(self, patterns: Sequence[Pattern], placed: Sequence[int], missing: tuple[int, ...]) -> Mix | None:
        """Mix these patterns and keep the plan where it is better than the best."""
        known = self.best.cost
        if self.best.missing != missing:
            known = sum(bar.price * (sum(placed) if bar.quantity is None else bar.quantity) for bar in self.bars)
        mix = best_mix(self.bars, patterns, placed, known=known, clock=self.clock)
        used = None if mix is None else _without_surplus(mix.used, self.lengths, placed)
        if used is not None:
            self.tries += 1
            plan = assembled(self.bars, self.lengths, used, missing)
            if plan.score < self.best.score:
                self.best = plan
        return mix


def _proven_by(mix: Mix) -> int:
    """Round up the solver's own bound; 0 where the numbers are too large for it."""
    if mix.bound > LARGEST_EXACT:
        return 0
    return max(0, ceil(mix.bound - SOLVER_SLACK * max(1.0, abs(mix.bound))))


def _every_pattern(bars: Sequence[BarKind], lengths: Sequence[int], wanted: Sequence[int]) -> list[Pattern] | None:
    """List the patterns of all bars; None where they are too many."""
    results: list[Pattern] = []
    for b, bar in enumerate(bars):
        if bar.quantity == 0:
            continue
        of_bar = all_patterns(bar, lengths, wanted, MOST_PATTERNS - len(results))
        if of_bar is None:
            return None
        results += [(b, cuts) for cuts in of_bar]
    return results


def _without_surplus(
    used: Sequence[tuple[Pattern, int]], lengths: Sequence[int], placed: Sequence[int]
) -> list[tuple[Pattern, int]] | None:
    """Leave out the sticks that a mix cuts too many of, from as few bars as may be; None if it cuts too few of any."""
    surplus = [sum(cuts[k] * count for (_, cuts), count in used) - placed[k] for k in range(len(lengths))]
    if min(surplus) < 0:
        return None
    left: list[tuple[Pattern, int]] = []
    for (b, cuts), count in reversed(used):
        number = count
        while number and any(s > 0 and c for s, c in zip(surplus, cuts, strict=True)):
            out = [min(s, c) for s, c in zip(surplus, cuts, strict=True)]
            times = min([number, *(s // o for s, o in zip(surplus, out, strict=True) if o)])
            left.append(((b, tuple(c - o for c, o in zip(cuts, out, strict=True))), times))
            surplus = [s - o * times for s, o in zip(surplus, out, strict=True)]
            number -= times
        if number:
            left.append(((b, cuts), number))
    return left


def _bound(
    bars: Sequence[BarKind], lengths: Sequence[int], quantities: Sequence[int], values: Values | None
) -> int | None:
    """Give a cost in price steps below which so many sticks cannot be had; None where there are not the bars for it."""
    conditions = [
        Condition(
            tuple(bar.length if bar.length >= min(lengths) else 0 for bar in bars),
            sum(map(mul, quantities, lengths)),
        )
    ]
    if values is not None:
        conditions.append(Condition(values.bars, sum(map(mul, quantities, values.sticks))))
    if len(bars) == 1:
        conditions += [
            Condition((scale.capacity,), sum(q * scale.of(x) for q, x in zip(quantities, lengths, strict=True)))
            for scale in scales(bars[0].length, lengths)
        ]
    return cheapest_cover([Offer(bar.price, bar.quantity) for bar in bars], conditions, 1)
