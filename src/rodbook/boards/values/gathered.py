"""All patterns that a plan of no more than a certain cost can use.

Values of the pieces say what a pattern falls short of its sheet's cost, and a plan's shortfalls add up to what its cost
is above the values' bound. So a pattern that alone falls short by more than a plan may cost above the bound is in no
such plan. Where all others can be listed, the cheapest mix of them is the cheapest plan, or there is none so cheap.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from rodbook.boards.filling.shapes import Leaf, Shape, joined
from rodbook.boards.kernels import gathering, guillotine
from rodbook.boards.values.dearest import Dearest

__all__ = ["Gathered", "gather"]

FOUND = 1.5e-5
"""Counted seconds for each filling listed. Measured. [s]"""

FIELD_BITS = 62
"""Bits that packed counts may take."""


class Gathered:
    """The patterns listed for one set of values; ``patterns`` are (sort of sheet, counts)."""

    def __init__(self, dearest: Dearest, values: Sequence[int], caps: Sequence[int]) -> None:
        """Prepare the fields of packed counts."""
        self.dearest, self.grid = dearest, dearest.grid
        widths = [cap.bit_length() + 1 for cap in caps]
        self.fits = sum(widths) <= FIELD_BITS
        shifts = np.concatenate([[0], np.cumsum(widths)[:-1]])
        self.shifts = shifts.astype(np.int64)
        self.caps = np.array(caps, dtype=np.int64)
        self.values = np.array(values, dtype=np.float64)
        self.guards = self.room = 0
        if self.fits:
            for shift, width, cap in zip(shifts.tolist(), widths, caps, strict=True):
                self.guards |= 1 << (shift + width - 1)
                self.room |= ((1 << (width - 1)) - 1 - cap) << shift
        self.patterns: list[tuple[int, tuple[int, ...]]] = []
        self.codes: dict[tuple[int, tuple[int, ...]], int] = {}

    def run(self, costs: Sequence[float], allowed: float, most: int) -> bool:
        """List all patterns that fall short of their sheet's cost by no more than is allowed; say whether it worked."""
        grid = self.grid
        leaf, _ = grid.leaves([int(v) for v in self.values])
        table = guillotine.free(leaf, grid.nx, grid.rx, grid.ny, grid.ry)
        start = np.full(table.shape, -np.inf)
        for (i, j), cost in zip(grid.corners, costs, strict=True):
            start[i, j] = max(start[i, j], -cost)
        around = gathering.outside(table, start, grid.nx, grid.rx, grid.ny, grid.ry)
        ways = np.array([(way.kind, way.i, way.j) for way in grid.ways if self.caps[way.kind]], dtype=np.int32).reshape(
            -1, 3
        )
        self.store, self.begin, complete = gathering.gather(
            around,
            -float(allowed),
            ways,
            self.values,
            self.shifts,
            self.caps,
            self.room,
            self.guards,
            grid.nx,
            grid.rx,
            grid.ny,
            grid.ry,
            most,
        )
        if self.dearest.clock is not None:
            self.dearest.clock.spend(FOUND * (len(self.store) if complete else most))
        if not complete:
            return False
        high = len(grid.across)
        for s, (i, j), cost in zip(self.dearest.used, grid.corners, costs, strict=True):
            place = i * high + j
            for code in self.store[self.begin[place] : self.begin[place + 1]].tolist():
                counts = self._unpacked(code)
                if sum(v * c for v, c in zip(self.values.tolist(), counts, strict=True)) >= cost - allowed:
                    self.patterns.append((s, counts))
                    self.codes[s, counts] = code
        return True

    def _unpacked(self, code: int) -> tuple[int, ...]:
        """Give the counts."""
        ends = [*self.shifts[1:].tolist(), FIELD_BITS + 1]
        return tuple(
            (code >> shift) & ((1 << (end - shift)) - 1) for shift, end in zip(self.shifts.tolist(), ends, strict=True)
        )

    def shape(self, pattern: tuple[int, tuple[int, ...]]) -> Shape:
        """Find the cuts that give a listed pattern."""
        corner = self.grid.corners[self.dearest.used.index(pattern[0])]
        return self._shape(self.codes[pattern], *corner)

    def _shape(self, code: int, i: int, j: int) -> Shape:
        """Find the cuts of one board."""
        done: list[Shape] = []
        waiting: list[tuple[int, int, int, int]] = [(code, i, j, -1)]  # or the direction of a cut whose parts are done
        while waiting:
            code, i, j, axis = waiting.pop()
            if axis >= 0:
                second, first = done.pop(), done.pop()
                done.append(joined(axis, first, second))
                continue
            counts = self._unpacked(code)
            if sum(counts) == 1:
                kind = counts.index(1)
                way = next(w for w in self.grid.ways if w.kind == kind and w.i <= i and w.j <= j)
                done.append(Leaf(kind, way.length, way.width))
            else:
                waiting += self._halves(code, i, j)
        return done.pop()

    def _halves(self, code: int, i: int, j: int) -> list[tuple[int, int, int, int]]:
        """Find the cut that a listed board was put together by: what is left to do of it, last first."""
        grid = self.grid
        axis, c, first, second = gathering.split(
            code,
            i,
            j,
            self.store,
            self.begin,
            self.shifts,
            self.caps,
            self.room,
            self.guards,
            len(grid.across),
            grid.nx,
            grid.rx,
            grid.ny,
            grid.ry,
        )
        assert axis >= 0, "what was listed was put together by a cut"
        if axis == 0:
            return [(0, 0, 0, axis), (second, int(grid.rx[i, c]), j, -1), (first, c, j, -1)]
        return [(0, 0, 0, axis), (second, i, int(grid.ry[j, c]), -1), (first, i, c, -1)]


def gather(
    dearest: Dearest, values: Sequence[int], costs: Sequence[float], allowed: float, most: int
) -> Gathered | None:
    """List all patterns of the sheets in use that fall short of their cost by no more than is allowed.

    None where there are too many, or the counts do not fit one number.
    """
    task = dearest.task
    largest = max((x * y for x, y in dearest.boards), default=0)
    caps = [
        min(q, max((largest // (x * y) for x, y in ways), default=0))
        for q, ways in zip(dearest.wanted, dearest.sizes, strict=True)
    ]
    result = Gathered(dearest, values, caps)
    if not result.fits or dearest.limited or not dearest.exact or task.max_turns is not None:
        return None
    return result if result.run(costs, allowed, most) else None
