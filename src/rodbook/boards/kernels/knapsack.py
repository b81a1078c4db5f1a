"""The dearest filling of one bar, by branch and bound; and all fillings that are dear enough."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rodbook.boards.kernels.compiled import compiled

__all__ = ["by_table", "dear_enough", "dearest"]

Whole = NDArray[np.int64]


@compiled
def dearest(room: int, lengths: Whole, values: Whole, quantities: Whole, most_steps: int) -> tuple[int, Whole, int]:
    """Find the sticks of most value that fit a bar, no more of each than wanted.

    Sticks must come in falling order of value for their length, all values above 0. Gives the value, how many of each,
    and how many steps were made; where they are no more than were allowed, nothing is worth more.
    """
    n = lengths.size
    best_value, best = 0, np.zeros(n, dtype=np.int64)
    counts = np.zeros(n, dtype=np.int64)
    shortest = np.zeros(n + 1, dtype=np.int64)
    shortest[n] = 2**62
    for k in range(n - 1, -1, -1):
        shortest[k] = min(shortest[k + 1], lengths[k])
    value, left, k, steps = 0, room, 0, 0
    while True:
        # fill greedily from k on, as long as it can still beat the best
        while k < n and left >= shortest[k]:
            if value + left * values[k] // lengths[k] <= best_value:
                break
            number = min(quantities[k], left // lengths[k])
            counts[k] = number
            left -= number * lengths[k]
            value += number * values[k]
            k += 1
            steps += 1
        if value > best_value:
            best_value = value
            best[:] = counts
        if steps > most_steps:
            return best_value, best, steps
        # step back to the last stick taken and take one less of it
        k -= 1
        while k >= 0 and counts[k] == 0:
            k -= 1
        if k < 0:
            return best_value, best, steps
        counts[k] -= 1
        left += lengths[k]
        value -= values[k]
        k += 1
        steps += 1


@compiled
def by_table(room: int, lengths: Whole, values: Whole, quantities: Whole) -> tuple[int, Whole]:
    """Find the same by a table over every whole length; for sticks in any order."""
    n = lengths.size
    best = np.zeros(room + 1, dtype=np.int64)
    # bundles of one, two, four ... sticks and the rest: any number up to all is some of the bundles
    kinds = np.zeros(64 * n, dtype=np.int64)
    numbers = np.zeros(64 * n, dtype=np.int64)
    bundles = 0
    for k in range(n):
        left, number = min(quantities[k], room // lengths[k]), 1
        while left > 0:
            number = min(number, left)
            kinds[bundles], numbers[bundles] = k, number
            bundles += 1
            left -= number
            number *= 2
    taken = np.zeros((bundles, room + 1), dtype=np.bool_)
    for bundle in range(bundles):
        size = lengths[kinds[bundle]] * numbers[bundle]
        worth = values[kinds[bundle]] * numbers[bundle]
        row = taken[bundle]
        for at in range(room, size - 1, -1):
            offer = best[at - size] + worth
            if offer > best[at]:
                best[at] = offer
                row[at] = True
    counts = np.zeros(n, dtype=np.int64)
    at = room
    for bundle in range(bundles - 1, -1, -1):
        if taken[bundle, at]:
            counts[kinds[bundle]] += numbers[bundle]
            at -= lengths[kinds[bundle]] * numbers[bundle]
    return best[room], counts


@compiled
def dear_enough(
    room: int, lengths: Whole, values: Whole, quantities: Whole, least: int, most_found: int, most_steps: int
) -> tuple[Whole, int]:
    """List the fillings worth no less than the least that cannot take one wanted stick more, a row each.

    Sticks must come in falling order of value for their length. Gives the rows and how many steps were made; where there
    are more rows than are allowed, or steps, only a row of less than nothing.
    """
    n = lengths.size
    result = np.zeros((most_found, n), dtype=np.int64)
    none = np.full((1, n), -1, dtype=np.int64)
    counts = np.zeros(n, dtype=np.int64)
    number, value, left, k, steps = 0, 0, room, 0, 0
    while True:
        # what more the sticks from k on could be worth, the last of them in part
        steps += 1
        most, room_left, next_one = value, left, k
        while next_one < n and room_left > 0 and most < least:
            steps += 1
            fits = min(quantities[next_one], room_left // lengths[next_one])
            most += fits * values[next_one]
            room_left -= fits * lengths[next_one]
            if fits < quantities[next_one]:
                most += room_left * values[next_one] // lengths[next_one] + 1
                break
            next_one += 1
        if steps > most_steps:
            return none, steps
        if most >= least and k < n:
            counts[k] = min(quantities[k], left // lengths[k])
            left -= counts[k] * lengths[k]
            value += counts[k] * values[k]
            k += 1
            continue
        if value >= least and k == n:
            full = True
            for other in range(n):
                full = full and (counts[other] == quantities[other] or lengths[other] > left)
            if full:
                if number == most_found:
                    return none, steps
                result[number] = counts
                number += 1
        # step back to the last stick taken and take one less of it
        k -= 1
        while k >= 0 and counts[k] == 0:
            k -= 1
        if k < 0:
            return result[:number], steps
        counts[k] -= 1
        left += lengths[k]
        value -= values[k]
        k += 1
