"""The firm's own basket out of its book: prices of the right things, the working adds up, and what is not known is said."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.money import BasketItem, BasketKey, BasketKind, FirmItem, firm_basket, firm_index, laspeyres

D = Decimal
SHOP = "Quarry Lane Workshop"
SHEET = BasketKey(BasketKind.SHEETS, "22 mm MDF", "22 mm MDF 2440 x 1220")
LENGTH = BasketKey(BasketKind.LENGTHS, "70 x 22 MDF trim", "70 x 22 trim, 2.4 m")
BOARD = BasketKey(BasketKind.CHARGES, SHOP, "board_m2", "22 mm MDF")
SET_UP = BasketKey(BasketKind.CHARGES, SHOP, "set_up")
HOURS = BasketKey(BasketKind.HOURS, "", "crew hour")
LAST = date(2026, 12, 31)


def test_everything_is_at_the_book_s_prices_and_the_working_adds_up(book: Book) -> None:
    basket = firm_basket(book, {SHEET: D(10), LENGTH: D(4), BOARD: D("12.5"), SET_UP: D(3)})
    found = firm_index(basket, LAST)
    assert found.base == date(2026, 3, 2), "the first day on which the workshop has charges"
    before = 10 * D("46.50") + 4 * D("7.90") + D("12.5") * D("25.50") + 3 * 9
    after = before + 10 * (D("51.20") - D("46.50"))
    assert (found.cost_before, found.cost_after) == (before, after)
    assert found.index == (100 * after / before).quantize(D("0.01"))
    assert [point.day for point in found.days] == [date(2026, 3, 2), date(2026, 9, 1), LAST]
    assert [line.name for line in found.lines] == [
        "22 mm MDF 2440 x 1220",
        f"{SHOP}: board, 22 mm MDF",
        "70 x 22 trim, 2.4 m",
        f"{SHOP}: set-up",
    ]
    assert [(g.kind, g.index) for g in found.groups] == [
        (BasketKind.SHEETS, D("110.11")),
        (BasketKind.LENGTHS, D(100)),
        (BasketKind.CHARGES, D(100)),
    ]
    assert [line.unit for line in found.lines] == ["sheet", "m²", "length", "distinct part"]
    assert found.left_out == ()


def test_a_day_before_some_prices_leaves_those_out_by_name(book: Book) -> None:
    basket = firm_basket(book, {SHEET: D(10), SET_UP: D(3), HOURS: D(5)})
    found = firm_index(basket, LAST, date(2026, 1, 10))
    assert found.base == date(2026, 1, 10)
    assert f"{SHOP}: set-up" in found.left_out
    assert [line.name for line in found.lines if line.kind is BasketKind.SHEETS] == ["22 mm MDF 2440 x 1220"]


def test_sheets_of_one_name_are_told_apart(book: Book) -> None:
    first, second = book.boards[:2]
    twin = second.sheets[0].model_copy(update={"name": first.sheets[0].name})
    alike = book.model_copy(update={"boards": (first, second.model_copy(update={"sheets": (twin,)}), *book.boards[2:])})
    keys = [BasketKey(BasketKind.SHEETS, board.name, twin.name) for board in (first, second)]
    basket = firm_basket(alike, dict.fromkeys(keys, D(1)))
    assert [one.item.name for one in basket] == [f"{key.owner}, {key.what}" for key in keys]
    assert basket[0].item.prices != basket[1].item.prices


@pytest.mark.parametrize(
    ("quantities", "days", "sentence"),
    [
        (
            {BasketKey(BasketKind.SHEETS, "22 mm MDF", "none"): D(1)},
            (),
            "the book has no '22 mm MDF none' among its sheets",
        ),
        ({BasketKey(BasketKind.CHARGES, "Nobody", "set_up"): D(1)}, (), "the book has no 'Nobody set_up'"),
        ({}, (), "no job buys anything"),
        ({SHEET: D(0)}, (), "no job buys anything"),
        ({SHEET: D(1)}, (date(2027, 1, 1),), "2027-01-01 is after the last day, 2026-12-31; change them over"),
        ({SHEET: D(1)}, (date(2020, 1, 1),), "nothing in the basket has a price on 2020-01-01; choose a later day"),
        ({SHEET: D(-1)}, (), "a quantity of -1 can't be bought"),
    ],
)
def test_what_can_not_be(
    book: Book, quantities: dict[BasketKey, Decimal], days: tuple[date, ...], sentence: str
) -> None:
    with pytest.raises(InputError, match=sentence.replace("(", r"\(")):
        firm_index(firm_basket(book, quantities), LAST, *days)


def test_before_any_price(book: Book) -> None:
    with pytest.raises(InputError, match="nothing in the basket has a price on 2019-01-01; choose a later day"):
        firm_index(firm_basket(book, {SHEET: D(1)}), date(2019, 1, 1))


PRICES = st.lists(
    st.tuples(st.integers(0, 400), st.decimals("0.01", 900, places=2)),
    min_size=1,
    max_size=4,
    unique_by=lambda entry: entry[0],
)


@given(st.lists(st.tuples(st.decimals("0.1", 90, places=1), PRICES), min_size=1, max_size=5), st.integers(400, 500))
def test_the_working_is_the_index_whatever_the_prices(
    things: list[tuple[Decimal, list[tuple[int, Decimal]]]], after: int
) -> None:
    start = date(2026, 1, 1)
    basket = [
        FirmItem(
            BasketKey(BasketKind.SHEETS, "x", str(n)),
            "sheet",
            BasketItem(f"item {n}", quantity, tuple((start + timedelta(days=day), price) for day, price in prices)),
        )
        for n, (quantity, prices) in enumerate(things)
    ]
    found = firm_index(basket, start + timedelta(days=after))
    assert found.left_out == ()
    quantities = {line.name: line.quantity for line in found.lines}
    before, now = ({line.name: getattr(line, of) for line in found.lines} for of in ("before", "after"))
    assert found.index == laspeyres(before, now, quantities).quantize(D("0.01"))
    assert abs(found.index - 100 - sum(line.points for line in found.lines)) <= D("0.005") * (len(found.lines) + 1)
    assert sum(group.cost_after for group in found.groups) == found.cost_after
    assert found.days[0].index == 100
    assert [point.day for point in found.days] == sorted({point.day for point in found.days})
