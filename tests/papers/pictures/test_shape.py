"""An opening's shape, and where it is read."""

import math

import pytest

from rodbook.papers.pictures.readings import draw_readings
from rodbook.papers.pictures.shape import draw_shape
from rodbook.survey import adjust_shape, diagonal, height, level, plumb, width


def _shape(lean=0.0, *, wide=800.0, high=2000.0, fall=0.0):
    across = math.hypot
    return adjust_shape(
        [
            *(width(wide, at) for at in ("foot", "middle", "head")),
            *(height(high, at) for at in ("left", "middle", "right")),
            diagonal(across(wide + lean, high), "foot left"),
            diagonal(across(wide - lean, high), "foot right"),
            plumb("left", lean),
            plumb("right", lean),
            level("floor", fall),
        ],
        building=None,
    )


def test_what_is_out_is_drawn_larger_and_written_as_it_is(read_svg):
    drawing = draw_shape(_shape(5.0), "C1")
    svg = read_svg(drawing)
    assert svg.texts("exaggeration") == ["out of true drawn 50 times"]
    (upright,) = svg.tagged("polygon", "upright and level")
    (outline,) = svg.tagged("polygon", "shape")
    corners, points = svg.points(upright), svg.points(outline)
    top = min(y for _, y in points)
    right = max(x for x, y in points if abs(y - top) < 0.5)
    assert right - max(x for x, _ in corners) == pytest.approx(5 * 50 / drawing.scale, abs=0.2)
    assert svg.texts("out of true").count("5.0") >= 2


def test_a_middle_that_follows_from_its_corners_is_not_written(read_svg):
    """With what is assumed every middle is a point of the outline; only one that is out of straight has figures of its own."""
    readings = [
        *(width(800, at) for at in ("foot", "middle", "head")),
        *(height(2000, at) for at in ("left", "right")),
        plumb("left", 6),
        plumb("right", 6),
        level("floor", 0),
    ]
    shape = adjust_shape(readings)
    assert len(shape.vertices) == 8
    assert len(read_svg(draw_shape(shape, "C1")).texts("out of true")) <= 4


def test_a_shape_that_is_true_has_no_figures(read_svg):
    drawing = draw_shape(_shape(), "C1")
    assert read_svg(drawing).texts("out of true") == []
    assert drawing.title.endswith("nothing is out of true")


@pytest.mark.parametrize("lean", [0.3, 5.0, 40.0, 100.0])
def test_what_is_out_stays_on_the_paper(lean, sound):
    drawing = draw_shape(_shape(lean, fall=lean / 10), "C1")
    sound(drawing)


@pytest.mark.parametrize("raked", [False, True])
def test_each_place_of_a_reading_has_one_number(raked, sound, read_svg):
    drawing = draw_readings(raked=raked)
    sound(drawing)
    svg = read_svg(drawing)
    assert sorted(map(int, svg.texts("number"))) == list(range(1, 20))
