"""What is priced, printed or sent ends by counted work: a clock that runs wild changes nothing."""

from __future__ import annotations

import math
import re
from datetime import date
from decimal import Decimal
from pathlib import Path

import highspy
import pytest
from highspy._core import _Highs

import rodbook
from rodbook.boards import layout, lengths
from rodbook.dates import solver as dates_solver
from rodbook.job.files import parse_job, sample_text
from rodbook.money import MoreDays, WeekDays, capacity
from rodbook.money.deciding import integer_programme as mixed
from rodbook.papers import paper_pdf, price_pdf
from rodbook.plan import change_of, days_besides, income_of, make_plan, plan_json, price_job, reprice_job, weeks_wanted
from rodbook.plan.schedule.dates import plan_dates, wanted_by

DAY = date(2026, 11, 2)


@pytest.fixture
def wild(monkeypatch):
    """A clock on which an hour passes between two looks at it; gives the list of time limits that solvers were given."""
    at, limits = [0.0], []

    def racing():
        at[0] += 3600.0
        return at[0]

    class Watched(_Highs):
        def setOptionValue(self, option, value):  # noqa: N802
            if option == "time_limit":
                limits.append(value)
            return super().setOptionValue(option, value)

    for face in (layout, lengths):
        monkeypatch.setattr(face, "monotonic", racing)
    monkeypatch.setattr(highspy._core, "_Highs", Watched)
    return limits


def everything(job, book):
    """Plan, price, change, re-price, weeks, dates and papers of a job, as far as they can be held against each other."""
    plan = make_plan(job, book, seconds=1, outlook=True)
    fewer = make_plan(job.model_copy(update={"openings": job.openings[:-1], "runs": ()}), book, seconds=1, outlook=True)
    wanted = [
        weeks_wanted(
            plan,
            "a",
            first_week=1,
            last_week=5,
            promised=True,
            besides=days_besides(plan, people=2),
            income=income_of(plan),
        )
    ]
    weeks = capacity(
        wanted, [WeekDays(2.0)] * 5, currency=book.currency, more=[MoreDays("overtime", Decimal(300), {2: 2.0})]
    )
    days = plan_dates([plan], wanted_by(book, [job], today=DAY), effort=0.05)
    return {
        "plan": plan_json(plan),
        "price": price_job(plan),
        "re-price": reprice_job(plan, date(2027, 6, 1)),
        "change": change_of(fewer, plan, what="one more"),
        "weeks": weeks,
        "days": (days.chance, days.orders),
        "papers": [price_pdf(plan, price_job(plan)), *(paper_pdf(plan, name) for name in ("summary", "layouts"))],
    }


@pytest.mark.parametrize("name", ["stair", "galley"])
def test_a_wild_clock_changes_neither_price_nor_papers(book, wild, monkeypatch, name):
    job = parse_job(sample_text(name), book)
    hurried = everything(job, book)
    limits = list(wild)
    monkeypatch.undo()
    calm = everything(job, book)
    for what, told in calm.items():
        assert hurried[what] == told, what
    assert all(math.isinf(limit) for limit in limits), "no solver is ended by the clock"


def test_a_search_over_jobs_ends_by_what_it_counted():
    """Twice the same where the work does not suffice to prove it; the clock is not asked."""
    answers = []
    for _ in range(2):
        programme = mixed.MixedProgramme()
        columns = [programme.decision(-(100 + 7 * n % 13)) for n in range(40)]
        for k in range(12):
            programme.row([(c, float(20 + (n * (k + 3)) % 31)) for n, c in enumerate(columns)], upper=211.0 + k)
        answers.append(programme.best(effort=0.02))
    assert answers[0] == answers[1]
    assert answers[0] is not None
    assert not answers[0].proven, "the work was to be too little"


def test_nothing_but_the_layout_engine_looks_at_a_clock():
    """Who reads a clock or gives a solver a time limit is named here; layouts of a plan are given a limit without end."""
    root = Path(rodbook.__file__).parent
    asks = re.compile(r"monotonic|perf_counter|process_time|\btime\.time\b|time_limit|max_time_in_seconds")
    found = {
        str(path.relative_to(root)) for path in root.rglob("*.py") if asks.search(path.read_text(encoding="utf-8"))
    }
    desk = {path for path in found if path.startswith("desk/")}
    assert found - desk == {"boards/layout.py", "boards/lengths.py", "boards/tools/clock.py", "boards/tools/linear.py"}
    assert "max_deterministic_time" in Path(dates_solver.__file__).read_text(encoding="utf-8")
