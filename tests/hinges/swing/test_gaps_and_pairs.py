"""Least gaps, the order of a pair, and the geometry of the picture."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from rodbook.hinges.swing import (
    FixedPivot,
    Leaf,
    block,
    cup_hinge_path,
    fixed_pivot_gap,
    inset_frame,
    least_gap,
    opening_order,
    swing,
    swing_picture,
)


@settings(max_examples=40, deadline=None)
@given(st.floats(200, 900), st.floats(12, 45), st.floats(0, 8))
def test_the_free_edge_of_a_pin_hung_leaf_is_the_formula(width, thickness, forward):
    found = least_gap(Leaf(width, thickness), FixedPivot(0, forward), edge="free")
    assert found.gap_mm == pytest.approx(fixed_pivot_gap(width, thickness + forward), abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(st.floats(2, 20), st.floats(12, 40), st.floats(0, 1))
def test_the_hinge_edge_of_a_pin_within_the_leaf_is_the_formula(inwards, thickness, share):
    behind = thickness * share
    found = least_gap(Leaf(450, thickness), FixedPivot(inwards, -behind), edge="hinge")
    assert found.gap_mm == pytest.approx(fixed_pivot_gap(inwards, behind), abs=1e-3)


@settings(max_examples=25, deadline=None)
@given(st.floats(15, 30), st.floats(0, 5), st.floats(3, 8), st.floats(0, 2))
def test_thicker_wants_more_and_bored_further_in_wants_less(thickness, more, boring, further):
    def gap(t, b):
        return least_gap(Leaf(450, t), cup_hinge_path(t, boring_distance_mm=b)).gap_mm

    assert gap(thickness + more, boring) >= gap(thickness, boring) - 1e-3
    assert gap(thickness, boring + further) <= gap(thickness, boring) + 1e-3


@settings(max_examples=25, deadline=None)
@given(st.floats(16, 30), st.floats(3, 8))
def test_at_the_least_gap_it_just_opens(thickness, boring):
    leaf, path = Leaf(450, thickness), cup_hinge_path(thickness, boring_distance_mm=boring)
    gap = least_gap(leaf, path).gap_mm
    beside = lambda g: [block("beside", (-g - 30, -g), (-200, 300))]  # noqa: E731
    assert swing(leaf, path, beside(gap + 0.02)).enough
    if gap > 0.1:
        assert not swing(leaf, path, beside(gap - 0.05)).enough


def test_only_what_stands_beside_counts():
    leaf, path = Leaf(450, 22), cup_hinge_path(22)
    flush = least_gap(leaf, path, between=(-100, 0)).gap_mm
    assert flush <= least_gap(leaf, path).gap_mm
    assert swing(leaf, path, [block("lining", (-flush - 18.02, -flush - 0.02), (-100, 0))]).enough
    assert least_gap(leaf, path, between=(400, 500), edge="hinge").gap_mm >= 0


def test_a_plain_pair_opens_either_way():
    left, right = Leaf(400, 20), Leaf(400, 20, hand="right", at=(803, 0))
    paths = {"left_path": cup_hinge_path(20), "right_path": cup_hinge_path(20)}
    order = opening_order(
        left, right, obstacles=inset_frame(803, margins=3, lining_thickness=18, lining_depth=80), **paths
    )
    assert (order.first, str(order)) == ("either", "Either leaf may be opened first.")


def test_a_rebated_pair_has_an_order_and_its_mirror_image_the_other():
    front = ((0, 0), (0, -20), (390, -20), (390, -10), (400, -10), (400, 0))
    back = ((0, 0), (0, -20), (410, -20), (410, -12), (398, -12), (398, 0))
    paths = {"left_path": FixedPivot(0, 4), "right_path": FixedPivot(0, 4)}
    one = opening_order(Leaf(400, 20, profile=front), Leaf(400, 20, "right", (803, 0), profile=back), **paths)
    other = opening_order(Leaf(400, 20, profile=back), Leaf(400, 20, "right", (803, 0), profile=front), **paths)
    assert (one.first, other.first) == ("left", "right")
    assert str(other) == "Open the right leaf first, then the left one."


def test_a_pair_that_can_not_open_says_why():
    left, right = Leaf(400, 20), Leaf(400, 20, hand="right", at=(803, 0))
    bar = block("the bar", (300, 500), (100, 130))
    order = opening_order(left, right, left_path=FixedPivot(), right_path=FixedPivot(), obstacles=[bar])
    assert order.first == "neither"
    assert "The leaf meets the bar at" in str(order)


@settings(max_examples=25, deadline=None)
@given(st.floats(250, 600), st.floats(15, 30), st.sampled_from(["left", "right"]), st.floats(10, 110), st.booleans())
def test_the_swept_outline_holds_every_stand_of_the_leaf(width, thickness, hand, angle, pinned):
    leaf = Leaf(width, thickness, hand, (100, 0))
    path = FixedPivot(-2, 4) if pinned else cup_hinge_path(thickness)
    picture = swing_picture(leaf, path, angle)
    swept = Polygon(picture.swept)
    assert swept.is_valid
    for k in range(40):
        stand = leaf.standing(path, angle * k / 39)
        assert all(swept.distance(Point(p)) <= 0.06 for p in stand)
    assert picture.closed == leaf.standing(path, 0)
    assert bool(picture.arcs) == pinned
    assert bool(picture.trails) != pinned


def test_arcs_end_where_the_leaf_stands():
    leaf, path = Leaf(400, 20, "right", (500, 0)), FixedPivot(0, 4)
    picture = swing_picture(leaf, path, 75)
    for arc, corner, closed in zip(picture.arcs, picture.opened, picture.closed, strict=True):
        for degrees, wanted in ((arc.start_deg, closed), (arc.end_deg, corner)):
            at = (
                arc.centre[0] + arc.radius * math.cos(math.radians(degrees)),
                arc.centre[1] + arc.radius * math.sin(math.radians(degrees)),
            )
            assert at == pytest.approx(wanted, abs=1e-9)
