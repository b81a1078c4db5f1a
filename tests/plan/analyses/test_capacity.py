"""What a job wants of the crew's weeks, from its plan."""

from datetime import date
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.dates import FirmDates, JobDates
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.money import WeekDays, capacity
from rodbook.plan import (
    crew_days,
    days_besides,
    income_of,
    make_plan,
    more_days,
    plan_parts,
    price_job,
    weeks_of_job,
    weeks_wanted,
    weigh_plan,
)


@pytest.fixture(scope="module")
def plan():
    book = parse_book(sample_book_text())
    return make_plan(parse_job(sample_text("stair"), book), book, seconds=2, outlook=True)


def test_every_kind_is_wanted_in_its_ways_and_the_rest_by_the_crew(plan):
    found = weeks_wanted(plan, "Stair", first_week=1, last_week=8, promised=True, besides=3.5, income=income_of(plan))
    kinds = {line.part.kind.value for line in plan.schedule}
    assert {task.name for task in found.tasks} == kinds | {"fitting"}
    assert found.income == price_job(plan).price.net
    answer = capacity([found], [WeekDays(5.0)] * 8, currency="EUR")
    assert answer.proven
    assert sum(week.used for week in answer.weeks) == pytest.approx(
        sum(d.crew_days for d in answer.decisions), abs=1e-3
    )


def test_what_the_crew_does_besides_does_not_depend_on_who_makes_the_parts(plan):
    days = days_besides(plan)
    assert 1 < days < 20
    assert weigh_plan(plan).ways


def test_a_plan_without_costs_is_said(plan):
    with pytest.raises(InputError, match="not worked out"):
        weigh_plan(plan_parts(plan.job, plan.book))


MONDAY = date(2026, 12, 21)


def _with(plan, **dates):
    return plan.book.model_copy(update={"dates": FirmDates.model_validate(dates)})


def test_crew_days_leave_out_holidays_closed_days_and_days_off(plan):
    crew = [{"name": "Ada"}, {"name": "Ben", "off": [{"first": "2026-12-30", "last": "2027-01-10"}]}]
    assert crew_days(_with(plan), MONDAY, 3) == ()
    assert crew_days(_with(plan, crew=crew), MONDAY, 3) == (10.0, 7.0, 5.0)
    # AT keeps 25 December 2026 (a Friday), 1 January (a Friday) and 6 January 2027 (a Wednesday)
    assert crew_days(_with(plan, crew=crew, holidays="AT"), MONDAY, 3) == (8.0, 6.0, 4.0)
    closed = [{"first": "2026-12-24", "last": "2026-12-28"}]
    assert crew_days(_with(plan, crew=crew, closed=closed), MONDAY, 3) == (6.0, 5.0, 5.0)
    assert crew_days(_with(plan, crew=crew, days=["mon", "sat"]), MONDAY, 2) == (4.0, 3.0)


def test_a_job_has_the_weeks_of_its_own_dates_as_far_as_they_go(plan):
    def weeks(**dates):
        return weeks_of_job(plan.job.model_copy(update={"dates": JobDates.model_validate(dates)}), MONDAY, 6)

    assert weeks() == (1, 6)
    assert weeks(start="2026-12-29", by="2027-01-08") == (2, 3)
    assert weeks(start="2026-01-01", by="2028-01-01") == (1, 6)
    assert weeks(by="2026-12-01") == (1, 1)


def test_days_on_top_are_had_on_working_days_and_in_proportion(plan):
    def days(book, **more):
        return more_days(book, MONDAY, 3, name="Dora", days=5, day_cost=Decimal(260), **more).days

    plain = _with(plan, holidays="")
    assert days(plain) == {1: 5.0, 2: 5.0, 3: 5.0}
    assert days(plain, first=date(2026, 12, 30)) == {2: 3.0, 3: 5.0}
    assert days(_with(plan, holidays="IE")) == {1: 4.0, 2: 4.0, 3: 5.0}
    closed = _with(plan, holidays="", closed=[{"first": "2026-12-24", "last": "2027-01-01"}])
    assert days(closed, last=date(2026, 12, 31)) == {1: 3.0}
    assert days(_with(plan, holidays="AT"), last=date(2027, 1, 1)) == {1: 4.0, 2: 4.0}
    with pytest.raises(InputError, match="Dora: the last day, 2026-12-22, is before the first, 2026-12-23"):
        days(plain, first=date(2026, 12, 23), last=date(2026, 12, 22))
    with pytest.raises(InputError, match="the firm works on no day of these weeks"):
        days(closed, first=date(2026, 12, 25), last=date(2026, 12, 27))
    with pytest.raises(InputError, match="the firm works on no day of these weeks"):
        days(plain, first=date(2027, 2, 1), last=date(2027, 2, 5))
