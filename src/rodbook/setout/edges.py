"""Which edges of a part are seen, from how it stands: the one place that knows, for every kind.

Seen edges are arrised, filled and finished, and ordered and priced so. Names are those of the part where it stands: of an
upright board left and right are its long edges, top and bottom its ends; of one that lies, top and bottom are long, left and
right its ends; the front looks into the room.

A back edge, and what stands against wall, packer, floor or another part, is hidden. Edges that are only seen from within,
behind the leaves, are left as they are sawn (house assumption).
"""

from __future__ import annotations

from collections.abc import Collection

from rodbook.job.kinds import Edge, PartKind

__all__ = ["seen_edges"]


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
        *kind.facts.seen,
        *(edge for edge in ("left", "right", "top", "bottom") if edge in free_ends and edge not in kind.facts.seen),
    )
