"""What of a job is done, ordered or come: what is left of it is planned from now on, and what can't be is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.dates import Absence, Person, breaches, make_calendar
from rodbook.errors import InputError
from rodbook.job.dates import JobDates
from rodbook.plan.schedule.dates import FirmDays, SupplierOpen, WantedDates, dates_faults, plan_dates, wanted_by
from rodbook.plan.schedule.tasks import tasks_of

NOW = date(2026, 12, 7)  # a Monday
CREW = (Person("Ada"), Person("Ben"))
WANTED = WantedDates(NOW, CREW, now=NOW)
MILL, MERCHANT = "Quarry Lane Workshop", "the merchant"


@pytest.fixture(scope="module")
def stair(planned):
    return planned("stair")


def _with(plan, **dates):
    job = plan.job.model_copy(update={"dates": JobDates.model_validate(dates)})
    return replace(plan, job=job)


def _planned(plan, wanted=WANTED, **dates):
    return plan_dates([_with(plan, **dates)], wanted, effort=0.05)


def _names(programme):
    return [entry.task.name for entry in programme.to_do]


def _order(programme, supplier=MILL):
    return next(order for order in programme.orders if order.supplier == supplier)


def test_what_is_done_is_not_planned_and_what_comes_before_it_neither(stair):
    found = _planned(stair, tasks=[{"name": "linings, tall end", "done": "2026-12-04"}])
    for name in ("linings, tall end", "read openings once more", f"take in from {MILL}", "check against the order"):
        assert name not in _names(found)
    assert "leaves, tall end" in _names(found)
    assert "linings, middle" in _names(found)
    assert [(done.what, done.day) for done in found.done] == [("linings, tall end", date(2026, 12, 4))]
    assert any("taken as done, as what comes after is: " in str(remark) for remark in found.remarks)
    # hinges come from the merchant, and are not shown to have come
    assert [order.supplier for order in found.orders] == [MERCHANT]


def test_an_order_that_is_placed_is_not_asked_for_and_comes_when_it_was_promised(stair):
    found = _planned(stair, orders=[{"supplier": MILL, "ordered": "2026-12-01", "promised": "2026-12-16"}])
    order = _order(found)
    assert (order.ordered, order.promised) == (date(2026, 12, 1), date(2026, 12, 16))
    assert order.delivered == date(2026, 12, 16)
    assert found.orders[-1] is order
    assert f"order from {MILL}" not in _names(found)
    assert "read openings once more" not in _names(found)
    assert any(slip.supplier == MILL and slip.moved for slip in found.slips)


def test_without_a_promise_it_comes_after_its_lead_time(stair):
    # twelve working days after Tuesday, 1 December: Thursday, 17 December
    assert _order(_planned(stair, orders=[{"supplier": MILL, "ordered": "2026-12-01"}])).delivered == date(2026, 12, 17)
    # a Saturday's order counts from the Monday, which is its first working day
    assert _order(_planned(stair, orders=[{"supplier": MILL, "ordered": "2026-11-28"}])).delivered == date(2026, 12, 15)
    closed = replace(WANTED, days=FirmDays(closed=(Absence(date(2026, 12, 2), date(2026, 12, 4)),)))
    late = plan_dates([_with(stair, orders=[{"supplier": MILL, "ordered": "2026-12-01"}])], closed, effort=0.05)
    # it was taken to come on 22 December, as if the workshop were shut whenever the firm is
    assert _order(late).delivered == date(2026, 12, 17)
    shut = replace(WANTED, suppliers=(SupplierOpen(MILL, closed=(Absence(date(2026, 12, 2), date(2026, 12, 4)),)),))
    late = plan_dates([_with(stair, orders=[{"supplier": MILL, "ordered": "2026-12-01"}])], shut, effort=0.05)
    assert _order(late).delivered == date(2026, 12, 22)


def test_what_was_promised_and_has_not_come_is_said(stair):
    found = _planned(stair, orders=[{"supplier": MILL, "ordered": "2026-11-16", "promised": "2026-12-02"}])
    assert _order(found).delivered == date(2026, 12, 8)
    assert any("promised 2026-12-02, and it has not come" in str(remark) for remark in found.remarks)
    today = _planned(stair, orders=[{"supplier": MILL, "ordered": "2026-11-16", "promised": "2026-12-07"}])
    assert _order(today).delivered == NOW


def test_what_came_is_neither_ordered_nor_taken_in(stair):
    found = _planned(stair, orders=[{"supplier": MILL, "ordered": "2026-11-16", "came": "2026-12-04"}])
    assert [order.supplier for order in found.orders] == [MERCHANT]
    assert f"take in from {MILL}" not in _names(found)
    assert "check against the order" in _names(found)
    assert [done.what for done in found.done] == [f"order from {MILL}", f"take in from {MILL}"]
    assert any(slip.supplier == MERCHANT for slip in found.slips)
    assert not any(slip.supplier == MILL for slip in found.slips)


def test_paint_of_yesterday_is_dry_today_and_of_today_is_not(planned):
    plan = planned("converted-store")
    task = {"name": "touch up, north end"}
    room = ("linings", "leaves", "trims")
    before = [{"name": f"{one}, north end", "done": "2026-12-03"} for one in room]

    def adjusted(day):
        found = _planned(plan, tasks=[*before, task | {"done": day}])
        entry = next(e for e in found.to_do if e.task.name == "adjust leaves, north end")
        return entry.task.not_before

    assert adjusted("2026-12-06") == date(2026, 12, 7)
    assert adjusted("2026-12-07") == date(2026, 12, 8)


def test_nothing_is_planned_before_today_however_long_ago_it_was_begun(stair):
    asked = {"start": "2026-11-02", "orders": [{"supplier": MILL, "ordered": "2026-11-16"}]}
    job = stair.job.model_copy(update={"dates": JobDates.model_validate(asked)})
    wanted = wanted_by(stair.book, [job], today=NOW)
    found = plan_dates([replace(stair, job=job)], wanted, effort=0.05)
    assert found.calendar.days[0] == NOW
    assert all(found.start_of(entry) >= NOW for entry in found.to_do)


def test_a_day_that_was_wanted_and_is_past_is_said_and_stops_nothing(stair):
    found = _planned(stair, by="2026-12-01", tasks=[{"name": "read openings once more", "done": "2026-12-01"}])
    assert any("it was wanted by 2026-12-01, which is past" in str(remark) for remark in found.remarks)


def test_a_job_of_which_all_is_done(stair):
    done = {"tasks": [{"name": "hand over", "done": "2026-12-04"}]}
    with pytest.raises(InputError, match="all of it is done, so there are no dates to plan"):
        _planned(stair, **done)
    both = plan_dates([_with(stair, **done), stair], replace(WANTED, unnamed=NOW), effort=0.05)
    assert [work.key for work in both.works] == ["2"]
    assert any("all of it is done" in str(remark) for remark in both.remarks)


@pytest.mark.parametrize(
    ("dates", "said"),
    [
        (
            {"tasks": [{"name": "linings, middle", "done": "2026-12-08"}]},
            "task 'linings, middle': 2026-12-08 is still to come on 2026-12-07; give the day on which it was done",
        ),
        (
            {
                "tasks": [
                    {"name": "leaves, middle", "done": "2026-12-02"},
                    {"name": "linings, middle", "done": "2026-12-03"},
                ]
            },
            "task 'leaves, middle': it was done on 2026-12-02, before 'linings, middle', which comes first, on 2026-12-03",
        ),
        (
            {"tasks": [{"name": "read openings once more", "done": "2026-12-04", "after": ["hand over"]}]},
            "a circle that can never begin; take one wait out of it",
        ),
        (  # over something of which nothing is said
            {
                "orders": [{"supplier": MILL, "came": "2026-12-04"}],
                "tasks": [{"name": "hand over", "done": "2026-12-03"}],
            },
            f"it was done on 2026-12-03, before 'take in from {MILL}'",
        ),
        (
            {
                "orders": [{"supplier": MILL, "ordered": "2026-12-02"}],
                "tasks": [{"name": f"order from {MILL}", "done": "2026-12-01"}],
            },
            "it was done on 2026-12-01 and on 2026-12-02; keep one of the two days",
        ),
    ],
)
def test_what_can_not_be(stair, dates, said):
    plan = _with(stair, **dates)
    with pytest.raises(InputError) as caught:
        plan_dates([plan], WANTED, effort=0.05)
    assert said in str(caught.value)
    assert [str(fault) for fault in dates_faults([plan], WANTED)] == str(caught.value).split("\n")


def test_what_the_job_no_longer_has_is_left_aside_and_said(stair):
    found = _planned(
        stair,
        orders=[{"supplier": "Elm Mill", "ordered": "2026-12-01"}],
        tasks=[{"name": "gone", "done": "2026-12-01"}],
    )
    assert any("nothing is ordered from 'Elm Mill' now" in str(remark) for remark in found.remarks)
    assert any("there is no task 'gone'" in str(remark) for remark in found.remarks)
    assert f"order from {MILL}" in _names(found)


def test_a_turn_that_was_asked_for_is_no_proof_that_the_other_is_done(stair):
    turn = {"name": "linings, middle", "after": ["adjust leaves, tall end"]}
    found = _planned(stair, tasks=[turn | {"done": "2026-12-04"}])
    assert "adjust leaves, tall end" in _names(found)
    both = _planned(stair, tasks=[turn, {"name": "adjust leaves, tall end", "done": "2026-12-04"}])
    assert "linings, middle" in _names(both)


ORDERS = st.sampled_from(
    [
        (),
        ({"supplier": MILL, "ordered": "2026-11-20"},),
        ({"supplier": MILL, "ordered": "2026-11-20", "promised": "2026-12-01"},),
        (
            {"supplier": MILL, "ordered": "2026-11-20", "promised": "2026-12-18"},
            {"supplier": MERCHANT, "ordered": "2026-12-01"},
        ),
        (
            {"supplier": MILL, "ordered": "2026-11-20", "came": "2026-12-04"},
            {"supplier": MERCHANT, "came": "2026-12-04"},
        ),
    ]
)
TAKEN_UP = st.lists(st.integers(0, 23), unique=True, max_size=8)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(orders=ORDERS, numbers=TAKEN_UP)
def test_whatever_is_done_the_rest_keeps_to_what_was_asked(stair, orders, numbers):
    named = [one.name for one in tasks_of(stair, key="1", people=2).named]
    days = {"read openings once more": "2026-11-19"}
    picked = [named[n] for n in numbers if "order" not in named[n].split() and "take" not in named[n].split()]
    tasks = [{"name": name, "done": days.get(name, "2026-12-07")} for name in picked if name != "hand over"]
    found = _planned(stair, tasks=tasks, orders=orders)
    left = [entry.task for entry in found.schedule.placed]
    assert breaches(found.schedule, left, CREW, found.works, make_calendar(NOW)) == ()
    assert not {task["name"] for task in tasks} & set(_names(found))
    assert all(found.start_of(entry) >= NOW for entry in found.to_do)
    whole = _planned(stair)
    assert set(_names(found)) <= set(_names(whole))
    for order in found.orders:
        if order.ordered and order.promised:
            assert order.delivered >= max(order.promised, NOW)
