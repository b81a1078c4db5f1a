"""Labels moved apart: never covering each other, in order, and moved as little as can be."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.papers.drawing.spread import spread

places = st.lists(st.tuples(st.floats(-100, 100), st.floats(0.5, 12)), min_size=1, max_size=12)


def test_what_has_room_stays():
    assert spread([0.0, 20.0, 50.0], [4.0, 4.0, 4.0], gap=1.0) == [0.0, 20.0, 50.0]


def test_two_in_one_place_part_evenly():
    assert spread([10.0, 10.0], [4.0, 6.0], gap=1.0) == [7.0, 13.0]


def test_nothing_to_spread():
    assert spread([], []) == []


@given(places, st.floats(0, 3))
def test_none_covers_another_and_order_is_kept(wishes, gap):
    wanted, sizes = [w for w, _ in wishes], [s for _, s in wishes]
    found = spread(wanted, sizes, gap=gap)
    order = sorted(range(len(wanted)), key=lambda n: wanted[n])
    for a, b in itertools.pairwise(order):
        assert found[b] - found[a] >= (sizes[a] + sizes[b]) / 2 + gap - 1e-6


@given(places, st.floats(0, 3), st.lists(st.floats(-1, 1), min_size=12, max_size=12))
def test_no_small_move_is_better(wishes, gap, nudges):
    """A least-squares answer has no allowed neighbour with a smaller sum: tried with random nudges."""
    wanted, sizes = [w for w, _ in wishes], [s for _, s in wishes]
    found = spread(wanted, sizes, gap=gap)
    order = sorted(range(len(wanted)), key=lambda n: wanted[n])
    other = [x + n for x, n in zip(found, nudges[: len(found)], strict=True)]
    allowed = all(other[b] - other[a] >= (sizes[a] + sizes[b]) / 2 + gap for a, b in itertools.pairwise(order))

    def cost(spots):
        return sum((x - w) ** 2 for x, w in zip(spots, wanted, strict=True))

    if allowed:
        assert cost(found) <= cost(other) + 1e-6


@given(places)
def test_the_room_is_kept_where_it_is_enough(wishes):
    wanted, sizes = [w for w, _ in wishes], [s for _, s in wishes]
    high = sum(sizes) + 5.0
    found = spread(wanted, sizes, low=0.0, high=high)
    assert min(x - s / 2 for x, s in zip(found, sizes, strict=True)) >= -1e-6
    assert max(x + s / 2 for x, s in zip(found, sizes, strict=True)) <= high + 1e-6


def test_too_little_room_runs_over_at_the_far_end():
    assert spread([5.0, 5.0, 5.0], [4.0, 4.0, 4.0], low=0.0, high=10.0) == pytest.approx([2.0, 6.0, 10.0])
