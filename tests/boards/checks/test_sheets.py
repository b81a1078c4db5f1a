"""The checker on layouts broken by hand, each in one way."""

from dataclasses import replace
from decimal import Decimal

import pytest

from rodbook.boards import (
    Board,
    Layout,
    Offcut,
    Piece,
    Placed,
    Saw,
    Sheet,
    SheetPlan,
    Unplaced,
    check_sheet_plan,
)

# The sheet is 1000 × 500 with 10 mm of trim: 980 × 480 from (10, 10). The kerf is 4 mm.
# Cut across: a (300 × 480) at x = 10, then a board from x = 314 to 990: 676 × 480.
# That is cut along: b (676 × 200) at y = 10, then an offcut from y = 214 to 490: 676 × 276.
SAW = Saw(kerf=4, edge_trim=10)
SHEETS = [Sheet("board", 1000, 500, Decimal("20.00"), quantity=5)]
PIECES = [Piece("a", 300, 480, 2), Piece("b", 676, 200, 2, may_turn=True)]
PLACED = (Placed("a", 10, 10, 300, 480), Placed("b", 314, 10, 676, 200))
OFFCUT = Offcut(314, 214, 676, 276)
PART = Board(
    "cut",
    314,
    10,
    676,
    480,
    cut="along",
    parts=(Board("piece", 314, 10, 676, 200, name="b"), Board("offcut", 314, 214, 676, 276)),
)
TREE = Board("cut", 10, 10, 980, 480, cut="across", parts=(Board("piece", 10, 10, 300, 480, name="a"), PART))
LAYOUT = Layout("board", 1000, 500, Decimal("20.00"), 2, PLACED, TREE, (OFFCUT,), OFFCUT)
PLAN = SheetPlan((LAYOUT,), Decimal("40.00"), Decimal("40.00"), proven=True, unplaced=(), tries=1, ended="bound")


def faults(plan=PLAN, *, pieces=PIECES, sheets=SHEETS, saw=SAW, **layout):
    if layout:
        plan = replace(plan, layouts=(replace(LAYOUT, **layout),))
    return check_sheet_plan(plan, pieces, sheets, saw)


def test_a_sound_plan_has_no_fault():
    assert faults() == []


def moved(**change):
    """Move or resize b alone, in the list and in the tree, and leave everything else where it is."""
    b = replace(PLACED[1], **change)
    leaf = Board("piece", b.x, b.y, b.length, b.width, name=b.name, turned=b.turned)
    part = replace(PART, parts=(leaf, PART.parts[1]))
    return {"placed": (PLACED[0], b), "tree": replace(TREE, parts=(TREE.parts[0], part))}


@pytest.mark.parametrize("x", [200, 313.99])
def test_overlap_and_missing_kerf_are_caught(x):
    # a ends at 310 and takes a kerf of 4: b may start at 314 and no sooner
    found = faults(**moved(x=x))
    assert any("overlap or have no kerf between them" in fault for fault in found)


def test_off_the_trimmed_sheet_is_caught():
    # at x = 314.01 it ends at 990.01, and the trimmed sheet ends at 990
    found = faults(**moved(x=314.01))
    assert "layout 1 (board): 'b' at 314.01, 10 lies outside the trimmed sheet" in found


def test_off_the_trimmed_sheet_is_caught_on_the_raw_edge():
    found = faults(**moved(y=9.0))
    assert any("lies outside the trimmed sheet" in fault for fault in found)


def test_a_piece_turned_that_may_not_be_is_caught():
    pieces = [PIECES[0], replace(PIECES[1], length=200, width=676, may_turn=False)]
    found = faults(pieces=pieces, **moved(turned=True))
    assert "layout 1 (board): 'b' is turned and may not be" in found
    assert faults(pieces=[pieces[0], replace(pieces[1], may_turn=True)], **moved(turned=True)) == []


def test_a_piece_lying_the_wrong_way_without_saying_so_is_caught():
    pieces = [PIECES[0], replace(PIECES[1], length=200, width=676)]
    assert any("was asked for" in fault for fault in faults(pieces=pieces))


