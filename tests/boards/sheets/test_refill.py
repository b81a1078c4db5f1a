"""Emptying and filling sheets again: what comes out is a plan, cheaper than what went in, and comes again."""

from decimal import Decimal
from time import monotonic

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of
from rodbook.boards.filling.search import search
from rodbook.boards.filling.shapes import counts_of, size_of
from rodbook.boards.proof.bounds import least_cost
from rodbook.boards.sheets.refill import Refilling, shape_from_places
from rodbook.boards.tools.clock import Clock

PIECES = [Piece(f"p{n}", 190 + 173 * n % 870, 130 + 97 * n % 410, may_turn=n % 3 > 0) for n in range(40)]
SHEETS = [Sheet("s", 1300, 900, Decimal(10)), Sheet("t", 1000, 700, Decimal(6)), Sheet("o", 700, 400, Decimal(0), 1)]


def refilled(*, seed=0, seconds=10.0, near_best=False):
    task = task_of(PIECES, SHEETS, Saw(3, 0))
    wanted = [kind.quantity for kind in task.kinds]
    bound = least_cost(task, wanted)
    first = search(
        task, wanted, bound=bound, builds=1, mends=0, seed=0, clock=Clock(60, monotonic()), on_try=lambda *_: None
    )
    refilling = Refilling(
        task, wanted, first, bound=bound, seed=seed, clock=Clock(seconds, monotonic()), near_best=near_best
    )
    refilling.rounds = 12_000
    return task, wanted, first, refilling.run(lambda *_: None)


@pytest.mark.parametrize("near_best", [False, True])
def test_it_gives_a_cheaper_plan_with_every_piece(near_best):
    task, wanted, first, better = refilled(near_best=near_best)
    assert better.cost < first.cost
    held = [0] * len(wanted)
    for cutting in better.cuttings:
        for kind, number in cutting.filled.held.items():
            held[kind] += number * cutting.count
    assert held == wanted
    assert better.cost == sum(task.stocks[c.stock].price * c.count for c in better.cuttings)
    assert sum(c.count for c in better.cuttings if c.stock == 2) <= 1


def test_the_same_seed_gives_the_same_plan():
    assert refilled(seed=4)[3] == refilled(seed=4)[3]


def test_without_time_the_plan_stays_as_it_was():
    _, _, first, better = refilled(seconds=1e-9)
    assert better == first


@st.composite
def cut_up(draw, x=0, y=0, length=64, width=48, depth=4):
    """Boxes that straight cuts made out of one."""
    if depth and length >= 4 and draw(st.booleans()):
        at = draw(st.integers(1, length - 1))
        left = draw(cut_up(x, y, at, width, depth - 1))
        return left + draw(cut_up(x + at, y, length - at, width, depth - 1))
    if depth and width >= 4 and draw(st.booleans()):
        at = draw(st.integers(1, width - 1))
        left = draw(cut_up(x, y, length, at, depth - 1))
        return left + draw(cut_up(x, y + at, length, width - at, depth - 1))
    return [(0, x, y, length, width)]


@settings(max_examples=60, deadline=None)
@given(cut_up())
def test_cuts_are_found_for_what_cuts_made(boxes):
    shape = shape_from_places(boxes)
    assert counts_of(shape, 1) == (len(boxes),)
    length, width = size_of(shape)
    assert length <= 64
    assert width <= 48


def test_a_pinwheel_cannot_be_cut():
    boxes = [(0, 0, 0, 2, 1), (0, 2, 0, 1, 2), (0, 1, 2, 2, 1), (0, 0, 1, 1, 2)]
    with pytest.raises(AssertionError, match="straight cuts"):
        shape_from_places(boxes)
