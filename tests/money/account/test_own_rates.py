"""Labour rates from the firm's own hours: against integration by numbers, and what must hold of any update."""

from __future__ import annotations

import math
from datetime import date
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money import LogTimes, SiteRate, TimeEntry, prior_of, rate_update, updated

D = Decimal
DAY = date(2026, 11, 2)
SIZE = SiteRate("size a part", D(4), "minutes/part", date(2026, 1, 5), "from memory", D(6))
TIMES = st.lists(st.floats(0.5, 40), min_size=1, max_size=12)


def entry(minutes: float, done: float | None, person: str = "Anna", task: str = "size a part") -> TimeEntry:
    return TimeEntry(DAY, person, task, D(str(minutes)), None if done is None else D(str(done)))


def by_numbers(prior: LogTimes, times: list[float]) -> tuple[float, float, float]:
    """Mean of the mean and of the variance, and what nine in ten of next times stay under, over a grid of both."""
    mu = np.linspace(prior.mean - 3, prior.mean + 3, 1601)[:, None]
    v = np.exp(np.linspace(-7, 2.5, 1501))[None, :]  # even in the logarithm: each cell weighs v
    logs = [math.log(t) for t in times]
    density = (
        -0.5 * np.log(v)
        - prior.entries * (mu - prior.mean) ** 2 / (2 * v)
        - (prior.shape + 1) * np.log(v)
        - prior.scale / v
        + np.log(v)
    )
    for y in logs:
        density = density - 0.5 * np.log(v) - (y - mu) ** 2 / (2 * v)
    weights = np.exp(density - density.max())
    weights /= weights.sum()
    low, high = prior.mean - 3.0, prior.mean + 3.0
    from scipy.special import ndtr

    for _ in range(40):
        middle = (low + high) / 2
        below = float((weights * ndtr((middle - mu) / np.sqrt(v))).sum())
        low, high = (middle, high) if below < 0.9 else (low, middle)
    return float((weights * mu).sum()), float((weights * v).sum()), math.exp(low)


@pytest.mark.parametrize("times", [[4.2, 5.1, 3.8, 4.9, 6.0, 4.4], [8.0, 9.5, 7.2, 8.8], [4.0]])
def test_it_is_what_integration_says(times: list[float]) -> None:
    prior = LogTimes(math.log(4), 4.0, 4.0, 0.4)
    after = updated(prior, times)
    mean, variance, nine = by_numbers(prior, times)
    assert after.mean == pytest.approx(mean, abs=2e-4)
    assert after.scale / (after.shape - 1) == pytest.approx(variance, rel=5e-3)
    assert after.quantile(0.9) == pytest.approx(nine, rel=2e-3)


def test_the_prior_is_the_books_own_spread() -> None:
    prior = prior_of(SIZE)
    assert math.exp(prior.mean) == pytest.approx(4)
    sigma = math.log(6 / 4) / 1.2815515655446004
    assert prior.scale / (prior.shape - 1) == pytest.approx(sigma**2)
    assert prior.quantile(0.5) == pytest.approx(4)


@given(TIMES)
def test_order_and_portions_do_not_matter(times: list[float]) -> None:
    prior = prior_of(SIZE)
    once, again = updated(prior, times), updated(updated(prior, times[:3]), times[3:])
    backwards = updated(prior, times[::-1])
    for other in (again, backwards):
        for name in ("mean", "entries", "shape", "scale"):
            assert getattr(other, name) == pytest.approx(getattr(once, name), rel=1e-6, abs=1e-9)


@given(TIMES)
def test_the_middle_lies_between_the_book_and_what_was_seen(times: list[float]) -> None:
    after = updated(prior_of(SIZE), times)
    seen = math.exp(math.fsum(map(math.log, times)) / len(times))
    low, high = sorted((4.0, seen))
    assert low - 1e-9 <= math.exp(after.mean) <= high + 1e-9


def test_many_entries_outweigh_the_book() -> None:
    rng = np.random.default_rng(5)
    times = list(np.exp(math.log(6) + 0.2 * rng.standard_normal(400)))
    after = updated(prior_of(SIZE), times)
    assert after.quantile(0.5) == pytest.approx(6, rel=0.03)
    assert after.quantile(0.9) == pytest.approx(6 * math.exp(0.2 * 1.2816), rel=0.05)


def test_what_is_offered_and_what_is_asked() -> None:
    entries = [
        entry(60, 12),
        entry(45, 10),
        entry(52, 11, "Ben"),
        entry(480, 4, "Ben"),
        entry(30, None),
        entry(99, 1, task="paint"),
        entry(66, 14),
    ]
    found = rate_update(SIZE, entries, day=DAY)
    assert (found.used, found.uncounted) == (4, 1)
    assert [q.number for q in found.questions] == [4]
    assert found.questions[0].sentence == (
        "Ben, 2026-11-02, size a part: 120 minutes each where 4 are usual. "
        "Was it other work, or for another number? Say that it is right, and it counts."
    )
    assert found.offered is not None
    assert 4 < found.offered.value < 5
    assert found.offered.nine_in_ten is not None
    assert found.offered.nine_in_ten > found.offered.value
    assert found.offered.source == "own records: 4 entries up to 2026-11-02, beside 4 before"
    assert (found.offered.since, found.offered.unit) == (DAY, "minutes/part")
    assert found.sentence.startswith(
        "size a part: 4 minutes/part in the book, which weighs as much as 4 entries; with 4"
    )
    confirmed = rate_update(SIZE, entries, day=DAY, confirmed=[4])
    assert (confirmed.used, confirmed.questions) == (5, ())
    assert confirmed.posterior.mean > found.posterior.mean


def test_nothing_counted_offers_nothing() -> None:
    found = rate_update(SIZE, [entry(30, None)], day=DAY)
    assert (found.offered, found.posterior) == (None, found.prior)
    assert found.sentence == "size a part: nothing that was put down says how much was done, so 4 stays."


@pytest.mark.parametrize(
    ("rate", "entries", "sentence"),
    [
        (
            SiteRate("paint", D(1), "currency/m2 and coat", DAY, "x"),
            4.0,
            "paint: it is no time above zero, so no hours can say anything of it",
        ),
        (SIZE, 2.0, "entries: a prior of 2 entries has no spread; let it weigh more than 2"),
    ],
)
def test_what_makes_no_sense_is_said(rate: SiteRate, entries: float, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        prior_of(rate, entries=entries)
    assert str(caught.value) == sentence
