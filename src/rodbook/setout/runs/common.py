"""What trims and plinths have in common that run on: bays, and the fewest pieces, with joints over piers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rodbook.errors import Infeasible
from rodbook.setout.model import Part
from rodbook.working import Measure

__all__ = ["Bay", "LongRun", "between_sights", "in_pieces"]


@dataclass(frozen=True)
class Bay:
    """One opening of a run.

    Parameters
    ----------
    mark : str
    outer, sight : Measure
        Width of its lining outside, and of the sight inside its trim. [mm]
    """

    mark: str
    outer: Measure
    sight: Measure


@dataclass(frozen=True)
class LongRun:
    """How a trim or a plinth runs on.

    Parameters
    ----------
    pieces : tuple of (int, Part)
        Each with the number of the bay over which it begins, from the left.
    joints : tuple of (int, float)
        Each with the number of the bay to its left, and its place from the left end of the whole. [mm]
    total : Measure
        Over all of it. [mm]
    """

    pieces: tuple[tuple[int, Part], ...]
    joints: tuple[tuple[int, float], ...]
    total: Measure


def between_sights(a: Bay, b: Bay, wall: Measure) -> Measure:
    """From the sight of one bay to that of the next. [mm]"""
    edges = ((a.outer - a.sight) / 2).named(f"{a.mark}'s edge to its sight")
    other = ((b.outer - b.sight) / 2).named(f"{b.mark}'s edge to its sight")
    return (edges + wall + other).named(f"between the sights of {a.mark} and {b.mark}")


def in_pieces(
    edge: Measure | None,
    bays: Sequence[Bay],
    gaps: Sequence[Measure],
    *,
    longest: float,
    lap: Measure | None,
    called: str,
    make: Callable[[Measure, Sequence[str]], Part],
) -> LongRun:
    """Part what runs on into as few pieces as the lengths that there are allow.

    Of as few the longest is as short as can be, so that no end is left with a scrap.

    Parameters
    ----------
    edge : Measure, optional
        What lies beyond the first sight and the last one. [mm]
    bays : sequence of Bay
        From the left.
    gaps : sequence of Measure
        From sight to sight. [mm]
    longest : float
        Longest that can be had. [mm]
    lap : Measure, optional
        How much further a piece reaches at each joint. [mm]
    called : str
        Name of the whole length.
    make : callable
        Makes a part of a length, given the sides on which it meets another.

    Raises
    ------
    Infeasible
        If a piece over one opening alone is longer than that.
    """
    stretches = _stretches(edge, bays, gaps)
    pieces: list[tuple[int, Part]] = []
    joints: list[tuple[int, float]] = []
    first = 0
    for end in _fewest(stretches, longest, lap.value if lap is not None else 0.0, bays):
        length = _length_over(edge, bays, gaps, first, end)
        meets = [side for side, inside in (("left", first > 0), ("right", end < len(bays))) if inside]
        if lap is not None and meets:
            length = length + (len(meets) * lap if len(meets) > 1 else lap)
        pieces.append((first, make(length, meets)))
        if end < len(bays):
            joints.append((end - 1, sum(stretches[:end])))
        first = end
    return LongRun(tuple(pieces), tuple(joints), _length_over(edge, bays, gaps, 0, len(bays)).named(called))


def _stretches(edge: Measure | None, bays: Sequence[Bay], gaps: Sequence[Measure]) -> list[float]:
    """What each bay has of the whole: its sight, half of the wall on either side, and what lies beyond it at the ends. [mm]"""
    beyond = edge.value if edge is not None else 0.0
    edges = [beyond, *(gap.value / 2 for gap in gaps), beyond]
    return [left + bay.sight.value + right for left, bay, right in zip(edges[:-1], bays, edges[1:], strict=True)]


def _length_over(edge: Measure | None, bays: Sequence[Bay], gaps: Sequence[Measure], first: int, end: int) -> Measure:
    """From the middle of the pier before bay `first`, or the left end, to that after bay `end - 1`, or the right end. [mm]"""
    length = bays[first].sight
    if first > 0:
        length = gaps[first - 1] / 2 + length
    elif edge is not None:
        length = edge + length
    for n in range(first + 1, end):
        length = length + gaps[n - 1] + bays[n].sight
    if end < len(bays):
        return length + gaps[end - 1] / 2
    return length if edge is None else length + edge


def _fewest(stretches: Sequence[float], longest: float, lap: float, bays: Sequence[Bay]) -> list[int]:
    """Where pieces end, as numbers of the bay after them: the fewest, and of those the ones with the shortest longest."""
    count = len(stretches)
    best: list[tuple[int, float, list[int]] | None] = [(0, 0.0, []), *([None] * count)]
    for end in range(1, count + 1):
        for first in range(end):
            begun = best[first]
            length = sum(stretches[first:end]) + lap * ((first > 0) + (end < count))
            if begun is None or length > longest + 1e-9:
                continue
            candidate = (begun[0] + 1, max(begun[1], length), [*begun[2], end])
            known = best[end]
            if known is None or candidate[:2] < known[:2]:
                best[end] = candidate
    result = best[count]
    if result is None:
        worst = max(range(count), key=lambda n: stretches[n])
        raise Infeasible(
            "setout.no_length_long_enough", mark=bays[worst].mark, length_mm=stretches[worst], longest_mm=longest
        )
    return result[2]
