"""The measures keep their promise: what can be cut from one sheet weighs no more than the sheet."""

from decimal import Decimal
from itertools import combinations_with_replacement

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of
from rodbook.boards.proof.weights import best_measures, scales


@given(st.integers(2, 400), st.lists(st.integers(1, 400), min_size=1, max_size=8))
def test_lengths_that_fit_a_board_also_fit_after_scaling(board, lengths):
    lengths = [min(length, board) for length in lengths]
    for scale in scales(board, lengths):
        room, scaled = board, 0
        for length in lengths:
            if length <= room:
                room -= length
                scaled += scale.of(length)
        assert scaled <= scale.capacity


@pytest.mark.parametrize("board", range(2, 16))
def test_every_set_of_lengths_on_small_boards(board):
    lengths = range(1, board + 1)
    sets = [
        chosen
        for number in range(1, 6)
        for chosen in combinations_with_replacement(lengths, number)
        if sum(chosen) <= board
    ]
    for scale in scales(board, list(lengths)):
        assert max(sum(map(scale.of, chosen)) for chosen in sets) <= scale.capacity


def test_scaling_gains_something():
    # two of 6 on 10 do not fit together, though they are only just more than half: the cut-off counts each as a whole
    assert any(2 * scale.of(6) == 2 * scale.capacity for scale in scales(10, [6]))
    # of 4 on 10 two fit and no more: the staircase counts each as a half
    assert any(2 * scale.of(4) == scale.capacity for scale in scales(10, [4]))


def measures_of(pieces, count=40):
    return best_measures(task_of(pieces, [Sheet("s", 1000, 600, Decimal(1))], Saw(0, 0)), 0, count)


def test_area_comes_first():
    area, *_ = measures_of([Piece("p", 300, 200, 7), Piece("q", 450, 310)])
    assert area.weight == (30000 * 20000, 45000 * 31000)
    assert area.capacity == 100000 * 60000


def test_a_piece_that_may_turn_weighs_what_its_lighter_way_does():
    # Two of 550 × 450 share no sheet of 1000 × 600 as they lie; turned they do, 2 × 450 = 900 side by side.
    fixed = measures_of([Piece("p", 550, 450, 2)])
    turning = measures_of([Piece("p", 550, 450, 2, may_turn=True)])
    assert any(measure.weight[0] == measure.capacity for measure in fixed)
    assert all(2 * measure.weight[0] <= measure.capacity for measure in turning)


def test_a_grid_of_pieces_never_weighs_more_than_the_sheet():
    # 3 × 2 of 330 × 290 lie on 1000 × 600, and so do 330 × 290 twice above 1000 × 300
    pieces = [Piece("p", 330, 290, 6), Piece("q", 1000, 300, 1)]
    for measure in measures_of(pieces):
        assert 6 * measure.weight[0] <= measure.capacity
        assert 3 * measure.weight[0] + measure.weight[1] <= measure.capacity


def test_no_measure_where_nothing_fits():
    assert measures_of([Piece("p", 1001, 100)]) == []
