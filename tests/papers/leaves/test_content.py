"""The paper of the leaves: like leaves together, what stands near said, every figure with what it rests on."""

import pytest

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import Obstacle
from rodbook.papers.leaves.content import leaves_content
from rodbook.plan import plan_parts


@pytest.fixture(scope="module")
def blocks():
    book = parse_book(sample_book_text())
    job = parse_job(sample_text("converted-store"), book)
    radiator = Obstacle(name="radiator", left=10, width=300, out=470, away=300, bottom=150, top=750)
    openings = tuple(o.model_copy(update={"obstacles": (radiator,)} if o.mark == "C1" else {}) for o in job.openings)
    return leaves_content(plan_parts(job.model_copy(update={"openings": openings}), book)).content["blocks"]


def test_every_opening_stands_once_and_like_ones_together(blocks):
    marks = [mark for block in blocks for mark in block["marks"].split(", ")]
    assert sorted(marks, key=lambda mark: int(mark[1:])) == [f"C{n}" for n in range(1, 15)]
    assert len(blocks) < 14


def test_what_is_near_is_said_and_what_it_stops_is_marked(blocks):
    (first,) = [block for block in blocks if "C1" in block["marks"].split(", ")]
    assert (first["marks"], first["near"]) == ("C1", "radiator")
    assert [amiss for _, amiss in first["sentences"]] == [True, False]
    assert all(not amiss for block in blocks[1:] for _, amiss in block["sentences"])


def test_every_figure_says_what_it_rests_on(blocks):
    for block in blocks:
        assert len(block["facts"]) == 7
        assert all(what and value and why for what, value, why in block["facts"])
