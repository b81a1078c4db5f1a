"""Make or buy with its spread: means against closed forms worked out here, and what must hold whatever the draws."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.models import Making
from rodbook.money import (
    Chances,
    LogNormal,
    MaterialUsage,
    Way,
    Weighing,
    chances,
    difference_of,
    set_up_of_a_size,
    sways,
    weighing,
)
from rodbook.setout import PartKind, ScheduleLine

DAY = date(2026, 11, 2)
ALL_ROUND = ("top", "bottom", "left", "right")
D = Decimal
type LineMaker = Callable[..., ScheduleLine]
type UsageMaker = Callable[..., MaterialUsage]

SPREADS = {"size a part": 6.0, "apply a coat": 10.5, "prepare edges": 5.0}
OTHERS = {
    "interruptions": (6, "minutes/hour of work", 12),
    "lead time": (1, "times what is said", 1.5),
    "rejects, all on site": (0.05, "share of parts", None),
    "rejects, bought finished and bored": (0.02, "share of parts", None),
    "painter's preparation, all on site": (4, "minutes/m2", None),
    "painter hour": (33, "currency/hour", None),
}


def make_book(raw: dict[str, Any], spreads: dict[str, float], others: dict[str, Any]) -> Book:
    rates = [r | ({"nine_in_ten": spreads[r["name"]]} if r["name"] in spreads else {}) for r in raw["rates"]]
    rates += [
        {"name": n, "value": v, "unit": u, "since": "2026-01-05", "source": "test", "nine_in_ten": q}
        for n, (v, u, q) in others.items()
    ]
    return Book.model_validate({**raw, "rates": rates})


@pytest.fixture(scope="module")
def spread_book(raw_book: dict[str, Any]) -> Book:
    return make_book(raw_book, SPREADS, OTHERS)


@pytest.fixture(scope="module")
def job(line: LineMaker, usage_of: UsageMaker) -> tuple[list[ScheduleLine], list[MaterialUsage]]:
    doors = line(openings=[("C1", 8), ("C2", 4)], cups=4, coats=2, edges=ALL_ROUND)
    panels = line("panel", openings=[("P1", 2)], mark="X2")
    both = [doors, panels]
    return both, [usage_of(both, sheets=8, cut_m=90.0)]


@pytest.fixture(scope="module")
def weighed(spread_book: Book, job: Any) -> Weighing:
    return weighing(*job, spread_book, DAY, spread_book.workshops[0], {})


@pytest.fixture(scope="module")
def found(spread_book: Book, job: Any) -> Chances:
    return chances(*job, spread_book, DAY, spread_book.workshops[0], {}, seed=3)


def likely_of(found: Chances, kind: str, way: Way):  # type: ignore[no-untyped-def]
    members = next(k for k in found.kinds if k.kind == kind)
    return next(w for w in members.ways if w.mixture[0][1] is way)


def test_the_mean_on_site_is_the_closed_form(weighed: Weighing, found: Chances) -> None:
    cost = weighed.ways[PartKind.DOOR][Way.SITE]

    def mean(name: str, middle: float, nine: float) -> float:
        sigma = math.log(nine / middle) / 1.2815515655446004
        return math.exp(sigma**2 / 2)

    factors = {
        "size a part": mean("size a part", 4, 6),
        "apply a coat": mean("apply a coat", 7, 10.5),
        "prepare edges": mean("prepare edges", 3.5, 5),
    }
    minutes = sum(float(x.minutes) * factors.get(x.rate_name, 1.0) for x in cost.site)
    lost = 1 + 6 / 60 * mean("interruptions", 6, 12)
    again = 1 + 0.05 / 0.95  # rejects before twelve are right: 12 x 0.05 / 0.95
    money = sum(float(x.amount) for x in cost.site if not x.minutes)
    painter = float(cost.coated_m2) * 4 / 60 * 33
    expected = (minutes / 60 * lost * 38 + money) * again + painter
    cost_found = likely_of(found, "door", Way.SITE).cost
    assert float(cost_found.mean) == pytest.approx(expected, abs=0.006)
    assert float(cost_found.drawn_mean) == pytest.approx(expected, rel=1e-3)


def test_a_single_spread_gives_the_lognormal_itself(raw_book: dict[str, Any], job: Any) -> None:
    book = make_book(raw_book, {}, {"lead time": (1, "times what is said", 1.5)})
    answer = chances(*job, book, DAY, book.workshops[0], {}, seed=1)
    days = likely_of(answer, "panel", Way.BOUGHT).days
    spread = LogNormal.of(12, 18)
    for figure, exact in (
        (days.mean, spread.mean),
        (days.drawn_mean, spread.mean),
        (days.one_in_ten, spread.quantile(0.1)),
        (days.middle, 12),
        (days.nine_in_ten, 18),
    ):
        assert float(figure) == pytest.approx(exact, abs=0.011)


def test_remakes_are_negative_binomial(found: Chances) -> None:
    remakes = likely_of(found, "door", Way.SITE).remakes
    assert float(remakes.mean) == pytest.approx(12 * 0.05 / 0.95, abs=0.006)
    assert float(remakes.drawn_mean) == pytest.approx(12 * 0.05 / 0.95, abs=0.006)
    # chance of none at all: 0.95^12 = 0.54, so the middle is zero, and 0.9 falls to two
    assert (remakes.middle, remakes.nine_in_ten) == (0, 2)


def test_every_mean_agrees_with_its_draws(found: Chances) -> None:
    everything = [w for k in found.kinds for w in k.ways] + [found.best, *found.pure]
    for one in everything:
        for figures in (one.cost, one.crew_days, one.painter_hours, one.remakes):
            assert float(figures.drawn_mean) == pytest.approx(float(figures.mean), rel=2e-3, abs=0.011)
            assert figures.one_in_ten <= figures.middle <= figures.nine_in_ten


def test_what_goes_out_adds_up_to_the_cost(found: Chances) -> None:
    for one in (found.best, *found.pure):
        assert float(sum(c.amount for c in one.cash)) == pytest.approx(float(one.cost.mean), abs=0.03)
        assert [c.day for c in one.cash] == sorted(c.day for c in one.cash)


def test_the_best_mixture_is_the_best_of_all(weighed: Weighing) -> None:
    kinds = list(weighed.ways)
    costs = {
        ways: weighed.mean_cost(dict(zip(kinds, ways, strict=True)))
        for ways in itertools.product(*(weighed.ways[k] for k in kinds))
    }
    assert weighed.mean_cost(weighed.best()) == pytest.approx(min(costs.values()))


@settings(max_examples=20, deadline=None)
@given(least=st.integers(0, 1500), delivery=st.integers(0, 300))
def test_the_best_mixture_under_any_charges(weighed: Weighing, least: int, delivery: int) -> None:
    rates = weighed.workshop_rates
    assert rates is not None
    other = replace(
        weighed,
        workshop_rates=rates.model_copy(update={"least_order": D(least)}),
        setting=replace(weighed.setting, delivery=float(delivery)),
    )
    kinds = list(other.ways)
    every = (dict(zip(kinds, w, strict=True)) for w in itertools.product(*(other.ways[k] for k in kinds)))
    assert other.mean_cost(other.best()) == pytest.approx(min(other.mean_cost(m) for m in every))


def test_the_ways_that_make_sense(weighed: Weighing) -> None:
    assert list(weighed.ways[PartKind.DOOR]) == list(Way)
    # a panel without coats, edges and borings is not finished out, and bought cut is all of it
    assert list(weighed.ways[PartKind.PANEL]) == [Way.SITE, Way.BOUGHT]
    doors = weighed.ways[PartKind.DOOR]
    assert doors[Way.SITE].minutes > doors[Way.BOUGHT_CUT].minutes > doors[Way.BOUGHT].minutes == 0
    names = {line.name for line in (*doors[Way.FINISHED_OUT].site, *doors[Way.FINISHED_OUT].bought)}
    assert {"material", "bore cups", "edges", "coats"} <= names
    assert not {"apply coats", "paint", "prepare edges", "borings", "board"} & names


def test_the_same_seed_says_the_same(found: Chances, spread_book: Book, job: Any) -> None:
    assert chances(*job, spread_book, DAY, spread_book.workshops[0], {}, seed=3) == found
    other = chances(*job, spread_book, DAY, spread_book.workshops[0], {}, seed=4)
    assert other.best.cost.mean == found.best.cost.mean
    assert (found.draws, found.varying[-1]) == (16384, "lead time")


def test_the_job_may_ask_for_a_way(spread_book: Book, job: Any) -> None:
    asked = {"door": Making.SITE, "panel": Making.BOUGHT}
    answer = chances(*job, spread_book, DAY, spread_book.workshops[0], asked)
    assert answer.best.mixture == ((PartKind.DOOR, Way.SITE), (PartKind.PANEL, Way.BOUGHT))
    assert answer.buying_cheaper is None


def test_without_a_workshop_all_is_made_on_site(book: Book, job: Any) -> None:
    answer = chances(*job, book, DAY, None, {}, draws=64)
    assert {w for _, w in answer.best.mixture} == {Way.SITE}
    assert all(k.buying_cheaper is None for k in answer.kinds)
    assert answer.best.cost.one_in_ten == answer.best.cost.nine_in_ten == answer.best.cost.mean
    assert str(answer.remarks[0]) == "The book has no spread for any rate, so only rejects make the cost vary."


def test_shares_of_rejects_may_come_from_elsewhere(spread_book: Book, job: Any) -> None:
    args = (*job, spread_book, DAY, spread_book.workshops[0], {})
    none = chances(*args, rejects=lambda _kind, _way: 0.0)
    assert likely_of(none, "door", Way.SITE).remakes.nine_in_ten == 0
    assert likely_of(none, "door", Way.SITE).cost.mean < likely_of(chances(*args), "door", Way.SITE).cost.mean


# --- what decides -------------------------------------------------------------------------------------------------

SITE = {PartKind.DOOR: Way.SITE, PartKind.PANEL: Way.SITE}
BOUGHT = {PartKind.DOOR: Way.BOUGHT, PartKind.PANEL: Way.BOUGHT}


def test_nothing_moves_a_mixture_against_itself(weighed: Weighing) -> None:
    assert difference_of(weighed, SITE, SITE, currency="EUR") == 0
    assert sways(weighed, SITE, SITE, currency="EUR") == ()


def test_sways_stand_around_the_difference_the_widest_first(weighed: Weighing) -> None:
    now = difference_of(weighed, BOUGHT, SITE, currency="EUR")
    found = sways(weighed, BOUGHT, SITE, currency="EUR")
    assert [s.width for s in found] == sorted((s.width for s in found), reverse=True)
    assert {"apply a coat", "size a part", "the workshop's charges", "crew hour"} <= {s.name for s in found}
    for one in found:
        assert min(one.low, one.high) <= now <= max(one.low, one.high)
        assert one.turns == ((one.low < 0) != (one.high < 0))


def test_one_more_size_in_money(weighed: Weighing) -> None:
    parts = {PartKind.DOOR: 2, PartKind.PANEL: 1}
    # on site 20 minutes at 38.00 an hour, 12.67 each; at the workshop 9.00 each
    assert set_up_of_a_size(weighed, SITE, parts, currency="EUR") == D("38.00")
    assert set_up_of_a_size(weighed, BOUGHT, parts, currency="EUR") == D("27.00")


def test_mixtures_of_other_kinds_are_refused(weighed: Weighing) -> None:
    with pytest.raises(InputError) as caught:
        difference_of(weighed, SITE, {PartKind.DOOR: Way.SITE}, currency="EUR")
    assert str(caught.value) == ("mixtures: the two that are held against each other must be of the same kinds of part")
