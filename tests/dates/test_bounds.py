"""Bounds stand below every schedule."""

from __future__ import annotations

from datetime import date
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.dates import Work, make_calendar, make_schedule
from rodbook.dates.bounds import shared_ends, simple_bound
from rodbook.dates.problem import make_problem
from rodbook.dates.solver import LATENESS

from .conftest import START, crew, task


@given(st.lists(st.integers(1, 20), min_size=1, max_size=5))
def test_without_release_it_is_the_best_order(work) -> None:
    best = min(sum(sum(order[: n + 1]) for n in range(len(order))) for order in permutations(work))
    assert shared_ends(work, [0] * len(work), 1) == pytest.approx(best)


def test_a_short_job_that_comes_later_goes_first() -> None:
    # 10 of work from 0, 2 from 4: the second is done at 6, the first at 12
    assert shared_ends([10, 2], [0, 4], 1) == 18


@given(st.lists(st.tuples(st.integers(1, 40), st.integers(1, 2), st.integers(0, 3)), min_size=2, max_size=5))
@settings(max_examples=25, deadline=None)
def test_no_schedule_is_below_it(rows) -> None:
    works = [Work(str(n), str(n), earliest=date(2026, 12, 1 + late)) for n, (_, _, late) in enumerate(rows)]
    tasks = [task(str(n), quarters, job=str(n), hands=hands) for n, (quarters, hands, _) in enumerate(rows)]
    calendar = make_calendar(START, length=60)
    schedule = make_schedule(tasks, crew("AB"), works, calendar, effort=0.2)
    assert simple_bound(make_problem(tasks, crew("AB"), works, calendar), LATENESS) <= schedule.bound <= schedule.cost
