"""What gives way where a plinth meets hinge linings and divisions: worked by hand for each way."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.job.files import parse_book, sample_book_text
from rodbook.setout import DimensionName, Frame, PartKind, RakedFrame, Stock, set_out
from rodbook.working import Measure

BOOK = parse_book(sample_book_text())
INSET, PLAIN = "inset, painted", "lay-on without trim, run of cupboards"


def front(name=INSET, leaves=2, *, width=827.0, finish=0.0, rows=(), **changes):
    build_up = BOOK.build_up(name).model_copy(update={"plinth": 100.0, "plinth_set_back": 40.0, **changes})
    stock = Stock(
        BOOK.board(build_up.leaf_board),
        BOOK.board(build_up.lining_board),
        BOOK.section(build_up.trim) if build_up.trim else None,
        BOOK.hinge(build_up.hinge),
        BOOK.hinge_counts,
    )
    frame = Frame(Measure(width, "w"), Measure(2024.0, "h"), leaves, "left", sill=False, floor_finish=finish, rows=rows)
    return set_out(build_up, stock, frame)


def parts(result, kind):
    return [p.part for p in result.parts if p.part.kind is kind for _ in range(p.quantity)]


def drawn(result, kind):
    return [e for e in result.elements if e.kind is kind]


def test_a_hinge_lining_is_notched_for_the_plinth():
    """Set back 40 and 18 thick behind an inset leaf of 22: 40 + 18 - 22 = 36 out of its front, and 15 + 100 up with a floor
    finish of 15 still to come. The board that it is cut from stays 2006 by 80; two faces lose 36 x 115 = 4140 mm2 each:
    2 x (2006 x 80 - 4140 + 2006 x 18 + 80 x 18) = 387 776 mm2.
    """
    result = front(finish=15.0)
    for board in parts(result, PartKind.HINGE_LINING):
        assert (board.length.value, board.width.value) == (2006, 80)
        assert (board.cut_length, board.cut_width, board.face_m2) == (2006, 80, pytest.approx(0.16048))
        assert (board.notch.deep.value, board.notch.high.value) == (36, 115)
        assert board.ends == "front of the foot cut out 36 × 115 mm for the plinth"
        assert board.coated_m2 == pytest.approx(0.387776)
    assert result.dimension(DimensionName.CUT_FOR_PLINTH).working() == (
        "hinge lining cut out for the plinth = plinth set back 40.0 + plinth thickness 18.0 − leaf thickness 22.0 = 36.0"
    )
    (plinth,) = parts(result, PartKind.PLINTH)
    assert plinth.length.value == 791


def test_a_division_is_notched_where_leaves_lie_on():
    """Nothing stands before the lining's front edge: 40 + 18 = 58 out of each of the two boards between four leaves."""
    result = front(PLAIN, 4, width=1800.0)
    boards = parts(result, PartKind.DIVISION)
    assert [(b.notch.deep.value, b.notch.high.value) for b in boards] == [(58, 100), (58, 100)]
    assert [p.length.value for p in parts(result, PartKind.PLINTH)] == [1764]


def test_an_upright_that_would_keep_too_little_stands_on_the_plinth():
    """Of a hinge lining 50 wide 14 would be left behind a notch of 36; 20 is the least: it ends at 100 instead."""
    result = front(hinge_lining_width=50.0)
    boards = parts(result, PartKind.HINGE_LINING)
    assert [(b.length.value, b.notch) for b in boards] == [(1906, None), (1906, None)]
    assert [(e.y, e.height) for e in drawn(result, PartKind.HINGE_LINING)] == [(100, 1906), (100, 1906)]


def test_uprights_stand_on_the_plinth_where_the_build_up_says_so():
    """The division is 100 shorter at its foot: plate holes, set from its top, stay where they are."""
    whole, result = front(PLAIN, 3, width=1400.0, plinth=0.0), front(PLAIN, 3, width=1400.0, at_plinth="stood on")
    (before,), (board,) = parts(whole, PartKind.DIVISION), parts(result, PartKind.DIVISION)
    assert (before.length.value, board.length.value, board.notch) == (2006, 1906, None)
    (stands,) = drawn(result, PartKind.DIVISION)
    assert (stands.y, stands.height) == (100, 1906)
    assert any("put a block as high under its back" in str(remark) for remark in result.remarks)


def test_a_plinth_in_bays_stands_between_the_uprights():
    """Clear 1764 between the legs; leaves of 439.5 with gaps of 3 lap 16 over each leg: they start at 2. The two boards of
    the division stand about the middle of the gap at 900: from 882 to 918. Bays of 882 - 18 and 1782 - 918: 864 each.
    """
    result = front(PLAIN, 4, width=1800.0, at_plinth="bays")
    assert [p.length.value for p in parts(result, PartKind.PLINTH)] == [864, 864]
    assert [(e.x, e.width) for e in drawn(result, PartKind.PLINTH)] == [(18, 864), (918, 864)]
    assert [b.notch for b in parts(result, PartKind.DIVISION)] == [None, None]
    inset = front(at_plinth="bays")
    assert [p.length.value for p in parts(inset, PartKind.PLINTH)] == [755]  # 791 less two hinge linings of 18


def test_a_plinth_that_passes_in_front_meets_nothing():
    """Set back 0 and 18 thick, behind it an inset leaf of 22 and only then the hinge lining."""
    result = front(plinth_set_back=0.0)
    assert [b.notch for b in parts(result, PartKind.HINGE_LINING)] == [None, None]


def test_under_a_slope_too():
    build_up = BOOK.build_up(INSET).model_copy(update={"plinth": 80.0, "plinth_set_back": 40.0})
    stock = Stock(
        BOOK.board("22 mm MDF"), BOOK.board("18 mm MDF"), BOOK.section(build_up.trim), BOOK.hinges[0], BOOK.hinge_counts
    )
    frame = RakedFrame(Measure(636, "w"), Measure(2000, "l"), Measure(1523, "r"), 1, "left", sill=False)
    boards = parts(set_out(build_up, stock, frame), PartKind.HINGE_LINING)
    assert [(b.notch.deep.value, b.notch.high.value) for b in boards] == [(36, 80), (36, 80)]
    assert all("bevelled" in b.ends and "front of the foot cut out" in b.ends for b in boards)
    stood = set_out(build_up.model_copy(update={"at_plinth": "stood on"}), stock, frame)
    for short, board in zip(parts(stood, PartKind.HINGE_LINING), boards, strict=True):
        assert short.length.value == pytest.approx(board.length.value - 80)
        from_top = [round(b.y.value, 6) for b in board.borings]
        assert [round(b.y.value, 6) for b in short.borings] == from_top


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from([INSET, "lay-on within trim, painted", PLAIN]),
    st.integers(1, 4),
    st.sampled_from([60, 80, 100]),
    st.sampled_from([0, 15, 40, 60]),
    st.sampled_from(["notched", "stood on", "bays"]),
)
def test_leaves_are_the_same_whatever_gives_way(name, leaves, plinth, back, way):
    changes = {"plinth": float(plinth), "plinth_set_back": float(back)}
    try:
        result = front(name, leaves, width=480.0 * leaves, at_plinth=way, **changes)
    except Infeasible:
        return
    usual = front(name, leaves, width=480.0 * leaves, **changes)
    assert drawn(result, PartKind.DOOR) == drawn(usual, PartKind.DOOR)
    assert parts(result, PartKind.DOOR) == parts(usual, PartKind.DOOR)
    between = sum(p.length.value for p in parts(result, PartKind.PLINTH))
    assert between <= result.clear_width.value + 1e-9
