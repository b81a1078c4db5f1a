"""The Measure: what it says and that it never says another thing than it is."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.working import Measure, greatest, least, number


def test_the_leaf_width_reads_as_a_joiner_would_write_it():
    clear, margin, gap = Measure(842.0, "clear width"), Measure(3.0, "margin"), Measure(3.0, "meeting gap")
    leaf = ((clear - 2 * margin - 1 * gap) / 2).named("leaf width")
    assert leaf.working() == "leaf width = (clear width 842.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 416.5"


def test_the_trail_goes_back_to_what_was_given_and_says_nothing_twice():
    outer, lining = Measure(878, "lining width", source="choice"), Measure(18, "lining thickness", source="book")
    clear = (outer - 2 * lining).named("clear width")
    leaf = ((clear - Measure(6, "margins")) / 2).named("leaf width")
    assert leaf.trail() == (
        "lining width = 878.0 (choice)",
        "lining thickness = 18.0 (book)",
        "clear width = lining width 878.0 − 2 × lining thickness 18.0 = 842.0",
        "margins = 6.0",
        "leaf width = (clear width 842.0 − margins 6.0) ÷ 2 = 418.0",
    )


def test_brackets_stand_only_where_they_are_needed():
    a, b, c = Measure(10, "a"), Measure(4, "b"), Measure(2, "c")
    assert (a - (b - c)).named("d").working() == "d = a 10.0 − (b 4.0 − c 2.0) = 8.0"
    assert (a - b - c).named("d").working() == "d = a 10.0 − b 4.0 − c 2.0 = 4.0"
    assert (a / (b / c)).named("d").working() == "d = a 10.0 ÷ (b 4.0 ÷ c 2.0) = 5.0"
    assert (a + b * c).named("d").working() == "d = a 10.0 + b 4.0 × c 2.0 = 18.0"
    assert (3 - a).named("d").working() == "d = 3 − a 10.0 = -7.0"


def test_rounding_is_shown_and_an_exact_value_is_left_alone():
    third = (Measure(842, "clear width") / 3).named("leaf width")
    assert third.rounded_down(0.5).working() == (
        "leaf width = (clear width 842.0 ÷ 3 = 280.667) rounded down to 0.5 = 280.5"
    )
    assert third.rounded_up(0.5).value == 281.0
    assert Measure(416.5, "leaf width").rounded_down(0.5).working() == "leaf width = 416.5"


def test_float_dust_does_not_cost_a_step():
    assert (Measure(0.1, "a") + Measure(0.2, "b")).rounded_down(0.1).value == pytest.approx(0.3, abs=1e-12)


def test_least_and_greatest_show_all_they_chose_from():
    a, b = Measure(845, "foot"), Measure(842, "head")
    assert least(a, b, name="width").working() == "width = least of foot 845.0, head 842.0 = 842.0"
    assert greatest(a, b, name="width").value == 845


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused(value):
    with pytest.raises(InputError, match=r"^clear width: .* is not a number that can be built to$"):
        Measure(value, "clear width")


def test_zero_divides_nothing():
    with pytest.raises(InputError, match=r"^clear width: it can't be divided by zero$"):
        Measure(842, "clear width") / 0


@pytest.mark.parametrize("step", [0, -1, float("nan")])
def test_a_step_is_positive(step):
    with pytest.raises(InputError, match="is not positive"):
        Measure(842, "clear width").rounded_down(step)


def test_only_numbers_and_measures_are_added():
    with pytest.raises(TypeError, match="a Measure works with numbers and Measures, not str"):
        Measure(1, "a") + "2"


lengths = st.floats(min_value=1, max_value=4000).map(lambda v: round(v * 2) / 2)


@st.composite
def expressions(draw, depth=3):
    if depth == 0 or draw(st.booleans()):
        return Measure(draw(lengths), draw(st.sampled_from("abcdefgh")))
    left, right = draw(expressions(depth=depth - 1)), draw(expressions(depth=depth - 1))
    kind = draw(st.sampled_from(["+", "-", "*", "/"]))
    if kind == "+":
        return left + right
    if kind == "-":
        return left - right
    if kind == "*":
        return draw(st.integers(1, 4)) * left
    return left / draw(st.integers(1, 4))


@given(expressions())
def test_the_printed_expression_works_out_to_the_value(measure):
    """The independent check: read the printed working as arithmetic and compare."""
    result = (measure + 0).named("x")
    _, middle, _ = result.working().split(" = ")
    plain = re.sub(r"[a-h] (-?\d)", r"\1", middle).replace("−", "-").replace("×", "*").replace("÷", "/")
    assert re.fullmatch(r"[-+*/(). \d]+", plain)
    assert eval(plain) == pytest.approx(result.value, abs=1e-6, rel=1e-9)


@given(st.floats(min_value=-1e4, max_value=1e4), st.sampled_from([0.1, 0.5, 1.0]))
def test_rounding_down_never_makes_larger_nor_loses_a_step(value, step):
    rounded = Measure(value, "a").rounded_down(step).value
    assert rounded <= value + 1e-5 * step
    assert value - rounded < step + 1e-5


@given(st.floats(min_value=-1e6, max_value=1e6))
def test_numbers_print_to_the_thousandth_with_one_decimal_at_least(value):
    text = number(value)
    assert re.fullmatch(r"-?\d+\.\d{1,3}", text)
    assert float(text) == pytest.approx(value, abs=0.00051)
    assert not text.startswith("-0.0") or float(text) != 0
