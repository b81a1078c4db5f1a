"""Trim that runs on over several openings in one line: its head in one length, or in pieces that meet over piers.

Seen from the room, three openings of which the first two share a piece::

     ______________________________/______________     / a scarf over the middle of a pier
    | |‾‾‾‾‾‾‾| |  pier  | |‾‾‾‾‾| |  pier  | |‾‾|
    | | sight | |        | |sight| |        | |

Legs in between stand square under the head; at the two ends the corners are as the build-up says. Where two of them do not go
over a pier, both are ripped to half of what there is. A joint lies over the middle of a pier, never over a sight: there it would
stand above a leaf's gap, and nothing behind it holds it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rodbook.errors import Infeasible, Message
from rodbook.job.book import AnyBuildUp, Section
from rodbook.job.kinds import PartKind
from rodbook.setout.cuts import Cut, Side, cut_words
from rodbook.setout.dimensions import DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import Element, Part, Placed, SetOut
from rodbook.setout.runs.common import Bay, LongRun, between_sights, in_pieces
from rodbook.working import Measure

__all__ = ["LEAST_LEG_MM", "TrimRun", "run_on", "with_run"]

LEAST_LEG_MM = 20.0
"""A leg of trim is not ripped narrower than this (house assumption): less splits where it is nailed."""

SCARF_DEGREES = 45.0
"""A joint in a length of trim is cut through its thickness at this angle (common practice): it opens less as wood shrinks."""


@dataclass(frozen=True)
class TrimRun(LongRun):
    """How a trim runs on.

    Parameters
    ----------
    legs : tuple of Measure
        Width of both legs over each pier, from the left: the section's, or half of what there is between the sights. [mm]
    """

    legs: tuple[Measure, ...]


def run_on(
    build_up: AnyBuildUp, section: Section, bays: Sequence[Bay], between: Sequence[Measure], *, end_trim: float
) -> TrimRun:
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
    end_trim : float
        Taken off both ends of a length as it is sold. [mm]

    Raises
    ------
    Infeasible
        If two legs do not go between two sights even when they are ripped, or a piece over one opening alone is longer than
        any that is sold.
    """
    width = Measure(section.width, "trim width", source="book")
    gaps = [between_sights(a, b, wall) for a, b, wall in zip(bays[:-1], bays[1:], between, strict=True)]
    narrow = [
        Message("setout.pier_too_narrow", left=a.mark, right=b.mark, there_mm=gap.value, least_mm=LEAST_LEG_MM)
        for a, b, gap in zip(bays[:-1], bays[1:], gaps, strict=True)
        if gap.value < 2 * min(LEAST_LEG_MM, section.width) - 1e-9
    ]
    if narrow:
        raise Infeasible("setout.piers_too_narrow", piers=narrow)
    legs = tuple(
        width
        if gap.value >= 2 * width.value - 1e-9
        else (gap / 2).named("trim leg ripped to half of what is between the sights").rounded_down(build_up.step)
        for gap in gaps
    )
    half = Measure(
        section.thickness * math.tan(math.radians(SCARF_DEGREES)) / 2,
        "half a scarf",
        source=f"{SCARF_DEGREES:g}° through the thickness",
    )
    longest = max(size.length for size in section.lengths) - 2 * end_trim
    run = in_pieces(
        width,
        bays,
        gaps,
        longest=longest,
        lap=half,
        called="trim head over the run",
        make=lambda length, meets: _piece(build_up, section, length, meets),
    )
    return TrimRun(run.pieces, run.joints, run.total, legs)


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
    free = [side for side in sides if side not in meets and build_up.trim_joint != "mitred"]
    return Part(
        PartKind.TRIM_HEAD,
        section.name,
        sectional=True,
        length=length.named("trim head length").rounded_down(build_up.step),
        width=Measure(section.width, "trim width", source="book"),
        thickness=Measure(section.thickness, "trim thickness", source="book"),
        ends=f"{words}, length to the long points" if words else "",
        cuts=tuple(cuts),
        finish=build_up.finish,
        coats=build_up.coats,
        edges=seen_edges(PartKind.TRIM_HEAD, free_ends=free),
        planed=section.planed,
    )


def with_run(result: SetOut, pieces: Sequence[Part], *, legs: Mapping[Side, Measure]) -> SetOut:
    """A front whose trim runs on: the pieces that begin over it instead of its own head, and square legs on those sides.

    Parameters
    ----------
    result : SetOut
        As it was by itself; trim does not go all round it.
    pieces : sequence of Part
    legs : dict of str to Measure
        Sides on which the trim runs on, and the width of the leg there. [mm]
    """
    length = result.dimension(DimensionName.SIGHT_HEIGHT).named("trim leg length")
    parts: list[Placed] = []
    for placed in result.parts:
        part = placed.part
        if part.kind is PartKind.TRIM_HEAD:
            continue
        if part.kind is not PartKind.TRIM_LEG:
            parts.append(placed)
            continue
        sides = (part.hand,) if part.hand else _SIDES[: placed.quantity]
        parts += [Placed(_square(part, length, legs[side]) if side in legs else part, 1) for side in sides]
    elements = tuple(_ripped(e, result, legs) if e.kind is PartKind.TRIM_LEG else e for e in result.elements)
    return replace(
        result,
        parts=(*_together(parts), *(Placed(part, 1) for part in pieces)),
        elements=elements,
        trim_runs=tuple(side for side in _SIDES if side in legs),
    )


_SIDES: tuple[Side, ...] = ("left", "right")


def _together(parts: Sequence[Placed]) -> list[Placed]:
    """The same part twice over is one line."""
    results: list[Placed] = []
    for placed in parts:
        if results and placed.part == results[-1].part:
            results[-1] = replace(placed, quantity=results[-1].quantity + placed.quantity)
        else:
            results.append(placed)
    return results


def _square(part: Part, length: Measure, width: Measure) -> Part:
    """A leg that is square at both ends, and so the same on either side; cut from the whole section where it is ripped."""
    part = replace(part, length=length, ends="", joints=(), cuts=(), hand="")
    if width.value >= part.width.value:
        return part
    words = f"ripped from {part.width.value:g} to {width.value:g} mm wide"
    # The sawn edge meets that of the next opening's leg; the other looks into its own.
    return replace(part, width=width, ends=words, cut=(length, part.width), edges=part.edges[:1])


def _ripped(leg: Element, result: SetOut, legs: Mapping[Side, Measure]) -> Element:
    """A leg of the elevation, as wide as it is made; its inner edge stays."""
    side: Side = "left" if leg.x < result.outer_width.value / 2 else "right"
    if side not in legs:
        return leg
    width = min(leg.width, legs[side].value)
    return replace(leg, width=width, x=leg.x + leg.width - width if side == "left" else leg.x)
