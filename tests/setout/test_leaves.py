"""Leaf formulas, forwards and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.setout.leaves import clear_for_inset, clear_for_lay_on, hinge_sides, inset_leaf, lay_on_leaf, leaf_block
from rodbook.working import Measure


def _mm(value, name="x"):
    return Measure(value, name)


@given(st.floats(300, 3000), st.integers(1, 4), st.floats(0, 20), st.floats(0, 10))
def test_the_way_back_gives_the_clear_width_again(clear, leaves, edge, gap):
    inset = inset_leaf(_mm(clear), leaves=leaves, margins=_mm(edge), meeting_gap=_mm(gap))
    back = clear_for_inset(inset, leaves=leaves, margins=_mm(edge), meeting_gap=_mm(gap))
    assert back.value == pytest.approx(clear)
    lying = lay_on_leaf(_mm(clear), leaves=leaves, lap=_mm(edge), meeting_gap=_mm(gap))
    assert clear_for_lay_on(lying, leaves=leaves, lap=_mm(edge), meeting_gap=_mm(gap)).value == pytest.approx(clear)
    block = leaf_block(lying, leaves=leaves, meeting_gap=_mm(gap))
    assert block.value == pytest.approx(clear + 2 * edge)


def test_a_single_leaf_says_nothing_of_meeting_gaps():
    assert inset_leaf(_mm(842, "clear width"), leaves=1, margins=_mm(3, "margin"), meeting_gap=_mm(3)).working() == (
        "leaf width = clear width 842.0 − 2 × margin 3.0 = 836.0"
    )


@pytest.mark.parametrize(
    ("leaves", "hand", "sides"),
    [(1, "right", ("right",)), (2, "left", ("left", "right")), (3, "left", ("left", "left", "right"))],
)
def test_which_side_each_leaf_hangs_on(leaves, hand, sides):
    assert hinge_sides(leaves, hand) == sides
