"""Time for a search: what the clock allows, and what is counted.

Work is counted in seconds too: every step adds what it takes one core of an ordinary machine, reckoned from its size
alone. A search that is given so many counted seconds makes the same steps on every machine and at every load, and gives
the same plan each time, unless the clock cuts in before they are used up. What a step takes was measured on one
machine; it need not be right, only alike each time.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from time import monotonic

__all__ = ["COUNTED_SHARE", "Clock"]

COUNTED_SHARE = 0.4
"""How much of the time that a search is meant to take is counted as work: a step takes longer on most machines than where it
was measured. House assumption. [1]"""


@dataclass(slots=True)
class Clock:
    """The time of one search: `seconds` by the clock from `start`, and no more than `effort` counted.

    Attributes
    ----------
    seconds : float
        The most by the clock; infinite where only counted work ends the search. [s]
    start : float
        When it began. [s]
    effort : float or None
        Counted seconds; None where only the clock counts. [s]
    is_cancelled : callable
        Asked whenever time is looked at.
    spent : float
        Seconds counted so far. [s]
    cancelled : bool
        Whether it was called off.
    """

    seconds: float
    start: float
    effort: float | None = None
    is_cancelled: Callable[[], bool] | None = None
    now: Callable[[], float] = monotonic
    spent: float = 0.0
    cancelled: bool = False

    @property
    def given(self) -> float:
        """How much there was in all. [s]"""
        return self.seconds if self.effort is None else min(self.seconds, self.effort)

    @property
    def meant(self) -> float:
        """How long the search is meant to take: its limit by the clock or, without one, by what is counted. [s]"""
        return self.given / COUNTED_SHARE if math.isinf(self.seconds) else self.seconds

    @property
    def counts(self) -> bool:
        """Whether work is counted."""
        return self.effort is not None

    def spend(self, seconds: float) -> None:
        """Count work that was done."""
        self.spent += seconds

    def by_clock(self) -> float:
        """Say how much the clock leaves; nothing once it was called off. [s]"""
        if not self.cancelled and self.is_cancelled is not None:
            self.cancelled = self.is_cancelled()
        return 0.0 if self.cancelled else self.seconds - (self.now() - self.start)

    def left(self) -> float:
        """Say how much is left, by the clock and as counted. [s]"""
        left = self.by_clock()
        return left if self.effort is None else min(left, self.effort - self.spent)

    def out_of_time(self) -> bool:
        """Say whether nothing is left."""
        return self.left() <= 0

    def struck(self) -> bool:
        """Say whether the clock ran out, or it was called off, whatever was counted."""
        return self.by_clock() <= 0
