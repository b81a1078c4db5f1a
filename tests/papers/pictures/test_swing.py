"""Leaves as they open, from above: what is the front's own is told by what it is, whatever others are called."""

import pytest

from rodbook.job.files import sample_book, sample_job
from rodbook.papers.pictures.swing import draw_swing
from rodbook.plan import front_swing, plan_parts


@pytest.mark.parametrize("name", ["window trim", "pipe lining", "radiator"])
def test_what_stands_near_is_drawn_with_its_name_whatever_it_is_called(name, read_svg):
    book, job = sample_book(), sample_job("converted-store")
    obstacle = {"name": name, "left": 900, "width": 100, "away": 60, "out": 200}
    first = type(job.openings[0]).model_validate({**job.openings[0].model_dump(), "obstacles": [obstacle]})
    plan = plan_parts(job.model_copy(update={"openings": (first,)}), book)
    found = front_swing(plan.opening(first.mark), book)
    svg = read_svg(draw_swing(found, 842.0, first.mark))
    assert svg.texts("obstacle name") == [name]
    assert len(svg.tagged("polygon", "obstacle")) == 1
    assert len(svg.tagged("polygon", "frame")) >= 2
