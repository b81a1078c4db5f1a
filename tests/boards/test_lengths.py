"""The face for lengths: properties of random jobs, optima by trying everything, and small cases by hand."""

from dataclasses import replace
from decimal import Decimal
from functools import cache
from itertools import combinations
from math import nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Bar, Stick, check_bar_plan, cut_lengths, lengths
from rodbook.boards.bars import search as bar_search
from rodbook.errors import InputError, RodbookError

SIX = Bar("6 m", 6000, Decimal("31.20"))


@pytest.fixture
def quick(monkeypatch):
    monkeypatch.setattr(bar_search, "MOST_LENGTHS_MIXED", 6)


sticks_in = st.lists(
    st.builds(Stick, st.sampled_from("abcd"), st.integers(50, 3000).map(lambda n: n / 2), st.integers(1, 8)), max_size=6
)
bars_in = st.lists(
    st.builds(
        Bar,
        st.sampled_from("stu"),
        st.integers(300, 3000).map(float),
        st.decimals(0, 40, places=2),
        st.none() | st.integers(0, 4),
        end_trim=st.sampled_from([0.0, 0.0, 10.0, 200.0]),
        raw_ends=st.integers(0, 2),
    ),
    max_size=3,
    unique_by=lambda bar: bar.name,
)


@settings(max_examples=70, deadline=None)
@given(sticks_in, bars_in, st.sampled_from([0.0, 3.2, 5.0]), st.integers(0, 2))
def test_every_plan_is_valid_and_comes_again(sticks, bars, kerf, seed):
    plan = cut_lengths(sticks, bars, kerf, seconds=600, seed=seed)
    assert check_bar_plan(plan, sticks, bars, kerf) == []
    assert plan == cut_lengths(sticks, bars, kerf, seconds=600, seed=seed)


def least_cost_by_trying(lengths_wanted, bars, kerf):
    """Give the least price of bars that hold all sticks; every division of the sticks is tried."""

    @cache
    def least(left, stock):
        if not left:
            return Decimal(0)
        costs = []
        first, rest = left[0], left[1:]
        for number in range(len(left)):
            for others in combinations(range(len(rest)), number):
                group = [first, *(rest[i] for i in others)]
                need = sum(group) + kerf * (len(group) - 1)
                after = tuple(size for i, size in enumerate(rest) if i not in others)
                for b, bar in enumerate(bars):
                    if stock[b] and need <= bar.length:
                        cost = least(after, tuple(n - (i == b) for i, n in enumerate(stock)))
                        if cost is not None:
                            costs.append(cost + bar.price)
        return min(costs, default=None)

    return least(tuple(sorted(lengths_wanted)), tuple(9 if bar.quantity is None else bar.quantity for bar in bars))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(10, 99).map(lambda n: n * 10), min_size=1, max_size=6),
    st.lists(
        st.builds(
            Bar,
            st.sampled_from("st"),
            st.integers(100, 200).map(lambda n: n * 10.0),
            st.sampled_from([Decimal(0), Decimal("2.50"), Decimal(3)]),
            st.sampled_from([None, None, 1, 2]),
        ),
        min_size=1,
        max_size=2,
        unique_by=lambda bar: bar.name,
    ),
)
def test_small_jobs_are_cut_at_the_optimum_and_proven(sizes, bars):
    sticks = [Stick(f"s{n}", size) for n, size in enumerate(sizes)]
    optimum = least_cost_by_trying(sizes, bars, 5)
    plan = cut_lengths(sticks, bars, 5.0, seconds=600)
    if optimum is None:
        assert plan.unplaced
    else:
        assert plan.unplaced == ()
        assert (plan.cost, plan.bound, plan.proven) == (optimum, optimum, True)


def test_nothing_asked_for_costs_nothing():
    plan = cut_lengths([], [SIX])
    assert (plan.patterns, plan.cost, plan.bound, plan.proven, plan.unplaced) == ((), 0, 0, True, ())


def test_legs_go_two_to_a_bar():
    # 2 × 2010 + 3.2 = 4023.2; a third would need 6036.4 of 6000. So 28 legs need 14 bars, 14 × 31.20 = 436.80.
    plan = cut_lengths([Stick("leg", 2010, 28)], [SIX], 3.2)
    assert (plan.cost, plan.bound, plan.proven) == (Decimal("436.80"), Decimal("436.80"), True)
    (only,) = plan.patterns
    assert (only.bar, only.count) == ("6 m", 14)
    assert [(cut.position, cut.length) for cut in only.cuts] == [(0.0, 2010.0), (2013.2, 2010.0)]
    # 6000 - 4023.2 - 3.2 for the cut that frees it
    assert only.remainder == 1973.6


