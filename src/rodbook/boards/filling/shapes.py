"""Cuts without measures: which board is cut which way into what, and which piece is on which board.

A shape is nothing, a piece lying one way, or a cut in two. How big its boards must be follows from its pieces, so a
shape is always laid out as tightly as it can be and what is left over comes together at the ends of the cuts.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rodbook.boards.filling.fill import Filled

__all__ = ["Cut", "Leaf", "Shape", "counts_of", "filled_from", "lay_on", "runs_of", "shape_of", "size_of", "without"]


class Leaf(NamedTuple):
    """A piece of a kind as it lies: kerf-enlarged `length` and `width`."""

    kind: int
    length: int
    width: int


class Cut(NamedTuple):
    """A board cut in two: `axis` 0 divides its length, 1 its width."""

    axis: int
    first: Shape
    second: Shape


type Shape = Leaf | Cut | None


def size_of(shape: Shape) -> tuple[int, int]:
    """Give the smallest board that a shape can be had from."""
    if shape is None:
        return 0, 0
    if isinstance(shape, Leaf):
        return shape.length, shape.width
    (a, b), (c, d) = size_of(shape.first), size_of(shape.second)
    return (a + c, max(b, d)) if shape.axis == 0 else (max(a, c), b + d)


def counts_of(shape: Shape, kinds: int) -> tuple[int, ...]:
    """Count the pieces of each kind."""
    counts = [0] * kinds
    waiting = [shape]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Leaf):
            counts[part.kind] += 1
        elif part is not None:
            waiting += [part.first, part.second]
    return tuple(counts)


def without(shape: Shape, surplus: list[int]) -> Shape:
    """Leave pieces out while there are too many of their kind; `surplus` is counted down."""
    if shape is None:
        return None
    if isinstance(shape, Leaf):
        if surplus[shape.kind] > 0:
            surplus[shape.kind] -= 1
            return None
        return shape
    first, second = without(shape.first, surplus), without(shape.second, surplus)
    if first is None or second is None:
        return second if first is None else first
    return Cut(shape.axis, first, second)


def runs_of(shape: Shape, board: tuple[int, int] | None = None) -> int:
    """Count the runs of cuts in one direction that follow on each other on a board, or on the smallest that will do.

    A piece narrower than the board that it comes from takes a cut too.
    """
    return _runs(shape, size_of(shape) if board is None else board, -1)


def _runs(shape: Shape, board: tuple[int, int], axis: int) -> int:
    """Count runs on a board that came from a cut of direction `axis`, as `_lay` makes them."""
    if isinstance(shape, Cut):
        parts = _parts(shape, shape.axis)
        below = 0
        for part in parts:
            size = size_of(part)
            own = (size[0], board[1]) if shape.axis == 0 else (board[0], size[1])
            below = max(below, _runs(part, own, shape.axis))
        return (shape.axis != axis) + below
    if shape is None:
        return 0
    cuts = [a for a in (0, 1) if board[a] > (shape.length, shape.width)[a]]
    return len(cuts) - (axis in cuts)


def shape_of(filled: Filled) -> Shape:
    """Take the measures off a filled sheet."""

    def of(node: int) -> Shape:
        if node in filled.leaves:
            return Leaf(filled.leaves[node], *_leaf_size(filled, node))
        if node not in filled.cuts:
            return None
        axis, first, second = filled.cuts[node]
        one = of(first)
        other = of(second) if second >= 0 else None
        if one is None or other is None:
            return other if one is None else one
        return Cut(axis, one, other)

    return of(0)


def _leaf_size(filled: Filled, node: int) -> tuple[int, int]:
    """Give the size of a piece's own board."""
    return filled.nodes[node][2], filled.nodes[node][3]


def filled_from(shape: Shape, size: tuple[int, int], kerf: int, *, levels: int, worth: Sequence[float]) -> Filled:
    """Lay a shape out on a sheet of this size; what is left over across the first cuts comes off first where it may.

    Sizes are kerf-enlarged; `levels` says how many runs of cuts may follow on each other.
    """
    filled = Filled([(0, 0, *size)], {}, {}, {}, 0.0, 0)
    lay_on(filled, 0, shape, kerf, levels=levels)
    for kind in filled.leaves.values():
        filled.held[kind] = filled.held.get(kind, 0) + 1
    filled.value = sum(worth[kind] * number for kind, number in filled.held.items())
    filled.area = sum(filled.nodes[leaf][2] * filled.nodes[leaf][3] for leaf in filled.leaves)
    return filled


def lay_on(filled: Filled, node: int, shape: Shape, kerf: int, *, levels: int) -> None:
    """Lay a shape on one board of a sheet; what is left beside all of it comes off first where `levels` allow."""
    length, width = size_of(shape)
    if isinstance(shape, Cut):
        # the rest beside the whole shape, as one strip from edge to edge
        other = 1 - shape.axis
        board = (filled.nodes[node][2], filled.nodes[node][3])
        apart = (length, board[1]) if other == 0 else (board[0], width)
        if board[other] > (length, width)[other] and 1 + _runs(shape, apart, other) <= levels:
            node = _divide(filled, node, other, (length, width)[other], kerf)
    _lay(filled, node, shape, kerf, -1)


def _divide(filled: Filled, node: int, axis: int, at: int, kerf: int) -> int:
    """Cut a board in two; the number of the first part comes back, the second's is one more where it is any use."""
    x, y, length, width = filled.nodes[node]
    first = len(filled.nodes)
    if axis == 0:
        filled.nodes.append((x, y, at, width))
        rest = (x + at, y, length - at, width)
    else:
        filled.nodes.append((x, y, length, at))
        rest = (x, y + at, length, width - at)
    wide = rest[2 + axis] > kerf
    if wide:
        filled.nodes.append(rest)
    filled.cuts[node] = (axis, first, first + 1 if wide else -1)
    return first


def _lay(filled: Filled, node: int, shape: Shape, kerf: int, came: int) -> None:
    """Lay a shape on a board that is large enough for it and came from a cut of one direction (-1: from none)."""
    if shape is None:
        return
    if isinstance(shape, Leaf):
        for axis in (1, 0) if came == 1 else (0, 1):
            size = (shape.length, shape.width)[axis]
            if filled.nodes[node][2 + axis] > size:
                node = _divide(filled, node, axis, size, kerf)
        filled.leaves[node] = shape.kind
        return
    for part in _parts(shape, shape.axis):
        size = size_of(part)[shape.axis]
        if filled.nodes[node][2 + shape.axis] > size:
            first = _divide(filled, node, shape.axis, size, kerf)
            rest = filled.cuts[node][2]
        else:
            first, rest = node, -1
        _lay(filled, first, part, kerf, shape.axis)
        node = rest


def _parts(shape: Shape, axis: int) -> list[Shape]:
    """List what a run of cuts of one direction yields."""
    if isinstance(shape, Cut) and shape.axis == axis:
        return _parts(shape.first, axis) + _parts(shape.second, axis)
    return [] if shape is None else [shape]
