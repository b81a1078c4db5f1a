"""Where two leaves meet: a plain gap, rebated edges, or a strip that covers the gap.

Rebated, cut through from above, the room below; the leaf that opens first lies over the other's tongue::

     second leaf ==========.______ tongue
                           |======.=========== first leaf
                    gap -->|    |<- gap + rebate wide, half the leaf deep

A strip is fixed to the leaf that opens first and lies over the gap on the front.
"""

from __future__ import annotations

from dataclasses import replace

from rodbook.errors import Infeasible
from rodbook.hinges import Boring
from rodbook.job.book import AnyBuildUp, Section
from rodbook.job.kinds import PartKind
from rodbook.setout.cuts import Side
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.figures import given
from rodbook.setout.model import Element, Joint, LeafSize, Part, Placed, SetOut
from rodbook.working import Measure, least

__all__ = ["meeting_pairs", "met"]


def meeting_pairs(sizes: tuple[LeafSize, ...]) -> tuple[int, ...]:
    """Left-hand leaf, counted from 0, of each two that close against each other."""
    return tuple(n for n in range(len(sizes) - 1) if (sizes[n].side, sizes[n + 1].side) == ("left", "right"))


def met(build_up: AnyBuildUp, strip: Section | None, first: Side, result: SetOut) -> SetOut:
    """Give the meeting edges of a front their shape.

    Parameters
    ----------
    build_up : AnyBuildUp
    strip : Section, optional
        The strip, where the build-up has one.
    first : str
        Side on which the leaf hangs that opens first.
    result : SetOut

    Raises
    ------
    Infeasible
        If a strip does not cover the gap with something to spare on both sides.
    """
    pairs = meeting_pairs(result.leaf_sizes)
    if not pairs or build_up.meeting == "plain":
        return result
    gap = given(build_up, build_up.meeting_gap, "meeting gap")
    if build_up.meeting == "rebated":
        return _rebated(build_up, result, pairs, first, gap)
    assert strip is not None
    over = ((Measure(strip.width, "strip width", source=f"book: {strip.name}") - gap) / 2).named(
        "lap of the strip over each leaf"
    )
    if over.value < LEAST_STRIP_LAP_MM:
        raise Infeasible("setout.strip_laps_too_little", width_mm=strip.width, lap_mm=over, least_mm=LEAST_STRIP_LAP_MM)
    strips: list[Placed] = []
    seen: list[Element] = []
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    for n in pairs:
        length = _strip_length(result.leaf_sizes[n], result.leaf_sizes[n + 1], over).rounded_down(build_up.step)
        part = Part(
            PartKind.STRIP,
            strip.name,
            sectional=True,
            length=length,
            width=Measure(strip.width, "strip width", source="book"),
            thickness=Measure(strip.thickness, "strip thickness", source="book"),
            hand=first,
            finish=build_up.finish,
            coats=build_up.coats,
            edges=seen_edges(PartKind.STRIP),
            planed=strip.planed,
        )
        strips.append(Placed(part, 1))
        left = doors[n].x + doors[n].width - over.value
        seen.append(Element(PartKind.STRIP, left, doors[n].y, strip.width, length.value))
    return replace(
        result,
        parts=(*result.parts, *strips),
        dimensions=(*result.dimensions, Dimension.of(over, DimensionName.LAP_OF_STRIP)),
        elements=(*result.elements, *seen),
    )


def _strip_length(left: LeafSize, right: LeafSize, over: Measure) -> Measure:
    """From the leaves' foot to the lowest place of their tops that the strip reaches: it is square, and no higher. [mm]"""
    name = "strip length"
    if not (left.sloping or right.sloping):
        return left.right.named(name)
    return least(
        left.right,
        (left.right + (left.left - left.right) * over / left.width).named("left leaf at the strip's edge"),
        right.left,
        (right.left + (right.right - right.left) * over / right.width).named("right leaf at the strip's edge"),
        name=name,
    )


LEAST_STRIP_LAP_MM = 5.0
"""A cover strip laps each leaf by this at least (house assumption)."""


def _rebated(build_up: AnyBuildUp, result: SetOut, pairs: tuple[int, ...], first: Side, gap: Measure) -> SetOut:
    rebate = given(build_up, build_up.meeting_rebate, "rebate")
    tongue = (gap + rebate).named("tongue of the second leaf")
    deep = _part_of(result, result.leaf_sizes[0]).thickness / 2
    parts, sizes = list(result.parts), (tongue.value, deep.value)
    for n in pairs:
        ahead, behind = (n, n + 1) if first == "left" else (n + 1, n)
        words = f"closing edge rebated {tongue} × {deep.value:g} mm"
        parts = _reworked(parts, result.leaf_sizes[ahead], f"{words} on the back", Joint.REBATED_BACK, sizes, None)
        parts = _reworked(
            parts,
            result.leaf_sizes[behind],
            f"{words} on the front, {tongue} mm of tongue in its width",
            Joint.REBATED_FRONT,
            sizes,
            tongue,
        )
    return replace(
        result, parts=tuple(parts), dimensions=(*result.dimensions, Dimension.of(tongue, DimensionName.TONGUE))
    )


def _part_of(result: SetOut, size: LeafSize) -> Part:
    return next(
        p.part
        for p in result.parts
        if p.part.kind is PartKind.DOOR and p.part.hand == size.side and p.part.width.value == size.width.value
    )


def _reworked(
    parts: list[Placed], size: LeafSize, ends: str, joint: Joint, sizes: tuple[float, ...], wider: Measure | None
) -> list[Placed]:
    """One leaf of that size taken out of its group and given a rebate, and a tongue where it has one."""
    results: list[Placed] = []
    done = False
    for placed in parts:
        part = placed.part
        mine = part.kind is PartKind.DOOR and part.hand == size.side and part.width.value == size.width.value
        if done or not mine or set(part.joints) & {Joint.REBATED_BACK, Joint.REBATED_FRONT}:
            results.append(placed)
            continue
        if placed.quantity > 1:
            results.append(replace(placed, quantity=placed.quantity - 1))
        new = replace(
            part,
            ends="; ".join(filter(None, (part.ends, ends))),
            joints=(*part.joints, joint),
            joint_sizes=(*part.joint_sizes, *sizes),
        )
        if wider is not None:
            new = _wider(new, wider)
        results.append(Placed(new, 1))
        done = True
    return results


def _wider(part: Part, by: Measure) -> Part:
    """A leaf with a tongue on its closing edge, which is on the left of the back of a leaf that hangs on the left."""
    at_left = part.hand == "left"
    width = (part.width + by).named("leaf width with its tongue")
    borings = tuple(_moved(bore, by) for bore in part.borings) if at_left else part.borings
    outline = part.outline
    if outline:
        (x0, y0), (x1, y1), foot_right, foot_left = outline
        run = (y1 - y0) / (x1 - x0)
        far = x1 + by.value
        if at_left:
            outline = ((0.0, y0 - run * by.value), (far, y1), (far, foot_right[1]), foot_left)
        else:
            outline = ((0.0, y0), (far, y1 + run * by.value), (far, foot_right[1]), foot_left)
        low = min(y for _, y in outline)
        if low < 0:
            raise Infeasible("setout.rebated_edge_under_raked_head")
    return replace(part, width=width, borings=borings, outline=outline)


def _moved(bore: Boring, by: Measure) -> Boring:
    return replace(bore, x=(bore.x + by).named("from left edge"))
