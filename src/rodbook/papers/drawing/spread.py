"""Labels moved apart along a line, each as little as it can be, so that none covers another."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["spread"]


def spread(
    wanted: Sequence[float],
    sizes: Sequence[float],
    *,
    gap: float = 0.0,
    low: float | None = None,
    high: float | None = None,
) -> list[float]:
    """Centres for labels along a line.

    Parameters
    ----------
    wanted : sequence of float
        Where each label's centre would like to be, in any order. [mm on paper]
    sizes : sequence of float
        How much room each takes along the line. [mm on paper]
    gap : float
        Least room between two labels. [mm on paper]
    low, high : float, optional
        Ends of the room there is; where it is too short for all labels they start at `low` and run past `high`.

    Returns
    -------
    list of float
        In the order in which they were given. The sum of the squares of the moves is the least that there is (before
        the ends are looked at).

    Notes
    -----
    With the room that the labels before it need taken off each wish, what is left only has to grow: pooling neighbours
    that would fall into each other gives the exact least-squares answer.

    Examples
    --------
    >>> spread([10.0, 10.0, 30.0], [4.0, 4.0, 4.0])
    [8.0, 12.0, 30.0]
    """
    order = sorted(range(len(wanted)), key=lambda n: wanted[n])
    shifts, at = [], 0.0
    for place, n in enumerate(order):
        if place:
            before = order[place - 1]
            at += (sizes[before] + sizes[n]) / 2 + gap
        shifts.append(at)
    pools: list[tuple[float, int]] = []
    for n, shift in zip(order, shifts, strict=True):
        total, count = wanted[n] - shift, 1
        while pools and pools[-1][0] / pools[-1][1] >= total / count:
            earlier, members = pools.pop()
            total, count = total + earlier, count + members
        pools.append((total, count))
    flat = [total / count for total, count in pools for _ in range(count)]
    if high is not None and order:
        ceiling = high - sizes[order[-1]] / 2 - shifts[-1]
        flat = [min(value, ceiling) for value in flat]
    if low is not None and order:
        floor = low + sizes[order[0]] / 2
        flat = [max(value, floor) for value in flat]
    result = [0.0] * len(wanted)
    for n, value, shift in zip(order, flat, shifts, strict=True):
        result[n] = value + shift
    return result
