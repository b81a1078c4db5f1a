"""Which edges of a part are seen, from how it stands: the one place that knows, for every kind.

Seen edges are arrised, filled and finished, and ordered and priced so. Names are those of the part where it stands: of an
upright board left and right are its long edges, top and bottom its ends; of one that lies, top and bottom are long, left and
right its ends; the front looks into the room.

A back edge, and what stands against wall, packer, floor or another part, is hidden. Edges that are only seen from within,
behind the leaves, are left as they are sawn (house assumption).
"""

from __future__ import annotations

from collections.abc import Collection

from rodbook.setout.model import ALL_EDGES, FRONT_EDGE, Edge, PartKind

__all__ = ["SEEN", "seen_edges"]

SEEN: dict[PartKind, tuple[Edge, ...]] = {
    # In the front's face, with a gap round each: every edge is looked at through it, or open to the room.
    PartKind.DOOR: ALL_EDGES,
    PartKind.DRAWER_FRONT: ALL_EDGES,
    PartKind.FLAP: ALL_EDGES,
    PartKind.APRON: ALL_EDGES,
    PartKind.PANEL: ALL_EDGES,
    PartKind.STRIP: ALL_EDGES,
    # Behind or beside the leaves: their front edge shows in the gap, and all of it once a leaf is open.
    PartKind.LINING_LEG: FRONT_EDGE,
    PartKind.LINING_HEAD: FRONT_EDGE,
    PartKind.LINING_SILL: FRONT_EDGE,
    PartKind.HINGE_LINING: FRONT_EDGE,
    PartKind.DIVISION: FRONT_EDGE,
    PartKind.RAIL: FRONT_EDGE,
    # Its foot is on the floor and its ends are between uprights; its top lies open under the leaves.
    PartKind.PLINTH: ("top",),
    # Its foot is on the floor, its back is scribed to the wall.
    PartKind.END_PANEL: ("front", "top"),
    # Proud of the wall by their thickness: outer and inner edge; ends are mitred, on the floor or under a head.
    PartKind.TRIM_LEG: ("left", "right"),
    PartKind.TRIM_HEAD: ("top", "bottom"),
}
"""By kind; ends of trim that stand free come on top."""


def seen_edges(kind: PartKind, *, free_ends: Collection[Edge] = ()) -> tuple[Edge, ...]:
    """Edges of a part that are seen.

    Parameters
    ----------
    kind : PartKind
    free_ends : collection of str
        Ends that stand against nothing, such as those of a trim's head that is butted over its legs.

    Examples
    --------
    >>> seen_edges(PartKind.TRIM_LEG), seen_edges(PartKind.TRIM_HEAD, free_ends=("left", "right"))
    (('left', 'right'), ('top', 'bottom', 'left', 'right'))
    """
    return (
        *SEEN[kind],
        *(edge for edge in ("left", "right", "top", "bottom") if edge in free_ends and edge not in SEEN[kind]),
    )
