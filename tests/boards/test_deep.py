"""Cuts that follow on each other deeper than calls may: no depth of a plan ends a search, a check, a list or a drawing."""

import copy
import json
import pickle
import sys
from decimal import Decimal

import pytest

from rodbook.boards import Piece, Saw, Sheet, Stick, check_sheet_plan, lay_out
from rodbook.boards.asked.task import task_of
from rodbook.boards.bars.patterns import BarKind, all_patterns
from rodbook.boards.cut_tree import Board
from rodbook.boards.filling.fill import Filled
from rodbook.boards.filling.shapes import (
    Cut,
    Leaf,
    Shape,
    counts_of,
    filled_from,
    key_of,
    runs_of,
    shape_of,
    size_of,
    without,
)
from rodbook.boards.filling.tree import board_tree, leaves_of
from rodbook.boards.lengths import cut_lengths
from rodbook.boards.models import Bar
from rodbook.boards.proof.cover import Condition, Offer, cheapest_cover
from rodbook.boards.sheets.refill import shape_from_places
from rodbook.boards.sheets.sequence import cut_list
from rodbook.papers.pictures.cut_places import cut_places
from rodbook.papers.pictures.layout import draw_sheet
from rodbook.plan import as_json

DEEP = 2 * sys.getrecursionlimit()


def spiral(turns: int) -> Shape:
    """Cut a strip off across, then one along, and so on; each piece is one unit thin."""
    shape: Shape = Leaf(0, 1, 1)
    length = width = 1
    for n in range(turns):
        if n % 2:
            shape, length = Cut(0, Leaf(n + 1, 1, width), shape), length + 1
        else:
            shape, width = Cut(1, Leaf(n + 1, length, 1), shape), width + 1
    return shape


def row(number: int) -> Shape:
    """Cut strip after strip off in one direction."""
    shape: Shape = Leaf(0, 1, 5)
    for _ in range(number):
        shape = Cut(0, Leaf(0, 1, 5), shape)
    return shape


def laid(shape: Shape, size: tuple[int, int], kinds: int) -> Filled:
    return filled_from(shape, size, 0, levels=10**6, worth=[1.0] * kinds)


