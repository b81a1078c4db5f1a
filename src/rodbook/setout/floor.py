"""The foot of a front without a sill: straight down to the floor, over a plinth, and over a finish still to be laid.

Cut through from the side, the room at the right::

        | leaf
        |______          floor clearance
     plinth |  <- set back
    ........|........    floor finish still to come
    -----------------    floor as it is: the linings stand on it

What stands where the plinth does gives way to it, or it to that: `uprights`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rodbook.errors import Infeasible, Message
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.model import Element, Part, Placed, SetOut
from rodbook.setout.raked.line import RakedFrame
from rodbook.setout.uprights import Met, bays_of, give_way, met_by_plinth
from rodbook.working import Measure

__all__ = ["over_plinth", "raised_foot"]


def raised_foot(build_up: AnyBuildUp, floor_finish: float, *, sill: bool) -> Measure | None:
    """How far the floor clearance starts above the floor as it is; none where it starts there. [mm]

    >>> from types import SimpleNamespace
    >>> print(raised_foot(SimpleNamespace(name="x", plinth=100.0), 15.0, sill=False).working())
    foot of the opening for the leaf = floor finish to come 15.0 + plinth height 100.0 = 115.0
    """
    name = "foot of the opening for the leaf"
    if sill or not (build_up.plinth or floor_finish):
        return None
    finish = Measure(floor_finish, "floor finish to come", source="job")
    plinth = given(build_up, build_up.plinth, "plinth height")
    if not build_up.plinth:
        return finish.named(name)
    return (finish + plinth if floor_finish else plinth).named(name)


def over_plinth(build_up: AnyBuildUp, stock: Stock, frame: Frame | RakedFrame, result: SetOut) -> SetOut:
    """Add plinth and floor finish to a set-out of any family.

    Raises
    ------
    Infeasible
        If the plinth stands behind the lining.
    """
    raised = raised_foot(build_up, frame.floor_finish, sill=frame.sill)
    if raised is None:
        return result
    dimensions = list(result.dimensions)
    if frame.floor_finish:
        finish = Measure(frame.floor_finish, "floor finish to come", source="job")
        dimensions.append(Dimension.of(finish, DimensionName.FLOOR_FINISH))
    remarks = list(result.remarks)
    if frame.floor_finish:
        remarks.append(Message("setout.floor_finish_to_come", finish_mm=frame.floor_finish))
    if not build_up.plinth:
        return replace(result, dimensions=tuple(dimensions), remarks=tuple(remarks))
    board = stock.lining
    if build_up.plinth_set_back + board.thickness > build_up.lining_depth:
        raise Infeasible(
            "setout.plinth_behind_lining",
            set_back_mm=build_up.plinth_set_back,
            lining_depth_mm=build_up.lining_depth,
        )
    met = met_by_plinth(build_up, stock, result)
    result = replace(result, dimensions=tuple(dimensions), remarks=tuple(remarks))
    placed = _plinth(build_up, stock, frame, result, [one for one in met if one.way == "bays"])
    for one in met:
        result = give_way(one, raised, result)
    stands = tuple(element for _, element in placed)
    before = next((n for n, e in enumerate(result.elements) if not e.kind.facts.behind_plinth), len(result.elements))
    height = given(build_up, build_up.plinth, "plinth height")
    set_back = given(build_up, build_up.plinth_set_back, "plinth set back behind the front edge")
    new = (Dimension.of(height, DimensionName.PLINTH_HEIGHT), Dimension.of(set_back, DimensionName.PLINTH_SET_BACK))
    return replace(
        result,
        parts=(*result.parts, *(Placed(part, 1) for part, _ in placed)),
        dimensions=(*result.dimensions, *new),
        elements=(*result.elements[:before], *stands, *result.elements[before:]),
    )


def _plinth(
    build_up: AnyBuildUp, stock: Stock, frame: Frame | RakedFrame, result: SetOut, met: Sequence[Met]
) -> list[tuple[Part, Element]]:
    """The plinth in one piece between the legs, or in bays between uprights, each with where it stands."""
    board = stock.lining
    bays: list[tuple[float, Measure]] = [(board.thickness, result.clear_width.named("plinth length"))]
    if met:
        bays = [
            (start.value, (end - start).named("plinth length").rounded_down(build_up.step))
            for start, end in bays_of(stock, met, result)
        ]
    results: list[tuple[Part, Element]] = []
    for start, length in bays:
        part = Part(
            PartKind.PLINTH,
            board.name,
            sectional=False,
            length=length,
            width=given(build_up, build_up.plinth, "plinth height"),
            thickness=thickness_of(board, "plinth thickness"),
            grain=board.grain,
            edges=seen_edges(PartKind.PLINTH),
            finish=build_up.finish,
            coats=build_up.coats,
        )
        results.append((part, Element(PartKind.PLINTH, start, frame.floor_finish, length.value, build_up.plinth)))
    return results
