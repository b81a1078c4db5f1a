"""Whole prices against printed margins and mark-ups.

*Quoted*: general accounting text. Cost 100 with a mark-up of 50% sells at 150, margin 33.3%; with a margin of 50%, which is a
mark-up of 100% in the same table, at 200.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from rodbook.money import CostItem, PriceRules, make_price

D = Decimal


@pytest.mark.parametrize(("mark_up", "sells_at", "margin"), [(D("0.5"), 150, "0.333"), (D("1.00"), 200, "0.5")])
def test_what_it_sells_at(mark_up: Decimal, sells_at: int, margin: str) -> None:
    day = date(2026, 11, 2)
    price = make_price([CostItem("work", D(100))], PriceRules(mark_up=mark_up), currency="EUR", day=day)
    assert price.net == sells_at
    assert price.margin is not None
    assert abs(price.margin - D(margin)) <= D("0.0005")
    assert price.mark_up == mark_up
