"""Where a straight cut is worth making: the positions that sums of piece lengths can reach.

Everything is in whole kerf-enlarged hundredths, as in `task`. Any layout can be pushed into a corner until every board
in it is as long as a sum of lengths that lie side by side, so cuts elsewhere need not be looked at [1]_. Where sums
may use a length as often as they like, fewer positions do: those that are the most that some sum leaves of the board
[2]_.

References
----------
.. [1] J. C. Herz, "Recursive computational procedure for two-dimensional stock cutting", IBM Journal of Research and
   Development 16 (1972), 462-469.
.. [2] J. Terno, R. Lindemann, G. Scheithauer, "Zuschnittprobleme und ihre praktische Lösung", Verlag Harri Deutsch 1987.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Line", "positions", "reduced_positions", "sums"]

Positions = NDArray[np.int64]

Line = tuple[tuple[int, ...], int]
"""The lengths that one kind of piece can take up along a direction, and how many pieces of it there are."""


def sums(board: int, lines: Sequence[Line], most: int) -> Positions | None:
    """Give, in order from 0, every sum of lengths up to `board` with no more pieces than there are.

    None where there are more than `most` of them.
    """
    result: Positions = np.zeros(1, dtype=np.int64)
    for lengths, quantity in lines:
        if not quantity or not lengths or min(lengths) > board:
            continue
        result = np.unique((result[:, None] + _multiples(board, lengths, quantity)[None, :]).ravel())
        result = result[result <= board]
        if len(result) > most:
            return None
    return result


def _multiples(board: int, lengths: Sequence[int], quantity: int) -> Positions:
    """Give the sums of up to `quantity` lengths out of one or two."""
    first = lengths[0] * np.arange(min(quantity, board // lengths[0]) + 1, dtype=np.int64)
    if len(lengths) == 1:
        return first
    second = lengths[1] * np.arange(min(quantity, board // lengths[1]) + 1, dtype=np.int64)
    counts = np.arange(len(first))[:, None] + np.arange(len(second))[None, :]
    total = first[:, None] + second[None, :]
    return np.unique(total[(counts <= quantity) & (total <= board)])


def reduced_positions(boards: Sequence[int], lines: Sequence[Line], most: int) -> Positions | None:
    """Give the reduced positions for boards of these lengths, lengths used as often as one likes."""
    longest = max(boards)
    free = [(lengths, longest // min(lengths) + 1) for lengths, quantity in lines if quantity and lengths]
    reach = sums(longest, free, most)
    if reach is None:
        return None
    parts = [np.zeros(1, dtype=np.int64)]
    for board in boards:
        inside = reach[reach <= board]
        mirrored = _floor(inside, board - inside)
        parts.append(mirrored)
    return np.unique(np.concatenate(parts))


def _floor(grid: NDArray[Any], values: NDArray[Any]) -> NDArray[Any]:
    """Round values down to the grid, which starts at 0."""
    return grid[np.searchsorted(grid, values, side="right") - 1]


def positions(boards: Sequence[int], lines: Sequence[Line], most: int) -> Positions | None:
    """Give the positions to look at along boards of these lengths: whichever of the two sets is smaller."""
    plain = sums(max(boards), lines, most)
    reduced = reduced_positions(boards, lines, most)
    if plain is None or reduced is None:
        return plain if reduced is None else reduced
    return plain if len(plain) <= len(reduced) else reduced
