"""The capacity question against every choice tried by hand, and what its answer says."""

from __future__ import annotations

import itertools
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible, InputError
from rodbook.money import JobWanted, MoreDays, Offered, TaskWanted, WeekDays, capacity

D = Decimal


def make_or_buy(name: str, first: int, last: int, *, site: tuple[int, float], bought: int) -> TaskWanted:
    """A task that takes days on site or money from a workshop."""
    ways = (Offered("made", D(site[0]), site[1]), Offered("bought", D(bought), 0.0, D(bought)))
    return TaskWanted(name, ways, first, last)


def best_by_hand(jobs: list[JobWanted], weeks: list[WeekDays]) -> float:
    """Every choice of ways and jobs; days fit where no run of weeks has to hold more than it has."""
    best = float("-inf")
    options = []
    for job in jobs:
        every = list(itertools.product(*(task.ways for task in job.tasks)))
        options.append([(job, ways) for ways in every] + ([] if job.promised else [(job, None)]))
    for choice in itertools.product(*options):
        earned, wanted = 0.0, []
        for job, ways in choice:
            if ways is None:
                continue
            ordered = [float(w.ordered) for w in ways if w.ordered is not None]
            earned += float(job.income) - sum(float(w.cost) for w in ways)
            if ordered:
                earned -= float(job.delivery) + max(0.0, float(job.least_order) - sum(ordered))
            wanted += [(t.first_week, t.last_week, w.crew_days) for t, w in zip(job.tasks, ways, strict=True)]
        runs = itertools.combinations_with_replacement(range(1, len(weeks) + 1), 2)
        if all(
            sum(d for f, e, d in wanted if a <= f and e <= b) <= sum(w.days for w in weeks[a - 1 : b]) + 1e-9
            for a, b in runs
        ):
            best = max(best, earned)
    return best


@st.composite
def boards(draw: st.DrawFn) -> tuple[list[JobWanted], list[WeekDays]]:
    weeks = [WeekDays(draw(st.integers(0, 4))) for _ in range(draw(st.integers(1, 3)))]
    jobs = []
    for n in range(draw(st.integers(1, 3))):
        tasks = []
        for k in range(draw(st.integers(1, 2))):
            first = draw(st.integers(1, len(weeks)))
            last = draw(st.integers(first, len(weeks)))
            site = draw(st.integers(0, 200)), draw(st.integers(0, 8)) / 2
            tasks.append(make_or_buy(f"T{k}", first, last, site=site, bought=draw(st.integers(0, 900))))
        jobs.append(
            JobWanted(
                f"J{n}",
                D(draw(st.integers(0, 1000))),
                tuple(tasks),
                draw(st.booleans()),
                D(draw(st.integers(0, 100))),
                D(draw(st.integers(0, 300))),
            )
        )
    return jobs, weeks


@settings(max_examples=60, deadline=None)
@given(boards())
def test_it_is_the_best_of_every_choice(board: tuple[list[JobWanted], list[WeekDays]]) -> None:
    jobs, weeks = board
    answer = capacity(jobs, weeks, currency="EUR", gap=0.0)
    assert answer.proven
    assert float(answer.earned) == pytest.approx(best_by_hand(jobs, weeks), abs=0.006)
    for week in answer.weeks:
        assert week.used <= week.days + 1e-6
    assert len({d.job for d in answer.decisions}) == len(jobs)


@settings(max_examples=25, deadline=None)
@given(boards())
def test_one_more_day_is_what_solving_again_says(board: tuple[list[JobWanted], list[WeekDays]]) -> None:
    jobs, weeks = board
    answer = capacity(jobs, weeks, currency="EUR", gap=0.0, value_weeks=None)
    for number, week in enumerate(answer.weeks, 1):
        more = [WeekDays(w.days + (n == number)) for n, w in enumerate(weeks, 1)]
        expected = best_by_hand(jobs, more) - best_by_hand(jobs, weeks)
        assert week.one_more_day is not None
        assert week.at_least is not None
        assert week.at_most is not None
        assert float(week.one_more_day) == pytest.approx(expected, abs=0.011)
        assert week.at_least <= week.one_more_day + D("0.01")
        assert week.at_most >= week.one_more_day - D("0.01")


