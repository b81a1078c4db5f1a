"""The face for Python: what `import rodbook` gives, its page run as it stands, and nothing loaded before it is asked for."""

import doctest
import subprocess
import sys
from pathlib import Path

import pytest

import rodbook


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
    assert done.stdout.strip() == "[]"


def test_a_plan_shows_itself_in_a_notebook():
    plan = rodbook.plan_job(rodbook.sample_job("stair"), rodbook.sample_book(), seconds=0.5)
    assert "\n" not in repr(plan)
    shown = plan._repr_html_()
    assert shown.count("<tr>") == len(plan.parts) + 1
    assert "1-door-left" in shown
    with pytest.raises(rodbook.InputError, match="Z9: there is no such opening; there are S1, S2, S3"):
        rodbook.draw_opening(plan, "Z9")
