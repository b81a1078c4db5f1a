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
from rodbook.boards.filling.shapes import Leaf, Shape, filled_from, joined, key_of
from rodbook.boards.sheets.goals import MOST_CAREFUL, careful, chosen, near
from rodbook.boards.sheets.seen import Seen, Standing
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

FIRST_CHOICE, CHOICES_APART = 100, 1.6
"""After how many chunks on a goal sheets seen are chosen from, and by what factor the next time is later. House assumption."""

CHOICE_SHARE, CHOICE_LONGEST = 0.15, 4.0
"""The share of the time left that one such choice may take, and the most. [s] House assumption."""

LEAST_SHEETS, MOST_A_SHEET = 3, 25
"""Where there are fewer sheets, or more pieces on each, hardly two sheets seen go together."""

Box = tuple[int, int, int, int, int]
"""Number of the piece, x, y, length and width."""


@dataclass(slots=True)
class _Goal:
    """A cheaper purchase, how far its filling is and the weights that were learned."""

    cost: int
    state: Standing
    weight: NDArray[np.float64]
    left: float = float("inf")
    chunks: int = 0
    choice: int = FIRST_CHOICE


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
        near_best: bool = False,
    ) -> None:
        """Number the pieces and take down where they lie; `purchases` gives goals below a cost besides those near it.

        Where the plan is `near_best`, because patterns were mixed, small savings are tried first and taken at once.
        """
        self.purchases, self.clock, self.near_best = purchases, clock, near_best
        self.task, self.wanted, self.best, self.bound, self.seed = task, wanted, known, bound, seed
        kinds = [k for k, q in enumerate(wanted) for _ in range(q)]
        self.kinds = kinds
        self.sizes = np.array([(task.kinds[k].length, task.kinds[k].width) for k in kinds], dtype=np.int64)
        self.turns = np.array([task.kinds[k].may_turn for k in kinds], dtype=np.bool_)
        self.area = self.sizes[:, 0] * self.sizes[:, 1]
        scale = max(1.0, clock.meant / 10)
        self.rounds = int(min(MOST_ROUNDS, ROUNDS_A_PIECE * len(kinds) * scale))
        self.chunks = self.tries = 0
        self.seen = Seen(task, np.array(kinds, dtype=np.int64), self.area, clock)
        self.known: dict[tuple[int, ...], _Goal] = {}

    def run(self, on_try: Callable[[int, int | None], None]) -> Found:
        """Try goals until none is left, the rounds are made or time is up."""
        state = self._state_of(self.best)
        patience = CHUNKS_A_GOAL
        while self.best.cost > self.bound and not self._is_over():
            goals = self._goals(state)
            if not goals:
                break
            reached = self._reach(goals, patience, on_try)
            if reached is None:
                patience *= 2
                continue
            patience = CHUNKS_A_GOAL
            state = reached.state
            self.best = self._found(state)
            on_try(self.tries, self.best.cost)
        return self.best

    def _is_over(self) -> bool:
        """Say whether time is up or all rounds are made."""
        return self.clock.out_of_time() or self.chunks * CHUNK > self.rounds

    def _reach(self, goals: list[_Goal], patience: int, on_try: Callable[[int, int | None], None]) -> _Goal | None:
        """Work on goals in turn, the farther half giving way each time; give the cheapest of those that were reached."""
        best: _Goal | None = None
        while goals:
            for goal in goals:
                for _ in range(patience if best is not None or len(goals) > 1 else 4 * patience):
                    if self._is_over() or (best is not None and goal.cost >= best.cost):
                        break
                    self._make(goal)
                    if goal.left <= 0:
                        best = goal
                        if self.near_best:
                            return best
                self.tries += 1
                on_try(self.tries, (self.best if best is None else best).cost)
            if self._is_over() or (len(goals) == 1 and not self.near_best):
                break
            goals = [goal for goal in goals if best is None or goal.cost < best.cost]
            goals.sort(key=lambda goal: goal.left)
            goals = goals[: (len(goals) + 1) // 2]
        return best

    def _make(self, goal: _Goal) -> None:
        """Make one chunk of rounds on a goal."""
        from rodbook.boards.kernels.refilling import refill

        stocks = self.task.stocks
        boards = np.array([(stocks[s].length, stocks[s].width) for s in goal.state.sheets], dtype=np.int64)
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
        few_each = len(boards) >= LEAST_SHEETS and len(self.kinds) <= MOST_A_SHEET * len(boards)
        if goal.left > 0 and few_each and not self.near_best:
            self._choose(goal)

    def _choose(self, goal: _Goal) -> None:
        """Keep the sheets of a goal, and now and then choose from all that were seen."""
        goal.chunks += 1
        self.seen.note(goal.state)
        if goal.chunks < goal.choice:
            return
        goal.choice = int(goal.chunks * CHOICES_APART)
        better = self.seen.best(goal.state, goal.left, min(CHOICE_LONGEST, CHOICE_SHARE * self.clock.left()))
        if better is not None:
            goal.state = better
            goal.left = float(self.area[better.where < 0].sum())

    def _goals(self, state: Standing) -> list[_Goal]:
        """List cheaper purchases, near the present one and others; those tried before go on from where they were."""
        stocks = self.task.stocks
        here = sum(stocks[s].price for s in state.sheets)
        bought = tuple(state.sheets.count(s) for s in range(len(stocks)))
        filled = [int(self.area[state.where == n].sum()) for n in range(len(state.sheets))]
        need = int(self.area.sum())
        purchases = [tuple(numbers) for numbers in self.purchases(here)] if len(stocks) > 1 else []
        if self.near_best:
            self.known.clear()
            close = careful(stocks, near(stocks, bought, need, self.bound, most=1))
            wished = list(dict.fromkeys([*purchases, *close]))[:MOST_CAREFUL]
        else:
            wished = chosen(stocks, bought, [*near(stocks, bought, need, self.bound), *purchases], self.bound)
        goals: list[_Goal] = []
        for numbers in wished:
            if numbers not in self.known:
                cost = sum(n * stock.price for n, stock in zip(numbers, stocks, strict=True))
                self.known[numbers] = self._bought(state, numbers, cost, filled)
            goals.append(self.known[numbers])
        self.known = {numbers: goal for numbers, goal in self.known.items() if goal.cost < here}
        return goals

    def _bought(self, state: Standing, numbers: Sequence[int], cost: int, filled: Sequence[int]) -> _Goal:
        """Make a goal of a purchase: the fullest sheets of each sort stay as they are, as many as it has."""
        sheets: list[int] = []
        where = np.full_like(state.where, -1)
        for s, number in enumerate(numbers):
            mine = sorted((n for n, of in enumerate(state.sheets) if of == s), key=lambda n: -filled[n])[:number]
            for n in mine:
                where[state.where == n] = len(sheets)
                sheets.append(s)
            sheets += [s] * min(len(self.kinds), number - len(mine))
        return _Goal(cost, Standing(sheets, where, state.spots.copy()), np.ones(len(self.kinds)))

    def _state_of(self, result: Found) -> Standing:
        """Take down where a plan's pieces lie; free sheets not used yet stand ready, empty."""
        sheets: list[int] = []
        where = np.full(len(self.kinds), -1, dtype=np.int64)
        spots = np.zeros((len(self.kinds), 4), dtype=np.int64)
        waiting: dict[int, list[int]] = {}
        for piece in range(len(self.kinds) - 1, -1, -1):
            waiting.setdefault(self.kinds[piece], []).append(piece)
        for cutting in result.cuttings:
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
        return Standing(sheets, where, spots)

    def _found(self, state: Standing) -> Found:
        """Turn places into cuts; sheets cut alike are taken together."""
        task = self.task
        alike: dict[tuple[object, ...], tuple[int, Shape, int]] = {}
        for n, s in enumerate(state.sheets):
            boxes: list[Box] = []
            for p in np.flatnonzero(state.where == n).tolist():
                x, y, length, width = state.spots[p].tolist()
                boxes.append((self.kinds[p], x, y, length, width))
            if boxes:
                shape = shape_from_places(boxes)
                key = (s, *key_of(shape))
                _, shape, count = alike.get(key, (s, shape, 0))
                alike[key] = s, shape, count + 1
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
            for s, shape, count in alike.values()
        ]
        cost = sum(task.stocks[c.stock].price * c.count for c in cuttings)
        return Found(cuttings, [0] * len(self.wanted), cost, self.tries, "tries")


