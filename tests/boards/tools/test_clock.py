"""Time as counted: the same plan however fast the clock runs, as long as it does not run out."""

import random
from decimal import Decimal

import pytest

from rodbook.boards import Bar, Piece, Sheet, Stick, cut_lengths, lay_out, layout, lengths, warm
from rodbook.boards.tools.clock import Clock


def test_the_clock_and_what_is_counted_both_end_it():
    now = [100.0]
    clock = Clock(10.0, 100.0, 4.0, now=lambda: now[0])
    assert (clock.given, clock.left(), clock.struck()) == (4.0, 4.0, False)
    clock.spend(3.0)
    assert clock.left() == 1.0
    now[0] = 109.5
    assert clock.left() == 0.5
    clock.spend(1.0)
    assert (clock.out_of_time(), clock.struck()) == (True, False)
    now[0] = 110.0
    assert clock.struck()


def test_nothing_is_left_once_it_was_called_off():
    asked = []
    clock = Clock(10.0, 0.0, None, lambda: bool(asked.append(1)) or len(asked) > 1, now=lambda: 0.0)
    assert (clock.left(), clock.left(), clock.left()) == (10.0, 0.0, 0.0)
    assert (clock.cancelled, len(asked)) == (True, 2)


def some_pieces(number, most, seed):
    draw = random.Random(seed)
    return [
        Piece(f"p{n}", draw.randint(150, 1100), draw.randint(90, 700), draw.randint(1, most)) for n in range(number)
    ]


SHEETS = [Sheet("s", 2440, 1220, Decimal(48)), Sheet("t", 1525, 1525, Decimal(43)), Sheet("o", 900, 700, Decimal(0), 1)]


def at_any_pace(monkeypatch, face, answer):
    """Answers by a clock that stands still and by one that jumps about."""
    plans = []
    for step in (0.0, 0.003):
        at = [0.0]

        def ticking(at=at, step=step):
            at[0] += step
            return at[0]

        monkeypatch.setattr(face, "monotonic", ticking)
        plans.append(answer())
    return plans


@pytest.mark.parametrize(("number", "most"), [(6, 14), (9, 4), (24, 2), (70, 1)])
def test_a_counted_search_gives_the_same_plan_at_any_pace(monkeypatch, number, most):
    pieces = some_pieces(number, most, number)
    one, other = at_any_pace(monkeypatch, layout, lambda: lay_out(pieces, SHEETS, seconds=1000, effort=0.4))
    assert one == other
    assert one.ended in ("bound", "tries")


def test_a_wait_for_the_compiler_is_not_taken_off_what_is_counted(monkeypatch):
    class Compiling:
        asked = 0

        def join(self, seconds):
            at[0] += 40.0
            self.asked += 1

        def is_alive(self):
            return self.asked < 3

    at = [0.0]
    monkeypatch.setattr(warm, "_started", [Compiling()])
    counted = Clock(10.0, 0.0, 4.0, now=lambda: at[0])
    assert warm.ready(counted)
    assert (counted.start, counted.left()) == (120.0, 4.0)
    warm._started[0].asked = 0
    assert not warm.ready(Clock(10.0, at[0], now=lambda: at[0]))


def test_a_counted_search_for_lengths_too(monkeypatch):
    sticks = [Stick(f"s{n}", 311 + 1777 * n % 2311, 1 + n % 5) for n in range(40)]
    bars = [Bar("6", 6000, Decimal("31.2")), Bar("4", 4200, Decimal("23.9"))]
    one, other = at_any_pace(monkeypatch, lengths, lambda: cut_lengths(sticks, bars, seconds=1000, effort=0.3))
    assert one == other
    assert one.ended in ("bound", "tries")


def test_the_clock_ends_a_counted_search_all_the_same(monkeypatch):
    pieces = some_pieces(24, 3, 1)
    at = [0.0]

    def ticking():
        at[0] += 0.05
        return at[0]

    monkeypatch.setattr(layout, "monotonic", ticking)
    plan = lay_out(pieces, SHEETS, seconds=1.0, effort=1000.0)
    assert plan.ended == "time"
    assert plan.unplaced == ()
