"""What a family of build-ups is to the rest of the program, and the table of those there are.

A family says how it is set out, and a few facts that others ask: who wants to know something of a build-up asks
`family_of`, and never looks which family it is. `rodbook.setout.families` registers those that come with Rodbook.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Protocol

from rodbook.job.build_ups import AnyBuildUp, BuildUpBase
from rodbook.job.build_ups import registry as documents
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.dimensions import DimensionName
from rodbook.setout.linings import Clear
from rodbook.setout.model import SetOut
from rodbook.setout.raked.line import RakedFrame
from rodbook.working import Measure

__all__ = ["Edge", "Family", "Span", "Surround", "families", "family_named", "family_of", "forget", "register"]


class Surround(StrEnum):
    """What the leaves of a closed front are seen between."""

    LINING = "lining"
    TRIM = "trim"
    NOTHING = "nothing"

    @property
    def beside(self) -> DimensionName:
        """The gap that is seen between it and the leaves at the sides."""
        return _GAPS[self][0]

    @property
    def over(self) -> DimensionName:
        """The gap that is seen over the leaves."""
        return _GAPS[self][1]


_GAPS = {
    Surround.LINING: (DimensionName.MARGIN_AT_SIDE, DimensionName.GAP_OVER),
    Surround.TRIM: (DimensionName.MARGIN_TO_TRIM, DimensionName.MARGIN_TO_TRIM),
    Surround.NOTHING: (DimensionName.REVEAL_AT_SIDE, DimensionName.REVEAL_OVER),
}


@dataclass(frozen=True)
class Edge:
    """A face of what stands at a front's side in a level section: of that kind, towards the wall or towards the middle.

    `PartKind.DOOR` stands for whatever the front has there, a leaf or a row without leaves.
    """

    kind: PartKind
    inner: bool


@dataclass(frozen=True)
class Span:
    """What a level section dimensions at a front's side: from one face to another.

    Parameters
    ----------
    word : str
        As it stands in the drawing.
    start, end : Edge
    size : Measure
        How it came about. [mm]
    """

    word: str
    start: Edge
    end: Edge
    size: Measure


class ClearFor[M: BuildUpBase](Protocol):
    """Clear size inside the linings that gives a wanted leaf."""

    def __call__(self, build_up: M, stock: Stock, leaf: tuple[Measure, Measure], *, leaves: int, sill: bool) -> Clear:
        """Width and height. [mm]"""


def _no(_build_up: object) -> bool:
    return False


@dataclass(frozen=True)
class Family[M: BuildUpBase]:
    """A way of building fronts.

    Parameters
    ----------
    model : type
        Of its build-ups in a book.
    set_out : callable
        A level front from a build-up, its stock and its frame.
    clear_for : callable
    within : bool
        Whether the leaf stands within its lining, flush with the lining's front edge; else it lies over edges.
    surround : Surround
        What the leaves are seen between.
    asked : callable
        What the build-up asks of a gap of its own; none where nobody asks anything of it.
    across : callable
        What a level section dimensions at the side, from the outside of the lining inwards.
    set_out_raked : callable, optional
        A front under a raked head; none where the family has no such fronts.
    head_bearing : callable
        How far the trim bears over the head, from what it bears at the sides and the lining's thickness. [mm]
    divides_pair : callable
        Whether a pair has a division behind its meeting gap.
    shares_edge : callable
        Whether the front beside it lies over the other half of the same edge, a meeting gap away.
    """

    model: type[M]
    set_out: Callable[[M, Stock, Frame], SetOut]
    clear_for: ClearFor[M]
    within: bool
    surround: Surround
    asked: Callable[[M, DimensionName], Measure | None]
    across: Callable[[M, SetOut], tuple[Span, ...]]
    set_out_raked: Callable[[M, Stock, RakedFrame], SetOut] | None = None
    head_bearing: Callable[[M, float, float], float] = lambda _build_up, at_side, _lining: at_side
    divides_pair: Callable[[M], bool] = _no
    shares_edge: Callable[[M], bool] = _no

    @property
    def name(self) -> str:
        """The word by which books name it."""
        return documents.word_of(self.model)


_FAMILIES: dict[str, Family[Any]] = {}


def register(family: Family[Any]) -> None:
    """Add a family, its build-ups to books and its set-out to fronts.

    Raises
    ------
    ValueError
        If there is one of that name.
    """
    documents.register(family.model)
    _FAMILIES[family.name] = family


def forget(family: Family[Any]) -> None:
    """Take a family out again."""
    del _FAMILIES[family.name]
    documents.forget(family.model)


def families() -> tuple[Family[Any], ...]:
    """All that are registered, in the order in which they were."""
    return tuple(_FAMILIES.values())


def family_named(name: str) -> Family[Any]:
    """The family of that name; whoever has a build-up or a set-out has one that is registered."""
    return _FAMILIES[name]


def family_of(build_up: AnyBuildUp) -> Family[Any]:
    """The family of a build-up."""
    return _FAMILIES[build_up.family]
