"""What is coated, edged and cut of a part, worked by hand: rectangles, sloping outlines, cores, blanks, notches."""

from dataclasses import replace

import pytest

from rodbook.job.files import parse_book, sample_book_text
from rodbook.job.kinds import ALL_EDGES, FRONT_EDGE
from rodbook.setout import Notch, Part, PartKind, RakedFrame, ScheduleLine, Stock, set_out
from rodbook.setout.model import outline_area
from rodbook.working import Measure

BOOK = parse_book(sample_book_text())


def mm(value):
    return Measure(float(value), "size")


def part(length, width, thickness, **more):
    return Part(
        PartKind.DOOR, "22 mm MDF", sectional=False, length=mm(length), width=mm(width), thickness=mm(thickness), **more
    )


SLOPING = ((0.0, 0.0), (600.0, 500.0), (600.0, 2000.0), (0.0, 2000.0))
"""600 wide, 2000 high at one side and 1500 at the other."""


def test_a_rectangle_is_coated_on_both_faces_and_four_edges():
    """2000 x 500 x 20: two faces 2.0, two long edges 0.08, two short ones 0.02: 2.1 m2; seen edges 2 x 2.0 + 2 x 0.5 = 5 m."""
    board = part(2000, 500, 20, edges=ALL_EDGES)
    assert board.coated_m2 == pytest.approx(2.1, abs=1e-12)
    assert board.edge_m == pytest.approx(5.0)
    assert board.face_m2 == pytest.approx(1.0)
    assert replace(board, edges=FRONT_EDGE).edge_m == pytest.approx(2.0)
    assert replace(board, edges=("front", "top")).edge_m == pytest.approx(2.5)


def test_a_sloping_leaf_is_coated_on_its_own_outline():
    """Two faces of 600 x (2000 + 1500) / 2 = 1 050 000 mm2 are 2.1 m2. Round it goes 600 + 2000 + 1500 and the slope,
    the root of 600² + 500² = 781.024968 mm: 4881.024968 mm, 22 thick: 0.107382549 m2. Together 2.207382549 m2; all
    edges seen are 4.881024968 m. It is cut from 2000 x 600: 1.2 m2.
    """
    leaf = part(2000, 600, 22, edges=ALL_EDGES, outline=SLOPING)
    assert outline_area(SLOPING) == 1_050_000
    assert leaf.coated_m2 == pytest.approx(2.207382549, abs=1e-9)
    assert leaf.edge_m == pytest.approx(4.881024968, abs=1e-9)
    assert leaf.face_m2 == pytest.approx(1.2)
    mirrored = tuple((600.0 - x, y) for x, y in reversed(SLOPING))
    assert replace(leaf, outline=mirrored).coated_m2 == pytest.approx(2.207382549, abs=1e-9)


def test_a_notch_comes_off_both_faces_and_leaves_the_way_round():
    """2000 x 500 x 20 less 2 x 58 x 100 mm2 = 0.0116 m2: 2.0884 m2."""
    board = replace(part(2000, 500, 20), notch=Notch(mm(58), mm(100)))
    assert board.coated_m2 == pytest.approx(2.0884, abs=1e-12)
    assert board.face_m2 == pytest.approx(1.0)


def _set_out(name="inset, painted", *, sill=False, **changes):
    build_up = BOOK.build_up(name).model_copy(update={"trim_joint": "butted", **changes})
    stock = Stock(
        BOOK.board("22 mm MDF"), BOOK.board("18 mm MDF"), BOOK.section(build_up.trim), BOOK.hinges[0], BOOK.hinge_counts
    )
    return set_out(build_up, stock, RakedFrame(mm(642), mm(2100), mm(1618.5), 1, "left", sill=sill))


def _only(result, kind, hand=""):
    (found,) = [p.part for p in result.parts if p.part.kind is kind and p.part.hand in (hand, "")]
    return found


