"""Packers fill exactly what is left between lining and opening."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.sizes import packers_for
from rodbook.survey import upright_rectangle
from rodbook.working import Measure

reading = st.integers(-6, 6)


@given(st.tuples(reading, reading, reading), st.tuples(reading, reading, reading))
def test_lining_and_packers_add_up_to_every_reading(across, up):
    widths, heights = tuple(842.0 + d for d in across), tuple(2030.0 + d for d in up)
    rectangle = upright_rectangle(widths, heights)
    packers = packers_for(rectangle, Measure(820, "lining width"), Measure(2010, "lining height"))
    for left, right, width in zip(packers.left_mm, packers.right_mm, widths, strict=True):
        assert left + 820 + right == pytest.approx(width)
    assert [over + 2010 for over in packers.head_mm] == pytest.approx(list(heights))
    assert min(*packers.left_mm, *packers.right_mm) >= packers.side.value - 1e-6
    assert min(packers.head_mm) == pytest.approx(packers.head.value)
