"""Like parts come together, unlike ones do not, and none is lost."""

from collections import Counter

from rodbook.setout import Frame, schedule, set_out
from rodbook.working import Measure


def _parts(build_up, stock, mark, width, hand):
    frame = Frame(Measure(width, "lining width"), Measure(2024, "lining height"), 1, hand, sill=False)
    return [(mark, p.part, p.quantity) for p in set_out(build_up, stock, frame).parts]


def test_openings_of_one_size_share_their_lines(inset, stock):
    rows = _parts(inset, stock(inset), "C1", 509, "left") + _parts(inset, stock(inset), "C2", 509, "left")
    lines = schedule(rows)
    assert lines[0].mark == "D1-left"
    assert lines[0].openings == (("C1", 1), ("C2", 1))
    assert lines[0].quantity == 2


def test_two_hands_of_one_shape_share_the_number(inset, stock):
    rows = _parts(inset, stock(inset), "C1", 509, "left") + _parts(inset, stock(inset), "C2", 509, "right")
    assert [line.mark for line in schedule(rows)][:2] == ["D1-left", "D1-right"]


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
