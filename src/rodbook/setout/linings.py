"""Linings: the clear size inside them, and their legs, head and sill."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from rodbook.hinges import Boring
from rodbook.job.book import AnyBuildUp, Board
from rodbook.job.kinds import PartKind
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import NO_JOINTS, Joint, Part, Placed
from rodbook.working import Measure

__all__ = ["Clear", "clear_inside", "leg_rise", "lining_parts", "outer_around"]


@dataclass(frozen=True)
class Clear:
    """Clear size inside the linings. [mm]"""

    width: Measure
    height: Measure


def clear_inside(outer_width: Measure, outer_height: Measure, *, thickness: Measure, sill: bool) -> Clear:
    """Clear size inside linings of this outer size.

    Parameters
    ----------
    outer_width, outer_height, thickness : Measure
        Of the lining. [mm]
    sill : bool
        Whether there is a sill.

    Examples
    --------
    >>> clear = clear_inside(Measure(878, "lining width"), Measure(2024, "lining height"),
    ...     thickness=Measure(18, "lining thickness"), sill=False)
    >>> print(clear.width.working())
    clear width = lining width 878.0 − 2 × lining thickness 18.0 = 842.0
    """
    height = outer_height - 2 * thickness if sill else outer_height - thickness
    return Clear((outer_width - 2 * thickness).named("clear width"), height.named("clear height"))


def outer_around(clear: Clear, *, thickness: Measure, sill: bool) -> tuple[Measure, Measure]:
    """Outer size of linings around a clear size: `clear_inside` the other way round. [mm]"""
    height = clear.height + 2 * thickness if sill else clear.height + thickness
    return (clear.width + 2 * thickness).named("lining width"), height.named("lining height")


def leg_rise(build_up: AnyBuildUp, thickness: Measure) -> Measure | None:
    """How far a leg's top end stands above the head's underside; none where the head lies over the legs. [mm]"""
    if build_up.head_joint == "over":
        return None
    return thickness.named("leg's top above the head's underside")


def lining_parts(
    build_up: AnyBuildUp,
    board: Board,
    clear: Clear,
    *,
    thickness: Measure,
    sill: bool,
    leg_borings: Mapping[Literal["left", "right"], tuple[Boring, ...]],
) -> tuple[Placed, ...]:
    """Legs, head and, where asked, sill.

    Parameters
    ----------
    build_up : AnyBuildUp
        Joint at the head, depth and finish.
    board : Board
        Of the linings.
    clear : Clear
        [mm]
    thickness : Measure
        Of the lining. [mm]
    sill : bool
        Whether there is one; it stands between the legs, housed where the head is.
    leg_borings : dict
        Plate holes by side; a side without holes is left out or empty.
    """
    depth = Measure(build_up.lining_depth, "lining depth", source="book")
    leg = clear.height
    if build_up.head_joint != "over":
        leg = leg + thickness
    if sill:
        leg = leg + thickness
    leg = leg.named("leg length")
    if build_up.head_joint == "over":
        head = clear.width + 2 * thickness
    elif build_up.head_joint == "housed":
        head = clear.width + 2 * Measure(build_up.housing, "housing", source="book")
    else:
        head = clear.width
    head = head.named("head length")

    def part(kind: PartKind, length: Measure, **more: object) -> Part:
        return Part(
            kind,
            board.name,
            sectional=False,
            length=length,
            width=depth,
            thickness=thickness,
            grain=board.grain,
            edges=seen_edges(kind),
            finish=build_up.finish,
            coats=build_up.coats,
            **more,  # type: ignore[arg-type]
        )

    ends, joints = "", NO_JOINTS
    sizes: tuple[float, ...] = ()
    if build_up.head_joint == "housed":
        joints, sizes = (Joint.HOUSED,), (build_up.housing,) * (2 if sill else 1)
        ends = f"housed {build_up.housing:g} mm for the head" + (" and the sill" if sill else "")
    if any(leg_borings.values()):
        legs = [
            Placed(
                part(
                    PartKind.LINING_LEG,
                    leg,
                    borings=bores,
                    bored_face="inner" if bores else "",
                    hand=side,
                    ends=ends,
                    joints=joints,
                    joint_sizes=sizes,
                ),
                1,
            )
            for side, bores in leg_borings.items()
        ]
    else:
        handed = "left" if ends else ""
        legs = (
            [
                Placed(part(PartKind.LINING_LEG, leg, hand=h, ends=ends, joints=joints, joint_sizes=sizes), 1)
                for h in ("left", "right")
            ]
            if handed
            else [Placed(part(PartKind.LINING_LEG, leg), 2)]
        )
    placed = [*legs, Placed(part(PartKind.LINING_HEAD, head), 1)]
    if sill:
        if build_up.head_joint == "housed":
            across = (clear.width + 2 * Measure(build_up.housing, "housing", source="book")).named("sill length")
        else:
            across = clear.width.named("sill length")
        placed.append(Placed(part(PartKind.LINING_SILL, across), 1))
    return tuple(placed)
