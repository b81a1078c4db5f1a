"""Skin under a cup, and the plate and boring distance for a lap."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.hinges import COMMON_ARMS, Spread, at_least_one, deepest_boring, lap_reached, plate_fits, skin_under


def test_the_chance_against_a_plain_simulation():
    skin = skin_under(Spread(16, 0.4), Spread(13, 0.5), point_mm=2.6)
    rng = random.Random(5)
    runs = 200_000
    through = sum(rng.gauss(16, 0.2) < rng.gauss(13, 0.25) + 2.6 for _ in range(runs)) / runs
    assert skin.chance_point_through == pytest.approx(through, abs=0.003)
    assert "bore no deeper than" in skin.remark


def test_without_spread_it_is_yes_or_no():
    assert skin_under(Spread(16), Spread(13), point_mm=2.9).chance_point_through == 0
    assert skin_under(Spread(16), Spread(13), point_mm=3).chance_point_through == 1


@given(st.floats(15, 30), st.floats(0.05, 0.6), st.floats(0, 3))
def test_the_deepest_boring_has_just_the_chance_that_is_borne(thickness, tolerance, point):
    deep = deepest_boring(Spread(thickness, 0.2), tolerance, point_mm=point, chance=0.01)
    at = skin_under(Spread(thickness, 0.2), Spread(deep, tolerance), point_mm=point).chance_point_through
    assert at == pytest.approx(0.01, rel=1e-6)


@given(st.floats(12.2, 20), st.floats(0, 2))
def test_a_thicker_board_never_breaks_more_often(thickness, more):
    one = skin_under(Spread(thickness, 0.3), Spread(12, 0.3), point_mm=1)
    other = skin_under(Spread(thickness + more, 0.3), Spread(12, 0.3), point_mm=1)
    assert other.chance_point_through <= one.chance_point_through


def test_a_thick_board_needs_no_word():
    assert skin_under(Spread(22, 0.2), Spread(13, 0.3), point_mm=2).remark == ""
    assert "may show" in skin_under(Spread(15, 0.3), Spread(13, 0.3)).remark


def test_one_of_many():
    assert at_least_one(0.0, 100) == 0
    assert at_least_one(0.5, 2) == 0.75


@given(st.floats(-8, 22))
def test_plates_against_trying_everything(lap):
    best = plate_fits(lap, boring_distances=(3, 5), plate_heights=(0, 3))[0]
    tried = [lap - lap_reached(a.constant_mm, b, h) for a in COMMON_ARMS for b in (3, 5) for h in (0, 3)]
    assert abs(best.adjust_mm) == pytest.approx(min(map(abs, tried)), abs=1e-6)
    assert best.lap_mm + best.adjust_mm == pytest.approx(lap)
    assert best.in_range == (abs(best.adjust_mm) <= 2 + 1e-9) == (best.remark == "")


def test_out_of_range_says_by_how_much():
    (fit,) = plate_fits(25, arms=COMMON_ARMS[:1], boring_distances=[5], plate_heights=[0, 2], most=1)
    assert not fit.in_range
    assert "is 5.0 mm beyond the side adjustment; it wants a lower plate or another arm" in fit.remark


def test_nothing_on_hand():
    with pytest.raises(InputError, match="at least one arm"):
        plate_fits(16, plate_heights=[])
