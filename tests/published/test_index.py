"""Price indices against a printed example.

*Quoted*: prices 10, 25, 30, 15, 20 and 15, 40, 45, 30, 25, quantities 6, 10, 15, 20, 8 and 8, 20, 12, 15, 6; sums printed 1220,
1965, 1285 and 2060. Two pages print 161.06 and 161.15 for the first index; 1965/1220 is 161.07 (*computed*). Paasche is printed
160.31. A second set prints 121.6 for 4 150 000/3 700 000, which is 112.16 (*computed*); its Paasche, 112.24, agrees.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from rodbook.money import BasketItem, BasketKey, BasketKind, FirmItem, firm_index, laspeyres, paasche

D = Decimal


def by_name(*values: int) -> dict[str, Decimal]:
    return {f"item {n}": D(value) for n, value in enumerate(values)}


BEFORE, AFTER = by_name(10, 25, 30, 15, 20), by_name(15, 40, 45, 30, 25)
FIRST, SECOND = by_name(6, 10, 15, 20, 8), by_name(8, 20, 12, 15, 6)


def test_laspeyres() -> None:
    assert laspeyres(BEFORE, AFTER, FIRST) == pytest.approx(D("161.07"), abs=D("0.005"))


@pytest.mark.parametrize(
    ("quantities", "before", "after", "index"), [(FIRST, 1220, 1965, "161.07"), (SECOND, 1285, 2060, "160.31")]
)
def test_the_firm_s_basket_comes_to_the_printed_sums(quantities, before, after, index) -> None:
    """With the quantities of either day, what the basket costs on both days is what is printed, and so is the index."""
    then, now = date(2020, 1, 1), date(2021, 1, 1)
    basket = [
        FirmItem(
            BasketKey(BasketKind.SHEETS, "", name),
            "piece",
            BasketItem(name, quantity, ((then, BEFORE[name]), (now, AFTER[name]))),
        )
        for name, quantity in quantities.items()
    ]
    found = firm_index(basket, now)
    assert (found.cost_before, found.cost_after, found.index) == (before, after, D(index))


def test_paasche() -> None:
    assert paasche(BEFORE, AFTER, SECOND) == pytest.approx(D("160.31"), abs=D("0.005"))


def test_the_second_set() -> None:
    # given as sums only: a basket of one, priced at the sums
    assert laspeyres(by_name(3_700_000), by_name(4_150_000), by_name(1)) == pytest.approx(D("112.16"), abs=D("0.005"))
    assert paasche(by_name(4_900_000), by_name(5_500_000), by_name(1)) == pytest.approx(D("112.24"), abs=D("0.005"))
