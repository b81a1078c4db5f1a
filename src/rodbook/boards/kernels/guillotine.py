"""The most that boards of every size can hold, by every way of cutting them straight through.

Boards are given by their places in two rising lists of positions, along and across, both starting at 0. Values are
whole numbers kept as floats, exact below 2**53. ``rest[i, c]`` is the place to which what is left of position i
is rounded down after a cut at position c; it is filled as far as a cut leaves the smaller part first.

`free` allows every piece any number of times, and is the dynamic programme of [1]_ over these positions. `held`
keeps to the numbers there are, but remembers only one filling for each board, so it may miss the best.

References
----------
.. [1] P. C. Gilmore, R. E. Gomory, "The theory and computation of knapsack functions", Operations Research 14 (1966),
   1045-1074.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.kernels.compiled import compiled

__all__ = ["EMPTY", "LEAF", "free", "halves", "held", "levelled", "unfold", "unfold_held", "unfold_levelled"]

Table = NDArray[np.float64]
Places = NDArray[np.int32]
Codes = NDArray[np.int64]

EMPTY, LEAF = 2, 3
"""Codes of a filling: 0 and 1 a cut that divides the length or the width, 2 nothing, 3 a piece."""


@compiled
def halves(grid: NDArray[np.int64]) -> tuple[Places, Places]:
    """Give, for each position, how many cuts leave the smaller part first, and the places of what they leave."""
    n = grid.size
    number = np.zeros(n, dtype=np.int32)
    rest = np.zeros((n, n // 2 + 2), dtype=np.int32)
    for i in range(n):
        p = i
        c = 1
        while c < n and 2 * grid[c] <= grid[i]:
            if c >= rest.shape[1]:
                wider = np.zeros((n, min(n, 2 * rest.shape[1])), dtype=np.int32)
                wider[:, : rest.shape[1]] = rest
                rest = wider
            while grid[p] > grid[i] - grid[c]:
                p -= 1
            rest[i, c] = p
            c += 1
        number[i] = c
    return number, rest


@compiled
def free(leaf: Table, nx: Places, rx: Places, ny: Places, ry: Places) -> Table:
    """Give the most value of each board; ``leaf[i, j]`` is the most that one piece alone gives."""
    table = leaf.copy()
    wide, high = leaf.shape
    for i in range(wide):
        row = table[i]
        for c in range(1, nx[i]):
            first, second = table[c], table[rx[i, c]]
            for j in range(high):
                both = first[j] + second[j]
                if both > row[j]:
                    row[j] = both
        for j in range(high):
            best = row[j]
            for c in range(1, ny[j]):
                both = row[c] + row[ry[j, c]]
                if both > best:
                    best = both
            row[j] = best
    return table


@compiled
def unfold(table: Table, leaf: Table, nx: Places, rx: Places, ny: Places, ry: Places, i: int, j: int) -> Codes:
    """Write down one best filling of a board in preorder: rows of (code, place of the cut, i, j)."""
    result = np.zeros((64, 4), dtype=np.int64)
    length = 0
    stack = [(i, j)]
    while len(stack) > 0:
        i, j = stack.pop()
        if length == result.shape[0]:
            longer = np.zeros((2 * length, 4), dtype=np.int64)
            longer[:length] = result
            result = longer
        value = table[i, j]
        code, place = EMPTY, 0
        if value > 0 and leaf[i, j] == value:
            code = LEAF
        elif value > 0:
            for c in range(1, nx[i]):
                if table[c, j] + table[rx[i, c], j] == value:
                    code, place = 0, c
                    break
            if code == EMPTY:
                for c in range(1, ny[j]):
                    if table[i, c] + table[i, ry[j, c]] == value:
                        code, place = 1, c
                        break
        result[length, 0], result[length, 1], result[length, 2], result[length, 3] = code, place, i, j
        length += 1
        if code == 0:
            stack.append((rx[i, place], j))
            stack.append((place, j))
        elif code == 1:
            stack.append((i, ry[j, place]))
            stack.append((i, place))
    return result[:length]


@compiled
def held(
    leaf: Table, kind: Places, most: Places, nx: Places, rx: Places, ny: Places, ry: Places
) -> tuple[Table, NDArray[np.int32], NDArray[np.int16]]:
    """Fill boards with no more of each kind than ``most``; gives values, how (code * 2**24 + place) and counts."""
    wide, high = leaf.shape
    kinds = most.size
    table = np.zeros((wide, high))
    how = np.full((wide, high), EMPTY << 24, dtype=np.int32)
    counts = np.zeros((wide, high, kinds), dtype=np.int16)
    for i in range(wide):
        for j in range(high):
            if kind[i, j] >= 0:
                table[i, j] = leaf[i, j]
                how[i, j] = LEAF << 24
                counts[i, j, kind[i, j]] = 1
            if i > 0 and table[i - 1, j] > table[i, j]:
                table[i, j], how[i, j] = table[i - 1, j], (4 << 24)
                counts[i, j] = counts[i - 1, j]
            if j > 0 and table[i, j - 1] > table[i, j]:
                table[i, j], how[i, j] = table[i, j - 1], (5 << 24)
                counts[i, j] = counts[i, j - 1]
            for c in range(1, nx[i]):
                r = rx[i, c]
                if table[c, j] + table[r, j] > table[i, j]:
                    fits = True
                    for k in range(kinds):
                        if counts[c, j, k] + counts[r, j, k] > most[k]:
                            fits = False
                            break
                    if fits:
                        table[i, j], how[i, j] = table[c, j] + table[r, j], c
                        for k in range(kinds):
                            counts[i, j, k] = counts[c, j, k] + counts[r, j, k]
            for c in range(1, ny[j]):
                r = ry[j, c]
                if table[i, c] + table[i, r] > table[i, j]:
                    fits = True
                    for k in range(kinds):
                        if counts[i, c, k] + counts[i, r, k] > most[k]:
                            fits = False
                            break
                    if fits:
                        table[i, j], how[i, j] = table[i, c] + table[i, r], (1 << 24) | c
                        for k in range(kinds):
                            counts[i, j, k] = counts[i, c, k] + counts[i, r, k]
    return table, how, counts


@compiled
def unfold_held(how: NDArray[np.int32], rx: Places, ry: Places, i: int, j: int) -> Codes:
    """Write down the filling that `held` remembers of a board, as `unfold` does."""
    result = np.zeros((64, 4), dtype=np.int64)
    length = 0
    stack = [(i, j)]
    while len(stack) > 0:
        i, j = stack.pop()
        while how[i, j] >> 24 >= 4:
            if how[i, j] >> 24 == 4:
                i -= 1
            else:
                j -= 1
        if length == result.shape[0]:
            longer = np.zeros((2 * length, 4), dtype=np.int64)
            longer[:length] = result
            result = longer
        code, place = how[i, j] >> 24, how[i, j] & 0xFFFFFF
        result[length, 0], result[length, 1], result[length, 2], result[length, 3] = code, place, i, j
        length += 1
        if code == 0:
            stack.append((rx[i, place], j))
            stack.append((place, j))
        elif code == 1:
            stack.append((i, ry[j, place]))
            stack.append((i, place))
    return result[:length]


@compiled
def levelled(exact: Table, levels: int, nx: Places, rx: Places, ny: Places, ry: Places) -> NDArray[np.float64]:
    """Give the most value of each board with so many runs of cuts and no more.

    ``table[k, d, i, j]`` allows k runs of which the first divides the length (d = 0) or the width (d = 1); ``exact``
    has a value only where a piece has exactly the board's size, as no cut is left to trim it.
    """
    wide, high = exact.shape
    table = np.zeros((levels + 1, 2, wide, high))
    table[0, 0], table[0, 1] = exact, exact
    for k in range(1, levels + 1):
        along, across = table[k, 0], table[k, 1]
        for i in range(wide):
            for j in range(high):
                along[i, j] = max(table[k - 1, 1, i, j], exact[i, j])
                across[i, j] = max(table[k - 1, 0, i, j], exact[i, j])
        for i in range(1, wide):
            row = along[i]
            for j in range(high):
                row[j] = max(row[j], along[i - 1, j])
            for c in range(1, nx[i]):
                first, second = along[c], along[rx[i, c]]
                for j in range(high):
                    both = first[j] + second[j]
                    if both > row[j]:
                        row[j] = both
        for i in range(wide):
            row = across[i]
            for j in range(1, high):
                best = max(row[j], row[j - 1])
                for c in range(1, ny[j]):
                    both = row[c] + row[ry[j, c]]
                    if both > best:
                        best = both
                row[j] = best
    return table


@compiled
def unfold_levelled(table: NDArray[np.float64], exact: Table, rx: Places, ry: Places, i: int, j: int) -> Codes:
    """Write down one best filling of a board by `levelled`, as `unfold` does."""
    result = np.zeros((64, 4), dtype=np.int64)
    length = 0
    top = table.shape[0] - 1
    stack = [(top, 0 if table[top, 0, i, j] >= table[top, 1, i, j] else 1, i, j)]
    while len(stack) > 0:
        k, d, i, j = stack.pop()
        value = table[k, d, i, j]
        code, place = -1, 0
        while code < 0:
            if value <= 0:
                code = EMPTY
            elif exact[i, j] == value:
                code = LEAF
            elif k > 0 and table[k - 1, 1 - d, i, j] == value:
                k, d = k - 1, 1 - d
            elif d == 0 and i > 0 and table[k, 0, i - 1, j] == value:
                i -= 1
            elif d == 1 and j > 0 and table[k, 1, i, j - 1] == value:
                j -= 1
            elif d == 0:
                code, place = 0, 1
                while table[k, 0, place, j] + table[k, 0, rx[i, place], j] != value:
                    place += 1
            else:
                code, place = 1, 1
                while table[k, 1, i, place] + table[k, 1, i, ry[j, place]] != value:
                    place += 1
        if length == result.shape[0]:
            longer = np.zeros((2 * length, 4), dtype=np.int64)
            longer[:length] = result
            result = longer
        result[length, 0], result[length, 1], result[length, 2], result[length, 3] = code, place, i, j
        length += 1
        if code == 0:
            stack.append((k, d, rx[i, place], j))
            stack.append((k, d, place, j))
        elif code == 1:
            stack.append((k, d, i, ry[j, place]))
            stack.append((k, d, i, place))
    return result[:length]
