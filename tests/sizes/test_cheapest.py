"""The number of sizes weighed in money."""

from decimal import Decimal

import pytest

from rodbook.errors import InputError
from rodbook.sizes import Offer, PackerRange, trade_off, weigh_money

TRADES = trade_off(
    [Offer(f"C{k}", width, 2030) for k, width in enumerate((840, 842, 845, 850, 852, 855))], PackerRange(4, 16, 4, 20)
)


def _cheapest(set_up, packing_mm):
    money = weigh_money(TRADES, set_up=Decimal(set_up), packing_mm=Decimal(packing_mm))
    return min(money, key=lambda weighed: weighed.total).number


def test_dear_set_ups_ask_for_few_sizes_and_dear_packers_for_many():
    assert _cheapest(100, "0.01") == TRADES[0].number
    assert _cheapest("0.01", 10) == TRADES[-1].number
    numbers = [_cheapest(set_up, 1) for set_up in (1, 3, 10, 30, 100)]
    assert numbers == sorted(numbers, reverse=True)


def test_the_sums_are_those_of_the_trades():
    for trade, weighed in zip(TRADES, weigh_money(TRADES, set_up=Decimal(7), packing_mm=Decimal(2)), strict=True):
        assert weighed.total == trade.number * 7 + 2 * Decimal(str(trade.choice.packing_mm))


@pytest.mark.parametrize(("set_up", "packing_mm"), [("-1", "1"), ("1", "NaN"), ("Infinity", "1")])
def test_a_price_that_is_none_is_refused(set_up, packing_mm):
    with pytest.raises(InputError, match="can't be a price"):
        weigh_money(TRADES, set_up=Decimal(set_up), packing_mm=Decimal(packing_mm))
