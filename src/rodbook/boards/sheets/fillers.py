"""Pieces for other jobs out of what would be waste.

The layouts of the job itself are made first and stay as they are. Then every offcut is looked at as a board of its own,
the largest first, and filled with what is worth most; so no filler ever costs a sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.asked.task import Stock, Task, task_of
from rodbook.boards.filling.fill import Filled
from rodbook.boards.filling.search import Cutting
from rodbook.boards.filling.shapes import counts_of, lay_on
from rodbook.boards.models import Filler, Piece, Saw, Sheet

__all__ = ["as_pieces", "filled_up", "with_fillers"]


def as_pieces(fillers: Sequence[Filler]) -> list[Piece]:
    """Take fillers as pieces."""
    return [Piece(f.name, f.length, f.width, f.quantity, f.may_turn) for f in fillers]


def with_fillers(
    task: Task, pieces: Sequence[Piece], fillers: Sequence[Filler], sheets: Sequence[Sheet], saw: Saw
) -> Task:
    """Put the fillers behind a task's kinds, as kinds of their own; their pieces are numbered after the job's."""
    found = task
    for number, piece in enumerate(as_pieces(fillers)):
        (kind,) = (own := task_of([piece], sheets, saw)).kinds
        found = replace(
            found,
            kinds=(*found.kinds, replace(kind, pieces=(len(pieces) + number,))),
            lies=tuple((*lies, *more) for lies, more in zip(found.lies, own.lies, strict=True)),
        )
    return found


def filled_up(task: Task, first: int, cuttings: Sequence[Cutting], fillers: Sequence[Filler]) -> list[Cutting]:
    """Fill the offcuts of all sheets; ``task`` holds the fillers as its kinds from `first` on."""
    scale = PriceScale.of(filler.worth for filler in fillers)
    worths = [scale.units(filler.worth) for filler in fillers]
    left = [filler.quantity for filler in fillers]
    found: list[Cutting] = []
    for cutting in cuttings:
        remaining = cutting.count
        while remaining and any(left):
            filled = _copied(cutting.filled)
            held = _fill(task, first, filled, worths, list(left))
            if not any(held):
                break
            count = min([remaining, *(n // h for n, h in zip(left, held, strict=True) if h)])
            left = [n - h * count for n, h in zip(left, held, strict=True)]
            remaining -= count
            found.append(Cutting(cutting.stock, filled, count))
        if remaining:
            found.append(Cutting(cutting.stock, cutting.filled, remaining))
    return found


def _copied(filled: Filled) -> Filled:
    """Copy a filled sheet."""
    return Filled(
        list(filled.nodes), dict(filled.cuts), dict(filled.leaves), dict(filled.held), filled.value, filled.area
    )


def _fill(task: Task, first: int, filled: Filled, worths: Sequence[int], left: list[int]) -> list[int]:
    """Fill the offcuts of one sheet, largest first; gives how many of each filler that takes."""
    from rodbook.boards.values.dearest import Dearest

    held = [0] * len(worths)
    runs = _runs_above(filled)
    offcuts = [n for n in range(len(filled.nodes)) if n not in filled.cuts and n not in filled.leaves]
    offcuts.sort(key=lambda n: (-filled.nodes[n][2] * filled.nodes[n][3], n))
    for node in offcuts:
        levels = task.most_cut_levels - runs[node]
        _, _, length, width = filled.nodes[node]
        if levels <= 0:
            continue
        kinds = task.kinds[first:]
        lies = tuple(
            tuple(
                way
                for way in ((kind.length, kind.width), (kind.width, kind.length))[: 1 + kind.may_turn]
                if way[0] <= length and way[1] <= width
            )
            for kind in kinds
        )
        if not any(n and way for n, way in zip(left, lies, strict=True)):
            continue
        turns = None if task.max_turns is None else levels - 1
        alone = Task(kinds, (Stock(length, width, 0, 1),), task.kerf, 0, turns, task.scale, (lies,))
        dearest = Dearest(alone, left)
        if not dearest.used or not dearest.can_fill:
            continue
        ((_, shape),) = dearest.fillings(worths) if dearest.limited else dearest.held(worths, left)
        counts = counts_of(shape, len(kinds))
        if not any(counts) or any(c > n for c, n in zip(counts, left, strict=True)):
            continue
        before = set(filled.leaves)
        lay_on(filled, node, shape, task.kerf, levels=levels)
        for leaf in set(filled.leaves) - before:
            kind = filled.leaves[leaf] + first
            filled.leaves[leaf] = kind
            filled.held[kind] = filled.held.get(kind, 0) + 1
        for k, count in enumerate(counts):
            held[k] += count
            left[k] -= count
    return held


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