def test_a_front_under_a_slope_of_three_in_four():
    """Width 642, heights 2100 and 1618.5: a fall of 481.5 over 642 is 3 in 4, a stretch of 5 in 4.

    Leaf: 642 - 36 - 6 = 600 wide, falling 450. Its top line lies (18 + 3) x 1.25 = 26.25 below the outer line; it stands
    from 21 to 621: 2100 - 15.75 - 26.25 - 8 = 2050 and 1600 high. Round it 600 + 2050 + 1600 + 750 = 5000 mm.
    Faces 2 x 600 x 1825 mm2 = 2.19 m2, edges 5.0 x 0.022 = 0.11 m2: 2.3 m2.

    Head between the legs: 606 level is 757.5 along, and 18 x 0.75 = 13.5 more to the long points: 771.
    Trim 58 wide, butted: its head lies over 606 + 12 + 116 = 734 level, 917.5 along and 43.5 more: 961. Its outline leans: two
    faces of 917.5 x 58 mm2, and round it twice 917.5 + 58 x 1.25: 2 x 0.053215 + 1.98 x 0.018 = 0.14207 m2.
    """
    result = _set_out()
    door = _only(result, PartKind.DOOR, "left")
    assert (door.length.value, door.width.value) == (2050, 600)
    assert door.coated_m2 == pytest.approx(2.3, abs=1e-9)
    assert door.edge_m == pytest.approx(5.0, abs=1e-9)
    assert _only(result, PartKind.LINING_HEAD).length.value == pytest.approx(771)
    head = _only(result, PartKind.TRIM_HEAD)
    assert head.length.value == pytest.approx(961)
    assert head.coated_m2 == pytest.approx(0.14207, abs=1e-9)
    low, high = result.leaf_mass.low, result.leaf_mass.high
    volume = 600 * 1825 * 22 * 1e-9
    assert (low, high) == pytest.approx((volume * 690, volume * 760))


def test_uprights_under_that_slope():
    """The left leg's long face is its outer one, 2100; the right one's its inner, 18 nearer: 1618.5 + 13.5 = 1632.
    Hinge linings stand under the head, 22.5 below the outer line plumb: left 2100 - 13.5 - 22.5 = 2064, and right, its inner
    face 36 in, 1618.5 + 27 - 22.5 = 1623.
    Trim legs end at the outer line of the head's sight: set back 6, so 12 x 1.25 = 15 below the outer line: at the left its
    outer edge stands at -46, 2100 + 34.5 - 15 = 2119.5; at the right its inner edge at 630: 2100 - 472.5 - 15 = 1612.5.
    """
    result = _set_out()
    assert _only(result, PartKind.LINING_LEG, "left").length.value == pytest.approx(2100)
    assert _only(result, PartKind.LINING_LEG, "right").length.value == pytest.approx(1632)
    assert _only(result, PartKind.HINGE_LINING, "left").length.value == pytest.approx(2064)
    assert _only(result, PartKind.HINGE_LINING, "right").length.value == pytest.approx(1623)
    assert _only(result, PartKind.TRIM_LEG, "left").length.value == pytest.approx(2119.5)
    assert _only(result, PartKind.TRIM_LEG, "right").length.value == pytest.approx(1612.5)


def test_mitred_trim_under_that_slope():
    """Mitred, the head's own 58 is 72.5 plumb and is added to the legs' outer edges: 2119.5 + 72.5 = 2192 at the left, and at
    the right (outer edge at 688) 2100 - 516 - 15 + 72.5 = 1641.5. The head over 734 level is 917.5 along its outer edge.

    The left leg's inner edge, at 12, is 2100 - 9 - 15 = 2076: two faces of 58 x (2076 + 2192) / 2 = 123 772 mm2, and round it
    58 + 2076 + 2192 and the mitre, the root of 58² + 116² = 129.691943, 18 thick: 0.247544 + 0.080202455 m2. The head's
    inner edge over 618 level is 772.5: two faces of 58 x (772.5 + 917.5) / 2 = 49 010 mm2, and round it both edges and the
    mitres, 129.691943 and the root of 58² + 29² = 64.845971: 0.09802 + 0.033921682 m2.
    """
    result = _set_out(trim_joint="mitred")
    left, head = _only(result, PartKind.TRIM_LEG, "left"), _only(result, PartKind.TRIM_HEAD)
    assert left.length.value == pytest.approx(2192)
    assert _only(result, PartKind.TRIM_LEG, "right").length.value == pytest.approx(1641.5)
    assert head.length.value == pytest.approx(917.5)
    assert left.coated_m2 == pytest.approx(0.327746455, abs=1e-9)
    assert head.coated_m2 == pytest.approx(0.131941682, abs=1e-9)


