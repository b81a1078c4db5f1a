"""Working days and the clock."""

from __future__ import annotations

import math
from datetime import date, datetime, time

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.dates import Absence, OpenDays, make_calendar, public_holidays
from rodbook.dates.model import Wait
from rodbook.dates.waits import IMPOSSIBLE, gap_of
from rodbook.errors import InputError

from .conftest import START


def test_weekends_holidays_and_closed_days_are_left_out() -> None:
    closed = [Absence(date(2026, 12, 10), date(2026, 12, 11))]
    calendar = make_calendar(START, country="AT", closed=closed, length=8)
    assert [day.day for day in calendar.days] == [1, 2, 3, 4, 7, 9, 14, 15]
    assert calendar.holidays == ((date(2026, 12, 8), "Mariä Empfängnis"),)


def test_a_part_of_a_country_has_its_own() -> None:
    assert date(2027, 1, 6) in public_holidays("DE-BY", [2027])
    assert date(2027, 1, 6) not in public_holidays("DE-HH", [2027])


def at(day: int, clock: str) -> datetime:
    return datetime.fromisoformat(f"2026-12-{day:02}T{clock}")


def test_quarters_and_the_clock() -> None:
    calendar = make_calendar(START, hours=7.5, begins=time(7, 30), length=5)
    assert calendar.starts_at(0) == at(1, "07:30")
    assert calendar.ends_at(30) == at(1, "15:00")
    assert calendar.starts_at(30) == at(2, "07:30")
    assert list(calendar.spans(28, 34)) == [
        (at(1, "14:30"), at(1, "15:00")),
        (at(2, "07:30"), at(2, "08:30")),
    ]
    assert calendar.blocks([Absence(date(2026, 12, 2), date(2026, 12, 2)), Absence(START, START)]) == ((0, 60),)


@pytest.mark.parametrize(
    ("country", "sentence"),
    [
        ("XX", "holidays: no holidays are known for 'XX'; write an ISO 3166 code such as AT, GB-ENG or US-VT"),
        ("AT-99", "holidays: no holidays are known for 'AT-99'; AT has 1, 2, 3, 4, 5, 6, 7, 8, 9"),
        ("EE-1", "holidays: no holidays are known for 'EE-1'; there is no part '1' of EE; write EE"),
    ],
)
def test_an_unknown_country(country: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        make_calendar(START, country=country)
    assert str(caught.value) == sentence


def test_every_fault_of_a_calendar_at_once() -> None:
    with pytest.raises(InputError) as caught:
        make_calendar(
            START, weekdays=(), hours=7.3, country="XX", closed=[Absence(date(2027, 1, 2), date(2026, 12, 24))]
        )
    assert [str(fault) for fault in caught.value.faults] == [
        "weekdays: there is no working day in the week; name at least one, such as mon-fri",
        "hours: 7.3 hours a day are not whole quarters of an hour; write 7.75 or 8",
        "closed: 2027-01-02 to 2026-12-24 ends before it begins; write the earlier day first",
        "holidays: no holidays are known for 'XX'; write an ISO 3166 code such as AT, GB-ENG or US-VT",
    ]


@given(
    st.integers(0, 400),
    st.integers(0, 400),
    st.integers(0, 20),
    st.integers(0, 4),
    st.sampled_from([0, 2, 8, 16, 20, 48]),
    st.sampled_from([None, OpenDays((1, 2, 5)), OpenDays(closed=(Absence(date(2026, 12, 3), date(2026, 12, 20)),))]),
)
def test_what_is_waited_for_may_be_as_late_as_the_wait_says(end, start, working, days, drying, opened) -> None:
    calendar = make_calendar(START, closed=(Absence(date(2026, 12, 9), date(2026, 12, 10)),), length=60)
    gap = gap_of(Wait("a", working, drying, days, open=opened), calendar)
    assert gap.earliest_of(np.array([float(end)]))[0] == gap.earliest(end)
    assert gap.latest_of(np.array([float(start)]))[0] in (gap.latest(start), -math.inf)
    assert gap.earliest(end) >= end + gap.least
    assert (gap.earliest(end) <= start) == (end <= gap.latest(start)), "the two ways are one formula"
    latest = gap.latest(start)
    assert latest == IMPOSSIBLE or latest < 0 or gap.earliest(latest) <= start