def test_more_turned_than_may_be_is_caught():
    # two of b may turn and two may not; all four lie turned
    b = Piece("b", 200, 676, 2, may_turn=True)
    pieces = [Piece("a", 300, 480, 4), b, replace(b, may_turn=False)]
    plan = replace(PLAN, cost=Decimal(80), bound=Decimal(80), layouts=(replace(LAYOUT, count=4, **moved(turned=True)),))
    assert check_sheet_plan(plan, pieces, SHEETS, SAW) == ["4 of 'b' are turned and 2 may be"]


def test_a_piece_of_the_wrong_size_is_caught():
    assert any("was asked for" in fault for fault in faults(**moved(width=199)))


@pytest.mark.parametrize(
    ("pieces", "sentence"),
    [
        ([Piece("a", 300, 480, 1), PIECES[1]], "2 of 'a' are placed and 1 wanted"),
        ([Piece("a", 300, 480, 3), PIECES[1]], "2 of 'a' are placed or left out and 3 were asked for"),
        ([*PIECES, Piece("c", 50, 50)], "0 of 'c' are placed or left out and 1 were asked for"),
    ],
)
def test_wrong_counts_are_caught(pieces, sentence):
    assert sentence in faults(pieces=pieces)


def test_what_is_left_out_counts():
    pieces = [Piece("a", 300, 480, 3), PIECES[1]]
    plan = replace(PLAN, unplaced=(Unplaced("a", 1, "It would not go."),))
    assert check_sheet_plan(plan, pieces, SHEETS, SAW) == []
    plan = replace(PLAN, unplaced=(Unplaced("a", 1, ""),))
    assert check_sheet_plan(plan, pieces, SHEETS, SAW) == ["'a' is left out without number or reason"]


def test_more_sheets_than_there_are_is_caught():
    assert faults(sheets=[replace(SHEETS[0], quantity=1)]) == ["2 of sheet 'board' are used and there are 1"]


def test_an_unknown_sheet_is_caught():
    assert "layout 1 (plank): there is no such sheet" in faults(sheet="plank")


def test_another_size_or_price_of_sheet_is_caught():
    found = faults(sheets=[Sheet("board", 1001, 500, Decimal("20.50"))])
    assert "layout 1 (board): the sheet is 1001 × 500, not 1000 × 500" in found
    assert "layout 1 (board): the sheet costs 20.50, not 20.00" in found


@pytest.mark.parametrize("count", [0, -1])
def test_no_sheets_is_caught(count):
    assert f"layout 1 (board): {count} sheets cannot be cut" in faults(count=count)


def test_a_wrong_cost_is_caught():
    assert faults(replace(PLAN, cost=Decimal("40.01"), proven=False)) == ["the sheets used cost 40.00, not 40.01"]


def test_a_bound_above_the_cost_and_a_false_proof_are_caught():
    assert "the bound 41 is above the cost 40.00" in faults(replace(PLAN, bound=Decimal(41)))
    assert faults(replace(PLAN, bound=Decimal(39))) == ["proof is claimed with the bound below the cost"]
    assert faults(replace(PLAN, bound=Decimal(39), proven=False)) == []


def test_too_many_turns_are_caught():
    assert faults(saw=replace(SAW, max_turns=1)) == []
    found = faults(saw=replace(SAW, max_turns=0))
    assert found == ["layout 1 (board): the cutting direction changes 1 times and may 0 times"]


def test_two_runs_of_cuts_one_way_are_no_turn():
    # the same cuts across, nested: a, then the rest of which nothing is cut further but across
    inner = Board("cut", 314, 10, 676, 480, cut="across", parts=(Board("piece", 314, 10, 676, 480, name="c"),))
    tree = replace(TREE, parts=(TREE.parts[0], inner))
    found = check_sheet_plan(replace(PLAN, layouts=(replace(LAYOUT, tree=tree),)), PIECES, SHEETS, Saw(4, 10, 0))
    assert not any("changes" in fault for fault in found)
    assert any("is said to be cut and is not" in fault for fault in found)