def test_one_more_day_where_the_solver_once_claimed_more_than_there_is() -> None:
    loose = JobWanted("J0", D(2), (make_or_buy("T0", 1, 1, site=(0, 4.0), bought=0),), False, D(0), D(2))
    bound = tuple(
        make_or_buy(f"T{n}", 1, 1, site=s, bought=b) for n, (s, b) in enumerate([((1, 0.0), 2), ((0, 0.5), 0)])
    )
    jobs = [loose, JobWanted("J1", D(0), bound, True, D(0), D(2))]
    answer = capacity(jobs, [WeekDays(3.0)], currency="EUR", gap=0.0, value_weeks=None)
    assert (answer.earned, answer.weeks[0].one_more_day) == (D("-1.00"), D("1.00"))


def test_scarce_days_go_where_they_earn_most_and_the_reason_says_so() -> None:
    doors = make_or_buy("doors", 1, 1, site=(200, 3.0), bought=800)
    heads = make_or_buy("heads", 1, 1, site=(100, 3.0), bought=400)
    jobs = [JobWanted("Mill", D(2000), (doors,)), JobWanted("Barn", D(1500), (heads,))]
    answer = capacity(jobs, [WeekDays(3.0)], currency="EUR", value_weeks=[1])
    assert [d.way for d in answer.decisions] == ["made", "bought"]
    assert answer.earned == D("2900.00")  # 3500 - 200 - 400
    # a little more time makes heads instead of buying them: 300 for three days
    assert answer.weeks[0].dual == D("100.00")
    assert answer.weeks[0].one_more_day == 0
    assert answer.decisions[0].reason == (
        "doors: made: it costs 600.00 EUR less than bought but takes 3 crew days more, "
        "which earn about 100.00 EUR each in week 1."
    )
    assert answer.decisions[1].reason == (
        "heads: bought: it costs 300.00 EUR more than made but saves 3 crew days, "
        "which earn about 100.00 EUR each in week 1."
    )


def test_overtime_is_taken_where_it_pays() -> None:
    doors = make_or_buy("doors", 1, 1, site=(200, 3.0), bought=1500)
    jobs = [JobWanted("Mill", D(2000), (doors,))]
    answer = capacity(jobs, [WeekDays(2.0)], currency="EUR", more=[MoreDays("overtime", D(420), {1: 1.0})])
    assert (answer.weeks[0].more, answer.earned) == (1.0, D("1380.00"))  # 2000 - 200 - 420
    assert answer.more[0].taken == {1: 1.0}
    assert answer.more[0].earns == D("880.00")  # without it they are bought for 1500
    assert answer.more[0].sentence == (
        "overtime: worth having. 1 day in week 1 costs 420.00 EUR, and with them the firm earns 880.00 EUR more than without, "
        "their cost taken off."
    )
    dear = capacity(jobs, [WeekDays(2.0)], currency="EUR", more=[MoreDays("overtime", D(1400), {1: 1.0})])
    assert (dear.weeks[0].more, dear.decisions[0].way) == (0.0, "bought")
    assert dear.more[0].sentence == (
        "overtime: not worth having. One more day would earn 1300.00 EUR at most, in week 1, and it costs 1400 EUR."
    )


