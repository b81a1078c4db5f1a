"""How linings are packed: one thickness for one place, timber under every packer, and what the book's packers don't fill."""

import pytest

from rodbook.papers.openings.content import openings_content
from rodbook.papers.survey.content import packers_content
from rodbook.plan import plan_parts
from rodbook.plan.analyses.offers import offered
from rodbook.plan.stages.packing import out_of_range


def _only(planned, **changed):
    plan = planned("converted-store")
    front = plan.job.openings[0].model_copy(update=changed)
    return plan_parts(plan.job.model_copy(update={"openings": (front,)}), plan.book)


def test_both_papers_give_one_thickness_for_one_place(planned):
    """Foot, middle and head on the one, fixings on the other: between two of the one the other lies on the line between them."""
    for entry in planned("converted-store").openings:
        tall = entry.wall.left_height_mm
        for side, ends in (("left", entry.packers.left_mm), ("right", entry.packers.right_mm)):
            for packer in entry.wall.packers_at(side):
                share = 2 * packer.at_mm / tall
                low, high, rest = (*ends[:2], share) if share <= 1 else (*ends[1:], share - 1)
                # The lining is as high as the middle of the opening is not: the outline's own middle may lie a little beside it.
                assert packer.size_mm == pytest.approx(low + rest * (high - low), abs=0.25)
        assert entry.packers.side.value <= min(*entry.packers.left_mm, *entry.packers.right_mm) + 0.01


def test_packers_under_the_foot_stand_under_timber(planned):
    """Before: at the fixings of the head, where without a sill there is nothing but floor."""
    plain = _only(planned).openings[0]
    board = 18
    assert [p.at_mm for p in plain.wall.packers_at("foot")] == [board / 2, plain.wall.width_mm - board / 2]
    sill = _only(planned, sill=True).openings[0]
    assert len(sill.wall.packers_at("foot")) > 2


def test_a_place_that_no_packer_of_the_book_fills_is_told_in_plan_and_papers(planned):
    readings = {"plumb-left": 30.0, "plumb-right": 30.0, "level-floor": 0.0, "level-head": 0.0}
    plan = _only(planned, widths=(870.0, 870.0, 870.0), heights=(2030.0,) * 3, diagonals=None, readings=readings)
    (entry,) = plan.openings
    beyond = out_of_range(entry.wall, plan.book.build_up(entry.build_up))
    assert {one.packer.side for one in beyond} == {"left", "right"}
    assert all(one.packer.size_mm > one.most_mm == 16 for one in beyond)
    said = {note.sentence for note in plan.remarks}
    assert {one.sentence for one in beyond} <= said
    (block,) = packers_content(plan).content["blocks"]
    assert [one.sentence for one in beyond] == block["cuts"]
    (block,) = openings_content(plan).content["blocks"]
    assert {one.sentence for one in beyond} <= set(block["notes"])


def test_a_job_says_how_old_its_building_is(planned):
    plan = planned("converted-store")
    new = plan.job.model_copy(update={"job": plan.job.job.model_copy(update={"age": "new"})})
    old, young = (
        offered(p.openings[0], plan.book) for p in (plan_parts(plan.job, plan.book), plan_parts(new, plan.book))
    )
    assert young.width_within_mm < 0.7 * old.width_within_mm
    assert old.helps is not None
    assert old.assumed
