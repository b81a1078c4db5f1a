"""Make or buy over all kinds together."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book, Workshop
from rodbook.job.models import Making
from rodbook.money import MakeOrBuy, MaterialUsage, make_or_buy, settle
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
DOOR, PANEL, LEG = PartKind.DOOR, PartKind.PANEL, PartKind.LINING_LEG
type LineMaker = Callable[..., ScheduleLine]
type UsageMaker = Callable[..., MaterialUsage]


@pytest.fixture(scope="module")
def bare_book(raw_book: dict[str, Any]) -> Book:
    """All times and site prices zero: made on site a part costs its sheets and nothing else."""
    return Book.model_validate({**raw_book, "rates": [{**rate, "value": 0} for rate in raw_book["rates"]]})


def workshop(
    *, least: str = "0", delivery: str = "0", board: Mapping[str, str] | None = None, **prices: str
) -> Workshop:
    rates = {
        "set_up": "0",
        "part": "0",
        "edge_m": "0",
        "boring": "0",
        "coat_m2": "0",
        "section_m": {},
        **prices,
        "board_m2": board or {},
        "delivery": delivery,
        "least_order": least,
        "since": "2026-01-01",
        "source": "test",
    }
    return Workshop.model_validate({"name": "Mill Shed", "lead_days": 5, "rates": [rates]})


@pytest.fixture(scope="module")
def pair(line: LineMaker) -> tuple[ScheduleLine, ...]:
    """A door and a panel of 1 m2 each, from two boards."""
    return line("door"), line("panel", stock="18 mm MDF")


def usages(usage_of: UsageMaker, lines: Sequence[ScheduleLine], *prices: str) -> list[MaterialUsage]:
    return [usage_of([entry], sheets=1, price=price) for entry, price in zip(lines, prices, strict=True)]


def test_two_kinds_together_pay_for_the_delivery_that_neither_pays_alone(
    bare_book: Book, usage_of: UsageMaker, pair: tuple[ScheduleLine, ...]
) -> None:
    # alone: 100 + 85 = 185 against 150; both: 100 + 100 + 85 = 285 against 300
    shop = workshop(delivery="85", board={"22 mm MDF": "100", "18 mm MDF": "100"})
    answer = make_or_buy(pair, usages(usage_of, pair, "150", "150"), bare_book, DAY, shop, {})
    assert [answer.maker_of(kind) for kind in (DOOR, PANEL)] == [Making.BOUGHT, Making.BOUGHT]
    totals = answer.totals
    assert (totals.all_site, totals.all_bought, totals.decided) == (D("300.00"), D("285.00"), D("285.00"))
    door = answer.choice_of(DOOR)
    # its half of the delivery is 42.50; made on site instead: 150 + 100 + 85 = 335, 50 more than 285
    assert (door.delivery, door.bought_amount, door.difference) == (D("42.50"), D("142.50"), D("7.50"))
    assert door.other_way == D("50.00")
    assert door.reason == (
        "Bought in, as it is cheaper on average: made on site it would cost the job 50.00 EUR more and take 0.00 crew hours."
    )


def test_alone_it_stays_on_site(bare_book: Book, usage_of: UsageMaker, pair: tuple[ScheduleLine, ...]) -> None:
    shop = workshop(delivery="85", board={"22 mm MDF": "100", "18 mm MDF": "100"})
    answer = make_or_buy(pair, usages(usage_of, pair, "150", "150"), bare_book, DAY, shop, {"panel": Making.SITE})
    door, panel = answer.choice_of(DOOR), answer.choice_of(PANEL)
    assert (door.decision, panel.decision) == (Making.SITE, Making.SITE)
    # added to an order of nothing it would bring the whole delivery with it
    assert (door.delivery, door.bought_amount, door.other_way) == (D("85.00"), D("185.00"), D("35.00"))
    assert panel.reason == "Made on site, as the job asks; bought in it would cost the job 35.00 EUR more."
    assert answer.order.amount == 0


def test_a_dear_part_is_bought_in_to_fill_the_least_order(
    bare_book: Book, usage_of: UsageMaker, pair: tuple[ScheduleLine, ...]
) -> None:
    # door 150 or 100, panel 60 or 70, least order 180: door alone 180 + 60 = 240, both max(170, 180) = 180, none 210
    shop = workshop(least="180", board={"22 mm MDF": "100", "18 mm MDF": "70"})
    answer = make_or_buy(pair, usages(usage_of, pair, "150", "60"), bare_book, DAY, shop, {})
    assert answer.totals.decided == D("180.00")
    panel = answer.choice_of(PANEL)
    # 10.00 of top-up shared 100 : 70 = 5.88 and 4.12
    assert (panel.decision, panel.top_up, panel.bought_amount, panel.other_way) == (
        Making.BOUGHT,
        D("4.12"),
        D("74.12"),
        D("60.00"),
    )
    assert panel.difference == D("-14.12")
    assert tuple(map(str, answer.remarks)) == (
        "The order's parts come to 170.00 EUR; Mill Shed charges 180.00 EUR at least, before delivery.",
    )


def test_what_adding_to_an_order_would_save_of_its_top_up(
    bare_book: Book, usage_of: UsageMaker, pair: tuple[ScheduleLine, ...]
) -> None:
    shop = workshop(least="180", delivery="20", board={"22 mm MDF": "100", "18 mm MDF": "70"})
    making = {"door": Making.BOUGHT, "panel": Making.SITE}
    answer = make_or_buy(pair, usages(usage_of, pair, "150", "60"), bare_book, DAY, shop, making)
    panel = answer.choice_of(PANEL)
    # the order of 100 is topped up by 80; with the panel's 70 by 10 only, and the van comes anyway: 70 - 70 + 0
    assert (panel.top_up, panel.delivery, panel.bought_amount) == (D("-70.00"), D("0.00"), D("0.00"))
    assert panel.reason == "Made on site, as the job asks; bought in it would cost the job 60.00 EUR less."
    assert answer.totals.decided == D("260.00")  # 60 + 180 + 20


def test_equal_ways(bare_book: Book, book: Book, usage_of: UsageMaker, pair: tuple[ScheduleLine, ...]) -> None:
    # without crew time in it the tie goes to fewer kinds in the order; with crew time to the way that saves it
    shop = workshop(board={"22 mm MDF": "100", "18 mm MDF": "500"})
    answer = make_or_buy(pair, usages(usage_of, pair, "100", "100"), bare_book, DAY, shop, {})
    assert answer.choice_of(DOOR).decision is Making.SITE
    assert answer.choice_of(DOOR).reason == "Made on site: both ways cost the job the same."
    usage = usages(usage_of, pair, "100", "100")
    site = make_or_buy(pair, usage, book, DAY, None, {}).choice_of(DOOR).site_amount
    shop = workshop(board={"22 mm MDF": str(site), "18 mm MDF": "500"})
    door = make_or_buy(pair, usage, book, DAY, shop, {}).choice_of(DOOR)
    assert (door.decision, door.difference) == (Making.BOUGHT, D(0))
    assert door.reason == (
        f"Bought in: both ways cost the job the same, and this way saves {door.crew_hours_saved} crew hours."
    )


def test_what_cant_be_bought_is_made_on_site(book: Book, usage_of: UsageMaker, pair: tuple[ScheduleLine, ...]) -> None:
    usage = usages(usage_of, pair, "150", "150")
    answer = make_or_buy(pair, usage, book, DAY, workshop(board={"22 mm MDF": "1"}), {})
    panel = answer.choice_of(PANEL)
    assert (panel.decision, panel.bought_amount, panel.difference, panel.other_way) == (Making.SITE, None, None, None)
    assert panel.reason == ("Made on site, as it can't be bought in: Mill Shed has no rate for the board '18 mm MDF'.")
    assert answer.totals.all_bought is None
    assert [opening.bought for opening in answer.openings] == [None]
    alone = make_or_buy(pair, usage, book, DAY, None, {"door": Making.SITE})
    assert {choice.decision for choice in alone.kinds} == {Making.SITE}
    assert alone.choice_of(DOOR).reason == (
        "Made on site, as the job asks; it could not be bought in: the book has no workshop."
    )
    assert alone.workshop == ""


def test_every_fault_is_raised_at_once(raw_book: dict[str, Any], pair: tuple[ScheduleLine, ...]) -> None:
    rates = [rate for rate in raw_book["rates"] if rate["name"] != "paint"]
    book = Book.model_validate({**raw_book, "rates": rates})
    with pytest.raises(InputError) as caught:
        make_or_buy(pair, [], book, DAY, None, {"door": Making.BOUGHT, "dor": Making.SITE})
    assert str(caught.value).split("\n") == [
        "making.dor: there is no kind of part 'dor'; did you mean door?",
        "making.door: it can't be bought in: the book has no workshop; make it on site or add what is missing",
        "book.rates: there is no rate 'paint' that holds on 2026-11-02; add one",
    ]
    with pytest.raises(InputError, match="usage of '22 mm MDF': there is none"):
        make_or_buy(pair, [], Book.model_validate(raw_book), DAY, None, {})


def test_an_empty_schedule_costs_nothing(book: Book) -> None:
    answer = make_or_buy([], [], book, DAY, book.workshops[0], {"door": Making.BOUGHT})
    assert (answer.kinds, answer.openings, answer.totals.decided) == ((), (), D(0))
    with pytest.raises(KeyError):
        answer.maker_of(DOOR)


def test_settling_puts_the_real_sheets_in(bare_book: Book, usage_of: UsageMaker, line: LineMaker) -> None:
    # they share a sheet of 120.00, half each; once the panel is bought in for 58 the door pays the whole sheet
    lines = [line("door"), line("panel")]
    shop = workshop(board={"22 mm MDF": "58"})
    decided = make_or_buy(
        lines,
        [usage_of(lines, sheets=1, price="120.00")],
        bare_book,
        DAY,
        shop,
        {"panel": Making.BOUGHT, "door": Making.SITE},
    )
    assert (decided.totals.site_made, decided.totals.decided) == (D("60.00"), D("118.00"))
    settled = settle(decided, lines, [usage_of(lines[:1], sheets=1, price="120.00")], bare_book, shop)
    assert (settled.totals.site_made, settled.totals.decided) == (D("120.00"), D("178.00"))
    assert settled.choice_of(PANEL) == decided.choice_of(PANEL)
    assert [choice.decision for choice in settled.kinds] == [choice.decision for choice in decided.kinds]
    assert sum(opening.decided for opening in settled.openings) == settled.totals.decided


def test_settling_says_where_the_real_sheets_speak_against_the_decision(
    bare_book: Book, usage_of: UsageMaker, line: LineMaker
) -> None:
    # the door's half of the sheet is 60 against 61 bought in; once the panel is gone it pays 120
    lines = [line("door"), line("panel", length=1000.0, width=1000.0)]
    shop = workshop(part="61")
    shop = shop.model_copy(update={"rates": (shop.rates[0].model_copy(update={"board_m2": {"22 mm MDF": D(0)}}),)})
    decided = make_or_buy(
        lines, [usage_of(lines, sheets=1, price="120.00")], bare_book, DAY, shop, {"panel": Making.BOUGHT}
    )
    assert decided.maker_of(DOOR) is Making.SITE
    settled = settle(decided, lines, [usage_of(lines[:1], sheets=1, price="120.00")], bare_book, shop)
    assert settled.choice_of(DOOR).reason == (
        "Made on site, as it was cheaper by its share of the sheets; as they are laid out now, "
        "bought in it would cost the job 59.00 EUR less."
    )
    with pytest.raises(InputError, match=r"usage of '22 mm MDF': it covers 2\.000 m2 of parts"):
        settle(decided, lines, [usage_of(lines, sheets=1)], bare_book, shop)


# -- properties

KINDS = st.lists(
    st.sampled_from(["door", "lining leg", "lining head", "hinge lining", "panel"]), min_size=1, max_size=5, unique=True
)
PRICE = st.integers(0, 4000).map(lambda cents: str(D(cents) / 100))


@st.composite
def situations(draw: st.DrawFn) -> dict[str, Any]:
    lines = [
        {
            "kind": kind,
            "stock": draw(st.sampled_from(["22 mm MDF", "18 mm MDF", "oak"])),
            "length": draw(st.integers(200, 2400)) * 1.0,
            "width": draw(st.integers(50, 1200)) * 1.0,
            "cups": draw(st.integers(0, 4)),
            "plate_holes": draw(st.integers(0, 4)),
            "coats": draw(st.integers(0, 2)),
            "openings": draw(
                st.lists(
                    st.tuples(st.sampled_from(["C1", "C2", "C3"]), st.integers(1, 5)),
                    min_size=1,
                    max_size=3,
                    unique_by=lambda o: o[0],
                )
            ),
        }
        for kind in draw(KINDS)
        for _ in range(draw(st.integers(1, 2)))
    ]
    shop = {
        "set_up": draw(PRICE),
        "part": draw(PRICE),
        "edge_m": draw(PRICE),
        "boring": draw(PRICE),
        "coat_m2": draw(PRICE),
        "delivery": str(draw(st.integers(0, 200))),
        "least": str(draw(st.integers(0, 600))),
        "board": {"22 mm MDF": draw(PRICE), "18 mm MDF": draw(PRICE)},
    }
    wishes = {name: draw(st.sampled_from([Making.SITE, Making.CHEAPER, Making.BOUGHT])) for name in draw(KINDS)}
    return {"lines": lines, "shop": shop, "making": wishes}


def answered(situation: dict[str, Any], book: Book, line: LineMaker, usage_of: UsageMaker) -> MakeOrBuy | None:
    """The answer; None where the job wants something bought in that the workshop has no rate for."""
    lines = [line(**fields) for fields in situation["lines"]]
    stocks = dict.fromkeys(entry.part.stock for entry in lines)
    usage = [usage_of([entry for entry in lines if entry.part.stock == stock]) for stock in stocks]
    try:
        return make_or_buy(lines, usage, book, DAY, workshop(**situation["shop"]), situation["making"])
    except InputError as error:
        assert all("it can't be bought in" in str(fault) for fault in error.faults)  # noqa: PT017
        return None


def cost_of(answer: MakeOrBuy, shop: dict[str, Any], ways: Mapping[PartKind, Making]) -> Decimal:
    """What a choice costs, reckoned here again from the kinds' own amounts."""
    total = sum((c.site_amount for c in answer.kinds if ways[c.kind] is Making.SITE), D(0))
    ordered = [c.bought.amount for c in answer.kinds if ways[c.kind] is Making.BOUGHT]
    if not ordered:
        return total
    assert None not in ordered
    return total + max(sum(a for a in ordered if a is not None), D(shop["least"])) + D(shop["delivery"])


