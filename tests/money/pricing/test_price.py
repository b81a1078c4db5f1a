"""Prices: by hand, and that no penny is ever lost."""

from __future__ import annotations

from dataclasses import fields
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.book import TaxLine, TaxProfile
from rodbook.money import (
    KNOWN_UNITS,
    ClientPrice,
    CostItem,
    Figures,
    Option,
    PriceRules,
    contingency,
    currency_unit,
    for_client,
    make_price,
    overhead_an_hour,
    price_rules,
    rounded,
    with_options,
)

D = Decimal
DAY = date(2026, 11, 2)


def taxes(*lines: tuple[str, str, tuple[str, ...]]) -> TaxProfile:
    return TaxProfile(
        name="test",
        since=date(2026, 1, 1),
        source="test",
        lines=tuple(TaxLine(name=n, percent=D(p), on=on) for n, p, on in lines),
    )


def test_a_price_by_hand() -> None:
    rules = PriceRules(D(6), D("0.05"), D("0.25"), None, taxes(("VAT", "20", ())))
    items = [CostItem("Doors", D("800.00")), CostItem("Fitting", D("200.00"), D(5))]
    price = make_price(items, rules, currency="EUR", day=DAY, contingency=D("50.00"))
    doors, fitting = price.lines
    # doors: 800 + 40 overhead + 40 contingency = 880; x 1.25 = 1100. fitting: 200 + 30 + 10 + 10 = 250; x 1.25 = 312.50
    assert (doors.overhead, doors.contingency, doors.net) == (D("40.00"), D("40.00"), D("1100.00"))
    assert (fitting.overhead, fitting.contingency, fitting.net) == (D("40.00"), D("10.00"), D("312.50"))
    assert (price.cost, price.overhead, price.contingency) == (D("1000.00"), D("80.00"), D("50.00"))
    assert (price.net, price.earned, price.gross) == (D("1412.50"), D("282.50"), D("1695.00"))
    assert (price.margin, price.mark_up) == (D("0.2"), D("0.25"))
    assert (price.taxes[0].on, price.taxes[0].amount) == (D("1412.50"), D("282.50"))
    assert price.valid_until == date(2026, 12, 2)


def test_three_doors_of_a_thousand_cost_three_times_the_same() -> None:
    doors = [CostItem(f"D{n}", D(1000) / 3) for n in range(1, 4)]
    price = make_price(doors, PriceRules(), currency="EUR", day=DAY, contingency=D("0.01"))
    # 333.3333 + 0.0033 each: 333.34 asked three times; the costs and the penny of contingency add up
    assert [line.net for line in price.lines] == [D("333.34")] * 3
    assert [line.cost for line in price.lines] == [D("333.34"), D("333.33"), D("333.33")]
    assert (price.cost, price.contingency, price.net) == (D("1000.00"), D("0.01"), D("1000.02"))
    assert (price.earned, price.rounding) == (D("0.01"), D("0.01"))


CURRENCIES = st.sampled_from(["EUR", "GBP", "JPY", "KWD"])
MONEY = st.decimals(-2000, 20000, places=4)
ITEMS = st.lists(
    st.builds(
        CostItem,
        st.text("abc", min_size=1, max_size=3),
        MONEY,
        st.decimals(0, 80, places=2),
        st.sampled_from(["", "work", "goods"]),
    ),
    min_size=1,
    max_size=8,
)
TAXES = st.lists(
    st.tuples(
        st.just("tax"), st.decimals(0, 30, places=2).map(str), st.sampled_from([(), ("work",), ("goods", "work")])
    ),
    max_size=3,
)
RULES = st.builds(
    lambda hour, share, up, lines: PriceRules(hour, share, up, None, taxes(*lines)),
    st.decimals(0, 40, places=2),
    st.decimals(0, 1, places=3),
    st.decimals(0, 2, places=3),
    TAXES,
)


