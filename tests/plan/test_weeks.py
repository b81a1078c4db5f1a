"""What a job wants of the crew's weeks, from its plan."""

import pytest

from rodbook.errors import InputError
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.money import WeekDays, capacity
from rodbook.plan import days_besides, income_of, make_plan, plan_parts, price_job, weeks_wanted, weigh_plan


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
