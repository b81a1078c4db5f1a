"""A job as priced against later prices, by hand and by properties."""

from __future__ import annotations

import copy
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.models import Making
from rodbook.money import MaterialUsage, reprice, usage_on
from rodbook.setout import PartKind, ScheduleLine

D = Decimal
THEN, NOW = date(2026, 6, 1), date(2026, 11, 2)
MAKERS = {PartKind.DOOR: Making.SITE, PartKind.PANEL: Making.BOUGHT}


@pytest.fixture(scope="module")
def job(line: Callable[..., ScheduleLine], usage_of: Callable[..., MaterialUsage], book: Book) -> Any:
    doors = line(openings=[("C1", 10)], cups=2, coats=1)
    panels = line("panel", openings=[("P1", 4)], mark="X2")
    usage = usage_of([doors], sheets=5, cut_m=60.0)
    sheet = book.board("22 mm MDF").sheets[0]
    taken = tuple(type(t)(sheet.name, t.count, sheet.prices[0].amount, sheet.length, sheet.width) for t in usage.taken)
    return [doors, panels], [MaterialUsage("22 mm MDF", False, taken, 22.0, 750.0, usage.parts_m2, 60.0)]


def moved_book(raw: dict[str, Any], *, sheet: str = "", hour: float = 0, size: float = 0, coats: str = "") -> Book:
    """The sample book with other prices from October on."""
    changed = copy.deepcopy(raw)
    since = "2026-10-01"
    board = next(b for b in changed["boards"] if b["name"] == "22 mm MDF")
    if sheet:
        board["sheets"][0]["prices"].append({"amount": sheet, "since": since, "source": "test"})
    for name, unit, value in (("crew hour", "currency/hour", hour), ("size a part", "minutes/part", size)):
        if value:
            changed["rates"].append({"name": name, "value": value, "unit": unit, "since": since, "source": "test"})
    if coats:
        rates = changed["workshops"][0]["rates"]
        rates.append({**rates[0], "since": since, "delivery": coats})
    return Book.model_validate(changed)


def test_what_moved_by_hand(raw_book: dict[str, Any], job: Any) -> None:
    before = Book.model_validate(raw_book).board("22 mm MDF").sheets[0].prices
    old = max((p for p in before if p.since <= THEN), key=lambda p: p.since).amount
    book = moved_book(raw_book, sheet=str(old + 6), hour=41, size=5, coats="95.00")
    found = reprice(*job, book, then=THEN, now=NOW, workshop=book.workshops[0], makers=MAKERS, net=D(2000))
    moved = {m.what: m.more for m in found.moved}
    assert moved["material, 22 mm MDF"] == 30  # five sheets at 6 more
    assert moved["size a part"] == D("6.34")  # ten parts, five minutes and not four, at 38.00 an hour: 31.67 - 25.33
    assert moved["workshop: delivery"] == 10
    assert sum(moved.values()) == found.cost_now - found.cost_then
    # 3.00 more an hour on all the hours there are today
    assert set(moved) == {"material, 22 mm MDF", "size a part", "workshop: delivery", "crew hour"}
    assert found.margin_now < found.margin_then
    assert (found.keep_margin - found.cost_now) / found.keep_margin == pytest.approx(found.margin_then, abs=D("1e-5"))
    assert found.sentences[0] == f"The job costs {found.cost_now - found.cost_then} EUR more than it was priced at."
    assert found.sentences[2].startswith("To keep ")


@settings(max_examples=25, deadline=None)
@given(hour=st.integers(20, 70), size=st.integers(1, 9), sheet=st.integers(30, 90), delivery=st.integers(0, 200))
def test_what_moved_adds_up(
    raw_book: dict[str, Any], job: Any, hour: int, size: int, sheet: int, delivery: int
) -> None:
    book = moved_book(raw_book, sheet=str(sheet), hour=hour, size=size, coats=str(delivery))
    workshop = book.workshops[0]
    found = reprice(*job, book, then=THEN, now=NOW, workshop=workshop, makers=MAKERS, net=D(2000), other_cost=D(100))
    assert sum(m.more for m in found.moved) == found.cost_now - found.cost_then
    back = reprice(*job, book, then=NOW, now=THEN, workshop=workshop, makers=MAKERS, net=D(2000), other_cost=D(100))
    assert (back.cost_then, back.cost_now) == (found.cost_now, found.cost_then)
    assert sum(m.more for m in back.moved) == back.cost_now - back.cost_then


def test_nothing_moved(book: Book, job: Any) -> None:
    found = reprice(*job, book, then=NOW, now=NOW, workshop=book.workshops[0], makers=MAKERS, net=D(2000))
    assert (found.moved, found.sentences) == ((), ("Nothing has moved: the job costs what it was priced at.",))


def test_what_is_wrong_is_said(book: Book, job: Any) -> None:
    with pytest.raises(InputError) as caught:
        usage_on(job[1], book, date(2020, 1, 1))
    name = book.board("22 mm MDF").sheets[0].name
    assert str(caught.value) == f"book, {name!r}: it has no price that holds on 2020-01-01"
    with pytest.raises(InputError, match="net: a price of 0 is none; write what was agreed"):
        reprice(*job, book, then=NOW, now=NOW, workshop=None, makers=MAKERS, net=D(0))
    with pytest.raises(InputError, match="panel: it can't be bought in: the book has no workshop"):
        reprice(*job, book, then=NOW, now=NOW, workshop=None, makers=MAKERS, net=D(10))
