"""Usage read off layouts, and shared among kinds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.boards import (
    BarPattern,
    BarPlan,
    Layout,
    Offcut,
    Piece,
    Placed,
    Saw,
    Sheet,
    SheetPlan,
    StickCut,
    lay_out,
)
from rodbook.boards import Board as CutBoard
from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.money import MaterialUsage, StockTaken, bar_usage, shared_usage, sheet_usage
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
type LineMaker = Callable[..., ScheduleLine]
type UsageMaker = Callable[..., MaterialUsage]


def two_doors() -> Layout:
    """A sheet of 2440 x 1220 trimmed by 10 all round: cut along into two strips of 500 and a rest, each cut across."""
    strips = tuple(
        CutBoard(
            "cut",
            10.0,
            y,
            2420.0,
            500.0,
            cut="across",
            parts=(
                CutBoard("piece", 10.0, y, 2000.0, 500.0, name="door"),
                CutBoard("offcut", 2013.2, y, 416.8, 500.0),
            ),
        )
        for y in (10.0, 513.2)
    )
    rest = CutBoard("offcut", 10.0, 1016.4, 2420.0, 193.6)
    tree = CutBoard("cut", 10.0, 10.0, 2420.0, 1200.0, cut="along", parts=(*strips, rest))
    placed = tuple(Placed("door", 10.0, y, 2000.0, 500.0) for y in (10.0, 513.2))
    offcut = Offcut(10.0, 1016.4, 2420.0, 193.6)
    return Layout("big", 2440.0, 1220.0, D("48.00"), 3, placed, tree, (offcut,), offcut)


def test_usage_of_a_sheet_plan_by_hand(book: Book) -> None:
    plan = SheetPlan((two_doors(), two_doors()), D("288.00"), D("288.00"), True, (), 1, "bound")
    usage = sheet_usage(book.board("22 mm MDF"), plan, Saw(), keep_from_m2=0.1)
    assert usage.taken == (StockTaken("big", 6, D("48.00"), 2440.0, 1220.0),)  # like sheets come together
    assert usage.parts_m2 == pytest.approx(12.0)  # 6 sheets x 2 doors x 1 m2
    # trims 2 x 2440 and, after them, 2 x 1200 = 7280; two cuts along 2420 = 4840; one across each strip of 500 = 1000
    assert usage.cut_m == pytest.approx(6 * 13.120)
    assert usage.kept_m2 == pytest.approx(6 * 2.420 * 0.1936)
    assert usage.density_kg_per_m3 == 725  # middle of 690 and 760
    # 6 x 2.9768 - 12 - 2.811 = 3.0497 m2 of 22 mm at 725 kg/m3
    assert usage.waste_kg == pytest.approx((6 * 2.9768 - 12 - 6 * 0.468512) * 0.022 * 725)


def test_an_offcut_below_the_area_that_is_kept_is_waste(book: Book) -> None:
    plan = SheetPlan((two_doors(),), D("144.00"), D("144.00"), True, (), 1, "bound")
    board, area = book.board("22 mm MDF"), 2.420 * 0.1936  # 0.4685 m2
    assert sheet_usage(board, plan, Saw(), keep_from_m2=0.4685).kept_m2 == pytest.approx(3 * area)
    none = sheet_usage(board, plan, Saw(), keep_from_m2=0.4686)
    assert none.kept_m2 == 0
    assert none.waste_kg == pytest.approx((3 * 2.9768 - 6) * 0.022 * 725)


def test_usage_of_a_bar_plan_by_hand(book: Book) -> None:
    cuts = (StickCut("leg", 0.0, 2000.0), StickCut("leg", 2003.2, 1500.0))
    plan = BarPlan((BarPattern("3.9 m", 3900.0, D("9.20"), 4, cuts, 393.6),), D("36.80"), D(0), False, (), 1, "tries")
    usage = bar_usage(book.section("58 x 18 softwood trim"), plan)
    assert (usage.sectional, usage.cut_m) == (True, None)
    assert usage.taken == (StockTaken("3.9 m", 4, D("9.20"), 3900.0, 58.0),)
    assert usage.parts_m2 == pytest.approx(4 * 3.5 * 0.058)
    assert usage.waste_kg == pytest.approx(4 * 0.4 * 0.058 * 0.018 * 495)  # 0.4 m of each; (430 + 560) / 2


def test_usage_of_a_real_layout_agrees_with_its_areas(book: Book) -> None:
    """Every cut takes its kerf: metres sawn x kerf is what is neither piece nor offcut, but for rests below a kerf."""
    saw = Saw(kerf=3.2, edge_trim=0.0)
    sheet = Sheet("22 mm", 2440.0, 1220.0, D("48.00"))
    plan = lay_out([Piece("door", 1800.0, 447.0, 6), Piece("shelf", 590.0, 300.0, 9)], [sheet], saw)
    usage = sheet_usage(book.board("22 mm MDF"), plan, saw, keep_from_m2=0.1)
    assert usage.parts_m2 == pytest.approx(6 * 1.8 * 0.447 + 9 * 0.59 * 0.3)
    assert sum(t.price * t.count for t in usage.taken) == plan.cost
    offcuts_m2 = sum(x.count * o.length * o.width * 1e-6 for x in plan.layouts for o in x.offcuts)
    lost_m2 = sum(t.m2 for t in usage.taken) - usage.parts_m2 - offcuts_m2
    assert usage.cut_m is not None
    assert usage.cut_m * saw.kerf / 1000 == pytest.approx(lost_m2, rel=0.02)
    assert 0 < usage.kept_m2 <= offcuts_m2


def test_kinds_share_sheets_by_area_and_cuts_by_perimeter(line: LineMaker, usage_of: UsageMaker) -> None:
    legs = line("lining leg", stock="18 mm MDF", length=2000.0, width=150.0, openings=[("C1", 2)])  # 0.6 m2, 8.6 m
    heads = line("lining head", stock="18 mm MDF", length=500.0, width=120.0, openings=[("C1", 5)])  # 0.3 m2, 6.2 m
    shared = shared_usage([legs, heads], [usage_of([legs, heads], sheets=1, price="42.10", cut_m=14.8)], "EUR")
    (leg,), (head,) = shared[PartKind.LINING_LEG], shared[PartKind.LINING_HEAD]
    # 2/3 of 42.10 = 28.0667, 1/3 = 14.0333: 28.06 + 14.03 leave a cent, to the larger remainder .67
    assert (leg.amount, head.amount, leg.all_amount) == (D("28.07"), D("14.03"), D("42.10"))
    assert (leg.cut_m, head.cut_m, leg.estimated) == (D("8.6"), D("6.2"), False)
    assert float(leg.of_area) == pytest.approx(2 / 3)


def test_metres_are_estimated_where_none_are_given(line: LineMaker, usage_of: UsageMaker) -> None:
    doors = line(openings=[("C1", 2)])  # two of 2000 x 500: perimeters 10 m
    (share,) = shared_usage([doors], [usage_of([doors], sheets=1)], "EUR")[PartKind.DOOR]
    assert (share.cut_m, share.estimated) == (D("8.66"), True)  # (10 + 7.32) / 2


def test_the_estimate_is_low_by_half_of_the_offcuts_edges(book: Book, line: LineMaker) -> None:
    plan = SheetPlan((two_doors(),), D("144.00"), D("144.00"), True, (), 1, "bound")
    known = sheet_usage(book.board("22 mm MDF"), plan, Saw(), keep_from_m2=0.1)
    doors = line(openings=[("C1", 6)])
    (exact,) = shared_usage([doors], [known], "EUR")[PartKind.DOOR]
    (guess,) = shared_usage([doors], [replace(known, cut_m=None)], "EUR")[PartKind.DOOR]
    assert (exact.estimated, guess.estimated) == (False, True)
    # offcuts on each of three sheets: two of 416.8 x 500 and one of 2420 x 193.6. The rule leaves out, too: half of
    # what the trims take off the sheet's perimeter (7.32 - 7.24 m), one kerf for each of the four inner cuts, and
    # that the end trims are cut from a sheet already narrowed by 20 mm
    offcuts_m = 2 * 2 * (0.4168 + 0.5) + 2 * (2.420 + 0.1936)
    missing = 3 * (offcuts_m / 2 + 0.04 + 4 * 0.0032 - 2 * 0.020)
    assert float(exact.cut_m - guess.cut_m) == pytest.approx(missing, abs=1e-6)


def test_usage_that_does_not_fit_is_a_fault_each(line: LineMaker, usage_of: UsageMaker) -> None:
    doors, legs = line(openings=[("C1", 2)]), line("lining leg", stock="18 mm MDF")
    heads = line("trim head", stock="trim", sectional=True)
    other = line(openings=[("C1", 1)])
    wrong = [usage_of([other]), usage_of([legs], sheets=0)]
    with pytest.raises(InputError) as caught:
        shared_usage([doors, legs, heads], wrong, "EUR")
    assert str(caught.value).split("\n") == [
        "usage of 'trim': there is none, though parts are made from it; lay them out first",
        "usage of '22 mm MDF': it covers 1.000 m2 of parts, the schedule has 2.000 m2; lay the same parts out",
        "usage of '18 mm MDF': 1.000 m2 of parts can't come out of 0.000 m2; correct the counts or sizes",
    ]


KINDS = st.sampled_from(["lining leg", "lining head", "hinge lining", "division"])


@given(
    sizes=st.lists(st.tuples(KINDS, st.integers(150, 2400), st.integers(40, 600), st.integers(1, 9)), min_size=1),
    price=st.decimals(min_value=0, max_value=200, places=3),
)
def test_nothing_of_the_sheets_is_lost(
    line: LineMaker, usage_of: UsageMaker, sizes: list[tuple[str, int, int, int]], price: Decimal
) -> None:
    lines = [line(kind, length=float(a), width=float(b), openings=[("C1", n)]) for kind, a, b, n in sizes]
    usage = usage_of(lines, price=str(price))
    shares = [share for of_kind in shared_usage(lines, [usage], "EUR").values() for share in of_kind]
    assert sum(s.amount for s in shares) == shares[0].all_amount
    assert float(sum(s.of_area for s in shares)) == pytest.approx(1)
    perimeters = sum(2 * (a + b) * n for _, a, b, n in sizes) / 1000
    sheets = usage.taken[0].count * 7.32
    assert float(sum(s.cut_m for s in shares)) == pytest.approx((perimeters + sheets) / 2, abs=1e-4)
