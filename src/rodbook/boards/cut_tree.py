"""The cuts of one sheet: a board, what it is cut into, and so on down to pieces and offcuts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

__all__ = ["Board", "CutDirection", "Row"]

CutDirection = Literal["along", "across"]
"""``along``: the saw runs along the sheet's length and divides its width; ``across``: the other way about."""

type Row = tuple[Literal["cut", "piece", "offcut"], float, float, float, float, str, bool, CutDirection | None, int]
"""A board's own fields, in order, and how many parts it has."""


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Board:
    """A rectangle of board in the cut tree: cut further, or a piece, or an offcut.

    Boards are compared, hashed and kept as the flat list of their `rows`, since cuts may follow on each other a thousand
    times and more.

    Attributes
    ----------
    use : str
        ``cut``, ``piece`` or ``offcut``.
    x, y, length, width : float
        Where it lies on the untrimmed sheet and how big it is. [mm]
    name : str
        The piece's name where it is a piece, else empty.
    turned : bool
        Whether the piece lies turned.
    cut : str or None
        Where `use` is ``cut``: the direction of all the cuts that divide it.
    parts : tuple of Board
        What the cuts yield, in order from its corner, one kerf between each and the next. A rest no wider than the kerf
        goes with the last cut and is not listed.
    """

    use: Literal["cut", "piece", "offcut"]
    x: float
    y: float
    length: float
    width: float
    name: str = ""
    turned: bool = False
    cut: CutDirection | None = None
    parts: tuple[Board, ...] = ()

    def rows(self) -> list[Row]:
        """List this board and all that comes of it, each before its parts: its own fields and the number of its parts."""
        results: list[Row] = []
        waiting = [self]
        while waiting:
            b = waiting.pop()
            results.append((b.use, b.x, b.y, b.length, b.width, b.name, b.turned, b.cut, len(b.parts)))
            waiting.extend(reversed(b.parts))
        return results

    @staticmethod
    def of_rows(rows: Sequence[Row]) -> Board:
        """Put together again what `rows` took apart."""
        done: list[Board] = []
        for use, x, y, length, width, name, turned, cut, number in reversed(rows):
            parts = tuple(reversed(done[len(done) - number :]))
            del done[len(done) - number :]
            done.append(Board(use, x, y, length, width, name, turned, cut, parts))
        return done.pop()

    def __eq__(self, other: object) -> bool:
        """Compare all boards of the tree."""
        return self.rows() == other.rows() if isinstance(other, Board) else NotImplemented

    def __hash__(self) -> int:
        """Hash all boards of the tree."""
        return hash(tuple(self.rows()))

    def __reduce__(self) -> tuple[Callable[[Sequence[Row]], Board], tuple[list[Row]]]:
        """Copy and send it flat."""
        return Board.of_rows, (self.rows(),)

    def __repr__(self) -> str:
        """Say what it is in a line, its parts as a number."""
        inside = f", {len(self.parts)} parts {self.cut}" if self.use == "cut" else ""
        return f"Board({self.use} {self.name!r}, {self.length:g} × {self.width:g} at {self.x:g}, {self.y:g}{inside})"
