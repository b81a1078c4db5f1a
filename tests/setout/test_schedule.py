"""Like parts come together, unlike ones do not, and none is lost."""

from collections import Counter
from dataclasses import replace

from rodbook.setout import Frame, PartKind, marks_in, schedule, set_out
from rodbook.working import Measure


def _parts(build_up, stock, mark, width, hand):
    frame = Frame(Measure(width, "lining width"), Measure(2024, "lining height"), 1, hand, sill=False)
    return [(mark, p.part, p.quantity) for p in set_out(build_up, stock, frame).parts]


def test_openings_of_one_size_share_their_lines(inset, stock):
    rows = _parts(inset, stock(inset), "C1", 509, "left") + _parts(inset, stock(inset), "C2", 509, "left")
    lines = schedule(rows)
    assert lines[0].mark == "1-door-left"
    assert lines[0].openings == (("C1", 1), ("C2", 1))
    assert lines[0].quantity == 2


def test_two_hands_of_one_shape_share_the_number(inset, stock):
    rows = _parts(inset, stock(inset), "C1", 509, "left") + _parts(inset, stock(inset), "C2", 509, "right")
    assert [line.mark for line in schedule(rows)][:2] == ["1-door-left", "1-door-right"]


def test_the_larger_comes_first_and_marks_are_distinct(inset, stock):
    rows = _parts(inset, stock(inset), "C1", 509, "left") + _parts(inset, stock(inset), "C2", 640, "left")
    lines = schedule(rows)
    assert [line.part.width.value for line in lines[:2]] == [598.0, 467.0]
    assert len({line.mark for line in lines}) == len(lines)
    assert sum(line.quantity for line in lines) == sum(q for _, _, q in rows)
    taken = Counter()
    for line in lines:
        for mark, quantity in line.openings:
            taken[mark] += quantity
    assert taken["C1"] == taken["C2"]


def test_parts_that_differ_in_more_than_their_hand_never_share_a_mark(inset, stock):
    """Two doors of one size and hand, bored for hinges that stand 3 and 5 mm in from the edge."""
    near = stock(inset)
    far = replace(near, hinge=near.hinge.model_copy(update={"cup_edge": near.hinge.cup_edge + 2}))
    frame = Frame(Measure(509, "lining width"), Measure(2024, "lining height"), 1, "left", sill=False)
    rows = [("C1", p.part, p.quantity) for s in (near, far) for p in set_out(inset, s, frame).parts]
    doors = [line.mark for line in schedule(rows) if line.part.kind is PartKind.DOOR]
    assert doors == ["1-door-left", "2-door-left"]


def test_marks_of_an_opening_are_what_its_parts_say(inset, stock):
    rows = _parts(inset, stock(inset), "C1", 509, "left") + _parts(inset, stock(inset), "C2", 640, "left")
    lines = schedule(rows)
    assert sum(n for _, n in marks_in(lines, "C1")) == sum(q for mark, _, q in rows if mark == "C1")
    assert {mark for mark, _ in marks_in(lines, "C1")} == {x.mark for x in lines if "C1" in dict(x.openings)}
