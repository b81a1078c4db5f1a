"""From patterns to whole sheets: the cheapest mix of patterns, and the proof that there is no cheaper one.

Costs that purchases can add up to are tried from below. For each, all patterns that a plan of that cost can use are
listed (see `gathered`) and mixed in whole numbers: either that gives such a plan, which is then as cheap as can be, or
there is none and the bound rises to the next cost. Where the patterns are too many to list, the best of them are mixed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.filling.shapes import Shape, counts_of
from rodbook.boards.proof.cover import Condition
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.linear import Programme, Solved
from rodbook.boards.values.columns import UNIT, Columns, Counts
from rodbook.boards.values.gathered import Gathered, gather

__all__ = ["Mixed", "Mixing"]

MOST_GATHERED, GATHERED_A_SECOND = 40_000, 8_000
"""How many fillings of boards of all sizes may be listed, and how many for each second that is given in all."""

MOST_MIXED = 4_000
"""How many patterns are mixed at once."""

MOST_NODES = 4_000
"""Branches that one choice of whole numbers may take."""

MOST_COSTS = 60
"""How many costs are tried."""

MOST_PLANS, PLANS_SHARE = 60, 0.4
"""Plans made sheet by sheet by the values, and the share of the time left that they may take. House assumption."""

SLACK = 1e-7
"""By how much of the dearest price the solver's numbers are taken to be off."""

SHARE, LONGEST = 0.5, 8.0
"""The share of the time left that one choice of whole numbers may take, and the most. [s] House assumption."""

Key = tuple[int, Counts]


@dataclass(frozen=True, slots=True)
class Mixed:
    """So many sheets of each pattern, with what it costs; patterns may hold more pieces than wanted in all."""

    used: tuple[tuple[int, Shape, int], ...]
    cost: int


