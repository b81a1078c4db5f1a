"""Where the decision turns: each printed value is tried on both sides, by deciding there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.job import Book, Workshop
from rodbook.job.models import Making
from rodbook.money import Deciding, MaterialUsage, Mover, Way, WhatIf, points_in_words, turning_points, weighing
from rodbook.setout import PartKind, ScheduleLine

DAY = date(2026, 11, 2)
DOOR, PANEL = PartKind.DOOR, PartKind.PANEL
type LineMaker = Callable[..., ScheduleLine]
type UsageMaker = Callable[..., MaterialUsage]


def shop_of(part: str, delivery: str, least: str, board: str = "20") -> Workshop:
    rates = {
        "since": "2026-01-01",
        "source": "test",
        "set_up": "5",
        "part": part,
        "edge_m": "1",
        "boring": "1",
        "coat_m2": "4",
        "delivery": delivery,
        "least_order": least,
        "board_m2": {"22 mm MDF": board, "18 mm MDF": board},
    }
    return Workshop.model_validate({"name": "Mill Shed", "lead_days": 5, "rates": [rates]})


@pytest.fixture(scope="module")
def job(line: LineMaker, usage_of: UsageMaker) -> tuple[list[ScheduleLine], list[MaterialUsage]]:
    lines = [
        line("door", cups=3, coats=2, edges=("left", "right"), openings=[("C1", 5)]),
        line("lining leg", stock="18 mm MDF", width=120.0, plate_holes=6, openings=[("C1", 10)], mark="G1"),
        line("panel", stock="18 mm MDF", length=900.0, width=450.0, openings=[("C2", 2)], mark="P1"),
    ]
    return lines, [usage_of([x for x in lines if x.part.stock == s]) for s in ("22 mm MDF", "18 mm MDF")]


def deciding_of(job: Any, book: Book, shop: Workshop | None, **making: Making) -> Deciding:
    return Deciding(weighing(*job, book, DAY, shop, {}), making)


PRICES = {
    "part": st.integers(0, 40).map(str),
    "delivery": st.integers(0, 200).map(str),
    "least": st.integers(0, 600).map(str),
    "board": st.integers(5, 60).map(str),
}


@settings(max_examples=40, deadline=None)
@given(prices=st.fixed_dictionaries(PRICES), day=st.floats(0.2, 4.0), charges=st.floats(0.2, 4.0))
def test_the_decision_is_the_cheapest_of_all(
    book: Book, job: Any, prices: dict[str, str], day: float, charges: float
) -> None:
    deciding = deciding_of(job, book, shop_of(**prices))
    what_if = WhatIf(crew_day=day, workshop=charges)
    kinds = list(deciding.weighed.ways)
    every = [dict(zip(kinds, ways, strict=True)) for ways in product((Way.SITE, Way.BOUGHT), repeat=len(kinds))]
    least = min(deciding.cost(mixture, what_if) for mixture in every)
    assert deciding.cost(deciding.decide(what_if), what_if) == pytest.approx(least, abs=1e-3)


def test_what_if_nothing_moves_is_the_mean_of_what_is_weighed(book: Book, job: Any) -> None:
    deciding = deciding_of(job, book, shop_of("5", "40", "100"))
    for ways in product((Way.SITE, Way.BOUGHT), repeat=3):
        mixture = dict(zip(deciding.weighed.ways, ways, strict=True))
        assert deciding.cost(mixture) == pytest.approx(deciding.weighed.mean_cost(mixture))


@settings(max_examples=40, deadline=None)
@given(prices=st.fixed_dictionaries(PRICES))
def test_every_point_turns_the_decision_on_its_two_sides(book: Book, job: Any, prices: dict[str, str]) -> None:
    """A ten-thousandth this side of each point it is decided as it says, and beyond it as it says; between, nothing turns."""
    deciding = deciding_of(job, book, shop_of(**prices))
    whole, kinds = turning_points(deciding, currency="EUR")
    now = deciding.decide()
    assert dict(whole.decided) == now
    for point in whole.points:
        assert dict(point.before) == now
        factor = float(point.factor)
        away = 2e-4 if factor > 1 else -2e-4
        assert deciding.decide(WhatIf.by(point.mover, factor - away)) == now
        assert deciding.decide(WhatIf.by(point.mover, factor + away)) != now
        for share in (0.25, 0.5, 0.75):
            assert deciding.decide(WhatIf.by(point.mover, 1 + share * (factor - 1))) == now
    for kind, found in kinds.items():
        for point in found.points:
            assert dict(point.beyond)[kind] is not now[kind]
            away = 2e-4 if point.factor > 1 else -2e-4
            assert deciding.decide(WhatIf.by(point.mover, float(point.factor) - away))[kind] is now[kind]
    for mover, end in product(Mover, (0.05, 10.0)):
        if deciding.decide(WhatIf.by(mover, end)) != now:
            assert any(p.mover is mover and (p.factor > 1) == (end > 1) for p in whole.points)


def test_a_crew_day_is_moved_in_the_book_itself(book: Book, job: Any) -> None:
    """The printed day value, put into the book a few pennies to either side, is decided otherwise there and not here."""
    shop = shop_of("12", "40", "100")
    whole, _ = turning_points(deciding_of(job, book, shop), currency="EUR")
    (point,) = [p for p in whole.points if p.mover is Mover.CREW_DAY][:1]
    assert point.day_value is not None

    def decided(day: Decimal) -> Any:
        rates = tuple(
            rate.model_copy(update={"value": float(day) / 8}) if rate.name == "crew hour" else rate
            for rate in book.rates
        )
        return deciding_of(job, book.model_copy(update={"rates": rates}), shop).decide()

    near = Decimal("0.30") if point.factor > 1 else Decimal("-0.30")
    assert decided(point.day_value - near) == dict(point.before) == decided(whole.day_now)
    assert decided(point.day_value + near) == dict(point.beyond) != dict(point.before)


def test_sentences_say_what_is_made_otherwise(book: Book, job: Any) -> None:
    whole, kinds = turning_points(deciding_of(job, book, shop_of("12", "40", "100")), currency="EUR")
    told = points_in_words(whole, "EUR")
    assert len(told) >= len(list(Mover))
    for point, sentence in zip(whole.points, [t for t in told if t.startswith("The decision turns")], strict=True):
        assert all(str(kind) in sentence for kind, _ in point.turned)
    assert all(
        "door" in t for t in points_in_words(kinds[DOOR], "EUR", kind=DOOR) if t.startswith("The decision turns")
    )


def test_nothing_to_decide_is_said(book: Book, job: Any) -> None:
    whole, kinds = turning_points(deciding_of(job, book, None), currency="EUR")
    assert (whole.free, whole.points) == (False, ())
    assert points_in_words(whole, "EUR") == ("The job leaves nothing to decide between, so no price turns it.",)
    assert points_in_words(kinds[PANEL], "EUR", kind=PANEL) == (
        "It leaves nothing to decide between, so no price turns it.",
    )
    asked = deciding_of(job, book, shop_of("1", "0", "0"), panel=Making.SITE)
    assert PANEL not in asked.free
    assert asked.decide()[PANEL] is Way.SITE
    assert replace(asked, making={}).free != asked.free
