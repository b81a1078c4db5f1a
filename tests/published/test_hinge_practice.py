"""Cup hinges against figures of the trade: common practice, no formal source."""

import tomllib
from importlib.resources import files

import pytest

from rodbook.hinges import COMMON_ARMS, cup_borings, hinge_count, lap_reached, plate_borings
from rodbook.job import Book
from rodbook.working import Measure


@pytest.fixture(scope="module")
def book() -> Book:
    return Book.model_validate(tomllib.loads((files("rodbook.job.samples") / "book.toml").read_text("utf-8")))


@pytest.mark.parametrize(
    ("edge_distance", "centre"), [(3, 20.5), (4, 21.5), (5, 22.5), (6, 23.5), (7, 24.5), (8, 25.5)]
)
def test_cup_centre_from_edge(book, edge_distance, centre):
    """B = 3 to 8 mm gives 20.5 to 25.5 mm to the centre of a 35 mm cup (catalogue table, quoted; common practice)."""
    hinge = book.hinge("cup hinge").model_copy(update={"cup_edge": edge_distance})
    (cup, *_) = cup_borings(hinge, [Measure(100, "y")], Measure(400, "w"), edge="left")
    assert cup.diameter == 35
    assert cup.x.value == centre


def test_screw_pilots(book):
    """Fixing screws 45 mm apart, 9.5 mm in from the cup-centre line (two catalogues, quoted)."""
    cup, above, below = cup_borings(book.hinge("cup hinge"), [Measure(100, "y")], Measure(400, "w"), edge="left")
    assert below.y.value - above.y.value == 45
    assert above.x.value - cup.x.value == 9.5


def test_plate_holes(book):
    """5 mm holes 32 mm apart, 37 mm from the front edge; 37 mm and the door's thickness for inset (common practice)."""
    hinge = book.hinge("cup hinge")
    flush = plate_borings(hinge, [Measure(100, "y")], Measure(120, "w"), front="left")
    inset = plate_borings(
        hinge, [Measure(100, "y")], Measure(120, "w"), front="left", further_back=Measure(22, "leaf thickness")
    )
    assert {b.diameter for b in flush} == {5}
    assert flush[1].y.value - flush[0].y.value == 32
    assert (flush[0].x.value, inset[0].x.value) == (37, 59)


@pytest.mark.parametrize(
    ("height", "hinges"), [(1015, 2), (1016, 2), (1100, 3), (1524, 3), (1600, 4), (2032, 4), (2159, 5)]
)
def test_counts_by_height(book, height, hinges):
    """2 below 1016 mm, 3 to 1524, 4 to 2032, 5 to 2159 mm (general page, inch bands converted, quoted)."""
    assert hinge_count(height, 1.0, table=book.hinge_counts) == hinges


@pytest.mark.parametrize(("mass", "hinges"), [(5, 2), (6, 3), (9, 3), (13, 4), (15, 4), (18, 5), (22, 5)])
def test_counts_by_mass(book, mass, hinges):
    """2 up to 5 kg, 3 for 6 to 9, 4 for 13 to 15, 5 for 18 to 22 kg (general do-it-yourself page, quoted)."""
    assert hinge_count(500, mass, table=book.hinge_counts) == hinges


def test_lay_on_margins(book):
    """A 4 mm margin all round is usual with 22 mm doors on 18 mm linings (common practice)."""
    build_up = book.build_up("lay-on within trim, painted")
    assert build_up.margin == 4
    assert book.board(build_up.leaf_board).thickness == 22
    assert book.board(build_up.lining_board).thickness == 18


@pytest.mark.parametrize(("boring", "height", "lap"), [(5, 0, 18), (3, 0, 16), (5, 2, 16), (6, 9, 10)])
def test_lap_formula(boring, height, lap):
    """Lap = constant + B - plate height (catalogues, quoted); the constant 13 of a straight arm is from memory."""
    assert lap_reached(13, boring, height) == lap


@pytest.mark.parametrize(
    ("arm", "low", "high"), [("straight", 0, 0), ("half cranked", 8, 9.5), ("cranked for inset", 15, 19)]
)
def test_cranks(arm, low, high):
    """Cranking 0 full overlay, 8 to 9.5 half overlay, 15 to 19 inset (catalogues, quoted)."""
    assert low <= next(a for a in COMMON_ARMS if a.name == arm).crank_mm <= high
