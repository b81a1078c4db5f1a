"""What is done in which week: days shared out add up, week by week and task by task."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.money import JobWanted, MoreDays, Offered, TaskWanted, WeekDays, capacity

D = Decimal


def job(name: str, first: int, last: int, tasks: list[tuple[str, float, int]]) -> JobWanted:
    return JobWanted(
        name,
        D(2000),
        tuple(
            TaskWanted(task, (Offered("made", D(10), days), Offered("bought", D(cost), 0.0, D(cost))), first, last)
            for task, days, cost in tasks
        ),
    )


def test_what_is_made_has_its_days_and_what_is_bought_its_order() -> None:
    jobs = [job("Mill", 1, 2, [("doors", 2.0, 900), ("heads", 1.0, 20)])]
    answer = capacity(jobs, [WeekDays(1.5), WeekDays(1.0)], currency="EUR")
    assert [(w.week, w.task, w.way, w.days, w.ordered) for w in answer.work] == [
        (1, "heads", "bought", 0.0, True),
        (1, "doors", "made", answer.work[1].days, False),
        (2, "doors", "made", answer.work[2].days, False),
    ]
    assert sum(w.days for w in answer.work) == 2.0


def test_days_wait_for_what_is_ordered_first() -> None:
    way = Offered("bought cut", D(10), 1.0, D(10), not_before=2)
    answer = capacity(
        [JobWanted("Mill", D(100), (TaskWanted("doors", (way,), 1, 4),))], [WeekDays(1.0)] * 4, currency="EUR"
    )
    assert [w.week for w in answer.work if w.ordered] == [1]
    assert min(w.week for w in answer.work if not w.ordered) >= 3


def test_work_goes_early_and_in_its_order() -> None:
    one = job("Mill", 1, 4, [("doors", 2.0, 900), ("heads", 1.0, 900)])
    answer = capacity([one], [WeekDays(1.5)] * 4, currency="EUR")
    assert [(w.week, w.task, w.days) for w in answer.work] == [(1, "doors", 1.5), (2, "doors", 0.5), (2, "heads", 1.0)]
    assert [use.used for use in answer.weeks] == [1.5, 1.5, 0.0, 0.0]


def test_what_waits_is_behind_the_arrival_of_what_is_ordered_where_there_is_room() -> None:
    doors = TaskWanted("doors", (Offered("bought", D(10), 0.0, D(10), arrives=2),), 1, 4)
    fitting = TaskWanted("fitting", (Offered("by the crew", D(0), 3.0),), 1, 4, waits=True)
    roomy = capacity([JobWanted("Mill", D(100), (doors, fitting))], [WeekDays(5.0)] * 4, currency="EUR")
    assert [(w.week, w.task) for w in roomy.work] == [(1, "doors"), (3, "fitting")]
    tight = capacity([JobWanted("Mill", D(100), (doors, fitting))], [WeekDays(1.0)] * 4, currency="EUR")
    assert [(w.week, w.days) for w in tight.work if w.task == "fitting"] == [(1, 1.0), (3, 1.0), (4, 1.0)]
    assert tight.earned == roomy.earned


def test_days_on_top_that_are_paid_for_are_used() -> None:
    more = MoreDays("overtime", D(5), {2: 2.0})
    answer = capacity(
        [job("Mill", 1, 2, [("doors", 4.0, 900)])], [WeekDays(1.0), WeekDays(1.5)], currency="EUR", more=[more]
    )
    assert [(use.used, use.more) for use in answer.weeks] == [(1.0, 0.0), (1.5, 1.5)]


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.integers(1, 3),
            st.integers(0, 2),
            st.lists(st.tuples(st.integers(0, 8), st.integers(0, 900)), min_size=1, max_size=3),
        ),
        min_size=1,
        max_size=3,
    ),
    st.lists(st.integers(0, 5), min_size=5, max_size=5),
)
def test_weeks_and_tasks_add_up(wanted: list[tuple[int, int, list[tuple[int, int]]]], days: list[int]) -> None:
    jobs = [
        job(f"J{n}", first, first + more, [(f"T{k}", d / 2, cost) for k, (d, cost) in enumerate(tasks)])
        for n, (first, more, tasks) in enumerate(wanted)
    ]
    answer = capacity(jobs, [WeekDays(float(d)) for d in days], currency="EUR")
    by_week: dict[int, float] = defaultdict(float)
    by_task: dict[tuple[str, str], float] = defaultdict(float)
    for one in answer.work:
        by_week[one.week] += one.days
        by_task[one.job, one.task] += one.days
    for use in answer.weeks:
        assert abs(by_week[use.week] - use.used) < 1e-3
    for decision in answer.decisions:
        assert abs(by_task[decision.job, decision.task] - decision.crew_days) < 1e-3
