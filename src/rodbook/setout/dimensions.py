"""The dimensions of a front that something else rests on or looks up, each by a key of its own.

Words stand in a `Measure`; what a dimension *is* stands in its key, so that nobody finds one by what it is called.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum
from typing import Self

from rodbook.working import Measure

__all__ = ["Dimension", "DimensionName"]


class DimensionName(StrEnum):
    """What a dimension is; its value is what it is mostly called."""

    MARGIN_AT_SIDE = "margin at each side"
    GAP_OVER = "gap over the leaf"
    GAP_UNDER = "gap under the leaf"
    MARGIN_TO_TRIM = "margin to the trim"
    REVEAL_AT_SIDE = "reveal at each side"
    REVEAL_OVER = "reveal over the leaf"
    MEETING_GAP = "meeting gap"
    ROW_GAP = "gap between rows"
    LAP_ON_LEG = "lap over each leg"
    LAP_ON_HINGE_LINING = "lap of the leaf over the hinge lining"
    LAP_ON_DIVISION = "lap of the leaf over the division"
    LAP_ON_RAIL = "lap of each row over its rail"
    LAP_OF_STRIP = "lap of the strip over each leaf"
    BEARING = "bearing of the trim on the lining"
    SIGHT_WIDTH = "trim sight width"
    SIGHT_HEIGHT = "trim sight height"
    TONGUE = "tongue of the second leaf"
    FLOOR_FINISH = "floor finish to come"
    PLINTH_HEIGHT = "plinth height"
    PLINTH_SET_BACK = "plinth set back behind the front edge"
    CUT_FOR_PLINTH = "cut out for the plinth"
    OVER_END_PANELS = "width over the end panels"
    SLOPE = "slope of the head, in degrees"


@dataclass(frozen=True)
class Dimension(Measure):
    """A measure that says what it is.

    Parameters
    ----------
    key : DimensionName
    """

    key: DimensionName = DimensionName.MEETING_GAP

    @classmethod
    def of(cls, measure: Measure, key: DimensionName) -> Self:
        """A measure with its key; its name and its working stay.

        >>> gap = Dimension.of(Measure(3.0, "gap between leaves"), DimensionName.MEETING_GAP)
        >>> gap.key.name, gap.working()
        ('MEETING_GAP', 'gap between leaves = 3.0')
        """
        own = {field.name: getattr(measure, field.name) for field in fields(Measure)}
        return cls(**own, key=key)
