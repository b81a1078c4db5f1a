"""The dearest filling of a bar by both compiled ways against trying all, and dives against known optima."""

from decimal import Decimal
from itertools import product
from time import monotonic

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Bar, Stick, cut_lengths
from rodbook.boards.bars.dive import BarDive
from rodbook.boards.bars.patterns import BarKind
from rodbook.boards.kernels import knapsack
from rodbook.boards.tools.clock import Clock

sticks_in = st.lists(
    st.tuples(st.integers(1, 30), st.integers(1, 40), st.integers(1, 3)),
    min_size=1,
    max_size=5,
    unique_by=lambda s: s[0],
)


@settings(max_examples=120, deadline=None)
@given(st.integers(1, 70), sticks_in)
def test_both_ways_find_the_dearest_filling(room, sticks):
    sticks = sorted(sticks, key=lambda s: -s[1] / s[0])
    lengths, values, quantities = (np.array(column, dtype=np.int64) for column in zip(*sticks, strict=True))
    best = max(
        sum(n * s[1] for n, s in zip(numbers, sticks, strict=True))
        for numbers in product(*(range(s[2] + 1) for s in sticks))
        if sum(n * s[0] for n, s in zip(numbers, sticks, strict=True)) <= room
    )
    worth, taken, steps = knapsack.dearest(room, lengths, values, quantities, 10**6)
    assert steps <= 10**6
    assert worth == best == int(taken @ values)
    assert taken @ lengths <= room
    assert (taken <= quantities).all()
    worth, taken = knapsack.by_table(room, lengths, values, quantities)
    assert worth == best == int(taken @ values)
    assert taken @ lengths <= room
    assert (taken <= quantities).all()


def test_a_search_cut_short_says_so():
    ones = np.arange(20, 60, dtype=np.int64)
    _, _, steps = knapsack.dearest(997, ones, ones, np.full(40, 9, dtype=np.int64), 3)
    assert steps > 3


def dive_of(bars, sticks):
    return BarDive(bars, [a for a, _ in sticks], [q for _, q in sticks], Clock(60, monotonic()))


def test_a_dive_cuts_all_sticks_within_the_cost_aimed_at():
    sticks = [(510, 7), (335, 11), (248, 5), (167, 13)]
    bars = [BarKind(1000, 10, None), BarKind(700, 6, 3)]
    dive = dive_of(bars, sticks)
    solved = dive.relax(dive.wanted, [None, 3], lambda _: False)
    assert solved is not None
    used = dive.dive(10**6, np.random.default_rng(0), solved, sure=True)
    assert used is not None
    for k, (_, quantity) in enumerate(sticks):
        assert sum(cuts[k] * n for (_, cuts), n in used) == quantity
    assert all(sum(c * a for c, (a, _) in zip(cuts, sticks, strict=True)) <= bars[b].length for (b, cuts), _ in used)
    assert sum(n for (b, _), n in used if b == 1) <= 3
    assert dive.dive(1, np.random.default_rng(0), solved, sure=True) is None


@pytest.mark.parametrize("triplets", [10, 20])
def test_bars_that_must_come_out_full_do(triplets):
    # three sticks a bar and nothing left over: made up from whole bars, so as many bars as there are triplets will do
    rng = np.random.default_rng(triplets)
    sticks = []
    for _ in range(triplets):
        a, b = int(rng.integers(380, 490)), int(rng.integers(250, 300))
        sticks += [a, b, 1000 - a - b]
    plan = cut_lengths(
        [Stick(f"s{n}", float(a)) for n, a in enumerate(sticks)], [Bar("b", 1000.0, Decimal(1))], kerf=0, seconds=60
    )
    assert (plan.cost, plan.proven) == (triplets, True)
