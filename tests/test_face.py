"""The face for Python: what `import rodbook` gives, its page run as it stands, and nothing loaded before it is asked for."""

import datetime
import doctest
import inspect
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

import rodbook
from rodbook.job.files import write_job


def test_the_examples_of_the_page():
    page = Path(__file__).parents[1] / "docs" / "python.md"
    failed, tried = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert tried > 10
    assert failed == 0


@pytest.mark.parametrize("name", sorted(set(rodbook.__all__) - {"__version__"}))
def test_every_name_is_there_and_documented(name):
    assert getattr(rodbook, name).__doc__


def test_it_says_what_it_has_and_has_nothing_else():
    assert dir(rodbook) == sorted(rodbook.__all__)
    with pytest.raises(AttributeError, match=r"rodbook has no 'plan_jobs'; it has .*plan_job, "):
        _ = rodbook.plan_jobs


def test_importing_it_loads_no_stage():
    code = "import sys, rodbook; print(sorted(m for m in sys.modules if m.startswith('rodbook.')))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.strip() == "['rodbook.late']"  # which knows where names live and nothing else


def test_a_plan_shows_itself_in_a_notebook():
    plan = rodbook.plan_job(rodbook.sample_job("stair"), rodbook.sample_book(), seconds=0.5)
    assert "\n" not in repr(plan)
    shown = plan._repr_html_()
    assert shown.count("<tr>") == len(plan.parts) + 1
    assert "1-door-left" in shown
    with pytest.raises(rodbook.InputError, match="Z9: there is no such opening; there are S1, S2, S3"):
        rodbook.draw_opening(plan, "Z9")


@pytest.fixture(scope="module")
def stair():
    return rodbook.plan_job(rodbook.sample_job("stair"), rodbook.sample_book(), seconds=0.5, outlook=True)


def test_what_one_holds_is_a_line_in_a_notebook(stair):
    held = [stair.job, stair.book, stair, *stair.openings, *stair.materials, rodbook.price_job(stair)]
    held += [rodbook.draw_opening(stair, "S1"), rodbook.draw_layout(stair, 1)]
    for one in held:
        assert repr(one).startswith("<")
        assert "\n" not in repr(one)
        assert len(repr(one)) < 140, repr(one)
    assert repr(stair.opening("S1")) == "<OpeningPlan 'S1': inset, painted, 597.0 × 1975.0 mm outside, 9 parts>"
    assert "18.50 h of work planned besides are not in it" in repr(rodbook.price_job(stair))


def test_every_layout_of_a_sheet_can_be_drawn_and_has_all_its_cuts_and_pieces(stair):
    for number, _, layout in stair.layouts():
        picture = ElementTree.fromstring(rodbook.draw_layout(stair, number)._repr_svg_())
        roles = [mark.get("data-role", "") for mark in picture.iter()]
        assert roles.count("raw edge") == 1
        assert sum(
            role in ("piece", "wanted") and mark.tag.endswith(("rect", "path", "polygon"))
            for role, mark in zip(roles, picture.iter(), strict=True)
        ) == len(layout.placed)
        assert "cut 1" in roles
    with pytest.raises(
        rodbook.InputError, match="layout 9: there is no layout of that number; they are numbered 1 to 2"
    ):
        rodbook.draw_layout(stair, 9)


def test_a_price_shows_its_lines(stair):
    pricing = rodbook.price_job(stair)
    shown = pricing._repr_html_()
    assert shown.count("<tr>") == len(pricing.price.lines) + 1
    assert str(pricing.price.gross) in shown


HEADER = {"name": "Cupboard", "date": datetime.date(2026, 11, 2), "build_up": "inset, painted"}
OPENING = {"mark": "C1", "leaves": 2, "widths": (842, 843, 843), "heights": [2030, 2030, 2030]}


def test_a_job_of_plain_values_is_the_job_that_its_file_would_be(tmp_path):
    made = rodbook.make_job({"job": HEADER, "openings": (OPENING,)}, rodbook.sample_book())
    path = tmp_path / "job.toml"
    path.write_text(write_job(made), "utf-8")
    assert rodbook.read_job(path, rodbook.sample_book()) == made


def test_what_is_wrong_with_plain_values_comes_at_once_with_its_places():
    wrong = {**OPENING, "widths": [84, 843, 843]}
    with pytest.raises(rodbook.InputError) as found:
        rodbook.make_job({"job": {**HEADER, "build_up": "nowhere"}, "openings": [wrong]}, rodbook.sample_book())
    said = [str(fault) for fault in found.value.faults]
    assert any(line.startswith("openings[1].widths (C1): 84 mm is less than") for line in said)
    with pytest.raises(rodbook.InputError, match="nowhere"):
        rodbook.make_job({"job": {**HEADER, "build_up": "nowhere"}, "openings": [OPENING]}, rodbook.sample_book())


@pytest.mark.parametrize(
    "values", [{}, {"job": 3}, {"job": HEADER, "openings": {"mark": "C1"}}, {"job": HEADER, 7: "x"}]
)
def test_plain_values_that_are_no_job_are_faults_too(values):
    with pytest.raises(rodbook.InputError):
        rodbook.make_job(values)


def test_the_help_names_every_function():
    functions = [name for name in rodbook.__all__ if inspect.isfunction(getattr(rodbook, name))]
    assert len(functions) > 8
    for name in functions:
        assert f"rodbook.{name}(" in rodbook.__doc__, f"help(rodbook) says nothing of {name}"
