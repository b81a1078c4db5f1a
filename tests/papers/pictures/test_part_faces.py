"""What drawings of a part have in common."""

import pytest

from rodbook.papers.drawing.model import Line
from rodbook.papers.pictures.part_faces import (
    edge_word,
    face_words,
    first_hinge,
    holes,
    leading_edge,
    mitres,
    seen_edge,
    short,
)
from rodbook.setout import PartKind


def of(front_made, kind, hand=""):
    return next(p.part for p in front_made[1].parts if p.part.kind is kind and p.part.hand == hand)


@pytest.mark.parametrize(
    ("value", "text"), [(417.0, "417"), (22.5, "22.5"), (1 / 3, "0.33"), (-0.0, "0"), (-0.001, "0")]
)
def test_lengths_on_drawings(value, text):
    assert short(value) == text


def test_a_left_leaf_has_its_hinge_edge_on_the_right_from_behind(front):
    made = front("inset, painted", 827, 2022, 2)
    left, right = of(made, PartKind.DOOR, "left"), of(made, PartKind.DOOR, "right")
    assert (leading_edge(left), leading_edge(right)) == ("right", "left")
    # the same from the holes themselves: the cups stand near the hinge edge
    for leaf, side in ((left, "right"), (right, "left")):
        near = min(b.x.value if side == "left" else leaf.width.value - b.x.value for b in leaf.borings)
        assert near == pytest.approx(22.5)
    assert edge_word(left) == "hinge edge"
    assert face_words(left) == "seen from the back, the bored face"


@pytest.mark.parametrize("name", ["inset, painted", "lay-on within trim, painted"])
def test_what_carries_a_leaf_has_its_front_edge_on_its_own_side(front, name):
    made = front(name, 827, 2022, 2)
    kind = PartKind.HINGE_LINING if name.startswith("inset") else PartKind.LINING_LEG
    for side in ("left", "right"):
        part = of(made, kind, side)
        assert leading_edge(part) == side
        assert edge_word(part) == "front edge"
        near = {b.x.value if side == "left" else part.width.value - b.x.value for b in part.borings}
        assert near == {37.0}


def test_a_part_without_holes_leads_nowhere(front):
    assert leading_edge(of(front("inset, painted", 827, 2022, 2), PartKind.LINING_HEAD)) is None


def test_holes_are_numbered_from_the_top(front):
    found = holes(of(front("inset, painted", 827, 2022, 2), PartKind.DOOR, "left"))
    assert [h.number for h in found] == list(range(1, len(found) + 1))
    assert [h.boring.y.value for h in found] == sorted(h.boring.y.value for h in found)
    assert [h.boring.kind for h in first_hinge(found)] == ["pilot", "cup", "pilot"]


def test_a_plate_is_two_holes(front):
    found = holes(of(front("inset, painted", 827, 2022, 2), PartKind.HINGE_LINING, "left"))
    assert [h.boring.y.value for h in first_hinge(found)] == [87.0, 119.0]


def test_mitres_follow_the_words(front):
    made = front("inset, painted", 827, 2022, 2)
    leg, head = mitres(of(made, PartKind.TRIM_LEG, "left")), mitres(of(made, PartKind.TRIM_HEAD))
    assert (leg.head, leg.foot, head.head, head.foot) == (True, False, True, True)
    butted = front("lay-on within trim, painted", 914, 2118, 2)
    assert not mitres(of(butted, PartKind.TRIM_HEAD)).head


@pytest.mark.parametrize(("length", "count"), [(10, 1), (60, 1), (120, 2), (200, 3)])
def test_seen_edges_carry_a_v_whose_point_is_on_the_edge(length, count):
    marks = seen_edge((0, 0), (length, 0), (0, -1))
    assert len(marks) == count
    for mark in marks:
        assert isinstance(mark, Line)
        wing, tip, other = mark.points
        assert -0.5 < tip[1] < 0
        assert wing[1] < tip[1] > other[1]
        assert (wing[0] + other[0]) / 2 == pytest.approx(tip[0])
