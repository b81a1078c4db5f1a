"""Cuts without measures: which board is cut which way into what, and which piece is on which board.

A shape is nothing, a piece lying one way, or a cut in two. How big its boards must be follows from its pieces, so a
shape is always laid out as tightly as it can be and what is left over comes together at the ends of the cuts.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rodbook.boards.filling.fill import Filled

__all__ = [
    "Cut",
    "Leaf",
    "Shape",
    "counts_of",
    "filled_from",
    "joined",
    "key_of",
    "lay_on",
    "runs_of",
    "shape_of",
    "size_of",
    "without",
]


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


type Sizes = dict[int, tuple[int, int]]
"""The smallest board of each cut of a shape, by `id` of the cut."""


def _in_order(shape: Shape) -> list[Cut]:
    """List the cuts of a shape, each before those of its parts."""
    results: list[Cut] = []
    waiting = [shape]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Cut):
            results.append(part)
            waiting += [part.second, part.first]
    return results


def _sizes(shape: Shape) -> Sizes:
    """Work out the smallest board of every cut once, the innermost first."""
    sizes: Sizes = {}
    for cut in reversed(_in_order(shape)):
        (a, b), (c, d) = _size(cut.first, sizes), _size(cut.second, sizes)
        sizes[id(cut)] = (a + c, max(b, d)) if cut.axis == 0 else (max(a, c), b + d)
    return sizes


def _size(shape: Shape, sizes: Sizes) -> tuple[int, int]:
    """Give the smallest board of a part of a shape whose cuts' `sizes` are known."""
    if shape is None:
        return 0, 0
    return (shape.length, shape.width) if isinstance(shape, Leaf) else sizes[id(shape)]


def size_of(shape: Shape) -> tuple[int, int]:
    """Give the smallest board that a shape can be had from."""
    return _size(shape, _sizes(shape))


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


def joined(axis: int, first: Shape, second: Shape) -> Shape:
    """Put two parts together by a cut; where one is nothing, there is none."""
    if first is None or second is None:
        return second if first is None else first
    return Cut(axis, first, second)


def without(shape: Shape, surplus: list[int]) -> Shape:
    """Leave pieces out while there are too many of their kind; `surplus` is counted down."""
    kept: list[Shape] = []
    waiting: list[tuple[Shape, bool]] = [(shape, False)]
    while waiting:
        part, parts_done = waiting.pop()
        if not isinstance(part, Cut):
            if part is not None and surplus[part.kind] > 0:
                surplus[part.kind] -= 1
                part = None
            kept.append(part)
        elif parts_done:
            second, first = kept.pop(), kept.pop()
            kept.append(part if first is part.first and second is part.second else joined(part.axis, first, second))
        else:
            waiting += [(part, True), (part.second, False), (part.first, False)]
    return kept.pop()


def key_of(shape: Shape) -> tuple[object, ...]:
    """Give what two shapes have alike where they are cut alike; flat, so that shapes of any depth can be compared."""
    results: list[object] = []
    waiting = [shape]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Cut):
            results.append(part.axis)
            waiting += [part.second, part.first]
        else:
            results.append(part)
    return tuple(results)


def runs_of(shape: Shape, board: tuple[int, int] | None = None) -> int:
    """Count the runs of cuts in one direction that follow on each other on a board, or on the smallest that will do.

    A piece narrower than the board that it comes from takes a cut too.
    """
    sizes = _sizes(shape)
    return _runs(shape, _size(shape, sizes) if board is None else board, -1, sizes)


def _runs(shape: Shape, board: tuple[int, int], axis: int, sizes: Sizes) -> int:
    """Count runs on a board that came from a cut of direction `axis`, as `_lay` makes them."""
    most = 0
    waiting: list[tuple[Shape, tuple[int, int], int, int]] = [(shape, board, axis, 0)]
    while waiting:
        part, board, axis, above = waiting.pop()
        if isinstance(part, Cut):
            above += part.axis != axis
            most = max(most, above)
            for below in _parts(part):
                length, width = _size(below, sizes)
                own = (length, board[1]) if part.axis == 0 else (board[0], width)
                waiting.append((below, own, part.axis, above))
        elif part is not None:
            cuts = [a for a in (0, 1) if board[a] > (part.length, part.width)[a]]
            most = max(most, above + len(cuts) - (axis in cuts))
    return most


def shape_of(filled: Filled) -> Shape:
    """Take the measures off a filled sheet."""
    kept: list[Shape] = []
    waiting = [(0, False)]
    while waiting:
        node, parts_done = waiting.pop()
        if node in filled.leaves:
            kept.append(Leaf(filled.leaves[node], *_leaf_size(filled, node)))
        elif node not in filled.cuts:
            kept.append(None)
        elif parts_done:
            second, first = kept.pop(), kept.pop()
            kept.append(joined(filled.cuts[node][0], first, second))
        else:
            _, one, other = filled.cuts[node]
            waiting += [(node, True), (other, False), (one, False)]
    return kept.pop()


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
    sizes = _sizes(shape)
    length, width = _size(shape, sizes)
    if isinstance(shape, Cut):
        # the rest beside the whole shape, as one strip from edge to edge
        other = 1 - shape.axis
        board = (filled.nodes[node][2], filled.nodes[node][3])
        apart = (length, board[1]) if other == 0 else (board[0], width)
        if board[other] > (length, width)[other] and 1 + _runs(shape, apart, other, sizes) <= levels:
            node = _divide(filled, node, other, (length, width)[other], kerf)
    _lay(filled, node, shape, kerf, sizes)


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


def _lay(filled: Filled, node: int, shape: Shape, kerf: int, sizes: Sizes) -> None:
    """Lay a shape on a board that is large enough for it."""
    # each: a board, what is to come of it one beside another, and the direction of the cuts between (-1: it came from none)
    waiting: list[tuple[int, list[Shape], int]] = [(node, [shape], -1)]
    while waiting:
        node, run, axis = waiting.pop()
        part = run.pop()
        if axis >= 0:
            size, rest = _size(part, sizes)[axis], -1
            if filled.nodes[node][2 + axis] > size:
                node, rest = _divide(filled, node, axis, size, kerf), filled.cuts[node][2]
            if run:
                waiting.append((rest, run, axis))
        if isinstance(part, Cut):
            waiting.append((node, _parts(part)[::-1], part.axis))
        elif part is not None:
            _lay_piece(filled, node, part, kerf, axis)


def _lay_piece(filled: Filled, node: int, leaf: Leaf, kerf: int, came: int) -> None:
    """Cut a piece from a board that came from a cut of one direction (-1: from none)."""
    for axis in (1, 0) if came == 1 else (0, 1):
        size = (leaf.length, leaf.width)[axis]
        if filled.nodes[node][2 + axis] > size:
            node = _divide(filled, node, axis, size, kerf)
    filled.leaves[node] = leaf.kind


def _parts(cut: Cut) -> list[Shape]:
    """List what a run of cuts of one direction yields."""
    results: list[Shape] = []
    waiting: list[Shape] = [cut]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Cut) and part.axis == cut.axis:
            waiting += [part.second, part.first]
        elif part is not None:
            results.append(part)
    return results
