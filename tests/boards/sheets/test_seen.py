"""Sheets seen on the way: the best whole ones of them come together."""

from decimal import Decimal
from itertools import pairwise
from time import monotonic

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of
from rodbook.boards.sheets.seen import Seen, Standing
from rodbook.boards.tools.clock import Clock

STRIPS = (30, 50, 20, 40, 60, 100)


def seen_of(strips, quantities):
    """Strips as long as the sheet, of which each sheet of width 100 holds some."""
    pieces = [Piece(f"p{w}", 200, w, q, may_turn=False) for w, q in zip(strips, quantities, strict=True)]
    task = task_of(pieces, [Sheet("s", 200, 100, Decimal(1))], Saw(0, 0))
    kinds = [k for k, q in enumerate(quantities) for _ in range(q)]
    area = np.array([task.kinds[k].length * task.kinds[k].width for k in kinds], dtype=np.int64)
    return task, Seen(task, np.array(kinds, dtype=np.int64), area, Clock(60, monotonic()))


def stand(task, seen, sheets):
    """Lay strips beside each other; `sheets` lists the numbers of the pieces on each."""
    where, spots = np.full(len(seen.kinds), -1, dtype=np.int64), np.zeros((len(seen.kinds), 4), dtype=np.int64)
    for n, pieces in enumerate(sheets):
        y = 0
        for p in pieces:
            kind = task.kinds[seen.kinds[p]]
            where[p], spots[p] = n, (0, y, kind.length, kind.width)
            y += kind.width
    return Standing([0] * len(sheets), where, spots)


def left_of(seen, standing):
    return int(seen.area[standing.where < 0].sum())


def fits(seen, standing, task):
    """Say whether every piece on a sheet lies inside it and on no other."""
    for n in range(len(standing.sheets)):
        boxes = standing.spots[standing.where == n]
        ends = sorted((int(y), int(y + width)) for _, y, _, width in boxes)
        if ends and ends[-1][1] > task.stocks[0].width:
            return False
        if any(one[1] > other[0] for one, other in pairwise(ends)):
            return False
    return True


def test_good_sheets_of_different_times_come_together():
    task, seen = seen_of((30, 70, 40, 60), (1, 1, 1, 1))
    seen.note(stand(task, seen, [(0, 1), (2,)]))
    now = stand(task, seen, [(0, 2), (3,)])
    seen.note(stand(task, seen, [(2, 3), ()]))
    seen.note(now)
    best = seen.best(now, left_of(seen, now), 5.0)
    assert best is not None
    assert left_of(seen, best) == 0
    assert fits(seen, best, task)


def test_where_nothing_seen_does_better_nothing_changes():
    task, seen = seen_of((30, 70, 40), (1, 1, 1))
    now = stand(task, seen, [(0, 1)])
    seen.note(now)
    assert seen.best(now, left_of(seen, now), 5.0) is None


def test_the_same_pieces_on_a_sheet_are_kept_once():
    task, seen = seen_of((30, 70), (2, 1))
    seen.note(stand(task, seen, [(0, 2), (1,)]))
    seen.note(stand(task, seen, [(1, 2), (0,)]))
    assert len(seen.sheets) == 2


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_a_choice_leaves_less_and_can_be_cut(data):
    quantities = [data.draw(st.integers(1, 3)) for _ in STRIPS]
    task, seen = seen_of(STRIPS, quantities)
    standing = None
    for _ in range(data.draw(st.integers(1, 6))):
        order = data.draw(st.permutations(range(len(seen.kinds))))
        sheets, room = [[], [], []], [100, 100, 100]
        for p in order:
            width = STRIPS[seen.kinds[p]]
            n = next((n for n in range(3) if room[n] >= width), None)
            if n is not None:
                sheets[n].append(p)
                room[n] -= width
        standing = stand(task, seen, sheets)
        seen.note(standing)
    best = seen.best(standing, left_of(seen, standing), 5.0)
    if best is not None:
        assert left_of(seen, best) < left_of(seen, standing)
        assert sorted(best.sheets) == sorted(standing.sheets)
        assert fits(seen, best, task)