def test_a_tree_that_yields_other_pieces_is_caught():
    tree = replace(TREE, parts=(replace(TREE.parts[0], name="x"), PART))
    assert faults(tree=tree) == ["layout 1 (board): the cuts do not yield the pieces shown"]


def test_a_tree_that_leaves_other_offcuts_is_caught():
    assert "layout 1 (board): the cuts do not leave the offcuts shown" in faults(offcuts=(), largest_offcut=None)


def test_a_tree_of_another_board_is_caught():
    assert "layout 1 (board): the cuts do not start from the trimmed sheet" in faults(tree=replace(TREE, x=9.0))


def test_a_cut_that_takes_less_than_the_kerf_is_caught():
    thin = replace(PART.parts[1], y=213.0, width=277.0)
    tree = replace(TREE, parts=(TREE.parts[0], replace(PART, parts=(PART.parts[0], thin))))
    offcut = Offcut(314, 213, 676, 277)
    found = faults(tree=tree, offcuts=(offcut,), largest_offcut=offcut)
    assert [fault.split(" has ")[-1] for fault in found] == ["parts that are not one kerf apart"]


def test_a_rest_that_goes_missing_is_caught():
    tree = replace(TREE, parts=(TREE.parts[0], replace(PART, parts=PART.parts[:1])))
    found = faults(tree=tree, offcuts=(), largest_offcut=None)
    assert found == ["layout 1 (board): the board of 676 × 480 at 314, 10 is not used up by its parts"]


def test_a_rest_no_wider_than_the_kerf_may_go_missing():
    # b is 477 wide: 3 mm are left of the 480, and the blade takes them
    pieces = [PIECES[0], Piece("b", 676, 477, 2)]
    change = moved(width=477)
    change["tree"] = replace(TREE, parts=(TREE.parts[0], replace(PART, parts=change["tree"].parts[1].parts[:1])))
    assert faults(pieces=pieces, offcuts=(), largest_offcut=None, **change) == []


def test_a_largest_offcut_that_is_none_is_caught():
    named = "layout 1 (board): the offcut named largest is not the largest usable one"
    assert faults(largest_offcut=Offcut(0, 0, 900, 400)) == [named]
    assert faults(largest_offcut=None) == ["layout 1 (board): it has a usable offcut and none is named largest"]


def test_a_pinwheel_is_caught():
    """Four pieces around a fifth lie apart and inside, but no straight cut goes from edge to edge.

    Kerf 0, no trim, sheet 300 × 300: 200 × 100 at (0, 0), 100 × 200 at (200, 0), 200 × 100 at (100, 200),
    100 × 200 at (0, 100), and 100 × 100 in the middle.
    """
    boxes = [(0, 0, 200, 100), (200, 0, 100, 200), (100, 200, 200, 100), (0, 100, 100, 200), (100, 100, 100, 100)]
    placed = tuple(Placed(f"p{n}", *box) for n, box in enumerate(boxes))
    pieces = [Piece(p.name, p.length, p.width) for p in placed]
    leaves = tuple(Board("piece", *box, name=f"p{n}") for n, box in enumerate(boxes))
    tree = Board("cut", 0, 0, 300, 300, cut="across", parts=leaves)
    layout = Layout("square", 300, 300, Decimal(1), 1, placed, tree, (), None)
    plan = SheetPlan((layout,), Decimal(1), Decimal(1), proven=True, unplaced=(), tries=1, ended="bound")
    found = check_sheet_plan(plan, pieces, [Sheet("square", 300, 300, Decimal(1))], Saw(0, 0))
    assert any("has a part that no cut from edge to edge can yield" in fault for fault in found)
    assert not any("overlap" in fault or "outside" in fault for fault in found)


def test_a_piece_cut_further_and_a_cut_of_no_direction_are_caught():
    leaf = replace(TREE.parts[0], parts=(Board("offcut", 10, 10, 300, 480),))
    assert "layout 1 (board): a piece is cut further" in faults(tree=replace(TREE, parts=(leaf, PART)))
    assert any("neither along nor across" in fault for fault in faults(tree=replace(TREE, cut=None)))