@pytest.mark.parametrize(("shape", "kinds"), [(spiral(DEEP), DEEP + 1), (row(DEEP), 1)])
def test_shapes_of_any_depth_are_read_and_laid_out(shape, kinds):
    size = size_of(shape)
    assert size in {(DEEP // 2 + 1, DEEP // 2 + 1), (DEEP + 1, 5)}
    assert sum(counts_of(shape, kinds)) == DEEP + 1
    assert runs_of(shape) == (DEEP if kinds > 1 else 1)
    filled = laid(shape, size, kinds)
    assert key_of(shape_of(filled)) == key_of(shape)
    assert filled.area == size[0] * size[1]
    assert sum(counts_of(without(shape, [1] * kinds), kinds)) == DEEP + 1 - kinds


def test_places_of_any_depth_are_cut_free():
    filled = laid(spiral(DEEP), (DEEP // 2 + 1, DEEP // 2 + 1), DEEP + 1)
    boxes = [(kind, *filled.nodes[leaf]) for leaf, kind in filled.leaves.items()]
    assert size_of(shape_from_places(boxes)) == (DEEP // 2 + 1, DEEP // 2 + 1)


@pytest.fixture(scope="module")
def deep_plan():
    """A sheet of a thousand turns of the saw: what a search found, laid out by hand."""
    side = DEEP // 2 + 1
    shape = spiral(DEEP)
    filled = filled_from(shape, (100 * side, 100 * side), 0, levels=10**6, worth=[1.0] * (DEEP + 1))
    return filled, side


def test_boards_of_any_depth_are_compared_copied_sent_and_written(deep_plan):
    filled, _ = deep_plan
    names = {leaf: (str(kind), False) for leaf, kind in filled.leaves.items()}
    tree, again = (board_tree(filled, names, kerf=0, trim=0) for _ in range(2))
    assert tree == again
    assert hash(tree) == hash(again)
    assert tree == pickle.loads(pickle.dumps(tree)) == copy.deepcopy(tree)
    assert len(repr(tree)) < 200
    rows = json.loads(json.dumps(as_json(tree)))
    assert len(rows) == len(tree.rows())
    assert sum(row["use"] == "piece" for row in rows) == DEEP + 1 == sum(b.use == "piece" for b in leaves_of(tree))
    assert all(row["out_of"] < n for n, row in enumerate(rows) if n)


def test_boards_put_together_again_are_the_same():
    tree = lay_out(
        [Piece(f"p{n}", 300 + 37 * n, 200 + 23 * n) for n in range(12)], [Sheet("s", 2440, 1220, Decimal(1))]
    )
    for layout in tree.layouts:
        assert Board.of_rows(layout.tree.rows()) == layout.tree


def test_a_job_of_thin_pieces_is_laid_out_checked_listed_and_drawn():
    """Strips 1 mm thin in both directions: every cut list is thousands of cuts long."""
    pieces = [Piece(f"a{n}", 200 - n, 1.0) for n in range(199)] + [Piece(f"b{n}", 1.0, 200 - n) for n in range(199)]
    sheets = [Sheet("s", 210, 210, Decimal(9)), Sheet("t", 30, 210, Decimal(2))]
    saw = Saw(0.0, 0.0)
    plan = lay_out(pieces, sheets, saw, seconds=30, effort=2.0)
    assert plan.unplaced == ()
    assert plan.broken_off == ()
    assert check_sheet_plan(plan, pieces, sheets, saw) == []
    for layout in plan.layouts[:1]:
        cuts = cut_list(layout, saw)
        assert len(cut_places(layout, cuts, saw)) == len(cuts.steps)
        assert draw_sheet(layout, cuts, saw, grain=True)


@pytest.fixture
def shallow():
    """Calls may go only a little deeper than they are, so that what calls itself shows at a small size."""
    before = sys.getrecursionlimit()
    depth, frame = 0, sys._getframe()
    while frame is not None:
        depth, frame = depth + 1, frame.f_back
    sys.setrecursionlimit(depth + 120)
    yield 300
    sys.setrecursionlimit(before)


def test_as_many_sorts_of_sheet_as_there_are_give_a_bound(shallow):
    offers = [Offer(5 + n % 7, 1) for n in range(shallow)]
    worth = tuple(3 + n % 5 for n in range(shallow))
    assert cheapest_cover(offers, [Condition(worth, sum(worth))], 1) == sum(offer.price for offer in offers)


def test_as_many_lengths_as_there_are_have_their_patterns_listed(shallow):
    lengths = list(range(shallow + 10, 10, -1))
    found = all_patterns(BarKind(12, 1, None), lengths, [1] * len(lengths), 10)
    assert found is not None
    assert [[lengths[k] for k, n in enumerate(cuts) if n] for cuts in found] == [[12], [11]]


def test_sticks_of_very_many_lengths_are_cut():
    sticks = [Stick(f"s{x}", float(x)) for x in range(1500, 10, -1)]
    plan = cut_lengths(sticks, [Bar("b", 1500.0, Decimal(1))], kerf=0.0, effort=1.0)
    assert (plan.unplaced, plan.broken_off) == ((), ())


def test_what_kernels_wrote_down_is_read_at_any_depth():
    """A filling of a thousand nested cuts by the values of pieces, as a piece one unit thin asks for."""
    from rodbook.boards.values.dearest import Dearest

    thin = DEEP * 100
    task = task_of([Piece("thin", 1.0, 100.0, DEEP)], [Sheet("s", thin / 100, 100.0, Decimal(1))], Saw(0.0, 0.0))
    dearest = Dearest(task, [DEEP])
    ((_, shape),) = dearest.fillings([1])
    assert counts_of(shape, 1) == (DEEP,)
