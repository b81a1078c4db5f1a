"""A job's account from its plan and what was put down."""

from __future__ import annotations

import dataclasses
from datetime import date as Date  # noqa: N812
from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.job.dates import TaskTerms
from rodbook.job.files import parse_actuals, parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import GivenPrice, Making, PriceExtra
from rodbook.money import planned_of
from rodbook.plan import account_of, make_plan, plan_parts, planned_for, price_job, tasks_of
from rodbook.setout import PartKind

NONE = parse_actuals("")
TOOK = parse_actuals(
    '[[hours]]\nday = 2026-11-24\nperson = "Anna"\ntask = "Fitting"\nhours = 10\n'
    '[[invoices]]\nsupplier = "Mill"\nnumber = "1"\nday = 2026-11-25\ncurrency = "EUR"\n'
    'lines = [{ what = "Hinges", amount = "31.50" }]\n'
)


@pytest.fixture(scope="module")
def plan():
    book = parse_book(sample_book_text())
    job = parse_job(sample_text("stair"), book)
    extras = tuple(
        PriceExtra.model_validate(raw)
        for raw in (
            {"name": "Fitting", "hours": "8"},
            {"name": "Hinges", "cost": "30.00"},
            {"name": "Mirror", "cost": "70.00", "option": True},
        )
    )
    making = {kind.value: Making.SITE for kind in PartKind}
    terms = job.price.model_copy(update={"extras": extras})
    return make_plan(job.model_copy(update={"price": terms, "making": making}), book, seconds=2, outlook=True)


def test_what_is_left_and_what_the_price_earns_are_told_apart(plan):
    """Left is more than earned by the overhead, and by what the price reckons with for what varies: to the cent."""
    price, found = price_job(plan).price, account_of(plan, NONE)
    assert found.beyond > 0
    assert found.account.earned_planned - found.overhead - found.beyond == price.earned
    given = GivenPrice.model_validate({"on": "2026-11-30", "net": "1000.00", "gross": "1200.00", "cost": "700.00"})
    terms = plan.job.price.model_copy(update={"given": given})
    told = account_of(dataclasses.replace(plan, job=plan.job.model_copy(update={"price": terms})), NONE)
    assert told.beyond is None


def test_what_the_client_pays_for_besides_is_planned_too_but_no_option(plan):
    planned, parts = planned_for(plan), planned_of(plan.money)
    assert planned.hours == {**parts.hours, "Fitting": Decimal(8)}
    assert planned.costs == {**parts.costs, "Hinges": Decimal("30.00")}


def test_before_anything_is_taken_all_of_the_plan_is_still_there(plan):
    found = account_of(plan, NONE)
    assert found.account.net == price_job(plan).price.net
    assert found.account.actual == 0
    assert found.account.planned == sum(line.planned for line in found.account.lines)


def test_what_was_taken_stands_beside_what_was_planned(plan):
    lines = {line.what: line for line in account_of(plan, TOOK).account.lines}
    assert (lines["Fitting"].planned, lines["Fitting"].actual) == (Decimal("304.00"), Decimal("380.00"))
    assert (lines["Hinges"].planned, lines["Hinges"].actual) == (Decimal("30.00"), Decimal("31.50"))


def test_the_price_that_was_given_counts(plan):
    given = GivenPrice(on=Date(2026, 11, 21), net=Decimal("2500.00"), gross=Decimal("3000.00"), cost=Decimal("2000.00"))
    job = plan.job.model_copy(update={"price": plan.job.price.model_copy(update={"given": given})})
    from dataclasses import replace

    found = account_of(replace(plan, job=job), TOOK)
    assert (found.given, found.account.net) == (True, Decimal("2500.00"))
    rest = sum(line.to_come for line in found.account.lines)
    assert rest > 0
    assert found.account.earned == Decimal("2500.00") - Decimal("411.50") - rest


def test_the_account_is_at_its_end_once_the_job_is_handed_over(plan):
    from dataclasses import replace

    assert not account_of(plan, TOOK).account.finished
    terms = TaskTerms(name="hand over", done=Date(2026, 12, 1))
    dates = plan.job.dates.model_copy(update={"tasks": (terms,)})
    over = account_of(replace(plan, job=plan.job.model_copy(update={"dates": dates})), TOOK).account
    assert (over.finished, over.to_come, over.forecast) == (True, 0, over.actual)


def test_tasks_of_the_plan_come_first_and_say_what_is_counted(plan):
    tasks = tasks_of(plan.book, plan)
    planned = list(planned_for(plan).hours)
    assert [task.name for task in tasks[: len(planned)]] == planned
    assert {task.name: task.counted_in for task in tasks}["bore a cup"] == "boring"
    assert len({task.name for task in tasks}) == len(tasks)
    assert "crew hour" not in [task.name for task in tasks]
    assert tasks_of(plan.book, None)[0].planned == 0


def test_faults_are_told(plan):
    with pytest.raises(InputError, match="layouts and costs"):
        account_of(plan_parts(plan.job, plan.book), NONE)
    other = TOOK.model_copy(
        update={"invoices": (*TOOK.invoices, TOOK.invoices[0].model_copy(update={"currency": "GBP"}))}
    )
    with pytest.raises(InputError, match="it is in GBP") as told:
        account_of(plan, other)
    assert "entered twice" in str(told.value)
