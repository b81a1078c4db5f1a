"""Take some sheets out, fill them again with what was on them and what has no place yet, and keep what is no worse.

Pieces are numbered one by one and every size is whole. A sheet is filled piece by piece into free rectangles, each cut
into at most two new ones by two straight cuts, so what comes out can always be cut edge to edge. `where` holds the
number of the sheet on which a piece lies, or -1; ``spot`` its x, y, length and width there.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.kernels.compiled import compiled

__all__ = ["refill"]

WHOLE, FEW = 0.05, 4
"""How often a sheet with more than a few pieces is emptied whole; else it is cut where no piece is in the way, again and again,
until what comes out holds no more than some number of pieces between a few and all."""

GUESSES = 40
"""Lines that are tried for such a cut before all are listed."""

Whole = NDArray[np.int64]
Real = NDArray[np.float64]


@compiled
def _key(kind: int, length: int, width: int) -> float:
    """Say what makes a piece come early."""
    if kind == 0:
        return length * width * 1.0
    if kind == 1:
        return max(length, width) * 1.0
    if kind == 2:
        return length * 1.0
    if kind == 3:
        return width * 1.0
    if kind == 4:
        return (length + width) * 1.0
    return min(length, width) * 1.0


@compiled
def _miss(fit: int, rest_x: int, rest_y: int, room: int, area: int) -> int:
    """Say how badly a piece fits a place: area left over, or what is left on the short or the long side."""
    if fit == 0:
        return room - area
    if (rest_x < rest_y) == (fit == 1):
        return rest_x
    return rest_y


@compiled
def _across_first(split: int, rest_x: int, rest_y: int, room_x: int, room_y: int) -> bool:
    """Choose the first cut for a piece in a place: always across, always along, one large rest or two even ones."""
    if split == 0:
        return True
    if split == 1:
        return False
    large = not rest_x * room_y < rest_y * room_x
    return large if split == 2 else not large


@compiled
def _place(free: Whole, number: int, spot: int, length: int, width: int, split: int) -> int:
    """Cut a piece from the corner of a free rectangle; gives the new number of free rectangles."""
    x, y, room_x, room_y = free[spot, 0], free[spot, 1], free[spot, 2], free[spot, 3]
    number -= 1
    free[spot] = free[number]
    rest_x, rest_y = room_x - length, room_y - width
    if _across_first(split, rest_x, rest_y, room_x, room_y):
        one = (x + length, y, rest_x, room_y)
        other = (x, y + width, length, rest_y)
    else:
        one = (x + length, y, rest_x, width)
        other = (x, y + width, room_x, rest_y)
    for part in range(2):
        at = one if part == 0 else other
        if at[2] > 0 and at[3] > 0:
            free[number, 0], free[number, 1], free[number, 2], free[number, 3] = at[0], at[1], at[2], at[3]
            number += 1
    return number


@compiled
def _by_piece(
    sizes: Whole, turns: NDArray[np.bool_], order: Whole, board: Whole, fit: int, split: int, free: Whole, out: Whole
) -> float:
    """Take pieces in order and put each where it fits best; rows of ``out`` get its place, or length 0."""
    free[0, 0], free[0, 1], free[0, 2], free[0, 3] = 0, 0, board[0], board[1]
    number = 1
    value = 0.0
    for place in range(order.size):
        piece = order[place]
        out[place, 2] = 0
        best, spot, turned = 2**62, -1, False
        for way in range(2 if turns[piece] else 1):
            length, width = sizes[piece, way], sizes[piece, 1 - way]
            for f in range(number):
                rest_x, rest_y = free[f, 2] - length, free[f, 3] - width
                if rest_x >= 0 and rest_y >= 0:
                    miss = _miss(fit, rest_x, rest_y, free[f, 2] * free[f, 3], length * width)
                    if miss < best:
                        best, spot, turned = miss, f, way == 1
        if spot >= 0:
            length, width = (sizes[piece, 1], sizes[piece, 0]) if turned else (sizes[piece, 0], sizes[piece, 1])
            out[place, 0], out[place, 1], out[place, 2], out[place, 3] = free[spot, 0], free[spot, 1], length, width
            number = _place(free, number, spot, length, width, split)
            value += length * width
    return value


@compiled
def _by_place(
    sizes: Whole, turns: NDArray[np.bool_], order: Whole, board: Whole, fit: int, split: int, free: Whole, out: Whole
) -> float:
    """Take the smallest free rectangle and find it the piece that fits best, of equal ones the first in order."""
    free[0, 0], free[0, 1], free[0, 2], free[0, 3] = 0, 0, board[0], board[1]
    number = 1
    value = 0.0
    for place in range(order.size):
        out[place, 2] = 0
    while number > 0:
        spot = 0
        for f in range(1, number):
            if free[f, 2] * free[f, 3] < free[spot, 2] * free[spot, 3]:
                spot = f
        room_x, room_y = free[spot, 2], free[spot, 3]
        best, chosen, turned = 2**62, -1, False
        for place in range(order.size):
            if out[place, 2] > 0:
                continue
            piece = order[place]
            for way in range(2 if turns[piece] else 1):
                rest_x, rest_y = room_x - sizes[piece, way], room_y - sizes[piece, 1 - way]
                if rest_x >= 0 and rest_y >= 0:
                    miss = place
                    if fit == 0:
                        miss = room_x * room_y - sizes[piece, 0] * sizes[piece, 1]
                    elif fit == 1:
                        miss = min(rest_x, rest_y)
                    if miss < best:
                        best, chosen, turned = miss, place, way == 1
            if best == 0 or (chosen >= 0 and fit == 2):
                break
        if chosen < 0:
            number -= 1
            free[spot] = free[number]
            continue
        piece = order[chosen]
        length, width = (sizes[piece, 1], sizes[piece, 0]) if turned else (sizes[piece, 0], sizes[piece, 1])
        out[chosen, 0], out[chosen, 1], out[chosen, 2], out[chosen, 3] = free[spot, 0], free[spot, 1], length, width
        number = _place(free, number, spot, length, width, split)
        value += length * width
    return value


@compiled
def _narrow(region: Whole, mine: Whole, count: int, spots: Whole) -> int:
    """Cut a region in two where no piece is in the way and keep one part, both at random.

    ``mine`` lists the pieces that lie in it, ``count`` of them; those of the part kept come first afterwards, and their
    number is given.
    """
    axis, at = -1, 0
    for _ in range(GUESSES):
        # where one piece begins another cut may have ended; most guesses fail at once, which costs less than to sort
        p, axis = mine[np.random.randint(0, count)], np.random.randint(0, 2)
        at = spots[p, axis]
        if at <= region[axis]:
            axis = -1
            continue
        before = False
        for n in range(count):
            q = mine[n]
            if spots[q, axis] < at:
                before = True
                if spots[q, axis] + spots[q, 2 + axis] > at:
                    axis = -1
                    break
        if axis >= 0 and before:
            break
        axis = -1
    if axis < 0:
        result = 0
        for side in range(2):
            starts = np.zeros(count, dtype=np.int64)
            for n in range(count):
                starts[n] = spots[mine[n], side]
            order = np.argsort(starts)
            end = spots[mine[order[0]], side] + spots[mine[order[0]], 2 + side]
            for n in range(1, count):
                p = mine[order[n]]
                if spots[p, side] >= end:
                    # each of them with the same chance
                    result += 1
                    if np.random.randint(0, result) == 0:
                        axis, at = side, end
                end = max(end, spots[p, side] + spots[p, 2 + side])
        if result == 0:
            return count
    low = np.random.random() < 0.5
    if low:
        region[2 + axis] = at - region[axis]
    else:
        region[2 + axis] -= at - region[axis]
        region[axis] = at
    kept = 0
    for n in range(count):
        p = mine[n]
        if (spots[p, axis] < at) == low:
            mine[n] = mine[kept]
            mine[kept] = p
            kept += 1
    return kept


@compiled
def refill(
    sizes: Whole,
    turns: NDArray[np.bool_],
    boards: Whole,
    where: Whole,
    spots: Whole,
    weight: Real,
    seed: int,
    rounds: int,
    heat: float,
) -> float:
    """Make so many rounds; gives the area that has no place at the end, 0 as soon as all has.

    ``heat`` is the share of a mean piece's area by which a round may be worse and still be kept now and then.
    ``weight`` of pieces that stay without a place grows, so that they come earlier.
    """
    np.random.seed(seed)
    pieces, sheets = where.size, boards.shape[0]
    area = np.zeros(pieces)
    mean = 0.0
    for p in range(pieces):
        area[p] = sizes[p, 0] * sizes[p, 1]
        mean += area[p] / pieces
    left = 0.0
    for p in range(pieces):
        if where[p] < 0:
            left += area[p]
    free = np.zeros((2 * pieces + 4, 4), dtype=np.int64)
    chosen = np.zeros(4, dtype=np.int64)
    loose = np.zeros(pieces, dtype=np.int64)
    scores = np.zeros(pieces)
    mine = np.zeros(pieces, dtype=np.int64)
    moved = np.zeros(pieces, dtype=np.bool_)
    regions = np.zeros((4, 4), dtype=np.int64)
    new_where, new_spots = where.copy(), spots.copy()
    best_where, best_spots, best_left = where.copy(), spots.copy(), left
    for _ in range(rounds):
        if left <= 0:
            break
        # one to four sheets come out
        k = min(sheets, 1 + np.random.randint(0, 3) + (np.random.random() < 0.3))
        for c in range(k):
            again = True
            while again:
                chosen[c] = np.random.randint(0, sheets)
                again = False
                for d in range(c):
                    if chosen[d] == chosen[c]:
                        again = True
        number = 0
        for p in range(pieces):
            new_where[p] = where[p]
            if where[p] < 0:
                loose[number] = p
                number += 1
        for c in range(k):
            sheet = chosen[c]
            regions[c, 0], regions[c, 1], regions[c, 2], regions[c, 3] = 0, 0, boards[sheet, 0], boards[sheet, 1]
            count = 0
            for p in range(pieces):
                if where[p] == sheet:
                    mine[count] = p
                    count += 1
            # often only a part of a sheet comes out, small parts as often as large ones
            if count > FEW and np.random.random() > WHOLE:
                most = FEW * (count / FEW) ** np.random.random()
                before = count + 1
                while most < count < before:
                    before = count
                    count = _narrow(regions[c], mine, count, spots)
            for n in range(count):
                loose[number] = mine[n]
                number += 1
                new_where[mine[n]] = -1
        rest = 0.0
        for n in range(number):
            rest += area[loose[n]]
        for c in range(k):
            if number == 0:
                break
            board = regions[c, 2:]
            top = -1.0
            top_order = loose[:0].copy()
            top_out = np.zeros((1, 4), dtype=np.int64)
            for _ in range(3):
                key, noise = np.random.randint(0, 6), np.random.random() * 0.6
                for n in range(number):
                    p = loose[n]
                    scores[n] = (
                        -_key(key, sizes[p, 0], sizes[p, 1]) * weight[p] * np.exp(noise * (2 * np.random.random() - 1))
                    )
                order = loose[np.argsort(scores[:number])]
                out = np.zeros((number, 4), dtype=np.int64)
                fit, split = np.random.randint(0, 3), np.random.randint(0, 4)
                if np.random.random() < 0.5:
                    value = _by_piece(sizes, turns, order, board, fit, split, free, out)
                else:
                    value = _by_place(sizes, turns, order, board, fit, split, free, out)
                if value > top:
                    top, top_order, top_out = value, order, out
            kept = 0
            for n in range(number):
                p = top_order[n]
                if top_out[n, 2] > 0:
                    new_where[p] = chosen[c]
                    new_spots[p] = top_out[n]
                    new_spots[p, 0] += regions[c, 0]
                    new_spots[p, 1] += regions[c, 1]
                    moved[p] = True
                else:
                    loose[kept] = p
                    kept += 1
            number = kept
            rest -= top
        if rest <= left - heat * mean * np.log(1.0 - np.random.random()):
            left = rest
            for p in range(pieces):
                if moved[p]:
                    spots[p] = new_spots[p]
                where[p] = new_where[p]
            if left < best_left - 0.5:
                best_left = left
                best_where[:], best_spots[:] = where, spots
        for p in range(pieces):
            moved[p] = False
            if where[p] < 0:
                weight[p] = min(8.0, weight[p] * 1.003)
            else:
                weight[p] = max(1.0, weight[p] * 0.9997)
    if best_left < left:
        where[:], spots[:] = best_where, best_spots
        left = best_left
    return left
