"""The public face of the package: what it offers, and that an answer prints as JSON."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import FrozenInstanceError, asdict, is_dataclass
from datetime import date

import pytest

import rodbook.money
from rodbook.job import Book
from rodbook.money import MaterialUsage, make_or_buy
from rodbook.setout import ScheduleLine

DAY = date(2026, 11, 2)


def test_everything_offered_is_there_and_documented() -> None:
    for name in rodbook.money.__all__:
        assert getattr(rodbook.money, name).__doc__, name
    public = {n for n, o in vars(rodbook.money).items() if is_dataclass(o) or callable(o)} - {"late_face"}
    assert public <= set(rodbook.money.__all__)


def test_an_answer_prints_as_json_and_cannot_be_changed(
    book: Book, line: Callable[..., ScheduleLine], usage_of: Callable[..., MaterialUsage]
) -> None:
    lines = [line(openings=[("C1", 2)]), line("panel", openings=[("P1", 1)])]
    answer = make_or_buy(lines, [usage_of(lines)], book, DAY, book.workshops[0], {})
    again = json.loads(json.dumps(asdict(answer), default=str))
    assert again["totals"]["decided"] == str(answer.totals.decided)
    assert [kind["kind"] for kind in again["kinds"]] == ["door", "panel"]
    with pytest.raises(FrozenInstanceError):
        answer.currency = "GBP"  # type: ignore[misc]
