"""The upright rectangle: it fits, it is the widest, and its working says why."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.survey import lean_from_diagonals, upright_rectangle


def test_a_square_opening_offers_all_of_itself():
    found = upright_rectangle((842, 842, 842), (2012, 2012, 2012), diagonals_mm=(math.hypot(842, 2012),) * 2)
    assert (found.width.value, found.height.value) == pytest.approx((842, 2012))
    assert found.lean_mm == pytest.approx(0)


def test_the_least_reading_counts_each_way():
    found = upright_rectangle((845, 842, 843), (2012, 2010, 2013))
    # By hand: the head is 2 mm narrower, 1 mm on each side, so the sides stand at 0 and 1, and at 845 and 844; the bow of
    # 2 mm is all in the one (2.5 to 844.5) or all in the other (0.5 to 842.5): 844 - 2.5 or 842.5 - 1.
    assert (found.width.value, found.height.value) == (841.5, 2010)
    assert found.height.working() == (
        "opening height = least of height at left 2012.0, height at middle 2010.0, height at right 2013.0 = 2010.0"
    )


def test_without_diagonals_it_says_that_nothing_checks_the_sides():
    assert tuple(map(str, upright_rectangle((842, 842, 842), (2012, 2012, 2012)).remarks)) == (
        "No diagonals: the sides are taken as plumb, and nothing checks it. Read both diagonals.",
    )


def test_leaning_sides_cost_width():
    # By hand: 6 mm of lean over the height, equal widths: 842 - 6 = 836 between the plumb lines.
    diagonals = math.hypot(842 + 6, 2012), math.hypot(842 - 6, 2012)
    found = upright_rectangle((842, 842, 842), (2012, 2012, 2012), diagonals_mm=diagonals)
    assert found.lean_mm == pytest.approx(6)
    assert found.width.value == pytest.approx(836)
    assert found.width.working().startswith("upright width = opening width 842.0 − lost to leaning sides 6.0")
    assert "The sides lean 6.0 mm to the right." in map(str, found.remarks)


def test_diagonals_that_disagree_are_asked_for_again():
    found = upright_rectangle((842, 842, 842), (2012, 2012, 2012), diagonals_mm=(2190.0, 2190.0))
    assert any("disagree" in str(remark) for remark in found.remarks)


def test_a_diagonal_shorter_than_the_height_is_refused():
    with pytest.raises(InputError, match="a diagonal is longer than the height beside it"):
        lean_from_diagonals((2000, 2200), foot_width_mm=842, head_width_mm=842, heights_mm=(2012, 2012))


def _inside(x: float, y: float, corners: list[tuple[float, float]]) -> bool:
    """Whether a point lies in a convex polygon given anticlockwise, to a millionth of a mm; shares nothing with the survey."""
    for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
        if (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) < -1e-3:
            return False
    return True


@given(
    foot=st.floats(400, 1500),
    spread=st.floats(-8, 8),
    lean=st.floats(-15, 15),
    left=st.floats(1800, 2200),
    right=st.floats(-10, 10),
)
def test_with_true_readings_the_rectangle_fits_and_no_wider_one_does(foot, spread, lean, left, right):
    head, right = foot + spread, left + right
    corners = [(0, 0), (foot, 0), (lean + head, right), (lean, left)]
    diagonals = math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3])
    found = upright_rectangle(
        (foot, (foot + head) / 2, head), (left, (left + right) / 2, right), diagonals_mm=diagonals
    )
    x0, x1, y = found.left_mm, found.left_mm + found.width.value, found.height.value
    for corner in ((x0, 0), (x1, 0), (x0, y), (x1, y)):
        assert _inside(*corner, corners)
    if abs(left - right) < 1e-9:
        for shift in (-0.01, 0.01):
            side = x0 if shift < 0 else x1
            assert not all(_inside(side + shift, at, corners) for at in (0, y))
    assert found.lean_mm == pytest.approx(lean, abs=1e-6)
