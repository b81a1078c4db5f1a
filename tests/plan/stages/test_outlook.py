"""Make or buy with its spread joined to a plan: agrees with what money says of the same things, and with the plan itself."""

from decimal import Decimal

import pytest

from rodbook.job.files import parse_job, sample_text
from rodbook.job.models import Making
from rodbook.money import Deciding, Way, WhatIf, makers_of
from rodbook.plan import make_plan
from rodbook.plan.analyses.capacity import weigh_plan
from rodbook.plan.stages.outlook import MOST_STANDING, other_sizes


@pytest.fixture(scope="module")
def plan(book):
    return make_plan(parse_job(sample_text("converted-store"), book), book, seconds=1, outlook=True)


def test_nothing_of_it_unless_it_is_asked_for(planned):
    assert planned("stair").outlook is None


def test_every_kind_has_its_ways_and_the_job_its_decision(plan):
    outlook = plan.outlook
    assert [entry.kind for entry in outlook.kinds] == [choice.kind for choice in plan.money.kinds]
    for kind, way in outlook.decided.mixture:
        assert (way is Way.SITE) == (plan.money.maker_of(kind) is Making.SITE)


def test_means_are_above_what_is_reckoned_without_rejects(plan):
    assert plan.outlook.decided.cost.mean > plan.money.totals.decided
    assert plan.outlook.decided.cost.nine_in_ten > plan.outlook.decided.cost.mean


def test_the_difference_that_turns_is_that_of_the_means(plan):
    for entry in plan.outlook.kinds:
        means = {way: one.cost.mean for one in entry.chances.ways for k, way in one.mixture if k is entry.kind}
        assert abs(entry.difference - (means[Way.BOUGHT] - means[Way.SITE])) <= Decimal("0.02")


def test_the_points_turn_the_decision_that_is_shown(plan):
    """Deciding from the plan's own weighing a ten-thousandth to either side of each printed point."""
    deciding = Deciding(weigh_plan(plan), plan.job.making)
    shown = {choice.kind: choice.decision for choice in plan.money.kinds}
    assert makers_of(deciding.decide()) == shown
    assert plan.outlook.turning.points
    for point in plan.outlook.turning.points:
        away = Decimal("0.0002") if point.factor > 1 else Decimal("-0.0002")
        here, beyond = (deciding.decide(WhatIf.by(point.mover, float(point.factor + step * away))) for step in (-1, 1))
        assert makers_of(here) == shown
        assert makers_of(beyond) == makers_of(dict(point.beyond)) != shown


def test_the_price_decides_by_the_mean_that_it_is_made_from(plan):
    """What is decided costs no more on average than any one kind made the other way."""
    for choice in plan.money.kinds:
        assert choice.other_way >= 0
    weighed = weigh_plan(plan)
    decided = dict(plan.outlook.decided.mixture)
    assert float(plan.outlook.decided.cost.mean) == pytest.approx(weighed.mean_cost(decided), abs=0.01)


def test_sways_come_with_the_largest_first(plan):
    widths = [sway.width for sway in plan.outlook.sways]
    assert widths == sorted(widths, reverse=True)
    assert widths[0] > 0


def test_more_sizes_mean_more_distinct_parts_and_dearer_set_ups(plan, book):
    fewest, now, own = plan.outlook.sizes
    assert now.sizes == len(plan.sizes.sizes)
    assert now.distinct == len(plan.schedule)
    assert fewest.sizes <= now.sizes <= own.sizes <= len(plan.openings)
    rates = book.workshops[0].rates[0]
    assert all(choice.decision is Making.BOUGHT for choice in plan.money.kinds)
    for cost in plan.outlook.sizes:
        assert cost.set_ups == cost.distinct * rates.set_up


def test_sizes_are_not_counted_out_for_one_opening_or_for_too_many(plan):
    import dataclasses

    entry = next(e for e in plan.openings if e.size)
    for many in (1, MOST_STANDING + 1):
        assert other_sizes(plan.job, dataclasses.replace(plan, openings=(entry,) * many)) == []
