"""Whether a plan as cheap as the bound exists, against every plan there is."""

from functools import cache
from itertools import product
from time import monotonic

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards.bars.closing import close_gap
from rodbook.boards.bars.dive import BarDive
from rodbook.boards.bars.patterns import BarKind
from rodbook.boards.kernels.knapsack import dear_enough
from rodbook.boards.tools.clock import Clock


def _clock():
    return Clock(20.0, monotonic(), None, None, monotonic)


def _closed(bars, lengths, wanted, bound, cost):
    """Close the gap of a job whose every stick could have a bar of its own."""
    dive = BarDive(bars, lengths, wanted, _clock())
    singles = [(0, tuple(int(k == n) for k in range(len(lengths)))) for n in range(len(lengths))]
    for single in singles:
        dive.add(single)
    seen = []
    dive.relax(wanted, [bar.quantity for bar in bars], lambda values: bool(seen.append(values)))
    inside = dive.inside([bar.price / dive.top for bar in bars])
    return close_gap(dive, [by for by in (inside, seen[-1]) if by], singles, bound, cost)


def _least(bars, lengths, wanted):
    """The least that any plan costs, by trying all."""
    patterns = [
        (bar.price, cuts)
        for bar in bars
        for cuts in product(*(range(q + 1) for q in wanted))
        if any(cuts) and sum(c * x for c, x in zip(cuts, lengths, strict=True)) <= bar.length
    ]

    @cache
    def least(left):
        if not any(left):
            return 0
        return min(
            price + least(tuple(q - c for q, c in zip(left, cuts, strict=True)))
            for price, cuts in patterns
            if all(c <= q for c, q in zip(cuts, left, strict=True))
        )

    return least(tuple(wanted))


def test_a_gap_of_a_whole_bar_is_proven():
    # thirds, quarters and elevenths of a bar: 2/3 + 3/4 + 6/11 bars in parts, yet two bars do not hold them
    mix = _closed([BarKind(132, 1, None)], [44, 33, 12], [2, 3, 6], 2, 11)
    assert mix is not None
    assert mix.bound > 2


@given(
    st.lists(st.integers(12, 25), min_size=1, max_size=2, unique=True),
    st.lists(st.tuples(st.integers(3, 12), st.integers(1, 3)), min_size=1, max_size=3, unique_by=lambda s: s[0]),
)
@settings(max_examples=40, deadline=None)
def test_the_bound_asked_about_is_reached_or_rises(sizes, sticks):
    lengths, wanted = zip(*sorted(sticks, reverse=True), strict=True)
    bars = [BarKind(size, 3 + 2 * n + size, None) for n, size in enumerate(sorted(sizes))]
    least, singles = _least(bars, lengths, wanted), sum(wanted) * bars[0].price
    for bound in {least, least - 1} - {singles, 0}:
        mix = _closed(bars, lengths, wanted, bound, singles)
        assert mix is not None
        spent = sum(bars[b].price * n for (b, _), n in mix.used)
        assert spent >= least
        assert mix.bound <= least + 1e-6 or bound == least
        assert spent == least if bound == least else mix.bound > bound


@given(
    st.integers(5, 40),
    st.lists(st.tuples(st.integers(2, 15), st.integers(0, 30), st.integers(1, 3)), min_size=1, max_size=4),
    st.integers(0, 80),
)
def test_all_fillings_that_are_dear_enough_are_listed(room, sticks, least):
    sticks.sort(key=lambda s: -s[1] / s[0])
    lengths, values, most = (np.array(column, dtype=np.int64) for column in zip(*sticks, strict=True))
    rows, _ = dear_enough(room, lengths, values, most, least, 1000, 10**6)
    expected = {
        cuts
        for cuts in product(*(range(q + 1) for q in most.tolist()))
        if np.dot(cuts, lengths) <= room
        and np.dot(cuts, values) >= least
        and not any(c < q and np.dot(cuts, lengths) + x <= room for c, q, x in zip(cuts, most, lengths, strict=True))
    }
    assert {tuple(row) for row in rows.tolist()} == expected
    assert len(rows) == len(expected)
    short, _ = dear_enough(room, lengths, values, most, least, max(0, len(expected) - 1), 10**6)
    if expected:
        assert short[0, 0] < 0
