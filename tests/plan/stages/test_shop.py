"""Offcuts that a job moved: its layouts stay as they were cut, and what does not fit any more is said."""

from datetime import date

import pytest

from rodbook.job.book import Offcut
from rodbook.job.models import JobOffcut, Making
from rodbook.plan import kept_offcuts, make_plan, used_offcuts
from rodbook.plan.stages.shop import as_found

DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def kept():
    return {}


@pytest.fixture(scope="module")
def cut(planned, kept):
    """The stair with all parts cut on site; the sample book has two offcuts that it can use."""
    plan = planned("stair")
    making = {line.part.kind.value: Making.SITE for line in plan.schedule}
    return make_plan(plan.job.model_copy(update={"making": making}), plan.book, kept=kept)


def moved(plan):
    """What the shop is told once all boards are cut: the job with it, and the book after it."""
    left = [
        JobOffcut(label=label, board=k.stock, length=round(k.length, 1), width=round(k.width, 1), went="in", on=DAY)
        for k in kept_offcuts(plan)
        for label in k.labels
    ]
    used = [
        JobOffcut(label=o.label, board=board, length=o.length, width=o.width, went="out", on=DAY)
        for board, o in used_offcuts(plan)
    ]
    boards = []
    for board in plan.book.boards:
        lying = [o for o in board.offcuts if o.label not in {u.label for u in used}]
        lying += [Offcut(label=o.label, length=o.length, width=o.width) for o in left if o.board == board.name]
        boards.append(board.model_copy(update={"offcuts": tuple(lying)}))
    job = plan.job.model_copy(update={"offcuts": (*left, *used)})
    return job, plan.book.model_copy(update={"boards": tuple(boards)}), left, used


def laid(plan):
    return [(m.stock, m.maker, x.sheet, x.count, x.placed) for _, m, x in plan.layouts()]


def test_layouts_stay_as_they_were_cut(cut, kept):
    job, book, left, used = moved(cut)
    assert left
    assert used
    again = make_plan(job, book, kept=kept)
    assert laid(again) == laid(cut)
    assert again.money == cut.money
    assert [k.labels for k in kept_offcuts(again)] == [k.labels for k in kept_offcuts(cut)]
    assert not any("layouts as they are now" in note.sentence for note in again.remarks)


def test_another_job_uses_what_was_left(cut):
    _job, book, left, _used = moved(cut)
    again = make_plan(cut.job, book)
    there = {sheet.label for _, sheet in used_offcuts(again)}
    assert there & {offcut.label for offcut in left}


def test_what_does_not_fit_the_layouts_any_more_is_said(cut, kept):
    job, book, left, used = moved(cut)
    bare = job.model_copy(update={"openings": job.openings[:1], "runs": ()})
    said = {
        note.where for note in make_plan(bare, book, kept=kept).remarks if "layouts as they are now" in note.sentence
    }
    assert said
    assert said <= {offcut.label for offcut in (*left, *used)}


def test_labels_that_are_not_kept_are_not_shown_and_those_of_other_boards_follow_on(cut, kept):
    job, book, left, used = moved(cut)
    first = left[0]
    one = job.model_copy(update={"offcuts": (first, *used)})
    found = kept_offcuts(make_plan(one, book, kept=kept))
    assert [k.labels for k in found if k.stock == first.board] == [(first.label,)]
    others = [label for k in found if k.stock not in {o.board for o in one.offcuts} for label in k.labels]
    assert not set(others) & {o.label for o in (*left, *used)}


def test_a_job_that_moved_nothing_sees_the_book_as_it_is(cut):
    assert as_found(cut.book, cut.job) is cut.book


def test_a_label_that_is_on_something_else_now_is_not_put_back(cut):
    _job, book, _left, used = moved(cut)
    job = cut.job.model_copy(update={"offcuts": tuple(used)})
    assert {o.label for b in as_found(book, job).boards for o in b.offcuts} >= {o.label for o in used}
    other = Offcut(label=used[0].label, length=50, width=50)
    boards = (book.boards[0].model_copy(update={"offcuts": (other,)}), *book.boards[1:])
    seen = as_found(book.model_copy(update={"boards": boards}), job)
    assert [o for b in seen.boards for o in b.offcuts if o.label == other.label] == [other]