@pytest.mark.parametrize("short", [0.01, 0.03, 0.049])
def test_a_sliver_of_overtime_that_is_paid_is_in_its_cost(short: float) -> None:
    """2.03 days are wanted of a week of 2: the rest is paid by the day, so it is said to be taken and costs its share."""
    fitting = TaskWanted("fitting", (Offered("by the crew", D(0), 2.0 + short),), 1, 1)
    jobs = [JobWanted("Mill", D(900), (fitting,), promised=True)]
    answer = capacity(jobs, [WeekDays(2.0)], currency="EUR", more=[MoreDays("overtime", D(420), {1: 1.0})])
    (overtime,) = answer.more
    assert overtime.taken == pytest.approx({1: short})
    assert overtime.cost == D(900) - answer.earned == (D(420) * D(str(short))).quantize(D("0.01"))
    assert overtime.sentence.startswith("overtime: needed. Less than 0.1 days in week 1 cost")


def test_days_on_top_that_nobody_needs_or_nobody_can_do_without() -> None:
    fitting = JobWanted("Mill", D(900), (TaskWanted("fitting", (Offered("by the crew", D(0), 2.5),), 1, 2),))
    hired = MoreDays("Dora", D("260.00"), {1: 3.0, 2: 0.7}, whole=True)
    idle = capacity([fitting], [WeekDays(5.0), WeekDays(5.0)], currency="EUR", more=[hired])
    assert idle.more[0].taken == {}
    assert idle.more[0].sentence == (
        "Dora: not worth having. The crew's days are not short then, so one at 260.00 EUR would earn nothing."
    )
    needed = capacity([fitting], [WeekDays(0.5), WeekDays(0.5)], currency="EUR", more=[hired])
    assert needed.more[0].taken == {1: 2.0}  # in whole days, and 0.7 of one is none
    assert needed.more[0].earns is None
    assert needed.more[0].sentence == (
        "Dora: needed. 2 days in week 1 cost 520.00 EUR; without them what is promised can't be done."
    )
    assert needed.earned == D("380.00")


@settings(max_examples=40, deadline=None)
@given(boards(), st.integers(0, 400), st.integers(1, 3), st.booleans())
def test_days_on_top_are_worth_what_solving_without_them_says(
    board: tuple[list[JobWanted], list[WeekDays]], price: int, most: int, whole: bool
) -> None:
    """Held against every number of days on top tried by hand: each taken as if it were the crew's, and paid."""
    jobs, weeks = board
    answer = capacity(jobs, weeks, currency="EUR", gap=0.0, more=[MoreDays("x", D(price), {1: float(most)}, whole)])
    without = capacity(jobs, weeks, currency="EUR", gap=0.0)
    step = 1.0 if whole else 0.5  # of days that are wanted in halves, halves are enough
    tries = [n * step for n in range(int(most / step) + 1)]
    by_hand = max(
        best_by_hand(jobs, [WeekDays(w.days + (d if n == 0 else 0)) for n, w in enumerate(weeks)]) - price * d
        for d in tries
    )
    assert float(answer.earned) == pytest.approx(by_hand, abs=0.011)
    found = answer.more[0]
    assert found.earns == pytest.approx(answer.earned - without.earned, abs=D("0.02"))
    assert bool(found.taken) == ("not worth having" not in found.sentence)


def test_days_on_top_that_can_not_be() -> None:
    job = JobWanted("Mill", D(900), (TaskWanted("fitting", (Offered("by the crew", D(0), 2.0),), 1, 1),))
    more = [
        MoreDays("a", D(-1), {1: 1.0}),
        MoreDays("a", D("NaN"), {2: 1.0}),
        MoreDays("b", D(1), {1: float("inf"), 0: -1.0}),
    ]
    with pytest.raises(InputError) as caught:
        capacity([job], [WeekDays(float("nan"))], currency="EUR", more=more)
    assert str(caught.value).split("\n") == [
        "weeks[1]: days can't be below zero, nor without end",
        "more days, a: 2 of them have this name; each needs its own",
        "more days, a: -1 a day won't do; write what a day costs, from zero up",
        "more days, a: NaN a day won't do; write what a day costs, from zero up",
        "more days, a: week 2 is not among weeks 1 to 1",
        "more days, b: inf days in week 1 won't do; write how many can be had, from zero up",
        "more days, b: week 0 is not among weeks 1 to 1",
        "more days, b: -1 days in week 0 won't do; write how many can be had, from zero up",
    ]


