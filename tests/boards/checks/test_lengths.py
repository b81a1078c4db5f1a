"""The checker for bars on plans broken by hand, each in one way."""

from dataclasses import replace
from decimal import Decimal

import pytest

from rodbook.boards import Bar, BarPattern, BarPlan, Stick, StickCut, Unplaced, check_bar_plan

# Bar 1000, kerf 4: a (300) at 0, b (500) at 304, then 808 are gone and 192 remain.
BARS = [Bar("bar", 1000, Decimal(7), quantity=3)]
STICKS = [Stick("a", 300, 2), Stick("b", 500, 2)]
PATTERN = BarPattern("bar", 1000, Decimal(7), 2, (StickCut("a", 0, 300), StickCut("b", 304, 500)), 192)
PLAN = BarPlan((PATTERN,), Decimal(14), Decimal(14), proven=True, unplaced=(), tries=1, ended="bound")


def faults(plan=PLAN, sticks=STICKS, bars=BARS, **pattern):
    if pattern:
        plan = replace(plan, patterns=(replace(PATTERN, **pattern),))
    return check_bar_plan(plan, sticks, bars, 4.0)


def test_a_sound_plan_has_no_fault():
    assert faults() == []


def test_a_stick_to_the_very_end_needs_no_kerf_there():
    sticks = [Stick("a", 300, 2), Stick("b", 696, 2)]
    assert faults(sticks=sticks, cuts=(StickCut("a", 0, 300), StickCut("b", 304, 696)), remainder=0) == []


def test_missing_kerf_is_caught():
    found = faults(cuts=(StickCut("a", 0, 300), StickCut("b", 303.99, 500)), remainder=192.01)
    assert found == ["pattern 1 (bar): 'b' at 303.99 overlaps its neighbour or has no kerf before it"]


def test_a_start_before_the_bar_is_caught():
    assert any("overlaps" in fault for fault in faults(cuts=(StickCut("a", -1, 300), StickCut("b", 304, 500))))


def test_past_the_end_is_caught():
    found = faults(cuts=(StickCut("a", 0, 300), StickCut("b", 500.01, 500)), remainder=0)
    assert found == ["pattern 1 (bar): the sticks are longer than the bar"]


def test_a_wrong_remainder_is_caught():
    assert faults(remainder=196) == ["pattern 1 (bar): 196 mm is not what remains"]


@pytest.mark.parametrize(
    ("sticks", "sentence"),
    [
        ([STICKS[0], Stick("b", 500, 1)], "2 of 'b' of 500.0 mm are cut and 1 wanted"),
        ([STICKS[0], Stick("b", 500, 3)], "2 of 'b' are cut or left out and 3 were asked for"),
        ([STICKS[0], Stick("b", 499, 2)], "2 of 'b' of 500.0 mm are cut and 0 wanted"),
    ],
)
def test_wrong_counts_and_lengths_are_caught(sticks, sentence):
    assert sentence in faults(sticks=sticks)


def test_what_is_left_out_counts():
    plan = replace(PLAN, unplaced=(Unplaced("b", 1, "It would not go."),))
    assert faults(plan, sticks=[STICKS[0], Stick("b", 500, 3)]) == []
    plan = replace(PLAN, unplaced=(Unplaced("b", 0, "It would not go."),))
    assert faults(plan) == ["'b' is left out without number or reason"]


def test_stock_price_cost_and_bound_are_compared():
    assert faults(bars=[replace(BARS[0], quantity=1)]) == ["2 of bar 'bar' are used and there are 1"]
    assert "pattern 1 (bar): the bar is 1000 mm at 8, not 1000 mm at 7" in faults(
        bars=[replace(BARS[0], price=Decimal(8))]
    )
    assert faults(bar="rod")[0] == "pattern 1 (rod): there is no such bar"
    assert "pattern 1 (bar): no bars are cut, or nothing is cut from them" in faults(count=0)
    assert faults(replace(PLAN, cost=Decimal(15), proven=False)) == ["the bars used cost 14, not 15"]
    assert "the bound 15 is above the cost 14" in faults(replace(PLAN, bound=Decimal(15)))
    assert faults(replace(PLAN, bound=Decimal(7))) == ["proof is claimed with the bound below the cost"]


def test_what_is_cut_off_the_ends_is_held_to():
    """Bar 1000 with 10 off both raw ends: a at 10, b at 314, then 818 are gone and 172 remain."""
    bars = [replace(BARS[0], end_trim=10)]
    sound = {"cuts": (StickCut("a", 10, 300), StickCut("b", 314, 500)), "remainder": 172, "start": 10, "end": 10}
    assert faults(bars=bars, **sound) == []
    assert faults(bars=bars, **sound | {"start": 0, "end": 0}) == [
        "pattern 1 (bar): 0 and 0 mm are taken off its ends, not 10.0 and 10.0 mm"
    ]
    early = {"cuts": (StickCut("a", 9, 300), StickCut("b", 314, 500))}
    assert faults(bars=bars, **sound | early) == ["pattern 1 (bar): 'a' at 9 begins in the end that is cut off"]
    late = {"cuts": (StickCut("a", 10, 300), StickCut("b", 491, 500)), "remainder": 0}
    assert faults(bars=bars, **sound | late) == ["pattern 1 (bar): the last stick reaches into the end that is cut off"]
    square = [replace(bars[0], raw_ends=1)]
    moved = {"cuts": (StickCut("a", 0, 300), StickCut("b", 304, 500)), "remainder": 182, "start": 0}
    assert faults(bars=square, **sound | moved) == []
