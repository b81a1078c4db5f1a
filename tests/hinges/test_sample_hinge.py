"""The sample book's hinge, counts and margins are those of the trade that tests/published holds the functions to."""

import pytest

from rodbook.hinges import COMMON_COUNTS, cup_borings, plate_borings
from rodbook.job import Book
from rodbook.job.files import parse_book, sample_book_text
from rodbook.working import Measure


@pytest.fixture(scope="module")
def book() -> Book:
    return parse_book(sample_book_text())


def test_its_holes_are_where_catalogues_have_them(book):
    hinge = book.hinge("cup hinge")
    cup, above, below = cup_borings(hinge, [Measure(100, "y")], Measure(400, "w"), edge="left")
    assert cup.diameter == 35
    assert 3 <= hinge.cup_edge <= 8
    assert below.y.value - above.y.value == 45
    assert above.x.value - cup.x.value == 9.5
    flush = plate_borings(hinge, [Measure(100, "y")], Measure(120, "w"), front="left")
    assert {b.diameter for b in flush} == {5}
    assert flush[1].y.value - flush[0].y.value == 32
    assert flush[0].x.value == 37


def test_its_counts_are_the_published_ones(book):
    """Its last row reaches on to 8 ft, as high leaves get no fewer than the highest that guides speak of."""
    rows = [(row.hinges, row.height, row.mass) for row in book.hinge_counts]
    published = [(row.hinges, row.height, row.mass) for row in COMMON_COUNTS]
    assert rows[:-1] == published[:-1]
    assert rows[-1] == (published[-1][0], 2438, published[-1][2])


def test_lay_on_margins(book):
    """A 4 mm margin all round is usual with 22 mm doors on 18 mm linings (common practice)."""
    build_up = book.build_up("lay-on within trim, painted")
    assert build_up.margin == 4
    assert book.board(build_up.leaf_board).thickness == 22
    assert book.board(build_up.lining_board).thickness == 18
