"""The final account, by hand and to the penny."""

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
from rodbook.job.models import Making
from rodbook.money import (
    Invoice,
    InvoiceLine,
    MaterialUsage,
    Planned,
    TimeEntry,
    final_account,
    make_or_buy,
    planned_of,
)
from rodbook.setout import ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)


def hours(task: str, minutes: int, person: str = "Anna", done: str | None = None) -> TimeEntry:
    return TimeEntry(DAY, person, task, D(minutes), None if done is None else D(done))


def invoice(number: str, currency: str = "EUR", **lines: str) -> Invoice:
    return Invoice("Mill", number, DAY, currency, tuple(InvoiceLine(w, D(a)) for w, a in lines.items()))


def test_an_account_by_hand() -> None:
    planned = Planned({"bore a cup": D(2), "fitting": D(8)}, {"boards": D("300.00")})
    entries = [hours("bore a cup", 90), hours("fitting", 300), hours("fitting", 240, "Ben"), hours("snags", 30, "Ben")]
    invoices = [invoice("1", boards="320.00"), invoice("2", boards="-15.50", screws="12.00")]
    found = final_account(planned, entries, invoices, currency="EUR", crew_hour=D(38), net=D(1000), finished=True)
    rows = [(x.what, x.planned, x.actual, x.planned_hours, x.actual_hours) for x in found.lines]
    assert rows == [
        ("bore a cup", D("76.00"), D("57.00"), 2, D("1.5")),
        ("fitting", D("304.00"), D("342.00"), 8, 9),
        ("snags", 0, D("19.00"), 0, D("0.5")),
        ("boards", D("300.00"), D("304.50"), 0, 0),
        ("screws", 0, D("12.00"), 0, 0),
    ]
    assert (found.planned, found.actual, found.earned_planned, found.earned) == (680, D("734.50"), 320, D("265.50"))
    assert found.by_person == (("Anna", D("6.5")), ("Ben", D("4.5")))
    assert (found.margin_planned, found.margin) == (D("0.32"), D("0.2655"))
    assert found.sentences == (
        "The job cost 54.50 EUR more than planned; it leaves 265.50 EUR, 26.6% of the price.",
        "fitting: 38.00 EUR over, 1.0 hours.",
        "bore a cup: 19.00 EUR under, 0.5 hours.",
        "snags: 19.00 EUR over.",
    )


def test_an_account_on_the_way_says_what_is_still_to_come() -> None:
    """The first day: ninety minutes and one invoice. It cost less than planned only because most of it is missing."""
    planned = Planned({"bore a cup": D(1), "fitting": D(8)}, {"boards": D("300.00")})
    given = {"currency": "EUR", "crew_hour": D(38), "net": D(1000)}
    found = final_account(planned, [hours("bore a cup", 90)], [], finished=False, **given)  # type: ignore[arg-type]
    rows = [(x.what, x.actual, x.to_come, x.more) for x in found.lines]
    # 1.5 hours instead of 1 are taken; 8 hours and the boards are to come
    assert rows == [("bore a cup", 57, 0, 19), ("fitting", 0, 304, 0), ("boards", 0, 300, 0)]
    assert (found.actual, found.to_come, found.forecast, found.earned) == (57, 604, 661, 339)
    assert found.sentences == (
        "Not finished: 57.00 EUR are taken, 604.00 EUR of what is planned are still to come.",
        (
            "The job is heading for 661.00 EUR at least, 19.00 EUR more than planned; it leaves 339.00 EUR at most, "
            "33.9% of the price."
        ),
        "bore a cup: 19.00 EUR over, 0.5 hours.",
    )
    over = final_account(planned, [hours("bore a cup", 90)], [], finished=True, **given)  # type: ignore[arg-type]
    assert over.sentences[0] == "The job cost 585.00 EUR less than planned; it leaves 943.00 EUR, 94.3% of the price."


