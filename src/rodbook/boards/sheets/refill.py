"""Cheaper purchases tried by emptying and filling sheets again: for jobs of many different pieces.

A goal is a purchase that would be cheaper than the best plan: one sheet less, or a cheaper one in its place. The sheets
of the goal are filled with what the best plan put on them, and compiled loops then take a few sheets out at a time and
fill them anew until every piece has a place, after the manner of ruin and recreate [1]_.

References
----------
.. [1] G. Schrimpf, J. Schneider, H. Stamm-Wilbrandt, G. Dueck, "Record breaking optimization results using the ruin and
   recreate principle", Journal of Computational Physics 159 (2000), 139-171.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.asked.task import Task
from rodbook.boards.filling.search import Cutting, Found
from rodbook.boards.filling.shapes import Cut, Leaf, Shape, filled_from
from rodbook.boards.tools.clock import Clock

__all__ = ["Refilling", "shape_from_places"]

CHUNK = 400
"""Rounds between two looks at the clock."""

CHUNKS_A_GOAL = 12
"""Chunks spent on a goal before the next one has its turn, where there is more than one."""

ROUNDS_A_PIECE, MOST_ROUNDS = 12_000, 20_000_000
"""Rounds made in all: so many for each piece, twice that for twice 10 s, and no more than that. House assumption."""

ROUND_PIECE = 0.7e-6
"""Counted seconds of a round for each piece that a sheet holds on average. Measured. [s]"""

HEAT = 0.05
"""How much worse, in mean pieces, what has no place may become now and then. House assumption."""

Box = tuple[int, int, int, int, int]
"""Number of the piece, x, y, length and width."""


@dataclass(slots=True)
class _State:
    """Sheets by sort, and where each piece lies."""

    sheets: list[int]
    where: NDArray[np.int64]
    spots: NDArray[np.int64]

    def copy(self) -> _State:
        """Make one that can be changed."""
        return _State(list(self.sheets), self.where.copy(), self.spots.copy())


@dataclass(slots=True)
class _Goal:
    """A cheaper purchase, how far its filling is and the weights that were learned."""

    cost: int
    state: _State
    weight: NDArray[np.float64]
    left: float = float("inf")


class Refilling:
    """Refills sheets for one job; `best` is the cheapest plan found."""

    def __init__(
        self,
        task: Task,
        wanted: Sequence[int],
        known: Found,
        *,
        bound: int,
        seed: int,
        clock: Clock,
        purchases: Callable[[int], Sequence[Sequence[int]]] = lambda _: (),
    ) -> None:
        """Number the pieces and take down where they lie; `purchases` gives goals below a cost besides those near it."""
        self.purchases, self.clock = purchases, clock
        self.task, self.wanted, self.best, self.bound, self.seed = task, wanted, known, bound, seed
        kinds = [k for k, q in enumerate(wanted) for _ in range(q)]
        self.kinds = kinds
        self.sizes = np.array([(task.kinds[k].length, task.kinds[k].width) for k in kinds], dtype=np.int64)
        self.turns = np.array([task.kinds[k].may_turn for k in kinds], dtype=np.bool_)
        self.area = self.sizes[:, 0] * self.sizes[:, 1]
        scale = max(1.0, clock.seconds / 10)
        self.rounds = int(min(MOST_ROUNDS, ROUNDS_A_PIECE * len(kinds) * scale))
        self.chunks = self.tries = 0

    def run(self, on_try: Callable[[int, int | None], None]) -> Found:
        """Try goals until none is left, the rounds are made or time is up."""
        state = self._state_of(self.best)
        while self.best.cost > self.bound:
            goals = self._goals(state)
            reached = self._reach(goals, on_try)
            if reached is None:
                break
            state = reached.state
            self.best = self._found(state)
            on_try(self.tries, self.best.cost)
        return self.best

    def _reach(self, goals: list[_Goal], on_try: Callable[[int, int | None], None]) -> _Goal | None:
        """Work on goals in turn until one is reached; None where time or rounds end before."""
        from rodbook.boards.kernels.refilling import refill

        stocks = self.task.stocks
        while goals:
            for goal in goals:
                boards = np.array([(stocks[s].length, stocks[s].width) for s in goal.state.sheets], dtype=np.int64)
                for _ in range(CHUNKS_A_GOAL if len(goals) > 1 else 1):
                    if self.clock.out_of_time() or self.chunks * CHUNK > self.rounds:
                        return None
                    self.chunks += 1
                    self.clock.spend(CHUNK * ROUND_PIECE * len(self.kinds) / max(1, len(boards)))
                    goal.left = refill(
                        self.sizes,
                        self.turns,
                        boards,
                        goal.state.where,
                        goal.state.spots,
                        goal.weight,
                        (self.seed * 1_000_003 + self.chunks) % 2**31,
                        CHUNK,
                        HEAT,
                    )
                    if goal.left <= 0:
                        return goal
                self.tries += 1
                on_try(self.tries, self.best.cost)
            # the half that is farther from being reached gives way
            goals.sort(key=lambda goal: goal.left)
            goals = goals[: max(1, (len(goals) + 1) // 2)]
        return None

    def _goals(self, state: _State) -> list[_Goal]:
        """List cheaper purchases next to the present one, most area first of those that save most."""
        stocks = self.task.stocks
        here = sum(stocks[s].price for s in state.sheets)
        used = [state.sheets.count(s) for s in range(len(stocks))]
        need = int(self.area.sum())
        filled = [int(self.area[state.where == n].sum()) for n in range(len(state.sheets))]
        found: dict[tuple[int, ...], tuple[int, int, int, int | None]] = {}
        for n, s in enumerate(state.sheets):
            for other in (None, *range(len(stocks))):
                price = 0 if other is None else stocks[other].price
                if price >= stocks[s].price or here - stocks[s].price + price < self.bound:
                    continue
                quantity = None if other is None else stocks[other].quantity
                if other is not None and quantity is not None and used[other] >= quantity:
                    continue
                sheets = list(used)
                sheets[s] -= 1
                if other is not None:
                    sheets[other] += 1
                room = sum(c * stock.length * stock.width for c, stock in zip(sheets, stocks, strict=True))
                if room < need:
                    continue
                key = tuple(sheets)
                if key not in found or filled[n] < filled[found[key][2]]:
                    found[key] = (here - stocks[s].price + price, -room, n, other)
        goals: list[_Goal] = []
        for numbers in self.purchases(here) if len(stocks) > 1 else ():
            cost = sum(n * stock.price for n, stock in zip(numbers, stocks, strict=True))
            if cost < here and tuple(numbers) not in found:
                goals.append(self._bought(state, numbers, cost, filled))
        for cost, _, n, other in sorted(found.values(), key=lambda goal: (goal[1], goal[0])):
            copy = state.copy()
            if other is None:
                copy.sheets.pop(n)
                copy.where[copy.where == n] = -1
                copy.where[copy.where > n] -= 1
            else:
                copy.sheets[n] = other
                copy.where[copy.where == n] = -1
            goals.append(_Goal(cost, copy, np.ones(len(self.kinds))))
        return goals[:12]

    def _bought(self, state: _State, numbers: Sequence[int], cost: int, filled: Sequence[int]) -> _Goal:
        """Make a goal of a purchase: the fullest sheets of each sort stay as they are, as many as it has."""
        sheets: list[int] = []
        where = np.full_like(state.where, -1)
        for s, number in enumerate(numbers):
            mine = sorted((n for n, of in enumerate(state.sheets) if of == s), key=lambda n: -filled[n])[:number]
            for n in mine:
                where[state.where == n] = len(sheets)
                sheets.append(s)
            sheets += [s] * min(len(self.kinds), number - len(mine))
        return _Goal(cost, _State(sheets, where, state.spots.copy()), np.ones(len(self.kinds)))

    def _state_of(self, found: Found) -> _State:
        """Take down where a plan's pieces lie; free sheets not used yet stand ready, empty."""
        sheets: list[int] = []
        where = np.full(len(self.kinds), -1, dtype=np.int64)
        spots = np.zeros((len(self.kinds), 4), dtype=np.int64)
        waiting: dict[int, list[int]] = {}
        for piece in range(len(self.kinds) - 1, -1, -1):
            waiting.setdefault(self.kinds[piece], []).append(piece)
        for cutting in found.cuttings:
            for _ in range(cutting.count):
                for leaf, kind in cutting.filled.leaves.items():
                    piece = waiting[kind].pop()
                    where[piece] = len(sheets)
                    spots[piece] = cutting.filled.nodes[leaf]
                sheets.append(cutting.stock)
        for s, stock in enumerate(self.task.stocks):
            if stock.price == 0 and any(self.task.lies[s]):
                more = len(self.kinds) if stock.quantity is None else stock.quantity
                sheets += [s] * min(len(self.kinds), more - sheets.count(s))
        return _State(sheets, where, spots)

    def _found(self, state: _State) -> Found:
        """Turn places into cuts; sheets cut alike are taken together."""
        task = self.task
        alike: dict[tuple[int, Shape], int] = {}
        for n, s in enumerate(state.sheets):
            boxes: list[Box] = []
            for p in np.flatnonzero(state.where == n).tolist():
                x, y, length, width = state.spots[p].tolist()
                boxes.append((self.kinds[p], x, y, length, width))
            if boxes:
                shape = shape_from_places(boxes)
                alike[s, shape] = alike.get((s, shape), 0) + 1
        cuttings = [
            Cutting(
                s,
                filled_from(
                    shape,
                    (task.stocks[s].length, task.stocks[s].width),
                    task.kerf,
                    levels=task.most_cut_levels,
                    worth=[1.0] * len(self.wanted),
                ),
                count,
            )
            for (s, shape), count in alike.items()
        ]
        cost = sum(task.stocks[c.stock].price * c.count for c in cuttings)
        return Found(cuttings, [0] * len(self.wanted), cost, self.tries, "tries")


def shape_from_places(boxes: Sequence[Box]) -> Shape:
    """Find the cuts that set pieces free which lie so; they must lie so that straight cuts can."""
    if len(boxes) == 1:
        kind, _, _, length, width = boxes[0]
        return Leaf(kind, length, width)
    for axis in (0, 1):
        ordered = sorted(boxes, key=lambda box: box[1 + axis])
        end = 0
        for n, box in enumerate(ordered):
            if n and box[1 + axis] >= end:
                return Cut(axis, shape_from_places(ordered[:n]), shape_from_places(ordered[n:]))
            end = max(end, box[1 + axis] + box[3 + axis])
    raise AssertionError("these pieces cannot be cut free by straight cuts")
