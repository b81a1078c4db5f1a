"""The paper of the crew's weeks, read back: every decision, each week with what is done in it and what a day is worth."""

from __future__ import annotations

import io
import json
from datetime import date
from decimal import Decimal

import pytest
from pypdf import PdfReader

from rodbook.money import JobWanted, MoreDays, Offered, TaskWanted, WeekDays, capacity
from rodbook.papers import weeks_pdf
from rodbook.papers.weeks.content import done_in, weeks_content
from rodbook.plan import WeeksDecided

D = Decimal
MONDAY = date(2026, 11, 30)


def _job(name, weeks, *, income=2000, promised=True):
    def task(of, days, bought):
        ways = (Offered("all on site", D(50), days), Offered("bought cut", D(bought), 0.0, D(bought)))
        return TaskWanted(of, ways, 1, weeks)

    fitting = TaskWanted("fitting", (Offered("by the crew", D(0), 1.0),), 1, weeks)
    return JobWanted(name, D(income), (task("door", 2.0, 400), task("lining leg", 1.5, 90), fitting), promised)


def _decided(days, *jobs):
    answer = capacity(jobs, [WeekDays(float(d)) for d in days], currency="EUR", value_weeks=None)
    return WeeksDecided(date(2026, 11, 26), MONDAY, tuple(jobs), answer)


def _text(pdf):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.fixture(scope="module")
def scarce():
    return _decided([2, 1.5], _job("Mill", 2), _job("Barn", 2, income=1, promised=False))


def test_every_decision_stands_there_with_its_reason_and_each_week_with_its_worth(book, scarce):
    text = _text(weeks_pdf(book, scarce))
    for said in (
        "The crew’s weeks",
        "30 November 2026",
        "Ada, Ben, Cleo",
        "lining leg",
        "bought cut",
        "Barn is left",
        "One more day would earn most in week",
        "That is proven",
        "Wages are paid",
        "order lining leg",
    ):
        assert said in text, said
    for use in scarce.answer.weeks:
        assert f"€{use.one_more_day}" in text
    content = weeks_content(book, scarce).content
    json.dumps(content)
    assert [row[1] for row in content["decisions"]] == ["door", "lining leg", "fitting", "all of it"]
    assert not any(row[4].startswith(row[1]) for row in content["decisions"][:3]), "the reason does not say it twice"


def test_weeks_and_what_is_done_in_them_add_up(scarce):
    for use in scarce.answer.weeks:
        said = sum(one.days for one in scarce.answer.work if one.week == use.week)
        assert abs(said - use.used) < 1e-3
    assert [job for job, _ in done_in(scarce.answer, 1)] == ["Mill"]
    assert done_in(scarce.answer, 9) == []


def test_days_enough_many_jobs_and_odd_names(book):
    odd = r'*_<b> $x$ \ #let "q" [br]' + "W" * 70
    text = _text(weeks_pdf(book, _decided([90] * 26, *(_job(f"{odd} {n}", 26) for n in range(6)))))
    assert "there are days enough" in text
    assert "6, named below" in text


def test_weeks_that_were_not_valued_say_so(book):
    jobs = (_job("Mill", 1),)
    answer = capacity(jobs, [WeekDays(9.0)], currency="EUR")
    text = _text(weeks_pdf(book, WeeksDecided(MONDAY, MONDAY, jobs, answer)))
    assert "not asked" in text


def test_hired_hands_stand_with_their_worth_and_the_days_on_top(book):
    jobs = (_job("Mill", 2),)
    more = [MoreDays("Dora", D(10), {1: 3.0}), MoreDays("overtime", D(9000), {2: 1.0})]
    answer = capacity(jobs, [WeekDays(1.0)] * 2, currency="EUR", more=more, value_weeks=None)
    text = _text(weeks_pdf(book, WeeksDecided(MONDAY, MONDAY, jobs, answer)))
    for one in answer.more:
        assert " ".join(one.sentence.split()) in text
    assert "on top" in text
    assert "Dora: worth having" in text
    assert sum(one.days for one in answer.work) == sum(use.used + use.more for use in answer.weeks)
