"""Which quote to take and why: each verdict against what is taken."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.money import LumpSum, Quote, QuoteLine, QuotesHeld, hold_quotes
from rodbook.setout import ScheduleLine

D = Decimal
DAY = date(2026, 11, 2)
ALL = {"D1": (4, "200.00"), "D2": (2, "120.00"), "P1": (3, "60.00")}


@pytest.fixture(scope="module")
def order(line: Callable[..., ScheduleLine]) -> list[ScheduleLine]:
    return [
        line(openings=[("C1", 4)], mark="D1"),
        line(openings=[("C2", 2)], mark="D2"),
        line("panel", openings=[("P1", 3)], mark="P1"),
    ]


def quote(name: str, lines: dict[str, tuple[int, str]], **more: Any) -> Quote:
    given = tuple(QuoteLine(m, q, D(a)) for m, (q, a) in lines.items())
    return Quote(
        **{
            "workshop": name,
            "day": date(2026, 10, 20),
            "valid_until": date(2026, 12, 1),
            "currency": "EUR",
            "lead_days": 10,
            "lines": given,
            **more,
        }
    )


def held(order: list[ScheduleLine], *quotes: Quote, **more: Any) -> QuotesHeld:
    return hold_quotes(order, quotes, currency="EUR", day=DAY, **more)


def said(found: QuotesHeld) -> dict[str, str]:
    return {verdict.workshop: verdict.sentence for verdict in found.verdicts}


def test_all_to_one_says_by_how_much_the_next_is_dearer(order: list[ScheduleLine]) -> None:
    mill, barn = (
        quote("Mill", ALL, delivery=D(40)),
        quote("Barn", {m: (q, f"{float(a) + 20}") for m, (q, a) in ALL.items()}),
    )
    found = held(order, mill, barn, trouble=D(500))
    assert said(found) == {
        "Mill": "Take all of it from here, for 420.00 EUR with delivery. The next that has all of it is Barn, 20.00 EUR more.",
        "Barn": "Not taken: for exactly what is ordered it comes to 440.00 EUR, 20.00 more than what is taken.",
    }
    assert [v.taken is not None for v in found.verdicts] == [True, False]
    assert said(held(order, mill)) == {
        "Mill": "Take all of it from here, for 420.00 EUR with delivery. No other can be held against the order."
    }
    twins = said(held(order, mill, quote("Barn", ALL, delivery=D(40))))
    assert sorted(sentence[:8] for sentence in twins.values()) == ["Not take", "Take all"]
    assert "costs as much." in " ".join(twins.values())


def test_a_split_says_how_many_lines_each_gets(order: list[ScheduleLine]) -> None:
    mill = quote("Mill", ALL | {"D1": (4, "100.00")}, delivery=D(10))
    barn = quote("Barn", {"D1": (4, "400.00"), "D2": (2, "20.00")}, delivery=D(5), least_order=D(50))
    found = held(order, mill, barn)
    assert said(found) == {
        "Mill": "Take 2 of 3 lines from it, for 170.00 EUR with its delivery of 10.00.",
        "Barn": "Take 1 of 3 lines from it, for 55.00 EUR with its delivery of 5.00, 30.00 of it up to its least charge.",
    }
    assert sum(v.taken.amount for v in found.verdicts if v.taken) == found.split.amount if found.split else False


def test_what_is_shut_out_says_why(order: list[ScheduleLine]) -> None:
    late, old = quote("Late", ALL, lead_days=40), quote("Old", ALL, valid_until=date(2026, 10, 30))
    told = said(held(order, quote("Mill", ALL), late, old, needed_days=15))
    assert told["Late"] == "Left out: it takes 40 working days, 25 more than there are before the parts are needed."
    assert told["Old"] == "Left out: it was valid until 2026-10-30; ask again."
    nothing = held(order, late, old, needed_days=15)
    assert nothing.split is None
    assert nothing.sentence.startswith("Nobody quotes D1, D2, P1")


def test_what_lacks_lines_says_which(order: list[ScheduleLine]) -> None:
    cheap = quote("Cheap", {"D1": (4, "190.00")}, delivery=D(40))
    told = said(held(order, quote("Mill", ALL), cheap, quote("Odd", {"D9": (1, "5.00")})))
    assert (
        told["Cheap"] == "Not taken: for exactly what is ordered it comes to 410.00 EUR, 30.00 more than what is taken."
    )
    assert told["Odd"].startswith("Not taken: ")
    near = quote("Near", {"D1": (4, "185.00")}, delivery=D(10))
    told = said(held(order, quote("Mill", ALL, delivery=D(30)), near, trouble=D(50)))
    assert told["Near"].startswith("Not taken: it does not have D2, P1 as ordered, and with the rest")
    assert said(held(order, near))["Near"] == "It does not have D2, P1 as ordered."


def test_faults_are_told_as_ever(order: list[ScheduleLine]) -> None:
    with pytest.raises(InputError, match="it is in GBP"):
        held(order, quote("Mill", ALL, currency="GBP"))
    with pytest.raises(InputError, match="nothing is ordered"):
        held([], quote("Mill", ALL))


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_every_quote_has_a_verdict_and_what_is_taken_adds_up(order: list[ScheduleLine], data: st.DataObject) -> None:
    quotes = []
    for n in range(data.draw(st.integers(1, 4))):
        marks = data.draw(st.lists(st.sampled_from(["D1", "D2", "P1"]), unique=True))
        lines = {m: (ALL[m][0], str(data.draw(st.integers(0, 300)))) for m in marks}
        lumps = (LumpSum(("D1", "P1"), D(data.draw(st.integers(0, 300)))),) if not {"D1", "P1"} & set(marks) else ()
        quotes.append(
            quote(
                f"W{n}",
                lines,
                lumps=lumps,
                delivery=D(data.draw(st.integers(0, 60))),
                least_order=D(data.draw(st.integers(0, 100))),
            )
        )
    found = held(order, *quotes)
    assert len(found.verdicts) == len(quotes)
    assert all(v.sentence.endswith(".") and v.sentence[0].isupper() for v in found.verdicts)
    taken = [v.taken for v in found.verdicts if v.taken is not None]
    if found.split is None:
        assert taken == []
    else:
        assert sorted(m for one in taken for m in one.marks) == ["D1", "D2", "P1"]
        assert sum((one.amount for one in taken), D(0)) == found.split.amount
