"""The bound for sheets against optima found by trying everything."""

from decimal import Decimal
from functools import cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet, lay_out
from rodbook.boards.asked.task import task_of
from rodbook.boards.proof.bounds import least_cost
from rodbook.boards.sheets import refill

KERF = 10


def least_boards(pieces):
    """Give, for each set of pieces, the smallest boards that straight cuts can divide into them.

    One piece needs a board of its size. More need two such boards side by side, or one above the other, a kerf apart.
    """

    @cache
    def of(group):
        if len(group) == 1:
            piece = pieces[group[0]]
            sizes = {(piece.length, piece.width)}
            return sizes | {(w, h) for h, w in sizes} if piece.may_turn else sizes
        found = set()
        first, rest = group[0], group[1:]
        for number in range(len(rest)):
            for others in combinations(rest, number):
                left = (first, *others)
                right = tuple(item for item in rest if item not in others)
                for a, b in of(left):
                    for c, d in of(right):
                        found |= {(a + c + KERF, max(b, d)), (max(a, c), b + d + KERF)}
        return {s for s in found if not any(t != s and t[0] <= s[0] and t[1] <= s[1] for t in found)}

    return of


def least_cost_by_trying(pieces, sheets, trim):
    """Give the least price of sheets that hold all pieces, or None; every division of the pieces is tried."""
    boards = least_boards(pieces)

    def fits(group, sheet):
        return any(x <= sheet.length - 2 * trim and y <= sheet.width - 2 * trim for x, y in boards(group))

    @cache
    def least(left, stock):
        if not left:
            return Decimal(0)
        costs = []
        first, rest = left[0], left[1:]
        for number in range(len(left)):
            for others in combinations(rest, number):
                group = (first, *others)
                after = tuple(item for item in rest if item not in others)
                for s, sheet in enumerate(sheets):
                    if stock[s] and fits(group, sheet):
                        fewer = tuple(n - (i == s) for i, n in enumerate(stock))
                        cost = least(after, fewer)
                        if cost is not None:
                            costs.append(cost + sheet.price)
        return min(costs, default=None)

    return least(tuple(range(len(pieces))), tuple(9 if s.quantity is None else s.quantity for s in sheets))


sides = st.integers(4, 60).map(lambda n: n * 10.0)
jobs = st.lists(st.builds(Piece, st.just("p"), sides, sides, may_turn=st.booleans()), min_size=1, max_size=5)
stocks = st.lists(
    st.builds(
        Sheet,
        st.sampled_from("st"),
        st.integers(40, 80).map(lambda n: n * 10.0),
        st.integers(30, 80).map(lambda n: n * 10.0),
        st.sampled_from([Decimal(0), Decimal("1.50"), Decimal(4), Decimal("9.99")]),
        st.sampled_from([None, None, 1, 2]),
    ),
    min_size=1,
    max_size=2,
    unique_by=lambda sheet: sheet.name,
)


@settings(max_examples=100, deadline=None)
@given(jobs, stocks, st.sampled_from([0.0, 20.0]))
def test_no_division_of_the_pieces_beats_the_bound(pieces, sheets, trim):
    saw = Saw(kerf=KERF, edge_trim=trim)
    task = task_of(pieces, sheets, saw)
    if not all(any(lies[k] for lies in task.lies) for k in range(len(task.kinds))):
        return
    bound = least_cost(task, [kind.quantity for kind in task.kinds])
    optimum = least_cost_by_trying(pieces, sheets, trim)
    if optimum is None:
        return
    assert bound is not None
    assert task.scale.price(bound) <= optimum
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(refill, "MOST_ROUNDS", 400)
        plan = lay_out(pieces, sheets, saw, seconds=600)
    if not plan.unplaced:
        assert plan.bound <= optimum <= plan.cost


def bound_of(pieces, sheets, saw=None):
    task = task_of(pieces, sheets, saw or Saw(0, 0))
    bound = least_cost(task, [kind.quantity for kind in task.kinds])
    return None if bound is None else task.scale.price(bound)


SQUARE = Sheet("s", 1000, 1000, Decimal("10.00"))


def test_thirds_of_a_sheet():
    # 11 × 300 × 300 = 990 000 of 1 000 000: by area one sheet; by thirds nine a sheet, so two
    assert bound_of([Piece("p", 300, 300, 11)], [SQUARE]) == 20
    # ten of 300 × 330: by area one sheet; 330 counts for a third and 300 for a third as well: ten ninths, two sheets
    assert bound_of([Piece("p", 300, 330, 10)], [SQUARE]) == 20


def test_more_than_half_each_way_share_no_sheet():
    # 510 × 510 three times are 78% of one sheet, and no two go together
    assert bound_of([Piece("p", 510, 510, 3)], [SQUARE]) == 30


def test_unlike_pieces_that_share_no_sheet():
    # 900 × 200 and 200 × 900 cross; beside each other 1100 in either direction. A third, 850 × 850, goes with neither.
    assert bound_of([Piece("a", 900, 200), Piece("b", 200, 900), Piece("c", 850, 850)], [SQUARE]) == 30


def test_the_kerf_counts():
    # two halves of 500 with a kerf of 1 between them do not go side by side; four quarters make four sheets
    assert bound_of([Piece("p", 500, 500, 4)], [SQUARE]) == 10
    assert bound_of([Piece("p", 500, 500, 4)], [SQUARE], Saw(kerf=1, edge_trim=0)) == 40


def test_the_trim_counts():
    # 0.05 mm off each edge makes the same of four quarters
    assert bound_of([Piece("p", 500, 500, 4)], [SQUARE], Saw(kerf=0, edge_trim=0.05)) == 40


def test_limited_cheap_sheets_lower_the_bound_only_as_far_as_they_go():
    # three pieces, one a sheet: one comes from the free one, the others are paid for
    free = Sheet("free", 1000, 1000, Decimal(0), quantity=1)
    assert bound_of([Piece("p", 600, 600, 3)], [SQUARE, free]) == 20
    # but the free one is too small here
    small = Sheet("free", 599, 1000, Decimal(0), quantity=1)
    assert bound_of([Piece("p", 600, 600, 3)], [SQUARE, small]) == 30


def test_the_bound_is_a_sum_of_prices():
    # 1.6 sheets' worth of area; 7.10 and 10 can be paid in sums of 7.10, 10, 14.20, 17.10, 20 ...;
    # the small sheet has 0.64 of the area, so 2 × 0.64 = 1.28 are too little and 0.64 + 1 = 1.64 are enough
    small = Sheet("small", 800, 800, Decimal("7.10"))
    assert bound_of([Piece("p", 100, 100, 160)], [SQUARE, small]) == Decimal("17.10")


def test_too_few_sheets_are_noticed():
    assert bound_of([Piece("p", 600, 600, 3)], [Sheet("s", 1000, 1000, Decimal(1), quantity=2)]) is None


def test_pieces_of_a_single_sheet_are_counted_on_it():
    # the long ones go on the dear sheet only: two of them are 1 sheet of it; the cheap one takes the short ones
    dear = Sheet("dear", 2000, 1000, Decimal(50))
    cheap = Sheet("cheap", 1000, 1000, Decimal(1))
    assert bound_of([Piece("long", 2000, 500, 2), Piece("short", 1000, 1000, 3)], [dear, cheap]) == 53


def test_free_sheets_without_end_cost_nothing():
    assert bound_of([Piece("p", 600, 600, 3)], [SQUARE, Sheet("free", 700, 700, Decimal(0))]) == 0
