"""When what waits may begin, and when what is waited for has to be over: one formula each way, for numbers or arrays.

What dries goes by the clock, through nights, weekends and holidays. A lead time goes by the days on which the supplier works,
whatever the firm does; what comes on a day on which the firm is closed is taken in on its next working day.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from rodbook.dates.calendars import WorkCalendar
from rodbook.dates.model import OpenDays, Wait, quarters_of

__all__ = ["IMPOSSIBLE", "QUARTERS_A_DAY", "Clock", "Gap", "Lead", "clock_of", "gap_of"]

IMPOSSIBLE = -(10**9)
"""Stands for: no end is early enough. [quarters]"""

QUARTERS_A_DAY = 96
"""By the clock."""

TINY = 1e-6
"""Numbers that were added up in another turn are this near each other. [quarters]"""

LONGEST_LEAD = 1500
"""Days by the clock after the calendar's end for which a supplier's days are known; beyond, every day counts as one."""

type Times = NDArray[np.float64]


@dataclass(frozen=True)
class Clock:
    """The firm's working days by the clock; after the last that is known, every day counts as one.

    Parameters
    ----------
    days : tuple of int
        Their ordinals.
    quarters : int
        Working quarters in a day.
    """

    days: tuple[int, ...]
    quarters: int

    @cached_property
    def _array(self) -> Times:
        return np.array(self.days, dtype=float)

    def ordinal(self, number: int) -> int:
        """Ordinal of a working day by its number, the first being 0."""
        beyond = number - len(self.days) + 1
        return self.days[number] if beyond <= 0 else self.days[-1] + beyond

    def number(self, ordinal: int) -> int:
        """Number of the first working day on or after a day."""
        beyond = ordinal - self.days[-1]
        return bisect_left(self.days, ordinal) if beyond <= 0 else len(self.days) - 1 + beyond

    def ordinals(self, numbers: Times) -> Times:
        """The same for many."""
        beyond = np.maximum(0.0, numbers - len(self.days) + 1)
        known: Times = self._array[np.clip(numbers, 0, len(self.days) - 1).astype(np.int64)]
        return known + beyond

    def numbers(self, ordinals: Times) -> Times:
        """The same for many."""
        beyond = np.maximum(0.0, ordinals - self.days[-1])
        place = np.searchsorted(self._array, np.minimum(ordinals, self.days[-1]), "left")
        return place.astype(float) + beyond


@dataclass(frozen=True)
class Lead:
    """A lead time on a supplier's days: what is ordered on a day comes on the n-th of them after it.

    Parameters
    ----------
    days : int
        [working days of the supplier]
    open : tuple of int
        Ordinals of the supplier's days; after the last, every day counts as one.
    clock : Clock
    """

    days: int
    open: tuple[int, ...]
    clock: Clock

    @cached_property
    def _array(self) -> Times:
        return np.array(self.open, dtype=float)

    def _nth(self, number: int) -> int:
        beyond = number - len(self.open) + 1
        return self.open[number] if beyond <= 0 else self.open[-1] + beyond

    def comes_by(self, number: int, late_days: int = 0) -> int:
        """Number of the firm's working day on which it is there, by that of the day of the order."""
        ordered, days = self.clock.ordinal(number), self.days + late_days
        comes = self._nth(bisect_right(self.open, ordered) + days - 1) if days else ordered
        return self.clock.number(comes)

    def ordered_by(self, number: int, late_days: int = 0) -> int:
        """Number of the firm's last working day on which it has to be ordered to be there on another; below 0 for none."""
        needed, days = self.clock.ordinal(number), self.days + late_days
        if not days:
            return number
        place = bisect_right(self.open, needed) - days
        return self.clock.number(self._nth(place)) - 1 if place >= 0 else -1

    def comes_by_of(self, numbers: Times, late_days: Times | float = 0.0) -> Times:
        """As `comes_by`, for many."""
        ordered, days = self.clock.ordinals(numbers), self.days + np.asarray(late_days)
        place = np.searchsorted(self._array, ordered, "right") + days - 1
        known: Times = self._array[np.clip(place, 0, len(self.open) - 1).astype(np.int64)]
        comes = known + np.maximum(0.0, place - len(self.open) + 1)
        return self.clock.numbers(np.where(days > 0, comes, ordered))

    def ordered_by_of(self, numbers: Times, late_days: Times | float = 0.0) -> Times:
        """As `ordered_by`, for many."""
        needed, days = self.clock.ordinals(numbers), self.days + np.asarray(late_days)
        place = np.searchsorted(self._array, needed, "right") - days
        after: Times = self._array[np.clip(place, 0, len(self.open) - 1).astype(np.int64)]
        result = np.where(days > 0, self.clock.numbers(after) - 1, numbers)
        return np.where((numbers >= 0) & (place >= 0), result, -1.0)


