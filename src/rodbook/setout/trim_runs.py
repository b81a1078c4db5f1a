"""Trim that runs on over several openings in one line: its head in one length, or in pieces that meet over piers.

Seen from the room, three openings of which the first two share a piece::

     ______________________________/______________     / a scarf over the middle of a pier
    | |‾‾‾‾‾‾‾| |  pier  | |‾‾‾‾‾| |  pier  | |‾‾|
    | | sight | |        | |sight| |        | |

Legs in between stand square under the head; at the two ends the corners are as the build-up says. A joint lies over the middle
of a pier, never over a sight: there it would stand above a leaf's gap, and nothing behind it holds it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp, Section
from rodbook.setout.cuts import Cut, Side, cut_words
from rodbook.setout.model import Part, PartKind, Placed, SetOut
from rodbook.working import Measure

__all__ = ["Bay", "TrimRun", "between_sights", "fewest", "length_over", "run_on", "stretches_of", "with_run"]

SCARF_DEGREES = 45.0
"""A joint in a length of trim is cut through its thickness at this angle (common practice): it opens less as wood shrinks."""


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
class TrimRun:
    """How a head of trim runs on.

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


def run_on(build_up: AnyBuildUp, section: Section, bays: Sequence[Bay], between: Sequence[Measure]) -> TrimRun:
    """Run a head of trim on over several openings, in as few pieces as the lengths that are sold allow.

    Of as few the longest is as short as can be, so that no end is left with a scrap.

    Parameters
    ----------
    build_up : AnyBuildUp
        Its corners and finish.
    section : Section
    bays : sequence of Bay
        From the left, two at the least.
    between : sequence of Measure
        From lining to lining, outside, one fewer than there are bays. [mm]

    Raises
    ------
    Infeasible
        If two legs do not go between two sights, or a piece over one opening alone is longer than any that is sold.
    """
    width = Measure(section.width, "trim width", source="book")
    gaps = [between_sights(a, b, wall) for a, b, wall in zip(bays[:-1], bays[1:], between, strict=True)]
    narrow = [
        f"between {a.mark} and {b.mark} there are {gap.value:.1f} mm for two legs of {section.width:g} mm"
        for a, b, gap in zip(bays[:-1], bays[1:], gaps, strict=True)
        if gap.value < 2 * width.value - 1e-9
    ]
    if narrow:
        raise Infeasible("; ".join(narrow))
    stretches = stretches_of(width, bays, gaps)
    scarf = section.thickness * math.tan(math.radians(SCARF_DEGREES)) / 2
    longest = max(size.length for size in section.lengths)
    ends = fewest(stretches, longest, scarf, bays)
    pieces: list[tuple[int, Part]] = []
    joints: list[tuple[int, float]] = []
    first = 0
    for end in ends:
        length = length_over(width, bays, gaps, first, end)
        meets = [side for side, inside in (("left", first > 0), ("right", end < len(bays))) if inside]
        if meets:
            half = Measure(scarf, "half a scarf", source=f"{SCARF_DEGREES:g}° through the thickness")
            length = length + (len(meets) * half if len(meets) > 1 else half)
        length = length.named("trim head length").rounded_down(build_up.step)
        pieces.append((first, _piece(build_up, section, length, meets)))
        if end < len(bays):
            joints.append((end - 1, sum(stretches[:end])))
        first = end
    total = length_over(width, bays, gaps, 0, len(bays)).named("trim head over the run")
    return TrimRun(tuple(pieces), tuple(joints), total)


def between_sights(a: Bay, b: Bay, wall: Measure) -> Measure:
    """From the sight of one bay to that of the next. [mm]"""
    edges = ((a.outer - a.sight) / 2).named(f"{a.mark}'s edge to its sight")
    other = ((b.outer - b.sight) / 2).named(f"{b.mark}'s edge to its sight")
    return (edges + wall + other).named(f"between the sights of {a.mark} and {b.mark}")


