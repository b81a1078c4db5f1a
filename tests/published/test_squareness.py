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


def test_a_front_that_leans_by_two_right_triangles():
    """Euclid, Elements I.47 (from memory): 950, 1680, 1930 and 896, 1680, 1904 are right triangles of whole numbers.

    A front 923 wide and 1680 high that leans by 27 has them between its diagonals and a plumb line: 923 + 27 = 950 and
    923 - 27 = 896.
    """
    assert 950**2 + 1680**2 == 1930**2
    assert 896**2 + 1680**2 == 1904**2
    lean, doubt = lean_from_diagonals((1930, 1904), foot_width_mm=923, head_width_mm=923, heights_mm=(1680, 1680))
    assert (lean, doubt) == pytest.approx((27, 0), abs=1e-9)


def test_diagonals_five_millimetres_apart():
    """762 x 1981 between sloping sides, diagonals 2125 and 2120: a lean of 6.96 mm (computed, d1^2 - d2^2 = 4ab cos gamma).

    The plumb height is a little less than the side: sqrt(1981^2 - 6.96^2) = 1980.988 (computed), which a tape reads as 1981.
    """
    lean, doubt = lean_from_diagonals((2125, 2120), foot_width_mm=762, head_width_mm=762, heights_mm=(1981, 1981))
    assert lean == pytest.approx(6.96, abs=0.01)
    assert doubt < 1


def test_equal_diagonals_alone_prove_no_rectangle():
    """Equal diagonals and unequal widths are a symmetrical trapezium (published caveat, quoted): its width is the lesser."""
    found = upright_rectangle((800, 790, 780), (2000, 2000, 2000), diagonals_mm=(math.hypot(790, 2000),) * 2)
    assert found.width.value == pytest.approx(780)
