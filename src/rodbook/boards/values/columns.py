"""A bound from values of pieces, and patterns that are worth their sheet: column generation.

A linear programme mixes known patterns in parts of sheets as cheaply as it can and so gives each kind of piece a value;
`dearest` finds the fillings that are worth more than their sheet, which join the patterns, until there are none [1]_.
The programme's numbers are only a suggestion. Values are taken in whole numbers and the worth of every sheet by them is
reckoned exactly, which makes a condition that every purchase must pass (see `cover`), whatever the values are.

The cheapest purchase that passes all conditions is then asked back: can parts of patterns on these very sheets hold
the job? If not, the values that show it are one more condition [2]_.

References
----------
.. [1] P. C. Gilmore, R. E. Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research
   13 (1965), 94-120.
.. [2] J. F. Benders, "Partitioning procedures for solving mixed-variables programming problems", Numerische Mathematik
   4 (1962), 238-252.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from operator import mul

from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.asked.task import Task
from rodbook.boards.filling.shapes import Shape, counts_of, without
from rodbook.boards.proof.cover import Condition, Offer, Purchase, cheapest_purchase
from rodbook.boards.tools.linear import Growing, Programme, Solved
from rodbook.boards.values.dearest import Dearest

__all__ = ["Columns", "Pool"]

UNIT = 2**32
"""Values are whole parts of the dearest sheet's price, so fine; only the strength of the bound hangs on it."""

GAIN = 1e-7
"""By how much of the dearest price a filling must be worth more than its sheet to be of use."""

MOST_ROUNDS = 400
"""How often values are asked for fillings."""

MOST_PURCHASES = 60
"""How many cheapest purchases are asked whether they can hold the job."""

KEPT = 24
"""How many conditions are kept."""

Counts = tuple[int, ...]


@dataclass(slots=True)
class Pool:
    """Patterns by sort of sheet and pieces held, with a shape each; no pattern holds more of a kind than is wanted."""

    wanted: Sequence[int]
    shapes: dict[tuple[int, Counts], Shape] = field(default_factory=dict)

    def add(self, stock: int, shape: Shape) -> tuple[int, Counts] | None:
        """Add a pattern, surplus pieces left out; None where it is known or empty."""
        counts = counts_of(shape, len(self.wanted))
        surplus = [max(0, c - q) for c, q in zip(counts, self.wanted, strict=True)]
        if any(surplus):
            shape = without(shape, surplus)
            counts = counts_of(shape, len(self.wanted))
        key = (stock, counts)
        if key in self.shapes or not any(counts):
            return None
        self.shapes[key] = shape
        return key


