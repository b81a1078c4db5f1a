"""The index of the firm's own basket, out of its book."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.money import BasketItem, basket_of, index_through, laspeyres

D = Decimal
PRICES = st.dictionaries(st.sampled_from("abcd"), st.decimals("0.01", 999, places=2), min_size=4)


def test_the_basket_of_a_book(raw_book: dict[str, Any]) -> None:
    rates = [
        *raw_book["rates"],
        {"name": "crew hour", "value": 42, "unit": "currency/hour", "since": "2026-10-01", "source": "test"},
    ]
    book = Book.model_validate({**raw_book, "rates": rates})
    sheet = book.boards[0].sheets[0]
    basket = basket_of(book, {sheet.name: D(10), "crew hour": D(100)})
    first, later = date(2026, 6, 1), date(2026, 11, 1)
    days = index_through(basket, [first, later])
    cost = 10 * sheet.prices[0].amount + 3800
    assert days[0].index == 100
    assert days[0].by_item == ()
    # a hundred hours cost 400 more; sheets may have moved as well
    assert dict(days[1].by_item)["crew hour"] == (D(40000) / cost).quantize(D("0.01"))
    assert abs(days[1].index - 100 - sum(move for _, move in days[1].by_item)) <= D("0.02")


@given(PRICES, st.dictionaries(st.sampled_from("abcd"), st.decimals(1, 99, places=1), min_size=1))
def test_prices_that_all_rise_alike_raise_it_as_much(prices: dict[str, Decimal], basket: dict[str, Decimal]) -> None:
    risen = {name: price * D("1.25") for name, price in prices.items()}
    assert laspeyres(prices, risen, basket) == 125
    assert laspeyres(prices, prices, basket) == 100


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (
            lambda book: basket_of(book, {"crew hours": D(1)}),
            "basket: the book has no sheet, length or rate 'crew hours'; did you mean crew hour?",
        ),
        (
            lambda _: laspeyres({"a": D(1)}, {}, {"a": D(1)}),
            "basket, a: it has no price at one of the two times; give both, or leave it out of the basket",
        ),
        (lambda _: laspeyres({"a": D(1)}, {"a": D(1)}, {"a": D(-1)}), "basket, a: a quantity of -1 can't be bought"),
        (
            lambda _: laspeyres({"a": D(0)}, {"a": D(1)}, {"a": D(1)}),
            "basket: it cost nothing at the first time, so nothing can be held against it",
        ),
        (lambda _: index_through([], []), "index: there is no day to reckon it for; give the day that is 100 first"),
        (
            lambda _: index_through([BasketItem("a", D(1), ((date(2026, 5, 1), D(1)),))], [date(2026, 4, 1)]),
            "basket, a: it has no price at one of the two times; give both, or leave it out of the basket",
        ),
    ],
)
def test_what_makes_no_sense_is_said(book: Book, call: Any, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        call(book)
    assert str(caught.value) == sentence
