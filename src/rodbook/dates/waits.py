"""When what waits may begin, and when what is waited for has to be over: one formula each way, for numbers or arrays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rodbook.dates.calendars import WorkCalendar
from rodbook.dates.model import Wait, quarters_of

__all__ = ["IMPOSSIBLE", "Gap", "gap_of"]

IMPOSSIBLE = -(10**9)
"""Stands for: no end is early enough. [quarters]"""

type Times = NDArray[np.float64]


@dataclass(frozen=True)
class Gap:
    r"""A wait in quarters of the calendar.

    Parameters
    ----------
    working : int
        [quarters]
    days : int
        Mornings to wait for; 0 for none.
    drying : int
        [quarters]
    nights : int
        Mornings by which it is dry however late it was coated; 0 where nothing dries.
    day : int
        Quarters in a day.

    Notes
    -----
    With e the end, L a day's quarters and D(e) = max(1, ceil(e/L)) the number of days begun by then:

    .. math:: s \ge e + w, \quad s \ge L (D(e) + d - 1), \quad s \ge \min(e + h, L (D(e) + n - 1))
    """

    working: int
    days: int
    drying: int
    nights: int
    day: int

    def earliest(self, end: int) -> int:
        """First quarter with which what waits may begin."""
        begun = max(1, -(-end // self.day))
        found = end + self.working
        if self.days:
            found = max(found, self.day * (begun + self.days - 1))
        if self.nights:
            found = max(found, min(end + self.drying, self.day * (begun + self.nights - 1)))
        return found

    def earliest_of(self, ends: Times, late_days: Times | float = 0.0) -> Times:
        """The same for many ends at once, with lead times that take longer. [quarters, days]"""
        begun = np.maximum(1.0, np.ceil(ends / self.day - 1e-9))
        found = ends + self.working
        if self.days:
            found = np.maximum(found, self.day * (begun + self.days + late_days - 1))
        if self.nights:
            dry = np.minimum(ends + self.drying, self.day * (begun + self.nights - 1))
            found = np.maximum(found, dry)
        return found

    def latest(self, start: int) -> int:
        """Last end with which what waits may still begin at `start`; IMPOSSIBLE where there is none."""
        found = start - self.working
        if self.days:
            found = min(found, self._evening(start, self.days))
        if self.nights:
            found = min(found, max(start - self.drying, self._evening(start, self.nights)))
        return found

    def _evening(self, start: int, mornings: int) -> int:
        days = start // self.day - mornings + 1
        return self.day * days if days >= 1 else IMPOSSIBLE


def gap_of(wait: Wait, calendar: WorkCalendar) -> Gap:
    """A wait on a calendar."""
    drying = quarters_of(wait.drying)
    nights = calendar.nights_for(wait.drying) if drying else 0
    return Gap(wait.working, wait.days, drying, nights, calendar.quarters)