@dataclass(frozen=True)
class Gap:
    r"""A wait on a calendar.

    Parameters
    ----------
    clock : Clock
    working : int
        [quarters]
    drying : int
        By the clock. [quarters]
    lead : Lead, optional

    Notes
    -----
    With e the end, L a day's quarters, D(e) = max(1, ceil(e/L)) the number of days begun by then and o(k) the k-th working
    day by the clock (in quarters, its morning), the start s satisfies

    .. math:: s \ge e + w, \quad o(\lfloor s/L \rfloor + 1) + s \bmod L \ge o(D(e)) + e - L (D(e) - 1) + h

    and, where n is the lead time, day floor(s/L) + 1 is not before the n-th of the supplier's days after day D(e).
    """

    clock: Clock
    working: int = 0
    drying: int = 0
    lead: Lead | None = None

    @property
    def day(self) -> int:
        """Working quarters in a day."""
        return self.clock.quarters

    @property
    def overnight(self) -> bool:
        """Whether everything is dry in the morning, however late it was coated."""
        return self.drying <= QUARTERS_A_DAY - self.day

    @property
    def least(self) -> int:
        """Working time that passes at the least, whenever it is. [quarters]"""
        if self.lead is None:
            return self.working
        nights = min(self.lead.comes_by(d) - d for d in range(len(self.clock.days)))
        return max(self.working, self.day * max(0, nights - 1))

    def earliest(self, end: int, late_days: int = 0) -> int:
        """First quarter with which what waits may begin, a delivery being so many days late."""
        number = max(1, -(-end // self.day)) - 1
        result = end + self.working
        if self.lead is not None:
            result = max(result, self.day * self.lead.comes_by(number, late_days))
        if self.drying:
            dry = QUARTERS_A_DAY * self.clock.ordinal(number) + end - self.day * number + self.drying
            then = self.clock.number(-(-(dry - self.day) // QUARTERS_A_DAY))
            result = max(result, self.day * then + max(0, dry - QUARTERS_A_DAY * self.clock.ordinal(then)))
        return result

    def earliest_of(self, ends: Times, late_days: Times | float = 0.0, ordered: int = 0) -> Times:
        """The same for many ends at once; what is ordered is ordered on that day, by its number, or later."""
        number = np.maximum(1.0, np.ceil(ends / self.day - 1e-9)) - 1
        result = ends + self.working
        if self.lead is not None:
            result = np.maximum(result, self.day * self.lead.comes_by_of(np.maximum(number, ordered), late_days))
        if self.drying:
            dry = QUARTERS_A_DAY * self.clock.ordinals(number) + ends - self.day * number + self.drying
            then = self.clock.numbers(np.ceil((dry - self.day) / QUARTERS_A_DAY - 1e-9))
            result = np.maximum(
                result, self.day * then + np.maximum(0.0, dry - QUARTERS_A_DAY * self.clock.ordinals(then))
            )
        return result

    def latest(self, start: int) -> int:
        """Last end with which what waits may still begin at `start`; IMPOSSIBLE where there is none."""
        result = start - self.working
        number = start // self.day
        if start < 0:
            return min(result, IMPOSSIBLE) if self.lead or self.drying else result
        if self.lead is not None:
            ordered = self.lead.ordered_by(number)
            result = min(result, self.day * (ordered + 1) if ordered >= 0 else IMPOSSIBLE)
        if self.drying:
            over = QUARTERS_A_DAY * self.clock.ordinal(number) + start - self.day * number - self.drying
            result = min(result, self._ended_by(over))
        return result

    def _ended_by(self, over: int) -> int:
        """Last end that is not after a time by the clock."""
        first = QUARTERS_A_DAY * self.clock.ordinal(0)
        if over <= first:
            return 0 if over == first else IMPOSSIBLE
        number = self.clock.number(-(-over // QUARTERS_A_DAY)) - 1
        return self.day * number + min(self.day, over - QUARTERS_A_DAY * self.clock.ordinal(number))

    def latest_of(self, starts: Times, late_days: Times | float = 0.0) -> Times:
        """As `latest`, for many starts at once; minus infinity where there is no end early enough. [quarters, days]"""
        result = starts - self.working
        if self.lead is None and not self.drying:
            return result
        number = np.floor(starts / self.day + TINY)
        if self.lead is not None:
            ordered = self.lead.ordered_by_of(number, late_days)
            result = np.minimum(result, np.where(ordered >= 0, self.day * (ordered + 1), -math.inf))
        if self.drying:
            known = np.maximum(number, 0.0)
            over = (
                QUARTERS_A_DAY * self.clock.ordinals(known) + np.maximum(starts - self.day * known, 0.0) - self.drying
            )
            last = self.clock.numbers(np.ceil(over / QUARTERS_A_DAY - 1e-9)) - 1
            ended = self.day * last + np.minimum(self.day, over - QUARTERS_A_DAY * self.clock.ordinals(last))
            first = QUARTERS_A_DAY * self.clock.ordinal(0)
            ended = np.where(over > first + TINY, ended, np.where(over >= first - TINY, 0.0, -math.inf))
            result = np.minimum(result, ended)
        return np.where(number < 0, -math.inf, result)


@lru_cache(maxsize=64)
def clock_of(calendar: WorkCalendar) -> Clock:
    """A firm's working days by the clock."""
    return Clock(tuple(day.toordinal() for day in calendar.days), calendar.quarters)


@lru_cache(maxsize=256)
def _opened(open_days: OpenDays, first: int, last: int) -> tuple[int, ...]:
    """Ordinals of a supplier's days; every day where it has none at all."""
    days = open_days.between(Date.fromordinal(first), Date.fromordinal(last))
    return tuple(day.toordinal() for day in days) or tuple(range(first, last + 1))


def gap_of(wait: Wait, calendar: WorkCalendar) -> Gap:
    """A wait on a calendar."""
    clock = clock_of(calendar)
    lead: Lead | None = None
    if wait.days or wait.supplier:
        days = clock.days if wait.open is None else _opened(wait.open, clock.days[0], clock.days[-1] + LONGEST_LEAD)
        lead = Lead(wait.days, days, clock)
    return Gap(clock, wait.working, quarters_of(wait.drying), lead)
