"""Fill one sheet, piece by piece, each into a free rectangle of which two straight cuts make at most two new ones.

Everything is in whole kerf-enlarged hundredths (see `task`). A `Filled` keeps the cuts as they were made; `tree` turns
them into boards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heapify, heappop, heappush
from typing import NamedTuple

__all__ = ["RULES", "Filled", "Rule", "fill", "largest_rest"]

AREA, SHORT_SIDE, LONG_SIDE = range(3)
ACROSS, ALONG, ONE_LARGE, TWO_EVEN = range(4)
BY_PIECE, BY_PLACE = range(2)


class Rule(NamedTuple):
    """How a sheet is filled.

    `fit`: what makes a place good for a piece - little area left over, or little on the short or the long side.
    `split`: which cut comes first - always across, always along, or so that the rests are one large or two even.
    `lead`: take the pieces in order and find each its place, or take the smallest place and find it a piece.
    """

    fit: int
    split: int
    lead: int


RULES = tuple(
    Rule(fit, split, lead)
    for fit in (AREA, SHORT_SIDE, LONG_SIDE)
    for split in (ACROSS, ALONG, ONE_LARGE, TWO_EVEN)
    for lead in (BY_PIECE, BY_PLACE)
)


class Free(NamedTuple):
    """A free rectangle: number of its node, place, size, direction of the cut it came from (-1: none), cut levels."""

    node: int
    x: int
    y: int
    length: int
    width: int
    axis: int
    level: int


@dataclass(slots=True)
class Filled:
    """A filled sheet: rectangles as (x, y, length, width), the cuts that divide some and the kinds that lie on others.

    ``cuts[node]`` is (axis, first part, second part or -1): axis 0 divides the length (a cut across), 1 the width.
    """

    nodes: list[tuple[int, int, int, int]]
    cuts: dict[int, tuple[int, int, int]]
    leaves: dict[int, int]
    held: dict[int, int]
    value: float
    area: int


class _Sheet:
    """The sheet being filled."""

    def __init__(self, size: tuple[int, int], kerf: int, levels: int, split: int) -> None:
        """Start with the whole sheet free."""
        self.kerf, self.levels, self.split = kerf, levels, split
        self.nodes = [(0, 0, *size)]
        self.cuts: dict[int, tuple[int, int, int]] = {}
        self.leaves: dict[int, int] = {}
        self.free = [Free(0, 0, 0, *size, -1, 0)]

    def first_axis(self, spot: Free, length: int, width: int) -> int | None:
        """Choose the direction of the first cut for a piece in a spot: 0, 1, 2 for no cut at all; None: not allowed."""
        rest_x, rest_y = spot.length - length, spot.width - width
        if not rest_x or not rest_y:
            axis = 0 if rest_x else 1 if rest_y else 2
            return axis if axis == 2 or spot.level + (spot.axis != axis) <= self.levels else None
        if self.split == ACROSS:
            axis = 0
        elif self.split == ALONG:
            axis = 1
        else:
            axis = int(rest_x * spot.width < rest_y * spot.length)
            if self.split == TWO_EVEN:
                axis = 1 - axis
        # one level more for the second cut, and another unless the first goes on where an earlier one left off
        if spot.level + 1 + (spot.axis != axis) <= self.levels:
            return axis
        axis = 1 - axis
        return axis if spot.level + 1 + (spot.axis != axis) <= self.levels else None

    def place(self, spot: Free, kind: int, length: int, width: int, axis: int) -> None:
        """Cut a piece from the corner of a free rectangle, which must have been taken off the list of free ones."""
        while spot.length > length or spot.width > width:
            level = spot.level + (spot.axis != axis)
            node, x, y = len(self.nodes), spot.x, spot.y
            if axis == 0:
                kept = Free(node, x, y, length, spot.width, 0, level)
                rest = Free(node + 1, x + length, y, spot.length - length, spot.width, 0, level)
                wide = rest.length > self.kerf
            else:
                kept = Free(node, x, y, spot.length, width, 1, level)
                rest = Free(node + 1, x, y + width, spot.length, spot.width - width, 1, level)
                wide = rest.width > self.kerf
            self.nodes.append((x, y, kept.length, kept.width))
            if wide:
                self.nodes.append((rest.x, rest.y, rest.length, rest.width))
                self.free.append(rest)
            self.cuts[spot.node] = (axis, node, node + 1 if wide else -1)
            spot, axis = kept, 1 - axis
        self.leaves[spot.node] = kind


Ways = Sequence[tuple[tuple[int, int], ...]]


def fill(
    size: tuple[int, int],
    ways: Ways,
    left: Sequence[int],
    order: Sequence[int],
    worth: Sequence[float],
    *,
    kerf: int,
    levels: int,
    rule: Rule,
) -> Filled:
    """Fill a sheet of this size with what is left of each kind, those first in `order` first.

    `ways` holds how each kind may lie and `worth` what one of it counts in the value of the filled sheet.
    """
    sheet = _Sheet(size, kerf, levels, rule.split)
    wanted = list(left)
    if rule.lead == BY_PIECE:
        _by_piece(sheet, ways, wanted, order, rule.fit)
    else:
        _by_place(sheet, ways, wanted, [k for k in order if wanted[k] and ways[k]], rule.fit)
    held: dict[int, int] = {}
    for kind in sheet.leaves.values():
        held[kind] = held.get(kind, 0) + 1
    return Filled(
        sheet.nodes,
        sheet.cuts,
        sheet.leaves,
        held,
        sum(worth[kind] * number for kind, number in held.items()),
        sum(sheet.nodes[node][2] * sheet.nodes[node][3] for node in sheet.leaves),
    )


def _by_piece(sheet: _Sheet, ways: Ways, wanted: list[int], order: Sequence[int], fit: int) -> None:
    """Take the pieces in order and put each where it fits best; of equal places in the one that came about first."""
    fresh = sheet.free
    spots: dict[int, Free] = {}
    came = 0
    for kind in order:
        if not wanted[kind]:
            continue
        seats = [seat for n, spot in spots.items() if (seat := _best_seat(sheet, n, spot, ways[kind], fit))]
        heapify(seats)
        for _ in range(wanted[kind]):
            for spot in fresh:
                spots[came] = spot
                if seat := _best_seat(sheet, came, spot, ways[kind], fit):
                    heappush(seats, seat)
                came += 1
            fresh.clear()
            if not seats:
                break
            _, number, length, width, axis = heappop(seats)
            sheet.place(spots.pop(number), kind, length, width, axis)


def _best_seat(
    sheet: _Sheet, number: int, spot: Free, ways: tuple[tuple[int, int], ...], fit: int
) -> tuple[int, int, int, int, int] | None:
    """How a piece lies best in a free rectangle: what it misses, the rectangle's number, length, width, the first cut."""
    best = None
    room_x, room_y = spot.length, spot.width
    for length, width in ways:
        if length <= room_x and width <= room_y:
            rest_x, rest_y = room_x - length, room_y - width
            if fit == AREA:
                miss = room_x * room_y - length * width
            elif (rest_x < rest_y) == (fit == SHORT_SIDE):
                miss = rest_x
            else:
                miss = rest_y
            if best is None or miss < best[0]:
                axis = sheet.first_axis(spot, length, width)
                if axis is not None:
                    best = (miss, number, length, width, axis)
    return best


