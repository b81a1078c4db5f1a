"""The foot of a front: clearance, plinth, and a floor finish still to come."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.setout import Frame, PartKind, RakedFrame, outer_size_wanted, set_out
from rodbook.working import Measure

quiet = settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def _frame(height=2024, leaves=2, *, sill=False, finish=0.0):
    return Frame(
        Measure(827, "lining width"), Measure(height, "lining height"), leaves, "left", sill, floor_finish=finish
    )


def test_a_leaf_clears_a_floor_finish_still_to_come(inset, stock):
    """Clear height 2006, top margin 3, finish 15, clearance 8: leaf 2006 - 15 - 3 - 8 = 1980; 8 are left over the finish."""
    result = set_out(inset, stock(inset), _frame(finish=15.0))
    assert result.leaf_height.value == 1980
    assert result.dimension("gap under the leaf").value == 8
    assert any("A floor finish of 15 mm is still to come" in str(remark) for remark in result.remarks)
    door = next(e for e in result.elements if e.kind is PartKind.DOOR)
    assert door.y == 15 + 8


def test_a_plinth_by_hand(inset, stock):
    """Plinth 100, finish 15: leaf 2006 - 115 - 3 - 8 = 1880; the plinth 791 long and 100 high stands on the finish."""
    low = inset.model_copy(update={"plinth": 100.0, "plinth_set_back": 50.0})
    result = set_out(low, stock(low), _frame(finish=15.0))
    assert result.leaf_height.value == 1880
    (plinth,) = [p.part for p in result.parts if p.part.kind is PartKind.PLINTH]
    assert (plinth.length.value, plinth.width.value, plinth.edges) == (791, 100, ("top",))
    (stands,) = [e for e in result.elements if e.kind is PartKind.PLINTH]
    assert (stands.x, stands.y, stands.height) == (18, 15, 100)
    deep = low.model_copy(update={"plinth_set_back": 130.0})
    with pytest.raises(Infeasible, match="set back 130 mm stands behind a lining 140 mm deep"):
        set_out(deep, stock(deep), _frame())


def test_with_a_sill_there_is_no_plinth(inset, stock):
    low = inset.model_copy(update={"plinth": 100.0})
    assert not [p for p in set_out(low, stock(low), _frame(sill=True)).parts if p.part.kind is PartKind.PLINTH]


def test_under_a_slope_too(inset, stock):
    low = inset.model_copy(update={"plinth": 80.0})
    frame = RakedFrame(
        Measure(636, "w"), Measure(2000, "l"), Measure(1523, "r"), 1, "left", sill=False, floor_finish=10.0
    )
    (leaf,) = set_out(low, stock(low), frame).leaf_sizes
    assert (leaf.left.value, leaf.right.value) == (1950 - 90, 1504.5 - 90)


@quiet
@given(
    st.sampled_from([0, 1, 2]),
    st.floats(1200, 2100).map(round),
    st.integers(1, 4),
    st.floats(0, 150).map(round),
    st.floats(0, 30).map(round),
)
def test_finish_plinth_gap_leaf_and_lap_fill_the_height(book, stock, family, height, leaves, plinth, finish):
    build_up = book.build_ups[family].model_copy(update={"plinth": float(plinth)})
    frame = Frame(
        Measure(450 * leaves, "w"), Measure(height, "h"), leaves, "left", sill=False, floor_finish=float(finish)
    )
    try:
        result = set_out(build_up, stock(build_up), frame)
    except Infeasible:
        return
    door = next(e for e in result.elements if e.kind is PartKind.DOOR)
    under = result.dimension("gap under the leaf").value
    assert door.y == pytest.approx(finish + plinth + under)
    assert build_up.floor_clearance - 1e-9 <= under < build_up.floor_clearance + build_up.step
    over = {0: -3.0, 1: 10.0, 2: 16.0}[family]  # a margin below the head, or a lap over it
    assert door.y + door.height == pytest.approx(height - 18 + over)


@quiet
@given(st.sampled_from([0, 1, 2]), st.floats(700, 1900).map(round), st.floats(0, 150).map(round))
def test_the_wanted_leaf_comes_back_over_a_plinth(book, stock, family, height, plinth):
    build_up = book.build_ups[family].model_copy(update={"plinth": float(plinth)})
    outer = outer_size_wanted(build_up, stock(build_up), leaves=2, sill=False, leaf_mm=(400, height), clear_mm=None)
    result = set_out(build_up, stock(build_up), Frame(*outer, leaves=2, hand="left", sill=False))
    assert (result.leaf_width.value, result.leaf_height.value) == pytest.approx((400, height))