@settings(max_examples=100, deadline=None)
@given(situation=situations())
def test_no_other_choice_is_cheaper_and_everything_adds_up(
    book: Book, line: LineMaker, usage_of: UsageMaker, situation: dict[str, Any]
) -> None:
    answer = answered(situation, book, line, usage_of)
    if answer is None:
        return
    shop, wishes = situation["shop"], situation["making"]
    allowed = {
        c.kind: [
            way
            for way in (Making.SITE, Making.BOUGHT)
            if wishes.get(c.kind, Making.CHEAPER) in (Making.CHEAPER, way)
            and (way is Making.SITE or c.bought.amount is not None)
        ]
        for c in answer.kinds
    }
    costs = [cost_of(answer, shop, dict(zip(allowed, ways, strict=True))) for ways in product(*allowed.values())]
    taken = {c.kind: c.decision for c in answer.kinds}
    assert all(taken[kind] in ways for kind, ways in allowed.items())
    assert answer.totals.decided == cost_of(answer, shop, taken)
    # the decision rests on times that are not rounded line by line, so it may be half a penny a line off the sum of lines
    near = D("0.005") * sum(len(c.site.lines) for c in answer.kinds)
    assert answer.totals.decided <= min(costs) + near
    for choice in answer.kinds:
        assert sum(o.site for o in choice.openings) == choice.site_amount
        assert sum(o.parts for o in choice.openings) == choice.parts
        if choice.bought_amount is not None:
            assert sum(o.bought or 0 for o in choice.openings) == choice.bought_amount
            flipped = {**taken, choice.kind: Making.SITE if choice.decision is Making.BOUGHT else Making.BOUGHT}
            assert choice.other_way is not None
            assert abs(choice.other_way - cost_of(answer, shop, flipped) + answer.totals.decided) <= near + D("0.01")
            if wishes.get(choice.kind, Making.CHEAPER) is Making.CHEAPER:
                assert choice.other_way >= 0
    assert sum(o.site for o in answer.openings) == answer.totals.all_site
    assert sum(o.decided for o in answer.openings) == answer.totals.decided
    assert answer.totals.site_made + answer.totals.bought_in == answer.totals.decided
    assert answer.order.amount == sum(c.bought_amount or 0 for c in answer.kinds if c.decision is Making.BOUGHT)


def test_all_kinds_left_free(book: Book, line: LineMaker, usage_of: UsageMaker) -> None:
    # every other kind is painted, which the workshop here does for nothing, so that some are worth buying in
    lines = [
        line(kind.value, length=600.0 + 150 * n, width=80.0 + 40 * n, coats=n % 2 * 3, openings=[("C1", 1 + n % 3)])
        for n, kind in enumerate(PartKind)
    ]
    shop = {"board": {"22 mm MDF": "26"}, "set_up": "8", "part": "9", "least": "150", "delivery": "30"}
    answer = make_or_buy(lines, [usage_of(lines)], book, DAY, workshop(**shop), {})  # type: ignore[arg-type]
    assert len(answer.kinds) == len(PartKind)
    ways = product((Making.SITE, Making.BOUGHT), repeat=len(PartKind))
    assert answer.totals.decided == min(cost_of(answer, shop, dict(zip(PartKind, way, strict=True))) for way in ways)
    assert {choice.decision for choice in answer.kinds} == {Making.SITE, Making.BOUGHT}
