"""The job in whole numbers, as bounds and search see it.

Lengths are hundredths of a mm. Each piece and each trimmed sheet is taken one kerf longer and wider than it is;
a cut then takes nothing away and sizes add up exactly. A piece as long as the sheet still fits, and a rest no wider
than the kerf is nothing. Pieces of one size are one *kind*, whatever they are called.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rodbook.boards.asked.prices import PriceScale
from rodbook.boards.models import Piece, Saw, Sheet, hundredths

__all__ = ["Kind", "Stock", "Task", "cuts_needed", "task_of"]

DEEPEST = 40
"""Without a limit on turns the search still nests runs of cuts no deeper than this; nobody would saw it."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Pieces of one size: kerf-enlarged `length` and `width`, and the numbers of the pieces that have it."""

    length: int
    width: int
    may_turn: bool
    quantity: int
    pieces: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Stock:
    """A sheet: kerf-enlarged usable `length` and `width`, price in whole units, how many (None: no end)."""

    length: int
    width: int
    price: int
    quantity: int | None


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be solved; ``lies[s][k]`` holds the (length, width) in which kind k may lie on sheet s."""

    kinds: tuple[Kind, ...]
    stocks: tuple[Stock, ...]
    kerf: int
    trim: int
    max_turns: int | None
    scale: PriceScale
    lies: tuple[tuple[tuple[tuple[int, int], ...], ...], ...]

    @property
    def most_cut_levels(self) -> int:
        """How many runs of cuts in one direction the search lets follow on each other."""
        return DEEPEST if self.max_turns is None else self.max_turns + 1


def cuts_needed(piece: tuple[int, int], board: tuple[int, int]) -> int:
    """Count the directions in which a board must be cut to leave a piece of this length and width."""
    return int(piece[0] < board[0]) + int(piece[1] < board[1])


def task_of(pieces: Sequence[Piece], sheets: Sequence[Sheet], saw: Saw) -> Task:
    """Turn a checked job into whole numbers."""
    kerf, trim = hundredths(saw.kerf), hundredths(saw.edge_trim)
    scale = PriceScale.of(sheet.price for sheet in sheets)
    stocks = tuple(
        Stock(
            length=hundredths(sheet.length) - 2 * trim + kerf,
            width=hundredths(sheet.width) - 2 * trim + kerf,
            price=scale.units(sheet.price),
            quantity=sheet.quantity,
        )
        for sheet in sheets
    )
    kinds = _kinds(pieces, kerf)
    levels = DEEPEST if saw.max_turns is None else saw.max_turns + 1
    lies = tuple(tuple(_ways_to_lie(kind, stock, kerf, levels) for kind in kinds) for stock in stocks)
    return Task(kinds, stocks, kerf, trim, saw.max_turns, scale, lies)


def _kinds(pieces: Sequence[Piece], kerf: int) -> tuple[Kind, ...]:
    """Gather pieces of one size, in the order in which the sizes first come."""
    results: dict[tuple[int, int, bool], list[int]] = {}
    for number, piece in enumerate(pieces):
        length, width = hundredths(piece.length), hundredths(piece.width)
        turns = piece.may_turn and length != width
        if turns:
            length, width = max(length, width), min(length, width)
        results.setdefault((length, width, turns), []).append(number)
    return tuple(
        Kind(length + kerf, width + kerf, turns, sum(pieces[n].quantity for n in numbers), tuple(numbers))
        for (length, width, turns), numbers in results.items()
    )


def _ways_to_lie(kind: Kind, stock: Stock, kerf: int, levels: int) -> tuple[tuple[int, int], ...]:
    """List the ways one piece alone can be had from one sheet."""
    board = (stock.length, stock.width)
    ways = [(kind.length, kind.width)]
    if kind.may_turn:
        ways.append((kind.width, kind.length))
    return tuple(
        way
        for way in ways
        if way[0] <= board[0] and way[1] <= board[1] and min(board) > kerf and cuts_needed(way, board) <= levels
    )
