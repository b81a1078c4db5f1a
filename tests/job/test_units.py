"""Lengths as people write them."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.job.units import LARGEST_MM, parse_length


@pytest.mark.parametrize(
    ("written", "millimetres"),
    [
        (842, 842.0),
        (842.5, 842.5),
        ("842", 842.0),
        ("842,5", 842.5),
        ("842.5", 842.5),
        (" 842 mm ", 842.0),
        ("84.2 cm", 842.0),
        ("84,2cm", 842.0),
        ("0.842 m", 842.0),
        ("2,1 M", 2100.0),
        ("10 in", 254.0),
        ('33 1"', None),
        ('0.5"', 12.7),
        ("+5", 5.0),
        ("-5", -5.0),
        ("842.125", 842.125),
        ("0,125", 0.125),
        ("12.1250", 12.125),
        ("100 m", LARGEST_MM),
        ("2.030 m", 2030.0),
    ],
)
def test_a_length_is_read_as_it_is_meant(written, millimetres):
    if millimetres is None:
        with pytest.raises(ValueError, match="is not a length"):
            parse_length(written)
    else:
        assert parse_length(written) == pytest.approx(millimetres, abs=1e-9)


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ("wide", "'wide' is not a length; write millimetres, as in 842 or 842.5"),
        ("1.234,5", "'1.234,5' is not a length; write millimetres, as in 842 or 842.5"),
        ("", "a length is missing here; write millimetres, as in 842 or 842.5"),
        (None, "a length is missing here; write millimetres, as in 842 or 842.5"),
        (True, "yes or no is not a length; write millimetres, as in 842 or 842.5"),
        ([842], "a list is not a length; write millimetres, as in 842 or 842.5"),
        ({}, "this is not a length; write millimetres, as in 842 or 842.5"),
        (math.nan, "this is no number at all; write millimetres, as in 842 or 842.5"),
        (-math.inf, "this is no number at all; write millimetres, as in 842 or 842.5"),
        (100_001, "a length of more than 100 m is a slip; write millimetres, as in 842 or 842.5"),
        ("101 m", "a length of more than 100 m is a slip; write millimetres, as in 842 or 842.5"),
        pytest.param(
            10**5000, "a length of more than 100 m is a slip; write millimetres, as in 842 or 842.5", id="huge"
        ),
        ("9" * 5000, "a length of more than 100 m is a slip; write millimetres, as in 842 or 842.5"),
        ("2,030", "'2,030' could be 2030 mm or 2.03 mm; write it without a mark for the thousands"),
        ("12.500 mm", "'12.500 mm' could be 12500 mm or 12.5 mm; write it without a mark for the thousands"),
        ("x" * 90, f"'{'x' * 39}…' is not a length; write millimetres, as in 842 or 842.5"),
    ],
)
def test_what_is_no_length_is_told(written, sentence):
    with pytest.raises(ValueError, match=f"^{re.escape(sentence)}$"):
        parse_length(written)


@given(st.floats(-LARGEST_MM, LARGEST_MM))
def test_a_number_stays_itself(value):
    assert parse_length(value) == value


@given(st.text() | st.floats() | st.integers() | st.booleans() | st.none())
def test_nothing_but_a_finite_length_or_a_sentence_comes_out(value):
    try:
        found, said = parse_length(value), ""
    except ValueError as error:
        found, said = 0.0, str(error)
    assert abs(found) <= LARGEST_MM
    assert said.isprintable()
