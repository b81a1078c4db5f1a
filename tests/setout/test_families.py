"""Whole set-outs: one of each build-up worked out by hand, and what must hold for all of them."""

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.setout import Frame, PartKind, outer_size_wanted, set_out
from rodbook.working import Measure


def _frame(width, height, leaves, hand="left", *, sill=False):
    return Frame(Measure(width, "lining width"), Measure(height, "lining height"), leaves, hand, sill)


def _one(result, kind, hand=None):
    (placed,) = [p for p in result.parts if p.part.kind is kind and hand in (None, p.part.hand)]
    return placed


def _ys(part, kind):
    return [b.y.value for b in part.borings if b.kind == kind]


def test_inset_pair_by_hand(inset, stock):
    """Lining 827 x 2024, as on paper.

    clear        827 - 2 x 18 = 791          2024 - 18 = 2006
    leaf         (791 - 2 x 3 - 3) / 2 = 391 2006 - 3 - 8 = 1995
    mass         1.995 x 0.391 x 0.022 x 760 = 13.04 kg; 4 hinges by height (to 2032) and by mass (to 15)
    hinges       100, 100 + 1795/3 = 698.33 -> 698, 1296.67 -> 1296.5, 1895
    cup          35/2 + 5 = 22.5 from the hinge edge
    hinge lining 2006 x 80; hinges 3 lower than on the leaf: 103, 701, 1299.5, 1898; holes 16 above and below
    legs         2006 + 18 = 2024; head 791; lap over the hinge lining 18 - 3 = 15
    trim         sight 791 + 2 x 6 = 803 by 2006 + 6 = 2012; legs + 58 = 2070; head 803 + 2 x 58 = 919
    """
    result = set_out(inset, stock(inset), _frame(827, 2024, 2))
    assert (result.clear_width.value, result.clear_height.value) == (791, 2006)
    assert (result.leaf_width.value, result.leaf_height.value) == (391, 1995)
    assert result.leaf_width.working() == (
        "leaf width = (clear width 791.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 391.0"
    )
    assert result.leaf_mass.high == pytest.approx(13.042, abs=0.001)
    assert result.hinges == 4
    left, right = _one(result, PartKind.DOOR, "left").part, _one(result, PartKind.DOOR, "right").part
    assert _ys(left, "cup") == [100, 698, 1296.5, 1895]
    assert {b.x.value for b in right.borings if b.kind == "cup"} == {22.5}  # seen from the back: hinge edge on the left
    assert {b.x.value for b in left.borings if b.kind == "cup"} == {391 - 22.5}
    assert _ys(left, "pilot")[:2] == [77.5, 122.5]
    hung = _one(result, PartKind.HINGE_LINING, "left").part
    assert (hung.length.value, hung.width.value) == (2006, 80)
    assert _ys(hung, "plate") == [87, 119, 685, 717, 1283.5, 1315.5, 1882, 1914]
    assert {b.x.value for b in hung.borings} == {37}  # seen from inside, a left-hand part has its front on the left
    assert {b.x.value for b in _one(result, PartKind.HINGE_LINING, "right").part.borings} == {80 - 37}
    legs, head = _one(result, PartKind.LINING_LEG), _one(result, PartKind.LINING_HEAD)
    assert (legs.part.length.value, legs.part.width.value, legs.quantity, head.part.length.value) == (2024, 140, 2, 791)
    assert result.dimension("lap of the leaf over the hinge lining").value == 15
    assert _one(result, PartKind.TRIM_LEG, "left").part.length.value == 2070
    assert _one(result, PartKind.TRIM_HEAD).part.length.value == 919


def test_lay_on_pair_by_hand(lay_on, stock):
    """Two leaves of 447 x 2100 wanted, as on paper.

    clear   2 x 447 - 2 x 10 + 4 = 878       2100 - 10 + 10 = 2100
    lining  878 + 2 x 18 = 914               2100 + 18 = 2118
    mass    2.1 x 0.447 x 0.022 x 760 = 15.69 kg, over 15: 5 hinges
    hinges  100, 575, 1050, 1525, 2000; on the leg 10 higher under the head, 18 lower from the leg's top: 108, 583 ...
    trim    sight 2 x 447 + 4 + 2 x 4 = 906 by 2100 + 10 + 4 = 2114; butted legs 2114, head 906 + 2 x 70 = 1046
    bearing 18 - 10 - 4 = 4
    """
    wanted = outer_size_wanted(lay_on, stock(lay_on), leaves=2, sill=False, leaf_mm=(447, 2100), clear_mm=None)
    assert [m.value for m in wanted] == [914, 2118]
    result = set_out(lay_on, stock(lay_on), Frame(*wanted, leaves=2, hand="left", sill=False))
    assert (result.clear_width.value, result.leaf_width.value, result.leaf_height.value) == (878, 447, 2100)
    assert result.leaf_mass.high == pytest.approx(15.695, abs=0.001)
    left = _one(result, PartKind.DOOR, "left").part
    assert _ys(left, "cup") == [100, 575, 1050, 1525, 2000]
    leg = _one(result, PartKind.LINING_LEG, "left").part
    assert (leg.length.value, leg.width.value) == (2118, 120)
    assert _ys(leg, "plate")[:4] == [108 - 16, 108 + 16, 583 - 16, 583 + 16]
    assert {b.x.value for b in leg.borings} == {37}
    assert result.dimension("trim sight width").value == 906
    assert _one(result, PartKind.TRIM_LEG).part.length.value == 2114
    assert _one(result, PartKind.TRIM_HEAD).part.length.value == 1046
    assert result.dimension("bearing of the trim on the lining").value == 4


