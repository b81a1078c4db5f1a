"""Scales and the bar that proves a print."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.papers.drawing.model import Drawing, Text
from rodbook.papers.drawing.scales import SCALES, fitting_scale, scale_bar, scale_text


@given(st.floats(1, 6000), st.floats(1, 6000), st.floats(70, 260), st.floats(70, 260))
def test_the_largest_scale_that_fits(width, height, wide, high):
    scale = fitting_scale(width, height, (wide, high))
    assert width / scale <= wide
    assert height / scale <= high
    larger = [s for s in SCALES if s < scale]
    assert all(width / s > wide or height / s > high for s in larger)


def test_a_drawing_is_not_made_larger_than_allowed():
    assert fitting_scale(10, 10, (100, 100), largest=5) == 5


def test_nothing_is_too_large_for_the_smallest_scale():
    assert fitting_scale(1e6, 10, (100, 100)) == SCALES[-1]


@pytest.mark.parametrize("scale", SCALES)
def test_the_bar_is_as_long_as_it_says(scale, read_svg):
    svg = read_svg(Drawing.around(scale_bar(0, 0, scale), title="bar", scale=scale))
    left, _, right, _ = svg.box("scale bar")
    said = next(text for text in svg.texts("scale bar") if text.endswith("mm"))
    assert right - left == pytest.approx(float(said.removesuffix(" mm")) / scale, abs=0.01)
    assert 40 <= right - left <= 50
    assert svg.texts("scale") in ([scale_text(scale)], [f"1:{scale}"])


@pytest.mark.parametrize("scale", SCALES)
def test_bar_and_words_are_clear_of_each_other(scale, sound):
    drawing = Drawing.around(scale_bar(3, 7, scale), title="bar", scale=scale)
    sound(drawing)
    assert any(isinstance(mark, Text) for mark in drawing.marks)
