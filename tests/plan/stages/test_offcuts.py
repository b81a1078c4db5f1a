"""Offcuts that a job leaves: labels that are free, and a worth by hand."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from rodbook.job.book import WantedPiece
from rodbook.job.models import Making
from rodbook.plan import kept_offcuts, make_plan, offcut_worth


def test_half_of_the_cheapest_price_for_its_area(book):
    """18 mm MDF comes as 2440 x 1220 at 42.10 only: 1220 x 610 is a quarter, and half of 42.10 / 4 is 5.2625."""
    board = next(b for b in book.boards if b.offcuts)
    assert [(s.length, s.width, str(s.prices[-1].amount)) for s in board.sheets] == [(2440.0, 1220.0, "42.10")]
    assert offcut_worth(board, 1220.0, 610.0, date(2026, 11, 20), "EUR") == Decimal("5.26")
    assert offcut_worth(board, 1000.0, 500.0, date(1990, 1, 1), "EUR") == 0


def _all_on_site(plan):
    making = {part.kind.value: Making.SITE for part in (line.part for line in plan.schedule)}
    return make_plan(plan.job.model_copy(update={"making": making}), plan.book)


def test_labels_follow_on_those_in_the_book(planned):
    """The sample book has O-14 and O-17."""
    for name in ("timber-house", "stair"):
        plan = _all_on_site(planned(name))
        found = kept_offcuts(plan)
        labels = [label for kept in found for label in kept.labels]
        assert labels == [f"O-{n}" for n in range(18, 18 + len(labels))]
        layouts = [(m, x) for _, m, x in plan.layouts()]
        for kept in found:
            material, layout = layouts[kept.layout - 1]
            assert material.maker is Making.SITE
            assert (kept.length, kept.width) == (layout.largest_offcut.length, layout.largest_offcut.width)
            assert len(kept.labels) == layout.count
        assert found
    assert kept_offcuts(planned("stair")) == ()  # all bought in: the workshop keeps its own


def test_a_book_without_offcuts_begins_at_one(planned):
    plan = _all_on_site(planned("stair"))
    bare = plan.book.model_copy(
        update={"boards": tuple(b.model_copy(update={"offcuts": ()}) for b in plan.book.boards)}
    )
    first = kept_offcuts(replace(plan, book=bare))[0]
    assert first.labels[0] == "O-1"


def test_what_is_too_small_for_a_label_is_not_kept(planned):
    """The book says from which area on; 0 keeps whatever is wide enough."""
    plan = _all_on_site(planned("timber-house"))
    areas = {k: [x.length * x.width / 1e6 for x in kept_offcuts(_keeping(plan, k))] for k in (0, 0.1, 0.5, 10)}
    assert areas[10] == []
    assert len(areas[0]) >= len(areas[0.1]) >= len(areas[0.5]) > 0
    for least, found in areas.items():
        assert all(area >= least for area in found)


def _keeping(plan, least):
    return replace(
        plan, book=plan.book.model_copy(update={"saw": plan.book.saw.model_copy(update={"keep_from": least})})
    )


def test_a_label_that_a_wanted_piece_has_is_left_out(planned):
    plan = _all_on_site(planned("stair"))
    first, *others = plan.book.boards
    wanted = WantedPiece(label="o-18", length=300, width=90)
    book = plan.book.model_copy(update={"boards": (first.model_copy(update={"wanted": (wanted,)}), *others)})
    assert kept_offcuts(replace(plan, book=book))[0].labels[0] == "O-19"
