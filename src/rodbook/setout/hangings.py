"""What each leaf and each flap of a front hangs on, and how far it lies over it: read off its assembly.

Seen from above, three leaves, the middle one hung on the division by its left edge::

    |leg|====== leaf 1 ======| |====== leaf 2 ======|
                            |division|
                              |<---->| lap of leaf 2: from its hinge edge to the division's far face
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rodbook.job.kinds import PartKind
from rodbook.setout.assembly import Assembly, Body
from rodbook.setout.cuts import Side
from rodbook.setout.model import SetOut

__all__ = ["LeafHanging", "hangings"]


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
    whole = set_out.assembly
    doors = [body for body in whole.of(PartKind.DOOR) if body.side]
    flaps = [body for body in whole.of(PartKind.FLAP) if body.hinge_xs]
    beside = [_beside(door, n, whole) for n, door in enumerate(doors, 1)]
    return (*beside, *(_above(flap, n, whole) for n, flap in enumerate(flaps, 1)))


def _beside(door: Body, number: int, whole: Assembly) -> LeafHanging:
    side: Side = "left" if door.side == "left" else "right"
    sign = 1.0 if side == "left" else -1.0
    left, foot, right, top = door.face
    middle, edge = sign * (left + right) / 2, sign * (left if side == "left" else right)
    faces = [
        (sign * body.across[1 if side == "left" else 0], body)
        for body in whole.bodies
        if body.kind.facts.carries == "beside" and body.up[0] < top and body.up[1] > foot
    ]
    face, carrier = max(((face, body) for face, body in faces if face < middle), key=lambda pair: pair[0])
    return LeafHanging(
        PartKind.DOOR, number, side, carrier.kind, face - edge, len(door.hinge_ys), _held(carrier, whole)
    )


def _held(carrier: Body, whole: Assembly) -> float:
    """Where a carrier is held by the head: hinge linings are screwed to the legs, boards back to back to each other."""
    left, right = carrier.across
    if carrier.kind is PartKind.DIVISION:
        boards = [b for b in whole.of(PartKind.DIVISION) if abs(b.across[0] - left) <= right - left + 1e-6]
        return (min(b.across[0] for b in boards) + max(b.across[1] for b in boards)) / 2
    legs = sorted(whole.of(PartKind.LINING_LEG), key=lambda leg: leg.across)
    inner = (legs[0].across[1], legs[-1].across[0])
    return min(inner, key=lambda x: abs(x - (left + right) / 2))


def _above(flap: Body, number: int, whole: Assembly) -> LeafHanging:
    _, foot, _, top = flap.face
    above = [b for b in whole.bodies if b.kind.facts.carries == "above" and b.up[0] > (foot + top) / 2]
    carrier = min(above, key=lambda body: body.up[0])
    under = carrier.up[0]
    return LeafHanging(PartKind.FLAP, number, "top", carrier.kind, top - under, len(flap.hinge_xs), under)
