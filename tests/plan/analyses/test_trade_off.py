"""The trade-off of sizes is owned by the plan: page, command and paper read it."""

import pytest

from rodbook.job.files import sample_book, sample_job
from rodbook.plan import plan_parts
from rodbook.plan.analyses.trade_off import MOST_MORE, sizes_traded
from rodbook.plan.stages.openings import packer_range


@pytest.fixture(scope="module")
def plan():
    return plan_parts(sample_job("converted-store"), sample_book())


def test_it_begins_at_the_fewest_and_packs_less_with_each_size(plan):
    (found,) = sizes_traded(plan)
    packing = [trade.choice.packing_mm for trade in found.trades]
    assert packing == sorted(packing, reverse=True)
    assert found.fewest == plan.sizes.fewest == found.now
    assert len(found.trades) <= MOST_MORE + 1
    assert set(found.openings) == {entry.opening.mark for entry in plan.openings if entry.size is not None}


def test_every_choice_serves_its_openings_with_the_packers_of_the_build_up(plan):
    (found,) = sizes_traded(plan)
    packers = packer_range(plan.book.build_up(found.build_up))
    shapes = {e.opening.mark: (e.rectangle.width.value, e.rectangle.height.value) for e in plan.openings if e.size}
    for trade in found.trades:
        for size in trade.choice.sizes:
            for mark in size.openings:
                width, height = shapes[mark]
                assert 2 * packers.side_least <= width - size.width + 1e-6
                assert width - size.width <= 2 * packers.side_most + 1e-6
                assert packers.head_least - 1e-6 <= height - size.height <= packers.head_most + 1e-6


def test_what_the_job_asks_for_is_told_beside_what_there_is():
    job = sample_job("converted-store")
    (name,) = {job.job.build_up}
    plan = plan_parts(job.model_copy(update={"sizes": {name: 5}}), sample_book())
    (found,) = sizes_traded(plan)
    assert (found.asked, found.now, found.fewest) == (5, 5, 3)


def test_openings_without_which_fewer_would_do_are_those_of_the_sizes_stage(plan):
    (found,) = sizes_traded(plan)
    for spoiler in found.spoilers:
        assert spoiler.number < found.fewest


def test_what_each_size_more_saves_adds_up_to_all_that_is_saved(plan):
    (found,) = sizes_traded(plan)
    first, *saved = found.saved_mm
    packing = [trade.choice.packing_mm for trade in found.trades]
    assert first is None
    assert sum(saved) == pytest.approx(packing[0] - packing[-1])
    assert all(one > 0 for one in saved)
