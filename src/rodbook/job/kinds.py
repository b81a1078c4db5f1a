"""The kinds of part there are, and all that is known of a kind: the only place that lists them.

A new kind wants a line in `PartKind`, a line in `FACTS`, and the set-out that makes it; whoever asks something of a part's
kind asks for its facts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

__all__ = [
    "ALL_EDGES",
    "FACTS",
    "FRONT_EDGE",
    "NO_EDGES",
    "Edge",
    "Edging",
    "Group",
    "KindFacts",
    "PartKind",
    "Stands",
    "kinds_that",
]

Edge = Literal["top", "bottom", "left", "right", "front"]
"""Of a part where it stands. Of one that stands, left and right are its long edges, top and bottom its ends; of one that
lies, top and bottom are long, left and right its ends; the front looks into the room."""

ALL_EDGES: tuple[Edge, ...] = ("top", "bottom", "left", "right")
FRONT_EDGE: tuple[Edge, ...] = ("front",)
NO_EDGES: tuple[Edge, ...] = ()


class Group(StrEnum):
    """Kinds of part that are made and fitted together."""

    LININGS = "linings"
    LEAVES = "leaves"
    TRIMS = "trims"
    PANELS = "panels"


class Edging(StrEnum):
    """Whose edging of a build-up a part's seen edges get."""

    LEAF = "leaf"
    LINING = "lining"


class Stands(StrEnum):
    """Where a part stands in the depth of a front."""

    FACE = "in the front's face"
    OVER_FACE = "on the front's face"
    BEHIND = "behind the front's face"
    FLUSH = "flush with the lining's front edge"
    AHEAD = "ahead of the lining's front edge"
    SET_BACK = "set back behind the lining's front edge"
    BESIDE = "beside the lining, flush with the front's face"
    APART = "in no front"


@dataclass(frozen=True)
class KindFacts:
    """What is known of a kind of part.

    Parameters
    ----------
    mark : str
        What a part is called in its mark: one word each, no two that sound alike, none that a spreadsheet takes for a month
        (3-mar).
    seen : tuple of str
        Edges that are seen; free ends come on top. A back edge, and what stands against wall, packer, floor or another part,
        is hidden; edges that are only seen from within, behind the leaves, are left as they are sawn (house assumption).
    stands : Stands
    group : Group, optional
        None for what goes with the others as it comes.
    edging : Edging, optional
        None for what is bought as it is, and for a panel.
    lies : bool
        Whether its length runs level where it stands.
    at_side : bool
        Whether it stands at the left or at the right side of a front.
    carries : str
        Where it stands from what hangs on it: "beside", "above", or nowhere.
    opens : bool
        Whether it is what is opened: a leaf, or what is there without leaves.
    alike : bool
        Whether it is alike from both sides: its holes are set from the left edge of what is drawn.
    gridded : bool
        Whether its holes stand in rows and columns.
    drawn_lying : bool
        Whether it is drawn lying, top end to the left, though its length stands upright.
    behind_plinth : bool
        Whether a plinth stands in front of it, at the least where it is cut out for it.
    gives_way : bool
        Whether it reaches the floor where a plinth stands, so that one of the two gives way.
    on_floor : bool
        Whether it carries weight to the floor.
    runs_on : bool
        Whether one piece of it may run on over several openings.
    """

    mark: str
    seen: tuple[Edge, ...]
    stands: Stands
    group: Group | None = None
    edging: Edging | None = None
    lies: bool = False
    at_side: bool = False
    carries: Literal["", "beside", "above"] = ""
    opens: bool = False
    alike: bool = False
    gridded: bool = False
    drawn_lying: bool = False
    behind_plinth: bool = False
    gives_way: bool = False
    on_floor: bool = False
    runs_on: bool = False


class PartKind(StrEnum):
    """The kinds of part, in the order in which they are listed."""

    DOOR = "door"
    LINING_LEG = "lining leg"
    LINING_HEAD = "lining head"
    LINING_SILL = "lining sill"
    HINGE_LINING = "hinge lining"
    DIVISION = "division"
    TRIM_LEG = "trim leg"
    TRIM_HEAD = "trim head"
    PANEL = "panel"
    STRIP = "cover strip"
    PLINTH = "plinth"
    DRAWER_FRONT = "drawer front"
    FLAP = "flap"
    APRON = "apron"
    RAIL = "rail"
    END_PANEL = "end panel"

    @property
    def facts(self) -> KindFacts:
        """What is known of it."""
        return FACTS[self]


