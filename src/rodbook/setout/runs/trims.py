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
from dataclasses import replace
from typing import Literal

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp, Section
from rodbook.setout.cuts import Cut, Side, cut_words
from rodbook.setout.model import Part, PartKind, Placed, SetOut
from rodbook.setout.runs.common import Bay, LongRun, between_sights, in_pieces
from rodbook.working import Measure

__all__ = ["run_on", "with_run"]

SCARF_DEGREES = 45.0
"""A joint in a length of trim is cut through its thickness at this angle (common practice): it opens less as wood shrinks."""


def run_on(build_up: AnyBuildUp, section: Section, bays: Sequence[Bay], between: Sequence[Measure]) -> LongRun:
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
    half = Measure(
        section.thickness * math.tan(math.radians(SCARF_DEGREES)) / 2, "half a scarf",
        source=f"{SCARF_DEGREES:g}° through the thickness",
    )  # fmt: skip
    return in_pieces(
        width, bays, gaps, longest=max(size.length for size in section.lengths), lap=half, called="trim head over the run",
        make=lambda length, meets: _piece(build_up, section, length, meets),
    )  # fmt: skip


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
        PartKind.TRIM_HEAD, section.name, sectional=True,
        length=length.named("trim head length").rounded_down(build_up.step),
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
