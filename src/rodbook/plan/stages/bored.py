"""The holes of a part: what comes too near to something else, and what can't be bored at all."""

from __future__ import annotations

from functools import lru_cache

from rodbook.errors import Message
from rodbook.hinges import Clash, FaceHole, PartSize, clashes
from rodbook.setout import Part, SetOut

__all__ = ["hole_clashes", "unmakeable"]


@lru_cache(maxsize=512)
def hole_clashes(part: Part) -> tuple[Clash, ...]:
    """Holes of a part that come too near to one another, to an edge or to the other face.

    Parameters
    ----------
    part : Part
    """
    holes = [
        FaceHole(f"{boring.kind} {n}", boring.x.value, boring.y.value, boring.diameter, boring.depth)
        for n, boring in enumerate(part.borings, 1)
    ]
    size = PartSize(part.width.value, part.length.value, part.thickness.value)
    return clashes(size, holes) if holes else ()


def unmakeable(set_out: SetOut) -> tuple[Message, ...]:
    """What no part can be: a hole that runs into another, off the part, or out of its far face without being meant to.

    Parameters
    ----------
    set_out : SetOut
    """
    results = {
        Message("plan.part_with_clash", kind=placed.part.kind, clash=clash): None
        for placed in set_out.parts
        for clash in hole_clashes(placed.part)
        if clash.distance_mm <= 0
    }
    return tuple(results)
