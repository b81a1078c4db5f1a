"""The firm's working days: weekdays, holidays, days when it is closed; and between quarters and the clock."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import datetime, time, timedelta

from rodbook.dates.model import QUARTERS_AN_HOUR, Absence, OpenDays, Person
from rodbook.errors import Fault, InputError, Message

__all__ = ["LONGEST_DAYS", "WorkCalendar", "make_calendar", "open_days", "public_holidays"]

LONGEST_DAYS = 520
"""Working days that a programme looks ahead: two years of five-day weeks (house assumption)."""

LONGEST_HOURS = 12.0
"""Longest working day that is taken (house assumption)."""

HOURS_A_DAY = 24


@dataclass(frozen=True)
class WorkCalendar:
    """Working days from the start on, and the hours of each.

    Parameters
    ----------
    days : tuple of date
        In order; the first is the first working day on or after the start.
    quarters : int
        Working quarters of an hour in each day.
    begins : time
        When the day begins; its hours follow without a break, as breaks differ from firm to firm.
    holidays : tuple of (date, str)
        Public holidays that were kept, with their names.
    """

    days: tuple[Date, ...]
    quarters: int
    begins: time = time(8)
    holidays: tuple[tuple[Date, str], ...] = ()

    @property
    def length(self) -> int:
        """Quarters in all."""
        return len(self.days) * self.quarters

    @property
    def night_hours(self) -> float:
        """From the end of a day to the next morning. [h]"""
        return HOURS_A_DAY - self.quarters / QUARTERS_AN_HOUR

    def day_of_start(self, quarter: int) -> Date:
        """Day on which something begins that begins with this quarter."""
        return self.days[min(quarter // self.quarters, len(self.days) - 1)]

    def day_of_end(self, quarter: int) -> Date:
        """Day on which something ends that ends before this quarter."""
        return self.days[min(max(quarter - 1, 0) // self.quarters, len(self.days) - 1)]

    def starts_at(self, quarter: int) -> datetime:
        """By the clock, when a quarter begins; local time without a zone."""
        return self._clock(self.day_of_start(quarter), quarter % self.quarters)

    def ends_at(self, quarter: int) -> datetime:
        """By the clock, when what ends before a quarter has ended; local time without a zone."""
        return self._clock(self.day_of_end(quarter), (quarter - 1) % self.quarters + 1 if quarter else 0)

    def _clock(self, day: Date, quarters: int) -> datetime:
        return datetime.combine(day, self.begins) + timedelta(minutes=15 * quarters)

    def morning(self, day: Date) -> int:
        """First quarter of the first working day on or after a day; `length` where there is none."""
        return bisect_left(self.days, day) * self.quarters

    def evening(self, day: Date) -> int:
        """Quarter after the last of the last working day on or before a day; 0 where there is none."""
        return bisect_right(self.days, day) * self.quarters

    def blocks(self, absences: Iterable[Absence]) -> tuple[tuple[int, int], ...]:
        """Stretches of working time that fall into absences, none of them touching another. [quarters]"""
        spans = sorted((self.morning(a.first), self.evening(a.last)) for a in absences)
        results: list[tuple[int, int]] = []
        for first, last in spans:
            if last <= first:
                continue
            if results and first <= results[-1][1]:
                results[-1] = (results[-1][0], max(results[-1][1], last))
            else:
                results.append((first, last))
        return tuple(results)

    def spans(self, start: int, end: int) -> Iterator[tuple[datetime, datetime]]:
        """A task's stretches by the clock, one for each day that it runs over."""
        while start < end:
            stop = min(end, (start // self.quarters + 1) * self.quarters)
            yield self.starts_at(start), self.ends_at(stop)
            start = stop

    def nights_for(self, hours: float) -> int:
        """Days by the clock from an evening to the first morning by which something that ended then has dried.

        Parameters
        ----------
        hours : float
            [h]
        """
        if hours <= self.night_hours:
            return 1
        return 1 + math.ceil((hours - self.night_hours) / HOURS_A_DAY)


def public_holidays(country: str, years: Sequence[int]) -> dict[Date, str]:
    """Public holidays of a country or of a part of it.

    Parameters
    ----------
    country : str
        ISO 3166 code, such as AT or DE-BY; empty for none.
    years : sequence of int

    Raises
    ------
    InputError
        If there is no such country or part.

    Examples
    --------
    >>> public_holidays("AT", [2026])[Date(2026, 12, 8)]
    'Mariä Empfängnis'
    """
    if not country:
        return {}
    import holidays  # takes a third of a second, which no other command should wait for

    code, _, part = country.upper().partition("-")
    try:
        result = holidays.country_holidays(code, subdiv=part or None, years=list(years))
    except NotImplementedError:
        known = holidays.list_supported_countries().get(code)
        if known:
            answer = Message("dates.holidays_of_parts", country=country, code=code, parts=tuple(known))
        elif known is not None:
            answer = Message("dates.holidays_without_part", country=country, code=code, part=part)
        else:
            answer = Message("dates.no_such_country", country=country)
        raise InputError.at("holidays", answer) from None
    return dict(sorted(result.items()))


def _faults(
    start: Date, weekdays: Iterable[int], hours: float, closed: Sequence[Absence], begins: time
) -> Iterator[Fault]:
    if not set(weekdays):
        yield Fault("weekdays", "dates.no_working_day")
    if not (math.isfinite(hours) and 1 <= hours <= LONGEST_HOURS):
        yield Fault("hours", "dates.hours_out_of_range", hours=hours, most_hours=LONGEST_HOURS)
    elif round(hours * QUARTERS_AN_HOUR, 6) % 1:
        yield Fault("hours", "dates.hours_no_whole_quarters", hours=hours)
    elif begins.hour + begins.minute / 60 + hours > HOURS_A_DAY:
        yield Fault("hours", "dates.hours_past_midnight", hours=hours, begins=begins)
    yield from absence_faults("closed", closed)
    if not 1990 <= start.year <= 2090:
        yield Fault("start", "dates.start_out_of_range", start=start)


def absence_faults(where: str, absences: Sequence[Absence]) -> Iterator[Fault]:
    """A fault for each absence that ends before it begins."""
    for absence in absences:
        if absence.last < absence.first:
            yield Fault(where, "days.end_before_begin", first=absence.first, last=absence.last)


def make_calendar(
    start: Date,
    *,
    weekdays: Iterable[int] = (0, 1, 2, 3, 4),
    hours: float = 8.0,
    begins: time = time(8),
    country: str = "",
    closed: Sequence[Absence] = (),
    length: int = LONGEST_DAYS,
) -> WorkCalendar:
    """A firm's working days from a day on.

    Parameters
    ----------
    start : date
    weekdays : iterable of int
        0 is Monday.
    hours : float
        Of work in a day, in whole quarters. [h]
    begins : time
    country : str
        Whose public holidays are kept, as an ISO 3166 code; none where empty.
    closed : sequence of Absence
        When the firm is closed.
    length : int
        Working days to look ahead.

    Raises
    ------
    InputError
        With every fault.

    Examples
    --------
    >>> calendar = make_calendar(Date(2026, 12, 24), country="AT", length=3)
    >>> [str(day) for day in calendar.days]
    ['2026-12-24', '2026-12-28', '2026-12-29']
    """
    week = set(weekdays)
    faults = list(_faults(start, week, hours, closed, begins))
    years = range(start.year, start.year + 3 + length // 100)
    kept: dict[Date, str] = {}
    try:
        kept = public_holidays(country, years) if 1900 < start.year < 2100 else {}
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)
    results: list[Date] = []
    day, last = start, start + timedelta(days=7 * length + 800)
    while len(results) < length and day < last:
        if day.weekday() in week and day not in kept and not any(a.first <= day <= a.last for a in closed):
            results.append(day)
        day += timedelta(days=1)
    if not results:
        raise InputError.at("closed", "dates.never_open")
    inside = tuple((d, name) for d, name in kept.items() if results[0] <= d <= results[-1])
    return WorkCalendar(tuple(results), round(hours * QUARTERS_AN_HOUR), begins, inside)


def open_days(
    country: str, years: Sequence[int], *, weekdays: Iterable[int] = (0, 1, 2, 3, 4), closed: Sequence[Absence] = ()
) -> OpenDays:
    """Days on which a supplier works: Monday to Friday without public holidays unless told otherwise (common practice).

    Parameters
    ----------
    country : str
        Whose public holidays it keeps, as an ISO 3166 code; none where empty.
    years : sequence of int
        For which the holidays are looked up.
    weekdays : iterable of int
        0 is Monday.
    closed : sequence of Absence

    Raises
    ------
    InputError
        If there is no such country.

    Examples
    --------
    >>> found = open_days("AT", [2026])
    >>> [str(day) for day in found.between(Date(2026, 12, 24), Date(2026, 12, 28))]
    ['2026-12-24', '2026-12-28']
    """
    return OpenDays(tuple(sorted(set(weekdays))), tuple(public_holidays(country, years)), tuple(closed))


def blocks_of(people: Sequence[Person], calendar: WorkCalendar) -> dict[str, tuple[tuple[int, int], ...]]:
    """Days off of each person, by name. [quarters]"""
    return {person.name: calendar.blocks(person.off) for person in people}
