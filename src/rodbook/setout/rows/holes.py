"""Holes in drawer fronts, flaps and aprons: fixings, handles in their middle, and stays with their holes in the legs.

Seen from the back, or from the room: both sides are alike::

    |  o              o  |   stay or fixing, in from each side
    |        o--o        |   handle, in the middle of the width
    |  o              o  |
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.errors import Infeasible
from rodbook.hinges import Boring
from rodbook.job.book import Fitting
from rodbook.job.kinds import PartKind
from rodbook.setout.cuts import Side
from rodbook.setout.fittings import EDGE_CLEAR_MM
from rodbook.setout.model import Part, Placed
from rodbook.working import Measure

__all__ = ["fixing_borings", "front_handle_borings", "stay_borings", "stays_in_legs"]

_SIDES: tuple[Side, ...] = ("left", "right")


def _figure(fitting: Fitting, value: float, name: str) -> Measure:
    return Measure(value, name, source=f"book: {fitting.source}")


def _in_part(part: Part, bores: Sequence[Boring]) -> tuple[Boring, ...]:
    """The same holes, or what is wrong with them."""
    for bore in bores:
        reach = bore.diameter / 2 + EDGE_CLEAR_MM
        x, y = bore.x.value, bore.y.value
        if not (reach <= x <= part.width.value - reach and reach <= y <= part.length.value - reach):
            raise Infeasible(
                "setout.hole_off_part",
                hole=bore.kind,
                across_mm=bore.x,
                down_mm=bore.y,
                part=part.kind,
                width_mm=part.width,
                height_mm=part.length,
            )
    return tuple(bores)


def _stacked(fitting: Fitting, at: Measure, name: str) -> list[Measure]:
    """One hole or two, the one over the other about a middle."""
    if fitting.holes == 1:
        return [at.named(name)]
    half = _figure(fitting, fitting.spacing, "hole spacing") / 2
    return [(at - half).named(name), (at + half).named(name)]


def fixing_borings(fitting: Fitting | None, part: Part) -> tuple[Boring, ...]:
    """Holes by which a drawer front is fixed to its box, or an apron to what is behind it, alike at both sides."""
    if fitting is None or not fitting.diameter:
        return ()
    edge = _figure(fitting, fitting.from_edge, "fixing from each side")
    up = _figure(fitting, fitting.place, "fixing above the foot")
    results = [
        Boring("fixing", x.named("from left edge"), y, fitting.diameter, fitting.depth, edge)
        for y in _stacked(fitting, part.length - up, "fixing from the top")
        for x in (edge, part.width - edge)
    ]
    return _in_part(part, results)


def front_handle_borings(fitting: Fitting | None, part: Part, *, at_foot: bool) -> tuple[Boring, ...]:
    """Holes of a handle that lies level in the middle of the width.

    At half the height of a drawer front; up from a flap's foot as far as from a leaf's closing edge (common practice).
    """
    if fitting is None or not fitting.diameter:
        return ()
    middle = part.width / 2
    y = part.length / 2
    if at_foot:
        y = part.length - _figure(fitting, fitting.from_edge, "handle from the closing edge")
    y = y.named(f"handle from the {part.kind}'s top")
    xs = [middle.named("from left edge")]
    if fitting.holes == 2:
        half = _figure(fitting, fitting.spacing, "handle hole spacing") / 2
        xs = [(middle - half).named("from left edge"), (middle + half).named("from left edge")]
    return _in_part(part, [Boring("handle", x, y, fitting.diameter, fitting.depth) for x in xs])


def stay_borings(fitting: Fitting | None, part: Part) -> tuple[Boring, ...]:
    """Holes of the stays in a flap's back, alike at both sides, by the stay's own sheet."""
    if fitting is None or not fitting.diameter:
        return ()
    edge = _figure(fitting, fitting.from_edge, "stay from each side")
    down = _figure(fitting, fitting.place, "stay from the flap's top")
    results = [
        Boring("stay", x.named("from left edge"), y, fitting.diameter, fitting.depth, edge)
        for y in _stacked(fitting, down, "stay from the flap's top")
        for x in (edge, part.width - edge)
    ]
    return _in_part(part, results)


def stays_in_legs(
    fitting: Fitting, parts: Sequence[Placed], kind: PartKind, flap_top: Measure, further_back: Measure | None
) -> list[Placed]:
    """Holes of the stays in what stands at both sides of a flap.

    Parameters
    ----------
    fitting : Fitting
    parts : sequence of Placed
    kind : PartKind
        What they are bored into: legs, or hinge linings.
    flap_top : Measure
        From those parts' top end. [mm]
    further_back : Measure, optional
        Added to the set-back, where the flap stands within the part. [mm]
    """
    back = _figure(fitting, fitting.leg_set_back, "stay set back")
    back = (back if further_back is None else back + further_back).named("stay from front edge")
    at = flap_top + _figure(fitting, fitting.leg_down, "stay below the flap's top")
    ys = _stacked(fitting, at, "stay from the part's top end")
    results: list[Placed] = []
    for placed, side in _by_side(parts, kind):
        if side is None:
            results.append(placed)
            continue
        part = placed.part
        x = back if side == "left" else part.width - back
        bores = [
            Boring("stay", x.named("from left edge"), y, fitting.leg_diameter, fitting.leg_depth, back) for y in ys
        ]
        part = replace(part, hand=side, bored_face="inner", borings=(*part.borings, *_in_part(part, bores)))
        results.append(Placed(part, 1))
    return results


def _by_side(parts: Sequence[Placed], kind: PartKind) -> list[tuple[Placed, Side | None]]:
    """Parts of that kind one by one, each with its side: those that say it, and the others on the sides that are left."""
    taken = {placed.part.hand for placed in parts if placed.part.kind is kind}
    free = [side for side in _SIDES if side not in taken]
    results: list[tuple[Placed, Side | None]] = []
    for placed in parts:
        if placed.part.kind is not kind:
            results.append((placed, None))
        elif placed.part.hand:
            results.append((placed, placed.part.hand))
        else:
            results += [(replace(placed, quantity=1), free.pop(0)) for _ in range(placed.quantity)]
    return results
