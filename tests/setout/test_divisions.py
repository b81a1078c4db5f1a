"""Where a division stands is told from one datum, and is where it is drawn: behind the middle of a gap."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.setout import Frame, PartKind, set_out
from rodbook.setout.widths import Wanted
from rodbook.working import Measure


def _front(build_up, stock, leaves, width=1800.0, hand="left", wanted=None):
    frame = Frame(
        Measure(width, "lining width"),
        Measure(2024, "lining height"),
        leaves,
        hand,
        sill=False,
        wanted=wanted or Wanted(),
    )
    return set_out(build_up, stock, frame)


def test_a_division_by_hand(inset, stock):
    """Three leaves in 1803 - 2 x 18 = 1767, margins and gaps 3: each 585; 3 + 585 + 1.5 is the gap's middle, less 9."""
    front = _front(inset, stock(inset), 3, 1803.0)
    (place,) = front.divisions
    assert front.leaf_width.value == 585.0
    assert place.value == pytest.approx((1767 - 3 * 585 - 2 * 3) / 2 + 585 + 1.5 - 9)


def test_four_leaves_hang_on_two_boards_back_to_back(inset, stock):
    first, second = _front(inset, stock(inset), 4, 2400.0).divisions
    assert second.value - first.value == pytest.approx(18.0)
    assert (first.value + second.value + 18.0) / 2 == pytest.approx((2400 - 36) / 2)


def test_where_there_is_no_division_nothing_is_told(inset, stock):
    assert _front(inset, stock(inset), 2, 900.0).divisions == ()


@given(
    width=st.floats(1100, 1500).map(lambda v: round(v, 1)),
    leaves=st.sampled_from([3, 4]),
    hand=st.sampled_from(["left", "right"]),
    shares=st.lists(st.integers(3, 4), min_size=4, max_size=4),
    lies_on=st.booleans(),
)
def test_it_stands_behind_the_middle_of_a_gap(inset, lay_on, stock, width, leaves, hand, shares, lies_on):
    build_up = lay_on if lies_on else inset
    front = _front(build_up, stock(build_up), leaves, width, hand, Wanted(shares=tuple(shares[:leaves])))
    boards = [e for e in front.elements if e.kind is PartKind.DIVISION]
    inside = (front.outer_width.value - front.clear_width.value) / 2
    assert [inside + place.value for place in front.divisions] == pytest.approx([b.x for b in boards])
    doors = sorted((e.x, e.x + e.width) for e in front.elements if e.kind is PartKind.DOOR)
    middles = [(a[1] + b[0]) / 2 for a, b in pairwise(doors)]
    middle = (boards[0].x + boards[-1].x + boards[-1].width) / 2
    assert min(abs(middle - gap) for gap in middles) < 1e-6
