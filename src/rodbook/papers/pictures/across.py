"""A level cut through the side of a front, read off its assembly: what stands where, from the wall inwards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import kinds_that
from rodbook.setout import Assembly, Body, PartKind, SetOut, family_of
from rodbook.working import Measure

__all__ = ["Across", "Board", "Meeting", "across", "cut_height", "meeting"]

FRONTS = kinds_that(lambda facts: facts.opens)
"""What stands at the side of a front: the leaf, or what is there without leaves."""


@dataclass(frozen=True)
class Board:
    """Something cut through: from and to across, from and to in depth, and the part that it is. [mm, real]"""

    near: float
    far: float
    back: float
    front: float
    body: Body

    @property
    def thickness(self) -> Measure:
        """Of the part."""
        assert self.body.part is not None, "what is cut at a front's side is no piece that only runs on past it"
        return self.body.part.thickness

    @property
    def width(self) -> Measure:
        """Of the part."""
        assert self.body.part is not None, "what is cut at a front's side is no piece that only runs on past it"
        return self.body.part.width


@dataclass(frozen=True)
class Across:
    """A front from its side inwards. [mm, real]

    x runs from the lining's outer face towards the leaf; y from the wall's face towards the room.

    Parameters
    ----------
    boards : mapping of PartKind to Board
        What is cut through, by kind; a leaf, or what there is without leaves, under `PartKind.DOOR`.
    stops : tuple of (float, float, str, Measure)
        What is dimensioned: from, to, what it is called there, and the size itself.
    """

    boards: Mapping[PartKind, Board]
    stops: tuple[tuple[float, float, str, Measure], ...]

    @property
    def lining(self) -> Board:
        """The leg."""
        return self.boards[PartKind.LINING_LEG]

    @property
    def leaf(self) -> Board:
        """The leaf, or what is there without leaves."""
        return self.boards[PartKind.DOOR]

    @property
    def trim(self) -> Board | None:
        """The trim, where there is any."""
        return self.boards.get(PartKind.TRIM_LEG)

    @property
    def carrier(self) -> Board | None:
        """The hinge lining, where there is one."""
        return self.boards.get(PartKind.HINGE_LINING)

    @property
    def ahead(self) -> float:
        """How far anything stands out into the room."""
        return max(self.leaf.front, self.trim.front if self.trim else 0.0)


def _at_side(whole: Assembly, side: str) -> Body:
    """The leaf at a side, else the first thing that opens."""
    kind = next(kind for kind in FRONTS if whole.of(kind))
    ends = sorted(whole.of(kind), key=lambda body: body.across)
    return ends[0] if side == "left" else ends[-1]


def cut_height(body: Body) -> float:
    """Half-way up something. [mm]"""
    foot, top = body.up
    return (foot + top) / 2


def across(set_out: SetOut, build_up: AnyBuildUp, side: Literal["left", "right"] = "left") -> Across:
    """Where everything lies across a front's side, half-way up its leaf.

    Parameters
    ----------
    set_out : SetOut
    build_up : AnyBuildUp
        Of that set-out.
    side : str
    """
    whole = set_out.assembly
    leaf = _at_side(whole, side)
    height = cut_height(leaf)
    wide = set_out.outer_width.value
    boards: dict[PartKind, Board] = {}
    for body in whole.of(PartKind.LINING_LEG, PartKind.HINGE_LINING, PartKind.TRIM_LEG):
        if body.side == side and body.level(height):
            boards[body.kind] = _board(body, height, side, wide)
    boards[PartKind.DOOR] = _board(leaf, height, side, wide)
    stops = []
    for span in family_of(build_up).across(build_up, set_out):
        if span.start.kind in boards and span.end.kind in boards:
            start, end = (
                boards[edge.kind].far if edge.inner else boards[edge.kind].near for edge in (span.start, span.end)
            )
            if end - start > 1e-6:
                stops.append((start, end, span.word, span.size))
    return Across(boards, tuple(stops))


def _board(body: Body, height: float, side: str, wide: float) -> Board:
    """All that a level cut meets of a body, as one rectangle from its side's outer face."""
    corners = [corner for rectangle in body.level(height) for corner in rectangle]
    xs, zs = [x if side == "left" else wide - x for x, _ in corners], [z for _, z in corners]
    return Board(min(xs), max(xs), min(zs), max(zs), body)


@dataclass(frozen=True)
class Meeting:
    """Where two leaves meet, x from the middle of their gap to the right. [mm, real]

    Parameters
    ----------
    leaves : tuple of Body
        The two.
    middle : float
        Of the gap, from the lining's left outer face.
    height : float
        Of the cut above the floor.
    divisions : tuple of Board
        What stands behind the gap, from the left.
    strip : Board, optional
        What covers it.
    """

    leaves: tuple[Body, Body]
    middle: float
    height: float
    divisions: tuple[Board, ...]
    strip: Board | None


def meeting(set_out: SetOut) -> Meeting:
    """Where two leaves of a front meet: over its division, where it has one, else the first two."""
    whole = set_out.assembly
    doors = sorted(whole.of(PartKind.DOOR), key=lambda body: body.face[0])
    boards = whole.of(PartKind.DIVISION)
    pairs = list(pairwise(doors))
    middles = [(a.face[2] + b.face[0]) / 2 for a, b in pairs]
    at = 0
    if boards:
        centre = (min(b.across[0] for b in boards) + max(b.across[1] for b in boards)) / 2
        at = min(range(len(pairs)), key=lambda n: abs(middles[n] - centre))
    pair, middle = pairs[at], middles[at]
    height = cut_height(pair[0])
    strips = [s for s in whole.of(PartKind.STRIP) if s.across[0] < middle < s.across[1]]
    return Meeting(
        pair,
        middle,
        height,
        tuple(_from(middle, b, height) for b in boards if b.level(height)),
        _from(middle, strips[0], height) if strips else None,
    )


def _from(middle: float, body: Body, height: float) -> Board:
    result = _board(body, height, "left", 0.0)
    return Board(result.near - middle, result.far - middle, result.back, result.front, body)
