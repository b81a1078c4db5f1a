"""Full sheets seen on the way, and the best choice of whole ones among them: a maximum cover.

While sheets are emptied and filled again, many good sheets come and go that never stand side by side. They are kept,
and of all that were seen so many of each sort as a purchase has are chosen that as little as possible is left without a
place; pieces that two of them hold are left out of one. After the manner of set covering for bins [1]_.

References
----------
.. [1] M. Monaci, P. Toth, "A set-covering-based heuristic approach for bin-packing problems", INFORMS Journal on
   Computing 18 (2006), 71-85.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.asked.task import Task
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.linear import Programme

__all__ = ["Seen", "Standing"]

MOST_CHOSEN = 2_500
"""Sheets that a choice is made from, those with least waste. House assumption."""

MOST_KEPT = 60_000
"""Sheets kept in all; beyond, only those that were kept are."""

MOST_NODES = 400
"""Branches that one choice may take."""

NOTE = 4e-6
"""Counted seconds for each sheet looked at. Measured. [s]"""

RELAX = 1e-7
"""Counted seconds for each entry that the relaxed choice could have, as in `tools.linear`. Measured. [s]"""

Whole = NDArray[np.int64]


@dataclass(slots=True)
class Standing:
    """Sheets by sort, on which of them each piece lies (-1: on none), and where there: x, y, length and width."""

    sheets: list[int]
    where: Whole
    spots: Whole

    def copy(self) -> Standing:
        """Make one that can be changed."""
        return Standing(list(self.sheets), self.where.copy(), self.spots.copy())


@dataclass(slots=True)
class _Sheet:
    """A sheet that was seen: the kinds of its pieces, ascending, where they lie and how much of it they leave."""

    stock: int
    kinds: Whole
    spots: Whole
    waste: int


@dataclass(slots=True)
class Seen:
    """The sheets seen in one job, whose pieces are numbered one by one, kind after kind."""

    task: Task
    kinds: Whole
    area: Whole
    clock: Clock
    sheets: dict[tuple[int, bytes], _Sheet] = field(default_factory=dict)

    def note(self, standing: Standing) -> None:
        """Keep every sheet of a state that is not known yet; of two that hold the same the first is as good."""
        self.clock.spend(NOTE * len(standing.sheets))
        if len(self.sheets) >= MOST_KEPT:
            return
        order = np.argsort(standing.where, kind="stable")
        ends = np.searchsorted(standing.where[order], np.arange(len(standing.sheets) + 1))
        for n, stock in enumerate(standing.sheets):
            pieces = order[ends[n] : ends[n + 1]]
            if not len(pieces):
                continue
            kinds = self.kinds[pieces]
            key = (stock, kinds.tobytes())
            if key not in self.sheets:
                size = self.task.stocks[stock]
                waste = size.length * size.width - int(self.area[pieces].sum())
                self.sheets[key] = _Sheet(stock, kinds, standing.spots[pieces].copy(), waste)

    def best(self, standing: Standing, left: float, seconds: float) -> Standing | None:
        """Choose sheets for the purchase of a state so that less than its `left` has no place; None where none do."""
        stocks = self.task.stocks
        numbers = Counter(standing.sheets)
        room = sum(n * stocks[s].length * stocks[s].width for s, n in numbers.items())
        # where all have a place, no sheet wastes more than all waste together
        slack = room - int(self.area.sum()) + left
        offered = sorted((x for x in self.sheets.values() if numbers[x.stock] and x.waste <= slack), key=_waste_first)
        offered = offered[:MOST_CHOSEN]
        chosen = self._cover(offered, numbers, left, seconds)
        return None if chosen is None else self._standing(chosen, standing)

    def _cover(
        self, offered: Sequence[_Sheet], numbers: Counter[int], left: float, seconds: float
    ) -> list[_Sheet] | None:
        """Solve the maximum cover; None where it leaves no less."""
        unit = float(self.area.mean())
        programme = Programme()
        for sheet in offered:
            programme.column(0.0, float(numbers[sheet.stock]))
        rows: dict[int, list[tuple[int, float]]] = {int(k): [] for k in np.unique(self.kinds)}
        for column, sheet in enumerate(offered):
            for k, n in Counter(sheet.kinds.tolist()).items():
                rows[k].append((column, float(n)))
        for k, terms in rows.items():
            kind = self.task.kinds[k]
            missing = programme.column(kind.length * kind.width / unit)
            programme.row([*terms, (missing, 1.0)], lower=float((self.kinds == k).sum()))
        for s, n in numbers.items():
            programme.row([(c, 1.0) for c, sheet in enumerate(offered) if sheet.stock == s], upper=float(n))
        self.clock.spend(RELAX * len(programme.cost) * len(programme.lower))
        relaxed = programme.solve(clock=self.clock)
        if relaxed is None or relaxed.objective * unit >= left - 0.5:
            return None
        solved = programme.solve(whole=True, seconds=seconds, nodes=MOST_NODES, enough=1e-6, clock=self.clock)
        if solved is None or solved.objective * unit >= left - 0.5:
            return None
        return [sheet for sheet, x in zip(offered, solved.values[: len(offered)], strict=True) for _ in range(round(x))]

    def _standing(self, chosen: Sequence[_Sheet], model: Standing) -> Standing:
        """Put the chosen sheets beside each other; what is on two is left out of the later one."""
        waiting: dict[int, list[int]] = {}
        for piece in range(len(self.kinds) - 1, -1, -1):
            waiting.setdefault(int(self.kinds[piece]), []).append(piece)
        sheets: list[int] = []
        where, spots = np.full_like(model.where, -1), model.spots.copy()
        for sheet in chosen:
            for k, spot in zip(sheet.kinds.tolist(), sheet.spots, strict=True):
                if waiting[k]:
                    piece = waiting[k].pop()
                    where[piece], spots[piece] = len(sheets), spot
            sheets.append(sheet.stock)
        rest = Counter(model.sheets)
        rest.subtract(sheets)
        return Standing([*sheets, *sorted(rest.elements())], where, spots)


def _waste_first(sheet: _Sheet) -> tuple[int, int, bytes]:
    """Sort sheets by what they waste."""
    return sheet.waste, sheet.stock, sheet.kinds.tobytes()
