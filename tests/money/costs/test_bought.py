"""Cost of parts made to order, by hand with the sample workshop's rates and by properties."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.book import WorkshopRates
from rodbook.money import BoughtCost, bought_cost, bought_costs, order_of
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
type LineMaker = Callable[..., ScheduleLine]

ALL_ROUND = ("top", "bottom", "left", "right")


@pytest.fixture(scope="module")
def rates(book: Book) -> WorkshopRates:
    return book.workshops[0].rates[0]


def test_doors_by_hand(line: LineMaker, rates: WorkshopRates) -> None:
    doors = [
        line(openings=[("C1", 5), ("C2", 3)], cups=4, coats=2, edges=ALL_ROUND),
        line(openings=[("C2", 4)], cups=4, coats=2, edges=ALL_ROUND, mark="X2"),
    ]
    cost = bought_cost(doors, rates, workshop="the workshop", currency="EUR")
    assert {c.name: (c.quantity, c.amount) for c in cost.lines} == {
        "set up": (2, D("18.00")),  # 2 x 9.00
        "handle parts": (12, D("26.40")),  # 12 x 2.20
        "board": (12, D("306.00")),  # 12 m2 x 25.50
        "edges": (60, D("69.00")),  # 60 m x 1.15
        "borings": (48, D("26.40")),  # 48 cups x 0.55, pilots with them
        "coats": (D("50.64"), D("212.69")),  # 50.64 m2 x 4.20 = 212.688
    }
    assert cost.amount == D("658.49")
    assert {c.minutes for c in cost.lines} == {0}
    assert cost.lines[2].working == "board, 22 mm MDF: 12 m2 × 25.50 EUR/m2 = 306.00 EUR"
    assert cost.lines[2].source == "invented for the sample, since 2026-03-02"


def test_each_plate_hole_is_a_hole_and_sections_go_by_the_metre(line: LineMaker, rates: WorkshopRates) -> None:
    leg = line("lining leg", stock="18 mm MDF", plate_holes=8, openings=[("C1", 2)])
    cost = bought_cost([leg], rates, workshop="the workshop", currency="EUR")
    assert {c.name: c.amount for c in cost.lines}["borings"] == D("8.80")  # 16 x 0.55
    trim = line("trim leg", stock="58 x 18 softwood trim", width=58.0, sectional=True, openings=[("C1", 3)])
    cost = bought_cost([trim], rates, workshop="the workshop", currency="EUR")
    assert [(c.name, c.quantity, c.amount) for c in cost.lines] == [
        ("set up", D(1), D("9.00")),
        ("handle parts", D(3), D("6.60")),
        ("section", D(6), D("21.60")),
    ]


def test_what_cant_be_bought_says_why(book: Book, line: LineMaker, rates: WorkshopRates) -> None:
    lines = [line("panel", stock="oak"), line("panel", stock="ash bead", sectional=True), line("panel")]
    cost = bought_cost(lines, rates, workshop="Quarry Lane Workshop", currency="EUR")
    assert cost == BoughtCost(PartKind.PANEL, 3, (), None, cost.why_not)
    assert str(cost.why_not) == "Quarry Lane Workshop has no rate for the board 'oak' or the section 'ash bead'"
    none, no_rates = bought_costs([line()], None, DAY, currency="EUR")
    assert (str(none[PartKind.DOOR].why_not), no_rates) == ("the book has no workshop", None)
    early, _ = bought_costs([line()], book.workshops[0], date(2026, 3, 1), currency="EUR")
    assert str(early[PartKind.DOOR].why_not) == "Quarry Lane Workshop has no rates that hold on 2026-03-01"
    assert early[PartKind.DOOR].amount is None


def test_a_section_and_a_board_of_one_name_are_two_things(line: LineMaker, rates: WorkshopRates) -> None:
    trim = line("trim leg", stock="22 mm MDF", sectional=True)
    cost = bought_cost([trim], rates, workshop="W", currency="EUR")
    assert str(cost.why_not) == "W has no rate for the section '22 mm MDF'"


def test_one_kind_at_a_time(line: LineMaker, rates: WorkshopRates) -> None:
    with pytest.raises(InputError) as caught:
        bought_cost([], rates, workshop="W", currency="EUR")
    assert str(caught.value) == "bought-in cost: it is worked out for one kind of part at a time, not for 0"


def test_an_order_below_the_least_is_topped_up(rates: WorkshopRates) -> None:
    # 100 + 50 = 150 of at least 250: 100 short, shared 2 : 1; delivery 85 likewise 56.67 and 28.33
    order = order_of({PartKind.DOOR: D("100.00"), PartKind.PANEL: D("50.00")}, rates, "EUR")
    assert (order.parts_amount, order.top_up, order.delivery, order.amount) == (
        D("150.00"),
        D("100.00"),
        D("85.00"),
        D("335.00"),
    )
    assert [(s.top_up, s.delivery, s.amount) for s in order.shares] == [
        (D("66.67"), D("56.67"), D("223.34")),
        (D("33.33"), D("28.33"), D("111.66")),
    ]


def test_nothing_ordered_costs_nothing() -> None:
    order = order_of({}, None, "EUR")
    assert (order.amount, order.delivery, order.shares) == (D(0), D(0), ())


def test_an_order_needs_rates() -> None:
    with pytest.raises(InputError) as caught:
        order_of({PartKind.DOOR: D("1.00")}, None, "EUR")
    assert str(caught.value) == "order: nothing can be ordered where no workshop has rates"


AMOUNTS = st.dictionaries(
    st.sampled_from(list(PartKind)), st.integers(0, 500_000).map(lambda cents: D(cents) / 100), min_size=1
)


@given(amounts=AMOUNTS, least=st.decimals(0, 3000, places=2), delivery=st.decimals(0, 300, places=3))
def test_an_order_is_the_sum_of_its_shares(
    rates: WorkshopRates, amounts: dict[PartKind, Decimal], least: Decimal, delivery: Decimal
) -> None:
    order = order_of(amounts, rates.model_copy(update={"least_order": least, "delivery": delivery}), "EUR")
    assert sum(s.amount for s in order.shares) == order.amount
    assert sum(s.top_up for s in order.shares) == order.top_up
    assert sum(s.delivery for s in order.shares) == order.delivery
    assert order.parts_amount + order.top_up >= least
    assert order.top_up == 0 or order.parts_amount + order.top_up == least