@given(ITEMS, RULES, CURRENCIES, st.decimals(0, 5000, places=2), st.lists(ITEMS, max_size=3))
def test_no_penny_is_lost(items: Any, rules: PriceRules, currency: str, spare: Decimal, optional: Any) -> None:
    options = [Option(f"option {n}", tuple(more)) for n, more in enumerate(optional)]
    price = make_price(items, rules, currency=currency, day=DAY, contingency=rounded(spare, currency), options=options)
    for each in (price, with_options(price, [o.name for o in options], rules)):
        assert sum(line.net for line in each.lines) == each.net
        assert sum(line.tax for line in each.lines) == sum(tax.amount for tax in each.taxes)
        assert sum(line.gross for line in each.lines) == each.gross
        assert each.net + sum(tax.amount for tax in each.taxes) == each.gross
        assert sum(line.cost for line in each.lines) == each.cost
        assert sum(line.earned for line in each.lines) == each.earned
        assert each.cost + each.overhead + each.contingency + each.earned == each.net
        for line in each.lines:
            assert line.net + line.tax == line.gross
            for name in ("net", "tax", "gross", "cost", "overhead", "contingency"):
                assert getattr(line, name) % currency_unit(currency) == 0
    assert price.contingency == rounded(spare, currency)
    for option in price.options:
        taken = with_options(price, [option.name], rules)
        assert (taken.net, taken.gross) == (price.net + option.net, price.gross + option.gross)
        assert option.net + option.tax == option.gross


@given(ITEMS, RULES, CURRENCIES, st.decimals(0, 5000, places=2), st.integers(2, 9))
def test_equal_lines_have_equal_prices(
    items: Any, rules: PriceRules, currency: str, spare: Decimal, times: int
) -> None:
    several = [item for item in items for _ in range(times)]
    price = make_price(several, rules, currency=currency, day=DAY, contingency=rounded(spare, currency))
    for n in range(0, len(several), times):
        alike = price.lines[n : n + times]
        assert len({line.net for line in alike}) == 1
        for name in ("cost", "contingency"):  # what the client does not see adds up, and may differ by a unit
            shown = [getattr(line, name) for line in alike]
            assert max(shown) - min(shown) <= currency_unit(currency)
    exact = sum((line.exact for line in price.lines), D(0))
    assert abs(price.net - exact) <= len(several) * currency_unit(currency) / 2
    assert price.rounding == price.net - rounded(exact, currency)
    assert price.cost == rounded(sum((item.cost for item in several), D(0)), currency)


@given(ITEMS, RULES, st.sampled_from(["EUR", "JPY"]))
def test_a_line_never_strays_from_its_own_tax_by_more_than_rounding(
    items: Any, rules: PriceRules, currency: str
) -> None:
    price = make_price(items, rules, currency=currency, day=DAY)
    unit = currency_unit(currency)
    for line in price.lines:
        own = sum(
            (line.net * tax.percent / 100 for tax in rules.taxes.lines if not tax.on or line.group in tax.on), D(0)
        )  # type: ignore[union-attr]
        assert abs(line.tax - own) <= len(rules.taxes.lines) * (len(price.lines) / 2 + 1) * float(unit)  # type: ignore[union-attr]


def test_the_client_sees_no_costs() -> None:
    price = make_price(
        [CostItem("Doors", D(100))],
        PriceRules(mark_up=D("0.3")),
        currency="EUR",
        day=DAY,
        options=[Option("Mirrors", (CostItem("Mirrors", D(50)),))],
    )
    paper = for_client(price)
    assert {f.name for f in fields(ClientPrice)} == {
        "currency",
        "lines",
        "net",
        "taxes",
        "gross",
        "valid_until",
        "options",
    }
    assert paper.lines == (("Doors", D("130.00")),)
    assert paper.options == (("Mirrors", D("65.00"), D("65.00")),)


def figures(hundredths: tuple[Decimal, ...], mean: str) -> Figures:
    return Figures(D(mean), D(mean), D(0), D(0), D(0), "EUR", hundredths)


def test_contingency_is_the_quantile_less_the_mean() -> None:
    curve = figures(tuple(D(100 + n) for n in range(1, 100)), "150")
    assert contingency(curve, D("0.9"), "EUR") == D("40.00")
    assert contingency(curve, D("0.905"), "EUR") == D("40.50")
    assert contingency(curve, D("0.99"), "EUR") == D("49.00")
    assert contingency(curve, D("0.3"), "EUR") == 0