def stretches_of(width: Measure, bays: Sequence[Bay], gaps: Sequence[Measure]) -> list[float]:
    """What each bay has of the whole: its sight, half of the wall on either side, and the trim's width at the ends. [mm]"""
    edges = [width.value, *(gap.value / 2 for gap in gaps), width.value]
    return [left + bay.sight.value + right for left, bay, right in zip(edges[:-1], bays, edges[1:], strict=True)]


def length_over(width: Measure | None, bays: Sequence[Bay], gaps: Sequence[Measure], first: int, end: int) -> Measure:
    """From the middle of the pier before bay `first`, or the left end, to that after bay `end - 1`, or the right end. [mm]"""
    length = bays[first].sight
    if first > 0:
        length = gaps[first - 1] / 2 + length
    elif width is not None:
        length = width + length
    for n in range(first + 1, end):
        length = length + gaps[n - 1] + bays[n].sight
    if end < len(bays):
        return length + gaps[end - 1] / 2
    return length if width is None else length + width


def fewest(stretches: Sequence[float], longest: float, scarf: float, bays: Sequence[Bay]) -> list[int]:
    """Where pieces end, as numbers of the bay after them: the fewest, and of those the ones with the shortest longest."""
    count = len(stretches)
    best: list[tuple[int, float, list[int]] | None] = [(0, 0.0, []), *([None] * count)]
    for end in range(1, count + 1):
        for first in range(end):
            begun = best[first]
            length = sum(stretches[first:end]) + scarf * ((first > 0) + (end < count))
            if begun is None or length > longest + 1e-9:
                continue
            candidate = (begun[0] + 1, max(begun[1], length), [*begun[2], end])
            known = best[end]
            if known is None or candidate[:2] < known[:2]:
                best[end] = candidate
    found = best[count]
    if found is None:
        worst = max(range(count), key=lambda n: stretches[n])
        raise Infeasible(
            f"over {bays[worst].mark} alone it would be {stretches[worst]:.1f} mm, and no length is longer than {longest:g} mm"
        )
    return found[2]


def _piece(build_up: AnyBuildUp, section: Section, length: Measure, meets: Sequence[str]) -> Part:
    cuts: list[Cut] = []
    sides: tuple[Literal["left", "right"], ...] = ("left", "right")
    for side in sides:
        if side in meets:
            face = "outer face" if side == "left" else "inner face"
            cuts.append(Cut(side, Measure(SCARF_DEGREES, "scarf", unit="°"), "thickness", face))
        elif build_up.trim_joint == "mitred":
            cuts.append(Cut(side, Measure(45.0, "mitre", unit="°"), "face", "outer edge"))
    words = cut_words(tuple(cuts))
    return Part(
        PartKind.TRIM_HEAD, section.name, sectional=True, length=length,
        width=Measure(section.width, "trim width", source="book"),
        thickness=Measure(section.thickness, "trim thickness", source="book"),
        ends=f"{words}, length to the long points" if words else "", cuts=tuple(cuts), finish=build_up.finish,
        coats=build_up.coats,
    )  # fmt: skip


def with_run(result: SetOut, pieces: Sequence[Part], *, runs: Sequence[Side]) -> SetOut:
    """A front whose trim runs on: the pieces that begin over it instead of its own head, and square legs on those sides.

    Parameters
    ----------
    result : SetOut
        As it was by itself; trim does not go all round it.
    pieces : sequence of Part
    runs : sequence of str
        Sides on which the trim runs on.
    """
    leg = result.dimension("trim sight height").named("trim leg length")
    parts: list[Placed] = []
    for placed in result.parts:
        part = placed.part
        if part.kind is PartKind.TRIM_HEAD:
            continue
        if part.kind is PartKind.TRIM_LEG and part.hand in runs:
            # A leg that is square at both ends is the same on either side.
            placed = Placed(replace(part, length=leg, ends="", cuts=(), hand=""), placed.quantity)
        parts.append(placed)
    parts += [Placed(part, 1) for part in pieces]
    return replace(result, parts=tuple(parts), trim_runs=tuple(runs))
