"""Whole bars by diving: values of sticks, the patterns they ask for, the surest pattern fixed, and again with the rest.

A linear programme mixes patterns in parts; what it uses at least once is cut so often, else the pattern it uses most is
cut once. The sticks left are valued anew, with patterns that hold no more of them than are left [1]_. As soon as the
values prove that the way taken ends above the cost aimed at, another way is taken, by chance from the seed.

References
----------
.. [1] G. Belov, G. Scheithauer, "A cutting plane algorithm for the one-dimensional cutting stock problem with multiple
   stock lengths", European Journal of Operational Research 141 (2002), 274-294.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import ceil, gcd, inf

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.bars.patterns import BarKind, Pattern, Values
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.linear import Growing, Programme, Solved

__all__ = ["BarDive"]

UNIT = 2**32
"""Values are whole parts of the dearest bar's price, so fine; only the strength of the bound hangs on it."""

GAIN = 1e-7
"""By how much of the dearest price a pattern must be worth more than its bar to be of use."""

QUICK_STEPS, DIVE_STEPS, MOST_STEPS = 30_000, 300_000, 30_000_000
"""Steps of one search for the dearest filling: while any better pattern will do, while diving, and for a proof."""

CALL, STEP, CELL = 2e-5, 1e-8, 1.5e-9
"""Counted seconds for one look for the dearest filling, for each step of it and for each table cell. [s]"""

MOST_CELLS = 100_000_000
"""Table cells, of lengths in their common step, up to which a table is made instead of the longer search."""

AT_ONCE = 24
"""Patterns without a stick in common that one look for better ones may give."""

MOST_ROUNDS = 2_000
"""How often values are asked for patterns."""

INSIDE_ROUNDS, INSIDE_GAIN = 40, 1e-4
"""How often values from the middle are asked for patterns, and by how much these must be better."""

SURE = 0.8
"""A pattern used in so great a part of a bar is taken for used whole. House assumption."""

MOST_DIVES = 40
"""How many ways are taken."""


