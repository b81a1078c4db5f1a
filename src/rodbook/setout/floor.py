"""The foot of a front without a sill: straight down to the floor, over a plinth, and over a finish still to be laid.

Cut through from the side, the room at the right::

        | leaf
        |______          floor clearance
     plinth |  <- set back
    ........|........    floor finish still to come
    -----------------    floor as it is: the linings stand on it
"""

from __future__ import annotations

from dataclasses import replace

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.hanging import Frame, Stock
from rodbook.setout.model import Element, Part, PartKind, Placed, SetOut
from rodbook.setout.raked.line import RakedFrame
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
        dimensions.append(Measure(frame.floor_finish, "floor finish to come", source="job"))
    remarks = list(result.remarks)
    if frame.floor_finish:
        remarks.append(
            f"A floor finish of {frame.floor_finish:g} mm is still to come: the clearance under the leaf is over it."
        )
    if not build_up.plinth:
        return replace(result, dimensions=tuple(dimensions), remarks=tuple(remarks))
    board = stock.lining
    if build_up.plinth_set_back + board.thickness > build_up.lining_depth:
        raise Infeasible(
            f"a plinth set back {build_up.plinth_set_back:g} mm stands behind a lining {build_up.lining_depth:g} mm deep; "
            "set it back less"
        )
    height = given(build_up, build_up.plinth, "plinth height")
    part = Part(
        PartKind.PLINTH, board.name, sectional=False, length=result.clear_width.named("plinth length"), width=height,
        thickness=thickness_of(board, "plinth thickness"), grain=board.grain, edges=("top",), finish=build_up.finish,
        coats=build_up.coats,
    )  # fmt: skip
    inner = thickness_of(board, "lining thickness").value
    stands = Element(PartKind.PLINTH, inner, frame.floor_finish, result.clear_width.value, build_up.plinth)
    dimensions += [height, given(build_up, build_up.plinth_set_back, "plinth set back behind the front edge")]
    return replace(
        result, parts=(*result.parts, Placed(part, 1)), dimensions=tuple(dimensions), remarks=tuple(remarks),
        elements=(stands, *result.elements),
    )  # fmt: skip
