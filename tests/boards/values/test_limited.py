"""Fillings with limited pieces, against every filling there is."""

from decimal import Decimal
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of
from rodbook.boards.filling.shapes import counts_of, runs_of
from rodbook.boards.values.dearest import Dearest
from rodbook.boards.values.limited import most_worth

pieces = st.lists(
    st.tuples(st.integers(2, 9), st.integers(2, 9), st.integers(1, 3), st.integers(1, 50)),
    min_size=1,
    max_size=3,
    unique_by=lambda piece: piece[:2],
)


def best_of_all(board, sizes, values, few):
    """The most that can be cut, by trying every cut and every way to share the pieces out."""

    @cache
    def best(length, width, left):
        found = max(
            (v for (a, b), v, n in zip(sizes, values, left, strict=True) if n and a <= length and b <= width), default=0
        )
        for part in shares(left):
            rest = tuple(n - p for n, p in zip(left, part, strict=True))
            cuts = [((at, width), (length - at, width)) for at in range(1, length)]
            cuts += [((length, at), (length, width - at)) for at in range(1, width)]
            for first, second in cuts:
                found = max(found, best(*first, part) + best(*second, rest))
        return found

    @cache
    def shares(left):
        if not left:
            return [()]
        found = [(n, *rest) for n in range(left[0] + 1) for rest in shares(left[1:])]
        return [part for part in found if any(part) and part != left] if len(left) == len(few) else found

    return best(*board, tuple(few))


@given(pieces, st.integers(4, 9), st.integers(4, 9))
@settings(max_examples=25, deadline=None)
def test_never_more_than_the_best_nor_a_bound_below_it(asked, length, width):
    sheet = Sheet("board", length, width, Decimal(1))
    task = task_of([Piece(f"{n}", a, b, q) for n, (a, b, q, _) in enumerate(asked)], [sheet], Saw(kerf=0, edge_trim=0))
    few = [kind.quantity for kind in task.kinds]
    values = [asked[kind.pieces[0]][3] for kind in task.kinds]
    sizes = [(kind.length // 100, kind.width // 100) for kind in task.kinds]
    dearest = Dearest(task, few)
    if not dearest.used:
        return
    found = most_worth(dearest, values, few)
    best = best_of_all((length, width), tuple(sizes), tuple(values), tuple(few))
    assert found.worth <= best <= found.bound
    counts = counts_of(found.shape, len(few))
    assert all(c <= n for c, n in zip(counts, few, strict=True))
    assert found.worth == sum(v * c for v, c in zip(values, counts, strict=True))
    assert most_worth(dearest, values, few) == found


def test_pieces_that_are_worth_most_are_not_counted_on_twice():
    # one 6 x 6 is worth all; a second is not there, and eight 3 x 3 are
    pieces = [Piece("large", 6, 6, 1), Piece("small", 3, 3, 8)]
    task = task_of(pieces, [Sheet("board", 12, 6, Decimal(1))], Saw(kerf=0, edge_trim=0))
    order = [kind.pieces[0] for kind in task.kinds]
    values = [(100, 10)[n] for n in order]
    found = most_worth(Dearest(task, [kind.quantity for kind in task.kinds]), values, [(1, 8)[n] for n in order])
    assert (found.worth, found.bound) == (140, 140)


def test_the_cutting_direction_turns_no_more_often_than_it_may():
    pieces = [Piece("a", 4, 4, 1), Piece("b", 2, 5, 2), Piece("c", 3, 1, 4)]
    task = task_of(pieces, [Sheet("board", 9, 7, Decimal(1))], Saw(kerf=0, edge_trim=0, max_turns=1))
    few = [kind.quantity for kind in task.kinds]
    found = most_worth(Dearest(task, few), [kind.length * kind.width for kind in task.kinds], few)
    assert 0 < found.worth <= found.bound
    assert runs_of(found.shape, (task.stocks[0].length, task.stocks[0].width)) <= 2
