"""Which search is used when: quick plans first, then patterns with proof, then what time is left on mending."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.asked.task import Task
from rodbook.boards.filling.search import Cutting, Found, search
from rodbook.boards.filling.shapes import Shape, counts_of, filled_from, shape_of, without
from rodbook.boards.models import BrokenOff, Ended, OnProgress, Progress
from rodbook.boards.proof.bounds import least_cost
from rodbook.boards.proof.cover import Condition, Offer, cheapest_purchase
from rodbook.boards.sheets.tidy import tidied
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.steps import Steps

if TYPE_CHECKING:  # with these comes the compiler, which quick jobs do without
    from rodbook.boards.values.mixing import Mixed

__all__ = ["Solved", "solve"]

BUILDS_LEAST, BUILDS_MOST, BUILD_WORK = 4, 60, 4_000
"""Whole plans built: this work over pieces times sorts of sheet, within limits. House assumption: about a second."""

MENDS_LEAST, MEND_WORK = 30, 120
"""Plans mended: this work over sorts of sheet, and no fewer than the least. House assumption: about a second."""

OFFCUT_MENDS = 10
"""Tries that are still made, for a larger offcut alone, once the cost can be no less. House assumption."""

QUICK_BUILDS, QUICK_MENDS = 3, 6
"""Tries before patterns are looked at; what these prove needs no more."""

PATTERN_SHARE = 0.8
"""The share of the time by whose end patterns are done with. House assumption."""

RELAX_SHARE = 0.5
"""The share of the time by whose end the values of pieces must do as they are. House assumption."""

STEPS_DOWN = (0.0, 0.25, 0.5, 0.75, 0.9)
"""How far below the best plan, in parts of what lies between it and the bound, purchases are tried by filling them."""

MOST_CONDITIONS = 6
"""Conditions from values that such purchases must pass; the latest say most."""

MOST_KINDS = 60
"""Beyond so many kinds of piece, patterns hold few of each, and the search by building and mending does as well."""


@dataclass(frozen=True, slots=True)
class Solved:
    """The best plan, how many tries were made of it all, why the search ended and what no plan costs less than."""

    cuttings: list[Cutting]
    missing: list[int]
    cost: int
    bound: int
    tries: int
    ended: Ended
    broken_off: tuple[BrokenOff, ...] = ()


class _Run:
    """One search from its start."""

    def __init__(
        self,
        task: Task,
        wanted: Sequence[int],
        clock: Clock,
        seed: int,
        on_progress: OnProgress | None,
    ) -> None:
        """Set the number of tries."""
        self.task, self.wanted, self.clock, self.seed = task, list(wanted), clock, seed
        self.on_progress = on_progress
        pieces, sorts = sum(wanted), max(1, len(task.stocks))
        self.builds = max(BUILDS_LEAST, min(BUILDS_MOST, BUILD_WORK // max(1, pieces * sorts)))
        self.mends = max(MENDS_LEAST, MEND_WORK // sorts)
        self.tries = self.heard = 0
        self.cut_short = False
        self.bound: int | None = None
        self.conditions: list[Condition] = []
        self.area = Condition(
            tuple(stock.length * stock.width for stock in task.stocks),
            sum(q * kind.length * kind.width for q, kind in zip(wanted, task.kinds, strict=True)),
        )

    def pattern_seconds_left(self) -> float:
        """Say how much time there is for patterns; some is kept for filling sheets, and for what stops late."""
        return self.clock.left() - (1 - PATTERN_SHARE) * self.clock.given

    def report(self, _: int, cost: int | None) -> None:
        """Tell whoever listens."""
        self.heard += 1
        if self.on_progress is not None:
            scale = self.task.scale
            price = None if cost is None else scale.price(cost)
            of = QUICK_BUILDS + QUICK_MENDS + 1 + self.builds + self.mends + OFFCUT_MENDS
            self.on_progress(Progress(self.heard, max(of, self.heard), price, scale.price(self.bound or 0)))

    def search(self, builds: int, mends: int, known: Found | None, *, finish: bool = False) -> Found:
        """Build and mend plans; to finish, only for the sake of a large offcut."""
        result = search(
            self.task,
            self.wanted,
            bound=self.bound,
            builds=builds,
            mends=mends,
            seed=self.seed,
            clock=self.clock,
            on_try=self.report,
            known=known,
            linger=mends if finish else None,
            tidy=finish,
        )
        self.tries += result.tries
        self.cut_short |= self.clock.struck() and result.ended == "time"
        return result

    def is_best(self, result: Found) -> bool:
        """Say whether nothing cheaper can exist."""
        return not any(result.missing) and result.cost == self.bound

    def patterns(self, result: Found) -> Found:
        """Mix patterns to a better plan and a better bound."""
        from rodbook.boards.warm import ready

        if not ready(self.clock):
            self.cut_short = True
            return result

        # after the wait, which fetches the compiler: a clock that stands still meanwhile is not to pay for it
        from rodbook.boards.values.columns import Columns
        from rodbook.boards.values.dearest import Dearest
        from rodbook.boards.values.mixing import Mixing

        dearest = Dearest(self.task, self.wanted, clock=self.clock)
        if not dearest.used:
            return result
        relax_until = self.clock.left() * (1 - RELAX_SHARE)
        columns = Columns(self.task, self.wanted, dearest, lambda: self.clock.left() <= relax_until)
        for cutting in result.cuttings:
            columns.pool.add(cutting.stock, shape_of(cutting.filled))
        if not dearest.can_fill:
            return result
        columns.relax()
        if not columns.conditions:
            return result
        condition = columns.conditions[-1]
        columns.conditions.insert(0, self._known_bound())
        self._raise(columns.strengthen(result.cost))
        if self.pattern_seconds_left() <= 0 or self.is_best(result):
            self.cut_short |= self.clock.struck() and not self.is_best(result)
            return result
        mixing = Mixing(columns, self.bound or 0, result.cost, self.clock, self.pattern_seconds_left)
        mixing.run(condition)
        self.tries += mixing.tries
        self.cut_short |= mixing.cut_short
        self._raise(mixing.bound)
        result = result if mixing.best is None else self._plan_of(mixing.best)
        self.conditions = list(columns.conditions)
        return result

    def open_purchases(self, best: int) -> list[list[int]]:
        """List purchases between the bound and the best plan of which nothing shows yet that they do not do."""
        task, bound = self.task, self.bound or 0
        offers = [Offer(stock.price, stock.quantity) for stock in task.stocks]
        prices = tuple(stock.price for stock in task.stocks)
        step = PriceScale.common_step(prices)
        conditions = [self.area, *self.conditions[-MOST_CONDITIONS:]]
        results: dict[tuple[int, ...], None] = {}
        for share in STEPS_DOWN:
            at_least = best - 1 - int((best - 1 - bound) * (1 - share))
            purchase = cheapest_purchase(offers, [Condition(prices, at_least), *conditions], step, below=best)
            if purchase is not None and purchase.numbers is not None:
                results[purchase.numbers] = None
            if self.clock.out_of_time():
                break
        most = sum(self.wanted)
        return [
            [
                n if stock.price else (most if stock.quantity is None else stock.quantity)
                for n, stock in zip(numbers, task.stocks, strict=True)
            ]
            for numbers in results
        ]

    def refilled(self, result: Found, *, near_best: bool) -> Found:
        """Empty sheets and fill them again until a cheaper purchase will do."""
        from rodbook.boards.warm import ready

        if not ready(self.clock):
            self.cut_short = True
            return result

        from rodbook.boards.sheets.refill import Refilling

        refilling = Refilling(
            self.task,
            self.wanted,
            result,
            bound=self.bound or 0,
            seed=self.seed,
            clock=self.clock,
            purchases=self.open_purchases,
            near_best=near_best,
        )
        result = refilling.run(self.report)
        self.tries += refilling.tries
        self.cut_short |= self.clock.struck()
        return result

    def _known_bound(self) -> Condition:
        """Say that no purchase costs less than is proven already."""
        return Condition(tuple(stock.price for stock in self.task.stocks), self.bound or 0)

    def _raise(self, bound: int | None) -> None:
        """Take note of a better bound."""
        if bound is not None:
            self.bound = max(self.bound or 0, bound)

    def _plan_of(self, mixed: Mixed) -> Found:
        """Lay out what was mixed, surplus pieces left out."""
        task, kinds = self.task, len(self.wanted)
        sheets: list[tuple[int, Shape, int]] = [(s, shape, n) for s, shape, n in mixed.used]
        surplus = [-q for q in self.wanted]
        for _, shape, n in sheets:
            for k, c in enumerate(counts_of(shape, kinds)):
                surplus[k] += n * c
        done: list[tuple[int, Shape, int]] = []
        # the pattern that loses most goes first, so that what is left over comes together on few sheets
        sheets.sort(key=lambda item: -self._freed(item[1], surplus))
        for s, shape, n in sheets:
            left = n
            while left and any(min(a, b) > 0 for a, b in zip(counts_of(shape, kinds), surplus, strict=True)):
                smaller = without(shape, surplus)
                left -= 1
                if smaller is not None:
                    done.append((s, smaller, 1))
            if left:
                done.append((s, shape, left))
        worth = [1.0] * kinds
        cuttings = [
            Cutting(
                s,
                filled_from(
                    shape,
                    (task.stocks[s].length, task.stocks[s].width),
                    task.kerf,
                    levels=task.most_cut_levels,
                    worth=worth,
                ),
                n,
            )
            for s, shape, n in done
        ]
        return Found(cuttings, [0] * kinds, sum(task.stocks[c.stock].price * c.count for c in cuttings), 0, "tries")

    def _freed(self, shape: Shape, surplus: Sequence[int]) -> int:
        """Give the area that leaving out surplus pieces would free on one sheet."""
        counts = counts_of(shape, len(surplus))
        return sum(
            max(0, min(c, s)) * kind.length * kind.width
            for c, s, kind in zip(counts, surplus, self.task.kinds, strict=True)
        )


def solve(
    task: Task,
    wanted: Sequence[int],
    *,
    clock: Clock,
    seed: int,
    on_progress: OnProgress | None = None,
    plain: bool = False,
) -> Solved:
    """Look for the cheapest plan for so many of each kind; each must fit some sheet.

    `plain`: only the first quick plans, and nothing that comes after them. A later step that fails is named in the answer,
    and what was found without it stands.
    """
    if not any(wanted):
        return Solved([], [0] * len(wanted), 0, 0, 0, "bound")
    run, steps = _Run(task, wanted, clock, seed, on_progress), Steps()
    # emptying and filling again soon makes up for what a quick start lacks
    hasty = plain or (task.max_turns is None and not _few_kinds(wanted))
    run.bound = steps.tried("bound", None, lambda: least_cost(task, wanted))
    result = None if hasty else steps.tried("quick", None, lambda: run.search(QUICK_BUILDS, QUICK_MENDS, None))
    result = run.search(1, 0, None) if result is None else result
    by_patterns = False
    if not plain:
        by_patterns = (
            not run.is_best(result) and not clock.out_of_time() and not any(result.missing) and _few_kinds(wanted)
        )
        result = _bettered(run, steps, result, by_patterns=by_patterns)
    bound = run.bound
    if any(result.missing) or bound is None:
        bound = least_cost(task, [q - missing for q, missing in zip(wanted, result.missing, strict=True)]) or 0
    mends = OFFCUT_MENDS if run.is_best(result) and not clock.out_of_time() else 0
    stands = result
    if not plain:
        result = steps.tried("tidying", stands, lambda: run.search(0, mends, stands, finish=True))
    cuttings = result.cuttings
    if by_patterns:
        cuttings = steps.tried("tidying", cuttings, lambda: tidied(task, result.cuttings, clock.struck))
    ended: Ended = "bound" if result.cost == bound and not any(result.missing) else "tries"
    if run.cut_short or clock.struck():
        ended = "cancelled" if clock.cancelled else "time"
    return Solved(cuttings, result.missing, result.cost, bound, run.tries, ended, tuple(steps.broken_off))


def _bettered(run: _Run, steps: Steps, first: Found, *, by_patterns: bool) -> Found:
    """Make the first plan better step by step, until it is proven best or all that was to be done is done."""
    task, clock, result = run.task, run.clock, first

    def goes_on() -> bool:
        return not run.is_best(result) and not clock.out_of_time()

    if by_patterns:
        result = steps.tried("patterns", first, lambda: run.patterns(first))
        run.report(0, result.cost)
        if goes_on() and len(task.stocks) > 1:
            mixed = result
            result = steps.tried("mending", mixed, lambda: run.search(0, run.mends, mixed))
    stands = result
    if goes_on() and not any(result.missing) and task.max_turns is None:
        return steps.tried("refilling", stands, lambda: run.refilled(stands, near_best=by_patterns))
    if goes_on():
        return steps.tried("mending", stands, lambda: run.search(run.builds, run.mends, stands))
    return result


def _few_kinds(wanted: Sequence[int]) -> bool:
    """Say whether so few kinds are wanted that patterns pay."""
    return sum(1 for q in wanted if q) <= MOST_KINDS
