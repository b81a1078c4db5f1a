"""Rounding and sharing out."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money.rates.rounding import counted, currency_unit, figure, measured, rounded, rounded_together, share_out

D = Decimal


@pytest.mark.parametrize(("currency", "unit"), [("EUR", "0.01"), ("GBP", "0.01"), ("JPY", "1"), ("KWD", "0.001")])
def test_each_currency_has_its_unit(currency: str, unit: str) -> None:
    assert currency_unit(currency) == D(unit)


@pytest.mark.parametrize(
    ("amount", "currency", "expected"),
    [
        ("0.005", "EUR", "0.01"),  # halves go away from zero, not to the even neighbour
        ("0.025", "EUR", "0.03"),
        ("0.0249999", "EUR", "0.02"),
        ("-0.005", "EUR", "-0.01"),
        ("1234.5", "JPY", "1235"),
        ("3", "EUR", "3.00"),
    ],
)
def test_rounding_is_half_away_from_zero(amount: str, currency: str, expected: str) -> None:
    assert str(rounded(D(amount), currency)) == expected


def test_measured_takes_off_what_float_sums_leave() -> None:
    assert 0.1 * 3 != 0.3
    assert measured(0.1 * 3) == D("0.3")
    assert str(measured(-0.0)) == "0"
    assert str(measured(100.0)) == "100"
    assert measured(D(1) / 3) == D("0.333333")


def test_quantities_are_written_short() -> None:
    assert figure(D("0.0004")) == "0"
    assert figure(D("-0.0004")) == "0"
    assert figure(D("100")) == "100"
    assert counted(D(1), "sheet") == "1 sheet"
    assert counted(D("1.153"), "sheet") == "1.153 sheets"
    assert counted(D("2"), "kg") == "2 kg"


@pytest.mark.parametrize(
    ("total", "weights", "currency", "expected"),
    [
        # a third each; the cent left over goes to the first of equal remainders
        ("100.00", [1, 1, 1], "EUR", ["33.34", "33.33", "33.33"]),
        # 1/7, 2/7, 4/7 of 1000 cents = 142.857, 285.714, 571.429: whole parts 998, two cents over, to .857 and .714
        ("10.00", [1, 2, 4], "EUR", ["1.43", "2.86", "5.71"]),
        # the largest remainder is the last one's: 0.2, 0.2, 0.6 of one cent
        ("0.01", [1, 1, 3], "EUR", ["0.00", "0.00", "0.01"]),
        ("7", [1, 1], "JPY", ["4", "3"]),
        ("85.00", [0, 3], "EUR", ["0.00", "85.00"]),
        ("5.00", [0, 0], "EUR", ["2.50", "2.50"]),
        ("-10.00", [1, 2, 4], "EUR", ["-1.43", "-2.86", "-5.71"]),
        ("0.00", [], "EUR", []),
    ],
)
def test_shares_by_hand(total: str, weights: list[int], currency: str, expected: list[str]) -> None:
    assert [str(share) for share in share_out(D(total), weights, currency)] == expected


@pytest.mark.parametrize(
    ("total", "weights", "message"),
    [
        ("0.005", [1], "share: 0.005 EUR is not whole in units of 0.01; round it before it is shared"),
        ("1.00", [1, -1], "share: a weight of less than zero can't take a share"),
        ("1.00", [], "share: there is nothing to share 1.00 EUR among"),
    ],
)
def test_what_cant_be_shared_says_why(total: str, weights: list[int], message: str) -> None:
    with pytest.raises(InputError) as caught:
        share_out(D(total), weights, "EUR")
    assert str(caught.value) == message


WEIGHTS = st.lists(st.fractions(min_value=0, max_value=10_000, max_denominator=997), min_size=1, max_size=20)


@given(cents=st.integers(min_value=-10_000_000, max_value=10_000_000), weights=WEIGHTS)
def test_sharing_never_loses_a_cent(cents: int, weights: list[Fraction]) -> None:
    total = D(cents) / 100
    shares = share_out(total, weights, "EUR")
    assert sum(shares) == total
    whole = sum(weights)
    for share, weight in zip(shares, weights, strict=True):
        exact = Fraction(cents) * (weight / whole if whole else Fraction(1, len(weights)))
        assert abs(Fraction(share) * 100 - exact) < 1
    by_weight = sorted(zip(weights, map(abs, shares), strict=True))
    assert [share for _, share in by_weight] == sorted(map(abs, shares))  # who weighs more never gets less


@given(st.lists(st.decimals(-5000, 5000, places=5), max_size=12), st.sampled_from(["EUR", "JPY", "KWD"]))
def test_rounded_together_adds_up_and_strays_by_less_than_a_unit(amounts: list[Decimal], currency: str) -> None:
    found = rounded_together(amounts, currency)
    assert sum(found, D(0)) == rounded(sum(amounts, D(0)), currency)
    assert all(abs(a - b) < currency_unit(currency) for a, b in zip(found, amounts, strict=True))
    whole = [rounded(amount, currency) for amount in amounts]
    assert list(rounded_together(whole, currency)) == whole
