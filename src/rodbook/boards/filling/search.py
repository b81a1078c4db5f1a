"""Look for a cheap way to cut a job: build plans sheet by sheet, then take the best apart here and there and mend it.

The number of tries is set beforehand from the size of the job, and every choice comes from the order of the input or
from the seed, so a search that is not cut short by the clock gives the same plan each time.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import exp

import numpy as np

from rodbook.boards.asked.task import Task
from rodbook.boards.filling.fill import RULES, Filled, Rule, fill, largest_rest
from rodbook.boards.models import USABLE_OFFCUT_MM, Ended, hundredths
from rodbook.boards.tools.clock import Clock

__all__ = ["Cutting", "Found", "search"]

SIDE = hundredths(USABLE_OFFCUT_MM)

KEYS: tuple[Callable[[int, int], float], ...] = (
    lambda length, width: length * width,
    lambda length, width: max(length, width),
    lambda length, _: length,
    lambda _, width: width,
    lambda length, width: length + width,
    lambda length, width: min(length, width),
)
"""What makes a piece come early."""

LAY_PIECE, LAY_KIND = 5e-6, 8e-8
"""Counted seconds for a piece laid: and, besides, for each kind that might be. Measured. [s]"""

RULES_EACH = 4
"""How many ways of filling are tried for each next sheet."""

OFFCUT_SHARE = 0.05
"""The share of the tries still made, for a larger offcut alone, once the cost can be no less."""

TIDY_SHEETS = 4
"""How many of the emptiest sheets are laid again at the end for the sake of a large offcut."""


@dataclass(slots=True)
class Cutting:
    """So many sheets of one sort cut alike."""

    stock: int
    filled: Filled
    count: int


@dataclass(slots=True)
class Plan:
    """A plan for the whole job; `missing` counts pieces of each kind for which sheets ran out."""

    cuttings: list[Cutting]
    missing: list[int]
    cost: int
    rest: int
    spread: float

    @property
    def score(self) -> tuple[int, int, int]:
        """What is better is less: pieces missing, cost, then the largest usable offcut."""
        return sum(self.missing), self.cost, -self.rest


@dataclass(frozen=True, slots=True)
class Found:
    """The best plan, how many tries were made of it all and why the search ended."""

    cuttings: list[Cutting]
    missing: list[int]
    cost: int
    tries: int
    ended: Ended


@dataclass(slots=True)
class _Search:
    """What the steps of one search share."""

    task: Task
    rng: np.random.Generator
    clock: Clock
    weights: list[float] = field(default_factory=list)
    orders: dict[int, list[int]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Weigh all kinds alike at first."""
        self.weights = [1.0] * len(self.task.kinds)

    def noise(self, number: int, size: float) -> list[float]:
        """Give factors around 1."""
        return [exp(size * (2 * r - 1)) for r in self.rng.random(number).tolist()]

    def some_rules(self) -> list[tuple[Rule, int]]:
        """Draw a few ways of filling, each with a sort order."""
        rules = self.rng.integers(len(RULES), size=RULES_EACH).tolist()
        keys = self.rng.integers(len(KEYS), size=RULES_EACH).tolist()
        return [(RULES[r], k) for r, k in zip(rules, keys, strict=True)]

    def ordered(self, key: int, weights: Sequence[float]) -> list[int]:
        """Sort the kinds, first things first."""
        kinds = self.task.kinds
        return sorted(range(len(kinds)), key=lambda k: (-KEYS[key](kinds[k].length, kinds[k].width) * weights[k], k))

    def lay(self, stock: int, left: Sequence[int], order: Sequence[int], worth: Sequence[float], rule: Rule) -> Filled:
        """Fill one sheet of a sort."""
        task, sheet = self.task, self.task.stocks[stock]
        filled = fill(
            (sheet.length, sheet.width),
            task.lies[stock],
            left,
            order,
            worth,
            kerf=task.kerf,
            levels=task.most_cut_levels,
            rule=rule,
        )
        self.clock.spend(sum(filled.held.values()) * (LAY_PIECE + LAY_KIND * len(task.kinds)))
        return filled

    def build(
        self,
        wanted: Sequence[int],
        stocks: Sequence[int | None],
        rules: Sequence[tuple[Rule, int]],
        weights: Sequence[float],
        tastes: Sequence[float],
        *,
        patient: bool,
    ) -> Plan | None:
        """Fill sheet after sheet, each the one that holds most for its price, free ones first.

        A filled sheet is cut as often as the pieces left allow. None where the clock stopped it, which it does not do
        to the `patient`.
        """
        task = self.task
        left, there = list(wanted), list(stocks)
        worth = [w * kind.length * kind.width for kind, w in zip(task.kinds, weights, strict=True)]
        orders = {key: self.ordered(key, weights) for key in {key for _, key in rules}}
        cuttings: list[Cutting] = []
        while any(left):
            best: tuple[tuple[float, float], int, Filled] | None = None
            for s, sheet in enumerate(task.stocks):
                if there[s] == 0 or not any(q and way for q, way in zip(left, task.lies[s], strict=True)):
                    continue
                for rule, key in rules:
                    filled = self.lay(s, left, [k for k in orders[key] if left[k]], worth, rule)
                    if filled.value <= 0:
                        continue
                    rank = (
                        sheet.price * tastes[s] / filled.value,
                        -filled.value * tastes[s] / (sheet.length * sheet.width),
                    )
                    if best is None or rank < best[0]:
                        best = (rank, s, filled)
                    if self.clock.out_of_time():
                        if not patient:
                            return None
                        break
            if best is None:
                break
            _, s, filled = best
            count = min(left[k] // number for k, number in filled.held.items())
            stock = there[s]
            if stock is not None:
                count = min(count, stock)
                there[s] = stock - count
            for k, number in filled.held.items():
                left[k] -= number * count
            cuttings.append(Cutting(s, filled, count))
        return self.judged(cuttings, left)

    def judged(self, cuttings: list[Cutting], missing: list[int]) -> Plan:
        """Work out what a plan costs and how good it is otherwise."""
        task = self.task
        rest, spread, cost = 0, 0.0, 0
        for cutting in cuttings:
            sheet = task.stocks[cutting.stock]
            cost += sheet.price * cutting.count
            rest = max(rest, largest_rest(cutting.filled, task.kerf, SIDE))
            spread += cutting.count * (cutting.filled.area / (sheet.length * sheet.width)) ** 2
        return Plan(cuttings, missing, cost, rest, spread)

    def learn(self, plan: Plan) -> None:
        """Give more weight to kinds that ended up on badly filled sheets or nowhere."""
        for cutting in plan.cuttings:
            sheet = self.task.stocks[cutting.stock]
            waste = min(3.0, sheet.length * sheet.width / max(1, cutting.filled.area))
            for k in cutting.filled.held:
                self.weights[k] = 0.8 * self.weights[k] + 0.2 * waste
        for k, number in enumerate(plan.missing):
            if number:
                self.weights[k] = min(20.0, self.weights[k] * 1.5)


def search(
    task: Task,
    wanted: Sequence[int],
    *,
    bound: int | None,
    builds: int,
    mends: int,
    seed: int,
    clock: Clock,
    on_try: Callable[[int, int | None], None],
    known: Found | None = None,
    linger: int | None = None,
    tidy: bool = True,
) -> Found:
    """Look for the cheapest plan for so many of each kind; each must fit some sheet.

    So many tries build whole plans and so many mend what is best by then, at first the one that is `known`.
    `on_try` hears, after each try, its number and the best cost while all pieces are placed. At the end the emptiest
    sheets are made `tidy`. Where the cost can be no less, `linger` more tries are made for a larger offcut, or a share of
    all where it is None.
    """
    if not any(wanted):
        return Found([], [0] * len(task.kinds), 0, 0, "bound")
    state = _Search(task, np.random.default_rng(seed), clock)
    start = None if known is None else state.judged(known.cuttings, known.missing)
    best, done, ended = _improve(state, wanted, bound, builds, mends, on_try, start, linger)
    if tidy:
        _tidy(state, best)
    return Found(best.cuttings, best.missing, best.cost, done, ended)


def _improve(
    state: _Search,
    wanted: Sequence[int],
    bound: int | None,
    builds: int,
    mends: int,
    on_try: Callable[[int, int | None], None],
    start: Plan | None,
    linger: int | None,
) -> tuple[Plan, int, Ended]:
    """Make the tries; build first, then mend what was best."""
    task = state.task
    stocks = [sheet.quantity for sheet in task.stocks]
    plain = [1.0] * len(task.stocks)
    best = current = start
    tries = last = builds + mends
    linger = round(tries * OFFCUT_SHARE) if linger is None else linger
    for done in range(tries):
        if best is None or done < builds:
            rules = (
                [(RULES[i], i // 2 % len(KEYS)) for i in range(0, len(RULES), 3)] if done == 0 else state.some_rules()
            )
            weights = [
                w * n for w, n in zip(state.weights, state.noise(len(task.kinds), 0.2 * (done > 0)), strict=True)
            ]
            tastes = state.noise(len(plain), 0.15) if done > 1 else plain
            plan = state.build(wanted, stocks, rules, weights, tastes, patient=best is None)
            if plan is not None:
                state.learn(plan)
        else:
            assert current is not None
            plan = _mended(state, current, stocks)
        if plan is not None:
            if current is None or (*plan.score[:2], -plan.spread) <= (*current.score[:2], -current.spread):
                current = plan
            if best is None or plan.score < best.score:
                best = plan
        assert best is not None
        on_try(done + 1, None if any(best.missing) else best.cost)
        if not any(best.missing) and best.cost == bound:
            last = min(last, done + linger)
            if done >= last:
                return best, done + 1, "bound"
            builds = 0
        if state.clock.out_of_time():
            return best, done + 1, "time"
    assert best is not None
    return best, tries, "tries"


def _mended(state: _Search, plan: Plan, stocks: Sequence[int | None]) -> Plan | None:
    """Take a few sheets out of a plan, badly filled ones for preference, and lay their pieces again."""
    task, rng = state.task, state.rng
    sheets = [n for n, cutting in enumerate(plan.cuttings) for _ in range(min(cutting.count, 3))]
    if not sheets:
        return None
    fills = np.array([_fullness(task, plan.cuttings[n]) for n in sheets])
    number = min(len(sheets), int(rng.integers(2, 6)))
    chance = (1.05 - fills) ** 2
    drawn = rng.choice(len(sheets), size=number, replace=False, p=chance / chance.sum()).tolist()
    taken: dict[int, int] = {}
    for i in drawn:
        taken[sheets[i]] = taken.get(sheets[i], 0) + 1
    wanted = list(plan.missing)
    there = list(stocks)
    kept: list[Cutting] = []
    for n, cutting in enumerate(plan.cuttings):
        out = taken.get(n, 0)
        for k, held in cutting.filled.held.items():
            wanted[k] += held * out
        if cutting.count > out:
            kept.append(Cutting(cutting.stock, cutting.filled, cutting.count - out))
            stock = there[cutting.stock]
            if stock is not None:
                there[cutting.stock] = stock - (cutting.count - out)
    tastes = state.noise(len(task.stocks), 0.3)
    part = state.build(wanted, there, state.some_rules(), state.noise(len(task.kinds), 0.5), tastes, patient=False)
    return None if part is None else state.judged(kept + part.cuttings, part.missing)


def _fullness(task: Task, cutting: Cutting) -> float:
    """Give the share of a sheet that its pieces take up."""
    sheet = task.stocks[cutting.stock]
    return cutting.filled.area / (sheet.length * sheet.width)


def _tidy(state: _Search, plan: Plan) -> None:
    """Lay the emptiest sheets again, same pieces on the same sheet, for as large an offcut as can be."""
    task = state.task
    ones = [1.0] * len(task.kinds)
    orders = [state.ordered(key, ones) for key in range(len(KEYS))]
    emptiest = sorted(plan.cuttings, key=lambda cutting: _fullness(task, cutting))[:TIDY_SHEETS]
    for cutting in emptiest:
        if state.clock.struck():
            return
        held = cutting.filled.held
        left = [held.get(k, 0) for k in range(len(task.kinds))]
        most = largest_rest(cutting.filled, task.kerf, SIDE)
        for rule in RULES:
            for order in orders:
                if state.clock.struck():
                    return
                filled = state.lay(cutting.stock, left, [k for k in order if left[k]], ones, rule)
                if filled.held == held and (rest := largest_rest(filled, task.kerf, SIDE)) > most:
                    cutting.filled, most = filled, rest
