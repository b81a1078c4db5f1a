"""What a family says of its fronts under a raked head, where families differ."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rodbook.job.build_ups import BuildUpBase
from rodbook.setout.asked import Stock
from rodbook.setout.dimensions import Dimension
from rodbook.setout.raked.leaves import RakedLeaf
from rodbook.setout.raked.line import RakedFrame, SlopingLine
from rodbook.working import Measure

__all__ = ["Across", "Opening", "RakedRules", "SightLine"]


@dataclass(frozen=True)
class Across:
    """Widths of a front and where its leaves stand. [mm]

    Parameters
    ----------
    width, gap, block : Measure
        Of a leaf, between two, and over all of them.
    first : Measure
        First leaf from the lining's left face.
    edge : Measure
        From the inside of a leg to the leaf.
    lap : Measure, optional
        How far a leaf lies over the edge of what carries it; none where it stands within its lining.
    """

    width: Measure
    gap: Measure
    block: Measure
    first: Measure
    edge: Measure
    lap: Measure | None


@dataclass(frozen=True)
class Opening:
    """What the leaves of a front are worked out between. [mm]

    Parameters
    ----------
    exact : Measure
        Width of a leaf before it is rounded.
    lapped : Measure, optional
        Width between the edges that leaves lie over; none where they stand within their lining.
    """

    exact: Measure
    lapped: Measure | None


@dataclass(frozen=True)
class SightLine:
    """Inside of the trim before its heights are taken: width, the line of its head, and its foot over a sill. [mm]"""

    width: Measure
    line: SlopingLine
    base: Measure | None


@dataclass(frozen=True)
class RakedRules[M: BuildUpBase]:
    """How a family differs from others under a raked head.

    Parameters
    ----------
    opening : callable
        Leaf width and what it laps, from build-up, stock, clear width and number of leaves.
    top : callable
        The line of the leaves' tops, before they are rounded, from the underside of the head.
    foot : callable
        Foot of the leaves over a sill, from its upper face. [mm]
    under : callable
        What is seen under the leaves over a sill. [mm]
    side : callable
        What is seen beside the leaves. [mm]
    over : callable
        What is seen over each corner of the leaves once they are rounded, square to the slope. [mm]
    sight : callable
        Inside of the trim, from frame, widths, underside of the head, leaves' line, lining thickness and leaves' foot.
    bearing : callable
        Of the trim on the lining, from its thickness and the widths. [mm]
    needs_trim : bool
        Whether there is no such front without trim.
    """

    opening: Callable[[M, Stock, Measure, int], Opening]
    top: Callable[[M, SlopingLine], SlopingLine]
    foot: Callable[[M, Measure], Measure]
    under: Callable[[M], Measure]
    side: Callable[[M, Across], Dimension]
    over: Callable[[M, SlopingLine, Sequence[RakedLeaf]], list[Dimension]]
    sight: Callable[[M, RakedFrame, Across, SlopingLine, SlopingLine, Measure, Measure], SightLine]
    bearing: Callable[[M, Measure, Across], Measure]
    needs_trim: bool = False
