"""Schedules keep to what was asked, are as short as can be, and say how short that is."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.dates import (
    Absence,
    OpenDays,
    Person,
    Wait,
    Work,
    breaches,
    critical_path,
    make_calendar,
    make_schedule,
)
from rodbook.dates.problem import make_problem
from rodbook.dates.serial import in_turn
from rodbook.errors import Infeasible, InputError

from .conftest import START, WORKS, crew, task

DAY = 32

CIRCLE = (
    "task 'task a': 'task a' waits for 'task c' waits for 'task b' waits for 'task a': a circle that can never begin; "
    "take one wait out of it"
)


def test_one_person_does_one_thing_at_a_time(calendar) -> None:
    tasks = [task("a", 10), task("b", 12), task("c", 8)]
    alone = make_schedule(tasks, crew("A"), WORKS, calendar)
    assert alone.finishes[0].end == 30
    assert alone.finishes[0].earliest_day == alone.finishes[0].day == date(2026, 12, 1)
    assert make_schedule(tasks, crew("AB"), WORKS, calendar).finishes[0].end == 18
    assert make_schedule(tasks, crew("ABC"), WORKS, calendar).finishes[0].end == 12


def test_a_task_for_two_takes_two(calendar) -> None:
    tasks = [task("a", 10, hands=2), task("b", 12), task("c", 8)]
    schedule = make_schedule(tasks, crew("AB"), WORKS, calendar)
    assert len(schedule.of("a").people) == 2
    assert schedule.finishes[0].end == 22


def test_two_do_not_work_in_one_place(calendar) -> None:
    tasks = [task("a", 10, place="attic"), task("b", 12, place="attic")]
    assert make_schedule(tasks, crew("AB"), WORKS, calendar).finishes[0].end == 22


def test_who_does_a_trade(calendar) -> None:
    people = [Person("A", ("joinery",)), Person("B", ("painting",)), Person("C")]
    tasks = [task(str(n), 8, trade="painting") for n in range(4)] + [task("x", 16, trade="joinery")]
    schedule = make_schedule(tasks, people, WORKS, calendar)
    assert breaches(schedule, tasks, people, WORKS, calendar) == ()
    assert schedule.finishes[0].end == 16
    assert schedule.proven


def test_nobody_works_on_a_day_off(calendar) -> None:
    people = [Person("A", off=(Absence(date(2026, 12, 2), date(2026, 12, 3)),))]
    tasks = [task("a", DAY + 4), task("b", 8)]
    schedule = make_schedule(tasks, people, WORKS, calendar)
    assert breaches(schedule, tasks, people, WORKS, calendar) == ()
    assert schedule.of("b").start == 0
    assert schedule.of("a").start == 3 * DAY, "it is not begun before days off that it would run into"


def test_a_coat_dries_overnight_or_within_the_day(calendar) -> None:
    def second(first: int, hours: float) -> int:
        tasks = [task("a", first), task("b", 4, Wait("a", drying=hours))]
        return make_schedule(tasks, crew("A"), WORKS, calendar).of("b").start

    assert second(8, 4) == 8 + 16
    assert second(20, 4) == DAY, "what is coated in the afternoon is dry in the morning"
    assert second(8, 16) == DAY
    assert second(8, 17) == DAY, "coated by ten it is dry at three at night; it was taken to need a second night"
    assert second(DAY, 17) == DAY + 4, "coated by the evening it is dry at nine in the morning"
    assert second(8, 30) == DAY + 32, "dry at four in the afternoon of the next day"
    assert second(12, 30) == 2 * DAY, "dry at five in the afternoon, when nobody works"


@pytest.mark.parametrize(
    ("coated", "hours", "dry"),
    [
        (4 * DAY, 16, 4 * DAY),  # by Friday's evening: dry on Saturday
        (4 * DAY, 30, 4 * DAY),  # dry on Saturday night; it was taken to need Monday as well
        (4 * DAY, 64, 4 * DAY),  # dry on Monday at eight
        (4 * DAY, 66, 4 * DAY + 8),  # dry on Monday at ten
        (3 * DAY, 30, 4 * DAY),  # by Thursday's evening: dry on Friday night
        (3 * DAY, 23, 3 * DAY + 28),  # dry on Friday at three
    ],
)
def test_what_dries_longer_than_a_night_dries_by_the_clock_through_weekends(coated, hours, dry) -> None:
    calendar = make_calendar(START, length=60)  # its fourth day is a Friday
    tasks = [task("a", coated), task("b", 4, Wait("a", drying=hours))]
    schedule = make_schedule(tasks, crew("AB"), WORKS, calendar)
    assert breaches(schedule, tasks, crew("AB"), WORKS, calendar) == ()
    assert schedule.of("b").start == dry
    passed = calendar.starts_at(dry) - calendar.ends_at(coated)
    assert passed >= timedelta(hours=hours)
    assert dry % DAY == 0 or passed == timedelta(hours=hours), "no later than by the clock"


def test_a_lead_time_counts_working_mornings(calendar) -> None:
    tasks = [task("order", 2), task("deliver", 2, Wait("order", days=5, supplier="Lane"))]
    schedule = make_schedule(tasks, crew("A"), WORKS, calendar)
    assert schedule.of("deliver").start == 5 * DAY
    assert calendar.day_of_start(schedule.of("deliver").start) == date(2026, 12, 8)


@pytest.mark.parametrize(
    ("open_on", "comes"),
    [
        (OpenDays(), date(2026, 12, 14)),  # the fifth day, a Tuesday, is in the firm's own fortnight off
        (OpenDays(closed=(Absence(date(2026, 12, 2), date(2026, 12, 11)),)), date(2026, 12, 18)),
        (OpenDays(holidays=(date(2026, 12, 8),), weekdays=(1, 2, 3)), date(2026, 12, 15)),
    ],
)
def test_a_lead_time_runs_on_the_suppliers_days(open_on, comes) -> None:
    closed = (Absence(date(2026, 12, 2), date(2026, 12, 11)),)
    calendar = make_calendar(START, closed=closed, length=60)
    tasks = [task("order", 2), task("deliver", 2, Wait("order", days=5, supplier="Lane", open=open_on))]
    schedule = make_schedule(tasks, crew("A"), WORKS, calendar)
    assert breaches(schedule, tasks, crew("A"), WORKS, calendar) == ()
    assert calendar.day_of_start(schedule.of("deliver").start) == comes


def test_a_firm_of_three_days_gets_what_comes_in_five() -> None:
    calendar = make_calendar(START, weekdays=(0, 1, 2), length=60)
    tasks = [task("order", 2), task("deliver", 2, Wait("order", days=5, supplier="Lane", open=OpenDays()))]
    schedule = make_schedule(tasks, crew("A"), WORKS, calendar)
    assert calendar.day_of_start(schedule.of("deliver").start) == date(2026, 12, 8)


def test_a_day_that_was_wanted_goes_before_an_earlier_end_of_another_job(calendar) -> None:
    works = [Work("quick", "Quick"), Work("slow", "Slow", due=date(2026, 12, 2))]
    tasks = [task("q", DAY, job="quick"), task("s", 2 * DAY, job="slow")]
    schedule = make_schedule(tasks, crew("A"), works, calendar)
    assert [finish.end for finish in schedule.finishes] == [3 * DAY, 2 * DAY]
    assert schedule.finishes[1].late_days == 0
    assert schedule.proven


def test_a_job_that_begins_later_is_left_until_then(calendar) -> None:
    works = [Work("j", "Mill", earliest=date(2026, 12, 5))]
    assert make_schedule([task("a", 4)], crew("A"), works, calendar).finishes[0].day == date(2026, 12, 7)


@st.composite
def problems(draw):
    count = draw(st.integers(1, 6))
    tasks = []
    for n in range(count):
        kinds = st.sampled_from(
            [
                {},
                {"working": 3},
                {"drying": 4},
                {"drying": 20},
                {"drying": 54},
                {"days": 1},
                {"days": 3, "supplier": "x"},
                {"days": 2, "supplier": "y", "open": OpenDays((2, 5), closed=(Absence(date(2026, 12, 5), START),))},
            ]
        )
        waits = [Wait(str(p), **draw(kinds)) for p in range(n) if draw(st.integers(0, 3)) == 0]
        tasks.append(
            task(
                str(n),
                draw(st.integers(0, 40)),
                *waits,
                hands=draw(st.integers(0, 2)),
                place=draw(st.sampled_from(["", "", "loft"])),
            )
        )
    off = (Absence(date(2026, 12, 3), date(2026, 12, 3)),) if draw(st.booleans()) else ()
    return tasks, [Person("A", off=off), Person("B")]


@given(problems())
@settings(max_examples=40, deadline=None)
def test_nothing_is_breached_and_nothing_in_turn_is_better(problem) -> None:
    tasks, people = problem
    calendar = make_calendar(START, length=60)
    schedule = make_schedule(tasks, people, WORKS, calendar, effort=2)
    assert breaches(schedule, tasks, people, WORKS, calendar) == ()
    assert schedule.proven
    # Some order of tasks, each as early as it goes, is best where people are alike; no order may beat what is proven.
    numbers = make_problem(tasks, people, WORKS, calendar)
    index = {t.key: n for n, t in enumerate(numbers.tasks)}
    before = {index[t.key]: {index[w.after] for w in t.waits} for t in tasks}
    ends = [
        max(in_turn(numbers, order).ends(numbers))
        for order in permutations(range(len(tasks)))
        if all(before[n] <= set(order[:place]) for place, n in enumerate(order))
    ]
    assert schedule.finishes[0].end <= min(ends)


@given(problems())
@settings(max_examples=25, deadline=None)
def test_with_people_enough_it_is_the_critical_path(problem) -> None:
    tasks = [replace(t, place="", waits=tuple(Wait(w.after) for w in t.waits)) for t in problem[0]]
    calendar = make_calendar(START, length=60)
    schedule = make_schedule(tasks, crew("ABCDEFGHIJKL"), WORKS, calendar)
    path = critical_path({t.key: t.quarters for t in tasks}, {t.key: [w.after for w in t.waits] for t in tasks})
    assert schedule.finishes[0].end == max(a.early_finish for a in path.values())


def test_the_same_question_gets_the_same_answer(calendar) -> None:
    tasks = [task(str(n), 7 + 5 * n % 11, *([str(n - 4)] if n > 3 else []), hands=1 + n % 2) for n in range(14)]
    first, second = (make_schedule(tasks, crew("ABC"), WORKS, calendar, effort=0.5) for _ in range(2))
    assert first == second


def test_every_fault_is_told_at_once(calendar) -> None:
    tasks = [
        task("a", 4, "c"),
        task("b", -4, "a"),
        task("c", 4, "b"),
        task("d", 10_000),
        task("e", 4, "nowhere"),
        task("f", 4, Wait("a", days=-1)),
        task("g", 4, hands=3),
        task("h", 4, trade="glazing"),
    ]
    works = [Work("j", "Mill", due=date(2026, 11, 30))]
    people = [
        Person("A", ("joinery",), off=(Absence(date(2026, 12, 9), date(2026, 12, 8)),)),
        Person("A", ("joinery",)),
    ]
    with pytest.raises(InputError) as caught:
        make_schedule(tasks, people, works, calendar)
    assert [str(fault) for fault in caught.value.faults] == [
        "crew: 'A' is there 2 times; tell them apart by name",
        "days off of 'A': 2026-12-09 to 2026-12-08 ends before it begins; write the earlier day first",
        "job 'Mill': it is to end on 2026-11-30, before it begins on 2026-12-01; choose a later day",
        "task 'task b': it takes -1 hours; a time is zero or more",
        "task 'task d': it takes 2500 hours, more than the 480 of the calendar's 60 days; split it, or put more hands to it",
        "task 'task e': it waits for 'nowhere', which is not among the tasks; name one that is",
        "task 'task f': its wait after 'task a' is less than zero; a wait is zero or more",
        "task 'task g': it takes 3 people, and the crew has 2; add to the crew",
        "task 'task h': it takes 1 people who do glazing, and the crew has 0; add to the crew",
        CIRCLE,
    ]


def test_a_crew_of_nobody(calendar) -> None:
    with pytest.raises(InputError, match=r"^crew: there is nobody to do the work; name at least one person$"):
        make_schedule([task("a", 4)], [], WORKS, calendar)


def test_more_work_than_the_calendar_has_days(calendar) -> None:
    tasks = [task(str(n), 50 * DAY) for n in range(2)]
    with pytest.raises(Infeasible, match=r"^task [01] would end after 2027-02-22, where the calendar ends; "):
        make_schedule(tasks, crew("A"), WORKS, calendar)
