"""Mass of a whole leaf, which of height and mass decides the count, and the pull on hinges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.hinges import (
    COMMON_COUNTS,
    Film,
    Fitting,
    MassRange,
    Pane,
    board_mass,
    hinge_count,
    hinge_load,
    hinge_number,
    leaf_mass,
    top_hinge_pull,
)


def test_the_shares_of_a_leaf_add_up():
    leaf = leaf_mass(
        2000,
        500,
        22,
        density_kg_per_m3=(700, 760),
        film=Film((200, 300)),
        fittings=[Fitting("knob", (0.05, 0.1))],
        panes=[Pane("mirror", 400, 1500, 4)],
    )
    assert [name for name, _ in leaf.shares] == ["board", "finish", "mirror", "knob"]
    assert leaf.total.low == pytest.approx(sum(m.low for _, m in leaf.shares))
    # By hand: 2.11 m2 of faces and edges, 200 um at 1200 kg/m3 and 300 um at 1600 kg/m3.
    finish = dict(leaf.shares)["finish"]
    assert (finish.low, finish.high) == (pytest.approx(0.5064), pytest.approx(1.0128))


def test_glass_in_place_of_board_takes_the_board_away():
    whole = leaf_mass(1000, 500, 20, density_kg_per_m3=(700, 700)).total
    glazed = leaf_mass(
        1000, 500, 20, density_kg_per_m3=(700, 700), panes=[Pane("glass", 400, 800, 4, in_place_of_board=True)]
    ).total
    gone = board_mass(800, 400, 20, density_kg_per_m3=(700, 700)).low
    glass = board_mass(800, 400, 4, density_kg_per_m3=(2490, 2530))
    assert glazed.low == pytest.approx(whole.low - gone + glass.low)
    assert glazed.high == pytest.approx(whole.high - gone + glass.high)


def test_all_faults_of_a_leaf_at_once():
    with pytest.raises(InputError) as caught:
        leaf_mass(
            1000,
            500,
            20,
            density_kg_per_m3=(700, 700),
            panes=[Pane("mirror", 600, 800, 4)],
            film=Film((300, 200)),
            fittings=[Fitting("lock", (2, 1))],
        )
    assert [fault.where for fault in caught.value.faults] == ["pane mirror", "fitting lock", "finish"]


@given(st.floats(200, 2159), st.floats(0.5, 22))
def test_the_count_says_who_asked(height, mass):
    found = hinge_number(height, mass, table=COMMON_COUNTS)
    assert found.count == max(found.by_height, found.by_mass) == hinge_count(height, mass, table=COMMON_COUNTS)
    assert (found.asked_by == "both") == (found.by_height == found.by_mass)


@given(st.floats(1, 40), st.floats(200, 900), st.floats(300, 2000), st.floats(-10, 30))
def test_moments_about_the_bottom_hinge_balance(mass, width, distance, offset):
    pull = top_hinge_pull(mass, width, distance_mm=distance, offset_mm=offset)
    assert pull * distance == pytest.approx(mass * 9.80665 * (width / 2 + offset))


def test_the_warning_comes_near_the_capacity_and_not_before():
    def remark(capacity):
        return hinge_load(MassRange(15, 16), 600, distance_mm=1600, capacity_n=capacity).remark

    pull = top_hinge_pull(16, 600, distance_mm=1600)
    assert remark(pull / 0.79) == ""
    assert "set the hinges further apart." in remark(pull / 0.81)
    assert "divide it" in remark(pull / 1.01)


def test_what_hangs_on_a_leaf_pulls_too():
    bare = hinge_load(MassRange(10, 10), 600, distance_mm=1500)
    hung = hinge_load(MassRange(10, 10), 600, distance_mm=1500, hung_kg=20)
    # By hand: 20 kg at 500 mm over 1500 mm.
    assert hung.pull_n[1] - bare.pull_n[1] == pytest.approx(20 * 9.80665 * 500 / 1500)
    assert hung.weight_n[0] == pytest.approx(30 * 9.80665)


def test_hinges_without_a_distance():
    with pytest.raises(InputError, match="hinges: their distance has to be above zero, not 0 mm"):
        top_hinge_pull(10, 600, distance_mm=0)
