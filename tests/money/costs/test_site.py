"""Cost of site work, by hand with the sample book's rates and by properties."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.money import MaterialUsage, SiteCost, StockTaken, site_cost, site_costs, site_rates
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
type LineMaker = Callable[..., ScheduleLine]
type UsageMaker = Callable[..., MaterialUsage]

ALL_ROUND = ("top", "bottom", "left", "right")


@pytest.fixture(scope="module")
def doors_cost(book: Book, line: LineMaker, usage_of: UsageMaker) -> SiteCost:
    """Twelve doors of 2000 x 500 x 22 in two distinct parts, 4 cups each, two coats; two come out of a sheet."""
    doors = [
        line(openings=[("C1", 5), ("C2", 3)], cups=4, coats=2, edges=ALL_ROUND),
        line(openings=[("C2", 4)], cups=4, coats=2, edges=ALL_ROUND, mark="X2"),
    ]
    return site_costs(doors, [usage_of(doors, sheets=6, cut_m=80.0)], site_rates(book, DAY))[PartKind.DOOR]


def test_doors_by_hand(doors_cost: SiteCost) -> None:
    # the crew's hour is 38.00, a minute 0.63333
    expected = {
        "material": ("6", "0", "288.00"),  # 6 x 48.00
        "carry sheets": ("6", "36", "22.80"),  # 6 x 6 minutes; 36 / 60 x 38
        "break down": ("80", "128", "81.07"),  # 80 m x 1.6; 128 / 60 x 38 = 81.0667
        "clean up": ("6", "60", "38.00"),  # 6 x 10
        # 6 x 2.9768 - 12 = 5.8608 m2 x 0.022 m x 750 kg/m3 = 96.7032 kg x 0.18 = 17.4066
        "waste away": ("96.7032", "0", "17.41"),
        "set up": ("2", "40", "25.33"),  # 2 x 20; 25.3333
        "size parts": ("12", "48", "30.40"),  # 12 x 4
        "prepare edges": ("60", "210", "133.00"),  # 12 x 5 m x 3.5
        "bore cups": ("48", "144", "91.20"),  # 48 x 3; the pilots belong to the cups
        # 2 x (1.0 + 0.044 + 0.011) = 2.11 m2 a door; x 2 coats x 12 = 50.64
        "apply coats": ("50.64", "354.48", "224.50"),  # x 7 minutes; 224.504
        "paint": ("50.64", "0", "55.70"),  # x 1.10 = 55.704
    }
    found = {c.name: (str(c.quantity), str(c.minutes.normalize() + 0), str(c.amount)) for c in doors_cost.lines}
    assert {n: (q, D(m), a) for n, (q, m, a) in found.items()} == {n: (q, D(m), a) for n, (q, m, a) in expected.items()}
    assert doors_cost.amount == D("1007.41")
    assert (doors_cost.material, doors_cost.paint, doors_cost.waste) == (D("288.00"), D("55.70"), D("17.41"))
    assert doors_cost.labour == D("646.30")  # 1007.41 - 288.00 - 55.70 - 17.41
    assert doors_cost.minutes == D("1020.48")
    assert doors_cost.crew_hours == D("17.01")  # 17.008
    assert (doors_cost.kind, doors_cost.parts) == ("door", 12)


def test_each_line_says_how_it_came_about(doors_cost: SiteCost) -> None:
    workings = {cost.name: cost.working for cost in doors_cost.lines}
    assert workings["prepare edges"] == (
        "prepare edges: 60 m × 3.5 minutes/metre of edge = 210 minutes, at 38 EUR/hour 133.00 EUR"
    )
    assert workings["set up"] == (
        "set up: 2 distinct parts × 20 minutes/distinct part = 40 minutes, at 38 EUR/hour 25.33 EUR"
    )
    assert workings["material"] == "material, 22 mm MDF: 6 × 22 mm MDF sheet at 48.00 = 288.00 EUR"
    assert workings["waste away"] == "waste away: 96.703 kg × 0.18 EUR/kg = 17.41 EUR"
    assert workings["paint"] == "paint: 50.64 m2 of coats × 1.1 EUR/m2 and coat = 55.70 EUR"
    sources = {cost.name: cost.source for cost in doors_cost.lines}
    assert sources["paint"] == "paint: invented for the sample, since 2026-01-05"
    assert sources["size parts"] == (
        "size a part: from memory, since 2026-01-05; crew hour: invented for the sample, since 2026-01-05"
    )


def test_a_kind_pays_its_share_of_shared_sheets(book: Book, line: LineMaker, usage_of: UsageMaker) -> None:
    legs = line("lining leg", stock="18 mm MDF", width=150.0, openings=[("C1", 2)], plate_holes=8)  # 0.6 m2
    heads = line("lining head", stock="18 mm MDF", length=500.0, width=120.0, openings=[("C1", 5)])  # 0.3 m2
    costs = site_costs([legs, heads], [usage_of([legs, heads], sheets=1, price="42.10")], site_rates(book, DAY))
    leg = {c.name: c for c in costs[PartKind.LINING_LEG].lines}
    assert leg["material"].working == (
        "material, 18 mm MDF: 1 × 18 mm MDF sheet at 42.10 = 42.10 EUR, of which 66.7% by area of the parts = 28.07 EUR"
    )
    assert leg["carry sheets"].quantity == D("0.666667")
    assert (leg["bore plates"].quantity, leg["bore plates"].minutes) == (D(8), D(16))  # 4 plates on each of two legs
    assert leg["break down"].working.endswith(" (metres estimated from perimeters)")
    assert sum(cost.material for cost in costs.values()) == D("42.10")


def test_lengths_are_neither_carried_nor_broken_down(book: Book, line: LineMaker, usage_of: UsageMaker) -> None:
    trim = line("trim leg", stock="70 x 22 MDF trim", width=70.0, sectional=True, openings=[("C1", 2)])
    usage = usage_of([trim], sheets=1, price="13.60", size=(4400.0, 70.0))
    cost = site_costs([trim], [usage], site_rates(book, DAY))[PartKind.TRIM_LEG]
    assert [c.name for c in cost.lines] == ["material", "waste away", "set up", "size parts"]
    assert cost.lines[0].unit == "length"
    # 0.4 m x 0.070 x 0.022 x 750 = 0.462 kg
    assert cost.lines[1].quantity == D("0.462")


def test_an_offcut_costs_nothing_but_is_carried(book: Book, line: LineMaker) -> None:
    panel = line("panel", length=800.0)
    usage = MaterialUsage(
        "22 mm MDF",
        sectional=False,
        taken=(StockTaken("O-14", 1, D(0), 2200.0, 510.0),),
        thickness_mm=22.0,
        density_kg_per_m3=725.0,
        parts_m2=0.4,
        kept_m2=0.6,
    )
    cost = site_costs([panel], [usage], site_rates(book, DAY))[PartKind.PANEL]
    lines = {c.name: c for c in cost.lines}
    assert (lines["material"].amount, cost.material) == (D("0.00"), D("0.00"))
    assert lines["carry sheets"].minutes == 6
    # 2.2 x 0.51 - 0.4 - 0.6 kept = 0.122 m2 of waste
    assert lines["waste away"].quantity == D("1.9459")


def test_one_kind_at_a_time(book: Book, line: LineMaker) -> None:
    with pytest.raises(InputError) as caught:
        site_cost([line("door"), line("panel")], [], site_rates(book, DAY))
    assert str(caught.value) == "site cost: it is worked out for one kind of part at a time, not for 2"


@st.composite
def some_lines(draw: st.DrawFn) -> list[dict[str, Any]]:
    one = st.fixed_dictionaries(
        {
            "kind": st.sampled_from(["door", "lining leg", "panel", "hinge lining"]),
            "stock": st.sampled_from(["22 mm MDF", "18 mm MDF"]),
            "length": st.floats(200, 2400),
            "width": st.floats(50, 1200),
            "cups": st.integers(0, 5),
            "plate_holes": st.integers(0, 10),
            "coats": st.integers(0, 3),
            "edges": st.sampled_from([(), ("front",), ALL_ROUND]),
            "openings": st.lists(
                st.tuples(st.sampled_from(["C1", "C2", "C3"]), st.integers(1, 9)),
                min_size=1,
                max_size=3,
                unique_by=lambda o: o[0],
            ),
        }
    )
    return draw(st.lists(one, min_size=1, max_size=6))


@given(given_lines=some_lines())
def test_lines_add_up_to_totals(
    book: Book, line: LineMaker, usage_of: UsageMaker, given_lines: list[dict[str, Any]]
) -> None:
    lines = [line(**fields) for fields in given_lines]
    stocks = dict.fromkeys(entry.part.stock for entry in lines)
    usage = [usage_of([entry for entry in lines if entry.part.stock == stock]) for stock in stocks]
    costs = site_costs(lines, usage, site_rates(book, DAY))
    for cost in costs.values():
        assert cost.amount == sum(c.amount for c in cost.lines)
        assert cost.amount == cost.material + cost.labour + cost.paint + cost.waste
        assert cost.minutes == sum(c.minutes for c in cost.lines)
        assert all(c.amount == c.amount.quantize(D("0.01")) for c in cost.lines)
        assert all(c.quantity > 0 and c.working for c in cost.lines)
    bought = sum(t.price * t.count for u in usage for t in u.taken)
    assert sum(cost.material for cost in costs.values()) == bought


def test_learning_and_two_people_by_hand(raw_book: dict[str, Any], line: LineMaker, usage_of: UsageMaker) -> None:
    def like(name: str, value: float, unit: str) -> dict[str, Any]:
        return {"name": name, "value": value, "unit": unit, "since": "2026-01-05", "source": "test"}

    rates = [r | ({"learning": 0.9} if r["name"] == "size a part" else {}) for r in raw_book["rates"]]
    rates += [like("lift alone", 37, "kg"), like("batch set up", 15, "minutes/batch")]
    book = Book.model_validate({**raw_book, "rates": rates})
    doors = [line(openings=[("C1", 20)])]
    cost = site_costs(doors, [usage_of(doors, sheets=10, cut_m=80.0)], site_rates(book, DAY))[PartKind.DOOR]
    found = {c.name: c for c in cost.lines}
    # sum of n^b for 20 units at 90%: 14.608 (published); x 4 minutes
    assert float(found["size parts"].minutes) == pytest.approx(4 * 14.608, abs=0.003)
    assert "as 14.608 first ones (each doubling takes 90% of the time, exponent -0.152)" in found["size parts"].working
    # a sheet weighs 2.9768 m2 x 0.022 m x 750 kg/m3 = 49.1 kg: more than one carries, less than 4/3 of 37
    assert found["carry sheets"].minutes == 10 * 6 * 2
    assert "× 2 people = 120 minutes" in found["carry sheets"].working
    assert found["set up the batch"].minutes == 15
    assert sum(c.amount for c in cost.lines) == cost.amount
