from decimal import Decimal, localcontext

from hypothesis import given
from hypothesis import strategies as st

from rodbook.boards.asked.prices import PriceScale

money = st.decimals(0, 10**8, places=2) | st.decimals(0, 1000, places=5) | st.integers(0, 10**8).map(Decimal)


@given(st.lists(money, min_size=1))
def test_prices_survive_the_way_there_and_back(prices):
    scale = PriceScale.of(prices)
    with localcontext(prec=2):  # exactness must not hang on the context
        back = [scale.price(scale.units(price)) for price in prices]
    assert back == prices


def test_the_unit_is_a_hundredth_unless_finer_is_needed():
    assert PriceScale.of([Decimal(3), Decimal("1E+2")]) == PriceScale(2)
    assert PriceScale.of([Decimal("3.125")]).units(Decimal("1E+2")) == 100_000


def test_the_common_step():
    assert PriceScale.common_step([4800, 3150, 0]) == 150
    assert PriceScale.common_step([0, 0]) == 0
    assert PriceScale.common_step([]) == 0