@given(st.lists(st.tuples(st.integers(0, 900), st.integers(0, 900)), min_size=1, max_size=5))
def test_while_work_is_missing_no_account_is_cheaper_than_planned(pairs: Any) -> None:
    planned = Planned({}, {f"line {n}": D(before) for n, (before, _) in enumerate(pairs)})
    taken = [invoice(str(n), **{f"line {n}": str(after)}) for n, (_, after) in enumerate(pairs) if after]
    found = final_account(planned, [], taken, currency="EUR", crew_hour=D(38), net=D(1000), finished=False)
    assert found.forecast == sum(max(before, after) for before, after in pairs) >= found.planned
    assert found.earned == 1000 - found.forecast <= found.earned_planned
    assert sum(x.to_come for x in found.lines) == found.to_come
    assert not any("less than planned" in told for told in found.sentences)


AMOUNTS = st.decimals(-500, 5000, places=2)
ENTRIES = st.lists(st.tuples(st.sampled_from(["bore", "fit"]), st.integers(1, 600), st.sampled_from(["Anna", "Ben"])))


@given(ENTRIES, st.lists(st.lists(AMOUNTS, max_size=4), max_size=4), st.decimals(1, 90, places=2))
def test_no_penny_is_lost(entries: Any, amounts: Any, hour: Decimal) -> None:
    invoices = [
        Invoice("Mill", str(n), DAY, "EUR", tuple(InvoiceLine(f"line {k}", a) for k, a in enumerate(each)))
        for n, each in enumerate(amounts)
    ]
    planned = Planned({"bore": D("1.25")}, {"line 0": D("10.00")})
    found = final_account(
        planned,
        [hours(t, m, p) for t, m, p in entries],
        invoices,
        currency="EUR",
        crew_hour=hour,
        net=D(1000),
        finished=True,
    )
    assert sum(x.actual for x in found.lines) == found.actual == found.net - found.earned
    assert sum(x.planned for x in found.lines) == found.planned == found.net - found.earned_planned
    bought = sum(x.actual for x in found.lines if x.what.startswith("line"))
    assert bought == sum(a for each in amounts for a in each)
    by_task = sum(x.actual_hours for x in found.lines)
    assert abs(sum(h for _, h in found.by_person) - by_task) < D("1e-20")  # a third of an hour has no end


def test_what_a_plan_reckons_with(
    book: Book, line: Callable[..., ScheduleLine], usage_of: Callable[..., MaterialUsage]
) -> None:
    lines = [line(openings=[("C1", 6)], cups=2, coats=1), line("panel", openings=[("P1", 8)], mark="X2")]
    making = {"door": Making.SITE, "panel": Making.BOUGHT}
    money = make_or_buy(lines, [usage_of(lines)], book, DAY, book.workshops[0], making)
    planned = planned_of(money)
    assert planned.hours["bore a cup"] == D(12) * 3 / 60
    assert planned.costs[book.workshops[0].name] == money.order.amount
    labour = sum(planned.hours.values()) * 38
    assert float(labour + sum(planned.costs.values())) == pytest.approx(float(money.totals.decided), abs=0.06)


def test_faults_are_all_named() -> None:
    entries = [hours("fit", 0), hours("fit", 1000), hours("fit", 10, done="0")]
    invoices = [invoice("1", boards="1.005"), invoice("1", currency="GBP")]
    with pytest.raises(InputError) as caught:
        final_account(Planned({}, {}), entries, invoices, currency="EUR", crew_hour=D(38), net=D(0), finished=True)
    assert str(caught.value).split("\n") == [
        "hours[1] (Anna, 2026-11-02): 0 minutes are no day's work; write between 1 and 960",
        "hours[2] (Anna, 2026-11-02): 1000 minutes are no day's work; write between 1 and 960",
        "hours[3] (Anna, 2026-11-02): 0 done can't be; leave it empty where it was not counted",
        "invoices[1] (Mill, 1): boards: 1.005 is no amount of EUR; write it as it stands there",
        "invoices[2] (Mill, 1): it is in GBP and the job in EUR; enter what was paid in EUR",
        "invoices[2] (Mill, 1): it is entered twice; keep one of them",
        "net: a price of 0 is none; write what the client pays",
    ]