def test_the_last_stick_needs_no_kerf():
    # 3 × 1997.2 + 2 × 4.2 = 6000 exactly
    plan = cut_lengths([Stick("s", 1997.2, 3)], [SIX], 4.2)
    assert [(p.count, p.remainder) for p in plan.patterns] == [(1, 0.0)]
    assert plan.proven
    assert cut_lengths([Stick("s", 1997.21, 3)], [SIX], 4.2).cost == Decimal("62.40")


def test_a_case_where_filling_bar_after_bar_fails():
    # Bar 10, no kerf: 4, 4, 3, 3, 3, 3. Longest first fills 4 + 4, 3 + 3 + 3, 3: three bars.
    # 4 + 3 + 3 twice is full: two bars, and 20 of length need two at the least.
    plan = cut_lengths([Stick("four", 4, 2), Stick("three", 3, 4)], [Bar("ten", 10, Decimal(1))], kerf=0)
    assert (plan.cost, plan.proven) == (2, True)


def test_proof_beyond_length_alone():
    # Bar 10, no kerf: three of 6 are 18 of length, two bars' worth, and still no two go on one bar.
    plan = cut_lengths([Stick("six", 6, 3)], [Bar("ten", 10, Decimal(1))], kerf=0)
    assert (plan.cost, plan.bound, plan.proven) == (3, 3, True)


def test_the_cheapest_mix_of_bars():
    # 5 m at 10, 3 m at 7: sticks 5, 3 and 2: 5 on one, 3 + 2 on another 5 m: 20. The 3 m bar would make 10 + 7 + 7.
    bars = [Bar("5 m", 5000, Decimal(10)), Bar("3 m", 3000, Decimal(7))]
    plan = cut_lengths([Stick("a", 5000), Stick("b", 3000), Stick("c", 2000)], bars, kerf=0)
    assert (plan.cost, plan.proven) == (20, True)
    # without the 2 m stick the third goes on the shorter bar: 17
    plan = cut_lengths([Stick("a", 5000), Stick("b", 3000)], bars, kerf=0)
    assert (plan.cost, plan.proven) == (17, True)


def test_free_bars_are_used_first_as_far_as_they_go():
    rest = Bar("rest", 2100, Decimal(0), quantity=2)
    # two legs from the two rests, the other two from one bar
    plan = cut_lengths([Stick("leg", 2010, 4)], [SIX, rest])
    assert (plan.cost, plan.proven) == (Decimal("31.20"), True)
    assert {p.bar: p.count for p in plan.patterns} == {"6 m": 1, "rest": 2}


def test_bars_run_out_and_as_few_sticks_as_can_be_are_missing():
    # One bar of 10: of 7, 5 and 5 the two fives go; longest first would have kept the seven alone.
    plan = cut_lengths([Stick("seven", 7), Stick("five", 5, 2)], [Bar("ten", 10, Decimal(1), quantity=1)], kerf=0)
    (left,) = plan.unplaced
    assert (left.name, left.quantity) == ("seven", 1)
    assert left.reason == "The bars ran out: 1 of “ten” did not hold all the pieces."
    assert not plan.proven


def test_what_fits_no_bar():
    plan = cut_lengths([Stick("mast", 7500), Stick("leg", 2010)], [SIX, Bar("short", 2400, Decimal(9))])
    (left,) = plan.unplaced
    assert left.reason == "It fits no bar: for the longest, “6 m” (6000 mm), it is 1500 mm too long."
    assert (plan.cost, plan.proven) == (Decimal(9), True)
    assert cut_lengths([Stick("leg", 2010)], []).unplaced[0].reason == "No bar was given."


def test_many_different_lengths(quick):
    sticks = [Stick(f"s{n}", 300 + 97 * n % 2300, 1 + n % 4) for n in range(40)]
    plan = cut_lengths(sticks, [SIX, Bar("4 m", 4000, Decimal("21.00"))], seconds=600)
    assert plan.unplaced == ()
    assert plan.bound <= plan.cost <= plan.bound * Decimal("1.1")


