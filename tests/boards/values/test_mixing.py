"""Small jobs against every plan there is: what is called proven is the least cost, and nearly all is proven."""

from decimal import Decimal
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet, lay_out


def every_filling(board, pieces):
    """All counts that a board can hold, no more of each than wanted; by every cut at every whole mm."""

    @cache
    def of(x, y):
        found = {
            tuple(int(k == n) for n in range(len(pieces))) for k, (a, b, _) in enumerate(pieces) if a <= x and b <= y
        }
        for parts in (
            *(((c, y), (x - c, y)) for c in range(1, x // 2 + 1)),
            *(((x, c), (x, y - c)) for c in range(1, y // 2 + 1)),
        ):
            for one in of(*parts[0]):
                for other in of(*parts[1]):
                    both = tuple(a + b for a, b in zip(one, other, strict=True))
                    if all(c <= p[2] for c, p in zip(both, pieces, strict=True)):
                        found.add(both)
        return frozenset(found)

    return of(*board)


def least_cost(pieces, sheets):
    """The least cost by trying every pattern of every sheet, one sheet after another; None where it cannot be done."""
    patterns = [sorted(every_filling(size, pieces)) for size, _, _ in sheets]

    @cache
    def of(left, stocks):
        if not any(left):
            return 0
        best = None
        for s, (_, price, _) in enumerate(sheets):
            if stocks[s] == 0:
                continue
            there = tuple(n - (k == s) for k, n in enumerate(stocks))
            for counts in patterns[s]:
                rest = tuple(max(0, a - c) for a, c in zip(left, counts, strict=True))
                if rest != left and (more := of(rest, there)) is not None:
                    best = price + more if best is None else min(best, price + more)
        return best

    return of(tuple(q for _, _, q in pieces), tuple(q for _, _, q in sheets))


pieces_in = st.lists(
    st.tuples(st.integers(3, 8), st.integers(3, 8), st.integers(1, 3)),
    min_size=1,
    max_size=3,
    unique_by=lambda p: p[:2],
)


@settings(max_examples=60, deadline=None)
@given(pieces_in, st.integers(1, 9), st.integers(1, 9), st.integers(0, 2))
def test_nothing_is_proven_that_is_not_so(pieces, price, other_price, offcuts):
    sheets = [((12, 10), price, 12), ((10, 8), other_price, 12), ((9, 4), 0, offcuts)]
    plan = lay_out(
        [Piece(f"p{n}", float(a), float(b), q) for n, (a, b, q) in enumerate(pieces)],
        [Sheet(f"s{n}", float(x), float(y), Decimal(p), quantity=q) for n, ((x, y), p, q) in enumerate(sheets)],
        Saw(0, 0),
        seconds=60,
    )
    true = least_cost(pieces, sheets)
    assert plan.unplaced == ()
    assert plan.bound <= true <= plan.cost
    assert plan.proven
    assert plan.cost == true


def test_patterns_mixed_across_sheets_beat_filling_one_after_another():
    pieces = [Piece("door", 1980, 580, 14), Piece("side", 900, 560, 22), Piece("shelf", 560, 420, 30)]
    plan = lay_out(pieces, [Sheet("board", 2440, 1220, Decimal("48.00"))])
    assert plan.proven
    assert plan.ended == "bound"


def test_the_same_seed_gives_the_same_plan_where_patterns_are_mixed():
    pieces = [Piece(f"p{n}", 600 + 217 * n % 900, 280 + 131 * n % 300, 3 + n) for n in range(4)]
    sheets = [
        Sheet("board", 2440, 1220, Decimal("48.00")),
        Sheet("large", 2800, 2070, Decimal("91.50")),
        Sheet("offcut", 900, 600, Decimal(0), quantity=2),
    ]
    one, other = lay_out(pieces, sheets, seconds=60, seed=2), lay_out(pieces, sheets, seconds=60, seed=2)
    assert one.ended != "time"
    assert one == other