FACTS: dict[PartKind, KindFacts] = {
    # In the front's face, with a gap round each: every edge is looked at through it, or open to the room.
    PartKind.DOOR: KindFacts("door", ALL_EDGES, Stands.FACE, Group.LEAVES, Edging.LEAF, opens=True),
    PartKind.DRAWER_FRONT: KindFacts(
        "drawer", ALL_EDGES, Stands.FACE, Group.LEAVES, Edging.LEAF, opens=True, alike=True, gridded=True
    ),
    PartKind.FLAP: KindFacts(
        "flap", ALL_EDGES, Stands.FACE, Group.LEAVES, Edging.LEAF, opens=True, alike=True, gridded=True
    ),
    PartKind.APRON: KindFacts("apron", ALL_EDGES, Stands.FACE, Group.LEAVES, Edging.LEAF, alike=True, gridded=True),
    PartKind.STRIP: KindFacts("strip", ALL_EDGES, Stands.OVER_FACE),
    PartKind.PANEL: KindFacts("panel", ALL_EDGES, Stands.APART, Group.PANELS),
    # Behind or beside the leaves: their front edge shows in the gap, and all of it once a leaf is open.
    PartKind.LINING_LEG: KindFacts(
        "leg",
        FRONT_EDGE,
        Stands.FLUSH,
        Group.LININGS,
        Edging.LINING,
        at_side=True,
        carries="beside",
        drawn_lying=True,
        behind_plinth=True,
        on_floor=True,
    ),
    PartKind.LINING_HEAD: KindFacts(
        "head", FRONT_EDGE, Stands.FLUSH, Group.LININGS, Edging.LINING, lies=True, carries="above", behind_plinth=True
    ),
    PartKind.LINING_SILL: KindFacts("sill", FRONT_EDGE, Stands.FLUSH, Group.LININGS, Edging.LINING, lies=True),
    PartKind.HINGE_LINING: KindFacts(
        "sub",
        FRONT_EDGE,
        Stands.BEHIND,
        Group.LININGS,
        Edging.LINING,
        at_side=True,
        carries="beside",
        drawn_lying=True,
        behind_plinth=True,
        gives_way=True,
    ),
    PartKind.DIVISION: KindFacts(
        "div",
        FRONT_EDGE,
        Stands.BEHIND,
        Group.LININGS,
        Edging.LINING,
        carries="beside",
        drawn_lying=True,
        behind_plinth=True,
        gives_way=True,
        on_floor=True,
    ),
    PartKind.RAIL: KindFacts(
        "rail", FRONT_EDGE, Stands.BEHIND, Group.LININGS, Edging.LINING, lies=True, carries="above", behind_plinth=True
    ),
    # Its foot is on the floor and its ends are between uprights; its top lies open under the leaves.
    PartKind.PLINTH: KindFacts("plinth", ("top",), Stands.SET_BACK, edging=Edging.LINING, lies=True, runs_on=True),
    # Its foot is on the floor, its back is scribed to the wall.
    PartKind.END_PANEL: KindFacts(
        "end", ("front", "top"), Stands.BESIDE, Group.LININGS, Edging.LEAF, at_side=True, gridded=True
    ),
    # Proud of the wall by their thickness: outer and inner edge; ends are mitred, on the floor or under a head.
    PartKind.TRIM_LEG: KindFacts("trim", ("left", "right"), Stands.AHEAD, Group.TRIMS, at_side=True, drawn_lying=True),
    PartKind.TRIM_HEAD: KindFacts("cross", ("top", "bottom"), Stands.AHEAD, Group.TRIMS, lies=True, runs_on=True),
}


def kinds_that(holds: Callable[[KindFacts], object]) -> tuple[PartKind, ...]:
    """The kinds of whose facts something holds, in the order in which kinds are listed.

    Examples
    --------
    >>> [str(kind) for kind in kinds_that(lambda facts: facts.opens)]
    ['door', 'drawer front', 'flap']
    """
    return tuple(kind for kind in PartKind if holds(FACTS[kind]))