class Mixing:
    """Mixes the patterns of one job; ``best`` is the cheapest mix found and ``bound`` what is proven."""

    def __init__(
        self, columns: Columns, bound: int, known: int | None, clock: Clock, seconds_left: Callable[[], float]
    ) -> None:
        """Start from the bound of the columns and the cost of a plan known from elsewhere."""
        self.most = int(min(MOST_GATHERED, GATHERED_A_SECOND * clock.given))
        self.clock = clock
        self.cut_short = False
        self.columns, self.task = columns, columns.task
        self.bound, self.known, self.seconds_left = bound, known, seconds_left
        self.best: Mixed | None = None
        self.gathered: list[Gathered] = []
        self.tries = 0
        # the values that the bound came from, what each sheet costs by them and what they prove
        self.values = list(columns.values)
        self.costs: list[float] = []
        self.floor = 0.0

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper than what is known can exist."""
        return self.known is not None and self.bound >= self.known

    def take_values(self, condition: Condition) -> None:
        """Reckon with the values of a condition: what sheets cost by them, and the cost that they prove."""
        task, top = self.task, self.columns.top
        self.costs, self.floor = [], float(condition.demand)
        for s in self.columns.dearest.used:
            price = task.stocks[s].price / top * UNIT
            over = max(0.0, condition.worth[s] - price)
            self.costs.append(price + over)
            quantity = task.stocks[s].quantity
            self.floor -= over * (quantity if quantity is not None else sum(self.columns.wanted))

    def run(self, condition: Condition) -> None:
        """Try costs from the bound up until one can be had, or the patterns become too many."""
        self.take_values(condition)
        aim, ambitious = self.bound, True
        for _ in range(MOST_COSTS):
            if self.proven or self.seconds_left() <= 0:
                return
            result = self._gather(aim)
            if result is not None:
                self._mix(result, aim)
            elif aim > self.bound:
                ambitious = False
            else:
                break
            # where listing is cheap, the next step goes as far as what is known
            far = ambitious and self.known is not None and result is not None and len(result.patterns) < MOST_MIXED // 8
            aim = max(self.bound, self.known - 1) if far and self.known is not None else self.bound
        # fillings that keep to what is left are not made with a limit on turns
        if not self.proven and self.seconds_left() > 0 and not self.columns.dearest.limited:
            self._by_values()
        if not self.proven and self.seconds_left() > 0:
            self._mix_best()

    def _by_values(self) -> None:
        """Make plans sheet by sheet, each time the filling worth most for its sheet's cost; then mix what they used.

        Values of pieces that end up on sheets of little worth rise from plan to plan.
        """
        rng = np.random.default_rng(len(self.values))
        weight = np.ones(len(self.values))
        until = self.seconds_left() * (1 - PLANS_SHARE)
        number = 0
        for number in range(MOST_PLANS):
            if self.proven or self.seconds_left() <= until:
                break
            noise = np.exp(0.1 * (number > 0) * rng.uniform(-1, 1, len(self.values)))
            values = [int(v) for v in np.array(self.values) * weight * noise + 1]
            self._one_plan(values, weight, all_at_once=number % 2 == 0, until=until)
        self.tries += number
        if not self.proven and self.seconds_left() > 0:
            self.solve(list(self.columns.pool.shapes), enough=self.bound)

    def _one_plan(self, values: list[int], weight: NDArray[np.float64], *, all_at_once: bool, until: float) -> None:
        """Make one such plan and keep it where it is cheaper."""
        columns, stocks = self.columns, self.task.stocks
        left = list(columns.wanted)
        there = [stock.quantity for stock in stocks]
        used: list[tuple[int, Shape, int]] = []
        while any(left):
            if self.seconds_left() <= until:
                return
            best: tuple[float, int, Shape] | None = None
            for s, cost, (worth, shape) in zip(
                columns.dearest.used, self.costs, columns.dearest.held(values, left), strict=True
            ):
                rate = worth / max(cost, 1.0)
                if there[s] != 0 and worth and (best is None or rate > best[0]):
                    best = (rate, s, shape)
            if best is None:
                return
            rate, s, shape = best
            counts = counts_of(shape, len(left))
            number = min(q // c for q, c in zip(left, counts, strict=True) if c)
            here = there[s]
            number = number if here is None else min(number, here)
            number = number if all_at_once else (number + 1) // 2
            if here is not None:
                there[s] = here - number
            left = [q - c * number for q, c in zip(left, counts, strict=True)]
            used.append((s, shape, number))
            columns.pool.add(s, shape)
            for k, c in enumerate(counts):
                if c:
                    weight[k] = min(1.6, max(0.8, weight[k] * (1 + 0.15 * (0.97 - min(rate, 1.2)))))
        cost = int(sum(stocks[s].price * number for s, _, number in used))
        if self.known is None or cost < self.known:
            self.known, self.best = cost, Mixed(tuple(used), cost)

    def _allowed(self, cost: int) -> float:
        """Give how much the patterns of a plan of that cost may fall short in all."""
        return cost / self.columns.top * UNIT - self.floor + SLACK * UNIT

    def _gather(self, cost: int) -> Gathered | None:
        """List the patterns for a cost; None where they are too many."""
        result = gather(self.columns.dearest, self.values, self.costs, self._allowed(cost), self.most)
        if result is None or len(result.patterns) > MOST_MIXED:
            return None
        self.gathered.append(result)
        return result

    def _mix(self, gathered: Gathered, aim: int) -> None:
        """Mix all patterns that a plan of cost `aim` can use; either there is one or the bound rises above."""
        keys = list(dict.fromkeys([*gathered.patterns, *self.columns.pool.shapes]))
        solved = self.solve(keys, enough=self.bound)
        if self.proven or solved is None:
            return
        least = round(solved.objective * self.columns.top)
        if not solved.optimal:
            least = int(solved.bound * self.columns.top - SLACK * self.columns.top) + 1
        self.raise_to(min(aim + 1, least))

    def raise_to(self, cost: int) -> None:
        """Take note that nothing below a cost can be had; the bound becomes the next that purchases add up to."""
        if cost <= self.bound:
            return
        condition = Condition(tuple(stock.price for stock in self.task.stocks), cost)
        columns = self.columns
        columns.conditions.insert(0, condition)
        result = columns.purchase((), self.known)
        columns.conditions.pop(0)
        self.bound = max(self.bound, (self.known or cost) if result is None else result.cost)

    def _mix_best(self) -> None:
        """Mix as many of the best patterns as can be listed."""
        low, high = 0.0, self._allowed(self.known if self.known is not None else self.bound) / UNIT
        result = None
        for _ in range(5):
            middle = (low + high) / 2
            if self.seconds_left() <= 0:
                return
            tried = gather(self.columns.dearest, self.values, self.costs, middle * UNIT, self.most // 2)
            if tried is None or len(tried.patterns) > MOST_MIXED // 4:
                high = middle
            else:
                low, result = middle, tried
        keys = list(self.columns.pool.shapes)
        if result is not None:
            self.gathered.append(result)
            keys = list(dict.fromkeys([*result.patterns, *keys]))
        self.solve(keys, enough=self.bound)

    def solve(self, keys: Sequence[Key], *, enough: int) -> Solved | None:
        """Mix patterns in whole numbers and keep the mix where it is cheaper than what is known."""
        columns = self.columns
        programme = Programme()
        for s, _ in keys:
            programme.column(self.task.stocks[s].price / columns.top)
        for k in columns.kinds:
            terms = [(c, float(counts[k])) for c, (_, counts) in enumerate(keys)]
            programme.row(terms, lower=float(columns.wanted[k]))
        for s in columns.limited:
            terms = [(c, 1.0) for c, (of, _) in enumerate(keys) if of == s]
            programme.row(terms, upper=float(self.task.stocks[s].quantity or 0))
        seconds = max(0.05, min(LONGEST, self.seconds_left() * SHARE))
        self.tries += 1
        solved = programme.solve(
            whole=True, seconds=seconds, nodes=MOST_NODES, enough=enough / columns.top + SLACK, clock=self.clock
        )
        self.cut_short |= self.clock.struck() or (solved is not None and solved.timed_out)
        if solved is not None:
            used = [(key, round(x)) for key, x in zip(keys, solved.values, strict=True) if round(x)]
            cost = sum(self.task.stocks[s].price * n for (s, _), n in used)
            if self.known is None or cost < self.known:
                self.known = cost
                self.best = Mixed(tuple((key[0], self._shape(key), n) for key, n in used), cost)
        return solved

    def _shape(self, key: Key) -> Shape:
        """Find the cuts of a pattern."""
        shape = self.columns.pool.shapes.get(key)
        if shape is not None:
            return shape
        gathered = next(g for g in self.gathered if key in g.codes)
        return gathered.shape(key)
