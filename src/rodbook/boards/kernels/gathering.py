"""All fillings of a board that may be of use, as packed counts.

A count of each kind is packed into one whole number: each kind has a field wide enough for its cap and one guard bit
above it. Counts above the cap are cut down to it, as more of a kind than is wanted serves nobody. Of two fillings of a
board of which one holds no less of anything, the other is dropped.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.kernels.compiled import compiled

__all__ = ["gather", "outside", "split"]

Table = NDArray[np.float64]
Places = NDArray[np.int32]
Packed = NDArray[np.int64]


@compiled
def outside(table: Table, start: Table, nx: Places, rx: Places, ny: Places, ry: Places) -> Table:
    """Give the most that everything outside a board can be worth, less the cost of the sheet that it comes from.

    ``table`` is the most of each board itself; ``start`` is minus the cost at boards that are whole sheets, and minus
    infinity elsewhere.
    """
    best = start.copy()
    wide, high = table.shape
    for i in range(wide - 1, -1, -1):
        for j in range(high - 1, -1, -1):
            here = best[i, j]
            if here == -np.inf:
                continue
            for c in range(1, nx[i]):
                r = rx[i, c]
                best[c, j] = max(best[c, j], here + table[r, j])
                best[r, j] = max(best[r, j], here + table[c, j])
            for c in range(1, ny[j]):
                r = ry[j, c]
                best[i, c] = max(best[i, c], here + table[i, r])
                best[i, r] = max(best[i, r], here + table[i, c])
    return best


@compiled
def _added(a: int, b: int, room: int, guards: int, shifts: Packed, caps: Packed) -> int:
    """Add two packed counts, each cut down to its cap; ``room`` brings a field above its cap to its guard bit."""
    total = a + b
    over = (total + room) & guards
    if over:
        for k in range(shifts.size):
            width = (1 << (shifts[k + 1] - shifts[k])) - 1 if k + 1 < shifts.size else -1
            field = (total >> shifts[k]) & width
            if field > caps[k]:
                total -= (field - caps[k]) << shifts[k]
    return total


@compiled
def _worth(code: int, shifts: Packed, values: Table) -> float:
    """Give what packed counts are worth."""
    total = 0.0
    for k in range(shifts.size):
        width = (1 << (shifts[k + 1] - shifts[k])) - 1 if k + 1 < shifts.size else -1
        total += ((code >> shifts[k]) & width) * values[k]
    return total


@compiled
def _undominated(codes: Packed, guards: int) -> Packed:
    """Sort, drop doubles and what another filling has all of."""
    codes = np.unique(codes)
    n = codes.size
    keep = np.ones(n, dtype=np.bool_)
    for a in range(n):
        for b in range(n - 1, a, -1):
            # a field of a above that of b would borrow from the guard bit; what dominates is never the smaller number
            if keep[b] and ((codes[b] | guards) - codes[a]) & guards == guards:
                keep[a] = False
                break
    return codes[keep]


@compiled
def gather(
    around: Table,
    least: float,
    ways: Places,
    values: Table,
    shifts: Packed,
    caps: Packed,
    room: int,
    guards: int,
    nx: Places,
    rx: Places,
    ny: Places,
    ry: Places,
    most: int,
) -> tuple[Packed, NDArray[np.int64], bool]:
    """List the fillings of each board that, with the best around it, come to no less than ``least``.

    ``ways`` has rows of kind, i, j: from which places on a board has room. Gives all packed counts one after another,
    for each board where its own begin, and whether all were listed or the most allowed was passed.
    """
    wide, high = around.shape
    begin = np.zeros(wide * high + 1, dtype=np.int64)
    store = np.zeros(1024, dtype=np.int64)
    length = 0
    work = 0
    buffer = np.zeros(1024, dtype=np.int64)
    for i in range(wide):
        for j in range(high):
            here = around[i, j]
            size = 0
            if here > -np.inf:
                for w in range(ways.shape[0]):
                    k = ways[w, 0]
                    if ways[w, 1] <= i and ways[w, 2] <= j and values[k] + here >= least:
                        buffer[size] = 1 << shifts[k]
                        size += 1
                for axis in range(2):
                    cuts = nx[i] if axis == 0 else ny[j]
                    for c in range(1, cuts):
                        if axis == 0:
                            one, other = c * high + j, rx[i, c] * high + j
                        else:
                            one, other = i * high + c, i * high + ry[j, c]
                        a0, a1, b0, b1 = begin[one], begin[one + 1], begin[other], begin[other + 1]
                        work += (a1 - a0) * (b1 - b0)
                        if work > 1000 * most:
                            return store[:0], begin, False
                        for a in range(a0, a1):
                            for b in range(b0, b1):
                                code = _added(store[a], store[b], room, guards, shifts, caps)
                                if _worth(code, shifts, values) + here >= least:
                                    if size == buffer.size:
                                        kept = _undominated(buffer[:size], guards)
                                        if 2 * kept.size > buffer.size:
                                            buffer = np.zeros(2 * buffer.size, dtype=np.int64)
                                        if kept.size > most:
                                            return store[:0], begin, False
                                        buffer[: kept.size] = kept
                                        size = kept.size
                                    buffer[size] = code
                                    size += 1
                if size > 0:
                    kept = _undominated(buffer[:size], guards)
                    if length + kept.size > most:
                        return store[:0], begin, False
                    while length + kept.size > store.size:
                        longer = np.zeros(2 * store.size, dtype=np.int64)
                        longer[:length] = store[:length]
                        store = longer
                    store[length : length + kept.size] = kept
                    length += kept.size
            begin[i * high + j + 1] = length
    return store[:length], begin, True


@compiled
def split(
    code: int,
    i: int,
    j: int,
    store: Packed,
    begin: NDArray[np.int64],
    shifts: Packed,
    caps: Packed,
    room: int,
    guards: int,
    high: int,
    nx: Places,
    rx: Places,
    ny: Places,
    ry: Places,
) -> tuple[int, int, int, int]:
    """Find the cut that gives packed counts on a board: axis, place, and the packed counts of both parts."""
    for axis in range(2):
        cuts = nx[i] if axis == 0 else ny[j]
        for c in range(1, cuts):
            if axis == 0:
                one, other = c * high + j, rx[i, c] * high + j
            else:
                one, other = i * high + c, i * high + ry[j, c]
            for a in range(begin[one], begin[one + 1]):
                for b in range(begin[other], begin[other + 1]):
                    first, second = store[a], store[b]
                    if _added(first, second, room, guards, shifts, caps) == code:
                        return axis, c, first, second
    return -1, 0, 0, 0
