"""The filling of a sheet that is worth most, each kind of piece having a value.

The compiled loops of `kernels` do the work on a grid of positions. Where that grid would be too fine, sizes are taken
in coarser steps: pieces rounded up give fillings that can be cut, pieces rounded down a worth that no filling passes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.asked.task import Task
from rodbook.boards.filling.shapes import Leaf, Shape, joined
from rodbook.boards.kernels import guillotine
from rodbook.boards.tools.clock import Clock
from rodbook.boards.values.positions import Line, positions, sums

__all__ = ["Dearest", "Grid"]

MOST_POSITIONS = 20_000
"""Positions along one direction beyond which sizes are taken in coarser steps."""

MOST_WORK = 200_000_000
"""Sums looked at for one filling beyond which sizes are taken in coarser steps; some 200 ms."""

FILLING, SUM, HELD_KIND = 2e-4, 1e-10, 0.4
"""Counted seconds for one filling, for each sum looked at, and how much more for each kind that may run out. Measured. [s]"""

COARSE_STEPS = 300
"""How many coarse steps the longer side of the largest sheet is taken in."""


@dataclass(frozen=True, slots=True)
class Way:
    """A kind as it may lie: the places from which on a board is long and wide enough."""

    kind: int
    i: int
    j: int
    length: int
    width: int


class Grid:
    """Positions along and across for sheets of some sizes, and where each kind finds room."""

    def __init__(
        self,
        boards: Sequence[tuple[int, int]],
        ways: Sequence[Sequence[tuple[int, int]]],
        sizes: Sequence[Sequence[tuple[int, int]]],
        along: NDArray[np.int64],
        across: NDArray[np.int64],
    ) -> None:
        """Place boards and `ways` on the lines; `sizes` are the true ones of the ways."""
        self.along, self.across = along, across
        self.nx, self.rx = guillotine.halves(along)
        self.ny, self.ry = guillotine.halves(across)
        self.corners = [
            (int(np.searchsorted(along, x, side="right")) - 1, int(np.searchsorted(across, y, side="right")) - 1)
            for x, y in boards
        ]
        self.ways = [
            Way(k, int(np.searchsorted(along, x)), int(np.searchsorted(across, y)), *true)
            for k, (lies, true_sizes) in enumerate(zip(ways, sizes, strict=True))
            for (x, y), true in zip(lies, true_sizes, strict=True)
        ]
        self.ways = [way for way in self.ways if way.i < len(along) and way.j < len(across)]

    def leaves(self, values: Sequence[int], *, exact: bool = False) -> tuple[NDArray[np.float64], NDArray[np.int32]]:
        """Give for each board the most that one piece is worth, and the number of the way it lies (-1: none)."""
        table = np.zeros((len(self.along), len(self.across)))
        which = np.full(table.shape, -1, dtype=np.int32)
        for number, way in sorted(enumerate(self.ways), key=lambda item: values[item[1].kind]):
            value = values[way.kind]
            if value <= 0:
                continue
            if exact:
                table[way.i, way.j], which[way.i, way.j] = value, number
            else:
                table[way.i :, way.j :], which[way.i :, way.j :] = value, number
        return table, which

    def shape(self, codes: NDArray[np.int64], which: NDArray[np.int32]) -> Shape:
        """Read what the kernels wrote down in preorder."""
        done: list[Shape] = []
        # what is written down before its parts is read backwards after them
        for code, _, i, j in reversed(codes.tolist()):
            if code == guillotine.EMPTY:
                done.append(None)
            elif code == guillotine.LEAF:
                way = self.ways[which[i, j]]
                done.append(Leaf(way.kind, way.length, way.width))
            else:
                first, second = done.pop(), done.pop()
                done.append(joined(code, first, second))
        return done.pop()


def _work(grid: Grid, factor: float) -> float:
    along, across = len(grid.along), len(grid.across)
    return FILLING + SUM * factor * along * across * (along + across)


class Dearest:
    """Finds the fillings of most value of every sort of sheet at once."""

    def __init__(
        self,
        task: Task,
        wanted: Sequence[int],
        *,
        plain: bool = False,
        clock: Clock | None = None,
        most_work: int = MOST_WORK,
    ) -> None:
        """Lay the grid for these sheets and so many of each kind; `plain`: with every sum a position."""
        self.task, self.plain, self.clock, self.most_work = task, plain, clock, most_work
        self.wanted = list(wanted)
        self.used = [s for s, lies in enumerate(task.lies) if any(w and q for w, q in zip(lies, wanted, strict=True))]
        self.sizes = [
            tuple(sorted({way for s in self.used for way in task.lies[s][k]})) if wanted[k] else ()
            for k in range(len(wanted))
        ]
        self.boards = [(task.stocks[s].length, task.stocks[s].width) for s in self.used]
        self.limited = task.max_turns is not None
        if not self.used:
            nowhere = np.zeros(1, dtype=np.int64)
            self.exact, self.grid = False, Grid([], [], [], nowhere, nowhere)
            return
        fine = self._fine()
        self.exact = fine is not None
        self.grid = fine if fine is not None else self._coarse(up=True)

    def _spend(self, grid: Grid, factor: float) -> None:
        """Count the work of filling every board of a grid."""
        if self.clock is not None:
            self.clock.spend(_work(grid, factor))

    @property
    def work(self) -> float:
        """What one filling takes, counted. [s]"""
        return _work(self.grid, self._passes)

    @property
    def can_fill(self) -> bool:
        """Whether fillings can be had: with a limit on turns coarse sizes would need further cuts."""
        return self.exact or not self.limited

    @property
    def _passes(self) -> int:
        """How often the grid is gone over for one filling."""
        return 1 if not self.limited else 2 * (self.task.max_turns or 0) + 2

    def _lines(self, side: int) -> list[Line]:
        """Say what sums are made of along one direction."""
        return [
            (tuple(sorted({way[side] for way in ways})), q) for ways, q in zip(self.sizes, self.wanted, strict=True)
        ]

    def _fine(self) -> Grid | None:
        """Lay the grid on which nothing is lost; None where it is too fine."""
        lines = []
        for side in (0, 1):
            boards = sorted({board[side] for board in self.boards})
            if self.limited or self.plain:
                line = sums(boards[-1], self._lines(side), MOST_POSITIONS)
                line = None if line is None else np.unique(np.concatenate([line, np.array(boards, dtype=np.int64)]))
            else:
                line = positions(boards, self._lines(side), MOST_POSITIONS)
            if line is None:
                return None
            lines.append(line)
        along, across = lines
        if len(along) * len(across) * (len(along) + len(across)) * self._passes > 4 * self.most_work:
            return None
        return Grid(self.boards, self.sizes, self.sizes, along, across)

    def _coarse(self, *, up: bool) -> Grid:
        """Lay a coarse grid; pieces rounded up or down, boards down."""
        step = -(-max(max(board) for board in self.boards) // COARSE_STEPS)
        ways = [
            [tuple(-(-size // step) if up else size // step for size in way) for way in lies] for lies in self.sizes
        ]
        boards = [(x // step, y // step) for x, y in self.boards]
        along = np.arange(max(x for x, _ in boards) + 1, dtype=np.int64)
        across = np.arange(max(y for _, y in boards) + 1, dtype=np.int64)
        return Grid(boards, ways, self.sizes, along, across)  # type: ignore[arg-type]

    @cached_property
    def over(self) -> Grid:
        """The grid whose worths no filling passes."""
        return self.grid if self.exact else self._coarse(up=False)

    def fillings(self, values: Sequence[int]) -> list[tuple[int, Shape]]:
        """Give, for each sort of sheet that is of use, what its best filling is worth and that filling.

        Pieces may be used as often as they fit. Where the grid is exact so is the worth.
        """
        grid = self.grid
        self._spend(grid, self._passes)
        if self.limited:
            exact, which = grid.leaves(values, exact=True)
            table: Any = guillotine.levelled(exact, (self.task.max_turns or 0) + 1, grid.nx, grid.rx, grid.ny, grid.ry)
            return [
                (
                    int(table[-1, :, i, j].max()),
                    grid.shape(guillotine.unfold_levelled(table, exact, grid.rx, grid.ry, i, j), which),
                )
                for i, j in grid.corners
            ]
        leaf, which = grid.leaves(values)
        table = guillotine.free(leaf, grid.nx, grid.rx, grid.ny, grid.ry)
        return [
            (
                int(table[i, j]),
                grid.shape(guillotine.unfold(table, leaf, grid.nx, grid.rx, grid.ny, grid.ry, i, j), which),
            )
            for i, j in grid.corners
        ]

    def worths(self, values: Sequence[int]) -> list[int]:
        """Give, for each sort of sheet of use, a worth that no filling of it passes."""
        grid = self.over
        self._spend(grid, self._passes)
        if self.limited:
            exact, _ = grid.leaves(values, exact=True)
            table: Any = guillotine.levelled(exact, (self.task.max_turns or 0) + 1, grid.nx, grid.rx, grid.ny, grid.ry)
            return [int(table[-1, :, i, j].max()) for i, j in grid.corners]
        leaf, _ = grid.leaves(values)
        table = guillotine.free(leaf, grid.nx, grid.rx, grid.ny, grid.ry)
        return [int(table[i, j]) for i, j in grid.corners]

    def held(self, values: Sequence[int], left: Sequence[int]) -> list[tuple[int, Shape]]:
        """Give good fillings with no more pieces than are left, for each sort of sheet of use."""
        grid = self.grid
        self._spend(grid, HELD_KIND * sum(1 for q in left if q))
        values = [v if q else 0 for v, q in zip(values, left, strict=True)]
        leaf, which = grid.leaves(values)
        kind_of = np.array([way.kind for way in grid.ways] + [-1], dtype=np.int32)
        kinds = kind_of[which]
        most = np.array([min(q, 30_000) for q in left], dtype=np.int32)
        table, how, _ = guillotine.held(leaf, kinds, most, grid.nx, grid.rx, grid.ny, grid.ry)
        return [
            (int(table[i, j]), grid.shape(guillotine.unfold_held(how, grid.rx, grid.ry, i, j), which))
            for i, j in grid.corners
        ]

    def tightest(self, left: Sequence[int]) -> list[Shape]:
        """Give fillings that hold all that is left on as short, as narrow and as small a board as was found.

        On a grid that is `plain`, for one sort of sheet.
        """
        grid, kinds = self.grid, self.task.kinds
        values = [kind.length * kind.width if q else 0 for kind, q in zip(kinds, left, strict=True)]
        step = max(1, max(values) >> 20)
        values = [max(1, value // step) if value else 0 for value in values]
        leaf, which = grid.leaves(values)
        kind_of = np.array([way.kind for way in grid.ways] + [-1], dtype=np.int32)
        table, how, _ = guillotine.held(
            leaf, kind_of[which], np.array(left, dtype=np.int32), grid.nx, grid.rx, grid.ny, grid.ry
        )
        ((last_i, last_j),) = grid.corners
        full = table[: last_i + 1, : last_j + 1] >= sum(v * q for v, q in zip(values, left, strict=True))
        if not full.any():
            return []
        ends = []
        if full[:, last_j].any():
            ends.append((int(np.argmax(full[:, last_j])), last_j))
        if full[last_i].any():
            ends.append((last_i, int(np.argmax(full[last_i]))))
        return [grid.shape(guillotine.unfold_held(how, grid.rx, grid.ry, i, j), which) for i, j in ends]
