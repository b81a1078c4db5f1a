"""Break-even, margin and mark-up against figures printed elsewhere.

Sources: general accounting text; *quoted* where the figures were read where somebody else quotes it (none at first hand),
*computed* where only the exercise's data were read and the answer follows from them. Nothing here is from memory.
Tolerance: half a unit in the last printed place.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from rodbook.money import break_even_units, margin_of_mark_up, mark_up_of_margin

D = Decimal


@pytest.mark.parametrize(
    ("fixed", "price", "variable", "printed"),
    [
        # general accounting text, quoted: variable 5 + 3, fixed 90 000 + 12 000
        (90_000 + 12_000, 20, 5 + 3, 8_500),
        # general accounting text, quoted
        (55_000, 45, 40, 11_000),
        # general accounting text, exercise: data quoted (contribution 30 printed), answer computed
        (48_000, 75, 45, 1_600),
        # the same exercise at the higher price: data quoted, answer computed
        (48_000, 95, 45, 960),
    ],
)
def test_break_even_units(fixed: int, price: int, variable: int, printed: int) -> None:
    assert break_even_units(D(fixed), price=D(price), variable=D(variable)) == printed


PAIRS = [
    # general accounting text, quoted: margin %, mark-up %, half a unit in the last place of the printed mark-up
    ("10", "11.1", "0.05"),
    ("15", "17.6", "0.05"),
    ("20", "25", "0"),
    ("25", "33.3", "0.05"),
    ("30", "42.9", "0.05"),
    ("30", "42.86", "0.005"),
    ("40", "66.7", "0.05"),
    ("50", "100", "0"),
    ("60", "150", "0"),
    ("75", "300", "0"),
]


@pytest.mark.parametrize(("margin", "mark_up", "tolerance"), PAIRS)
def test_mark_up_of_a_margin(margin: str, mark_up: str, tolerance: str) -> None:
    assert abs(100 * mark_up_of_margin(D(margin) / 100) - D(mark_up)) <= D(tolerance)


def test_a_margin_that_is_itself_rounded() -> None:
    # general accounting text, quoted: 33.3% -> 50%; 33.3 is rounded, and 33.25 to 33.35 give 49.8 to 50.04
    assert mark_up_of_margin(D("0.3325")) < D("0.5") < mark_up_of_margin(D("0.3335"))


@pytest.mark.parametrize(
    ("mark_up", "margin", "tolerance"),
    [
        ("35", "25.9", "0.05"),  # general accounting text, quoted
        ("50", "33.3", "0.05"),  # general accounting text, quoted: cost 100 sells at 150, margin 33.3%
    ],
)
def test_margin_of_a_mark_up(mark_up: str, margin: str, tolerance: str) -> None:
    assert abs(100 * margin_of_mark_up(D(mark_up) / 100) - D(margin)) <= D(tolerance)


def test_the_price_of_a_half_margin() -> None:
    # general accounting text, quoted: cost 100 with 50% margin sells at 200
    assert 100 * (1 + mark_up_of_margin(D("0.5"))) == 200