def test_the_middle_one_of_three_hangs_on_a_division(lay_on, stock):
    result = set_out(lay_on, stock(lay_on), _frame(1361, 2118, 3, "right"))
    division = _one(result, PartKind.DIVISION).part
    assert division.hand == "right"
    assert {b.x.value for b in division.borings} == {120 - 37}
    assert [p.quantity for p in result.parts if p.part.kind is PartKind.DOOR] == [1, 2]
    assert result.dimension("lap of the leaf over the division").value == (18 - 4) / 2


def test_a_sill_closes_the_lining_and_the_trim_goes_all_round(lay_on, stock):
    # By hand: clear height 1486 - 2 x 18 = 1450; leaf 1450 + 10 + 10 = 1470; sight 1470 + 2 x 4.
    result = set_out(lay_on, stock(lay_on), _frame(916, 1486, 2, sill=True))
    assert (result.clear_height.value, result.leaf_height.value) == (1450, 1470)
    assert _one(result, PartKind.LINING_SILL).part.length.value == 880
    assert _one(result, PartKind.TRIM_HEAD).quantity == 2
    assert result.dimension("trim sight height").value == 1478


@pytest.mark.parametrize(
    ("joint", "housing", "head", "leg"), [("between", 0, 791, 2024), ("over", 0, 827, 2006), ("housed", 6, 803, 2024)]
)
def test_the_joint_at_the_head(inset, stock, joint, housing, head, leg):
    changed = inset.model_copy(update={"head_joint": joint, "housing": housing})
    result = set_out(changed, stock(changed), _frame(827, 2024, 2))
    assert _one(result, PartKind.LINING_HEAD).part.length.value == head
    assert {p.part.length.value for p in result.parts if p.part.kind is PartKind.LINING_LEG} == {leg}


def test_housed_legs_say_what_they_are_housed_for(inset, stock):
    changed = inset.model_copy(update={"head_joint": "housed", "housing": 6})
    for sill, words in ((False, "housed 6 mm for the head"), (True, "housed 6 mm for the head and the sill")):
        result = set_out(changed, stock(changed), _frame(827, 2024, 2, sill=sill))
        assert {p.part.ends for p in result.parts if p.part.kind is PartKind.LINING_LEG} == {words}


def test_without_hinge_linings_the_legs_carry_the_plates_further_back(inset, stock):
    changed = inset.model_copy(update={"hinge_lining": False})
    result = set_out(changed, stock(changed), _frame(509, 2024, 1, "left"))
    left = _one(result, PartKind.LINING_LEG, "left").part
    assert {b.x.value for b in left.borings} == {37 + 22}
    assert _ys(left, "plate")[0] == 100 + 3 + 18 - 16
    assert _one(result, PartKind.LINING_LEG, "right").part.borings == ()


def test_a_thin_leaf_is_warned_of_and_a_cup_right_through_is_refused(inset, stock, book):
    thin = inset.model_copy(update={"leaf_board": "18 mm MDF"})
    (remark,) = set_out(thin, stock(thin), _frame(827, 2024, 2)).remarks
    assert str(remark).startswith("Only 5 mm are left under the cup")
    deep = stock(inset)
    deep = type(deep)(
        deep.leaf, deep.lining, deep.trim, deep.hinge.model_copy(update={"cup_depth": 22}), deep.hinge_counts
    )
    with pytest.raises(Infeasible, match="goes right through a leaf of 22 mm"):
        set_out(inset, deep, _frame(827, 2024, 2))


@pytest.mark.parametrize(
    ("width", "height", "sentence"),
    [
        (40, 2024, "too little for 2 leaves"),
        (280, 2024, "a leaf would be 117.5 mm wide"),
        (827, 250, "no room for"),
        (827, 2600, "beyond the book's hinge table"),
    ],
)
def test_what_can_not_be_built_is_said(inset, stock, width, height, sentence):
    with pytest.raises(Infeasible, match=sentence):
        set_out(inset, stock(inset), _frame(width, height, 2))


