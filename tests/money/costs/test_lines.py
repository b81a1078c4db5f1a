"""Drivers, and the sharing of a cost among openings."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from rodbook.money.costs.lines import CostLine, by_kind, opening_shares, quantity
from rodbook.setout import PartKind, ScheduleLine

D = Decimal


def cost(amount: str, goes_by: str, stock: str = "") -> CostLine:
    return CostLine("x", D(1), "part", None, "", D(0), D(amount), "", "", goes_by, stock)


@pytest.mark.parametrize(
    ("goes_by", "expected"),
    [
        # a part of 2000 x 500 x 22, three of it, 4 cups with pilots, 5 plate holes, 2 coats, edges all round
        ("distinct parts", "1"),
        ("parts", "3"),
        ("edges", "15"),  # 2 x (2.0 + 0.5) = 5 m each
        ("cups", "12"),  # the eight pilots belong to the cups
        ("plates", "9"),  # five holes: two plates and one more for the odd hole
        ("holes", "27"),  # 4 cups + 5 plate holes each, pilots not counted
        ("coats", "12.66"),  # 2 x (1.0 + 0.044 + 0.011) = 2.11 m2 each, twice coated, three parts
        ("area", "3"),
        ("length", "6"),
        ("cuts", "15"),
    ],
)
def test_drivers_by_hand(line: Callable[..., ScheduleLine], goes_by: str, expected: str) -> None:
    part = line(
        openings=[("C1", 1), ("C2", 2)], cups=4, plate_holes=5, coats=2, edges=("top", "bottom", "left", "right")
    )
    assert quantity(goes_by, [part]) == D(expected)


def test_kinds_come_in_their_own_order(line: Callable[..., ScheduleLine]) -> None:
    lines = [line("panel"), line("door"), line("trim leg"), line("door")]
    assert {kind: len(members) for kind, members in by_kind(lines).items()} == {
        PartKind.DOOR: 2,
        PartKind.TRIM_LEG: 1,
        PartKind.PANEL: 1,
    }
    assert list(by_kind(lines)) == [PartKind.DOOR, PartKind.TRIM_LEG, PartKind.PANEL]


def test_openings_share_by_what_each_line_goes_by(line: Callable[..., ScheduleLine]) -> None:
    wide = line(width=600.0, openings=[("C1", 2), ("C2", 1)])  # 1.2 m2 each
    small = line(length=1000.0, width=400.0, openings=[("C2", 1)], stock="18 mm MDF")  # 0.4 m2
    costs = [
        cost("40.00", "area"),  # 3.6 + 0.4 = 4 m2: 10.00 a m2; C1 24.00, C2 12.00 + 4.00
        cost("20.00", "distinct parts"),  # 10.00 for each line; of the first 2/3 to C1: 6.6667, rest 3.3333 + 10
        cost("9.00", "parts", "18 mm MDF"),  # only the small one is of that board: all to C2
    ]
    # C1 24 + 6.6667 = 30.6667, C2 16 + 13.3333 + 9 = 38.3333
    assert opening_shares(D("69.00"), costs, [wide, small], "EUR") == {"C1": D("30.67"), "C2": D("38.33")}


def test_without_any_cost_the_openings_share_evenly(line: Callable[..., ScheduleLine]) -> None:
    lines = [line(openings=[("C1", 5), ("C2", 1)])]
    assert opening_shares(D("3.00"), [], lines, "EUR") == {"C1": D("1.50"), "C2": D("1.50")}
