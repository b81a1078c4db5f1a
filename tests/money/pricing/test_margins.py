"""Break-even, margin and mark-up; figures from outside are in tests/published."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money import break_even_units, margin_of_mark_up, mark_up_of_margin

D = Decimal


@pytest.mark.parametrize(
    ("fixed", "price", "variable", "message"),
    [
        ("-1", "2", "1", "fixed: a fixed cost of -1 is below zero"),
        ("1", "2", "2", "price: at 2 a unit that costs 2 earns nothing; no number of them breaks even"),
    ],
)
def test_what_never_breaks_even_says_why(fixed: str, price: str, variable: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        break_even_units(D(fixed), price=D(price), variable=D(variable))
    assert str(caught.value) == message


def test_impossible_margins_say_why() -> None:
    with pytest.raises(InputError, match="margin: 1 leaves nothing of the price for the cost"):
        mark_up_of_margin(D(1))
    with pytest.raises(InputError, match="mark-up: -1 takes away the whole cost"):
        margin_of_mark_up(D(-1))


@given(st.decimals(min_value=D("-0.9"), max_value=D("0.99"), places=4))
def test_mark_up_and_margin_are_each_others_inverse(margin: Decimal) -> None:
    assert abs(margin_of_mark_up(mark_up_of_margin(margin)) - margin) < D("1e-20")


@given(st.decimals(1, 10_000, places=2), st.decimals(0, 500, places=2))
def test_at_break_even_nothing_is_earned(cost: Decimal, fixed: Decimal) -> None:
    price = cost * 2
    units = break_even_units(fixed, price=price, variable=cost)
    assert abs(units * (price - cost) - fixed) < D("1e-15")
