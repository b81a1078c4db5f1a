"""Tasks of the samples: what there is of each stage, and what waits for what."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

import pytest

from rodbook.dates import Absence, Person, Stage, breaches
from rodbook.errors import InputError
from rodbook.plan import plan_parts
from rodbook.plan.schedule.dates import FirmDays, WantedDates, plan_dates
from rodbook.plan.schedule.tasks import tasks_of

ADA_AND_BEN = (Person("Ada"), Person("Ben"))


def _before(tasks, key):
    """Everything that a task waits for, however far back."""
    by_key = {task.key: task for task in tasks}
    found, left = set(), [key]
    while left:
        for wait in by_key[left.pop()].waits:
            if wait.after not in found:
                found.add(wait.after)
                left.append(wait.after)
    return found


def test_every_room_is_lined_hung_trimmed_touched_up_and_adjusted(planned):
    plan = planned("converted-store")
    tasks = tasks_of(plan, key="1", people=2).tasks
    rooms = {entry.opening.room for entry in plan.openings}
    counts = Counter(task.stage for task in tasks)
    for stage in (Stage.LININGS, Stage.LEAVES, Stage.TRIMS, Stage.DECORATE, Stage.ADJUST):
        assert counts[stage] == len(rooms) == 6
    assert counts[Stage.HAND_OVER] == 1
    # 14 openings at 75 minutes, each room rounded up to a quarter of an hour
    assert sum(t.quarters for t in tasks if t.stage is Stage.LININGS) == 70
    last = next(task for task in tasks if task.stage is Stage.HAND_OVER)
    assert _before(tasks, last.key) == {task.key for task in tasks} - {last.key}, (
        "nothing is left when it is handed over"
    )


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "stair"])
def test_nothing_is_fitted_before_its_parts_are_there(planned, name):
    tasks = tasks_of(planned(name), key="1", people=2).tasks
    stages = {task.key: task.stage for task in tasks}
    for task in tasks:
        before = {stages[key] for key in _before(tasks, task.key)}
        if task.stage is Stage.LEAVES:
            assert {Stage.MEASURE, Stage.ORDER, Stage.DELIVER, Stage.LININGS} <= before
        if task.stage is Stage.ADJUST:
            assert Stage.DECORATE in before
        if task.stage is Stage.COAT:
            assert Stage.MAKE in before


def test_what_is_made_on_site_is_made_and_coated(planned):
    plan = planned("timber-house")
    tasks = tasks_of(plan, key="1", people=2).tasks
    made = [task for task in tasks if task.stage is Stage.MAKE]
    coats = [task for task in tasks if task.stage is Stage.COAT]
    # 10.8 hours, so two days of it: one task after another.
    assert [task.name for task in made] == ["make trims, 1 of 2", "make trims, 2 of 2"]
    assert [task.name for task in coats] == ["coat trims, coat 1", "coat trims, coat 2"]
    assert coats[1].waits[0].drying == 6
    crew_hours = sum(float(choice.site.crew_hours) for choice in plan.money.kinds if "trim" in choice.kind)
    hours = sum(task.quarters for task in (*made, *coats)) / 4
    assert crew_hours <= hours <= crew_hours + 0.25 * len((*made, *coats))


def test_a_crew_of_one_is_told_that_two_are_better(planned):
    found = tasks_of(planned("converted-store"), key="1", people=1)
    assert max(task.hands for task in found.tasks) == 1
    assert any("somebody has to lend a hand" in str(remark) for remark in found.remarks)


def test_the_books_own_times_are_taken(planned):
    plan = planned("stair")
    rate = plan.book.rates[0].model_copy(
        update={"name": "fit a lining", "value": 30.0, "unit": "minutes/opening", "nine_in_ten": 45.0}
    )
    plan = type(plan)(**{**plan.__dict__, "book": plan.book.model_copy(update={"rates": (*plan.book.rates, rate)})})
    found = tasks_of(plan, key="1", people=2)
    lining = next(task for task in found.tasks if task.stage is Stage.LININGS)
    assert (lining.quarters, lining.spread) == (2, 1.5)
    assert lining.working == "1 opening × 30 minutes (the book) = 0.50 hours"
    assert not any("fit a lining" in str(remark) for remark in found.remarks)


def test_dates_of_two_jobs_that_share_people(planned):
    plans = [planned("stair"), planned("timber-house")]
    off = (Absence(date(2026, 12, 18), date(2026, 12, 18)),)
    wanted = WantedDates(date(2026, 12, 1), (Person("Ada", off=off), Person("Ben")), FirmDays(country="AT"))
    programme = plan_dates(plans, wanted, effort=0.05)
    tasks = [task for number, plan in enumerate(plans, 1) for task in tasks_of(plan, key=str(number), people=2).tasks]
    assert breaches(programme.schedule, tasks, programme.people, programme.works, programme.calendar) == ()
    assert programme.calendar.holidays[0][0] == date(2026, 12, 8)
    assert {order.supplier for order in programme.orders} == {"the merchant", "Quarry Lane Workshop"}
    assert all(order.planned <= order.latest for order in programme.orders)


def test_a_day_later_than_the_last_to_order_moves_the_hand_over(planned):
    programme = plan_dates([planned("stair")], WantedDates(date(2026, 12, 1), ADA_AND_BEN, late_days=1))
    first = programme.orders[0]
    slip = next(slip for slip in programme.slips if slip.supplier == first.supplier)
    spare = first.latest - first.planned
    assert bool(slip.hand_overs) == (spare < timedelta(days=1))


def test_every_fault_of_crew_days_and_jobs_at_once(planned):
    bare = planned("stair")
    bare = plan_parts(bare.job, bare.book)
    days = FirmDays(hours=30, country="XX")
    with pytest.raises(InputError) as caught:
        plan_dates([bare], WantedDates(date(2026, 12, 1), (), days, late_days=-1))
    assert [str(fault) for fault in caught.value.faults] == [
        "crew: there is nobody to do the work; name at least one person",
        "late: -1 working days won't do; from 0 to 60 are taken",
        "job 'Stair at the chapel cottage': it has no parts yet, so there are no dates to plan",
        "hours: 30 hours a day won't do; from 1 to 12 are taken",
        "holidays: no holidays are known for 'XX'; write an ISO 3166 code such as AT, GB-ENG or US-VT",
    ]
    with pytest.raises(InputError, match="there is no job to plan dates for"):
        plan_dates([], WantedDates(date(2026, 12, 1), ADA_AND_BEN))
