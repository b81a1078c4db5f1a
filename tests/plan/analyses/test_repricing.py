"""A job on another day: what moved, by hand, and the index of what it takes."""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.book import Rate
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import Making, PriceExtra
from rodbook.plan import make_plan, plan_parts, price_job, reprice_job
from rodbook.setout import PartKind

LATER = Date(2026, 12, 1)


@pytest.fixture(scope="module")
def plan():
    book = parse_book(sample_book_text())
    dearer = Rate(name="crew hour", value=41, unit="currency/hour", since=LATER, source="own records")
    book = book.model_copy(update={"rates": (*book.rates, dearer)})
    job = parse_job(sample_text("stair"), book)
    extra = PriceExtra.model_validate({"name": "Fitting", "hours": "10", "cost": "25.00"})
    terms = job.price.model_copy(update={"extras": (extra,)})
    making = {kind.value: Making.SITE for kind in PartKind}
    return make_plan(job.model_copy(update={"price": terms, "making": making}), book, seconds=2, outlook=True)


def test_the_same_day_moves_nothing(plan):
    found = reprice_job(plan, plan.job.job.date).repriced
    assert (found.cost_now, found.moved) == (found.cost_then, ())
    assert found.net == price_job(plan).price.net


def test_cost_then_is_what_was_decided_and_what_is_besides(plan):
    found = reprice_job(plan, LATER).repriced
    assert found.cost_then == plan.money.totals.decided + Decimal("25.00") + Decimal("380.00")


def test_a_dearer_hour_moves_the_hours_of_fitting_too(plan):
    found = reprice_job(plan, LATER).repriced
    (moved,) = found.moved
    assert moved.what == "crew hour"
    assert moved.more == found.cost_now - found.cost_then
    without = make_plan(
        plan.job.model_copy(update={"price": plan.job.price.model_copy(update={"extras": ()})}),
        plan.book,
        seconds=2,
        outlook=True,
    )
    assert moved.more - reprice_job(without, LATER).repriced.moved[0].more == Decimal("30.00")


def test_the_index_weighs_what_the_job_takes(plan):
    found = reprice_job(plan, LATER)
    quantities = {item.name: item.quantity for item in found.basket}
    assert quantities["crew hour"] == plan.money.totals.crew_hours + 10
    first, last = found.index[0].day, found.index[-1].day
    assert (found.index[0].index, last) == (100, LATER)
    worth = [sum(item.quantity * item.on(day) for item in found.basket) for day in (first, last)]
    assert found.index[-1].index == (100 * worth[1] / worth[0]).quantize(Decimal("0.01"))


def test_what_is_not_known_is_told(plan):
    with pytest.raises(InputError, match="holds on 2020-01-01"):
        reprice_job(plan, Date(2020, 1, 1))
    with pytest.raises(InputError, match="layouts and costs"):
        reprice_job(plan_parts(plan.job, plan.book), LATER)
