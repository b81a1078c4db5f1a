"""The quantity at which make or buy turns."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book, Workshop
from rodbook.job.models import Making
from rodbook.money import (
    MaterialUsage,
    StockTaken,
    make_or_buy,
    most_frequent,
    parts_in_rows,
    turning_quantity,
    whole_sheets,
)
from rodbook.setout import ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
type LineMaker = Callable[..., ScheduleLine]


@pytest.fixture(scope="module")
def bare_book(raw_book: dict[str, Any]) -> Book:
    """Site work takes no time and a sheet of 22 mm costs 100.00, so that both sides can be reckoned in the head."""
    board = {
        **raw_book["boards"][0],
        "sheets": [{
            "name": "big", "length": 2440, "width": 1220,
            "prices": [{"amount": "100.00", "since": "2026-01-01", "source": "test"}],
        }],
    }  # fmt: skip
    rates = [{**rate, "value": 0} for rate in raw_book["rates"]]
    return Book.model_validate({**raw_book, "rates": rates, "boards": [board, *raw_book["boards"][1:]]})


def rated_early(book: Book) -> Book:
    """The book with rates that held already in 2025; its prices of boards did not."""
    early = tuple(rate.model_copy(update={"since": date(2025, 1, 1)}) for rate in book.rates)
    return book.model_copy(update={"rates": early})


def workshop(
    *, part: str, set_up: str = "0", delivery: str = "0", least: str = "0", board: str = "0", since: str = "2026-01-01"
) -> Workshop:
    rates = {
        "since": since, "source": "test", "set_up": set_up, "part": part, "edge_m": "0", "boring": "0",
        "coat_m2": "0", "delivery": delivery, "least_order": least, "board_m2": {"22 mm MDF": board},
    }  # fmt: skip
    return Workshop.model_validate({"name": "Mill Shed", "lead_days": 5, "rates": [rates]})


def test_it_turns_and_turns_back(bare_book: Book, line: LineMaker) -> None:
    # ten to a sheet of 100.00, bought in 12.00 each: 8 cost 96, 9 cost 108; the 11th needs a second sheet: 132 < 200
    small = line(length=600.0, width=400.0)
    found = turning_quantity([small], whole_sheets(10), bare_book, DAY, workshop(part="12"))
    assert (found.at_one, found.turns_at, found.turns_to, found.back_at) == (Making.BOUGHT, 9, Making.SITE, 11)
    assert (found.site_amount, found.bought_amount) == (D("100.00"), D("108.00"))
    assert found.sentence == (
        "X1 is cheaper bought-in up to 8 of it and site-made from 9; at 11 it is cheaper bought-in again."
    )


def test_equal_cost_counts_as_bought_in(bare_book: Book, line: LineMaker) -> None:
    # one to a sheet at 100.00; set-up and delivery 60.00 and 80.00 each: 140, 220, 300 = 300 at the third
    found = turning_quantity(
        [line()], whole_sheets(1), bare_book, DAY, workshop(part="80", set_up="25", delivery="35")
    )  # fmt: skip
    assert (found.at_one, found.turns_at, found.turns_to, found.back_at) == (Making.SITE, 3, Making.BOUGHT, None)
    assert found.site_amount == found.bought_amount == D("300.00")
    assert found.sentence == "X1 is cheaper site-made up to 2 of it and bought-in from 3."
    shop = workshop(part="80", set_up="25", delivery="35")
    at_the_limit = turning_quantity([line()], whole_sheets(1), bare_book, DAY, shop, limit=3)
    assert at_the_limit.turns_at == 3
    assert turning_quantity([line()], whole_sheets(1), bare_book, DAY, shop, limit=2).turns_at is None


def test_it_may_never_turn(bare_book: Book, line: LineMaker) -> None:
    found = turning_quantity([line()], whole_sheets(2), bare_book, DAY, workshop(part="500"), limit=40)
    assert (found.turns_at, found.turns_to, found.back_at, found.limit) == (None, None, None, 40)
    assert found.sentence == "X1 is cheaper site-made at every quantity up to 40."


def test_what_cant_be_bought_never_turns(bare_book: Book, line: LineMaker) -> None:
    found = turning_quantity([line(stock="18 mm MDF")], whole_sheets(2), bare_book, DAY, workshop(part="5"))
    assert (found.at_one, found.turns_at) == (None, None)
    assert found.sentence == (
        "There is no quantity at which it turns, as it can't be bought in: "
        "Mill Shed has no rate for the board '18 mm MDF'."
    )


def test_the_most_frequent_part_is_counted_up(bare_book: Book, line: LineMaker) -> None:
    lines = [line(mark=f"D{n}", openings=[("C1", count)]) for n, count in enumerate((2, 4, 4), 1)]
    assert most_frequent(lines).mark == "D2"
    assert turning_quantity(lines, whole_sheets(2), bare_book, DAY, workshop(part="5"), limit=3).mark == "D2"
    with pytest.raises(InputError, match="there is no part to count up"):
        most_frequent([])


def test_sizes_and_sheets_that_do_not_exist_are_faults(book: Book, line: LineMaker) -> None:
    with pytest.raises(InputError) as caught:
        turning_quantity([line()], whole_sheets(2), book, DAY, workshop(part="5"), size="huge")
    assert str(caught.value) == (
        "book, '22 mm MDF': it is not sold as 'huge'; use one of: 22 mm MDF 2440 x 1220, 22 mm MDF 3050 x 1220"
    )
    with pytest.raises(InputError, match=r"can't come out of 0\.000 m2"):
        turning_quantity([line()], lambda n: n // 4, book, DAY, workshop(part="5"))
    with pytest.raises(InputError, match="not even one part comes out"):
        whole_sheets(0)


def test_a_sheet_without_a_price_that_holds_is_a_fault(bare_book: Book, line: LineMaker) -> None:
    with pytest.raises(InputError) as caught:
        turning_quantity(
            [line()], whole_sheets(2), rated_early(bare_book), date(2025, 7, 1), workshop(part="5", since="2025-01-01")
        )
    assert str(caught.value) == "book, 'big': it has no price that holds on 2025-07-01"


def test_the_cheapest_size_for_its_area_is_taken(book: Book, line: LineMaker) -> None:
    # 51.20 / 2.9768 m2 = 17.20 a m2 against 64.80 / 3.721 m2 = 17.41 a m2
    def amounts(size: str | None) -> Decimal | None:
        shop = workshop(part="1", set_up="150")  # cheap for many, dear for one: it turns, and shows the site cost
        return turning_quantity([line()], whole_sheets(2), book, DAY, shop, size=size, limit=20).site_amount

    small, long = amounts("22 mm MDF 2440 x 1220"), amounts("22 mm MDF 3050 x 1220")
    assert small is not None
    assert amounts(None) == small != long


@pytest.mark.parametrize(
    ("length", "width", "grain", "expected"),
    [
        (2000.0, 500.0, False, 2),  # 2420 and 1200 to cut from: 1 x 2 straight, 4 x 0 turned
        (1100.0, 380.0, False, 6),  # 2 x 3 straight (2 x 1103.2, 3 x 383.2), 6 x 1 turned (6 x 383.2 = 2299.2)
        (1180.0, 380.0, False, 6),  # 2 x 3 straight, 6 x 1 turned
        (1200.0, 350.0, False, 6),  # 2 x 3 straight, 6 x 1 turned
        (1200.0, 300.0, True, 6),  # 2 x 3 straight only; turned it would be 7 x 1
        (1200.0, 300.0, False, 7),
        (2420.0, 598.4, False, 2),  # to the hundredth: 2 x 598.4 + 3.2 = 1200
        (2420.0, 598.41, False, 1),
        (2500.0, 100.0, False, 0),
    ],
)
def test_parts_in_rows_by_hand(line: LineMaker, length: float, width: float, grain: bool, expected: int) -> None:
    part = line(length=length, width=width, grain=grain).part
    assert parts_in_rows(part, 2440.0, 1220.0, kerf_mm=3.2, edge_trim_mm=10.0, end_trim_mm=0.0) == expected


def test_parts_of_a_length(line: LineMaker) -> None:
    leg = line("trim leg", length=1298.0, width=58.0, sectional=True).part
    assert (
        parts_in_rows(leg, 3900.0, 58.0, kerf_mm=3.2, edge_trim_mm=10.0, end_trim_mm=0.0) == 2
    )  # 3 x 1298 + 2 x 3.2 = 3900.4
    assert parts_in_rows(leg, 3900.4, 58.0, kerf_mm=3.2, edge_trim_mm=10.0, end_trim_mm=0.0) == 3
    assert parts_in_rows(leg, 3920.4, 58.0, kerf_mm=3.2, edge_trim_mm=10.0, end_trim_mm=10.0) == 3
    assert parts_in_rows(leg, 3920.3, 58.0, kerf_mm=3.2, edge_trim_mm=10.0, end_trim_mm=10.0) == 2


def test_a_section_turns_too(book: Book, line: LineMaker) -> None:
    leg = line("trim leg", stock="58 x 18 softwood trim", length=1900.0, width=58.0, thickness=18.0, sectional=True)
    found = turning_quantity([leg], whole_sheets(2), book, DAY, book.workshops[0], limit=60)
    assert found.at_one is Making.SITE


PRICE = st.integers(0, 6000).map(lambda cents: str(D(cents) / 100))


@settings(max_examples=25, deadline=None)
@given(
    prices=st.fixed_dictionaries({"part": PRICE, "set_up": PRICE, "board": PRICE}),
    delivery=st.integers(0, 200), least=st.integers(0, 300), a_sheet=st.integers(1, 12), limit=st.integers(1, 20),
)  # fmt: skip
def test_the_search_agrees_with_a_scan_of_whole_jobs(
    book: Book, line: LineMaker, prices: dict[str, str], delivery: int, least: int, a_sheet: int, limit: int
) -> None:
    """Each quantity is planned as a job of its own, made on site and bought in, and the turns are read off the list."""
    shop = workshop(delivery=str(delivery), least=str(least), **prices)
    part = line(length=600.0, width=350.0, cups=2, coats=1, edges=("left", "right"))
    ways: list[Making] = []
    for n in range(1, limit + 1):
        many = line(length=600.0, width=350.0, cups=2, coats=1, edges=("left", "right"), openings=[("C1", n)])
        sheets = (StockTaken("22 mm MDF 2440 x 1220", -(-n // a_sheet), D("51.20"), 2440.0, 1220.0),)
        usage = MaterialUsage("22 mm MDF", False, sheets, 22.0, 725.0, n * 0.21)
        site, bought = (
            make_or_buy([many], [usage], book, DAY, shop, {"door": way}).totals.decided
            for way in (Making.SITE, Making.BOUGHT)
        )
        ways.append(Making.SITE if site < bought else Making.BOUGHT)
    turns = next((n for n, way in enumerate(ways, 1) if way != ways[0]), None)
    back = next((n for n, way in enumerate(ways, 1) if turns and n > turns and way == ways[0]), None)
    found = turning_quantity([part], whole_sheets(a_sheet), book, DAY, shop, limit=limit)
    assert (found.at_one, found.turns_at, found.back_at) == (ways[0], turns, back)
