"""Learning curves against printed figures.

*Seen*: the vignette of an open-source learning-curve library (first unit 100 h). *From memory*: factors of the unit model
as a textbook of operations management tables them to three decimals (E.3), worked out again to four. *Quoted*: an
accounting text's table of the cumulative average model. Tolerance: half a unit in the last printed place.
"""

from __future__ import annotations

import pytest

from rodbook.money import average_factor, learned_units, learning_exponent, unit_factor


@pytest.mark.parametrize(("learning", "printed"), [(0.8, -0.3219281), (0.85, -0.2344653), (0.9, -0.1520031)])
def test_exponents(learning: float, printed: float) -> None:
    # vignette, seen
    assert learning_exponent(learning) == pytest.approx(printed, abs=5e-8)


TABLE = {
    # unit: 80, 85, 90, 95%; textbook table from memory, computed to four decimals
    1: (1.0000, 1.0000, 1.0000, 1.0000),
    2: (0.8000, 0.8500, 0.9000, 0.9500),
    3: (0.7021, 0.7729, 0.8462, 0.9219),
    4: (0.6400, 0.7225, 0.8100, 0.9025),
    8: (0.5120, 0.6141, 0.7290, 0.8574),
    10: (0.4765, 0.5828, 0.7047, 0.8433),
    16: (0.4096, 0.5220, 0.6561, 0.8145),
    20: (0.3812, 0.4954, 0.6342, 0.8012),
    50: (0.2838, 0.3996, 0.5518, 0.7486),
}


@pytest.mark.parametrize("unit", TABLE)
def test_unit_factors(unit: int) -> None:
    for learning, printed in zip((0.8, 0.85, 0.9, 0.95), TABLE[unit], strict=True):
        assert unit_factor(unit, learning) == pytest.approx(printed, abs=5.1e-5)


SUMS = {
    # computed
    0.8: {2: 1.800, 4: 3.142, 8: 5.346, 10: 6.315, 16: 8.920, 20: 10.485, 50: 20.122},
    0.85: {2: 1.850, 4: 3.345, 8: 5.936, 10: 7.116, 16: 10.383, 20: 12.402, 50: 25.513},
    0.9: {2: 1.900, 4: 3.556, 8: 6.574, 10: 7.994, 16: 12.040, 20: 14.608, 50: 32.142},
}


@pytest.mark.parametrize("learning", SUMS)
def test_sums_of_factors(learning: float) -> None:
    for units, printed in SUMS[learning].items():
        assert learned_units(units, learning) == pytest.approx(printed, abs=5.1e-4)


@pytest.mark.parametrize(
    ("learning", "printed"),
    [(0.8, 21.13225), (0.825, 26.18401), (0.85, 32.23647), (0.875, 39.44942), (0.9, 48.00243)],
)
def test_unit_125(learning: float, printed: float) -> None:
    # vignette, seen
    assert 100 * unit_factor(125, learning) == pytest.approx(printed, abs=5.1e-6)


def test_totals_of_125_units() -> None:
    # vignette, seen: unit model 5201.085, cumulative average model 4029.559
    assert 100 * learned_units(125, 0.85) == pytest.approx(5201.085, abs=5.1e-4)
    assert 100 * 125 * average_factor(125, 0.85) == pytest.approx(4029.559, abs=5.1e-4)


@pytest.mark.parametrize(
    ("known", "hours", "wanted", "learning", "printed"),
    [(1, 100, 80, 0.83, 30.79056), (20, 120, 150, 0.92, 94.17084), (10, 90, 175, 0.87, 50.64078)],
)
def test_from_one_unit_to_another(known: int, hours: float, wanted: int, learning: float, printed: float) -> None:
    # vignette, seen
    found = hours * unit_factor(wanted, learning) / unit_factor(known, learning)
    assert found == pytest.approx(printed, abs=5.1e-6)


def test_a_block_of_units() -> None:
    # vignette, seen: units 201 to 500 at 75%, unit 201 = 125 h: 30350.48 by an approximation; exact sum 30350.47 computed
    block = learned_units(500, 0.75) - learned_units(200, 0.75)
    assert 125 * block / unit_factor(201, 0.75) == pytest.approx(30350.47, abs=0.0051)


@pytest.mark.parametrize(
    ("units", "average", "total"), [(2, 80, 160), (4, 64, 256), (8, 51.2, 409.6), (16, 40.96, 655.36)]
)
def test_cumulative_average(units: int, average: float, total: float) -> None:
    # accounting text, quoted: first 100 h, 80%
    assert 100 * average_factor(units, 0.8) == pytest.approx(average, abs=0.005)
    assert 100 * units * average_factor(units, 0.8) == pytest.approx(total, abs=0.005)
