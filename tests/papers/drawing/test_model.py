"""The drawing model."""

import pytest

from rodbook.papers.drawing.lettering import text_width_mm
from rodbook.papers.drawing.model import (
    Box,
    Circle,
    Drawing,
    Line,
    Shape,
    Text,
    View,
    arrow,
    box_of,
    boxes_of_text,
    break_line,
    moved,
    on_plate,
)


def test_view_runs_down_or_up():
    assert View(10, 5, 7).at(100, 200) == (15, 27)
    assert View(10, 5, 7, up=True).at(100, 200) == (15, -13)


@pytest.mark.parametrize(("anchor", "left"), [("start", 0.0), ("middle", -0.5), ("end", -1.0)])
def test_level_text_lies_around_its_anchor(anchor, left):
    width = text_width_mm("2022", 2.5)
    (((_, box),)) = boxes_of_text([Text(10, 20, "2022", anchor=anchor)])
    assert box.left == pytest.approx(10 + left * width)
    assert box.width == pytest.approx(width)
    assert box.top == pytest.approx(18.75)


def test_upright_text_runs_up_the_page():
    (((_, box),)) = boxes_of_text([Text(10, 20, "2022", anchor="start", upright=True)])
    assert box.bottom == pytest.approx(20)
    assert box.height == pytest.approx(text_width_mm("2022", 2.5))


def test_boxes_that_touch_do_not_overlap():
    assert not Box(0, 0, 1, 1).overlaps(Box(1, 0, 2, 1))
    assert Box(0, 0, 1, 1).overlaps(Box(0.9, 0.9, 2, 2))


def test_a_drawing_starts_at_its_corner():
    drawing = Drawing.around([Circle(-5, -7, 2), Line(((0, 0), (10, 3)))], title="t", scale=1, air=1)
    assert (drawing.width, drawing.height) == (19, 14)
    box = box_of(drawing.marks)
    assert (box.left, box.top, box.right, box.bottom) == (1, 1, 18, 13)


def test_moving_moves_everything():
    marks = (Circle(1, 1, 1), Line(((0, 0), (1, 1))), Shape(((0, 0), (1, 0), (1, 1))), Text(0, 0, "x"))
    there_and_back = moved(moved(marks, 3, 4), -3, -4)
    assert there_and_back == marks
    assert box_of(moved(marks, 3, 4)).left == pytest.approx(box_of(marks).left + 3)


def test_a_plate_covers_its_text():
    plate, text = on_plate(Text(5, 5, "leaf 22"))
    (((_, inside),)) = boxes_of_text([text])
    around = box_of([plate])
    assert around.left < inside.left
    assert around.right > inside.right


def test_arrows_and_breaks_without_length_are_nothing_odd():
    assert arrow((1, 1), (1, 1)) == ()
    assert break_line((1, 1), (1, 1)).points == ((1, 1), (1, 1))


def test_a_break_keeps_its_ends():
    line = break_line((0, 0), (10, 0))
    assert (line.points[0], line.points[-1]) == ((0, 0), (10, 0))
    assert any(y for _, y in line.points)
