from itertools import product
from time import monotonic

from hypothesis import given
from hypothesis import strategies as st

from rodbook.boards.bars.patterns import BarKind, all_patterns, best_mix, dearest_filling, fewest_missing, grow
from rodbook.boards.tools.clock import Clock


@given(
    st.integers(10, 60),
    st.lists(st.tuples(st.integers(5, 30), st.integers(1, 4), st.integers(0, 50)), min_size=1, max_size=4),
)
def test_the_dearest_filling_is_that_of_trying_all(room, sticks):
    lengths, quantities, values = zip(*sticks, strict=True)
    result = dearest_filling(room, lengths, quantities, values)
    assert result is not None
    worth, cuts = result
    fillings = [
        numbers
        for numbers in product(*(range(q + 1) for q in quantities))
        if sum(n * size for n, size in zip(numbers, lengths, strict=True)) <= room
    ]
    assert cuts in fillings
    assert worth == sum(n * value for n, value in zip(cuts, values, strict=True))
    assert worth == max(sum(n * value for n, value in zip(numbers, values, strict=True)) for numbers in fillings)


def test_values_too_large_for_short_numbers():
    assert dearest_filling(10, [3, 5], [2, 2], [2**40, 2**41]) == (2**42, (0, 2))


def test_a_table_that_would_be_too_large_is_refused():
    assert dearest_filling(10**7, [9_999, 10_000], [500, 500], [1, 1]) is None


def test_patterns_that_take_no_stick_more():
    # 4 and 3 on 10, two of 4 and three of 3 wanted: 4 + 4, 4 + 3 + 3, 3 + 3 + 3
    found = all_patterns(BarKind(10, 1, None), [4, 3], [2, 3], 10)
    assert found == [(2, 0), (1, 2), (0, 3)]
    assert all_patterns(BarKind(10, 1, None), [4, 3], [2, 3], 2) is None
    # what runs out of sticks is a pattern too
    assert all_patterns(BarKind(100, 1, None), [4, 3], [2, 3], 2) == [(2, 3)]


def test_a_mix_keeps_to_what_there_is():
    bars = [BarKind(10, 1, 1), BarKind(10, 5, None)]
    patterns = [(0, (2,)), (1, (2,))]
    mix = best_mix(bars, patterns, [6], known=100, clock=Clock(60, monotonic()))
    assert mix is not None
    assert dict(mix.used) == {(0, (2,)): 1, (1, (2,)): 2}
    assert best_mix(bars[:1], patterns[:1], [6], known=100, clock=Clock(60, monotonic())) is None


def test_a_mix_no_dearer_than_known_is_found_in_spite_of_what_is_left_out():
    # 4 + 3 + 3 twice makes two bars; with three bars known the wasteful patterns may go
    patterns = [(0, cuts) for cuts in ((2, 0), (1, 2), (0, 3))]
    mix = best_mix([BarKind(10, 1, None)], patterns, [2, 4], known=3, clock=Clock(60, monotonic()))
    assert mix is not None
    assert mix.used == (((0, (1, 2)), 2),)
    assert round(mix.bound, 6) == 2


def test_the_fewest_missing():
    # one bar of 10, wanted 7, 5, 5: the seven stays away
    assert fewest_missing([BarKind(10, 1, 1)], [(0, (1, 0)), (0, (0, 2))], [1, 2], clock=Clock(60, monotonic())) == [
        1,
        0,
    ]


def test_growing_finds_the_full_pattern_and_values_that_prove():
    # from wasteful patterns alone: 4 + 4 and 3 + 3 + 3; 4 + 3 + 3 must be found, and 2 bars are the least for 2 and 4
    patterns = [(0, (2, 0)), (0, (0, 3))]
    bars = [BarKind(10, 1, None)]
    values = grow(bars, patterns, [4, 3], [2, 4], Clock(60, monotonic()))
    assert (0, (1, 2)) in patterns
    assert values is not None
    assert values.bars == (max(values.sticks[0] * n + values.sticks[1] * m for n, m in ((2, 0), (1, 2), (0, 3))),)
    # together the sticks are worth nearly two bars, so one is too little
    assert 2 * values.sticks[0] + 4 * values.sticks[1] > 1.99 * values.bars[0]


def test_stopped_early_the_values_still_hold():
    # after one round, from patterns of a single stick, the values are those of one stick a bar; a full bar is worth more
    patterns = [(0, (1, 0)), (0, (0, 1))]
    values = grow([BarKind(10, 1, None)], patterns, [4, 3], [2, 4], Clock(1e-9, monotonic()))
    assert values is not None
    fillings = [(n, m) for n in range(3) for m in range(4) if 4 * n + 3 * m <= 10]
    assert values.bars == (max(values.sticks[0] * n + values.sticks[1] * m for n, m in fillings),)
