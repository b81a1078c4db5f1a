"""Lengths in other units."""

import pytest

from rodbook.job.units import parse_length


@pytest.mark.parametrize(("text", "millimetres"), [("1 in", 25.4), ("96 in", 2438.4), ("48 in", 1219.2)])
def test_the_inch(text, millimetres):
    """One inch is 25.4 mm exactly: international yard and pound agreement of 1959 (from memory)."""
    assert parse_length(text) == millimetres
