"""Mass, count, heights and holes."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import Infeasible, InputError
from rodbook.hinges import board_mass, cup_borings, hinge_count, hinge_heights, plate_borings
from rodbook.job.book import HingeCount, HingeType
from rodbook.working import Measure

TABLE = tuple(
    HingeCount(hinges=n, height=h, mass=m) for n, h, m in ((2, 1016, 5), (3, 1524, 9), (4, 2032, 15), (5, 2438, 22))
)
HINGE = HingeType(
    name="h",
    cup_diameter=35,
    cup_depth=13,
    cup_edge=5,
    pilot_spacing=45,
    pilot_set_in=9.5,
    pilot_diameter=2.5,
    pilot_depth=8,
    plate_set_back=37,
    plate_spacing=32,
    plate_diameter=5,
    plate_depth=12,
    source="common practice",
)


def _mm(value, name="x"):
    return Measure(value, name)


@given(st.floats(200, 2438), st.floats(0.5, 22))
def test_the_larger_of_two_counts_is_taken(height, mass):
    by_height = next(r.hinges for r in TABLE if height <= r.height)
    by_mass = next(r.hinges for r in TABLE if mass <= r.mass)
    assert hinge_count(height, mass, table=TABLE) == max(by_height, by_mass)


def test_beyond_the_table_nothing_is_guessed():
    with pytest.raises(Infeasible, match="ends at 2438 mm and 22 kg"):
        hinge_count(2500, 10, table=TABLE)


@given(st.floats(700, 2400), st.integers(2, 5))
def test_hinges_keep_their_ends_and_are_spaced_within_a_step(height, count):
    found = [h.value for h in hinge_heights(_mm(height), count, from_top=_mm(100), from_bottom=_mm(90))]
    assert (found[0], found[-1]) == (100, pytest.approx(height - 90))
    spaces = [b - a for a, b in pairwise(found)]
    assert max(spaces) - min(spaces) <= 1.0


def test_a_low_leaf_has_no_room_for_many():
    with pytest.raises(Infeasible, match="no room for 5 hinges"):
        hinge_heights(_mm(500, "leaf height"), 5, from_top=_mm(100), from_bottom=_mm(100))


def test_holes_lie_where_the_hinge_wants_them():
    left = cup_borings(HINGE, [_mm(100)], _mm(400, "leaf width"), edge="left")
    assert [(b.kind, b.x.value, b.y.value, b.diameter) for b in left] == [
        ("cup", 22.5, 100, 35),
        ("pilot", 32, 77.5, 2.5),
        ("pilot", 32, 122.5, 2.5),
    ]
    right = cup_borings(HINGE, [_mm(100)], _mm(400, "leaf width"), edge="right")
    assert [b.x.value for b in right] == [377.5, 368, 368]
    assert right[0].x.working() == ("from left edge = leaf width 400.0 − cup centre from hinge edge 22.5 = 377.5")
    plates = plate_borings(HINGE, [_mm(103)], _mm(140, "depth"), front="left", further_back=_mm(22, "leaf thickness"))
    assert [(b.x.value, b.y.value) for b in plates] == [(59, 87), (59, 119)]


def test_mass_needs_a_size():
    with pytest.raises(InputError, match="above zero"):
        board_mass(0, 1, 1, density_kg_per_m3=(700, 700))