def test_heads_and_sills_that_are_housed_or_lie_over_their_legs():
    """Housed 6 at each end: 606 + 12 = 618 level, 772.5 along the slope and 13.5 more: 786; the sill is 618. Over the legs: 642
    level, 802.5 and 13.5: 816.
    """
    housed = _set_out(head_joint="housed", housing=6.0, sill=True)
    assert _only(housed, PartKind.LINING_HEAD).length.value == pytest.approx(786)
    assert _only(housed, PartKind.LINING_SILL).length.value == pytest.approx(618)
    assert _only(_set_out(head_joint="over"), PartKind.LINING_HEAD).length.value == pytest.approx(816)


def test_mitred_trim_all_round_under_that_slope():
    """With a sill the sight starts at 18 - 6 = 12, and the legs 58 lower: -46. The left one is 2192 + 46 = 2238 along its outer
    edge and 2076 - 12 = 2064 along its inner one: two faces of 58 x 2151 = 124 758 mm2; round it both, 129.691943 at the head
    and 58 x 1.414214 = 82.024387 at the foot, 18 thick: 0.249516 + 0.081246894 m2.
    """
    left = _only(_set_out(trim_joint="mitred", sill=True), PartKind.TRIM_LEG, "left")
    assert left.length.value == pytest.approx(2238)
    assert left.coated_m2 == pytest.approx(0.330762894, abs=1e-9)


def test_bearings_laps_and_clear_heights_under_that_slope():
    """The trim bears 18 - 6 = 12 on an inset lining, 18 - 10 - 4 = 4 on one that is lapped, 36 - 10 - 4 = 22 with a hinge
    lining. An inset leaf laps the hinge lining 18 - 3 = 15. Clear at the higher side: 2100 - 13.5 - 22.5 = 2064, over a sill
    18 less.
    """
    inset, lay_on = _set_out(), _set_out("lay-on within trim, painted")
    assert inset.dimension("bearing of the trim on the lining").value == pytest.approx(12)
    assert inset.dimension("lap of the leaf over the hinge lining").value == pytest.approx(15)
    assert (inset.clear_height.value, _set_out(sill=True).clear_height.value) == pytest.approx((2064, 2046))
    assert lay_on.dimension("bearing of the trim on the lining").value == pytest.approx(4)
    carried = _set_out("lay-on within trim, painted", hinge_lining=True)
    assert carried.dimension("bearing of the trim on the lining").value == pytest.approx(22)


def test_edging_that_comes_off_a_sloping_leaf():
    """Lipped 4 mm all round: along the slope of 450 over 600 the core's top lies 4 x 1.25 = 5 lower plumb. Its high side, 4 in,
    is 2050 - 3 - 5 - 4 = 2038 high, and it is 592 wide. With 5 mm to machine it is cut 2043 by 597: 1.219671 m2.
    """
    result = _set_out(leaf_edge="lipped", leaf_edge_thickness=4.0, machining=5.0)
    door = _only(result, PartKind.DOOR, "left")
    assert [m.value for m in door.core] == pytest.approx([2038, 592])
    assert (door.cut_length, door.cut_width) == pytest.approx((2043, 597))
    assert door.face_m2 == pytest.approx(1.219671)
    assert door.coated_m2 == pytest.approx(2.3, abs=1e-9)  # what is coated is finished


def test_a_schedule_line_takes_its_parts_times_their_coats():
    """Three sloping leaves of 2.207382549 m2 with two coats: 13.244295 m2 of coats; 14.643075 m of edges."""
    from rodbook.money.costs.lines import quantity

    leaf = part(2000, 600, 22, edges=ALL_EDGES, outline=SLOPING, coats=2)
    line = ScheduleLine("D1", leaf, 3, (("S1", 3),))
    assert float(quantity("coats", [line])) == pytest.approx(13.244295, abs=2e-6)
    assert float(quantity("edges", [line])) == pytest.approx(14.643075, abs=2e-6)
    assert float(quantity("area", [line])) == pytest.approx(3.6)
    cut = replace(line, part=replace(leaf, cut=(mm(2010), mm(610))))
    assert float(quantity("area", [cut])) == pytest.approx(3.6783)
    assert float(quantity("cuts", [cut])) == pytest.approx(15.72)  # 3 x 2 x (2.010 + 0.610)