def test_a_great_many_sticks():
    # 6003.2 / (45.6 + 3.2) = 123.02: 123 a bar; 10 000 need 82 bars (81.3)
    plan = cut_lengths([Stick("peg", 45.6, 10_000)], [SIX])
    assert sum(p.count for p in plan.patterns) == 82
    assert plan.proven


def test_prices_of_any_fineness_and_size():
    bars = [Bar("a", 1000, Decimal("123456789.123456")), Bar("b", 700, Decimal("99999999.999999"))]
    plan = cut_lengths([Stick("s", 600, 3)], bars)
    assert plan.cost == plan.bound == 3 * Decimal("99999999.999999")


def test_running_out_of_time_still_gives_a_whole_valid_plan():
    sticks = [Stick(f"s{n}", 400 + 91 * n) for n in range(20)]
    plan = cut_lengths(sticks, [SIX, Bar("4.2 m", 4200, Decimal("21.90"))], seconds=1e-9)
    assert plan.ended == "time"
    assert plan.unplaced == ()


def test_nothing_is_printed(capfd):
    cut_lengths([Stick("four", 4, 2), Stick("three", 3, 4)], [Bar("ten", 10, Decimal(1))], kerf=0)
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("where", "name", "step"),
    [
        (bar_search, "_dive", "values"),
        (bar_search, "_Mixing.run", "mixing"),
        (bar_search, "_bound", "bound"),
        (lengths, "_plan_of", "check"),
    ],
)
def test_whatever_goes_wrong_in_a_later_step_the_best_plan_stands_and_says_so(monkeypatch, caplog, where, name, step):
    sticks = [Stick(f"s{n}", 900.0 + 137 * n, 5) for n in range(8)]
    bars = [Bar("b", 3000, Decimal(7)), Bar("c", 2500, Decimal(6))]
    if step == "mixing":
        undived = lambda *a: bar_search.BarAnswer(a[3], a[4] or 0, 0, "tries")  # noqa: E731
        monkeypatch.setattr(bar_search, "_dive", undived)
    owner, name = (bar_search._Mixing, "run") if "." in name else (where, name)
    good, calls = getattr(owner, name), []

    def fails(*args, **kwargs):
        calls.append(name)
        if len(calls) > 1:
            return good(*args, **kwargs)
        raise ValueError("out of hand")

    monkeypatch.setattr(owner, name, fails)
    plan = cut_lengths(sticks, bars, effort=1.0)
    assert [(broken.step, broken.error) for broken in plan.broken_off] == [(step, "ValueError: out of hand")]
    assert check_bar_plan(plan, sticks, bars, 3.2) == []
    assert plan.unplaced == ()
    assert "out of hand" in caplog.text


def test_a_plan_that_fails_the_check_is_not_given(monkeypatch):
    monkeypatch.setattr(lengths, "check_bar_plan", lambda *_: ["one thing is wrong"])
    with pytest.raises(RodbookError, match=r"^internal error: the cutting found is not valid: one thing is wrong$"):
        cut_lengths([Stick("leg", 2010)], [SIX])


def test_every_fault_of_the_input_is_told_at_once():
    sticks = [Stick("dust", 2), Stick("", -1, 0), Stick("many", 10, 100_001)]
    bars = [Bar("b", nan, Decimal("Infinity")), Bar("b", 10, Decimal(1), quantity=1.5)]
    with pytest.raises(InputError) as caught:
        cut_lengths(sticks, bars, kerf=3.2, seconds=nan, seed=0.5)
    assert str(caught.value).splitlines() == [
        "pieces[0] (dust).length: 2 mm is less than the kerf, 3.2 mm; the saw cannot cut it",
        "pieces[1] ().length: -1 mm is not a size; give at least 0.01 mm",
        "pieces[1] ().name: the name is empty; give it one",
        "pieces[1] ().quantity: 0 is not a number of pieces; give 1 or more",
        "pieces: 100002 pieces are more than one job may have, 100000; divide the job",
        "bars[0] (b).length: nan is not a size; give millimetres",
        "bars[0] (b).price: Infinity is not a price; give an amount of money",
        "bars[1] (b).quantity: 1.5 is not a stock; give 0 or more, or None for as many as needed",
        "bars[1] (b).name: 'b' is also the name of bars[0]; rename one",
        "seconds: nan leaves no time to search; give more than 0 seconds",
        "seed: 0.5 is not a seed; give a whole number of 0 or more",
    ]


