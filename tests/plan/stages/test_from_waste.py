"""Wanted pieces out of a job's waste: what is cut, what it is worth, and that the job itself stays as it is."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.boards import check_sheet_plan
from rodbook.job.book import WantedPiece
from rodbook.job.models import Making, TakenPiece
from rodbook.plan import as_json, from_waste, kept_offcuts, make_plan, piece_worth
from rodbook.plan.stages.materials import pieces_of, saw_of, sheets_of


def wanting(book, *pieces, board="18 mm MDF"):
    """The book with these pieces wanted of one board, and none of any other."""
    found = tuple(WantedPiece.model_validate(piece) for piece in pieces)
    boards = tuple(b.model_copy(update={"wanted": found if b.name == board else ()}) for b in book.boards)
    return book.model_copy(update={"boards": boards})


def piece(label="W-1", length=300, width=90, **more):
    return {"label": label, "length": length, "width": width, **more}


@pytest.fixture(scope="module")
def kept():
    return {}


@pytest.fixture(scope="module")
def plain(planned, book, kept):
    return make_plan(planned("galley").job, wanting(book), kept=kept)


def test_the_sample_says_what_comes_out_of_its_waste(planned):
    plan = planned("galley")
    found = {w.label: w for w in from_waste(plan)}
    assert found
    for w in found.values():
        assert 1 <= w.number <= w.wanted
        assert w.worth_of_all == w.number * w.worth > 0
        assert sum(count for _, count in w.layouts) == w.number
    numbers = {number: material.maker for number, material, _ in plan.layouts()}
    assert {numbers[n] for w in found.values() for n, _ in w.layouts} == {Making.SITE}


def test_bought_parts_give_nothing(planned):
    assert from_waste(planned("stair")) == ()
    assert all(m.filled is None and m.wanted == () for m in planned("stair").materials)


def same_but_for_waste(plan, plain):
    """Whether two plans differ in nothing but what is cut from waste."""
    materials = tuple(replace(m, filled=None, wanted=()) for m in plan.materials)
    return replace(plan, materials=materials, book=plain.book) == replace(
        plain, materials=tuple(replace(m, filled=None, wanted=()) for m in plain.materials)
    )


sizes = st.integers(20, 600)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.tuples(sizes, sizes, st.integers(1, 9), st.none() | st.decimals("0.01", "50", places=2)), max_size=5)
)
def test_what_is_wanted_changes_nothing_of_the_job(plain, book, kept, rows):
    """Costs, layouts of its own, remarks: all as without; and what is sawn passes the checker."""
    pieces = [piece(f"W-{n}", a, b, number=q, worth=w) for n, (a, b, q, w) in enumerate(rows)]
    asked = wanting(book, *pieces)
    plan = make_plan(plain.job, asked, kept=kept)
    assert same_but_for_waste(plan, plain)
    (material,) = [m for m in plan.materials if m.sheets and m.maker is Making.SITE]
    own = {line.mark for line in plan.schedule}
    assert [[p for p in x.placed if p.name in own] for x in material.layouts for _ in range(x.count)] == [
        list(x.placed) for x in material.sheets.layouts for _ in range(x.count)
    ]
    found = {w.label: w for w in from_waste(plan)}
    assert all(w.number <= w.wanted for w in found.values())
    if material.filled:
        from rodbook.boards import Filler

        board = asked.board("18 mm MDF")
        lines = [line for line in plan.lines_made(Making.SITE) if line.part.stock == "18 mm MDF"]
        fillers = [Filler(w.name, w.length, w.width, w.weight, w.number, may_turn=True) for w in material.wanted]
        args = pieces_of(lines, board), sheets_of(board, plan.job, Making.SITE), saw_of(asked)
        assert check_sheet_plan(material.filled, *args, fillers) == []


def test_a_change_of_what_is_wanted_does_not_search_again(plain, book, kept, monkeypatch):
    monkeypatch.setattr("rodbook.plan.stages.materials.lay_out", lambda *_args, **_more: pytest.fail("laid out again"))
    monkeypatch.setattr(
        "rodbook.plan.stages.materials.cut_lengths", lambda *_args, **_more: pytest.fail("laid out again")
    )
    plan = make_plan(plain.job, wanting(book, piece(number=3)), kept=kept)
    assert [(w.label, w.number) for w in from_waste(plan)] == [("W-1", 3)]


def test_a_job_can_take_none(plain, book, kept):
    job = plain.job.model_copy(update={"job": plain.job.job.model_copy(update={"take_wanted": False})})
    assert from_waste(make_plan(job, wanting(book, piece(number=3)), kept=kept)) == ()


def test_a_label_like_a_mark_is_told_apart(plain, book, kept):
    mark = next(line.mark for line in plain.schedule if line.part.stock == "18 mm MDF")
    plan = make_plan(plain.job, wanting(book, piece(mark), piece(f"{mark} (wanted)", 200)), kept=kept)
    assert [(w.label, w.name) for w in from_waste(plan)] == [
        (mark, f"{mark} (wanted)"),
        (f"{mark} (wanted)", f"{mark} (wanted) (wanted)"),
    ]


def test_grain_keeps_a_piece_as_it_lies(plain, book, kept):
    """The offcut O-14 is 2200 long and 410 wide: what is 1000 across its grain finds no place, without grain it does."""
    asked = wanting(book, piece("W-9", 60, 900))
    grained = asked.model_copy(
        update={"boards": tuple(b.model_copy(update={"grain": b.name == "18 mm MDF"}) for b in asked.boards)}
    )
    turned = [
        p.turned
        for m in make_plan(plain.job, asked, kept=kept).materials
        for x in m.layouts
        for p in x.placed
        if p.name == "W-9"
    ]
    assert turned == [True]
    along = [
        p.turned
        for m in make_plan(plain.job, grained, kept=kept).materials
        for x in m.layouts
        for p in x.placed
        if p.name == "W-9"
    ]
    assert along in ([], [False])


def test_offcuts_to_keep_are_those_that_remain(plain, book, kept):
    """What is cut from the board that would be kept makes it smaller, or another is kept instead."""
    large = [k for k in kept_offcuts(plain) if k.length > 300 and k.width > 60]
    assert large
    plan = make_plan(plain.job, wanting(book, piece("W-5", large[0].length, large[0].width)), kept=kept)
    assert from_waste(plan)
    assert (large[0].length, large[0].width) not in {(k.length, k.width) for k in kept_offcuts(plan)}


def test_what_is_ticked_off_stays_on_the_layouts_and_nothing_more_is_taken(plain, book, kept):
    asked = wanting(book, piece(number=5, worth="0.50"), piece("W-2", 200, number=2))
    cut = from_waste(make_plan(plain.job, asked, kept=kept))
    taken = tuple(
        TakenPiece(label=w.label, board=w.stock, length=w.length, width=w.width, number=w.number, on=date(2026, 11, 25))
        for w in cut
    )
    plan = make_plan(plain.job.model_copy(update={"taken": taken}), wanting(book, piece("W-7", number=9)), kept=kept)
    assert [(w.label, w.number, w.worth) for w in from_waste(plan)] == [(w.label, w.number, Decimal(0)) for w in cut]
    assert not any("ticked off" in note.sentence for note in plan.remarks)


def test_what_is_ticked_off_and_finds_no_place_is_said(plain, book, kept):
    gone = TakenPiece(label="W-1", board="18 mm MDF", length=2400, width=1200, number=1, on=date(2026, 11, 25))
    other = gone.model_copy(update={"label": "W-2", "board": "a board of before"})
    plan = make_plan(plain.job.model_copy(update={"taken": (gone, other)}), wanting(book), kept=kept)
    said = [(note.where, note.sentence) for note in plan.remarks if "ticked off" in note.sentence]
    assert [where for where, _ in said] == ["W-1", "W-2"]
    assert "1 of it were ticked off" in said[0][1]
    assert "and 0 find a place" in said[0][1]


def test_worth_is_the_areas_price_where_the_book_says_none(book):
    """18 mm MDF: 42.10 for 2440 x 1220, so 1220 x 610 costs a quarter, 10.525, rounded half up."""
    board, day = book.board("18 mm MDF"), date(2026, 11, 20)
    assert piece_worth(board, 1220, 610, None, day, "EUR") == Decimal("10.53")
    assert piece_worth(board, 1220, 610, Decimal("3.50"), day, "EUR") == Decimal("3.50")
    assert piece_worth(board, 20, 20, None, date(1990, 1, 1), "EUR") == Decimal("0.01")


def test_a_plan_with_it_has_a_json_form(planned):
    material = next(as_json(m) for m in planned("galley").materials if m.filled)
    assert [w["label"] for w in material["wanted"]] == ["W-1", "W-2", "W-3"]
    assert len(material["filled"]["layouts"]) >= len(material["sheets"]["layouts"])


def test_a_jobs_own_parts_on_the_list_are_for_others_to_cut(plain, book, kept):
    own = piece("W-1", purpose=plain.job.job.name)
    asked = wanting(book, own, piece("W-2", 200, 60))
    assert [w.label for w in from_waste(make_plan(plain.job, asked, kept=kept))] == ["W-2"]
