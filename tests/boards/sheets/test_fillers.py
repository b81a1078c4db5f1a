"""Fillers: from what would be waste and never at the cost of a sheet."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.boards import Filler, Piece, Saw, Sheet, check_sheet_plan, fill_waste, lay_out
from rodbook.boards.sheets import refill
from rodbook.errors import InputError

BOARD = Sheet("board", 2440, 1220, Decimal(48))
DOORS = [Piece("door", 1800, 447, 3)]


def test_offcuts_are_filled_with_what_is_worth_most():
    # two sheets, three doors: what lies beside them takes all the shelves and some strips
    fillers = [Filler("shelf", 560, 300, Decimal(4), 4), Filler("strip", 560, 290, Decimal(1), 9)]
    plan = lay_out(DOORS, [BOARD], fillers=fillers)
    placed = [p.name for layout in plan.layouts for p in layout.placed for _ in range(layout.count)]
    assert plan.cost == Decimal(96)
    assert placed.count("door") == 3
    assert placed.count("shelf") == 4
    assert plan.fillers_worth == 4 * Decimal(4) + placed.count("strip")
    assert check_sheet_plan(plan, DOORS, [BOARD], Saw(), fillers) == []


def test_nothing_else_changes():
    plain, filled = (
        lay_out(DOORS, [BOARD]),
        lay_out(DOORS, [BOARD], fillers=[Filler("shelf", 560, 300, Decimal(4), 99)]),
    )
    assert (plain.cost, plain.bound, plain.proof) == (filled.cost, filled.bound, filled.proof)
    assert plain.fillers_worth == 0


def test_a_filler_as_large_as_a_piece_stays_a_filler():
    same = Filler("spare door", 1800, 447, Decimal(9), 5)
    plan = lay_out([Piece("door", 1800, 447, 1)], [BOARD], fillers=[same])
    assert [p.name for p in plan.layouts[0].placed] == ["door", "spare door"]
    assert plan.unplaced == ()


def test_no_sheet_is_cut_for_fillers():
    plan = lay_out([], [BOARD], fillers=[Filler("shelf", 560, 300, Decimal(4))])
    assert (plan.layouts, plan.cost, plan.fillers_worth) == ((), 0, 0)


def test_the_checker_sees_a_wrong_worth_and_too_many():
    fillers = [Filler("shelf", 560, 300, Decimal(4), 2)]
    plan = lay_out(DOORS, [BOARD], fillers=fillers)
    wrong = replace(plan, fillers_worth=plan.fillers_worth + 1)
    assert any("are worth" in fault for fault in check_sheet_plan(wrong, DOORS, [BOARD], Saw(), fillers))
    fewer = [replace(fillers[0], quantity=1)]
    assert any("wanted" in fault for fault in check_sheet_plan(plan, DOORS, [BOARD], Saw(), fewer))


sizes = st.integers(90, 900).map(float)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(sizes, sizes, st.integers(1, 5), st.booleans()), min_size=1, max_size=4),
    st.lists(st.tuples(sizes, sizes, st.integers(1, 9), st.booleans(), st.integers(1, 50)), min_size=1, max_size=4),
    st.none() | st.integers(1, 3),
)
def test_every_filled_plan_is_valid(pieces, fillers, turns):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(refill, "MOST_ROUNDS", 800)
        job = [Piece(f"p{n}", a, b, q, t) for n, (a, b, q, t) in enumerate(pieces)]
        more = [Filler(f"f{n}", a, b, Decimal(w), q, t) for n, (a, b, q, t, w) in enumerate(fillers)]
        saw = Saw(max_turns=turns)
        plan = lay_out(job, [BOARD], saw, seconds=60, fillers=more)
        assert check_sheet_plan(plan, job, [BOARD], saw, more) == []
        assert plan == lay_out(job, [BOARD], saw, seconds=60, fillers=more)


def own(plan, names):
    """Every own piece with its place, on each sheet, in order."""
    return [
        (layout.sheet, [p for p in layout.placed if p.name in names])
        for layout in plan.layouts
        for _ in range(layout.count)
    ]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(sizes, sizes, st.integers(1, 5), st.booleans()), min_size=1, max_size=4),
    st.lists(st.tuples(sizes, sizes, st.integers(1, 9), st.booleans(), st.integers(1, 50)), max_size=4),
    st.none() | st.integers(1, 3),
)
def test_the_jobs_own_pieces_stay_where_they_are(pieces, fillers, turns):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(refill, "MOST_ROUNDS", 800)
        job = [Piece(f"p{n}", a, b, q, t) for n, (a, b, q, t) in enumerate(pieces)]
        more = [Filler(f"f{n}", a, b, Decimal(w), q, t) for n, (a, b, q, t, w) in enumerate(fillers)]
        saw, names = Saw(max_turns=turns), {piece.name for piece in job}
        plan = lay_out(job, [BOARD], saw, seconds=60)
        filled = fill_waste(plan, job, [BOARD], saw, more)
        assert own(filled, names) == own(plan, names)
        assert replace(filled, layouts=plan.layouts, fillers_worth=Decimal(0)) == plan


def test_pieces_beyond_the_number_wanted_are_left_out_where_turns_are_limited():
    saw, few = Saw(max_turns=2), Filler("shelf", 560, 300, Decimal(4), 1)
    plan = fill_waste(lay_out(DOORS, [BOARD], saw), DOORS, [BOARD], saw, [few])
    assert plan.fillers_worth == 4


def test_alike_sheets_come_apart_where_fillers_run_out():
    doors = [Piece("door", 1800, 447, 8)]
    plan = lay_out(doors, [BOARD])
    assert [(x.count, len(x.placed)) for x in plan.layouts] == [(4, 2)]
    filled = fill_waste(plan, doors, [BOARD], None, [Filler("shelf", 560, 300, Decimal(4), 2)])
    assert [(x.count, len(x.placed)) for x in filled.layouts] == [(1, 4), (3, 2)]


@pytest.mark.parametrize(
    ("filler", "said"),
    [
        (Filler("f", 500, 300, 4.0), "money is never a float"),
        (Filler("f", 500, 300, Decimal(0)), "0 is not a worth"),
        (Filler("door", 500, 300, Decimal(1)), "also the name of a piece"),
        (Filler("f", -5, 300, Decimal(1)), "is not a size"),
    ],
)
def test_what_is_wrong_with_a_filler_is_said(filler, said):
    with pytest.raises(InputError, match=said):
        lay_out(DOORS, [BOARD], fillers=[filler])
