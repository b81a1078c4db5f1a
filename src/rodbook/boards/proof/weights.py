"""How much of a sheet a piece uses up, by several proven measures.

Each measure gives every way of lying on a sheet a weight and the sheet a capacity, so that the weights of
whatever can be cut from one sheet never add up to more than the capacity. All in whole numbers, on
kerf-enlarged sizes.

Area is one such measure. Others come from functions f with: whenever some lengths add up to no more than the
board's, so do their f-values to f's capacity. Used on lengths and widths both, the product of the two is a
measure again for rectangles cut from a rectangle [1]_. And of pieces of which no two can share a sheet, a sheet
holds one.

References
----------
.. [1] S. P. Fekete, J. Schepers, "A general framework for bounds for higher-dimensional
orthogonal packing problems",
   Mathematical Methods of Operations Research 60 (2004), 311-329.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.asked.task import Kind, Task

__all__ = ["Measure", "Scale", "best_measures", "scales"]

Ways = Sequence[tuple[tuple[int, int], ...]]
"""For each kind, the (length, width) in which it can lie on the sheet; none where it does not fit."""

Integers = NDArray[np.int64] | NDArray[np.object_]

MOST_TO_MULTIPLY = 2**31
"""Two whole numbers below this have a product that 63 bits hold."""

COARSE_STEPS = 5
"""Staircases of up to so many steps are always used among the length functions."""

MOST_MARKS = 6
"""How many cut-off lengths, and how many finer staircases, are tried in each direction, evenly spread."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A length function on whole numbers and its capacity, what the whole board comes to."""

    of: Callable[[int], int]
    capacity: int


@dataclass(frozen=True, slots=True)
class Measure:
    """Weight of each kind on one sort of sheet (0 where it does not fit) and the sheet's capacity."""

    weight: tuple[int, ...]
    capacity: int


def scales(board: int, lengths: Sequence[int]) -> list[Scale]:
    """Give the length functions for a board: itself, cut-offs and staircases.

    Cut-off at e (no more than half): what is longer than board - e counts as the whole board, what is shorter
    than e as nothing. Staircase of k steps: a length that is a whole number of (k+1)-ths of the board counts as
    it is, any other as so many k-ths of the board as it holds whole (k+1)-ths; a length of which k fit and no more
    thus counts for a k-th.
    """
    results = [Scale(lambda x: x, board)]
    marks = _spread(sorted({mark for x in lengths for mark in (x, board - x + 1) if 0 < 2 * mark <= board}))
    if board // 2 not in marks and board > 1:
        marks.append(board // 2)
    results += [_cut_off(board, mark) for mark in marks]
    finer = _spread(sorted({board // x for x in lengths if board // x > COARSE_STEPS}))
    results += [_staircase(board, steps) for steps in (*range(1, COARSE_STEPS + 1), *finer)]
    return results


def _spread(numbers: list[int]) -> list[int]:
    """Pick no more than `MOST_MARKS` of these, evenly."""
    if len(numbers) <= MOST_MARKS:
        return numbers
    return [numbers[i * (len(numbers) - 1) // (MOST_MARKS - 1)] for i in range(MOST_MARKS)]


def _cut_off(board: int, least: int) -> Scale:
    """Count lengths above board - least as the whole board and those below `least` as nothing."""
    return Scale(lambda x: board if x > board - least else (0 if x < least else x), board)


def _staircase(board: int, steps: int) -> Scale:
    """Round lengths down to whole steps, everything taken `steps` times so as to stay whole."""
    return Scale(
        lambda x: x * steps if x * (steps + 1) % board == 0 else x * (steps + 1) // board * board,
        board * steps,
    )


def best_measures(task: Task, stock: int, count: int) -> list[Measure]:
    """Give area and the measures by which the job fills most sheets of this sort, `count` in all at the most."""
    ways = task.lies[stock]
    if not any(ways):
        return []
    board = task.stocks[stock]
    along = scales(board.length, [way[0] for lies in ways for way in lies])
    across = scales(board.width, [way[1] for lies in ways for way in lies])
    lengths = [_scaled(f, ways, 0) for f in along]
    widths = [_scaled(g, ways, 1) for g in across]
    results = [
        Measure(tuple(np.min(scaled_x * scaled_y, axis=0).tolist()), f.capacity * g.capacity)
        for f, scaled_x in zip(along, lengths, strict=True)
        for g, scaled_y in zip(across, widths, strict=True)
    ]
    results.append(_no_two_share(task.kinds, ways, board.length, board.width))
    area, *rest = results
    unlike = list({_shares(measure): measure for measure in rest}.values())
    unlike.sort(key=lambda measure: -_fill(task.kinds, measure))
    return [area, *unlike[: count - 1]]


def _shares(measure: Measure) -> tuple[float, ...]:
    """Give each kind's share of the capacity, to tell measures apart that differ in more than their unit."""
    return tuple(w / measure.capacity for w in measure.weight)


def _fill(kinds: Sequence[Kind], measure: Measure) -> float:
    """Say how many sheets the whole job fills by this measure."""
    return sum(kind.quantity * w for kind, w in zip(kinds, measure.weight, strict=True)) / measure.capacity


def _scaled(scale: Scale, ways: Ways, side: int) -> Integers:
    """The function of each kind's lengths (side 0) or widths (1): two rows, one for each way of lying; zero where there is none.

    A kind that lies in one way only has it twice. Numbers of any size, where a product may need more than 63 bits.
    """
    given = [[scale.of(way[side]) for way in lies] or [0] for lies in ways]
    rows = [[values[0] for values in given], [values[-1] for values in given]]
    if scale.capacity < MOST_TO_MULTIPLY:
        return np.array(rows, dtype=np.int64)
    return np.array(rows, dtype=np.object_)


def _no_two_share(kinds: Sequence[Kind], ways: Ways, length: int, width: int) -> Measure:
    """Gather, largest first, pieces of which no two fit on one sheet; each weighs a whole sheet."""

    def share(a: int, b: int) -> bool:
        return any(x + u <= length or y + v <= width for x, y in ways[a] for u, v in ways[b])

    chosen: list[int] = []
    for k in sorted(range(len(kinds)), key=lambda k: (-kinds[k].length * kinds[k].width, k)):
        alone = kinds[k].quantity == 1 or not share(k, k)
        if ways[k] and alone and not any(share(k, other) for other in chosen):
            chosen.append(k)
    return Measure(tuple(int(k in chosen) for k in range(len(kinds))), 1)
