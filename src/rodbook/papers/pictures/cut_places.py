"""Where each cut of a cut list lies on its sheet."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.boards import Board, CutList, Layout, Saw
from rodbook.boards.models import CutDirection, hundredths
from rodbook.errors import RenderError

__all__ = ["CutPlace", "cut_places"]


@dataclass(frozen=True)
class CutPlace:
    """One cut on the untrimmed sheet: its number in the list and its middle line. [mm, real]

    Parameters
    ----------
    number : int
    direction : str
    at : float
        Middle of the blade: across the sheet for a cut along it, along the sheet for a cut across it.
    start, end : float
        Ends of the cut the other way.
    trim : bool
        Whether it takes off a raw edge.
    """

    number: int
    direction: CutDirection
    at: float
    start: float
    end: float
    trim: bool = False


def cut_places(layout: Layout, cuts: CutList, saw: Saw) -> tuple[CutPlace, ...]:
    """Find every cut of a list on its sheet.

    Parameters
    ----------
    layout : Layout
    cuts : CutList
        Of that layout.
    saw : Saw
        For kerf and edge trim.

    Raises
    ------
    RenderError
        If list and layout do not tell the same cuts: better no drawing than a wrong number on a line.
    """
    results: list[CutPlace] = []
    if saw.edge_trim:
        results += _trims(layout, saw)
    waiting = [layout.tree] if layout.tree.use == "cut" else []
    while waiting:
        board = waiting.pop(0)
        results += _divided(board, saw.kerf, len(results))
        waiting = [part for part in board.parts if part.use == "cut"] + waiting
    lines = [(step.number, step.direction, hundredths(step.length)) for step in cuts.steps]
    drawn = [(place.number, place.direction, hundredths(place.end - place.start)) for place in results]
    if lines != drawn:
        raise RenderError("papers.cut_list_does_not_fit", sheet=layout.sheet, told=len(lines), drawn=len(drawn))
    return tuple(results)


def _trims(layout: Layout, saw: Saw) -> list[CutPlace]:
    """The four raw edges, in the order of the list; the blade cuts the inner part of what is taken off."""
    trim, half = saw.edge_trim, saw.kerf / 2
    far, wide = layout.length, layout.width
    ends = (trim, wide - trim)
    return [
        CutPlace(1, "along", trim - half, 0.0, far, trim=True),
        CutPlace(2, "along", wide - trim + half, 0.0, far, trim=True),
        CutPlace(3, "across", trim - half, *ends, trim=True),
        CutPlace(4, "across", far - trim + half, *ends, trim=True),
    ]


def _divided(board: Board, kerf: float, done: int) -> list[CutPlace]:
    """The cuts that divide one board, each behind the part that it sets free."""
    across = board.cut == "across"
    last = board.parts[-1]
    ends = (last.x + last.length, board.x + board.length) if across else (last.y + last.width, board.y + board.width)
    free = hundredths(ends[0]) == hundredths(ends[1])
    reach = (board.y, board.y + board.width) if across else (board.x, board.x + board.length)
    results: list[CutPlace] = []
    for number, part in enumerate(board.parts[: len(board.parts) - free], 1):
        edge = part.x + part.length if across else part.y + part.width
        results.append(CutPlace(done + number, "across" if across else "along", edge + kerf / 2, *reach))
    return results
