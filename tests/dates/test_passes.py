"""Floats, order-by days, late deliveries and chances rest on the schedule's own turn."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings

from rodbook.dates import (
    Absence,
    OpenDays,
    Person,
    Stage,
    Wait,
    critical_path,
    make_calendar,
    make_programme,
    slip_said,
)
from rodbook.dates.chances import played
from rodbook.dates.passes import forward, kept_order, slack, slips
from rodbook.dates.problem import make_problem
from rodbook.dates.programme import make_schedule
from rodbook.errors import InputError

from .conftest import START, WORKS, crew, task
from .test_schedules import DAY, problems


def _job() -> list:
    return [
        task("measure", 8),
        task("order", 2, "measure", stage=Stage.ORDER),
        task("deliver", 2, Wait("order", days=5, supplier="Lane"), stage=Stage.DELIVER),
        task("frame", 2 * DAY, "measure"),
        task("fit", 12, "deliver", "frame"),
    ]


@given(problems())
@settings(max_examples=25, deadline=None)
def test_the_turn_kept_gives_the_schedule_again(problem) -> None:
    tasks, people = problem
    calendar = make_calendar(START, length=60)
    numbers = make_problem(tasks, people, WORKS, calendar)
    schedule = make_schedule(tasks, people, WORKS, calendar, effort=1)
    kept = kept_order(numbers, schedule)
    starts = forward(numbers, kept)
    assert all(s <= schedule.of(t.key).start for s, t in zip(starts, numbers.tasks, strict=True))
    ends = numbers.ends(s + t.quarters for s, t in zip(starts, numbers.tasks, strict=True))
    assert ends == [finish.end for finish in schedule.finishes]
    assert min(slack(numbers, kept, schedule).values()) >= 0
    # without spread every play is the schedule itself
    still = make_problem([t.__class__(**{**t.__dict__, "spread": 1.0}) for t in tasks], people, WORKS, calendar)
    for n, row in enumerate(played(still, kept, draws=3)):
        lead = any(w.supplier for before in still.tasks[: n + 1] for w in before.waits)
        assert lead or np.all(row == starts[n] + still.tasks[n].quarters)


def test_floats_are_those_of_the_critical_path_where_people_do_not_matter() -> None:
    durations = {"A": 6, "B": 2, "C": 2, "D": 3, "F": 2, "E": 4, "G": 1}
    after = {"B": "A", "C": "A", "D": "B", "F": "C", "E": "DF", "G": "E"}
    calendar = make_calendar(START, hours=4, length=10)  # sixteen quarters: the whole network fills one day
    tasks = [task(key, time, *after.get(key, "")) for key, time in durations.items()]
    people = crew("UVWXYZ")
    schedule = make_schedule(tasks, people, WORKS, calendar)
    problem = make_problem(tasks, people, WORKS, calendar)
    found = slack(problem, kept_order(problem, schedule), schedule)
    assert found == {key: a.float_total for key, a in critical_path(durations, after).items()}


def test_what_a_late_delivery_moves(calendar) -> None:
    tasks, people = _job(), crew("AB")
    problem = make_problem(tasks, people, WORKS, calendar)
    kept = kept_order(problem, make_schedule(tasks, people, WORKS, calendar))
    (slip,) = slips(problem, kept, 3)
    assert slip.hand_overs == (("Mill", date(2026, 12, 8), date(2026, 12, 11)),)
    assert slip_said(slip, str) == (
        "If Lane delivers to Mill 3 working days late, 2 tasks come later and the planned hand-over moves: Mill from "
        "2026-12-08 to 2026-12-11."
    )
    assert slip_said(slips(problem, kept, 0)[0], str) == (
        "If Lane delivers to Mill 0 working days late, nothing moves."
    )


def test_a_late_delivery_comes_so_many_of_the_suppliers_days_later(calendar) -> None:
    closed = OpenDays(closed=(Absence(date(2026, 12, 9), date(2026, 12, 18)),))
    tasks = [replace(t, waits=tuple(replace(w, open=closed) if w.supplier else w for w in t.waits)) for t in _job()]
    problem = make_problem(tasks, crew("AB"), WORKS, calendar)
    (slip,) = slips(problem, kept_order(problem, make_schedule(tasks, crew("AB"), WORKS, calendar)), 1)
    assert slip.hand_overs == (("Mill", date(2026, 12, 8), date(2026, 12, 21)),)


def test_chances_of_one_task_are_those_of_its_spread(calendar) -> None:
    ends = played(*_one(calendar, 100, 1.5), draws=20_000, seed=3)[0]
    assert np.quantile(ends, 0.5) == pytest.approx(100, rel=0.01)
    assert np.quantile(ends, 0.9) == pytest.approx(150, rel=0.015)


def _one(calendar, quarters: int, spread: float):
    tasks = [task("a", quarters, spread=spread)]
    problem = make_problem(tasks, crew("A"), WORKS, calendar)
    return problem, kept_order(problem, make_schedule(tasks, crew("A"), WORKS, calendar))


def test_dates_of_a_programme_grow_with_how_sure_they_are(calendar) -> None:
    programme = make_programme(
        _job(), [Person("A", off=(Absence(START + timedelta(9), START + timedelta(9)),))], WORKS, calendar
    )
    likely = programme.chance.jobs["j"]
    assert likely.planned <= likely.nine_in_ten
    assert likely.half <= likely.nine_in_ten
    assert 0 < likely.holds < 1
    again = make_programme(_job(), programme.people, WORKS, calendar)
    assert again.chance == programme.chance
    with pytest.raises(InputError, match="0 plays tell nothing"):
        make_programme(_job(), crew("A"), WORKS, calendar, draws=0)
