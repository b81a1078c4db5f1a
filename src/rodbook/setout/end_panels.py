"""End panels: what closes the side of a front that stands free, from the leaf's face back to the wall.

Seen from above, the right-hand side free::

    wall ========================= | scribe |
           lining leg             ||        |
           lining leg             || end panel, screwed on from inside the leg
    leaf ======================   ||  front edge flush with the leaf
"""

from __future__ import annotations

import math
from dataclasses import replace

from rodbook.errors import Infeasible
from rodbook.hinges import Boring
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.cuts import Side
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.family import family_of
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.model import Element, Part, Placed, SetOut
from rodbook.working import Measure

__all__ = ["FIXING_APART_MM", "FIXING_IN_MM", "free_sides", "with_end_panels"]

FIXING_IN_MM = 50.0
"""Screws through a lining leg into an end panel stand this far in from the leg's edges (common practice)."""

FIXING_ENDS_MM = 100.0
"""The first screws stand this far from the ends (house assumption)."""

FIXING_APART_MM = 500.0
"""No two screws up a panel are further apart (house assumption)."""

PILOT_MM = (3.0, 10.0)
"""Diameter and depth of a pilot for a screw of 4 mm in board (common practice)."""


def free_sides(frame: Frame) -> tuple[Side, ...]:
    """Sides that stand free and have an end panel, from the left."""
    if frame.end_panels == "none":
        return ()
    return ("left", "right") if frame.end_panels == "both" else (frame.end_panels,)


def with_end_panels(build_up: AnyBuildUp, stock: Stock, frame: Frame, result: SetOut) -> SetOut:
    """Add end panels to a set-out of any family.

    Raises
    ------
    Infeasible
        If a trim stands where the panel would, or the linings are too shallow to screw it on.
    """
    sides = free_sides(frame)
    if not sides:
        return result
    if stock.trim is not None:
        raise Infeasible("setout.end_panel_beside_trim")
    board = stock.end_panel or stock.leaf
    thickness = thickness_of(board, "end panel thickness")
    depth = given(build_up, build_up.lining_depth, "lining depth")
    seen = depth
    if not family_of(build_up).within:
        seen = (depth + thickness_of(stock.leaf, "leaf thickness")).named("lining and leaf")
    width = seen
    if build_up.end_panel_scribe:
        width = seen + given(build_up, build_up.end_panel_scribe, "scribe")
    width, length = width.named("end panel width"), frame.height.named("end panel length")
    ahead = seen - depth if seen is not depth else None
    across, down = _columns(depth, ahead), _rows(length)
    parts, elements = list(result.parts), list(result.elements)
    ends = f"{build_up.end_panel_scribe:g} mm to scribe on the back edge" if build_up.end_panel_scribe else ""
    for side in sides:
        bores = [
            Boring(
                "fixing",
                x.named("from left edge") if side == "left" else (width - x).named("from left edge"),
                y,
                *PILOT_MM,
                x,
            )
            for y in down
            for x in across
        ]
        part = Part(
            PartKind.END_PANEL,
            board.name,
            sectional=False,
            length=length,
            width=width,
            thickness=thickness,
            grain=board.grain,
            edges=seen_edges(PartKind.END_PANEL),
            borings=tuple(bores),
            bored_face="inner",
            hand=side,
            ends=ends,
            joint_sizes=(build_up.end_panel_scribe,) if build_up.end_panel_scribe else (),
            finish=build_up.finish,
            coats=build_up.coats,
        )
        parts.append(Placed(part, 1))
        x = -board.thickness if side == "left" else frame.width.value
        elements.append(
            Element(PartKind.END_PANEL, x, 0.0, board.thickness, frame.height.value, label=f"end panel, {side}")
        )
    over = (frame.width + (2 * thickness if len(sides) == 2 else thickness)).named("width over the end panels")
    return replace(
        result,
        parts=tuple(parts),
        elements=tuple(elements),
        dimensions=(*result.dimensions, Dimension.of(over, DimensionName.OVER_END_PANELS)),
    )


def _columns(depth: Measure, ahead: Measure | None) -> tuple[Measure, ...]:
    """Two columns of screws, from the panel's front edge. [mm]"""
    if depth.value < 2 * FIXING_IN_MM:
        raise Infeasible("setout.lining_too_shallow_for_screws", depth_mm=depth, in_mm=FIXING_IN_MM)
    front = Measure(FIXING_IN_MM, "screws in from the leg's edge", source="common practice")
    back = depth - front
    return tuple((x if ahead is None else x + ahead).named("fixing from the panel's front edge") for x in (front, back))


def _rows(length: Measure) -> tuple[Measure, ...]:
    """Heights of the screws, evenly between the first and the last, in whole millimetres from the top. [mm]"""
    first = Measure(FIXING_ENDS_MM, "first screw from the end", source="house assumption")
    run = length - 2 * first
    if run.value <= 0:
        raise Infeasible("setout.end_panel_too_low_for_screws", height_mm=length, from_ends_mm=FIXING_ENDS_MM)
    steps = math.ceil(run.value / FIXING_APART_MM - 1e-9)
    return tuple(
        (first + k * run / steps).named("fixing from the panel's top").rounded_down(1.0) for k in range(steps + 1)
    )
