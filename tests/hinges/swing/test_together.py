"""Two leaves side by side at independent angles, against every angle of the one with every angle of the other by brute force."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from rodbook.hinges.swing import Leaf, cup_hinge_path, least_gap, together


def stands(width, thick, hand, edge_x, degrees, cup_edge=5.0):
    """A leaf's outline, worked out here: the back corner at the hinge edge goes along its path, the rest turns about it."""
    turn, more = math.radians(degrees), cup_edge - 5.0
    sin, cos = math.sin(turn), math.cos(turn)
    go_x = 13.84 * sin + 6.65 * sin * sin + more * (1 - cos)
    go_y = (4.0 - more) * sin
    found = []
    for x, y in ((0, 0), (0, thick), (width, thick), (width, 0)):
        px, py = x * cos - y * sin + go_x, x * sin + y * cos + go_y - thick
        found.append((edge_x + px if hand == "left" else edge_x - px, py))
    return Polygon(found)


def brute(one, other, gap, step=2):
    """Whether two leaves, hinge edges next to each other, overlap at any two angles; the first at x = 0."""
    angles = np.arange(0, 90.01, step)
    left = [stands(*one, "right", 0.0, a) for a in angles]
    right = [stands(*other, "left", gap, a) for a in angles]
    areas = shapely.area(shapely.intersection(np.array(left)[:, None], np.array(right)[None, :]))
    return areas, angles


def swept(one, other, gap):
    left = Leaf(one[0], one[1], hand="right", at=(0.0, 0.0))
    right = Leaf(other[0], other[1], at=(gap, 0.0))
    return together(left, right, left_path=cup_hinge_path(one[1]), right_path=cup_hinge_path(other[1]))


@settings(max_examples=12, deadline=None)
@given(
    one=st.tuples(st.integers(150, 700), st.sampled_from([16, 18, 19, 22, 25])),
    other=st.tuples(st.integers(150, 700), st.sampled_from([16, 18, 19, 22, 25])),
)
def test_the_gap_they_want_is_the_least_at_which_brute_force_finds_nothing(one, other):
    wants = swept(one, other, 0.0).clear_gap_mm
    assert wants == pytest.approx(swept(one, other, wants + 2).gap_mm - 2)
    areas, _ = brute(one, other, wants + 0.05)
    assert areas.max() < 1e-6
    if wants > 0.3:
        areas, _ = brute(one, other, wants - 0.2, step=1)
        assert areas.max() > 1e-6


@pytest.mark.parametrize(("thick", "gap"), [(22, 3.0), (25, 4.0), (19, 3.0), (22, 5.1), (16, 0.5)])
def test_how_far_the_second_opens_with_the_first_wide_open(thick, gap):
    one = (400, thick)
    found, (areas, angles) = swept(one, one, gap), brute(one, one, gap, step=1)
    hits = np.flatnonzero(areas[-1] > 0.02)
    by_hand = angles[-1] if not len(hits) else angles[max(hits[0] - 1, 0)]
    assert found.second_deg[1] == pytest.approx(by_hand, abs=2.0)
    assert found.second_deg[0] == found.second_deg[1]
    assert found.free == (not (areas > 0.02).any())


def test_each_alone_clears_and_both_together_meet():
    """22 mm leaves 3 mm apart: each comes out 2.5 mm over its hinge edge, so it passes the other one closed."""
    path, found = cup_hinge_path(22), swept((400, 22), (400, 22), 3.0)
    alone = least_gap(Leaf(400, 22), path).gap_mm
    assert alone < 3.0 < 2 * alone
    assert not found.free
    assert found.first == "neither"
    assert found.clear_gap_mm == pytest.approx(2 * alone, abs=0.01)


def test_leaves_one_over_the_other_never_meet():
    low, high = Leaf(400, 22, hand="right", top=800), Leaf(400, 22, at=(1, 0), bottom=803, top=1600)
    found = together(low, high, left_path=cup_hinge_path(22), right_path=cup_hinge_path(22))
    assert (found.free, found.first, found.second_deg) == (True, "either", (90.0, 90.0))


def test_a_mirrored_pair_has_mirrored_answers():
    found, mirrored = swept((300, 25), (500, 19), 3.0), swept((500, 19), (300, 25), 3.0)
    assert found.clear_gap_mm == pytest.approx(mirrored.clear_gap_mm, abs=1e-9)
    assert found.second_deg == mirrored.second_deg[::-1]