def _by_place(sheet: _Sheet, ways: Ways, wanted: list[int], order: Sequence[int], fit: int) -> None:
    """Take the smallest free rectangle and find it the piece that fits best; of equal ones the first in order."""
    free = sheet.free
    while free:
        number = min(range(len(free)), key=lambda n: (free[n].length * free[n].width, -n))
        spot = free.pop(number)
        room_x, room_y = spot.length, spot.width
        best = None
        for rank, kind in enumerate(order):
            if not wanted[kind]:
                continue
            for length, width in ways[kind]:
                if length <= room_x and width <= room_y:
                    rest_x, rest_y = room_x - length, room_y - width
                    if fit == AREA:
                        miss = room_x * room_y - length * width
                    elif fit == SHORT_SIDE:
                        miss = min(rest_x, rest_y)
                    else:
                        miss = rank
                    if best is None or miss < best[0]:
                        axis = sheet.first_axis(spot, length, width)
                        if axis is not None:
                            best = (miss, kind, length, width, axis)
            if best is not None and best[0] == 0:
                break
        if best is not None:
            _, kind, length, width, axis = best
            wanted[kind] -= 1
            sheet.place(spot, kind, length, width, axis)


def largest_rest(filled: Filled, kerf: int, least_side: int) -> int:
    """Give the area, kerf aside, of the largest rectangle left over that is at least so wide; 0 where there is none."""
    best = 0
    for node, (_, _, length, width) in enumerate(filled.nodes):
        if node in filled.cuts or node in filled.leaves:
            continue
        length, width = length - kerf, width - kerf
        if min(length, width) >= least_side:
            best = max(best, length * width)
    return best
