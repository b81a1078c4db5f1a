"""From a filled sheet to what is shown of it: boards, placed pieces, offcuts, all in mm on the untrimmed sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rodbook.boards.filling.fill import Filled
from rodbook.boards.models import USABLE_OFFCUT_MM, Board, CutDirection, Offcut, Placed, hundredths, millimetres

__all__ = ["board_tree", "leaves_of", "offcuts_of", "placed_of", "usable_largest"]


def board_tree(filled: Filled, names: Mapping[int, tuple[str, bool]], *, kerf: int, trim: int) -> Board:
    """Build the cut tree; `names` holds, for each leaf of `filled`, the piece's name and whether it lies turned.

    Cuts of one direction that follow on each other become one board with many parts.
    """
    done: list[Board] = []
    waiting: list[tuple[int, int]] = [(0, -1)]  # a board's number; or how many parts it has, once these are done
    while waiting:
        node, parts_done = waiting.pop()
        x, y, length, width = filled.nodes[node]
        at = (millimetres(trim + x), millimetres(trim + y), millimetres(length - kerf), millimetres(width - kerf))
        if node in filled.leaves:
            name, turned = names[node]
            done.append(Board("piece", *at, name=name, turned=turned))
        elif node not in filled.cuts:
            done.append(Board("offcut", *at))
        elif parts_done < 0:
            parts = _parts(filled, node)
            waiting.append((node, len(parts)))
            waiting += [(part, -1) for part in reversed(parts)]
        else:
            cut: CutDirection = "along" if filled.cuts[node][0] else "across"
            done[-parts_done:] = [Board("cut", *at, cut=cut, parts=tuple(done[-parts_done:]))]
    return done.pop()


def _parts(filled: Filled, node: int) -> list[int]:
    """List the boards that a run of cuts of one direction yields from a board, in order."""
    axis = filled.cuts[node][0]
    results: list[int] = []
    waiting = [node]
    while waiting:
        part = waiting.pop()
        cut = filled.cuts.get(part)
        if cut is not None and cut[0] == axis:
            waiting += [child for child in (cut[2], cut[1]) if child >= 0]
        else:
            results.append(part)
    return results


def leaves_of(tree: Board) -> list[Board]:
    """List the boards that are cut no further, in order."""
    results: list[Board] = []
    waiting = [tree]
    while waiting:
        board = waiting.pop()
        if board.use == "cut":
            waiting.extend(reversed(board.parts))
        else:
            results.append(board)
    return results


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
