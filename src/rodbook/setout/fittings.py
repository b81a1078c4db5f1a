"""Handles, knobs and catches: their holes in the leaves and in the head over them, from the datum of the hinges' holes.

Seen from the room, a leaf that hangs on the left::

    |o  hinges      |
    |         catch*| <- down from the top, in from the closing edge; its body above it in the head
    |              8| <- handle: up from the foot, in from the closing edge
    |o______________|
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from rodbook.errors import Infeasible, Message
from rodbook.hinges import Boring
from rodbook.job.book import AnyBuildUp, Fitting
from rodbook.job.kinds import PartKind
from rodbook.setout.family import family_of
from rodbook.setout.model import Part, Placed, SetOut
from rodbook.working import Measure

__all__ = ["fitted"]

EDGE_CLEAR_MM = 3.0
"""A hole for a fitting keeps at least this from every edge (house assumption: less breaks out)."""


def fitted(build_up: AnyBuildUp, handle: Fitting | None, catch: Fitting | None, result: SetOut) -> SetOut:
    """Bore a front for its handles and catches.

    Parameters
    ----------
    build_up : AnyBuildUp
    handle, catch : Fitting, optional
        From the book.
    result : SetOut
        Of any family.

    Raises
    ------
    Infeasible
        If a hole would lie off its board; all of them in one sentence.
    """
    if handle is None and catch is None:
        return result
    off: list[Message] = []
    remarks: list[Message] = []
    parts = list(result.parts)
    for n, placed in enumerate(parts):
        if placed.part.kind is PartKind.DOOR:
            parts[n] = replace(placed, part=_bored_leaf(placed.part, handle, catch, off))
    if catch is not None and catch.head_diameter:
        if result.rows and result.rows[-1].kind != "leaves":
            remarks.append(Message("setout.catch_under_row"))
        elif result.falls_to:
            remarks.append(Message("setout.catch_under_raked_head"))
        else:
            parts = _bored_head(build_up, catch, result, parts, off)
    if off:
        raise Infeasible("setout.holes_off_board", holes=tuple(dict.fromkeys(off)))
    return replace(result, parts=tuple(parts), remarks=(*result.remarks, *remarks))


def _figure(fitting: Fitting, value: float, name: str) -> Measure:
    return Measure(value, name, source=f"book: {fitting.source}")


def _holes(fitting: Fitting, kind: Literal["handle", "catch"], part: Part, y: Measure) -> list[Boring]:
    """One hole or two, one above the other, in from the closing edge of a leaf seen from its back."""
    edge = _figure(fitting, fitting.from_edge, f"{kind} from the closing edge")
    x = edge.named("from left edge") if part.hand == "left" else (part.width - edge).named("from left edge")
    ys = [y]
    if fitting.holes == 2:
        half = _figure(fitting, fitting.spacing, f"{kind} hole spacing") / 2
        ys = [
            (y - half).named(f"{kind} hole from the leaf's top"),
            (y + half).named(f"{kind} hole from the leaf's top"),
        ]
    return [Boring(kind, x, at, fitting.diameter, fitting.depth, edge) for at in ys]


def _bored_leaf(part: Part, handle: Fitting | None, catch: Fitting | None, off: list[Message]) -> Part:
    added: list[Boring] = []
    if handle is not None and handle.diameter:
        up = _figure(handle, handle.place, "handle above the leaf's foot")
        added += _holes(handle, "handle", part, (part.length - up).named("handle from the leaf's top"))
    if catch is not None and catch.diameter:
        down = _figure(catch, catch.place, "catch from the leaf's top")
        added += _holes(catch, "catch", part, (down + _drop(part, catch)).named("catch below the high corner"))
    size = {"width_mm": part.width.value, "height_mm": part.length.value}
    off += [
        Message("setout.hole_off_leaf", hole=bore.kind, across_mm=bore.x.value, down_mm=bore.y.value, **size)
        for bore in added
        if not _inside(part, bore)
    ]
    return replace(part, borings=(*part.borings, *added))


def _drop(part: Part, fitting: Fitting) -> float:
    """How far a sloping top lies below the high corner at the closing edge. [mm]"""
    if not part.outline:
        return 0.0
    (x0, y0), (x1, y1) = part.outline[:2]
    x = fitting.from_edge if part.hand == "left" else part.width.value - fitting.from_edge
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def _inside(part: Part, bore: Boring) -> bool:
    reach = bore.diameter / 2 + EDGE_CLEAR_MM
    x, y = bore.x.value, bore.y.value
    top = 0.0
    if part.outline:
        (x0, y0), (x1, y1) = part.outline[:2]
        top = y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return reach <= x <= part.width.value - reach and top + reach <= y <= part.length.value - reach


def _bored_head(
    build_up: AnyBuildUp, catch: Fitting, result: SetOut, parts: Sequence[Placed], off: list[Message]
) -> list[Placed]:
    """Holes for the catches' bodies in the underside of the head, one over each leaf's closing edge."""
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    head = next(e for e in result.elements if e.kind is PartKind.LINING_HEAD)
    in_by = _figure(catch, catch.from_edge, "catch from the closing edge")
    results: list[Placed] = []
    for placed in parts:
        part = placed.part
        if part.kind is not PartKind.LINING_HEAD:
            results.append(placed)
            continue
        start = head.x - (part.length.value - head.width) / 2
        back = _figure(catch, catch.head_set_back, "catch from the head's front edge")
        if family_of(build_up).within:
            leaf = next(p.part for p in parts if p.part.kind is PartKind.DOOR)
            back = (back + leaf.thickness).named("catch from the head's front edge")
        bores: list[Boring] = []
        for door in doors:
            closing = door.x + door.width if door.hinge_side == "left" else door.x
            edge = Measure(
                closing - start, f"closing edge of {door.label} from the head's left end", source="elevation"
            )
            along = edge - in_by if door.hinge_side == "left" else edge + in_by
            bore = Boring(
                "catch",
                (part.width - back).named("from left edge"),
                along.named("catch from the head's left end"),
                catch.head_diameter,
                catch.head_depth,
                back,
            )
            bores.append(bore)
            if not _inside(part, bore):
                off.append(Message("setout.catch_off_head", along_mm=bore.y.value, in_mm=back.value))
        results.append(replace(placed, part=replace(part, borings=tuple(bores), bored_face="inner")))
    return results
