"""From a filled sheet to what is shown of it: boards, placed pieces, offcuts, all in mm on the untrimmed sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rodbook.boards.filling.fill import Filled
from rodbook.boards.models import USABLE_OFFCUT_MM, Board, Offcut, Placed, hundredths, millimetres

__all__ = ["board_tree", "leaves_of", "offcuts_of", "placed_of", "usable_largest"]


def board_tree(filled: Filled, names: Mapping[int, tuple[str, bool]], *, kerf: int, trim: int) -> Board:
    """Build the cut tree; `names` holds, for each leaf of `filled`, the piece's name and whether it lies turned.

    Cuts of one direction that follow on each other become one board with many parts.
    """
    return _board(filled, 0, names, kerf, trim)


def _board(filled: Filled, node: int, names: Mapping[int, tuple[str, bool]], kerf: int, trim: int) -> Board:
    """Build one board and what it is cut into."""
    x, y, length, width = filled.nodes[node]
    at = (millimetres(trim + x), millimetres(trim + y), millimetres(length - kerf), millimetres(width - kerf))
    if node in filled.leaves:
        name, turned = names[node]
        return Board("piece", *at, name=name, turned=turned)
    if node not in filled.cuts:
        return Board("offcut", *at)
    axis = filled.cuts[node][0]
    parts: list[Board] = []
    waiting = [node]
    while waiting:
        part = waiting.pop()
        cut = filled.cuts.get(part)
        if cut is not None and cut[0] == axis:
            waiting += [child for child in (cut[2], cut[1]) if child >= 0]
        else:
            parts.append(_board(filled, part, names, kerf, trim))
    return Board("cut", *at, cut="along" if axis else "across", parts=tuple(parts))


def leaves_of(tree: Board) -> list[Board]:
    """List the boards that are cut no further, in order."""
    found: list[Board] = []
    waiting = [tree]
    while waiting:
        board = waiting.pop()
        if board.use == "cut":
            waiting.extend(reversed(board.parts))
        else:
            found.append(board)
    return found


def placed_of(leaves: Sequence[Board]) -> tuple[Placed, ...]:
    """List the pieces among the leaves."""
    return tuple(Placed(b.name, b.x, b.y, b.length, b.width, b.turned) for b in leaves if b.use == "piece")


def offcuts_of(leaves: Sequence[Board]) -> tuple[Offcut, ...]:
    """List what is left over."""
    return tuple(Offcut(b.x, b.y, b.length, b.width) for b in leaves if b.use == "offcut")


def usable_largest(offcuts: Sequence[Offcut]) -> Offcut | None:
    """Pick the usable offcut of greatest area, the first of equal ones; None where none is usable."""
    usable = [offcut for offcut in offcuts if min(offcut.length, offcut.width) >= USABLE_OFFCUT_MM]
    return max(usable, key=lambda o: hundredths(o.length) * hundredths(o.width), default=None)