def test_a_job_that_does_not_pay_is_left() -> None:
    jobs = [
        JobWanted("Mill", D(900), (TaskWanted("fitting", (Offered("by the crew", D(0), 2.0),), 1, 1),), promised=False),
        JobWanted("Barn", D(500), (TaskWanted("fitting", (Offered("by the crew", D(0), 2.0),), 1, 1),), promised=False),
    ]
    answer = capacity(jobs, [WeekDays(2.0)], currency="EUR", gap=0.0)
    assert answer.left == ("Barn",)
    assert answer.decisions[0].reason == "fitting: by the crew, the only way there is."
    assert answer.decisions[1].reason.startswith("Barn is left: it pays 500.00 EUR, while what it costs")


def test_what_is_promised_and_cannot_be_done_names_the_weeks() -> None:
    fitting = TaskWanted("fitting", (Offered("by the crew", D(0), 5.0),), 2, 2)
    with pytest.raises(Infeasible) as caught:
        capacity([JobWanted("Mill", D(900), (fitting,))], [WeekDays(9.0), WeekDays(3.0)], currency="EUR")
    assert caught.value.items == ("week 2: 2.0 crew days are missing",)
    assert str(caught.value) == (
        "What is promised can't be done with the crew days there are: week 2: 2.0 crew days are missing."
    )


def test_what_is_ordered_has_to_arrive_first() -> None:
    ways = (Offered("made", D(100), 3.0), Offered("bought cut", D(300), 1.0, D(300), not_before=2))
    job = JobWanted("Mill", D(900), (TaskWanted("doors", ways, 1, 2),))
    with pytest.raises(Infeasible):
        capacity([job], [WeekDays(1.0)] * 2, currency="EUR")
    later = JobWanted("Mill", D(900), (TaskWanted("doors", ways, 1, 3),))
    answer = capacity([later], [WeekDays(0.5), WeekDays(0.5), WeekDays(1.0)], currency="EUR")
    assert answer.decisions[0].way == "bought cut"
    assert [w.used for w in answer.weeks] == [0.0, 0.0, 1.0]


def test_what_goes_out_and_comes_back_pays_twice_but_once_for_all() -> None:
    def task(name: str, cost: int) -> TaskWanted:
        return TaskWanted(name, (Offered("finished out", D(cost), 1.0, D(cost), not_after=1, travels=2),), 1, 2)

    job = JobWanted("Mill", D(2000), (task("doors", 300), task("heads", 200)), delivery=D(85))
    answer = capacity([job], [WeekDays(2.0), WeekDays(2.0)], currency="EUR")
    assert answer.earned == 2000 - 500 - 2 * 85
    assert [w.used for w in answer.weeks] == [2.0, 0.0]  # the last week is for the workshop


def test_all_faults_at_once() -> None:
    no_way = TaskWanted("doors", (), 2, 1)
    odd = TaskWanted("heads", (Offered("made", D(1), -1.0),), 1, 1)
    with pytest.raises(InputError) as caught:
        capacity(
            [JobWanted("Mill", D(1), (no_way, odd)), JobWanted("Mill", D(1), ())], [WeekDays(-1.0)], currency="EUR"
        )
    assert str(caught.value).split("\n") == [
        "weeks[1]: days can't be below zero, nor without end",
        "job 'Mill': 2 jobs have this name; each needs its own",
        "job 'Mill', task 'doors': there is no way to do it; give one at the least",
        "job 'Mill', task 'doors': weeks 2 to 1 are not among weeks 1 to 1, in that order",
        "job 'Mill', task 'heads', way 'made': days, weeks to wait and money must be numbers from zero up",
    ]
    with pytest.raises(InputError, match="there is no week in which anything could be done"):
        capacity([], [], currency="EUR")
