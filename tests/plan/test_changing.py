"""A change of a job, by two plans of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import PriceExtra
from rodbook.plan import at_day_of, change_of, make_plan, plan_parts


@pytest.fixture(scope="module")
def plans():
    book = parse_book(sample_book_text())
    job = parse_job(sample_text("stair"), book)
    fewer = job.model_copy(update={"openings": job.openings[:2]})
    return tuple(make_plan(j, book, seconds=2, outlook=True) for j in (fewer, job))


def _with_extras(plan, *extras):
    terms = plan.job.price.model_copy(update={"extras": tuple(PriceExtra.model_validate(e) for e in extras)})
    return replace(plan, job=plan.job.model_copy(update={"price": terms}))


def test_a_change_and_its_reverse_cost_the_same_but_for_the_sign(plans):
    fewer, more = plans
    assert change_of(fewer, more, what="x").cost == -change_of(more, fewer, what="x").cost
    assert change_of(fewer, more, what="x").cost == more.money.totals.decided - fewer.money.totals.decided


def test_hours_besides_count_as_far_as_they_are_more(plans):
    fewer, more = plans
    before = _with_extras(fewer, {"name": "Fitting", "hours": "8"}, {"name": "Gone", "cost": "12.00"})
    after = _with_extras(more, {"name": "Fitting", "hours": "10"}, {"name": "Mirror", "cost": "70", "option": True})
    more_then = change_of(before, after, what="x").cost - change_of(fewer, more, what="x").cost
    assert more_then == 2 * Decimal(38) - Decimal("12.00")


def test_both_are_of_one_day(plans):
    fewer, more = plans
    header = fewer.job.job.model_copy(update={"date": Date(2026, 10, 1)})
    earlier = fewer.job.model_copy(update={"job": header})
    with pytest.raises(InputError, match="planned for one day"):
        change_of(replace(fewer, job=earlier), more, what="x")
    assert at_day_of(earlier, more.job).job.date == more.job.job.date
    with pytest.raises(InputError, match="layouts and costs of both"):
        change_of(plan_parts(fewer.job, fewer.book), more, what="x")
