"""Chances share what is shared, and the last day to order holds the hand-over as it says."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, timedelta
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.dates import (
    Absence,
    OpenDays,
    Person,
    Stage,
    Wait,
    Work,
    headline,
    make_calendar,
    make_programme,
    order_said,
    planned_said,
    wanted_said,
)
from rodbook.dates.chances import CREW_SHARE, play, played
from rodbook.dates.passes import kept_order
from rodbook.dates.problem import make_problem
from rodbook.dates.programme import make_schedule

from .conftest import START, WORKS, crew, task
from .test_schedules import DAY, problems

DRAWS = 40_000


def _sigma(spread: float) -> float:
    return math.log(spread) / NormalDist().inv_cdf(0.9)


def _mean(spread: float) -> float:
    return math.exp(_sigma(spread) ** 2 / 2)


def _covariance(a: float, b: float, correlation: float) -> float:
    """Of two lognormal factors whose middle is 1: common knowledge of statistics."""
    s, t = _sigma(a), _sigma(b)
    return math.exp((s * s + t * t) / 2) * math.expm1(correlation * s * t)


def _chain(calendar, *rows: tuple[int, float, str]):
    tasks = [
        task(str(n), quarters, *([str(n - 1)] if n else []), spread=spread, rate=rate)
        for n, (quarters, spread, rate) in enumerate(rows)
    ]
    problem = make_problem(tasks, crew("A"), WORKS, calendar)
    kept = kept_order(problem, make_schedule(tasks, crew("A"), WORKS, calendar))
    return played(problem, kept, draws=DRAWS, seed=5)[-1]


@pytest.mark.parametrize(
    "rows",
    [
        [(10, 1.35, "hang a leaf")] * 20,
        [(10, 1.35, "hang a leaf")] * 10 + [(10, 1.5, "fit a lining")] * 10,
        [(10 + n, 1.2 + n / 20, f"rate {n}") for n in range(12)],
    ],
)
def test_the_variance_of_a_sum_is_that_of_what_is_shared(rows) -> None:
    calendar = make_calendar(START, length=60)
    ends = _chain(calendar, *rows)
    mean = sum(q * _mean(s) for q, s, _ in rows)
    variance = sum(q * r * _covariance(s, t, 1.0 if a == b else CREW_SHARE) for q, s, a in rows for r, t, b in rows)
    alone = sum(q * q * _covariance(s, s, 1.0) for q, s, _ in rows)
    assert ends.mean() == pytest.approx(mean, rel=0.01)
    assert ends.var() == pytest.approx(variance, rel=0.05)
    assert variance > 5 * alone, "as if each task were slow or quick by itself, most of the spread was lost"


def _job(*, lead: int = 5, opened: OpenDays | None = None) -> list:
    return [
        task("measure", 8, stage=Stage.MEASURE),
        task("order", 2, "measure", stage=Stage.ORDER),
        task("deliver", 2, Wait("order", days=lead, supplier="Lane", open=opened), stage=Stage.DELIVER),
        task("frame", 6 * DAY, "measure", stage=Stage.MAKE),
        task("coat", 12, "frame", stage=Stage.COAT),
        task("fit", 2 * DAY, "deliver", Wait("coat", drying=20), stage=Stage.LEAVES),
        task("end", 4, "fit", stage=Stage.HAND_OVER),
    ]


def _ordered_on(programme, days: dict[tuple[str, str], date], job: str = "j") -> float:
    """Chance that a job keeps to its orders' goal by playing forward with orders that go out on given days.

    Nothing of what looks for those days is used.
    """
    goal = next(order.goal for order in programme.orders if order.key == job)
    tasks = [entry.task for entry in programme.schedule.placed]
    problem = make_problem(tasks, programme.people, programme.works, programme.calendar)
    kept = kept_order(problem, programme.schedule)
    ends = list(kept.ends)
    for n, t in enumerate(problem.tasks):
        for other in problem.tasks:
            for wait in other.waits:
                if wait.after == t.key and wait.supplier and (other.job, wait.supplier) in days:
                    number = programme.calendar.days.index(days[other.job, wait.supplier])
                    ends[n] = max(ends[n], number * DAY + 1)
    found = play(problem, replace(kept, ends=tuple(ends)), seed=0)
    mine = [n for n, t in enumerate(problem.tasks) if t.job == job]
    return float(np.mean(found.ends[mine].max(axis=0) <= programme.calendar.evening(goal) + 1e-6))


def _next(programme, day: date) -> date:
    return programme.calendar.days[programme.calendar.days.index(day) + 1]


@pytest.mark.parametrize("due", [None, date(2026, 12, 24), date(2026, 12, 31), date(2026, 12, 14)])
@pytest.mark.parametrize("opened", [None, OpenDays(closed=(Absence(date(2026, 12, 7), date(2026, 12, 9)),))])
def test_the_last_day_to_order_holds_in_nine_cases_of_ten(due, opened) -> None:
    calendar = make_calendar(START, length=80)
    people = [Person("A", off=(Absence(date(2026, 12, 16), date(2026, 12, 16)),)), Person("B")]
    programme = make_programme(_job(opened=opened), people, [Work("j", "Mill", due=due)], calendar)
    (order,) = programme.orders
    assert order.planned <= order.latest
    assert order.holds >= 0.9
    assert order.holds == pytest.approx(_ordered_on(programme, {("j", "Lane"): order.latest}), abs=1e-12)
    assert _ordered_on(programme, {("j", "Lane"): _next(programme, order.latest)}) < 0.9, "a day later does not"
    assert order.later is not None
    assert order.later_holds == pytest.approx(_ordered_on(programme, {("j", "Lane"): order.later}), abs=1e-12)
    assert order.later - order.latest <= timedelta(weeks=1)
    if due == date(2026, 12, 14):
        assert order.wanted == due
        assert order.wanted_holds == programme.chance.jobs["j"].wanted_holds < 0.9
        assert order.goal == programme.chance.jobs["j"].nine_in_ten
    else:
        assert order.goal == (due or programme.chance.jobs["j"].nine_in_ten)


def _two_jobs() -> list:
    tasks = []
    for job in "jk":
        tasks += [
            task(f"{job} order", 2, job=job, stage=Stage.ORDER),
            task(f"{job} boards", 2, job=job, stage=Stage.ORDER),
            task(f"{job} deliver", 2, Wait(f"{job} order", days=8, supplier="Lane"), job=job, stage=Stage.DELIVER),
            task(f"{job} carry", 2, Wait(f"{job} boards", days=3, supplier="Yard"), job=job, stage=Stage.DELIVER),
            task(f"{job} make", 5 * DAY, f"{job} carry", job=job),
            task(f"{job} fit", 3 * DAY, f"{job} make", f"{job} deliver", job=job, stage=Stage.LEAVES),
        ]
    return tasks


def test_with_every_order_on_its_last_day_each_job_is_held_in_nine_cases_of_ten() -> None:
    calendar = make_calendar(START, length=120)
    works = [Work("j", "Mill", due=date(2027, 1, 29)), Work("k", "Barn")]
    programme = make_programme(_two_jobs(), crew("AB"), works, calendar)
    days = {(order.key, order.supplier): order.latest for order in programme.orders}
    assert len(days) == 4
    assert any(order.latest > order.planned for order in programme.orders)
    for order in programme.orders:
        assert order.holds >= 0.9
        assert order.holds == pytest.approx(_ordered_on(programme, days, order.key), abs=1e-12)
        one_later = days | {(order.key, order.supplier): _next(programme, order.latest)}
        assert min(_ordered_on(programme, one_later, job) for job in "jk") < 0.9, "none of them can wait a day more"


def test_what_is_said_of_an_order_and_of_a_day_that_can_not_be_held() -> None:
    calendar = make_calendar(START, length=80)
    programme = make_programme(_job(), crew("AB"), [Work("j", "Mill", due=date(2026, 12, 14))], calendar)
    (order,) = programme.orders
    likely = programme.chance.jobs["j"]
    assert headline(programme, str) == f"Hand-over: nine in ten by {likely.nine_in_ten}."
    assert wanted_said(programme, "j", str) == (
        f"Wanted by 2026-12-14, which holds in {math.floor(100 * likely.wanted_holds)} cases of 100 even if everything is "
        f"ordered as planned, from 2026-12-01 on; nine in ten can be held by {likely.nine_in_ten}."
    )
    assert order_said(order, str) == (
        f"with every order by its last day the hand-over by {likely.nine_in_ten} holds in {math.floor(100 * order.holds)} "
        f"cases of 100; with this one on {order.later}, in {math.floor(100 * order.later_holds)}."
    )
    assert f"{programme.schedule.finishes[0].day}, which holds in" in planned_said(programme, str)


def test_jobs_together_are_headed_by_their_cautious_days() -> None:
    calendar = make_calendar(START, length=60)
    works = [Work("quick", "Quick"), Work("slow", "Slow", due=date(2026, 12, 2))]
    tasks = [task("q", DAY, job="quick"), task("s", 2 * DAY, job="slow")]
    programme = make_programme(tasks, crew("A"), works, calendar)
    last = max(likely.nine_in_ten for likely in programme.chance.jobs.values())
    assert headline(programme, str) == f"Hand-over of 2 jobs: nine in ten of each by its day below, the last by {last}."
    assert planned_said(programme, str) == (
        "If everything takes its planned time, the last is over on 2026-12-03; no other order of work plans them sooner on "
        "the whole."
    )


def test_draws_of_a_kind_are_the_same_whatever_is_planned_beside_it() -> None:
    calendar = make_calendar(START, length=60)
    alone = _chain(calendar, (20, 1.35, "hang a leaf"))
    beside = make_problem(
        [task("0", 20, rate="hang a leaf"), task("x", 8, rate="fit trims")], crew("AB"), WORKS, calendar
    )
    tasks = list(beside.tasks)
    kept = kept_order(beside, make_schedule(tasks, crew("AB"), WORKS, calendar))
    row = next(n for n, t in enumerate(beside.tasks) if t.key == "0")
    assert np.array_equal(played(beside, kept, draws=DRAWS, seed=5)[row], alone)


@given(problems(), st.sampled_from([None, START, date(2026, 12, 22), date(2027, 6, 1)]))
@settings(max_examples=15, deadline=None)
def test_every_order_holds_whatever_is_asked(problem, due) -> None:
    tasks, people = problem
    programme = make_programme(tasks, people, [Work("j", "Mill", due=due)], make_calendar(START, length=60), draws=300)
    for order in programme.orders:
        assert order.holds >= 0.9
        assert order.planned <= order.latest <= order.later
        assert order.later_holds <= order.holds
        assert (order.wanted is None) == (due is None or programme.chance.jobs["j"].wanted_holds >= 0.9)
