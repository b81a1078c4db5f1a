"""Faults of a network, and the edges of chances."""

from __future__ import annotations

import pytest

from rodbook.dates import chance_by, critical_path, three_point
from rodbook.errors import InputError


@pytest.mark.parametrize(
    ("durations", "after", "sentence"),
    [
        ({"A": -1}, {}, "A: a duration is zero or more"),
        ({"A": 1}, {"A": ["B"]}, "network: there is no activity B"),
        ({"A": 1, "B": 1}, {"A": ["B"], "B": ["A"]}, "a circle that can never begin"),
    ],
)
def test_faults(durations, after, sentence) -> None:
    with pytest.raises(InputError) as caught:
        critical_path(durations, after)
    assert sentence in str(caught.value)


def test_edges() -> None:
    assert critical_path({}, {}) == {}
    assert chance_by(3, 3, 0) == 1
    assert chance_by(2.9, 3, 0) == 0
    with pytest.raises(InputError, match="3, 2, 4 are not in order"):
        three_point(3, 2, 4)
