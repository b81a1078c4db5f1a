"""Fixed panels: of a given size, or made to the front that they belong to.

::

    end panel, from above              apron, from the room
      wall                              ___________________
    ========|                          |  front            |
     scribe |#|  lining leg            |___________________|
            |#|  lining depth          |#### apron ########|
            |#|__ leaf
"""

from __future__ import annotations

from rodbook.job.book import AnyBuildUp, Board, PlainLayOnBuildUp
from rodbook.job.models import Panel
from rodbook.setout.model import ALL_EDGES, FRONT_EDGE, Edge, Part, PartKind, SetOut
from rodbook.working import Measure

__all__ = ["panel_part"]


def panel_part(
    panel: Panel, board: Board, *, finish: str, coats: int, front: SetOut | None = None,
    build_up: AnyBuildUp | None = None, leaf_board: Board | None = None,
) -> Part:  # fmt: skip
    """A rectangular panel as a part; finished like the rest of the job.

    Parameters
    ----------
    panel : Panel
    board : Board
    finish : str
    coats : int
    front : SetOut, optional
        The front that an end panel or an apron belongs to.
    build_up : AnyBuildUp, optional
        How that is built.
    leaf_board : Board, optional
        What its leaves are made from.
    """
    edges: tuple[Edge, ...] = ALL_EDGES
    ends = ""
    length, width = _given(panel.length, "panel length"), _given(panel.width, "panel width")
    if front is not None and build_up is not None and leaf_board is not None:
        if panel.kind == "apron":
            length = length or front.outer_width.named("apron length")
        else:
            length = length or _side_of(front, panel).named("end panel length")
            width = width or _end_width(panel, build_up, leaf_board)
            edges = FRONT_EDGE
            ends = f"back edge {panel.scribe:g} mm over, for scribing" if panel.scribe else ""
    assert length is not None, "the checks let no panel through without a length"
    assert width is not None, "the checks let no panel through without a width"
    return Part(
        PartKind.PANEL, board.name, sectional=False, length=length, width=width,
        thickness=Measure(board.thickness, "panel thickness", source="book"), grain=board.grain, edges=edges,
        hand=panel.side.value if panel.side is not None else "", ends=ends, finish=finish, coats=coats,
    )  # fmt: skip


def _given(value: float | None, name: str) -> Measure | None:
    return None if value is None else Measure(value, name, source="job")


def _side_of(front: SetOut, panel: Panel) -> Measure:
    """Height of the front's lining on the side that the panel closes. [mm]"""
    if front.outer_low is not None and panel.side is not None and front.falls_to == panel.side.value:
        return front.outer_low
    return front.outer_height


def _end_width(panel: Panel, build_up: AnyBuildUp, leaf_board: Board) -> Measure:
    """Lining depth, the leaf's thickness where it lies on, so that both faces are flush, and what is left for scribing. [mm]"""
    width = Measure(build_up.lining_depth, "lining depth", source=f"build-up {build_up.name}")
    if isinstance(build_up, PlainLayOnBuildUp):
        width = width + Measure(leaf_board.thickness, "leaf thickness", source="book")
    if panel.scribe:
        width = width + Measure(panel.scribe, "left for scribing", source="job")
    return width.named("end panel width")
