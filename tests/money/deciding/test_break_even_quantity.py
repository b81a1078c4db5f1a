"""The quantity at which the decision shown turns: each answer is held against deciding whole jobs of that quantity."""

from __future__ import annotations

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
from rodbook.job import Book, Workshop
from rodbook.job.models import Making
from rodbook.money import MaterialUsage, StockTaken, Turning, make_or_buy, most_frequent, turning_quantity
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
type LineMaker = Callable[..., ScheduleLine]


@pytest.fixture(scope="module")
def bare_book(raw_book: dict[str, Any]) -> Book:
    """Site work takes no time: made on site a part costs its sheets and nothing else."""
    return Book.model_validate({**raw_book, "rates": [{**rate, "value": 0} for rate in raw_book["rates"]]})


def workshop(
    *, part: str, set_up: str = "0", delivery: str = "0", least: str = "0", board: str = "0", since: str = "2026-01-01"
) -> Workshop:
    rates = {
        "since": since,
        "source": "test",
        "set_up": set_up,
        "part": part,
        "edge_m": "0",
        "boring": "0",
        "coat_m2": "0",
        "delivery": delivery,
        "least_order": least,
        "board_m2": {"22 mm MDF": board},
    }
    return Workshop.model_validate({"name": "Mill Shed", "lead_days": 5, "rates": [rates]})


def used(lines: list[ScheduleLine], a_sheet: float = 2.0, price: str = "100.00") -> list[MaterialUsage]:
    """Sheets of 3 m2 by 1 m2 each, of which `a_sheet` m2 are used at this yield; whole ones."""
    area = math.fsum(line.part.face_m2 * line.quantity for line in lines)
    sheets = StockTaken("22 mm MDF", math.ceil(area / a_sheet - 1e-9), D(price), 3000.0, 1000.0)
    return [MaterialUsage("22 mm MDF", False, (sheets,), 22.0, 725.0, area)]


def only(lines: list[ScheduleLine], shop: Workshop | None, book: Book, limit: int = 40, **making: Making) -> Turning:
    (found,) = turning_quantity(lines, used(lines), book, DAY, shop, making, limit=limit)
    return found


def test_more_of_it_pay_for_the_delivery(bare_book: Book, line: LineMaker) -> None:
    # 1 m2 each, two to a sheet of 100.00; bought in 30.00 each with a delivery of 85.00
    # one 100 or 115, two 100 or 145, three 200 or 175: from the third bought in
    shop = workshop(part="30", delivery="85")
    found = only([line(length=1000.0, width=1000.0, openings=[("C1", 2)])], shop, bare_book)
    assert (found.quantity, found.decided, found.fewer, found.more) == (2, Making.SITE, None, 3)
    assert found.sentence == "X1, 2 in this job, is site-made; with 3 of it bought-in."
    back = only([line(length=1000.0, width=1000.0, openings=[("C1", 6)])], shop, bare_book)
    # 6: three sheets, 300 or 265; 4: 200 or 205
    assert (back.decided, back.fewer, back.more) == (Making.BOUGHT, 4, None)


def test_other_parts_of_the_job_are_in_it(bare_book: Book, line: LineMaker) -> None:
    """Alone it would not pay for the delivery; beside panels that are bought in anyway it does."""
    shop = workshop(part="30", delivery="85")
    door = line(length=1000.0, width=1000.0, openings=[("C1", 1)])
    panels = line("panel", length=1000.0, width=1000.0, openings=[("C1", 20)], mark="P1")
    assert only([door], shop, bare_book).decided is Making.SITE
    found = turning_quantity([door, panels], used([door, panels]), bare_book, DAY, shop, {})
    assert found[0].kind is PartKind.DOOR
    assert found[0].decided is Making.BOUGHT


def test_nothing_to_decide(bare_book: Book, line: LineMaker) -> None:
    lines = [line(length=1000.0, width=1000.0)]
    for shop, making in ((None, {}), (workshop(part="1"), {"door": Making.SITE})):
        found = only(lines, shop, bare_book, **making)
        assert (found.free, found.decided, found.fewer, found.more) == (False, Making.SITE, None, None)
        assert found.sentence == "X1, 1 in this job, is site-made; there is nothing to decide, so no quantity turns it."
    never = only(lines, workshop(part="500"), bare_book)
    assert (never.free, never.more) == (True, None)
    assert never.sentence == "X1, 1 in this job, is site-made, and at every quantity looked at from 1 to 40."


def test_the_most_frequent_part_is_counted_up(line: LineMaker) -> None:
    lines = [line(mark=f"D{n}", openings=[("C1", count)]) for n, count in enumerate((2, 4, 4), 1)]
    assert most_frequent(lines).mark == "D2"
    with pytest.raises(InputError, match="there is no part to count up"):
        most_frequent([])


def test_more_than_offcuts_hold_is_bought(bare_book: Book, line: LineMaker) -> None:
    """Two parts come out of an offcut that costs nothing; more take sheets of the book's."""
    lines = [line(length=1000.0, width=1000.0, openings=[("C1", 2)])]
    offcut = StockTaken("O-1", 1, D(0), 3000.0, 1000.0)
    usage = [MaterialUsage("22 mm MDF", False, (offcut,), 22.0, 725.0, 2.0)]
    (found,) = turning_quantity(lines, usage, bare_book, DAY, workshop(part="10"), {}, limit=10)
    assert (found.decided, found.more) == (Making.SITE, 3)


PRICE = st.integers(0, 6000).map(lambda cents: str(D(cents) / 100))


@settings(max_examples=25, deadline=None)
@given(
    prices=st.fixed_dictionaries({"part": PRICE, "set_up": PRICE, "board": PRICE}),
    delivery=st.integers(0, 200),
    least=st.integers(0, 300),
    own=st.integers(1, 12),
)
def test_the_decision_shown_turns_there(
    book: Book, line: LineMaker, prices: dict[str, str], delivery: int, least: int, own: int
) -> None:
    """Jobs of that quantity, and of one less on the way there, are decided as whole jobs."""
    shop = workshop(delivery=str(delivery), least=str(least), **prices)

    def lines(number: int) -> list[ScheduleLine]:
        door = line(length=1000.0, width=1000.0, cups=2, coats=1, edges=("left", "right"), openings=[("C1", number)])
        return [door, line("panel", length=500.0, width=1000.0, openings=[("C2", 2)], mark="P1")]

    def decided(number: int) -> Making:
        many = lines(number)
        sheets = used(lines(own))[0].taken[0]
        yielded = (own + 1.0) / sheets.m2
        more = math.ceil(round((number - own) / yielded / 3.0, 9))
        taken = replace(sheets, count=max(sheets.count + more, math.ceil((number + 1) / 3 - 1e-9)))
        usage = MaterialUsage("22 mm MDF", False, (taken,), 22.0, 725.0, number + 1.0)
        return make_or_buy(many, [usage], book, DAY, shop, {}).maker_of(PartKind.DOOR)

    now = lines(own)
    found = next(t for t in turning_quantity(now, used(now), book, DAY, shop, {}, limit=20) if t.kind is PartKind.DOOR)
    assert found.decided is decided(own)
    for turn, step in ((found.fewer, 1), (found.more, -1)):
        if turn is not None:
            assert decided(turn) is not found.decided
            assert decided(turn + step) is found.decided
