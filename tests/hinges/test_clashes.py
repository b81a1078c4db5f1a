"""Holes in one part that come too near to one another, to edges, faces, lippings and cut-outs."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.hinges import CutOut, EdgeHole, FaceHole, Least, Lipping, PartSize, clashes
from rodbook.hinges.solids import Box, Cylinder, clear_distance

PART = PartSize(width=450, length=1800, thickness=22)
CUP = FaceHole("cup", x=22.5, y=100, diameter=35, depth=13)


def _pairs(*bodies, **more):
    return {(c.first, c.second): c for c in clashes(PART, bodies, **more)}


def test_a_cup_by_itself_is_well():
    assert _pairs(CUP) == {}


def test_two_holes_in_a_face():
    near = FaceHole("pin", x=22.5, y=122, diameter=5, depth=10)
    assert _pairs(CUP, near)[("cup", "pin")].distance_mm == pytest.approx(2.0)
    assert _pairs(CUP, near, may_meet=[("pin", "cup")]) == {}


def test_holes_from_both_faces_end_on_end():
    behind = FaceHole("knob", x=22.5, y=100, diameter=5, depth=8, face="outer")
    assert _pairs(CUP, behind)[("cup", "knob")].distance_mm == pytest.approx(1.0)


def test_an_edge_hole_meets_a_cup_or_passes_behind_it():
    through = EdgeHole("dowel", "left", along=100, from_face=9, diameter=8, depth=30)
    assert str(_pairs(CUP, through)[("cup", "dowel")]).startswith("cup runs into dowel; there have to be 3 mm")
    behind = EdgeHole("dowel", "left", along=100, from_face=18, diameter=4, depth=30)
    assert _pairs(CUP, behind) == {}  # from 13 to 16 mm: the 3 mm are just met
    nearer = EdgeHole("dowel", "left", along=100, from_face=17, diameter=4, depth=30)
    assert _pairs(CUP, nearer)[("cup", "dowel")].distance_mm == pytest.approx(2.0)


def test_a_short_edge_hole_stops_beside_the_cup():
    short = EdgeHole("screw", "left", along=100, from_face=9, diameter=4, depth=2)
    assert _pairs(CUP, short, least=Least(between=4))[("cup", "screw")].distance_mm < 3.1
    top = EdgeHole("bolt", "top", along=22.5, from_face=7, diameter=8, depth=80)
    assert _pairs(CUP, top)[("cup", "bolt")].distance_mm == pytest.approx(2.5)


def test_edges_and_faces():
    found = _pairs(FaceHole("cup", x=19, y=100, diameter=35, depth=21))
    assert found[("cup", "the left edge")].distance_mm == pytest.approx(1.5)
    assert str(found[("cup", "the outer face")]).endswith("bore it 1.0 mm less deep")
    beyond = _pairs(FaceHole("cup", x=440, y=100, diameter=35, depth=13))
    assert beyond[("cup", "the right edge")].distance_mm == pytest.approx(-7.5)


def test_a_hole_right_through_comes_out_and_is_well():
    """As deep as the board is thick it is told of: somebody meant it to end inside. Through, both its ends are open."""
    ends_there = FaceHole("handle", x=60, y=100, diameter=5, depth=PART.thickness)
    assert [c.second for c in clashes(PART, [ends_there])] == ["the outer face"]
    through = FaceHole("handle", x=60, y=100, diameter=5, depth="through")
    assert through.solid(PART) == ends_there.solid(PART)
    assert clashes(PART, [through]) == ()
    assert clashes(PART, [FaceHole("handle", x=60, y=100, diameter=5, depth="through", face="outer")]) == ()


def test_a_hole_right_through_meets_what_is_in_its_way():
    across = EdgeHole("dowel", "left", along=100, from_face=16, diameter=2, depth=80)
    assert _pairs(FaceHole("handle", x=60, y=100, diameter=5, depth=10), across) == {}
    assert ("handle", "dowel") in _pairs(FaceHole("handle", x=60, y=100, diameter=5, depth="through"), across)
    near = _pairs(FaceHole("handle", x=4, y=100, diameter=5, depth="through"))
    assert near[("handle", "the left edge")].distance_mm == pytest.approx(1.5)


def test_a_glue_line_and_a_lock():
    lipping = Lipping("left", 8)
    assert _pairs(CUP, lippings=[lipping])[("cup", "the glue line of the left lipping")].distance_mm == 0
    assert _pairs(CUP, lippings=[Lipping("left", 4)]) == {}
    lock = CutOut("lock", x=(0, 60), y=(118, 200), z=(8, 14))
    assert _pairs(CUP, lock)[("cup", "lock")].distance_mm == pytest.approx(0.5)


def test_all_faults_at_once():
    with pytest.raises(InputError) as caught:
        clashes(PART, [CUP, CUP, FaceHole("pin", 1, 1, 0, 5), CutOut("lock", (3, 2), (0, 1), (0, 1))])
    assert [f.where for f in caught.value.faults] == ["cup", "pin", "lock"]


def _skin_points(cylinder, rounds=48, levels=13):
    i, j = (k for k in range(3) if k != cylinder.axis)
    low, high = cylinder.span
    for level, turn, share in itertools.product(range(levels), range(rounds), (0.0, 0.5, 1.0)):
        point = list(cylinder.mouth)
        point[cylinder.axis] = low + (high - low) * level / (levels - 1)
        point[i] += share * cylinder.radius * math.cos(2 * math.pi * turn / rounds)
        point[j] += share * cylinder.radius * math.sin(2 * math.pi * turn / rounds)
        yield tuple(point)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 2), st.integers(0, 2), st.tuples(*[st.floats(-60, 60)] * 3), st.floats(2, 18), st.floats(5, 40))
def test_distances_against_points_all_over_the_holes(axis_a, axis_b, at, radius, depth):
    one = Cylinder((0.0, 0.0, 0.0), axis_a, 1, 17.5, 13)
    other = Cylinder(at, axis_b, -1, radius, depth)
    found = clear_distance(one, other)
    assert found == pytest.approx(clear_distance(other, one), abs=0.02)
    sampled = min(math.dist(p, one.nearest(p)) for p in _skin_points(other))
    assert found <= sampled + 0.02
    assert found >= sampled - 3.5  # the points stand up to that far from one another


def test_a_box_is_a_box():
    assert clear_distance(Box((0, 0, 0), (1, 1, 1)), Box((4, 5, 0), (6, 6, 1))) == pytest.approx(5)
