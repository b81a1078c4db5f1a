"""Purchases tried next: cheaper, possible, large enough, and from little saved to much."""

from hypothesis import given
from hypothesis import strategies as st

from rodbook.boards.asked.task import Stock
from rodbook.boards.sheets.goals import MOST_CAREFUL, careful, chosen, near

SMALL, LARGE, FREE = Stock(100, 50, 6, None), Stock(200, 100, 20, 3), Stock(60, 40, 0, 1)


def cost(stocks, numbers):
    return sum(n * stock.price for n, stock in zip(numbers, stocks, strict=True))


def room(stocks, numbers):
    return sum(n * stock.length * stock.width for n, stock in zip(numbers, stocks, strict=True))


def test_one_or_two_sheets_give_way_to_none_one_or_two():
    found = near([SMALL, LARGE], (0, 2), 25_000, 0)
    # a large one for one or two small ones, both large ones for nothing that has room
    assert set(found) == {(1, 1), (2, 1)}


def test_nothing_below_the_bound_and_nothing_that_is_not_there():
    assert near([SMALL, LARGE], (0, 2), 25_000, 27) == [(2, 1)]
    assert near([Stock(100, 50, 6, 1), LARGE], (0, 2), 25_000, 0) == [(1, 1)]


def test_free_sheets_are_neither_given_up_nor_taken():
    assert all(numbers[1] == 1 for numbers in near([SMALL, FREE], (5, 1), 0, 0))


stocks_in = st.lists(
    st.builds(Stock, st.integers(10, 90), st.integers(10, 90), st.integers(0, 40), st.none() | st.integers(2, 5)),
    min_size=1,
    max_size=4,
)


@given(stocks_in, st.data())
def test_what_is_near_is_cheaper_possible_and_large_enough(stocks, data):
    bought = tuple(data.draw(st.integers(0, 2)) for _ in stocks)
    bound, need = data.draw(st.integers(0, 60)), data.draw(st.integers(0, 9000))
    found = near(stocks, bought, need, bound)
    assert len(set(found)) == len(found)
    for numbers in found:
        assert bound <= cost(stocks, numbers) < cost(stocks, bought)
        assert room(stocks, numbers) >= need
        assert all(n >= 0 for n in numbers)
        assert all(stock.quantity is None or n <= stock.quantity for n, stock in zip(numbers, stocks, strict=True))
    single = near(stocks, bought, need, bound, most=1)
    assert set(single) <= set(found)
    ranked = careful(stocks, single)
    assert len(ranked) == min(len(single), MOST_CAREFUL)
    assert [room(stocks, n) for n in ranked] == sorted((room(stocks, n) for n in single), reverse=True)[:MOST_CAREFUL]
    few = chosen(stocks, bought, found, bound)
    assert set(few) <= set(found)
    assert bool(few) == bool(found)
    if found:
        # the least that can be saved is among them, and the most
        assert max(cost(stocks, numbers) for numbers in few) == max(cost(stocks, numbers) for numbers in found)
        assert min(cost(stocks, numbers) for numbers in few) == min(cost(stocks, numbers) for numbers in found)