@pytest.fixture
def priced(raw_book: dict[str, Any]) -> Any:
    def make(profiles: list[Any] | None = None, **rates: Any) -> Book:
        more = [
            {
                "name": n.replace("_", " ").replace("mark up", "mark-up"),
                "value": v,
                "since": "2026-01-05",
                "source": "test",
            }
            for n, v in rates.items()
        ]
        more = [m | {"unit": KNOWN_UNITS[m["name"]]} for m in more]
        return Book.model_validate({**raw_book, "rates": [*raw_book["rates"], *more], "taxes": profiles or []})

    return make


def test_rules_of_the_book(priced: Any) -> None:
    profile = {"name": "at home", "since": "2026-01-01", "source": "test", "lines": [{"name": "VAT", "percent": "20"}]}
    later = {**profile, "since": "2027-01-01", "lines": []}
    book = priced([profile, later], overhead=6, margin=0.2, confidence=0.8, price_holds=14)
    rules = price_rules(book, DAY, "at home")
    assert (rules.mark_up, rules.margin, rules.confidence, rules.holds_days) == (D("0.25"), D("0.2"), D("0.8"), 14)
    assert rules.taxes is not None
    assert rules.taxes.lines[0].percent == 20
    assert price_rules(book, date(2027, 3, 1), "at home").taxes.lines == ()  # type: ignore[union-attr]
    assert price_rules(book, DAY).taxes is None


def test_what_is_wrong_with_the_rules_is_said(priced: Any) -> None:
    profile = {"name": "at home", "since": "2027-01-01", "source": "test"}
    for book, name, expected in (
        (
            priced(margin=0.2, mark_up=0.25),
            "abroad",
            [
                "book.rates: it has both a margin and a mark-up, which are two ways of saying the same; keep one of them",
                "book.taxes: there is no profile 'abroad'",
            ],
        ),
        (
            priced([profile]),
            "at home",
            ["book.taxes: 'at home' does not hold on 2026-11-02; the first begins on 2027-01-01"],
        ),
        (
            priced([profile, profile]),
            "at home",
            ["book.taxes: 'at home' begins twice on the same day; keep one of the two"],
        ),
        (
            priced(margin=1.2),
            None,
            ["book.rates[13] (margin): a margin of 1.2 can't be; write 0.2 for twenty in a hundred"],
        ),
    ):
        with pytest.raises(InputError) as caught:
            price_rules(book, DAY, name)
        assert str(caught.value).split("\n") == expected


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (
            lambda: make_price([], PriceRules(), currency="EUR", day=DAY),
            "price: there is nothing to be priced; give one line at the least",
        ),
        (
            lambda: make_price([CostItem("a", D("NaN"))], PriceRules(), currency="EUR", day=DAY),
            "cost of 'a': cost and hours must be numbers, and hours not below zero",
        ),
        (
            lambda: make_price([CostItem("a", D(1))], PriceRules(), currency="EUR", day=DAY, contingency=D("1.005")),
            "contingency: 1.005 EUR is below zero or has parts of a unit; round it first",
        ),
        (
            lambda: with_options(
                make_price([CostItem("a", D(1))], PriceRules(), currency="EUR", day=DAY), ["b"], PriceRules()
            ),
            "options: there is no option 'b' in this price",
        ),
        (
            lambda: contingency(figures((), "1"), D("0.9"), "EUR"),
            "contingency: the cost has no spread to take it from; work the chances out first",
        ),
        (
            lambda: contingency(figures((D(1),) * 99, "1"), D("0.999"), "EUR"),
            "confidence: 0.999 is out of range; write a share from 0.01 to 0.99",
        ),
        (
            lambda: overhead_an_hour(D(1), D(0)),
            "overhead: 1 can't be carried by 0 hours; write what was and what is charged",
        ),
    ],
)
def test_what_makes_no_sense_is_said(call: Any, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        call()
    assert str(caught.value) == sentence
