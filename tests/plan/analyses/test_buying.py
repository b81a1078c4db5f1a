"""What jobs buy: sheets and lengths as laid out for site, and what the workshop charges for, each counted once."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal

import pytest

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import Making
from rodbook.money import BasketKind, firm_basket
from rodbook.plan import bought_by, bought_together, make_plan, plan_parts

MADE = '[making]\n"door" = "site-made"\n"trim leg" = "site-made"\n\n'


@pytest.fixture(scope="module")
def plan():
    """The stair, some of it made on site and the rest bought in."""
    book = parse_book(sample_book_text())
    text = sample_text("stair")
    at = text.index("[[openings]]")
    return make_plan(parse_job(text[:at] + MADE + text[at:], book), book, seconds=1)


def test_sheets_and_charges_are_those_of_the_plan(plan):
    found = bought_by(plan)
    firm_basket(plan.book, found)  # every key is one of the book's
    sheets = Counter()
    for material in plan.materials:
        if material.maker is Making.SITE and material.sheets:
            for layout in material.sheets.layouts:
                sheets[layout.sheet] += layout.count
    bought = {key.what: number for key, number in found.items() if key.kind is BasketKind.SHEETS}
    shop = {offcut.label for board in plan.book.boards for offcut in board.offcuts}
    assert bought == {name: Decimal(number) for name, number in sheets.items() if name not in shop}
    lines = plan.lines_made(Making.BOUGHT)
    charges = {key.what: number for key, number in found.items() if key.kind is BasketKind.CHARGES and not key.of}
    assert charges["set_up"] == len(lines)
    assert charges["part"] == sum(line.quantity for line in lines)
    assert charges["delivery"] == 1
    assert not any(key.kind is BasketKind.HOURS for key in found)


def test_charges_and_quantities_cost_what_the_plan_says(plan):
    rates = plan.book.workshops[0].rates[0]
    total = Decimal(0)
    for key, number in bought_by(plan).items():
        if key.kind is BasketKind.CHARGES and key.what != "delivery":
            value = getattr(rates, key.what)
            total += number * (value[key.of] if key.of else value)
    decided = [c for c in plan.money.kinds if c.decision is Making.BOUGHT]
    parts = sum(c.bought.amount for c in decided)
    assert abs(total - parts) < Decimal("0.05") * len(decided)


def test_own_hours_are_counted_where_asked_for(plan):
    hours = {key.what: number for key, number in bought_by(plan, hours=True).items() if key.kind is BasketKind.HOURS}
    assert hours == {"crew hour": plan.money.totals.crew_hours}


def test_jobs_together_add_up_and_one_without_layouts_buys_nothing(plan):
    parts = plan_parts(plan.job, plan.book)
    assert bought_by(parts) == {}
    once, twice = bought_by(plan), bought_together([plan, parts, plan])
    assert {key: 2 * number for key, number in once.items()} == twice
    assert [key.kind for key in twice] == sorted((key.kind for key in twice), key=list(BasketKind).index)
