"""What a change costs: before anything is made, and after."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.models import Making
from rodbook.money import CostItem, MaterialUsage, PriceRules, change_order, make_or_buy
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
RULES = PriceRules(mark_up=D("0.25"))


@pytest.fixture(scope="module")
def plan(book: Book, line: Callable[..., ScheduleLine], usage_of: Callable[..., MaterialUsage]) -> Any:
    def make(doors: int, *, width: float = 500.0, way: Making = Making.BOUGHT, panels: int = 2) -> Any:
        lines = [
            line(openings=[("C1", doors)], coats=1, width=width),
            line("panel", openings=[("P1", panels)], mark="X2"),
        ]
        money = make_or_buy(lines, [usage_of(lines)], book, DAY, book.workshops[0], {"door": way, "panel": Making.SITE})
        return lines, money

    return make


def test_one_more_opening_before_anything_is_ordered(plan: Any, book: Book) -> None:
    before, after = plan(10), plan(12)
    found = change_order("one more cupboard", before, after, RULES, day=DAY, workshop=book.workshops[0])
    doors = next(line for line in found.lines if line.kind is PartKind.DOOR)
    assert (doors.stays, doors.dropped, doors.added) == (10, 0, 2)
    offers = [m.choice_of(PartKind.DOOR).bought.amount for _, m in (before, after)]
    assert doors.cost == offers[1] - offers[0]
    # the order's own delivery is paid already in both plans
    assert "order and delivery" not in [line.name for line in found.price.lines]
    assert found.price.net == sum(line.net for line in found.price.lines)
    assert found.cost == found.price.cost


def test_what_is_ordered_already_is_not_saved(plan: Any, book: Book) -> None:
    found = change_order(
        "wider doors", plan(10), plan(10, width=520.0), RULES, day=DAY, made=[PartKind.DOOR], workshop=book.workshops[0]
    )
    doors = next(line for line in found.lines if line.kind is PartKind.DOOR)
    assert (doors.stays, doors.dropped, doors.added) == (0, 10, 10)
    offer = plan(10, width=520.0)[1].choice_of(PartKind.DOOR).bought.amount
    assert doors.cost == offer  # all ten anew
    assert doors.sentence == (
        f"door: 10 new and 10 fall away; they are made already, so nothing is saved: {doors.cost} EUR more."
    )
    charges = next(line for line in found.price.lines if line.name == "order and delivery")
    assert charges.cost == 85 + max(D(0), 250 - offer)


def test_less_is_a_credit_while_nothing_is_made(plan: Any) -> None:
    found = change_order("one cupboard less", plan(10, way=Making.SITE), plan(8, way=Making.SITE), RULES, day=DAY)
    assert found.cost < 0
    assert found.price.net < 0
    assert next(x for x in found.lines if x.kind is PartKind.DOOR).sentence.endswith("EUR less.")


def test_made_on_site_costs_a_part_what_a_part_costs(plan: Any) -> None:
    before, after = plan(10, way=Making.SITE), plan(12, way=Making.SITE)
    found = change_order("two more", before, after, RULES, day=DAY, made=[PartKind.DOOR])
    site = after[1].choice_of(PartKind.DOOR).site
    doors = next(line for line in found.lines if line.kind is PartKind.DOOR)
    assert doors.cost == (site.amount / 6).quantize(D("0.01"))
    assert doors.crew_hours == site.crew_hours / 6


def test_other_work_goes_along_and_nothing_is_refused(plan: Any) -> None:
    extra = [CostItem("measuring again", D("60.00"), D(1))]
    found = change_order("moved by an inch", plan(10), plan(10), RULES, day=DAY, extra=extra)
    assert (found.lines, found.price.net) == ((), D("75.00"))
    with pytest.raises(InputError, match="the two plans are the same, so there is nothing to be priced"):
        change_order("nothing", plan(10), plan(10), RULES, day=DAY)


def test_two_currencies_are_refused(plan: Any, raw_book: dict[str, Any]) -> None:
    lines, money = plan(10)
    with pytest.raises(InputError) as caught:
        change_order("x", (lines, replace(money, currency="GBP")), (lines, money), RULES, day=DAY)
    assert str(caught.value) == "change: one plan is in GBP and the other in EUR; plan both by the same book"