sizes = st.tuples(st.floats(500, 1600).map(lambda v: round(v * 10) / 10), st.floats(700, 2150).map(round))
quiet = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@quiet
@given(sizes, st.integers(1, 3), st.booleans(), st.booleans())
def test_parts_margins_and_gaps_add_up_to_the_lining(book, stock, size, leaves, sill, lies_on):
    build_up = book.build_ups[1 if lies_on else 0]
    try:
        result = set_out(build_up, stock(build_up), _frame(*size, leaves, sill=sill))
    except Infeasible:
        return
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    for one, other in pairwise(doors):
        assert other.x - (one.x + one.width) == pytest.approx(build_up.meeting_gap)
    assert doors[0].x == pytest.approx(size[0] - doors[-1].x - doors[-1].width)  # even at both sides
    assert all(door.width == pytest.approx(result.leaf_width.value) for door in doors)
    step = build_up.step
    assert result.leaf_width.value / step == pytest.approx(round(result.leaf_width.value / step))
    if lies_on:
        legs = [e for e in result.elements if e.kind is PartKind.TRIM_LEG]
        assert doors[0].x - (legs[0].x + legs[0].width) == pytest.approx(build_up.margin)
        assert result.dimension("lap over each leg").value <= build_up.lap + 1e-9
    else:
        margin = result.dimension("margin at each side").value
        assert build_up.margin - 1e-9 <= margin < build_up.margin + leaves * step
        assert 2 * 18 + 2 * margin + leaves * result.leaf_width.value + (leaves - 1) * 3 == pytest.approx(size[0])
    under = result.dimension("gap under the leaf").value
    least = build_up.floor_clearance if not sill else (build_up.margin if lies_on else build_up.margin_bottom)
    assert under >= least - 1e-9
    for element in result.elements:
        if not element.kind.value.startswith("trim"):
            assert element.x >= -1e-9
            assert element.x + element.width <= size[0] + 1e-9


@quiet
@given(sizes, st.sampled_from([1, 3]), st.booleans(), st.booleans())
def test_a_mirrored_opening_gives_mirrored_borings(book, stock, size, leaves, lies_on, hinge_lining):
    build_up = book.build_ups[1 if lies_on else 0].model_copy(update={"hinge_lining": hinge_lining and not lies_on})
    try:
        one, other = (set_out(build_up, stock(build_up), _frame(*size, leaves, hand)) for hand in ("left", "right"))
    except Infeasible:
        return
    swap = {"left": "right", "right": "left", "": ""}

    def holes(result, *, mirror):
        return sorted(
            (
                p.part.kind.value,
                swap[p.part.hand] if mirror else p.part.hand,
                p.quantity,
                b.kind,
                round(p.part.width.value - b.x.value if mirror else b.x.value, 6),
                round(b.y.value, 6),
            )
            for p in result.parts
            for b in p.part.borings
        )

    assert holes(one, mirror=True) == holes(other, mirror=False)


@quiet
@given(sizes, st.integers(1, 3), st.booleans(), st.booleans())
def test_cup_and_plate_meet_at_one_height(book, stock, size, leaves, sill, lies_on):
    """From the drawing's side: each cup's height above the floor is that of the middle between a pair of plate holes."""
    build_up = book.build_ups[1 if lies_on else 0]
    try:
        result = set_out(build_up, stock(build_up), _frame(*size, leaves, sill=sill))
    except Infeasible:
        return
    (top,) = {e.y + e.height for e in result.elements if e.kind is PartKind.DOOR}
    cups = sorted({round(top - y, 6) for p in result.parts for y in _ys(p.part, "cup")})
    for placed in result.parts:
        plates = sorted(_ys(placed.part, "plate"))
        if not plates:
            continue
        ends = {PartKind.LINING_LEG: size[1], PartKind.HINGE_LINING: size[1] - 18, PartKind.DIVISION: size[1] - 18}
        centres = [(a + b) / 2 for a, b in zip(plates[::2], plates[1::2], strict=True)]
        assert sorted(round(ends[placed.part.kind] - y, 6) for y in centres) == pytest.approx(cups)


@quiet
@given(st.floats(200, 600).map(round), st.floats(700, 2100).map(round), st.integers(1, 3), st.booleans(), st.booleans())
def test_the_wanted_leaf_comes_back(book, stock, width, height, leaves, sill, lies_on):
    build_up = book.build_ups[1 if lies_on else 0]
    outer = outer_size_wanted(
        build_up, stock(build_up), leaves=leaves, sill=sill, leaf_mm=(width, height), clear_mm=None
    )
    try:
        result = set_out(build_up, stock(build_up), Frame(*outer, leaves=leaves, hand="left", sill=sill))
    except Infeasible:
        return
    assert (result.leaf_width.value, result.leaf_height.value) == pytest.approx((width, height))
