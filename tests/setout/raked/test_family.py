"""Fronts under a raked head: one of each worked out by hand, and what must hold for all of them."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible, InputError
from rodbook.setout import DimensionName, Frame, PartKind, RakedFrame, set_out
from rodbook.setout.model import outline_area
from rodbook.setout.raked.leaves import SLOPE_CLEAR_MM
from rodbook.working import Measure

quiet = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def _frame(width, left, right, leaves=1, hand="left", *, sill=False):
    mm = Measure(width, "lining width"), Measure(left, "lining height, left"), Measure(right, "lining height, right")
    return RakedFrame(*mm, leaves, hand, sill)


def _part(result, kind, hand=None):
    (found,) = [p.part for p in result.parts if p.part.kind is kind and hand in (None, p.part.hand)]
    return found


def _cuts(part):
    return {cut.end: (round(cut.degrees.value, 3), cut.through, cut.long_point) for cut in part.cuts}


def test_a_single_under_a_slope_of_three_in_four_by_hand(inset, stock):
    """Lining 636 wide, 2000 left, 1523 right: falls 477 in 636, 750 in a metre; along the slope 1250 to a metre.

    underside    2000 - 18 x 1.25 = 1977.5 at x = 0         leaf line 1977.5 - 3 x 1.25 = 1973.75
    leaf         636 - 36 - 6 = 594; edges at x = 21, 615
                 left  1973.75 - 15.75 - 8 = 1950           right 1973.75 - 461.25 - 8 = 1504.5
    legs         left 2000, long point outside; right at x = 618: 2000 - 463.5 = 1536.5, long point inside
    head         600 x 1.25 + 18 x 0.75 = 763.5
    hinge lining left at x = 18: 1977.5 - 13.5 = 1964; right at x = 600: 1977.5 - 450 = 1527.5
    trim         sight 612 wide from x = 12; line 1977.5 + 6 x 1.25 = 1985; left 1976, right 1985 - 468 = 1517
                 legs 1976 + 58 x (0.75 + 1.25) = 2092; 1517 + 58 x (1.25 - 0.75) = 1546; head (612 + 116) x 1.25 = 910
    angles       slope arctan 0.75 = 36.870; mitres 45 + 18.435 at the high corner, 45 - 18.435 at the low one
    """
    result = set_out(inset, stock(inset), _frame(636, 2000, 1523))
    (leaf,) = result.leaf_sizes
    assert (leaf.width.value, leaf.left.value, leaf.right.value) == (594, 1950, 1504.5)
    door = _part(result, PartKind.DOOR)
    assert door.outline == (
        (0.0, 445.5),
        (594, 0.0),
        (594, 1950),
        (0.0, 1950),
    )  # from the back: the high side at the right
    assert _cuts(door) == {"top": (36.87, "face", "hinge edge")}
    assert _part(result, PartKind.LINING_LEG, "left").length.value == 2000
    assert _cuts(_part(result, PartKind.LINING_LEG, "left")) == {"top": (36.87, "thickness", "outer face")}
    right = _part(result, PartKind.LINING_LEG, "right")
    assert (right.length.value, _cuts(right)["top"][2]) == (1536.5, "inner face")
    head = _part(result, PartKind.LINING_HEAD)
    assert head.length.value == 763.5
    assert _cuts(head) == {"left": (36.87, "thickness", "underside"), "right": (36.87, "thickness", "upper face")}
    assert [_part(result, PartKind.HINGE_LINING, hand).length.value for hand in ("left", "right")] == [1964, 1527.5]
    assert [_part(result, PartKind.TRIM_LEG, hand).length.value for hand in ("left", "right")] == [2092, 1546]
    assert _part(result, PartKind.TRIM_HEAD).length.value == 910
    assert _cuts(_part(result, PartKind.TRIM_HEAD)) == {
        "left": (63.435, "face", "outer edge"),
        "right": (26.565, "face", "outer edge"),
    }
    assert [gap.value for gap in result.gaps if gap.key is DimensionName.GAP_OVER] == pytest.approx([3, 3])
    assert result.leaf_mass.high == pytest.approx((1.95 + 1.5045) / 2 * 0.594 * 0.022 * 760)
    assert any("mitred about 63° from square" in str(remark) for remark in result.remarks)


def test_hinges_are_set_from_the_foot_of_the_side_they_are_on(inset, stock):
    """The same front: 5 hinges (17.2 kg) on the high side at 1850 ... 100 up; on the hinge lining 8 higher."""
    result = set_out(inset, stock(inset), _frame(636, 2000, 1523))
    door, carrier = _part(result, PartKind.DOOR), _part(result, PartKind.HINGE_LINING, "left")
    ups = [door.length.value - b.y.value for b in door.borings if b.kind == "cup"]
    assert ups == [1850, 1412.5, 975, 537.5, 100]
    plates = [carrier.length.value - b.y.value for b in carrier.borings]
    assert plates[:2] == pytest.approx([1858 + 16, 1858 - 16])
    low = set_out(inset, stock(inset), _frame(636, 2000, 1523, hand="right"))
    door = _part(low, PartKind.DOOR)
    assert next(door.length.value - b.y.value for b in door.borings if b.kind == "cup") == 1504.5 - 100
    assert {b.x.value for b in door.borings if b.kind == "cup"} == {22.5}


def test_a_pair_has_two_leaves_of_unlike_height(lay_on, stock):
    """Lining 880 wide, 1800 left, 1140 right (750 in a metre), lay-on: clear 844, leaves (844 + 20 - 4) / 2 = 430.

    line 1800 - 22.5 + 10 x 1.25 = 1790; leaves from x = (880 - 864) / 2 = 8: 8, 438, 442, 872
    heights over 10: 1790 - 6 - 10 = 1774, 1451.5; 1448.5, 1126; butted trim head over legs, ends plumb
    sight 872 from x = 4: line 1790 + 5 = 1795; 1792, 1138; left leg outside 1792 + 52.5, right leg's inside is its longer
    head (872 + 140) x 1.25 + 70 x 0.75 = 1317.5
    """
    result = set_out(lay_on, stock(lay_on), _frame(880, 1800, 1140, 2))
    assert [(s.side, s.left.value, s.right.value) for s in result.leaf_sizes] == [
        ("left", 1774, 1451.5),
        ("right", 1448.5, 1126),
    ]
    legs = [_part(result, PartKind.TRIM_LEG, hand).length.value for hand in ("left", "right")]
    assert legs == [1844.5, 1138]
    assert _part(result, PartKind.TRIM_HEAD).length.value == 1317.5
    assert result.dimension("lap over each leg").value == 10


def test_the_first_hinge_keeps_its_holes_clear_of_a_steep_slope(inset, stock):
    near = inset.model_copy(update={"hinge_from_top": 40.0})
    result = set_out(near, stock(near), _frame(400, 1800, 1140))
    door = _part(result, PartKind.DOOR)
    (_, top_left), (width, top_right) = door.outline[:2]
    slope = (top_right - top_left) / width
    for bore in door.borings:
        square = (bore.y.value - top_left - slope * bore.x.value) / math.hypot(1, slope)
        assert square - bore.diameter / 2 >= SLOPE_CLEAR_MM - 1e-9
    assert any("so that its holes keep clear of the sloping edge" in str(remark) for remark in result.remarks)


@pytest.mark.parametrize(
    ("frame", "sentence"),
    [
        ((636, 2000, 1523, 3), "takes one leaf or a pair, not 3"),
        ((636, 2000, 80), "falls 3019 mm in a metre is taken for a slip"),
        ((636, 552, 75), "less than the least of 60 mm; close that end with a fixed panel"),
        ((230, 2000, 1900, 2), "a leaf would be 92.5 mm wide"),
    ],
)
def test_what_can_not_be_built_is_said(inset, stock, frame, sentence):
    with pytest.raises((Infeasible, InputError), match=sentence):
        set_out(inset, stock(inset), _frame(*frame))


sizes = st.tuples(
    st.floats(420, 1300).map(round), st.floats(700, 2100).map(round), st.floats(700, 2100).map(round)
).filter(lambda s: abs(s[1] - s[2]) < 1.4 * s[0])


def _made(book, stock, size, leaves, hand, sill, lies_on, joint, trim_joint, hinge_lining):
    build_up = book.build_ups[1 if lies_on else 0].model_copy(
        update={
            "head_joint": joint,
            "housing": 6.0 if joint == "housed" else 0.0,
            "trim_joint": trim_joint,
            "hinge_lining": hinge_lining,
        }
    )
    try:
        return build_up, set_out(build_up, stock(build_up), _frame(*size, leaves, hand, sill=sill))
    except Infeasible:
        return build_up, None


ways = (
    sizes,
    st.integers(1, 2),
    st.sampled_from(["left", "right"]),
    st.booleans(),
    st.booleans(),
    st.sampled_from(["between", "over", "housed"]),
    st.sampled_from(["mitred", "butted"]),
    st.booleans(),
)


@quiet
@given(*ways)
def test_parts_margins_and_gaps_add_up_under_the_slope(
    book, stock, size, leaves, hand, sill, lies_on, joint, trim, lined
):
    build_up, result = _made(book, stock, size, leaves, hand, sill, lies_on, joint, trim, lined)
    if result is None:
        return
    width, left, right = size
    slope = (right - left) / width
    stretch = math.hypot(1, slope)
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    ends = doors[0].x + (width - doors[-1].x - doors[-1].width)
    gaps = (leaves - 1) * build_up.meeting_gap
    assert ends + gaps + sum(s.width.value for s in result.leaf_sizes) == pytest.approx(width)
    for door, leaf in zip(doors, result.leaf_sizes, strict=True):
        for x, height in ((door.x, leaf.left.value), (door.x + door.width, leaf.right.value)):
            head = left + slope * x - 18 * stretch  # underside, by hand
            square = (head - door.y - height) / stretch
            wanted = -build_up.lap_top if lies_on else build_up.margin_top
            assert wanted - 1e-6 <= square < wanted + build_up.step / stretch + 1e-6
    for element in result.elements:
        for x, y in element.corners:
            if not element.kind.value.startswith("trim"):
                assert -1e-6 <= x <= width + 1e-6
                assert y <= left + slope * x + 1e-6


@quiet
@given(*ways)
def test_the_other_hand_of_a_mirrored_opening_gives_mirrored_parts(
    book, stock, size, leaves, hand, sill, lies_on, joint, trim, lined
):
    swap = {"left": "right", "right": "left", "": ""}
    width, left, right = size
    _, one = _made(book, stock, size, leaves, hand, sill, lies_on, joint, trim, lined)
    _, other = _made(book, stock, (width, right, left), leaves, swap[hand], sill, lies_on, joint, trim, lined)
    assert (one is None) == (other is None)
    if one is None or left == right:
        return

    def told(result, *, mirror):
        return sorted(
            (
                p.part.kind.value,
                swap[p.part.hand] if mirror else p.part.hand,
                p.quantity,
                str(p.part.length),
                sorted(
                    (b.kind, round(p.part.width.value - b.x.value if mirror else b.x.value, 3), round(b.y.value, 3))
                    for b in p.part.borings
                ),
                sorted(
                    (swap.get(c.end, c.end) if mirror else c.end, round(c.degrees.value, 6), c.long_point)
                    for c in p.part.cuts
                ),
                round(outline_area(p.part.outline), 2) if p.part.outline else 0,
            )
            for p in result.parts
        )

    assert told(one, mirror=True) == told(other, mirror=False)


@quiet
@given(*ways)
def test_cup_and_plate_meet_and_outlines_lie_in_their_rectangles(
    book, stock, size, leaves, hand, sill, lies_on, joint, trim, lined
):
    _, result = _made(book, stock, size, leaves, hand, sill, lies_on, joint, trim, lined)
    if result is None:
        return
    feet = {PartKind.LINING_LEG: 0.0, PartKind.HINGE_LINING: 18.0 if sill else 0.0}
    doors = [e for e in result.elements if e.kind is PartKind.DOOR]
    for placed in result.parts:
        part = placed.part
        for x, y in part.outline:
            assert -1e-6 <= x <= part.width.value + 1e-6
            assert -1e-6 <= y <= part.length.value + 1e-6
        for bore in part.borings:
            assert bore.diameter / 2 <= bore.y.value <= part.length.value - bore.diameter / 2
        plates = sorted(part.length.value - b.y.value for b in part.borings if b.kind == "plate")
        if plates:
            door = doors[0] if part.hand == "left" else doors[-1]
            centres = [(a + b) / 2 + feet[part.kind] for a, b in zip(plates[::2], plates[1::2], strict=True)]
            assert centres == pytest.approx(sorted(door.hinge_ys))
    for door, leaf in zip(doors, result.leaf_sizes, strict=True):
        cups = [
            p.part.length.value - b.y.value + door.y
            for p in result.parts
            if p.part.kind is PartKind.DOOR and p.part.hand == leaf.side
            for b in p.part.borings
            if b.kind == "cup"
        ]
        assert cups == pytest.approx(list(door.hinge_ys))


@quiet
@given(sizes, st.integers(1, 2), st.booleans(), st.booleans(), st.sampled_from(["mitred", "butted"]))
def test_without_a_fall_it_is_the_level_front(book, stock, size, leaves, sill, lies_on, trim):
    width, height, _ = size
    build_up = book.build_ups[1 if lies_on else 0].model_copy(update={"trim_joint": trim})
    level = Frame(Measure(width, "lining width"), Measure(height, "lining height"), leaves, "left", sill)
    try:
        one = set_out(build_up, stock(build_up), level)
        other = set_out(build_up, stock(build_up), _frame(width, height, height, leaves, sill=sill))
    except Infeasible:
        return

    def told(result):
        found = {}
        for placed in result.parts:
            key = (placed.part.kind, round(placed.part.length.value, 3), placed.part.width.value)
            found[key] = found.get(key, 0) + placed.quantity
        return found

    assert told(one) == told(other)
