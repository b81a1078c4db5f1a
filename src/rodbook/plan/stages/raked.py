"""A standing opening with a raked head: from its readings to the lining that goes in, and how that is packed."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from rodbook.errors import Infeasible, Message
from rodbook.job import AnyBuildUp, Opening
from rodbook.plan.model import RakedFit
from rodbook.plan.stages.packing import packers_of
from rodbook.setout import RakedFrame, SlopingLine, given
from rodbook.sizes import Packers
from rodbook.survey import Shape, UprightRectangle
from rodbook.working import Measure

__all__ = ["raked_fit"]

_STATIONS = ("left", "middle", "right")


def raked_fit(
    opening: Opening, rectangle: UprightRectangle, shape: Shape, build_up: AnyBuildUp, *, step: float
) -> RakedFit:
    """Fit a lining under a raked head.

    The head is taken as straight from its left to its right reading; where the middle one is lower, the whole line is
    lowered to it, and where it is higher, more is packed there.

    Parameters
    ----------
    opening : Opening
        Its leaves, hand and sill.
    rectangle : UprightRectangle
        What it offers between its sides, with three heights of its head.
    shape : Shape
        That it comes from: the lining is packed in it.
    build_up : AnyBuildUp
        For the least packers.
    step : float
        The lining is made to whole steps. [mm]

    Raises
    ------
    InputError
        If the head is steeper than any.
    Infeasible
        If nothing upright fits between the sides.
    """
    source = f"adjusted from {len(shape.readings)} readings"
    heights = [Measure(v, f"height at {w}", source=source) for v, w in zip(rectangle.heads_mm, _STATIONS, strict=True)]
    foot = rectangle.stations[0]
    across = Measure(foot.right_mm - foot.left_mm, "width at foot", source=source)
    packer = given(build_up, build_up.packer_least, "least packer")
    over = given(build_up, build_up.head_packer_least, "least packer over the head")
    width = (rectangle.width - 2 * packer).named("lining width").rounded_down(step)
    side = ((rectangle.width - width) / 2).named("packer at each side")
    start = side
    if rectangle.left_mm:
        start = side + Measure(rectangle.left_mm, "upright width from the left side's foot", source=source)
    hand: Literal["left", "right"] = "left" if opening.hand.value == "left" else "right"
    line = SlopingLine.over(RakedFrame(across, heights[0], heights[2], opening.leaves, hand, opening.sill))
    sag = ((heights[0] + heights[2]) / 2 - heights[1]).named("the middle of the head hangs lower by")
    remarks: list[Message] = []
    if sag.value > 0:
        line = replace(line, left=(line.left - sag).named("line of the head at the left"))
    if abs(sag.value) >= BOW_SAID_MM:
        code = "plan.head_bows_lower" if sag.value > 0 else "plan.head_bows_higher"
        remarks.append(Message(code, by_mm=abs(sag.value)))
    packed = line.lowered(over, "line of the head less packing")
    left = packed.at(start.named("lining from the left side"), "lining height, left").rounded_down(step)
    right = packed.at((start + width).named("far side of the lining"), "lining height, right").rounded_down(step)
    frame = RakedFrame(width, left, right, opening.leaves, hand, opening.sill, opening.floor_finish)
    return RakedFit(frame, _packers(shape, frame, side), tuple(remarks))


BOW_SAID_MM = 3.0
"""A raked head whose middle is out of line by this or more is told of (house assumption)."""


def _packers(shape: Shape, frame: RakedFrame, side: Measure) -> Packers:
    legs = frame.left.value, frame.right.value
    unnamed = Measure(0.0, "packer over the head", source="least of left, middle and right")
    packers = packers_of(shape, frame.width, legs, side=side, head=unnamed)
    if packers is None:
        raise Infeasible("plan.sides_lean_too_far", items=["left side", "right side"])
    least = Measure(
        min(packers.head_mm), "packer over the head", source="least of left, middle and right, square to the slope"
    )
    return replace(packers, head=least)
