"""Names of the rates that money reckons with, and what a unit counts."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

__all__ = ["PREPARATION", "REJECTS", "Counted", "RateName", "Way", "counted_in", "per_what"]


class Way(StrEnum):
    """Who does what to a kind of part: the mixtures that make sense."""

    SITE = "all on site"
    FINISHED_OUT = "cut on site, finished by the workshop"
    BOUGHT_CUT = "bought cut"
    BOUGHT = "bought finished and bored"


class RateName(StrEnum):
    """A rate that is the same for every way of making, as a book calls it."""

    CREW_HOUR = "crew hour"
    SET_UP = "set up"
    CARRY_A_SHEET = "carry a sheet"
    BREAK_DOWN = "break down"
    SIZE_A_PART = "size a part"
    PREPARE_EDGES = "prepare edges"
    BORE_A_CUP = "bore a cup"
    BORE_A_PLATE = "bore a plate"
    APPLY_A_COAT = "apply a coat"
    PAINT = "paint"
    CLEAN_UP = "clean up"
    WASTE_AWAY = "waste away"
    BATCH_SET_UP = "batch set up"
    LIFT_ALONE = "lift alone"
    INTERRUPTIONS = "interruptions"
    WORKING_DAY = "working day"
    PAINTER_HOUR = "painter hour"
    LEAD_TIME = "lead time"
    PAY_THE_MERCHANT = "pay the merchant"
    PAY_THE_WORKSHOP = "pay the workshop"
    OVERHEAD = "overhead"
    OVERHEAD_ON_COST = "overhead on cost"
    MARGIN = "margin"
    MARK_UP = "mark-up"
    CONFIDENCE = "confidence"
    PRICE_HOLDS = "price holds"


REJECTS: Mapping[Way, str] = {way: f"rejects, {way}" for way in Way}
"""What the share of rejects of each way is called."""

PREPARATION: Mapping[Way, str] = {way: f"painter's preparation, {way}" for way in Way}
"""And the painter's time for what comes of it."""


class Counted(StrEnum):
    """What the first word of a unit counts."""

    MINUTES = "minutes"
    CURRENCY = "currency"


def counted_in(unit: str) -> str:
    """What a unit counts, as it stands before the stroke.

    >>> counted_in("minutes/sheet") == Counted.MINUTES, counted_in("kg")
    (True, 'kg')
    """
    return unit.partition("/")[0]


def per_what(unit: str) -> str:
    """What a unit counts by, as it stands behind the stroke.

    >>> per_what("minutes/sheet"), per_what("kg")
    ('sheet', '')
    """
    return unit.partition("/")[2]
