"""Pieces for other jobs out of what would be waste.

The layouts of the job itself are made first and stay as they are. Then every offcut is looked at as a board of its own and
filled with what is worth most; so no filler ever costs a sheet. What would be waste is filled first, on all sheets, the
smallest board first; the largest usable offcut of each sheet, which would be kept, only with what is still wanted then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.asked.task import Kind, Stock, Task, task_of
from rodbook.boards.filling.fill import Filled
from rodbook.boards.filling.shapes import lay_on, runs_of
from rodbook.boards.filling.tree import board_tree, leaves_of, offcuts_of, placed_of, usable_largest
from rodbook.boards.models import Board, Filler, Layout, Offcut, Saw, hundredths

__all__ = ["filled_layouts"]

MOST_KINDS = 12
"""So many kinds of filler are weighed against each other in one offcut, those of most worth for their area first; the time
of one filling grows with them. House assumption."""

OFFCUT_WORK = 0.02
"""What the fillings tried for one offcut may take, each counted once. House assumption. [s]"""


def filled_layouts(layouts: Sequence[Layout], saw: Saw, fillers: Sequence[Filler]) -> tuple[Layout, ...]:
    """Fill what layouts leave over: first what would be waste, then, with what is still wanted, what would be kept."""
    waste, results = _Waste(saw, fillers), tuple(layouts)
    for keep in (True, False):
        results = tuple(filled for layout in results for filled in waste.filled(layout, keep=keep))
    return results


class _Waste:
    """The fillers that are still to be had, as layouts are gone through one after another."""

    def __init__(self, saw: Saw, fillers: Sequence[Filler]) -> None:
        """Begin with all of them."""
        self.fillers = fillers
        scale = PriceScale.of(filler.worth for filler in fillers)
        self.worths = [scale.units(filler.worth) for filler in fillers]
        self.left = [filler.quantity for filler in fillers]
        self.task = task_of([], [], saw)
        self.kinds = [_kind(filler, self.task.kerf) for filler in fillers]
        by_area = [-w / (k.length * k.width) for w, k in zip(self.worths, self.kinds, strict=True)]
        self.order = sorted(range(len(fillers)), key=lambda n: (by_area[n], n))

    def filled(self, layout: Layout, *, keep: bool) -> list[Layout]:
        """Fill one layout but for the offcut that would be kept, or that too; several where its sheets are not filled alike."""
        kept = layout.largest_offcut if keep else None
        results: list[Layout] = []
        remaining = layout.count
        while remaining and any(self.left):
            sheet = _filled_of(layout.tree, self.task)
            held = self._fill(sheet.filled, kept)
            if not any(held):
                break
            alike = min([remaining, *(n // h for n, h in zip(self.left, held, strict=True) if h)])
            self.left = [n - h * alike for n, h in zip(self.left, held, strict=True)]
            remaining -= alike
            results.append(self._layout(layout, sheet, alike))
        return [*results, replace(layout, count=remaining)] if remaining else results

    def _fill(self, filled: Filled, kept: Offcut | None) -> list[int]:
        """Fill the offcuts of one sheet, smallest first; gives how many of each filler that takes."""
        held, left = [0] * len(self.kinds), list(self.left)
        runs = _runs_above(filled)
        offcuts = [n for n in range(len(filled.nodes)) if n not in filled.cuts and n not in filled.leaves]
        if kept is not None:
            corner = hundredths(kept.x) - self.task.trim, hundredths(kept.y) - self.task.trim
            offcuts = [n for n in offcuts if filled.nodes[n][:2] != corner]
        offcuts.sort(key=lambda n: (filled.nodes[n][2] * filled.nodes[n][3], n))
        for node in offcuts:
            for kind in self._fill_offcut(filled, node, self.task.most_cut_levels - runs[node], left):
                held[kind] += 1
                left[kind] -= 1
        return held

    def _fill_offcut(self, filled: Filled, node: int, levels: int, left: Sequence[int]) -> list[int]:
        """Fill one offcut; gives the fillers laid on it."""
        _, _, length, width = filled.nodes[node]
        if levels <= 0:
            return []
        fitting = [n for n in self.order if left[n] and _ways(self.kinds[n], length, width)][:MOST_KINDS]
        if not fitting:
            return []
        from rodbook.boards.values.dearest import Dearest
        from rodbook.boards.values.limited import ROUNDS, most_worth

        turns = None if self.task.max_turns is None else levels - 1
        while True:
            kinds = tuple(self.kinds[n] for n in fitting)
            few, worths = [left[n] for n in fitting], [self.worths[n] for n in fitting]
            lies = (tuple(_ways(kind, length, width) for kind in kinds),)
            alone = replace(self.task, kinds=kinds, stocks=(Stock(length, width, 0, 1),), max_turns=turns, lies=lies)
            dearest = Dearest(alone, few)
            if not dearest.used or dearest.can_fill or len(fitting) == 1:
                break
            fitting = fitting[: len(fitting) // 2]  # with a limit on turns only so many kinds can be weighed exactly
        if not dearest.used or not dearest.can_fill:
            return []
        rounds = max(1, min(ROUNDS, int(OFFCUT_WORK / dearest.work)))
        shape = most_worth(dearest, worths, few, rounds=rounds).shape
        if shape is None or runs_of(shape, (length, width)) > levels:
            return []
        before = set(filled.leaves)
        lay_on(filled, node, shape, self.task.kerf, levels=levels)
        laid = sorted(set(filled.leaves) - before)
        for leaf in laid:
            filled.leaves[leaf] = fitting[filled.leaves[leaf]]
        return [filled.leaves[leaf] for leaf in laid]

    def _layout(self, layout: Layout, sheet: _Sheet, count: int) -> Layout:
        """Show one filled sheet."""
        filled, kerf = sheet.filled, self.task.kerf
        names = dict(sheet.own)
        for leaf, kind in filled.leaves.items():
            if leaf not in names:
                filler = self.fillers[kind]
                names[leaf] = filler.name, hundredths(filler.length) != filled.nodes[leaf][2] - kerf
        tree = board_tree(filled, names, kerf=kerf, trim=self.task.trim)
        leaves = leaves_of(tree)
        offcuts = offcuts_of(leaves)
        return replace(
            layout,
            count=count,
            placed=placed_of(leaves),
            tree=tree,
            offcuts=offcuts,
            largest_offcut=usable_largest(offcuts),
        )


class _Sheet:
    """A sheet as it was laid out: its cuts in pairs, and the job's own pieces by the leaves that they lie on."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.filled = Filled([], {}, {}, {}, 0.0, 0)
        self.own: dict[int, tuple[str, bool]] = {}


