"""Figures of the book as Measures that say where they come from."""

from __future__ import annotations

from rodbook.job.book import AnyBuildUp, Board
from rodbook.working import Measure

__all__ = ["given", "thickness_of"]


def given(build_up: AnyBuildUp, value: float, name: str) -> Measure:
    """A figure of a build-up. [mm]

    >>> from types import SimpleNamespace
    >>> print(given(SimpleNamespace(name="inset, painted"), 3.0, "margin").working())
    margin = 3.0 (build-up inset, painted)
    """
    return Measure(value, name, source=f"build-up {build_up.name}")


def thickness_of(board: Board, name: str) -> Measure:
    """Thickness of a board, named for the part that is made from it. [mm]"""
    return Measure(board.thickness, name, source=f"book: {board.name}")
