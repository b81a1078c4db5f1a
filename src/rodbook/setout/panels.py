"""Fixed panels of a given size."""

from __future__ import annotations

from rodbook.job.book import Board
from rodbook.job.kinds import PartKind
from rodbook.job.models import Panel
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import Part
from rodbook.working import Measure

__all__ = ["panel_part"]


def panel_part(panel: Panel, board: Board, *, finish: str, coats: int) -> Part:
    """A rectangular panel as a part; finished like the rest of the job.

    Parameters
    ----------
    panel : Panel
    board : Board
    finish : str
    coats : int
    """
    return Part(
        PartKind.PANEL,
        board.name,
        sectional=False,
        length=Measure(panel.length, "panel length", source="job"),
        width=Measure(panel.width, "panel width", source="job"),
        thickness=Measure(board.thickness, "panel thickness", source="book"),
        grain=board.grain,
        edges=seen_edges(PartKind.PANEL),
        finish=finish,
        coats=coats,
    )
