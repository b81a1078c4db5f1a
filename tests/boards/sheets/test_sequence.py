"""The cut list of a layout worked by hand, and of random ones by doing what it says."""

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Board, Layout, Offcut, Piece, Placed, Saw, Sheet, cut_list, lay_out
from rodbook.boards.models import hundredths

# The layout of test_checker: sheet 1000 × 500, trim 10, kerf 4; a (300 × 480), b (676 × 200) and an offcut above it.
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
LAYOUT = Layout(
    "board",
    1000,
    500,
    Decimal(20),
    3,
    (Placed("a", 10, 10, 300, 480), Placed("b", 314, 10, 676, 200)),
    TREE,
    (Offcut(314, 214, 676, 276),),
    None,
)


def short(steps):
    return [(s.number, s.direction, s.board, s.reference, s.fence, s.length, s.yields, s.use, s.leaves) for s in steps]


def test_the_cuts_in_order():
    cuts = cut_list(LAYOUT, Saw(4, 10))
    assert short(cuts.steps) == [
        (1, "along", "sheet", "raw edge", 490, 1000, "sheet", "trim", "sheet"),
        (2, "along", "sheet", "cut edge", 480, 1000, "sheet", "trim", "sheet"),
        (3, "across", "sheet", "raw edge", 990, 480, "sheet", "trim", "sheet"),
        (4, "across", "sheet", "cut edge", 980, 480, "sheet", "trim", "sheet"),
        (5, "across", "sheet", "cut edge", 300, 480, "a", "piece", "2"),
        (6, "along", "2", "cut edge", 200, 676, "b", "piece", "2.2"),
    ]
    # 1000 + 1000 + 480 + 480 + 480 + 676 = 4116 mm
    assert cuts.metres == 4.116
    # four trimmed edges, the sheet once more and the part once
    assert cuts.handlings == 6
    assert (cuts.sheet, cuts.count) == ("board", 3)


def test_without_trim_there_are_no_trim_cuts():
    (only,) = lay_out([Piece("p", 400, 500)], [Sheet("s", 1000, 500, Decimal(1))], Saw(4, 0)).layouts
    cuts = cut_list(only, Saw(4, 0))
    assert short(cuts.steps) == [(1, "across", "sheet", "cut edge", 400, 500, "p", "piece", "2")]
    assert cuts.handlings == 1


def test_a_piece_as_large_as_the_sheet_needs_none():
    (only,) = lay_out([Piece("p", 1000, 500)], [Sheet("s", 1000, 500, Decimal(1))], Saw(4, 0)).layouts
    cuts = cut_list(only, Saw(4, 0))
    assert (cuts.steps, cuts.metres, cuts.handlings) == ((), 0, 0)


def test_a_rest_within_the_kerf_takes_a_cut_and_leaves_nothing():
    (only,) = lay_out([Piece("p", 998, 500)], [Sheet("s", 1000, 500, Decimal(1))], Saw(4, 0)).layouts
    assert short(cut_list(only, Saw(4, 0)).steps) == [(1, "across", "sheet", "cut edge", 998, 500, "p", "piece", "")]


def saw_up(layout, saw):
    """Do what the cut list says with boards of paper; give the sizes of the pieces that come off, by name."""
    kerf = hundredths(saw.kerf)
    size = {"sheet": [hundredths(layout.length), hundredths(layout.width)]}
    names = {placed.name for placed in layout.placed}
    pieces = []
    for step in cut_list(layout, saw).steps:
        axis = 0 if step.direction == "across" else 1
        board, fence = size[step.board], hundredths(step.fence)
        assert hundredths(step.length) == board[1 - axis]
        assert fence <= board[axis]
        if step.use == "trim":
            board[axis] = fence
            continue
        off = board.copy()
        off[axis] = fence
        board[axis] = max(0, board[axis] - fence - kerf)
        if step.use == "piece":
            pieces.append((step.yields, *off))
        else:
            size[step.yields] = off
        if step.leaves in names:
            pieces.append((step.leaves, *board))
        elif step.leaves not in (step.board, ""):
            size[step.leaves] = board
    if layout.tree.use == "piece":
        pieces.append((layout.tree.name, *size["sheet"]))
    return sorted(pieces)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.integers(40, 600), st.integers(40, 500), st.integers(1, 3)), min_size=1, max_size=6),
    st.sampled_from([0.0, 3.2]),
    st.sampled_from([0.0, 10.0]),
)
def test_doing_what_the_list_says_yields_the_pieces(sizes, kerf, trim):
    saw = Saw(kerf, trim)
    pieces = [Piece(f"p{n}", length, width, number) for n, (length, width, number) in enumerate(sizes)]
    for layout in lay_out(pieces, [Sheet("s", 1000, 600, Decimal(1))], saw).layouts:
        placed = sorted((p.name, hundredths(p.length), hundredths(p.width)) for p in layout.placed)
        assert saw_up(layout, saw) == placed
