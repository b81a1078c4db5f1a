"""Corners and leaning sides against published triangles and figures."""

import math

import pytest

from rodbook.survey import corner_angle, lean_from_diagonals, upright_rectangle


@pytest.mark.parametrize("sides", [(3, 4, 5), (30, 40, 50), (5, 12, 13), (8, 15, 17)])
def test_whole_number_right_angles(sides):
    """3-4-5 and 30-40-50 checks of a corner: building trade pages (quoted); all four: Euclid, Elements I.48 (from memory)."""
    a, b, diagonal = sides
    assert corner_angle(a, b, diagonal_mm=diagonal) == pytest.approx(90, abs=1e-12)


def test_a_corner_three_millimetres_out():
    """Sides 600 and 800, diagonal 1003: 90.3586 degrees (computed, law of cosines)."""
    assert corner_angle(600, 800, diagonal_mm=1003) == pytest.approx(90.3586, abs=0.00005)


def test_true_diagonal_of_a_standard_leaf():
    """Leaf 762 x 1981: true diagonal 2122.4997 mm (computed)."""
    assert corner_angle(762, 1981, diagonal_mm=2122.4997) == pytest.approx(90, abs=1e-5)


def test_diagonals_five_millimetres_apart():
    """762 x 1981, diagonals 2125 and 2120: 6.96 mm over the height (computed, d1^2 - d2^2 = 4ab cos gamma).

    The identity is the parallelogram law, exact: with level widths and plumb heights the lean is (d1^2 - d2^2) / 4w.
    """
    height = math.sqrt((2125**2 + 2120**2) / 2 - 762**2 - 6.963**2)
    lean, doubt = lean_from_diagonals((2125, 2120), foot_width_mm=762, head_width_mm=762, heights_mm=(height, height))
    assert lean == pytest.approx(6.96, abs=0.005)
    assert doubt == pytest.approx(0, abs=0.005)


def test_equal_diagonals_alone_prove_no_rectangle():
    """Equal diagonals and unequal widths are a symmetrical trapezium (published caveat, quoted): its width is the lesser."""
    found = upright_rectangle((800, 790, 780), (2000, 2000, 2000), diagonals_mm=(math.hypot(790, 2000),) * 2)
    assert found.width.value == pytest.approx(780)