@dataclass(slots=True)
class BarDive:
    """One job: bars, lengths (longest first) and how many of each are wanted; every length fits some bar."""

    bars: Sequence[BarKind]
    lengths: Sequence[int]
    wanted: Sequence[int]
    clock: Clock
    keys: list[Pattern] = field(default_factory=list)
    top: float = field(init=False)
    limited: list[int] = field(init=False)
    _first: int = field(init=False)
    _growing: Growing = field(init=False)
    _closed: set[int] = field(init=False)
    _sizes: NDArray[np.int64] = field(init=False)
    _step: int = field(init=False)
    _cuts: NDArray[np.int64] = field(init=False)

    def __post_init__(self) -> None:
        """Write down the programme with a stick a bar, for a price that nobody pays."""
        self.top = float(max(1, *(bar.price for bar in self.bars)))
        self.limited = [b for b, bar in enumerate(self.bars) if bar.quantity is not None]
        programme = Programme()
        # what cannot be cut is missing, at a price beyond all bars
        missing = [programme.column(2.0) for _ in self.lengths]
        for column, quantity in zip(missing, self.wanted, strict=True):
            programme.row([(column, 1.0)], lower=float(quantity))
        for b in self.limited:
            programme.row([], upper=float(self.bars[b].quantity or 0))
        self._first = len(missing)
        self._growing = Growing(programme)
        self._closed = set()
        self._sizes = np.array(self.lengths, dtype=np.int64)
        self._step = gcd(*self.lengths)
        self._cuts = np.zeros((64, len(self.lengths)), dtype=np.int64)

    def add(self, pattern: Pattern) -> None:
        """Add a pattern to the programme."""
        b, cuts = pattern
        terms = [(k, float(number)) for k, number in enumerate(cuts) if number]
        if b in self.limited:
            terms.append((len(self.lengths) + self.limited.index(b), 1.0))
        self._growing.column(self.bars[b].price / self.top, terms)
        if len(self.keys) == len(self._cuts):  # twice the room, so that all in all little is copied
            self._cuts = np.concatenate([self._cuts, np.zeros_like(self._cuts)])
        self._cuts[len(self.keys)] = cuts
        self.keys.append(pattern)

    def relax(
        self,
        left: Sequence[int],
        stock: Sequence[int | None],
        exact: Callable[[Values], bool],
        *,
        thorough: bool = True,
    ) -> Solved | None:
        """Mix patterns in parts for the sticks left; None where time ran out or `exact` values say it is no use.

        It ends where no pattern is better, or the cost rounded up is proven; not `thorough`, where none is found soon.
        """
        quantities = np.array(left, dtype=np.int64)
        known = set(self.keys)
        for _ in range(MOST_ROUNDS):
            solved = self._growing.solve(self.clock)
            if solved is None:
                return None
            values = np.array([max(0, int(d * UNIT)) for d in solved.duals[: len(self.lengths)]], dtype=np.int64)
            scarce = {b: -solved.duals[len(self.lengths) + row] for row, b in enumerate(self.limited)}
            prices = [bar.price / self.top + scarce.get(b, 0.0) for b, bar in enumerate(self.bars)]
            fresh = self._quick(values, quantities, stock, prices, known)
            if not fresh:
                fillings, done = self._fillings(values, quantities, MOST_STEPS if thorough else DIVE_STEPS)
                by = Values(tuple(values.tolist()), tuple(worth for worth, _ in fillings))
                if done and exact(by):
                    return None
                if done and self._rounds_up(by, left, solved.objective):
                    return solved
                for b, (worth, cuts) in enumerate(fillings):
                    if stock[b] != 0 and worth / UNIT > prices[b] + GAIN and (b, cuts) not in known:
                        self.add((b, cuts))
                        known.add((b, cuts))
                        fresh = True
            if not fresh:
                return solved
            if self.clock.out_of_time():
                return None
        return None

    def inside(self, prices: Sequence[float]) -> Values | None:
        """Give values that ask for no pattern more, from the middle of all such; None where none were found in time.

        For all that is wanted, after `relax`; the prices are those of the bars, by the dearest.
        """
        quantities, result = np.array(self.wanted, dtype=np.int64), None
        for _ in range(INSIDE_ROUNDS):
            solved = self._growing.solve_inside(self.clock)
            if solved is None or self.clock.out_of_time():
                return result
            values = np.array([max(0, int(d * UNIT)) for d in solved.duals[: len(self.lengths)]], dtype=np.int64)
            fillings, done = self._fillings(values, quantities, MOST_STEPS)
            if not done:
                return result
            result = Values(tuple(values.tolist()), tuple(worth for worth, _ in fillings))
            better = [(b, f) for b, f in enumerate(fillings) if f[0] / UNIT > prices[b] * (1 + INSIDE_GAIN)]
            if not better:
                return result
            for b, (_, cuts) in better:
                self.add((b, cuts))
        return result

    def _quick(
        self,
        values: NDArray[np.int64],
        quantities: NDArray[np.int64],
        stock: Sequence[int | None],
        prices: Sequence[float],
        known: set[Pattern],
    ) -> bool:
        """Add better patterns that are found at once, those of one look without a stick in common."""
        fresh, left = False, quantities.copy()
        for _ in range(AT_ONCE):
            fillings, _ = self._fillings(values, left, QUICK_STEPS)
            better = [
                (worth / UNIT - prices[b], b, cuts)
                for b, (worth, cuts) in enumerate(fillings)
                if stock[b] != 0 and worth / UNIT > prices[b] + GAIN and (b, cuts) not in known
            ]
            if not better:
                break
            for _, b, cuts in better:
                self.add((b, cuts))
                known.add((b, cuts))
            fresh = True
            left[np.array(max(better)[2]) > 0] = 0
        return fresh

    def _fillings(
        self, values: NDArray[np.int64], quantities: NDArray[np.int64], steps: int
    ) -> tuple[list[tuple[int, tuple[int, ...]]], bool]:
        """Find the dearest filling of each sort of bar, and say whether none is dearer."""
        from rodbook.boards.kernels.knapsack import by_table, dearest

        use = np.flatnonzero((values > 0) & (quantities > 0))
        order = use[np.argsort(-values[use] / self._sizes[use], kind="stable")]
        result, all_done = [], True
        for bar in self.bars:
            sizes, worths, most = self._sizes[order], values[order], quantities[order]
            cells = bar.length // self._step * int(np.log2(np.minimum(most, bar.length // sizes) + 1).sum() + 1)
            if steps == MOST_STEPS and cells < MOST_CELLS:
                worth, taken = by_table(bar.length // self._step, sizes // self._step, worths, most)
                done = True
                self.clock.spend(CALL + CELL * cells)
            else:
                worth, taken, made = dearest(bar.length, sizes, worths, most, steps)
                done = made <= steps
                self.clock.spend(CALL + STEP * made)
            cuts = np.zeros(len(self.lengths), dtype=np.int64)
            cuts[order] = taken
            answer = int(worth), tuple(cuts.tolist())
            result.append(answer)
            all_done &= done
        return result, all_done

    def dive(
        self, aim: int, rng: np.random.Generator, start: Solved, *, sure: bool
    ) -> list[tuple[Pattern, int]] | None:
        """Take one way from the first mix down; the patterns used, None where it ends above the cost aimed at.

        `sure`: always the pattern used most; else one of those used most, by chance.
        """
        left, stock = list(self.wanted), [bar.quantity for bar in self.bars]
        spent, used, solved = 0, [], start
        result: Solved | None = start
        while any(left):
            if result is None or self.clock.out_of_time():
                self._open(self.wanted, [bar.quantity for bar in self.bars])
                return None
            solved = result
            parts = solved.values[self._first :]
            chosen = [(p, int(x + 1 - SURE)) for p, x in enumerate(parts) if x >= SURE]
            if not chosen:
                order = sorted((p for p, x in enumerate(parts) if x > GAIN), key=lambda p: (-parts[p], p))
                if not order:
                    break
                chosen = [(order[0 if sure else int(rng.integers(min(4, len(order))))], 1)]
            elif not sure and len(chosen) > 3:
                chosen = [c for c in chosen if rng.random() < 0.8] or chosen
            for p, number in chosen:
                b, cuts = self.keys[p]
                number = min([number, *(q // c for q, c in zip(left, cuts, strict=True) if c)])
                here = stock[b]
                number = number if here is None else min(number, here)
                if not number:
                    continue
                if here is not None:
                    stock[b] = here - number
                left = [q - c * number for q, c in zip(left, cuts, strict=True)]
                spent += self.bars[b].price * number
                used.append(((b, cuts), number))
            if not any(left):
                break
            self._open(left, stock)

            def beyond(values: Values, left: Sequence[int] = left, aim: int = aim - spent) -> bool:
                return self._beyond(values, left, aim)

            result = self.relax(left, stock, beyond, thorough=False)
        self._open(self.wanted, [bar.quantity for bar in self.bars])
        return used if not any(left) and spent <= aim else None

    def _beyond(self, values: Values, left: Sequence[int], aim: int) -> bool:
        """Say whether values prove that the sticks left cost more than is left to spend, whatever the bars."""
        if self.limited:
            return False
        rate = max(worth / max(1, bar.price) for worth, bar in zip(values.bars, self.bars, strict=True))
        if rate <= 0:
            return False
        need = sum(q * v for q, v in zip(left, values.sticks, strict=True)) / rate
        step = min((bar.price for bar in self.bars if bar.price), default=1) if len(self.bars) == 1 else 1
        return need > aim + 1e-6 * step

    def _rounds_up(self, values: Values, left: Sequence[int], objective: float) -> bool:
        """Say whether values prove the programme's cost already, rounded up to whole bars of the one sort there is."""
        if self.limited or len(self.bars) > 1 or not values.bars[0]:
            return False
        need = sum(q * v for q, v in zip(left, values.sticks, strict=True)) / values.bars[0]
        return ceil(need - GAIN) >= ceil(objective - GAIN)

    def _open(self, left: Sequence[int], stock: Sequence[int | None]) -> None:
        """Set the programme to the sticks and bars left; patterns that hold more than is left are closed."""
        for row, quantity in enumerate(left):
            self._growing.bound_row(row, float(quantity), inf)
        for row, b in enumerate(self.limited):
            self._growing.bound_row(len(left) + row, -inf, float(stock[b] or 0))
        room = np.array(left)
        table = self._cuts[: len(self.keys)]
        fits = (table <= room).all(axis=1).tolist()
        for p, fit in enumerate(fits):
            if fit != (p not in self._closed):
                self._growing.limit_column(self._first + p, inf if fit else 0.0)
        self._closed = {p for p, fit in enumerate(fits) if not fit}
