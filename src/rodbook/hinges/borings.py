"""The holes that a cup hinge wants, in the leaf and in the part that carries it, from one datum.

Positions are seen from the bored face: x from that view's left edge to the right, y from the datum line downwards.
The datum of a leaf is its top edge; heights on the carrying part are the same heights moved by the gap or the lap
between the leaf's top and the head's underside, and by how far that part's own end stands above the underside.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.job.book import HingeType
from rodbook.job.units import THROUGH, Depth
from rodbook.working import Measure

__all__ = ["Boring", "cup_borings", "head_cup_borings", "plate_borings"]

CUP_EDGE = "cup's edge to leaf's edge"
CUP_RADIUS = "cup radius"


@dataclass(frozen=True)
class Boring:
    """A hole in a face.

    Parameters
    ----------
    kind : str
        "cup", "pilot" or "plate"; "handle", "catch", "fixing" or "stay" for other fittings.
    x, y : Measure
        Centre, seen from the bored face: from its left edge, and down from its top end. [mm]
    diameter : float
        [mm]
    depth : float or "through"
        From the bored face; or right through the part. [mm]
    in_from : Measure, optional
        The same centre from the edge that it is set from: the hinge edge, or the one that faces the room. [mm]
    """

    kind: Literal["cup", "pilot", "plate", "handle", "catch", "fixing", "stay"]
    x: Measure
    y: Measure
    diameter: float
    depth: Depth
    in_from: Measure | None = None

    @property
    def through(self) -> bool:
        """Whether it goes right through the part."""
        return self.depth == THROUGH

    def depth_in(self, thickness_mm: float) -> float:
        """How much of a part of that thickness it takes away. [mm]"""
        return thickness_mm if isinstance(self.depth, str) else self.depth


def _across(from_edge: Measure, width: Measure, *, edge: Literal["left", "right"]) -> Measure:
    """A distance from an edge, measured from the left edge."""
    if edge == "left":
        return from_edge.named("from left edge")
    return (width - from_edge).named("from left edge")


def cup_borings(
    hinge: HingeType, heights: Sequence[Measure], leaf_width: Measure, *, edge: Literal["left", "right"]
) -> tuple[Boring, ...]:
    """Cups and their screw pilots in a leaf.

    Parameters
    ----------
    hinge : HingeType
        Where the hinge wants its holes.
    heights : sequence of Measure
        Hinge centres from the leaf's top. [mm]
    leaf_width : Measure
        [mm]
    edge : str
        The edge that carries the hinges, **seen from the bored face**: a leaf hung on the left has it on the right.

    Returns
    -------
    tuple of Boring
        Cups first at each height, then the pilots above and below.

    Notes
    -----
    Cup centre to leaf edge = cup's edge to leaf's edge + half the cup's diameter (common practice).
    """
    from_edge = Measure(hinge.cup_edge, CUP_EDGE, source=f"book: {hinge.source}") + Measure(
        hinge.cup_diameter / 2, CUP_RADIUS, source=f"book: {hinge.source}"
    )
    cup_in = from_edge.named("cup centre from hinge edge")
    cup_x = _across(cup_in, leaf_width, edge=edge)
    bores: list[Boring] = []
    for height in heights:
        bores.append(Boring("cup", cup_x, height, hinge.cup_diameter, hinge.cup_depth, cup_in))
        if hinge.pilot_spacing:
            set_in = Measure(hinge.pilot_set_in, "pilot set in", source=f"book: {hinge.source}")
            pilot_in = (from_edge + set_in).named("pilot from hinge edge")
            pilot_x = _across(pilot_in, leaf_width, edge=edge)
            half = Measure(hinge.pilot_spacing, "pilot spacing", source=f"book: {hinge.source}") / 2
            bores += [
                Boring(
                    "pilot",
                    pilot_x,
                    y.named("pilot from the leaf's top"),
                    hinge.pilot_diameter,
                    hinge.pilot_depth,
                    pilot_in,
                )
                for y in (height - half, height + half)
            ]
    return tuple(bores)


def head_cup_borings(hinge: HingeType, stations: Sequence[Measure]) -> tuple[Boring, ...]:
    """Cups and their screw pilots along the top edge of a flap.

    Parameters
    ----------
    hinge : HingeType
        Where the hinge wants its holes.
    stations : sequence of Measure
        Hinge centres from the flap's left edge, seen from its back. [mm]

    Returns
    -------
    tuple of Boring
        As in a leaf, a quarter turned: the cup, then the pilots to its left and right, set in from the top edge.
    """
    source = f"book: {hinge.source}"
    from_edge = Measure(hinge.cup_edge, CUP_EDGE, source=source) + Measure(
        hinge.cup_diameter / 2, CUP_RADIUS, source=source
    )
    cup_in = from_edge.named("cup centre from the flap's top")
    bores: list[Boring] = []
    for station in stations:
        bores.append(Boring("cup", station, cup_in, hinge.cup_diameter, hinge.cup_depth, cup_in))
        if hinge.pilot_spacing:
            set_in = Measure(hinge.pilot_set_in, "pilot set in", source=source)
            pilot_in = (from_edge + set_in).named("pilot from the flap's top")
            half = Measure(hinge.pilot_spacing, "pilot spacing", source=source) / 2
            bores += [
                Boring(
                    "pilot",
                    x.named("pilot from left edge"),
                    pilot_in,
                    hinge.pilot_diameter,
                    hinge.pilot_depth,
                    pilot_in,
                )
                for x in (station - half, station + half)
            ]
    return tuple(bores)


def plate_borings(
    hinge: HingeType,
    heights: Sequence[Measure],
    part_width: Measure,
    *,
    front: Literal["left", "right"],
    further_back: Measure | None = None,
) -> tuple[Boring, ...]:
    """Plate holes in the part that a leaf hangs on.

    Parameters
    ----------
    hinge : HingeType
        Where the hinge wants its holes.
    heights : sequence of Measure
        Hinge centres from that part's own top end. [mm]
    part_width : Measure
        Front to back. [mm]
    front : str
        The edge that faces the room, seen from the bored face.
    further_back : Measure, optional
        Added to the plate's set-back, where the leaf stands inside the part: the leaf's thickness. [mm]

    Returns
    -------
    tuple of Boring
        Two for each hinge.
    """
    set_back = Measure(hinge.plate_set_back, "plate set-back", source=f"book: {hinge.source}")
    from_front = set_back if further_back is None else set_back + further_back
    plate_in = from_front.named("plate holes from front edge")
    x = _across(plate_in, part_width, edge=front)
    half = Measure(hinge.plate_spacing, "plate hole spacing", source=f"book: {hinge.source}") / 2
    return tuple(
        Boring(
            "plate", x, y.named("plate hole from the part's top end"), hinge.plate_diameter, hinge.plate_depth, plate_in
        )
        for height in heights
        for y in (height - half, height + half)
    )
