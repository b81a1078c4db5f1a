"""Of layouts with the same pieces on the same sheets, those that keep the largest single usable offcut."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rodbook.boards.asked.task import Task
from rodbook.boards.filling.fill import Filled, largest_rest
from rodbook.boards.filling.search import Cutting
from rodbook.boards.filling.shapes import Shape, filled_from, runs_of, shape_of, size_of
from rodbook.boards.models import USABLE_OFFCUT_MM, hundredths

__all__ = ["tidied"]

SIDE = hundredths(USABLE_OFFCUT_MM)

TIDY_SHEETS = 4
"""How many of the emptiest sheets are laid again. House assumption: a large offcut comes from an empty sheet."""


def tidied(task: Task, cuttings: Sequence[Cutting], out_of_time: Callable[[], bool]) -> list[Cutting]:
    """Lay the emptiest sheets again, same pieces on the same sheet, for as large an offcut as can be."""
    results = list(cuttings)
    order = sorted(range(len(results)), key=lambda n: _fullness(task, results[n]))
    for n in order[:TIDY_SHEETS]:
        if out_of_time():
            break
        cutting = results[n]
        better = _tidied(task, cutting)
        if better is None:
            continue
        results[n] = Cutting(cutting.stock, better, cutting.count)
    return results


def _fullness(task: Task, cutting: Cutting) -> float:
    """Give the share of a sheet that its pieces take up."""
    sheet = task.stocks[cutting.stock]
    return cutting.filled.area / (sheet.length * sheet.width)


def _tidied(task: Task, cutting: Cutting) -> Filled | None:
    """Lay one sheet again; None where that gives no larger offcut."""
    stock = task.stocks[cutting.stock]
    board = (stock.length, stock.width)
    best, most = None, largest_rest(cutting.filled, task.kerf, SIDE)
    for shape in (shape_of(cutting.filled), *_pushed_together(task, cutting)):
        if shape is None:
            continue
        length, width = size_of(shape)
        if length > board[0] or width > board[1]:
            continue
        if task.max_turns is not None and runs_of(shape, board) > task.most_cut_levels:
            continue
        filled = filled_from(shape, board, task.kerf, levels=task.most_cut_levels, worth=[1.0] * len(task.kinds))
        rest = largest_rest(filled, task.kerf, SIDE)
        if filled.held == cutting.filled.held and rest > most:
            best, most = filled, rest
    return best


def _pushed_together(task: Task, cutting: Cutting) -> list[Shape]:
    """Find the shortest and the narrowest boards that hold the same pieces, as far as the kernels find them."""
    from rodbook.boards.values.dearest import Dearest

    held = cutting.filled.held
    left = [held.get(k, 0) for k in range(len(task.kinds))]
    if task.max_turns is not None or sum(left) > 60:
        return []
    stock = task.stocks[cutting.stock]
    alone = Task(task.kinds, (stock,), task.kerf, task.trim, task.max_turns, task.scale, (task.lies[cutting.stock],))
    dearest = Dearest(alone, left, plain=True)
    if not dearest.exact:
        return []
    return dearest.tightest(left)
