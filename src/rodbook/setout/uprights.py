"""Where a plinth meets uprights that stand on the floor: hinge linings and divisions; one of the two gives way.

Seen from the side, the room at the right, an upright that is notched::

    |        | leaf
    |    ____|
    |   |  |        <- plinth, set back
    |   |__|
    -----------     floor

Or the upright stands on the plinth, or the plinth stands in bays between the uprights: the build-up says which.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rodbook.errors import Message
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind, kinds_that
from rodbook.setout.asked import Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.family import family_of
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.model import Element, Notch, Part, SetOut
from rodbook.working import Measure

__all__ = ["LEAST_BEHIND_MM", "Met", "bays_of", "give_way", "met_by_plinth", "notched"]

LEAST_BEHIND_MM = 20.0
"""An upright keeps at least this behind a plinth that it is notched for (house assumption): less breaks off on the way."""

type Way = Literal["notched", "stood on", "bays"]


@dataclass(frozen=True)
class Met:
    """Uprights of one kind that a plinth meets.

    Parameters
    ----------
    kind : PartKind
    deep : Measure
        From their front edge to the plinth's back. [mm]
    width : Measure
        Front to back. [mm]
    way : str
        What gives way, by the build-up; an upright that would keep too little behind its notch stands on the plinth.
    """

    kind: PartKind
    deep: Measure
    width: Measure
    way: Way


def met_by_plinth(build_up: AnyBuildUp, stock: Stock, result: SetOut) -> tuple[Met, ...]:
    """Uprights that reach the floor where the plinth stands, by kind."""
    results: list[Met] = []
    for kind in kinds_that(lambda facts: facts.gives_way):
        part = next((p.part for p in result.parts if p.part.kind is kind), None)
        if part is None or not any(e.kind is kind and e.y <= 0 for e in result.elements):
            continue
        back = given(build_up, build_up.plinth_set_back, "plinth set back")
        deep = back + thickness_of(stock.lining, "plinth thickness")
        front = 0.0
        if family_of(build_up).within:
            # An inset leaf stands between the lining's front edge and what stands behind it.
            deep, front = deep - thickness_of(stock.leaf, "leaf thickness"), stock.leaf.thickness
        if deep.value <= 0 or front + part.width.value <= build_up.plinth_set_back:
            continue
        way = build_up.at_plinth
        if way == "notched" and part.width.value - deep.value < LEAST_BEHIND_MM:
            way = "stood on"
        results.append(Met(kind, deep.named(f"{kind} cut out for the plinth"), part.width, way))
    return tuple(results)


def notched(part: Part, notch: Notch) -> Part:
    """A part with the front of its foot cut out."""
    return replace(part, notch=notch, ends="; ".join(filter(None, (part.ends, notch.words))))


def give_way(met: Met, raised: Measure, result: SetOut) -> SetOut:
    """Uprights of one kind, notched for a plinth or stood on it.

    Parameters
    ----------
    met : Met
    raised : Measure
        Top of the plinth above the floor that the linings stand on. [mm]
    result : SetOut
    """
    if met.way == "bays":
        return result
    if met.way == "notched":
        notch = Notch(met.deep, raised.named(f"{met.kind} cut out for the plinth, up from the floor"))
        parts = tuple(replace(p, part=notched(p.part, notch)) if p.part.kind is met.kind else p for p in result.parts)
        return replace(
            result, parts=parts, dimensions=(*result.dimensions, Dimension.of(notch.deep, DimensionName.CUT_FOR_PLINTH))
        )
    return _stood_on(met, raised, result)


def _stood_on(met: Met, raised: Measure, result: SetOut) -> SetOut:
    def shorter(part: Part) -> Part:
        return replace(part, length=(part.length - raised).named(part.length.name))

    parts = tuple(replace(p, part=shorter(p.part)) if p.part.kind is met.kind else p for p in result.parts)
    elements = tuple(_lifted(e, raised.value) if e.kind is met.kind else e for e in result.elements)
    remarks = list(result.remarks)
    if met.kind is PartKind.DIVISION:
        remarks.append(Message("setout.division_on_plinth"))
    return replace(result, parts=parts, elements=elements, remarks=tuple(remarks))


def _lifted(element: Element, by: float) -> Element:
    """What stood on the floor, its foot higher."""
    outline = tuple((x, max(y, by)) for x, y in element.outline)
    return replace(element, y=by, height=element.y + element.height - by, outline=outline)


def bays_of(stock: Stock, met: Sequence[Met], result: SetOut) -> tuple[tuple[Measure, Measure], ...]:
    """Where the plinth stands between uprights: the left and the right end of each bay, from the lining's left face. [mm]"""
    thickness = thickness_of(stock.lining, "lining thickness")
    kinds = {one.kind for one in met}
    standing = sorted((e for e in result.elements if e.kind in kinds and e.y <= 0), key=lambda e: e.x)
    edges: list[tuple[Measure, Measure]] = []
    start = thickness
    for element in standing:
        left = Measure(element.x, f"left face of the {element.kind}", source="elevation")
        edges.append((start, left))
        start = Measure(element.x + element.width, f"right face of the {element.kind}", source="elevation")
    edges.append((start, result.outer_width - thickness))
    return tuple((a, b) for a, b in edges if b.value - a.value > 1.0)
