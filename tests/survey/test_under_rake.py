"""What an opening under a raked head offers."""

from functools import partial

import numpy as np
import pytest

from rodbook import survey
from rodbook.survey import height, level, plumb, raked_rectangle_from_shape, width

adjust_shape = partial(survey.adjust_shape, building=None)
"""By the readings alone: what follows by hand, or from a known outline, must not rest on what a building is like."""


def test_a_plumb_opening_gives_its_readings_back():
    shape = adjust_shape(
        [
            width(1000, "foot"),
            width(1000, "head"),
            height(2400, "left"),
            height(1900, "right"),
            plumb("left", 0),
            plumb("right", 0),
            level("floor", 0),
        ],
        raked=True,
    )
    found = raked_rectangle_from_shape(shape)
    assert found.width.value == pytest.approx(1000, abs=1e-6)
    assert found.heads_mm == pytest.approx((2400, 2150, 1900), abs=1e-6)
    assert found.height.value == pytest.approx(1900, abs=1e-6)
    assert found.left_mm == pytest.approx(0, abs=1e-9)


def test_the_head_is_carried_on_to_the_feet_of_leaning_sides():
    """Sides that lean 10 mm to the right under a head that falls 1 in 2: over x = 0 the head is 5 mm above its left end."""
    shape = adjust_shape(
        [
            width(1000, "foot"),
            width(1000, "head"),
            height(2400, "left"),
            height(1905, "right"),
            plumb("left", 10),
            plumb("right", 7.92),
            level("floor", 0),
            level("head", -500),
        ],
        raked=True,
    )
    found = raked_rectangle_from_shape(shape)
    left, _, right = found.heads_mm
    corner = shape.vertex("D")
    slope = (shape.vertex("C").y_mm - corner.y_mm) / (shape.vertex("C").x_mm - corner.x_mm)
    assert left == pytest.approx(corner.y_mm - slope * corner.x_mm, abs=0.01)
    assert left - right == pytest.approx(-slope * 1000, abs=0.2)
    assert found.width.value == pytest.approx(990, abs=0.2)
    assert str(found.remarks[-1]).startswith("The left side leans 10.")


def test_the_space_found_lies_inside_the_outline(making):
    shapely = pytest.importorskip("shapely")
    rng = np.random.default_rng(11)
    for _ in range(20):
        truth = making.opening(rng, raked=True)
        readings = [width(1, p) for p in ("foot", "middle", "head")] + [
            height(1, p) for p in ("left", "middle", "right")
        ]
        readings += [
            plumb("left", 0),
            plumb("right", 0),
            level("floor", 0),
            level("head", 0),
            plumb("left", 0, "middle"),
        ]
        shape = adjust_shape(truth.read(readings, None), raked=True)
        found = raked_rectangle_from_shape(shape)
        front = shapely.box(found.left_mm, 0, found.left_mm + found.width.value, found.height.value)
        floor = max(v.y_mm for v in shape.vertices if v.name in "AFB")
        placed = shapely.affinity.translate(front, 0, floor)
        assert shapely.Polygon(shape.points).buffer(0.05).contains(placed)
