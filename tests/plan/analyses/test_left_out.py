"""What a price leaves out: the hours are those of the dates' own tasks, and every place that shows a price says it first."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from pypdf import PdfReader
from rich.console import Console

from rodbook.cli.price import print_price
from rodbook.dates import Stage
from rodbook.job.files import parse_job, sample_text
from rodbook.job.models import PriceExtra
from rodbook.papers import paper_pdf, price_pdf
from rodbook.papers.numbers import Numbers
from rodbook.plan import left_out_in_words, left_out_of, make_plan, price_job
from rodbook.plan.analyses.left_out import SORTS, Work
from rodbook.plan.schedule.dates import plan_dates, wanted_by


@pytest.fixture(scope="module")
def plan(book):
    return make_plan(parse_job(sample_text("stair"), book), book, seconds=1, outlook=True)


def _written(pdf):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


def _with_extra(plan, **fields):
    terms = plan.job.price.model_copy(update={"extras": (PriceExtra.model_validate(fields),)})
    return replace(plan, job=plan.job.model_copy(update={"price": terms}))


def test_hours_are_those_of_the_dates(plan):
    """Summed here from the programme that the dates come to, task by task."""
    programme = plan_dates([plan], wanted_by(plan.book, [plan.job], today=date(2026, 11, 2)), effort=0.05)
    quarters = sum(
        t.quarters * t.hands
        for t in (entry.task for entry in programme.schedule.placed)
        if t.stage not in (Stage.MAKE, Stage.COAT)
    )
    found = left_out_of(plan)
    assert found.hours == Decimal(quarters) / 4 == sum(hours for _, hours in found.work)
    assert dict(found.work)[Work.FITTING] > 0
    assert set(SORTS) == set(Stage)


def test_a_time_given_for_the_job_is_in_it(plan):
    from rodbook.job.dates import TaskTerms

    dates = plan.job.dates.model_copy(update={"tasks": (TaskTerms(name="hand over", hours=5.0),)})
    longer = replace(plan, job=plan.job.model_copy(update={"dates": dates}))
    before, after = (dict(left_out_of(p).work)[Work.HANDING_OVER] for p in (plan, longer))
    assert (before, after) == (1, 5)


def test_every_hinge_has_a_plate(plan):
    """Counted by cups there, and here by the two holes that each plate takes in what it is screwed to."""
    holes = sum(line.quantity * sum(b.kind == "plate" for b in line.part.borings) for line in plan.schedule)
    assert left_out_of(plan).hinges == holes / 2 > 0


def test_lines_of_its_own_are_told_apart(plan):
    told = left_out_in_words(left_out_of(plan), lambda hours: f"{hours:.1f} h")
    found = left_out_of(plan)
    assert told.startswith("Not in this price: measuring, ")
    assert f"for which the dates plan {found.hours:.1f} h; nor {found.hinges} hinges and other ironmongery" in told
    extra = left_out_of(_with_extra(plan, name="Fitting", hours="16"))
    assert (extra.own_lines, extra.own_hours) == (1, 16)
    own = left_out_in_words(extra, lambda hours: f"{hours:.1f} h")
    assert own.startswith("Not in this price, beyond the lines that it has besides the parts: ")
    assert own.endswith("Those lines carry 16.0 h.")
    assert "16.0" not in left_out_in_words(extra, lambda hours: f"{hours:.1f} h", for_client=True)
    option = left_out_of(_with_extra(plan, name="Mirror", cost="70", option=True))
    assert (option.own_lines, option.own_hours) == (0, 0)


def test_paper_summary_and_command_say_it_before_any_amount(plan):
    pricing = price_job(plan)
    write = Numbers(plan.book.locale, plan.book.currency)
    told = left_out_in_words(pricing.left_out, write.hours)
    client = _written(price_pdf(plan, pricing))
    assert client.index(told) < client.index(write.money(pricing.price.gross))
    summary = _written(paper_pdf(plan, "summary"))
    assert summary.index(told) < summary.index(write.money(plan.money.totals.decided))
    out = io.StringIO()
    print_price(plan, pricing, Console(file=out, width=200))
    assert out.getvalue().startswith(told)
