"""An opening seen in a mirror: mirrored readings give the mirrored shape, and the same sizes."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.survey import (
    bow,
    fit_front,
    level,
    plumb,
    rectangle_from_shape,
    survey_opening,
    upright_rectangle,
)

_TURNED = {"left": "right", "right": "left"}
_PLACES = {"A": "B", "B": "A", "C": "D", "D": "C", "L": "R", "R": "L", "F": "F", "H": "H"}


def mirrored(reading):
    """What would be read in the mirror."""
    match reading.kind:
        case "height":
            return replace(reading, at=_TURNED.get(reading.at, reading.at))
        case "diagonal":
            start, _ = reading.part.split(" to ")
            turn = "foot right to head left" if start == "foot left" else "foot left to head right"
            return replace(reading, part=turn)
        case "plumb":
            side = "right side" if reading.part == "left side" else "left side"
            return replace(reading, part=side, value_mm=-reading.value_mm)
        case "level":
            return replace(reading, value_mm=-reading.value_mm)
        case "bow" if reading.part.endswith("side"):
            return replace(reading, part="right side" if reading.part == "left side" else "left side")
        case _:
            return reading


MORE = {
    8: [],
    12: [plumb("left", 0), plumb("right", 0), level("floor", 0), level("head", 0)],
    10: [plumb("left", 0), bow("left", 0)],
}


@pytest.mark.parametrize("count", sorted(MORE))
@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 10**6))
def test_mirrored_readings_give_the_mirrored_shape_and_equal_sizes(making, count, seed):
    rng = np.random.default_rng(seed)
    readings = making.opening(rng).read([*making.eight(), *MORE[count]], rng)
    there, here = (survey_opening(each).shape for each in ([mirrored(r) for r in readings], readings))
    foot = here.vertex("B")
    for vertex in here.vertices:
        image = there.vertex(_PLACES[vertex.name])
        assert (image.x_mm, image.y_mm) == pytest.approx((foot.x_mm - vertex.x_mm, vertex.y_mm - foot.y_mm), abs=0.1)
    own, other = rectangle_from_shape(here), rectangle_from_shape(there)
    assert other.width.value == pytest.approx(own.width.value, abs=0.1)
    assert other.height.value == pytest.approx(own.height.value, abs=0.1)
    assert other.width_error_mm == pytest.approx(own.width_error_mm, abs=0.05)
    packed, back = (fit_front(s, width_mm=own.width.value - 10, height_mm=own.height.value - 10) for s in (here, there))
    for left, right in zip(packed.packers_at("left"), back.packers_at("right"), strict=True):
        assert right.size_mm == pytest.approx(left.size_mm, abs=0.1)


@given(
    widths=st.tuples(*[st.floats(800, 830)] * 3),
    heights=st.tuples(*[st.floats(2000, 2020)] * 3),
    lean=st.floats(-12, 12),
)
def test_eight_readings_as_they_stand_have_no_left_or_right(widths, heights, lean):
    """Before, a bow was always the right side's: a mirrored opening got a width up to 4.5 mm from its own."""
    foot, _, head = widths
    diagonals = float(np.hypot(head + lean, heights[2])), float(np.hypot(foot - lean, heights[0]))
    own = upright_rectangle(widths, heights, diagonals_mm=diagonals)
    other = upright_rectangle(widths, heights[::-1], diagonals_mm=diagonals[::-1])
    assert other.width.value == pytest.approx(own.width.value, abs=1e-6)
    assert other.left_mm == pytest.approx(widths[0] - own.left_mm - own.width.value, abs=1e-6)
    mirrored_stations = [(widths[0] - s.right_mm, widths[0] - s.left_mm) for s in own.stations]
    assert [(s.left_mm, s.right_mm) for s in other.stations] == [
        pytest.approx(pair, abs=1e-6) for pair in mirrored_stations
    ]