class Columns:
    """Column generation for one job; `conditions` grow and `pool` grows."""

    def __init__(self, task: Task, wanted: Sequence[int], dearest: Dearest, out_of_time: Callable[[], bool]) -> None:
        """Start without patterns."""
        self.task, self.wanted, self.dearest, self.out_of_time = task, list(wanted), dearest, out_of_time
        self.pool = Pool(self.wanted)
        self.kinds = [k for k, q in enumerate(wanted) if q]
        self.top = float(max(1, *(stock.price for stock in task.stocks)))
        self.limited = [s for s in dearest.used if task.stocks[s].quantity is not None]
        self.offers = [Offer(stock.price, stock.quantity) for stock in task.stocks]
        self.step = PriceScale.common_step([stock.price for stock in task.stocks])
        self.conditions: list[Condition] = []
        self.values: list[int] = [0] * len(self.wanted)

    def condition(self, values: Sequence[int], worths: Sequence[int]) -> Condition:
        """Say that sheets must be worth what the pieces are."""
        worth = [0] * len(self.task.stocks)
        for s, w in zip(self.dearest.used, worths, strict=True):
            worth[s] = w
        return Condition(tuple(worth), sum(map(mul, values, self.wanted)))

    def _terms(self, key: tuple[int, Counts]) -> list[tuple[int, float]]:
        """Give a pattern's entries in the rows: the kinds and then the limited sorts."""
        stock, counts = key
        terms = [(row, float(counts[k])) for row, k in enumerate(self.kinds) if counts[k]]
        if stock in self.limited:
            terms.append((len(self.kinds) + self.limited.index(stock), 1.0))
        return terms

    def _programme(self) -> Programme:
        """Write down: patterns in parts, every kind often enough, no more sheets than there are, least cost."""
        keys = list(self.pool.shapes)
        programme = Programme()
        columns = [programme.column(self.task.stocks[s].price / self.top) for s, _ in keys]
        rows: list[list[tuple[int, float]]] = [[] for _ in range(len(self.kinds) + len(self.limited))]
        for column, key in zip(columns, keys, strict=True):
            for row, factor in self._terms(key):
                rows[row].append((column, factor))
        for row, k in enumerate(self.kinds):
            programme.row(rows[row], lower=float(self.wanted[k]))
        for row, s in enumerate(self.limited):
            programme.row(rows[len(self.kinds) + row], upper=float(self.task.stocks[s].quantity or 0))
        return programme

    def relax(self) -> bool:
        """Mix patterns in parts until no filling is worth more than its sheet; say whether that was reached."""
        growing = Growing(self._programme())
        finished = False
        prices = {s: self.task.stocks[s].price / self.top for s in self.dearest.used}
        for _ in range(MOST_ROUNDS):
            solved = growing.solve(self.dearest.clock)
            if solved is None:
                return False
            self.values = self._values(solved)
            fillings = self.dearest.fillings(self.values)
            scarce = {s: -solved.duals[len(self.kinds) + row] for row, s in enumerate(self.limited)}
            if self.dearest.exact:
                self.note(self.condition(self.values, [worth for worth, _ in fillings]))
            fresh = []
            for s, (worth, shape) in zip(self.dearest.used, fillings, strict=True):
                if worth / UNIT > prices[s] + scarce.get(s, 0.0) + GAIN:
                    fresh.append((s, shape))
            if not fresh:
                finished = True
                break
            if self.out_of_time():
                break
            for s, shape in fresh:
                # the programme is given the filling as it is; the pool only what the job can use
                self.pool.add(s, shape)
                growing.column(prices[s], self._terms((s, counts_of(shape, len(self.wanted)))))
        if not self.dearest.exact:
            self.note(self.condition(self.values, self.dearest.worths(self.values)))
        return finished

    def _values(self, solved: Solved) -> list[int]:
        """Take the duals of the kinds as whole numbers."""
        values = [0] * len(self.wanted)
        for row, k in enumerate(self.kinds):
            values[k] = max(0, min(UNIT, int(solved.duals[row] * UNIT)))
        return values

    def note(self, condition: Condition) -> None:
        """Keep a condition, and of all the latest."""
        self.conditions.append(condition)
        if len(self.conditions) > KEPT:
            self.conditions.pop(0)

    def purchase(self, refused: Sequence[Sequence[int]], below: int | None) -> Purchase | None:
        """Give the cheapest purchase that the conditions leave, None where it would not be `below`."""
        return cheapest_purchase(self.offers, self.conditions, self.step, refused=refused, below=below)

    def refute(self, numbers: Sequence[int]) -> Condition | None:
        """Find values by which the job is worth more than these sheets; None where there are none."""
        task = self.task
        keys = [key for key in self.pool.shapes if numbers[key[0]]]
        area = float(max(stock.length * stock.width for stock in task.stocks))
        programme = Programme()
        columns = [programme.column(0.0) for _ in keys]
        missing = [programme.column(task.kinds[k].length * task.kinds[k].width / area) for k in self.kinds]
        used = [s for s in self.dearest.used if numbers[s]]
        for row, k in enumerate(self.kinds):
            terms = [(c, float(counts[k])) for c, (_, counts) in zip(columns, keys, strict=True)]
            programme.row([*terms, (missing[row], 1.0)], lower=float(self.wanted[k]))
        for s in used:
            own = [(c, 1.0) for c, (of, _) in zip(columns, keys, strict=True) if of == s]
            programme.row(own, upper=float(numbers[s]))
        growing = Growing(programme)
        for _ in range(MOST_ROUNDS):
            solved = growing.solve(self.dearest.clock)
            if solved is None or solved.objective < GAIN or self.out_of_time():
                return None
            values = self._values(solved)
            fillings = self.dearest.fillings(values)
            worths = [worth for worth, _ in fillings] if self.dearest.exact else self.dearest.worths(values)
            condition = self.condition(values, worths)
            if sum(map(mul, numbers, condition.worth)) < condition.demand:
                return condition
            scarce = {s: -solved.duals[len(self.kinds) + row] for row, s in enumerate(used)}
            grown = False
            for s, (worth, shape) in zip(self.dearest.used, fillings, strict=True):
                if numbers[s] and worth / UNIT > scarce[s] + GAIN:
                    self.pool.add(s, shape)
                    key = (s, counts_of(shape, len(self.wanted)))
                    terms = [(row, float(key[1][k])) for row, k in enumerate(self.kinds) if key[1][k]]
                    growing.column(0.0, [*terms, (len(self.kinds) + used.index(s), 1.0)])
                    grown = True
            if not grown:
                return None
        return None

    def strengthen(self, best: int | None) -> int | None:
        """Ask purchases, cheapest first, whether they can hold the job; give the bound reached, None for no purchase."""
        bound: int | None = None
        for _ in range(MOST_PURCHASES):
            result = self.purchase((), None)
            if result is None:
                return None
            bound = result.cost
            if result.numbers is None or self.out_of_time() or (best is not None and bound >= best):
                break
            condition = self.refute(self.filled_up(result.numbers))
            if condition is None:
                break
            self.note(condition)
        return bound

    def filled_up(self, numbers: Sequence[int]) -> list[int]:
        """Add every sheet that costs nothing to a purchase."""
        most = sum(self.wanted)
        return [
            n if stock.price else (most if stock.quantity is None else stock.quantity)
            for n, stock in zip(numbers, self.task.stocks, strict=True)
        ]
