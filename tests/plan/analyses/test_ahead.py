"""Framing ahead: leaves near the wanted ones that waste less board, against what can be reckoned by hand."""

from decimal import Decimal

import pytest

from rodbook.boards import Saw
from rodbook.errors import InputError
from rodbook.job.files import parse_job, sample_text
from rodbook.plan import frame_ahead, plan_parts
from rodbook.plan.analyses.ahead import sheet_steps


@pytest.fixture
def house(book):
    """The timber house with one run of eight leaves 602 mm wide on its first floor and nothing else."""
    job = parse_job(sample_text("timber-house"), book)
    first = job.openings[0]
    openings = tuple(
        first.model_copy(update={"mark": f"F{k}", "leaves": 2, "leaf": (602.0, 2100.0), "clear": None})
        for k in range(1, 5)
    )
    return job.model_copy(update={"openings": openings, "panels": (), "runs": ()})


def test_two_leaves_to_a_sheet_are_found_by_hand(house, book):
    """A sheet 1220 wide, 10 off each edge, kerf 3.2: two leaves of (1200 - 3.2) / 2 = 598.4, down to 598."""
    board = book.board(book.build_up(house.job.build_up).leaf_board)
    across, along = sheet_steps(board, Saw(kerf=book.saw.kerf, edge_trim=book.saw.edge_trim), 0.5)
    narrow = min(sheet.width for sheet in board.sheets)
    usable = narrow - 2 * book.saw.edge_trim
    half = (usable - book.saw.kerf) / 2
    assert any(half - 0.5 < size <= half for size in across)
    assert all(2 * size + book.saw.kerf <= usable for size in across if size <= half)
    assert max(along) > max(across)


def test_a_leaf_a_little_narrower_saves_sheets(house, book):
    (ahead,) = frame_ahead(house, book, less=10, more=0)
    assert ahead.openings == ("F1", "F2", "F3", "F4")
    assert ahead.wanted.leaf == (602.0, 2100.0)
    assert ahead.best.cost <= ahead.wanted.cost
    assert [offer.cost for offer in ahead.offers] == sorted(offer.cost for offer in ahead.offers)
    for offer in ahead.offers:
        assert 592 <= offer.leaf[0] <= 602
        assert 0 < offer.used <= 1
    best = house.model_copy(
        update={"openings": tuple(o.model_copy(update={"leaf": ahead.best.leaf}) for o in house.openings)}
    )
    framed = {(e.framed.width.value, e.framed.height.value) for e in plan_parts(best, book).openings}
    assert framed == {ahead.best.framed}


def test_a_job_that_stands_has_nothing_to_frame(book):
    assert frame_ahead(parse_job(sample_text("converted-store"), book), book) == ()


@pytest.mark.parametrize(("less", "more", "where"), [(-1, 5, "less"), (5, float("nan"), "more"), (5, 900, "more")])
def test_a_range_that_makes_no_sense_is_refused(house, book, less, more, where):
    with pytest.raises(InputError, match=f"{where}: .* makes no sense here; write 0 to 500"):
        frame_ahead(house, book, less=less, more=more)


def test_money_is_money(house, book):
    assert all(
        isinstance(offer.cost, Decimal) for ahead in frame_ahead(house, book, less=0, more=0) for offer in ahead.offers
    )


@pytest.mark.parametrize("widths", [{"leaf_shares": (1.0, 2.0)}, {"leaf_widths": (300.0, 0.0)}])
def test_a_front_of_uneven_leaves_is_not_framed_as_if_they_were_equal(house, book, widths):
    """It was offered a leaf as wide as its first one, and a frame for two of those: 272 and 544 mm were to go into twice 272."""
    asked = {"leaf": None, "clear": (800.0, 1800.0), **widths}
    openings = (house.openings[0], house.openings[1].model_copy(update=asked))
    job = house.model_copy(update={"openings": openings})
    leaves = plan_parts(job, book).openings[1].set_out.leaf_sizes
    assert len({leaf.width.value for leaf in leaves}) == 2
    assert [ahead.openings for ahead in frame_ahead(job, book, less=4, more=0)] == [("F1",)]
