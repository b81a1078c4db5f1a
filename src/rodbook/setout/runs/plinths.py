"""Plinths that run on under several openings in one line, in front of the legs and the timbers between them.

Seen from above, at the foot; both legs beside a pier are cut out for it, and the timbers of the pier stand back::

            leg |  timbers | leg
            ____|          |____
    ===========================/=============   plinth, butted over the middle of a pier
    (set back)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp, Board
from rodbook.job.kinds import PartKind
from rodbook.setout.cuts import Side
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.edges import seen_edges
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.finish import worked
from rodbook.setout.model import Element, Notch, Part, Placed, SetOut
from rodbook.setout.runs.common import Bay, LongRun, between_sights, in_pieces
from rodbook.setout.uprights import LEAST_BEHIND_MM, notched
from rodbook.working import Measure

__all__ = ["PlinthRun", "plinth_runs_on", "with_plinth_run"]


@dataclass(frozen=True)
class PlinthRun(LongRun):
    """How a plinth runs on.

    Parameters
    ----------
    deep : Measure
        How far legs are cut out, and timbers stand back, from the front edge of the linings. [mm]
    """

    deep: Measure


def plinth_runs_on(
    build_up: AnyBuildUp, board: Board, bays: Sequence[Bay], between: Sequence[Measure], *, longest: float
) -> PlinthRun:
    """Run a plinth on under several openings, in as few pieces as the board's sheets allow.

    From the inside of the first lining to that of the last; square joints stand over the middle of a pier, which is behind
    them, never under a leaf.

    Parameters
    ----------
    build_up : AnyBuildUp
        Its plinth and finish.
    board : Board
        Of the linings.
    bays : sequence of Bay
        From the left, two at the least; their sight is the clear width.
    between : sequence of Measure
        From lining to lining, outside, one fewer than there are bays. [mm]
    longest : float
        That a sheet yields. [mm]

    Raises
    ------
    Infeasible
        If the plinth stands in bays, too little is left of the legs behind it, or a piece under one opening alone is longer
        than that.
    """
    if build_up.at_plinth == "bays":
        raise Infeasible("setout.plinth_in_bays", build_up=build_up.name)
    gaps = [between_sights(a, b, wall) for a, b, wall in zip(bays[:-1], bays[1:], between, strict=True)]
    set_back = given(build_up, build_up.plinth_set_back, "plinth set back")
    deep = (set_back + thickness_of(board, "plinth thickness")).named("cut out of the legs for the plinth")
    if build_up.lining_depth - deep.value < LEAST_BEHIND_MM:
        raise Infeasible(
            "setout.leg_cut_too_deep",
            depth_mm=build_up.lining_depth,
            left_mm=build_up.lining_depth - deep.value,
            least_mm=LEAST_BEHIND_MM,
        )
    run = in_pieces(
        None,
        bays,
        gaps,
        longest=longest,
        lap=None,
        called="plinth under the run",
        make=lambda length, _meets: _piece(build_up, board, length),
    )
    return PlinthRun(run.pieces, run.joints, run.total, deep)


def _piece(build_up: AnyBuildUp, board: Board, length: Measure) -> Part:
    part = Part(
        PartKind.PLINTH,
        board.name,
        sectional=False,
        length=length.named("plinth length").rounded_down(build_up.step),
        width=given(build_up, build_up.plinth, "plinth height"),
        thickness=thickness_of(board, "plinth thickness"),
        grain=board.grain,
        edges=seen_edges(PartKind.PLINTH),
        finish=build_up.finish,
        coats=build_up.coats,
    )
    return worked(build_up, part)


def with_plinth_run(build_up: AnyBuildUp, result: SetOut, run: PlinthRun, bay: int, *, runs: Sequence[Side]) -> SetOut:
    """A front whose plinth runs on: the pieces that begin under it instead of its own, and legs cut out on those sides.

    Parameters
    ----------
    build_up : AnyBuildUp
    result : SetOut
        As it was by itself.
    run : PlinthRun
    bay : int
        Its number in the run.
    runs : sequence of str
        Sides on which the plinth runs on.
    """
    notch = Notch(run.deep, given(build_up, build_up.plinth, "plinth height"))
    parts: list[Placed] = []
    free: list[Side] = [
        side for side in _SIDES if side not in {p.part.hand for p in result.parts if p.part.kind is PartKind.LINING_LEG}
    ]
    for placed in result.parts:
        part = placed.part
        if part.kind is PartKind.PLINTH:
            continue
        if part.kind is not PartKind.LINING_LEG:
            parts.append(placed)
            continue
        for _ in range(placed.quantity):
            side = part.hand or free.pop(0)
            if side in runs:
                parts.append(Placed(notched(replace(part, hand=side), notch), 1))
            else:
                parts.append(Placed(part, 1))
    parts += [Placed(part, 1) for first, part in run.pieces if first == bay]
    elements = tuple(_running_on(e, result, runs) if e.kind is PartKind.PLINTH else e for e in result.elements)
    return replace(
        result,
        parts=tuple(parts),
        elements=elements,
        dimensions=(*result.dimensions, Dimension.of(run.deep, DimensionName.CUT_FOR_PLINTH)),
        plinth_runs=tuple(runs),
    )


_SIDES: tuple[Side, ...] = ("left", "right")


def _running_on(plinth: Element, result: SetOut, runs: Sequence[Side]) -> Element:
    """The plinth of the elevation drawn to the outside of the linings on the sides on which it runs on."""
    left = 0.0 if "left" in runs else plinth.x
    right = result.outer_width.value if "right" in runs else plinth.x + plinth.width
    return replace(plinth, x=left, width=right - left)
