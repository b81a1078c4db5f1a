"""What each leaf and each flap of a front hangs on, and how far it lies over it: read off the elevation.

Seen from above, three leaves, the middle one hung on the division by its left edge::

    |leg|====== leaf 1 ======| |====== leaf 2 ======|
                            |division|
                              |<---->| lap of leaf 2: from its hinge edge to the division's far face
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.setout.model import Element, PartKind, SetOut

__all__ = ["LeafHanging", "hangings"]

_BESIDE = (PartKind.LINING_LEG, PartKind.HINGE_LINING, PartKind.DIVISION)
_ABOVE = (PartKind.LINING_HEAD, PartKind.RAIL)


@dataclass(frozen=True)
class LeafHanging:
    """One leaf or flap on what carries its plates.

    Parameters
    ----------
    what : PartKind
        Door or flap.
    number : int
        From the left, or of flaps from the floor up, counted from 1.
    edge : str
        Where its hinges are: "left", "right", or "top" for a flap.
    on : PartKind
        What carries it.
    lap_mm : float
        How far it lies over the edge of that; below 0 where it stands beside it, by so much. [mm]
    hinges : int
    at_mm : float
        Where it is held along the front, or above the floor for a flap: the face of a leg, the middle of a division, which may
        be two boards. [mm]
    """

    what: PartKind
    number: int
    edge: Literal["left", "right", "top"]
    on: PartKind
    lap_mm: float
    hinges: int
    at_mm: float


def hangings(set_out: SetOut) -> tuple[LeafHanging, ...]:
    """Every leaf from the left, then every flap from the floor up, each on what it hangs on.

    Parameters
    ----------
    set_out : SetOut

    Returns
    -------
    tuple of LeafHanging
    """
    parts = set_out.elements
    doors = [e for e in parts if e.kind is PartKind.DOOR and e.hinge_side]
    flaps = [e for e in parts if e.kind is PartKind.FLAP and e.hinge_xs]
    beside = [_beside(door, n, parts) for n, door in enumerate(doors, 1)]
    return (*beside, *(_above(flap, n, parts) for n, flap in enumerate(flaps, 1)))


def _beside(door: Element, number: int, parts: Sequence[Element]) -> LeafHanging:
    left = door.hinge_side == "left"
    sign = 1.0 if left else -1.0
    middle = sign * (door.x + door.width / 2)
    edge = sign * (door.x if left else door.x + door.width)
    top = door.y + door.height
    faces = [
        (sign * (part.x + part.width if left else part.x), part)
        for part in parts
        if part.kind in _BESIDE and part.y < top and part.y + part.height > door.y
    ]
    face, carrier = max(((face, part) for face, part in faces if face < middle), key=lambda pair: pair[0])
    return LeafHanging(
        PartKind.DOOR, number, "left" if left else "right", carrier.kind, face - edge, len(door.hinge_ys), _held(carrier, parts)
    )  # fmt: skip


def _held(carrier: Element, parts: Sequence[Element]) -> float:
    """Where a carrier is held by the head: hinge linings are screwed to the legs, boards back to back to each other."""
    if carrier.kind is PartKind.DIVISION:
        boards = [p for p in parts if p.kind is PartKind.DIVISION and abs(p.x - carrier.x) <= carrier.width + 1e-6]
        return (min(p.x for p in boards) + max(p.x + p.width for p in boards)) / 2
    legs = sorted((p for p in parts if p.kind is PartKind.LINING_LEG), key=lambda p: p.x)
    first, last = legs[0], legs[-1]
    inner = (first.x + first.width, last.x)
    return min(inner, key=lambda x: abs(x - carrier.x - carrier.width / 2))


def _above(flap: Element, number: int, parts: Sequence[Element]) -> LeafHanging:
    top, middle = flap.y + flap.height, flap.y + flap.height / 2
    carrier = min((p for p in parts if p.kind in _ABOVE and p.y > middle), key=lambda p: p.y)
    return LeafHanging(PartKind.FLAP, number, "top", carrier.kind, top - carrier.y, len(flap.hinge_xs), carrier.y)
