"""From a job's parts to what it wants of the crew's weeks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from rodbook.job import Book
from rodbook.money import MaterialUsage, Way, WeekDays, Weighing, capacity, job_wanted, weighing
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)


@pytest.fixture(scope="module")
def weighed(book: Book, line: Callable[..., ScheduleLine], usage_of: Callable[..., MaterialUsage]) -> Weighing:
    lines = [line(openings=[("C1", 12)], cups=2, coats=2, edges=("left", "right"))]
    return weighing(lines, [usage_of(lines)], book, DAY, book.workshops[0], {})


def wanted(weighed: Weighing, **more: Any) -> Any:
    return job_wanted("Mill", weighed, income=D(3000), currency="EUR", **{"first_week": 1, "last_week": 6, **more})


def test_ways_become_offers(weighed: Weighing) -> None:
    (task,) = wanted(weighed).tasks
    by_name = {way.name: way for way in task.ways}
    assert list(by_name) == [way.value for way in Way]
    site = by_name[Way.SITE.value]
    mean = weighed.mean(PartKind.DOOR, Way.SITE)
    assert float(site.cost) == pytest.approx(float(mean.cost) - float(mean.wages), abs=0.006)
    assert (site.ordered, site.crew_days) == (None, pytest.approx(float(mean.crew_days), abs=1e-4))
    # twelve working days of lead time are three weeks
    assert by_name[Way.BOUGHT_CUT.value].not_before == by_name[Way.FINISHED_OUT.value].not_after == 3
    assert by_name[Way.FINISHED_OUT.value].travels == 2


def test_what_comes_too_late_is_left_out(weighed: Weighing) -> None:
    (task,) = wanted(weighed, last_week=3).tasks
    assert [way.name for way in task.ways] == [Way.SITE.value]


def test_few_days_are_bought_and_many_are_made(weighed: Weighing) -> None:
    few = capacity([wanted(weighed, fitting_days=3.0)], [WeekDays(0.5)] * 6, currency="EUR")
    assert [d.way for d in few.decisions] == [Way.BOUGHT.value, "by the crew"]
    many = capacity([wanted(weighed, fitting_days=3.0)], [WeekDays(5.0)] * 6, currency="EUR")
    # days that nobody else wants cost nothing, so what goes out least is taken
    offers = {way.name: way for way in wanted(weighed).tasks[0].ways}
    costs = {n: w.cost + w.travels * 85 * (w.ordered is not None) for n, w in offers.items()}
    assert many.decisions[0].way == min(costs, key=lambda n: costs[n])
    assert many.earned >= few.earned
