"""A change of a job, by two plans of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date as Date  # noqa: N812
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import GivenPrice, PriceExtra
from rodbook.plan import at_day_of, change_of, effect_of_change, hand_overs, make_plan, plan_parts, price_job
from rodbook.setout import PartKind


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


def test_the_job_with_a_change_is_the_job_and_the_change(plans):
    fewer, more = plans
    order = change_of(fewer, more, what="x")
    effect, job = effect_of_change(fewer, more, order), price_job(fewer).price
    assert effect.net_before == job.net
    assert effect.net_after == job.net + order.price.net
    assert effect.earned_after - effect.earned_before == order.price.earned
    assert effect.earned_unpaid == effect.earned_after - order.price.net
    assert effect.made_anew is not None
    assert effect.made_anew > 0
    undone = effect_of_change(more, fewer, change_of(more, fewer, what="x"))
    assert undone.made_anew == -effect.made_anew
    assert undone.crew_hours == -effect.crew_hours


def test_the_price_that_was_given_is_the_one_that_the_change_is_added_to(plans):
    fewer, more = plans
    given = GivenPrice.model_validate({"on": "2026-11-21", "net": "720.00", "gross": "864.00", "cost": "600.00"})
    terms = fewer.job.price.model_copy(update={"given": given})
    agreed = replace(fewer, job=fewer.job.model_copy(update={"price": terms}))
    effect = effect_of_change(agreed, more, change_of(agreed, more, what="x"))
    assert effect.net_before == Decimal("720.00")
    assert effect.earned_before == Decimal("120.00")
    assert effect.margin_before == Decimal(120) / Decimal(720)


def test_of_kinds_made_already_nobody_knows_how_many_were_made_anew(plans):
    fewer, more = plans
    assert effect_of_change(fewer, more, change_of(fewer, more, what="x", made=[PartKind.DOOR])).made_anew is None


def test_hand_overs_need_people(plans):
    fewer, more = plans
    days = hand_overs(fewer, more, today=Date(2026, 11, 26), effort=0.05)
    assert days[0] <= days[1]
    alone = more.book.model_copy(update={"dates": more.book.dates.model_copy(update={"crew": ()})})
    with pytest.raises(InputError, match="names nobody who works"):
        hand_overs(replace(fewer, book=alone), replace(more, book=alone), today=Date(2026, 11, 26))