def _filled_of(tree: Board, task: Task) -> _Sheet:
    """Take a cut tree back to cuts in pairs, kerf-enlarged and from the corner of the trimmed sheet."""
    sheet, kerf, trim = _Sheet(), task.kerf, task.trim
    filled = sheet.filled

    def node(board: Board) -> tuple[int, int, int, int]:
        x, y = hundredths(board.x) - trim, hundredths(board.y) - trim
        return x, y, hundredths(board.length) + kerf, hundredths(board.width) + kerf

    filled.nodes.append(node(tree))
    waiting = [(0, tree)]
    while waiting:
        at, board = waiting.pop()
        if board.use == "piece":
            filled.leaves[at], sheet.own[at] = -1, (board.name, board.turned)
        for number, part in enumerate(board.parts, 1):
            x, y, length, width = filled.nodes[at]
            size = node(part)[2:]
            across = board.cut == "across"
            if size == (length, width):
                waiting.append((at, part))
                break
            first = len(filled.nodes)
            rest = (x + size[0], y, length - size[0], width) if across else (x, y + size[1], length, width - size[1])
            filled.nodes.append((x, y, *size))
            waiting.append((first, part))
            more = number < len(board.parts)
            if more:
                filled.nodes.append(rest)
            filled.cuts[at] = (0 if across else 1, first, first + 1 if more else -1)
            at = first + 1
    return sheet


def _kind(filler: Filler, kerf: int) -> Kind:
    """Take a filler as a kind of its own, even where another is as large."""
    length, width = hundredths(filler.length), hundredths(filler.width)
    return Kind(length + kerf, width + kerf, filler.may_turn and length != width, filler.quantity, ())


def _ways(kind: Kind, length: int, width: int) -> tuple[tuple[int, int], ...]:
    """List how one of a kind may lie on a board."""
    ways = ((kind.length, kind.width), (kind.width, kind.length))[: 1 + kind.may_turn]
    return tuple(way for way in ways if way[0] <= length and way[1] <= width)


def _runs_above(filled: Filled) -> dict[int, int]:
    """Count the runs of cuts on the way from the sheet to each board."""
    runs = {0: 0}
    waiting = [(0, -1)]
    while waiting:
        node, axis = waiting.pop()
        cut = filled.cuts.get(node)
        if cut is None:
            continue
        for part in cut[1:]:
            if part >= 0:
                runs[part] = runs[node] + (cut[0] != axis)
                waiting.append((part, cut[0]))
    return runs
