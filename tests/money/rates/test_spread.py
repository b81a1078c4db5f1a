"""Spreads of times and even draws."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money import LogNormal, even_draws

MEDIANS = st.floats(0.01, 1e4)
RATIOS = st.floats(1.0, 5.0)


@given(MEDIANS, RATIOS)
def test_nine_in_ten_stay_under_it(median: float, ratio: float) -> None:
    spread = LogNormal.of(median, median * ratio)
    assert spread.quantile(0.9) == pytest.approx(median * ratio)
    assert spread.quantile(0.5) == pytest.approx(median)
    assert spread.mean >= median


@pytest.mark.parametrize("nine", [4.5, 6.0, 9.0])
def test_draws_agree_with_mean_and_deviation(nine: float) -> None:
    spread = LogNormal.of(4, nine)
    draws = np.array([NormalDist().inv_cdf(u) for u in even_draws(1, 4096, 3)[:, 0]])
    values = 4 * np.exp(spread.sigma * draws)
    assert values.mean() == pytest.approx(spread.mean, rel=1e-3)
    assert values.std() == pytest.approx(spread.deviation, rel=3e-2)


def test_the_same_seed_gives_the_same_draws() -> None:
    first, again, other = (even_draws(3, 100, seed) for seed in (1, 1, 2))
    assert first.shape == (128, 3)
    assert np.array_equal(first, again)
    assert not np.array_equal(first, other)
    assert ((first > 0) & (first < 1)).all()


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: LogNormal.of(0, 1), "spread: its middle is 0; a time that varies has a middle above zero"),
        (lambda: LogNormal.of(4, 3), "spread: nine in ten can't stay under 3 where the middle is 4; write more"),
        (lambda: even_draws(0, 5, 1), "draws: 5 draws of 0 things can't be taken; take one of each at least"),
    ],
)
def test_what_makes_no_sense_is_said(call, sentence: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(InputError) as caught:
        call()
    assert str(caught.value) == sentence