def shape_from_places(boxes: Sequence[Box]) -> Shape:
    """Find the cuts that set pieces free which lie so; they must lie so that straight cuts can."""
    done: list[Shape] = []
    waiting: list[tuple[Sequence[Box], int]] = [(boxes, -1)]  # or the direction of a cut whose parts are done
    while waiting:
        boxes, axis = waiting.pop()
        if axis >= 0:
            second, first = done.pop(), done.pop()
            done.append(joined(axis, first, second))
        elif len(boxes) == 1:
            kind, _, _, length, width = boxes[0]
            done.append(Leaf(kind, length, width))
        else:
            axis, first_ones, others = _cut_between(boxes)
            waiting += [((), axis), (others, -1), (first_ones, -1)]
    return done.pop()


def _cut_between(boxes: Sequence[Box]) -> tuple[int, list[Box], list[Box]]:
    """Find a straight cut that no piece lies across: its direction, and the pieces on either side."""
    for axis in (0, 1):
        ordered = sorted(boxes, key=lambda box: box[1 + axis])
        end = 0
        for n, box in enumerate(ordered):
            if n and box[1 + axis] >= end:
                return axis, ordered[:n], ordered[n:]
            end = max(end, box[1 + axis] + box[3 + axis])
    raise AssertionError("these pieces cannot be cut free by straight cuts")
