"""End panels and aprons take their sizes from the front that they belong to."""

import pytest

from rodbook.job.checks import check_job
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text, write_job
from rodbook.job.models import Panel
from rodbook.plan import plan_parts

BOOK = parse_book(sample_book_text())
PLAIN = "lay-on without trim, run of cupboards"


def job_with(*panels, build_up=PLAIN):
    job = parse_job(sample_text("converted-store"), BOOK)
    header = job.job.model_copy(update={"build_up": build_up})
    return job.model_copy(update={"job": header, "openings": job.openings[:2], "panels": tuple(panels), "sizes": {}})


def test_an_end_panel_is_as_high_as_the_lining_and_flush_with_the_leaf():
    panel = Panel(mark="E1", board="18 mm MDF", kind="end panel", of="C1", side="left", scribe=12)
    plan = plan_parts(job_with(panel), BOOK)
    (line,) = [line for line in plan.schedule if dict(line.openings).get("E1")]
    front, build_up = plan.openings[0].set_out, BOOK.build_up(PLAIN)
    assert line.part.length.value == front.outer_height.value
    assert line.part.width.value == build_up.lining_depth + 22 + 12
    assert line.part.width.working().endswith(
        "+ leaf thickness 22.0 + left for scribing 12.0 = " + f"{line.part.width}"
    )
    assert (line.part.edges, line.part.ends, line.part.hand) == (
        ("front",),
        "back edge 12 mm over, for scribing",
        "left",
    )


def test_an_apron_runs_across_the_front():
    panel = Panel(mark="A1", board="18 mm MDF", kind="apron", of="C2", width=90)
    plan = plan_parts(job_with(panel, build_up="inset, painted"), BOOK)
    (line,) = [line for line in plan.schedule if dict(line.openings).get("A1")]
    assert (line.part.length.value, line.part.width.value) == (plan.openings[1].set_out.outer_width.value, 90)


@pytest.mark.parametrize(
    ("given", "field", "said"),
    [
        ({"kind": "panel"}, "length", "this is missing"),
        ({"kind": "panel", "length": 500, "width": 300, "scribe": 5}, "scribe", "only an end panel"),
        ({"kind": "apron", "of": "C1"}, "width", "this is missing: how wide the apron is"),
        ({"kind": "apron", "width": 90}, "of", "an apron belongs to a front"),
        ({"kind": "end panel", "of": "C1"}, "side", "write left or right"),
        ({"kind": "end panel", "of": "C9", "side": "left"}, "of", "there is no opening 'C9'"),
    ],
)
def test_what_a_panel_lacks_is_told_at_its_field(given, field, said):
    faults = check_job(job_with(Panel(mark="E1", board="18 mm MDF", **given)), BOOK)
    assert faults[0].where == f"panels[1].{field} (E1)"
    assert said in faults[0].what


def test_no_end_is_seen_beside_a_trim():
    panel = Panel(mark="E1", board="18 mm MDF", kind="end panel", of="C1", side="left")
    (fault,) = check_job(job_with(panel, build_up="inset, painted"), BOOK)
    assert "whose trim lies on the wall beside it" in fault.what


def test_both_are_written_and_read_back():
    job = job_with(
        Panel(mark="E1", board="18 mm MDF", kind="end panel", of="C1", side="right", scribe=10),
        Panel(mark="A1", board="18 mm MDF", kind="apron", of="C2", width=90),
    )
    assert parse_job(write_job(job), BOOK) == job
