"""What a change costs: parts that stay change by nothing, and what is new is decided at what it then costs."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.models import Making
from rodbook.money import (
    CostItem,
    MaterialUsage,
    PriceRules,
    StockTaken,
    change_order,
    make_or_buy,
    site_costs,
    site_rates,
)
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
RULES = PriceRules(mark_up=D("0.25"))
DOOR, PANEL = PartKind.DOOR, PartKind.PANEL


def laid_out(lines: Sequence[ScheduleLine]) -> list[MaterialUsage]:
    """Sheets of 3 m2 at 60.00, of which two thirds come out as parts; whole ones."""
    found = []
    for stock in dict.fromkeys(line.part.stock for line in lines):
        area = math.fsum(x.part.face_m2 * x.quantity for x in lines if x.part.stock == stock)
        taken = StockTaken(stock, math.ceil(area / 2 - 1e-9), D(60), 3000.0, 1000.0)
        found.append(MaterialUsage(stock, False, (taken,), 22.0, 725.0, area))
    return found


@pytest.fixture(scope="module")
def plan(line: Callable[..., ScheduleLine], book: Book) -> Any:
    def make(doors: int, *, width: float = 500.0, way: Making = Making.BOUGHT, panels: int = 2) -> Any:
        lines = [
            line(openings=[("C1", doors)], coats=1, width=width),
            *([line("panel", openings=[("P1", panels)], length=600.0, width=400.0, mark="X2")] if panels else []),
        ]
        money = make_or_buy(lines, laid_out(lines), book, DAY, book.workshops[0], {"door": way, "panel": Making.SITE})
        return lines, money

    return make


@pytest.fixture(scope="module")
def change(book: Book) -> Any:
    def found(before: Any, after: Any, **more: Any) -> Any:
        given = {"book": book, "day": DAY, "laid_out": laid_out, "workshop": book.workshops[0], **more}
        return change_order("x", before, after[0], RULES, **given)

    return found


def line_of(found: Any, kind: PartKind) -> Any:
    return next(line for line in found.lines if line.kind is kind)


def test_one_more_opening_before_anything_is_ordered(plan: Any, change: Any) -> None:
    before, after = plan(10), plan(12)
    found = change(before, after)
    doors = line_of(found, DOOR)
    assert (doors.stays, doors.dropped, doors.added, doors.maker) == (10, 0, 2, Making.BOUGHT)
    offers = [m.choice_of(DOOR).bought.amount for _, m in (before, after)]
    assert doors.cost == offers[1] - offers[0]
    # the order's own delivery is paid already in both plans, and of the panels nothing changes
    assert [line.name for line in found.price.lines] == ["door"]
    assert found.price.net == sum(line.net for line in found.price.lines)
    assert found.cost == found.price.cost


def test_a_panel_more_does_not_ask_for_a_second_least_charge(plan: Any, change: Any, book: Book) -> None:
    """Everything is ordered; by itself the panel is 22 or so, but a second order would be charged 335.00."""
    before, after = plan(10, panels=0), plan(10, panels=1)
    found = change(before, after, made=[DOOR, PANEL])
    panel = line_of(found, PANEL)
    assert panel.maker is Making.SITE
    alone = site_costs(after[0][1:], laid_out(after[0][1:]), site_rates(book, DAY))[PANEL]
    assert panel.cost == found.cost == alone.amount < 150
    assert panel.sentence == f"panel: 1 new, made on site: {panel.cost} EUR more."
    # where the order is still to be given the panel joins it
    assert line_of(change(before, after), PANEL).maker is Making.BOUGHT
    # and where the job wants it bought in, the order that this takes is paid
    wished = change(before, after, made=[DOOR, PANEL], making={"panel": Making.BOUGHT})
    assert line_of(wished, PANEL).maker is Making.BOUGHT
    charged = next(line for line in wished.price.lines if line.name == "order and delivery")
    assert charged.cost == 85 + 250 - line_of(wished, PANEL).cost
    assert wished.cost == 335 > found.cost


def test_what_stays_changes_by_nothing(plan: Any, change: Any) -> None:
    """Panels and doors share sheets; with a door more the sheets are shared out anew, and the panels have no line of it."""
    for more in (11, 12, 15):
        before, after = plan(10, way=Making.SITE), plan(more, way=Making.SITE)
        moved = after[1].choice_of(PANEL).site_amount - before[1].choice_of(PANEL).site_amount
        found = change(before, after, making={"door": Making.SITE})
        assert [line.kind for line in found.lines] == [DOOR]
        # what the job costs more is asked for, all of it for the doors
        assert found.cost == after[1].totals.decided - before[1].totals.decided
        assert abs(found.cost - line_of(found, DOOR).cost) == 0
    assert moved, "sheets were shared out anew"


def test_who_makes_what_stays_goes_on(plan: Any, change: Any) -> None:
    """Ten doors are agreed to be made on site, dearer than bought: two more do not make them cheaper."""
    before, after = plan(10, way=Making.SITE), plan(12, way=Making.BOUGHT)
    found = change(before, after)
    assert found.cost > 0
    assert line_of(found, DOOR).stays == 10


def test_what_is_ordered_already_is_not_saved(plan: Any, change: Any) -> None:
    found = change(plan(10), plan(10, width=520.0), made=[DOOR])
    doors = line_of(found, DOOR)
    assert (doors.stays, doors.dropped, doors.added, doors.maker) == (0, 10, 10, Making.BOUGHT)
    offer = plan(10, width=520.0)[1].choice_of(DOOR).bought.amount
    assert doors.cost == offer  # all ten anew
    assert doors.sentence == (
        f"door: 10 new, bought in and 10 fall away; they are made already, so nothing is saved: {doors.cost} EUR more."
    )
    charges = next(line for line in found.price.lines if line.name == "order and delivery")
    assert charges.cost == 85 + max(D(0), 250 - offer)


def test_less_is_a_credit_while_nothing_is_made(plan: Any, change: Any) -> None:
    found = change(plan(10, way=Making.SITE), plan(8, way=Making.SITE))
    assert found.cost < 0
    assert found.price.net < 0
    assert line_of(found, DOOR).sentence.endswith("EUR less.")
    assert line_of(found, DOOR).maker is None
    assert found.cost == -change(plan(8, way=Making.SITE), plan(10, way=Making.SITE), making={"door": Making.SITE}).cost
    with pytest.raises(InputError, match="nothing to be priced"):
        change(plan(10), plan(10))


@pytest.mark.parametrize("made", [[], [DOOR], [DOOR, PANEL]])
@pytest.mark.parametrize("more", [1, 3, 12])
def test_no_other_way_of_making_what_is_new_costs_less(plan: Any, change: Any, made: Any, more: int) -> None:
    """Every choice for what is new, wished for by the job and priced so; the book of these tests varies in nothing."""
    before, after = plan(10, panels=1), plan(10 + more, panels=1 + more)
    found = change(before, after, made=made)
    wishes = [{"door": a, "panel": b} for a in (Making.SITE, Making.BOUGHT) for b in (Making.SITE, Making.BOUGHT)]
    costs = [change(before, after, made=made, making=wish).cost for wish in wishes]
    assert found.cost <= min(costs) + D("0.05")


def test_other_work_goes_along_and_nothing_is_refused(plan: Any, change: Any) -> None:
    extra = [CostItem("measuring again", D("60.00"), D(1))]
    found = change(plan(10), plan(10), extra=extra)
    assert (found.lines, found.price.net) == ((), D("75.00"))
    with pytest.raises(InputError, match="the two plans are the same, so there is nothing to be priced"):
        change(plan(10), plan(10))


def test_two_currencies_are_refused(plan: Any, change: Any) -> None:
    lines, money = plan(10)
    with pytest.raises(InputError) as caught:
        change((lines, replace(money, currency="GBP")), (lines, money))
    assert str(caught.value) == "change: one plan is in GBP and the other in EUR; plan both by the same book"
