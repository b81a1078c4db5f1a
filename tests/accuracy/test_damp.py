"""Movement with damp, and the margin through the year."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.accuracy import (
    BOARDS,
    BUILDINGS,
    TIMBERS,
    Air,
    Piece,
    along_grain,
    board_moisture,
    board_travel,
    humidity_for,
    movement,
    timber_change,
    timber_moisture,
    timber_travel,
    year_of_margin,
)
from rodbook.errors import InputError

TRAVELS = [*BOARDS.values(), *(timber_travel(name) for name in TIMBERS)]
airs = st.builds(Air, st.just("some"), st.floats(30, 85), st.floats(5, 30))


@given(st.floats(0, 99), st.floats(0.1, 1), st.floats(-1, 60))
def test_damper_air_means_damper_timber(humidity, more, temperature):
    assert timber_moisture(humidity + more, temperature) > timber_moisture(humidity, temperature)


@given(st.floats(1, 20), st.floats(0, 40))
def test_humidity_and_back(moisture, temperature):
    assert timber_moisture(humidity_for(moisture, temperature), temperature) == pytest.approx(moisture, abs=1e-6)


@given(st.floats(30, 90), st.floats(30, 90))
def test_boards_take_up_more_in_damper_air(one, other):
    low, high = sorted((one, other))
    assert all(a <= b + 1e-9 for a, b in zip(board_moisture(low), board_moisture(high), strict=True))


def test_the_ends_of_the_table():
    assert board_moisture(30) == (6, 8)
    assert board_moisture(90) == (15, 16)
    with pytest.raises(InputError, match="20% is outside the table for boards, 30 to 90%"):
        board_moisture(20)


def test_both_faults_of_the_air_at_once():
    with pytest.raises(InputError) as caught:
        timber_moisture(120, 90)
    assert [f.where for f in caught.value.faults] == ["humidity", "temperature"]


def test_outside_the_straight_range_nothing_is_worked_out():
    with pytest.raises(InputError, match="5% is outside 6 to 14%"):
        timber_change(100, 0.002, made_at_pct=8, comes_to_pct=5)


@given(st.sampled_from(TRAVELS), airs, airs, st.floats(100, 2500))
def test_there_and_back_is_nothing(travel, made, later, size):
    low, high = movement(size, travel, made_in=made, comes_to=later)
    back_low, back_high = movement(size, travel, made_in=later, comes_to=made)
    assert low <= high
    assert (low, high) == (pytest.approx(-back_high), pytest.approx(-back_low))
    assert movement(size, travel, made_in=made, comes_to=made) == (0, 0)


@given(st.sampled_from(TRAVELS), st.sampled_from(TRAVELS), airs, airs, airs, st.floats(1, 6), st.floats(0, 3))
def test_a_wider_margin_is_wider_all_year(leaf, head, made, dry, wet, margin, more):
    def year(m):
        return year_of_margin(
            m, leaves=[Piece("leaf", 450, leaf)], carriers=[Piece("head", 456, head)], made_in=made, seasons=(dry, wet)
        )

    one, other = year(margin), year(margin + more)
    assert other.least_mm - one.least_mm == pytest.approx(more)
    assert one.least_mm <= min(s.most_mm for s in one.seasons)
    assert one.closes == (one.least_mm <= 0) == any(r.code == "accuracy.margin_may_close" for r in one.remarks)


def test_a_pair_closes_by_both_leaves():
    leaf = timber_travel("oak, white", "flat")
    made, wet = Air("made", 40, 20), Air("wet", 65, 20)
    (season,) = year_of_margin(4, leaves=[Piece("leaf", 300, leaf, 2)], made_in=made, seasons=[wet]).seasons
    # By hand: 600 mm x 0.00365 x (11.996 - 7.722) % = 9.36 mm.
    assert season.leaves_mm[1] == pytest.approx(9.36, abs=0.005)
    assert season.least_mm == pytest.approx(4 - season.leaves_mm[1])


def test_a_carrier_that_swells_opens_the_margin():
    mdf, made, wet = board_travel("MDF"), Air("made", 45, 20), Air("wet", 65, 20)
    plain = year_of_margin(3, leaves=[Piece("leaf", 450, mdf)], made_in=made, seasons=[wet])
    carried = year_of_margin(
        3, leaves=[Piece("leaf", 450, mdf)], carriers=[Piece("head", 456, mdf)], made_in=made, seasons=[wet]
    )
    assert carried.least_mm > plain.least_mm


def test_beyond_the_straight_range_is_said():
    year = year_of_margin(
        9,
        leaves=[Piece("leaf", 200, along_grain("ash, white"))],
        made_in=Air("made", 40, 20),
        seasons=BUILDINGS["unheated, or new and drying out"],
    )
    (remark,) = year.remarks
    wet = timber_moisture(80, 12)
    assert str(remark).startswith(f"leaf: {wet:.1f}% moisture in the wet state is outside 6 to 14%")


def test_unknown_names_are_told_what_there_is():
    with pytest.raises(InputError, match="'wood' is not in the table; it has Douglas fir, coast, alder, red"):
        timber_travel("wood")
    with pytest.raises(InputError, match="it has MDF, particleboard, plywood"):
        board_travel("card")
    with pytest.raises(InputError, match="at least one leaf"):
        year_of_margin(3, leaves=[], made_in=Air("made", 40, 20), seasons=[])
