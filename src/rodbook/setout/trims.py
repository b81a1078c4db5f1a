"""Trims: the frame of sectional boards on the wall's face around a front."""

from __future__ import annotations

import math
from typing import Literal

from rodbook.job.book import AnyBuildUp, Section
from rodbook.job.kinds import Edge, PartKind
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import MITRED, Joint, Part, Placed
from rodbook.working import Measure

__all__ = ["trim_cover", "trim_parts", "trim_wanted"]


_SIDES: tuple[Literal["left", "right"], ...] = ("left", "right")


def trim_parts(
    build_up: AnyBuildUp,
    section: Section,
    sight_width: Measure,
    sight_height: Measure,
    *,
    all_round: bool,
) -> tuple[Placed, ...]:
    """Trim legs and head; a second head at the foot where the trim goes all round.

    Parameters
    ----------
    build_up : AnyBuildUp
        Joint at the corners and finish.
    section : Section
        Of the trim.
    sight_width, sight_height : Measure
        Inside the trim, between its inner edges; down to the floor where it does not go all round. [mm]
    all_round : bool
        Whether there is a trim at the foot too.

    Returns
    -------
    tuple of Placed
        Mitred lengths are to the long points. Butted heads lie over the legs.
    """
    width = Measure(section.width, "trim width", source="book")
    thickness = Measure(section.thickness, "trim thickness", source="book")
    mitred = build_up.trim_joint == "mitred"
    leg = sight_height
    if mitred:
        leg = sight_height + 2 * width if all_round else sight_height + width
    head = sight_width + 2 * width

    def part(
        kind: PartKind, length: Measure, ends: str, joints: tuple[Joint, ...], hand: Literal["", "left", "right"] = ""
    ) -> Part:
        free: tuple[Edge, ...] = ("left", "right") if kind is PartKind.TRIM_HEAD and not mitred else ()
        return Part(
            kind,
            section.name,
            sectional=True,
            length=length,
            width=width,
            thickness=thickness,
            ends=ends,
            joints=joints if mitred else (),
            hand=hand,
            finish=build_up.finish,
            coats=build_up.coats,
            edges=seen_edges(kind, free_ends=free),
            planed=section.planed,
        )

    leg, head = leg.named("trim leg length"), head.named("trim head length")
    heads = Placed(
        part(PartKind.TRIM_HEAD, head, "45° mitre at both ends, length to the long points" if mitred else "", MITRED),
        2 if all_round else 1,
    )
    if mitred and not all_round:
        ends = "45° mitre at the head, square at the floor, length to the long point"
        return (*(Placed(part(PartKind.TRIM_LEG, leg, ends, MITRED[:1], hand), 1) for hand in _SIDES), heads)
    ends = "45° mitre at both ends, length to the long points" if mitred else ""
    return (Placed(part(PartKind.TRIM_LEG, leg, ends, MITRED), 2), heads)


def trim_cover(trim_width_mm: float, bearing_mm: float, packer_mm: float) -> float:
    """How far a trim reaches past the packer onto the wall; negative where a gap is left to be seen. [mm]

    Parameters
    ----------
    trim_width_mm : float
        Face width. [mm]
    bearing_mm : float
        How much of it lies on the lining's edge. [mm]
    packer_mm : float
        Packing behind it, at its widest. [mm]

    Examples
    --------
    >>> trim_cover(58, 12, 16)
    30
    """
    return trim_width_mm - bearing_mm - packer_mm


def trim_wanted(bearing_mm: float, packer_mm: float, cover_mm: float) -> float:
    """Least face width in whole millimetres of a trim that covers a packer. [mm]

    Parameters
    ----------
    bearing_mm : float
        How much of it lies on the lining's edge. [mm]
    packer_mm : float
        Packing behind it, at its widest. [mm]
    cover_mm : float
        How far it is to reach onto the wall. [mm]

    Examples
    --------
    >>> trim_wanted(12, 16.2, 5)
    34
    """
    return math.ceil(bearing_mm + packer_mm + cover_mm - 1e-9)
