"""Learning over repeats, beside the published checks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money import learned_units, learning_exponent, unit_factor


@given(st.integers(1, 300), st.floats(0.6, 1.0))
def test_the_sum_grows_by_the_units_own_factor(n: int, learning: float) -> None:
    assert learned_units(n, learning) - learned_units(n - 1, learning) == pytest.approx(unit_factor(n, learning))


@given(st.floats(0, 200), st.floats(0.6, 1.0))
def test_learning_never_takes_longer(n: float, learning: float) -> None:
    assert learned_units(n, learning) <= n + 1e-9


def test_without_learning_it_is_a_straight_line() -> None:
    assert learned_units(7.25, 1) == 7.25


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (
            lambda: learning_exponent(0),
            "learning: 0 is no share of a time; write 0.9 where a doubling takes it to 90%",
        ),
        (lambda: learned_units(-1, 0.9), "learning: -1 units can't be made; zero is the least"),
        (lambda: unit_factor(0, 0.9), "learning: there is no unit 0; the first is 1"),
    ],
)
def test_what_makes_no_sense_is_said(call, sentence: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(InputError) as caught:
        call()
    assert str(caught.value) == sentence
