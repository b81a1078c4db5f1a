"""The dearest fillings by the compiled loops against a plain search through every cut at every whole place."""

from decimal import Decimal
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of
from rodbook.boards.filling.shapes import Shape, counts_of, filled_from, runs_of, shape_of, size_of
from rodbook.boards.kernels import guillotine
from rodbook.boards.values.dearest import COARSE_STEPS, Dearest
from rodbook.boards.values.gathered import gather

HUNDREDTHS = 100


def job(pieces, board, *, turns=None, may_turn=False):
    """A task without kerf and trim, sizes in mm, and what is wanted."""
    made = [Piece(f"p{n}", float(a), float(b), q, may_turn=may_turn) for n, (a, b, q) in enumerate(pieces)]
    task = task_of(made, [Sheet("s", float(board[0]), float(board[1]), Decimal(10))], Saw(0, 0, turns))
    return task, [kind.quantity for kind in task.kinds]


def plain_twin(board, ways, values, runs=None):
    """The most that a board can hold, pieces any number of times, by every cut at every whole mm.

    ``runs`` limits how many runs of cuts of one direction follow on each other; then only a piece of exactly the
    board's size needs no cut.
    """

    @cache
    def any_cut(x, y):
        best = max((values[k] for k, a, b in ways if a <= x and b <= y), default=0)
        for c in range(1, x // 2 + 1):
            best = max(best, any_cut(c, y) + any_cut(x - c, y))
        for c in range(1, y // 2 + 1):
            best = max(best, any_cut(x, c) + any_cut(x, y - c))
        return best

    @cache
    def counted(x, y, axis, left):
        best = max((values[k] for k, a, b in ways if (a, b) == (x, y)), default=0)
        if not left:
            return best
        best = max(best, counted(x, y, 1 - axis, left - 1))
        size = x if axis == 0 else y
        for c in range(1, size):
            one = (c, y) if axis == 0 else (x, c)
            other = (x - c, y) if axis == 0 else (x, y - c)
            # the first part is finished with one run less; the run itself goes on with the other
            best = max(best, counted(*one, 1 - axis, left - 1) + counted(*other, axis, left))
        return best

    if runs is None:
        return any_cut(*board)
    return max(counted(*board, 0, runs), counted(*board, 1, runs))


sizes = st.lists(
    st.tuples(st.integers(2, 9), st.integers(2, 9), st.integers(1, 4)),
    min_size=1,
    max_size=4,
    unique_by=lambda p: p[:2],
)
boards = st.tuples(st.integers(9, 16), st.integers(9, 14))


def ways_of(task):
    return [(k, a // HUNDREDTHS, b // HUNDREDTHS) for k, lies in enumerate(task.lies[0]) for a, b in lies]


@settings(max_examples=60, deadline=None)
@given(sizes, boards, st.booleans(), st.lists(st.integers(1, 30), min_size=4, max_size=4))
def test_the_loops_find_what_every_cut_finds(pieces, board, may_turn, values):
    task, wanted = job([(a, b, 99) for a, b, _ in pieces], board, may_turn=may_turn)
    dearest = Dearest(task, wanted)
    ((worth, shape),) = dearest.fillings(values[: len(wanted)])
    assert worth == plain_twin(board, ways_of(task), values)
    counts = counts_of(shape, len(wanted))
    assert sum(v * c for v, c in zip(values[: len(wanted)], counts, strict=True)) == worth
    length, width = size_of(shape)
    assert length <= task.stocks[0].length
    assert width <= task.stocks[0].width


@settings(max_examples=40, deadline=None)
@given(sizes, boards, st.integers(0, 3), st.lists(st.integers(1, 30), min_size=4, max_size=4))
def test_a_limit_on_turns_limits_the_worth(pieces, board, turns, values):
    task, wanted = job([(a, b, 99) for a, b, _ in pieces], board, turns=turns)
    dearest = Dearest(task, wanted)
    if not dearest.used:
        return
    ((worth, shape),) = dearest.fillings(values[: len(wanted)])
    assert worth == plain_twin(board, ways_of(task), values, runs=turns + 1)
    assert runs_of(shape) <= turns + 1


@settings(max_examples=40, deadline=None)
@given(sizes, boards, st.lists(st.integers(1, 30), min_size=4, max_size=4))
def test_held_fillings_keep_to_what_is_left(pieces, board, values):
    task, wanted = job(pieces, board)
    dearest = Dearest(task, wanted)
    ((worth, shape),) = dearest.held(values[: len(wanted)], wanted)
    counts = counts_of(shape, len(wanted))
    assert all(c <= q for c, q in zip(counts, wanted, strict=True))
    assert sum(v * c for v, c in zip(values[: len(wanted)], counts, strict=True)) == worth
    assert worth <= dearest.fillings(values[: len(wanted)])[0][0]


def every_filling(board, ways, wanted):
    """All counts that a board can hold, no more of each than wanted; by every cut at every whole mm."""

    @cache
    def of(x, y):
        found = {tuple(int(k == n) for n in range(len(wanted))) for k, a, b in ways if a <= x and b <= y and wanted[k]}
        for parts in (
            *(((c, y), (x - c, y)) for c in range(1, x // 2 + 1)),
            *(((x, c), (x, y - c)) for c in range(1, y // 2 + 1)),
        ):
            for one in of(*parts[0]):
                for other in of(*parts[1]):
                    both = tuple(min(q, a + b) for a, b, q in zip(one, other, wanted, strict=True))
                    found.add(both)
        return frozenset(found)

    return of(*board)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(3, 7), st.integers(3, 7), st.integers(1, 3)),
        min_size=1,
        max_size=3,
        unique_by=lambda p: p[:2],
    ),
    st.integers(0, 8),
    st.lists(st.integers(1, 9), min_size=3, max_size=3),
)
def test_all_fillings_of_enough_worth_are_gathered(pieces, allowed, values):
    board = (13, 11)
    task, wanted = job(pieces, board)
    dearest = Dearest(task, wanted)
    values = values[: len(wanted)]
    cost = dearest.fillings(values)[0][0]
    found = gather(dearest, values, [float(cost)], float(allowed), 10_000)
    assert found is not None
    listed = [counts for _, counts in found.patterns]
    for counts in every_filling(board, ways_of(task), tuple(wanted)):
        if sum(v * c for v, c in zip(values, counts, strict=True)) >= cost - allowed:
            assert any(all(a >= b for a, b in zip(more, counts, strict=True)) for more in listed)
    for pattern in found.patterns:
        shape = found.shape(pattern)
        length, width = size_of(shape)
        assert length <= task.stocks[0].length
        assert width <= task.stocks[0].width
        held = counts_of(shape, len(wanted))
        assert all(a >= b for a, b in zip(held, pattern[1], strict=True))


def test_coarse_sizes_give_cuttable_fillings_and_a_worth_above_them():
    task, wanted = job([(73, 41, 9), (55, 38, 9), (97, 29, 9)], (500, 300), may_turn=True)
    fine = Dearest(task, wanted)
    coarse = Dearest(task, wanted)
    coarse.exact, coarse.grid = False, coarse._coarse(up=True)
    values = [kind.length * kind.width // 10_000 for kind in task.kinds]
    ((low, shape),), ((true, _),) = coarse.fillings(values), fine.fillings(values)
    (high,) = coarse.worths(values)
    assert low <= true <= high
    assert len(coarse.grid.along) <= COARSE_STEPS + 2
    length, width = size_of(shape)
    assert length <= task.stocks[0].length
    assert width <= task.stocks[0].width


def test_the_loops_run_without_a_compiler_as_well():
    plain = getattr(guillotine.free, "py_func", guillotine.free)
    task, wanted = job([(4, 3, 9), (3, 2, 9)], (11, 9))
    grid = Dearest(task, wanted).grid
    leaf, _ = grid.leaves([12, 6])
    places = grid.nx, grid.rx, grid.ny, grid.ry
    assert np.array_equal(plain(leaf, *places), guillotine.free(leaf, *places))


def _laid(shape: Shape, task):
    stock = task.stocks[0]
    return filled_from(shape, (stock.length, stock.width), task.kerf, levels=task.most_cut_levels, worth=[1.0] * 9)


@settings(max_examples=40, deadline=None)
@given(sizes, boards)
def test_a_shape_survives_being_laid_out(pieces, board):
    task, wanted = job(pieces, board, may_turn=True)
    ((_, shape),) = Dearest(task, wanted).fillings([kind.length * kind.width for kind in task.kinds])
    filled = _laid(shape, task)
    assert counts_of(shape_of(filled), len(wanted)) == counts_of(shape, len(wanted))
    assert filled.held == {k: c for k, c in enumerate(counts_of(shape, len(wanted))) if c}


@pytest.mark.parametrize(("turns", "worth"), [(0, 0), (1, 4), (2, 4)])
def test_one_run_of_cuts_leaves_no_piece_that_is_smaller_both_ways(turns, worth):
    task, wanted = job([(5, 5, 9)], (11, 11), turns=turns)
    dearest = Dearest(task, wanted)
    assert (dearest.fillings([1])[0][0] if dearest.used else 0) == worth
