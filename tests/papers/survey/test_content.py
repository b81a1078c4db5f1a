"""The survey sheets and the packers, before they are set."""

import re

import pytest

from rodbook.job.readings import USUAL
from rodbook.papers import survey_sheet_pdf
from rodbook.papers.openings.content import openings_content
from rodbook.papers.survey.content import SHEET, blank_survey_content, cut_back_rows, packers_content, survey_content
from rodbook.plan import Plan, plan_parts
from rodbook.survey import upright_front


@pytest.fixture(scope="module")
def corridor(plan_of):
    return plan_of("converted-store")


def _with(plan, mark, **change):
    openings = tuple(o.model_copy(update=change) if o.mark == mark else o for o in plan.job.openings)
    return plan_parts(plan.job.model_copy(update={"openings": openings}), plan.book)


def _block(made, mark):
    return next(b for b in made.content["blocks"] if b["mark"] == mark)


def test_the_lines_of_the_sheet_are_the_numbers_on_its_drawing(corridor):
    made = blank_survey_content(corridor)
    assert len(made.content["lines"]) == len(SHEET) == 9 + len(USUAL)
    for name in made.content["pictures"]:
        numbers = re.findall(
            r'data-role="number"[^>]*>(\d+)<', made.pictures[name["file"] if isinstance(name, dict) else name]
        )
        assert sorted(map(int, numbers)) == list(range(1, len(SHEET) + 1))


def test_what_is_read_stands_in_its_box(corridor):
    made = blank_survey_content(_with(corridor, "C1", readings={"plumb-left": 3.0, "width-600": 842.5}))
    column = next(c for c in made.content["columns"] if c["mark"] == "C1")
    assert column["values"][:9] == ["842", "843", "843", "2030", "2030", "2030", "2199", "2196", "455"]
    assert column["values"][9:] == ["3", *[""] * 9]
    assert column["others"] == [["width at 600 mm", "842.5"]]


def test_a_job_without_openings_has_empty_boxes(corridor):
    bare = Plan(corridor.job.model_copy(update={"openings": ()}), corridor.book, (), None, (), (), None, (), (), ())
    made = blank_survey_content(bare)
    assert len(made.content["columns"]) == 4
    assert {value for column in made.content["columns"] for value in column["values"]} == {""}
    assert survey_sheet_pdf(bare.job, bare.book).startswith(b"%PDF")
    assert survey_content(bare).content["blocks"] == packers_content(bare).content["blocks"] == []


def test_a_misread_reading_stands_in_the_table_though_it_is_left_out(corridor):
    further = {"plumb-left": 23.0, "plumb-right": 4.0, "level-floor": 0.0, "level-head": 0.0}
    block = _block(survey_content(_with(corridor, "C1", readings=further)), "C1")
    row = next(row for row in block["rows"] if row[0] == "left side out of plumb at head")
    assert row[1] == "23.0"
    assert float(row[3]) == pytest.approx(3, abs=3)
    assert row[-1] == "left out: take it again"
    assert sum(row[0] == "left side out of plumb at head" for row in block["rows"]) == 1
    assert any(said.startswith("Take the left side out of plumb at head again") for said in block["said"])


def test_packers_are_those_of_the_wall_and_where_to_cut_is_said(corridor):
    for entry in corridor.openings:
        block = _block(packers_content(corridor), entry.opening.mark)
        told = [cell.split(" ± ")[0] for row in block["sides"] for cell in row[1:] if cell]
        assert sorted(told) == sorted(f"{p.size_mm:.1f}" for s in ("left", "right") for p in entry.wall.packers_at(s))
    wide = {"widths": (842.0, 800.0, 843.0)}
    narrowed = _with(corridor, "C1", **wide)
    entry = next(e for e in narrowed.openings if e.opening.mark == "C1")
    cut = cut_back_rows(entry, narrowed.book)
    assert cut[: len(entry.wall.cut_backs)] == [c.sentence for c in entry.wall.cut_backs]
    assert any("more than the 16 mm of the build-up" in sentence for sentence in cut)
    assert _block(packers_content(narrowed), "C1")["cuts"] == cut


def test_further_readings_and_the_working_of_what_is_offered_stand_with_the_opening(corridor):
    further = {"plumb-left": 3.0, "plumb-right": 4.0, "level-floor": 0.0}
    plan = _with(corridor, "C1", readings=further)
    block = _block(openings_content(plan), "C1")
    rows = [row for row in block["readings"] if row[0] in ("Plumb", "Level", "")]
    assert [row[:3] for row in rows] == [
        ["Plumb", "left side out of plumb at head", "3"],
        ["", "right side out of plumb at head", "4"],
        ["Level", "floor out of level at right", "0"],
    ]
    entry = next(e for e in plan.openings if e.opening.mark == "C1")
    assert block["working"] == [entry.rectangle.width.working(), entry.rectangle.height.working()]


def test_the_sheet_has_every_place_with_its_errors_and_the_largest_front_with_its_working(corridor):
    for entry in corridor.openings:
        block, shape = _block(survey_content(corridor), entry.opening.mark), entry.survey.shape
        assert [row[0] for row in block["places"]] == [v.place for v in shape.vertices]
        foot_right = next(row for row in block["places"] if row[0] == "foot right")
        assert foot_right[1:3] == [f"{shape.vertex('B').x_mm:.1f}", f"{shape.vertex('B').x_error_mm:.1f}"]
        front = upright_front(shape)
        assert block["front"] == [
            f"{front.width.working()}, ± {front.width_error_mm:.1f}",
            f"{front.left_height.working()}, ± {front.left_height_error_mm:.1f}",
        ]
        assert any(str(shape.degrees_of_freedom) in said and "to spare" in said for said in block["said"])