def test_both_raw_ends_are_squared_before_anything_is_cut():
    """As sold 4400; between its squared ends 4380, so that two of 2188.4 just go, with the kerf between them."""
    sold = Bar("4.4 m", 4400, Decimal(13), end_trim=10)
    (pattern,) = cut_lengths([Stick("leg", 2188.4, 2)], [sold], 3.2).patterns
    assert [(cut.position, cut.length) for cut in pattern.cuts] == [(10.0, 2188.4), (2201.6, 2188.4)]
    assert (pattern.start, pattern.end, pattern.remainder, pattern.count) == (10.0, 10.0, 0.0, 1)
    assert sum(p.count for p in cut_lengths([Stick("leg", 2188.41, 2)], [sold], 3.2).patterns) == 2
    # Without the allowance two of 2198.4 come out of the very same length.
    assert sum(p.count for p in cut_lengths([Stick("leg", 2198.4, 2)], [replace(sold, end_trim=0)], 3.2).patterns) == 1


def test_the_cut_end_of_an_offcut_is_square_already():
    rest = Bar("rest of 4.4 m", 900, Decimal(0), 1, end_trim=10, raw_ends=1)
    (pattern,) = cut_lengths([Stick("head", 890)], [rest]).patterns
    assert (pattern.start, pattern.cuts[0].position, pattern.end) == (0.0, 0.0, 10.0)
    (left,) = cut_lengths([Stick("head", 890.01)], [rest]).unplaced
    assert left.reason == (
        "It fits no bar: for the longest, “rest of 4.4 m” (890 mm of 900 once its ends are square), it is 0.01 mm too long."
    )
    assert not cut_lengths([Stick("head", 900)], [replace(rest, raw_ends=0)]).unplaced


def test_ends_that_leave_nothing_take_nothing():
    scrap = Bar("scrap", 15, Decimal(0), end_trim=10)
    assert cut_lengths([Stick("p", 5)], [scrap]).unplaced[0].quantity == 1
    assert cut_lengths([Stick("p", 5)], [scrap, SIX]).cost == SIX.price


@settings(max_examples=40, deadline=None)
@given(sticks_in, bars_in, st.sampled_from([0.0, 3.2]), st.sampled_from([5.0, 12.5]))
def test_squared_ends_are_a_shorter_bar_moved_along(sticks, bars, kerf, trim):
    """The same plan as of bars that are shorter by both ends, each stick further along by one."""
    raw = [replace(bar, length=bar.length + 2 * trim, end_trim=trim, raw_ends=2) for bar in bars]
    short = cut_lengths(sticks, [replace(bar, end_trim=0.0) for bar in bars], kerf, seconds=600)
    found = cut_lengths(sticks, raw, kerf, seconds=600)
    assert (found.cost, found.bound, found.proven) == (short.cost, short.bound, short.proven)
    assert [
        (p.count, p.remainder, [(c.name, round(c.position - trim, 6)) for c in p.cuts]) for p in found.patterns
    ] == [(p.count, p.remainder, [(c.name, c.position) for c in p.cuts]) for p in short.patterns]


def test_what_squares_an_end_is_checked():
    bars = [replace(SIX, end_trim=-1), replace(SIX, name="b", raw_ends=3)]
    with pytest.raises(InputError) as caught:
        cut_lengths([Stick("p", 5)], bars)
    assert [str(fault) for fault in caught.value.faults] == [
        "bars[0] (6 m).end_trim: -1 cannot be what squares an end; give millimetres, 0 or more",
        "bars[1] (b).raw_ends: 3 is not a number of ends; give 0, 1 or 2",
    ]


def test_a_bar_of_which_squaring_leaves_nothing_is_passed_over():
    """Two raw ends of 200 mm take more than a bar of 300 mm has: it holds nothing, and the other bar is taken."""
    bars = [
        Bar("s", 300.0, Decimal(0), end_trim=200.0, raw_ends=2),
        Bar("t", 300.0, Decimal(0), end_trim=0.0, raw_ends=0),
    ]
    plan = cut_lengths([Stick("a", 25.0, 1)], bars, kerf=0.0)
    assert {pattern.bar for pattern in plan.patterns} == {"t"}
