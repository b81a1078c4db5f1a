"""A family is one folder and one line: a toy of our own is set out, drawn and priced, and then is no family any more."""

import ast
from pathlib import Path

import pytest
from pydantic import ValidationError

import rodbook
from rodbook.errors import Infeasible, InputError
from rodbook.job import Book
from rodbook.job.build_ups.registry import families as words
from rodbook.job.files import parse_book, parse_job, sample_book_text
from rodbook.job.files.schema import book_schema
from rodbook.papers.pictures.front import draw_front
from rodbook.papers.pictures.section import draw_section
from rodbook.plan import make_plan
from rodbook.plan.stages.openings import stock_of
from rodbook.plan.stages.swings import front_swing
from rodbook.setout import FAMILIES, DimensionName, PartKind, RakedFrame, family_of, set_out
from rodbook.setout.family import families, forget, register
from rodbook.working import Measure

from .toy import TOY, ToyBuildUp

TOY_TEXT = """
[[build_ups]]
name = "toy, bare"
family = "toy"
gap = 4
leaf_board = "22 mm MDF"
lining_board = "18 mm MDF"
lining_depth = 140
meeting_gap = 3
floor_clearance = 0
hinge = "cup hinge"
hinge_from_top = 100
hinge_from_bottom = 100
step = 0.5
packer_least = 4
packer_most = 20
packer_wanted = 8
head_packer_least = 4
head_packer_most = 30
head_packer_wanted = 10
finish = ""
source = "a test"
"""

JOB_TEXT = """
format = 1

[job]
name = "A toy house"
build_up = "toy, bare"
date = 2026-11-02

[[openings]]
mark = "T1"
leaves = 1
widths = [525, 522, 524]
heights = [2031, 2032, 2031]
"""


@pytest.fixture
def toys():
    register(TOY)
    yield
    forget(TOY)


def _book(toy=TOY_TEXT):
    before, build_ups, after = sample_book_text().partition("[[build_ups]]")
    return parse_book(f"{before}{toy}\n{build_ups}{after}")


@pytest.mark.usefixtures("toys")
def test_a_job_of_a_family_that_the_program_does_not_know_is_planned_drawn_and_priced():
    """Opening 522 x 2031 less packing: the lining's clear size less 4 all round is the leaf."""
    book = _book()
    assert type(book.build_up("toy, bare")) is ToyBuildUp
    assert family_of(book.build_up("toy, bare")) is TOY
    plan = make_plan(parse_job(JOB_TEXT, book), book)
    (entry,) = plan.openings
    front = entry.set_out
    assert front is not None
    leaf = next(p.part for p in front.parts if p.part.kind is PartKind.DOOR)
    assert leaf.width.value == pytest.approx(front.clear_width.value - 8)
    assert leaf.length.value == pytest.approx(front.clear_height.value - 8, abs=0.5)
    assert front.dimension(DimensionName.GAP_OVER).name == "gap over the toy"
    assert [gap.asked.value for gap in front.seen] == [4, 4, 0], (
        "under the leaf the floor clearance is asked, of any family"
    )
    (door,) = front.assembly.of(PartKind.DOOR)
    assert door.deep == (-22.0, 0.0), "it says that it stands within its lining"
    legs = {line.mark for line in plan.schedule if line.part.kind is PartKind.LINING_LEG}
    assert len(legs) == 2
    build_up = book.build_up("toy, bare")
    assert draw_front(front, "T1").width > 0
    section = draw_section(front, build_up, "T1", packer_mm=8.0, packer_words="packer 8")
    assert section.title == "Level section of T1: hinge side and closing side"
    swing = front_swing(entry, book)
    assert swing is not None
    assert swing.enough


@pytest.mark.usefixtures("toys")
def test_a_book_says_what_is_wrong_in_a_build_up_of_it():
    with pytest.raises(InputError, match=r"build_ups\[1\].gap \(toy, bare\)"):
        _book(TOY_TEXT.replace("gap = 4", "gap = 400"))
    assert "toy" in str(book_schema()["$defs"]["ToyBuildUp"]["properties"]["family"])


@pytest.mark.usefixtures("toys")
def test_a_raked_head_is_refused_where_the_family_has_none():
    book = _book()
    build_up = book.build_up("toy, bare")
    frame = RakedFrame(Measure(522, "w"), Measure(2231, "l"), Measure(2131, "r"), 1, "left", sill=False)
    with pytest.raises(Infeasible, match="under a raked head"):
        set_out(build_up, stock_of(build_up, book), frame)


def test_it_is_no_family_once_it_is_forgotten():
    register(TOY)
    forget(TOY)
    assert families() == FAMILIES
    assert "toy" not in words()
    with pytest.raises(InputError, match="family of this build-up is unknown"):
        _book()
    with pytest.raises(ValidationError):
        Book.model_validate({"build_ups": [{"family": "toy"}]})


def test_no_two_families_have_one_name():
    class Another(ToyBuildUp):
        """A toy that takes another's word."""

    register(TOY)
    try:
        with pytest.raises(ValueError, match="registered already"):
            register(TOY.__class__(**{**vars(TOY), "model": Another}))
    finally:
        forget(TOY)


def test_nothing_looks_which_family_a_build_up_is_of():
    """35 places asked a build-up for its class; the registry alone knows the families."""
    names = {"InsetBuildUp", "LayOnBuildUp", "PlainLayOnBuildUp", "BuildUpBase"}
    source = Path(rodbook.__file__).parent
    asked = [
        f"{file.relative_to(source)}:{node.lineno}"
        for file in source.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text()))
        if isinstance(node, ast.Call)
        and getattr(node.func, "id", "") == "isinstance"
        and names & {getattr(name, "id", "") for name in ast.walk(node.args[1])}
    ]
    assert asked == []
